package geom

import (
	"cmp"
	"math"
	"slices"
)

// joint is how far apart the ends of pieces may lie that are joined. Pieces are cut at places computed in
// different ways; at flat crossings these spread over more than Tolerance.
const joint = 20 * Tolerance

// spurLength is the greatest length of a piece that may lead nowhere: where two parallels cross very flat,
// what runs on beyond the crossing is as far from the outline as it should be, to the last figures.
const spurLength = 0.1

// pins finds places near a place.
type pins struct {
	at    []Point
	order []int // by x
}

func pinsAt(n int, at func(i int) Point) pins {
	s := pins{at: make([]Point, n), order: make([]int, n)}
	for i := range n {
		s.at[i], s.order[i] = at(i), i
	}
	slices.SortFunc(s.order, func(i, j int) int { return cmp.Or(cmp.Compare(s.at[i].X, s.at[j].X), i-j) })
	return s
}

// near calls visit for the places within joint of p.
func (s *pins) near(p Point, visit func(i int)) {
	k, _ := slices.BinarySearchFunc(s.order, p.X-joint, func(i int, x float64) int {
		if s.at[i].X < x {
			return -1
		}
		return 1
	})
	for ; k < len(s.order) && s.at[s.order[k]].X <= p.X+joint; k++ {
		if i := s.order[k]; s.at[i].Dist(p) <= joint {
			visit(i)
		}
	}
}

// stitch joins pieces, each running to where another starts, into closed paths. Of several that leave a
// place the one furthest to the left goes on, which parts areas that touch there. Spurs are left out. It
// is not ok where a longer piece leads nowhere.
func stitch(pieces []Segment) (loops []*Path, ok bool) {
	n := len(pieces)
	starts := pinsAt(n, func(i int) Point { return pieces[i].From })
	ends := pinsAt(n, func(i int) Point { return pieces[i].To })
	used := make([]bool, n)
	if !dropSpurs(pieces, &starts, &ends, used) {
		return nil, false
	}
	// next returns the piece that goes on from the end of piece i, −1 for none: of the nearest starts, the
	// one furthest to the left.
	next := func(i int) (best int) {
		end, dir := pieces[i].To, pieces[i].Tangent(1)
		reach := math.Inf(1)
		starts.near(end, func(j int) {
			if !used[j] {
				reach = min(reach, pieces[j].From.Dist(end)+2*Tolerance)
			}
		})
		best = -1
		turn := math.Inf(-1)
		starts.near(end, func(j int) {
			if used[j] || pieces[j].From.Dist(end) > reach {
				return
			}
			away := pieces[j].Tangent(0)
			if a := math.Atan2(dir.Cross(away), dir.Dot(away)); a > turn {
				best, turn = j, a
			}
		})
		return best
	}
	for first := range pieces {
		if used[first] {
			continue
		}
		p := NewPath(pieces[first].From)
		for i := first; i >= 0; {
			used[i] = true
			s := pieces[i]
			s.From = p.End()
			p.Append(s)
			if s.To.Dist(p.Start()) <= joint && (i != first || s.Length() > joint) {
				break
			}
			i = next(i)
		}
		if p.End().Dist(p.Start()) > joint {
			return nil, false
		}
		p.pts[len(p.pts)-1] = p.pts[0]
		p.Close()
		loops = append(loops, p)
	}
	return loops, true
}

// dropSpurs marks as used the pieces that lead nowhere or come from nowhere, one after the other. It
// reports false where one is longer than a spur, or all together are longer than a few.
func dropSpurs(pieces []Segment, starts, ends *pins, used []bool) bool {
	lonely := func(i int) bool {
		before, after := false, false
		long := pieces[i].Length() > joint
		ends.near(pieces[i].From, func(j int) { before = before || !used[j] && (j != i || long) })
		starts.near(pieces[i].To, func(j int) { after = after || !used[j] && (j != i || long) })
		return !before || !after
	}
	queue := make([]int, len(pieces))
	for i := range queue {
		queue[i] = i
	}
	dropped := 0.0
	for len(queue) > 0 {
		i := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if used[i] || !lonely(i) {
			continue
		}
		used[i] = true
		l := pieces[i].Length()
		if dropped += l; l > spurLength || dropped > 10*spurLength {
			return false
		}
		ends.near(pieces[i].From, func(j int) { queue = append(queue, j) })
		starts.near(pieces[i].To, func(j int) { queue = append(queue, j) })
	}
	return true
}
