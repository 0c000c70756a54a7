package setout

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// inOrder returns the rows of all elements in the order in which they are laid, not yet taped: pins first; then piece
// by piece, the piece with the longest line first (long lines are laid by tape, short ones follow from them), of equals the one
// nearer the front, then farther left; and along each piece in the order of its points. Round pieces, which have no line, come
// last. So the order of the file's lines changes nothing.
func inOrder(s *set.Set) []Row {
	type piece struct {
		first   geom.Vec // the first point of the element's first copy, in whole tolerances: copies stay in their order
		rows    []Row
		longest float64
	}
	var pins, pieces []piece
	for _, e := range s.Elements {
		var first *geom.Vec
		for _, c := range e.Copies {
			for _, pl := range c.Places {
				points := set.FloorPoints(e, pl)
				if len(points) == 0 {
					continue
				}
				if first == nil {
					at := func(x float64) float64 { return math.Round(x / geom.Tolerance) }
					first = &geom.Vec{X: at(points[0].At.X), Y: at(points[0].At.Y), Z: at(points[0].Level)}
				}
				pin, p := piece{first: *first}, piece{first: *first, rows: make([]Row, 0, len(points))}
				name := e.PlaceName(c, pl)
				for _, f := range points {
					r := Row{Element: name, Point: f.Name, Of: e, At: f.At, Level: f.Level, Top: f.Level + rises(e.Shape), Tape: e.Tape, Pin: f.First, Run: f.Run, Along: f.Along, Same: -1}
					if r.Pin {
						pin.rows = append(pin.rows, r)
						continue
					}
					p.rows = append(p.rows, r)
					p.longest = max(p.longest, math.Round(f.Run*10)) // lines whose figures are equal are equal
				}
				pins, pieces = append(pins, pin), append(pieces, p)
			}
		}
	}
	order := func(a, b piece) int {
		return cmp.Or(cmp.Compare(b.longest, a.longest),
			cmp.Compare(a.first.Y, b.first.Y), cmp.Compare(a.first.X, b.first.X), cmp.Compare(a.first.Z, b.first.Z))
	}
	slices.SortStableFunc(pins, order)
	slices.SortStableFunc(pieces, order)
	var rows []Row
	for _, p := range append(pins, pieces...) {
		rows = append(rows, p.rows...)
	}
	return rows
}

// rises returns how high the piece's edges go straight up from its points to a face that a tape can lie on.
func rises(sh set.Shape) float64 {
	switch s := sh.(type) {
	case *set.Platform, *set.Ring, *set.Post:
		return set.Height(s)
	case *set.Cone:
		if math.Abs(s.Upper-s.Lower) <= geom.Tolerance { // any other leans in or out above its points
			return s.Height
		}
	case *set.Panel:
		if !s.Stands {
			return s.Thickness
		}
	}
	return 0
}
