package setout

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// Precision and the most work of the search for a turn.
const (
	fitTenths = 10      // steps to a degree that turns are looked for in first
	fitFine   = 1000    // steps to a degree where no such turn fits
	fitTurns  = 8000    // turns looked at
	fitSeen   = 500_000 // pieces looked at for a turn that fits; for the best of those that do not, half as many more
	fitStep   = 0.2     // millimetres within which the least worst overhang is found
)

// spent reports whether the search has looked at so many turns, or pieces, that it ends.
func (f *fitter) spent(turns, pieces int) bool {
	return turns >= fitTurns || f.tree.seen >= pieces
}

// turns looks for the turn nearest to 0 at which the set fits, of two as near the anticlockwise one, of whole tenths of a degree or,
// where none fits, of thousandths. closed says that where no turn was found there is none at all.
//
// A turn by an angle of a moves nothing of the set by more than a times its distance from the pivot. So where at some turn the set
// does not even keep the margin less that way, it fits at no turn within a of it, and all of them are out at once.
func (f *fitter) turns(margin float64) (turn float64, shift geom.Point, found, closed bool) {
	s := &fitTurning{fitter: f, margin: margin, steps: fitTenths}
	open := s.look([][2]int{{0, 180 * fitTenths}})
	if !s.found && len(open) > 0 {
		s.steps = fitFine
		for i := range open {
			open[i][0] *= fitFine / fitTenths
			open[i][1] *= fitFine / fitTenths
		}
		open = s.look(open)
	}
	return s.turn, s.shift, s.found, len(open) == 0
}

// fitTurning is the state of one search; turns count in steps to a degree.
type fitTurning struct {
	*fitter
	margin float64
	steps  int
	looked int
	found  bool
	turn   float64
	shift  geom.Point
}

// look tries the turns over a and up to b of each range, either way, nearest first. It ends at the first that fits, and returns the
// ranges of one step that it could not rule out.
func (s *fitTurning) look(ranges [][2]int) (open [][2]int) {
	slices.Reverse(ranges)
	for len(ranges) > 0 && !s.found {
		r := ranges[len(ranges)-1]
		ranges = ranges[:len(ranges)-1]
		if s.spent(s.looked, fitSeen) {
			return append(open, r)
		}
		mid, half := float64(r[0]+r[1])/2/float64(s.steps), float64(r[1]-r[0])/2/float64(s.steps)
		slack := s.long * half * math.Pi / 180
		if !s.may(mid, slack) && !s.may(-mid, slack) {
			continue
		}
		if r[1]-r[0] > 1 {
			m := (r[0] + r[1]) / 2
			ranges = append(ranges, [2]int{m, r[1]}, [2]int{r[0], m})
			continue
		}
		open = append(open, r)
		for _, way := range [2]float64{1, -1} {
			turn := way * float64(r[1]) / float64(s.steps)
			s.looked++
			if t, ok := s.fitter.shift(turn, s.margin, false, 0); ok {
				s.found, s.turn, s.shift = true, turn, t
				break
			}
		}
	}
	return open
}

// may reports whether the set may fit at some turn so near to turn that nothing of it moves by more than slack.
func (s *fitTurning) may(turn, slack float64) bool {
	s.looked++
	was := s.cut
	s.cut = false
	_, ok := s.fitter.shift(turn, s.margin-slack, true, slack/4)
	ok = ok || s.cut
	s.cut = s.cut || was
	return ok
}

// nearest returns the place with the least worst overhang, or the greatest margin short of the one wanted, of turns in tenths of a
// degree: of equals, within step, at the turn found first, the whole turn halved over and over, beginning with 0.
func (f *fitter) nearest(step float64) (turn float64, shift geom.Point) {
	best := f.most(0, -1e6, step)
	type arc struct{ mid, half, bound float64 }
	slope := f.long * math.Pi / 180
	arcs := []arc{{0, 180, best + 180*slope}}
	for n := 0; len(arcs) > 0 && !f.spent(n*8, fitSeen*3/2); n++ {
		k := 0
		for i := range arcs {
			if arcs[i].bound > arcs[k].bound {
				k = i
			}
		}
		a := arcs[k]
		if a.bound <= best+step {
			break
		}
		arcs = append(arcs[:k], arcs[k+1:]...)
		h := a.half / 2
		for _, mid := range [2]float64{a.mid + h, a.mid - h} {
			floor := best - h*slope // less than that is no better anywhere in the arc
			m := f.most(mid, floor, step)
			if m > best+step {
				best, turn = m, mid
			}
			if m > floor {
				arcs = append(arcs, arc{mid, h, m + h*slope})
			}
		}
	}
	// Nobody lays a set to a finer turn than a tenth of a degree.
	low, high := math.Floor(turn*fitTenths)/fitTenths, math.Ceil(turn*fitTenths)/fitTenths
	if low != high {
		turn, best = low, f.most(low, -1e6, step)
		if m := f.most(high, best, step); m > best {
			turn, best = high, m
		}
	}
	if t, ok := f.shift(turn, best-step, false, step); ok {
		shift = t
	} else {
		shift = f.still(turn)
	}
	return turn, shift
}
