package trace

import (
	"cmp"
	"slices"

	"markout/layout/geom"
)

// loop is a closed run of the edge line.
type loop struct {
	pts    []geom.Point
	area   float64 // more than 0 for an outer one
	hard   bool    // its pixels are wholly in or wholly out
	parent int     // the loop just around it, −1 for none
	around *loop   // the same, where both are kept
	first  int32   // the first of its crossings, in reading order, that lies in a row
}

func area(pts []geom.Point) float64 {
	sum := 0.0
	if len(pts) == 0 {
		return 0
	}
	o, last := pts[0], pts[len(pts)-1]
	for _, p := range pts {
		sum += last.Sub(o).Cross(p.Sub(o)) / 2
		last = p
	}
	return sum
}

// nest finds the loop just around each. Left of a loop's first crossing in a row stands, in the same row, either no
// crossing, or one of a loop that is the one around it, being of the other kind, or that lies beside it in the same one
// (after Suzuki and Abe, "Topological structural analysis of digitized binary images by border following", 1985).
func (s *Scanner) nest(all []*loop, of []int32) {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(all[i].first, all[j].first) })
	for _, i := range order {
		l := all[i]
		l.parent = -1
		left := l.first - 1
		if left < 0 || s.pts[left].Y != s.pts[l.first].Y {
			continue
		}
		beside := int(of[left])
		if (all[beside].area > 0) != (l.area > 0) {
			l.parent = beside
		} else {
			l.parent = all[beside].parent
		}
	}
}
