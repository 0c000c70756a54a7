package grid

import (
	"cmp"
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
)

// crossings appends where the rings cross the level y, in order.
func crossings(rings [][]geom.Point, y float64, cuts []float64) []float64 {
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.Y <= y) != (b.Y <= y) {
				cuts = append(cuts, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
	}
	slices.Sort(cuts)
	return cuts
}

// counts reports whether a text makes a page worth printing. A name does not: renaming a piece prints nothing anew.
func counts(w *word) bool { return w.mark.Role != drawing.Name }

// sortPlaces sorts columns and rows row by row from the lowest, each from the left.
func sortPlaces(p [][2]int) {
	slices.SortFunc(p, func(a, b [2]int) int {
		if d := cmp.Compare(a[1], b[1]); d != 0 {
			return d
		}
		return cmp.Compare(a[0], b[0])
	})
}
