package develop

import (
	"math"

	"markout/layout/geom"
)

// wall is one piece that stands on part of a loop: its segments run on smoothly or round half-cut folds.
type wall struct {
	spans  []span
	outer  [2]float64 // flat x at which the outer face starts and stops
	inner  [2]float64 // the inner face
	past   [2]float64 // how far both stand out past that, as a nosing does
	folds  []bend
	joins  [2]Treatment // at its two ends
	round  bool         // it goes all the way round and ends where it starts
	first  int          // index in its loop of its first segment
	corner [2]int       // the loop's corners at its ends: corner i ends segment i
	v      [2]float64   // its lower and upper edge
	piece  int          // index of its draft
}

// bend is a fold between two spans.
type bend struct {
	x     float64
	turn  float64    // radians, positive towards the material
	inner [2]float64 // flat x of the inner faces that meet there
}

// box returns the x at which the face that reaches further starts and stops, the nosing counted in.
func (w *wall) box() (from, to float64) {
	return min(w.outer[0], w.inner[0]) - w.past[0], max(w.outer[1], w.inner[1]) + w.past[1]
}

// innerOf returns the flat places between which the inner face of span k lies.
func (w *wall) innerOf(k int) (from, to float64) {
	from, to = w.spans[k].x0, w.spans[k].x1()
	for _, f := range w.folds {
		if math.Abs(f.x-w.spans[k].x0) <= geom.Tolerance {
			from = f.inner[1]
		}
		if math.Abs(f.x-w.spans[k].x1()) <= geom.Tolerance {
			to = f.inner[0]
		}
	}
	if k == 0 {
		from = w.inner[0]
	}
	if k == len(w.spans)-1 {
		to = w.inner[1]
	}
	return from, to
}

// outerOf is innerOf for the outer face.
func (w *wall) outerOf(k int) (from, to float64) {
	from, to = w.spans[k].x0, w.spans[k].x1()
	if k == 0 {
		from = w.outer[0]
	}
	if k == len(w.spans)-1 {
		to = w.outer[1]
	}
	return from, to
}

// samples appends to dst flat places of span k from one to another: enough to draw the arc that it is rolled along.
func (w *wall) samples(k int, from, to float64, dst []float64) []float64 {
	n := 1
	if s := &w.spans[k]; s.seg.Kind == geom.Arc {
		n = max(1, int(math.Ceil(math.Abs(to-from)/s.middle()/(5*math.Pi/180))))
	}
	for i := range n {
		dst = append(dst, from+(to-from)*float64(i)/float64(n))
	}
	return append(dst, to)
}

// foldable reports which corners of a loop a wall goes on round, half-cut and folded.
func (p *prism) foldable(l *loop, i int) bool {
	if l.open[i] || l.open[l.next(i)] {
		return false
	}
	turn := math.Abs(turnAt(l.segs[i], l.segs[l.next(i)]))
	return turn <= soft || p.fold && turn < 170*math.Pi/180
}

// seam chooses the corner at which a wall that could go all the way round starts and ends: of an outward square
// corner, an outward one, a smooth place, an inward one the furthest from the front.
func (p *prism) seam(l *loop) int {
	best, rank := 0, math.Inf(-1)
	for i := range l.segs {
		turn := turnAt(l.segs[i], l.segs[l.next(i)])
		r := l.segs[i].To.Y / (1 + math.Abs(l.segs[i].To.Y)) / 2
		switch {
		case turn >= square:
			r += 3
		case turn > soft:
			r += 2
		case turn > -tangent:
			r += 1
		}
		if r > rank+1e-9 {
			best, rank = i, r
		}
	}
	return best
}

// kindAt chooses the joint of the walls that meet at corner i.
func (p *prism) kindAt(l *loop, i int) joinKind {
	j := l.next(i)
	a, b := l.segs[i], l.segs[j]
	switch {
	case l.open[i]:
		return bAlone
	case l.open[j]:
		return aAlone
	case p.meets != nil:
		return p.meets(l, i)
	case a.Kind != geom.Line || b.Kind != geom.Line || math.Abs(turnAt(a, b)) < square:
		return mitred
	case p.rank(a) <= p.rank(b)+geom.Tolerance:
		return aRuns
	}
	return bRuns
}

// walls returns the walls that stand on a loop, in its order, ready but for their heights.
func (p *prism) walls(l *loop, t float64) ([]*wall, error) {
	n := len(l.segs)
	var breaks []int // corners at which walls end
	for i := range n {
		if !p.foldable(l, i) {
			breaks = append(breaks, i)
		}
	}
	round := len(breaks) == 0
	if round {
		breaks = []int{p.seam(l)}
	}
	var out []*wall
	for k, i := range breaks {
		first, last := l.next(i), breaks[(k+1)%len(breaks)]
		if l.open[first] {
			continue
		}
		w := &wall{round: round, first: first, corner: [2]int{i, last}}
		x := 0.0
		for s := first; ; s = l.next(s) {
			sp := span{seg: l.segs[s], t: t, x0: x, index: s}
			if sp.seg.Kind == geom.Arc && sp.middle()-t/2 <= 0 {
				return nil, errNarrow
			}
			x = sp.x1()
			w.spans = append(w.spans, sp)
			if s == last {
				break
			}
		}
		if err := p.finish(l, w, t); err != nil {
			return nil, err
		}
		out = append(out, w)
	}
	return out, nil
}

// finish works out the ends and folds of a wall.
func (p *prism) finish(l *loop, w *wall, t float64) error {
	head, tail := &w.spans[0], &w.spans[len(w.spans)-1]
	at := func(i int) ([2]end, bool) {
		return corner(l.segs[i], l.segs[l.next(i)], t, p.kindAt(l, i))
	}
	a, ok1 := at(w.corner[0])
	b, ok2 := at(w.corner[1])
	if !ok1 || !ok2 {
		return errNarrow
	}
	w.outer = [2]float64{head.flat(a[1].outer), tail.flat(b[0].outer)}
	w.inner = [2]float64{head.flat(a[1].inner), tail.flat(b[0].inner)}
	w.joins = [2]Treatment{a[1].treatment, b[0].treatment}
	for k := 1; k < len(w.spans); k++ {
		u, v := &w.spans[k-1], &w.spans[k]
		turn := turnAt(u.seg, v.seg)
		if math.Abs(turn) <= tangent {
			continue
		}
		in, ok := meet(u.seg, t, v.seg, t, u.seg.To)
		if !ok {
			return errNarrow
		}
		w.folds = append(w.folds, bend{x: v.x0, turn: turn, inner: [2]float64{u.flat(in), v.flat(in)}})
	}
	for k := range w.spans {
		if from, to := w.innerOf(k); to-from <= geom.Tolerance {
			return errShort
		}
		if from, to := w.outerOf(k); to-from <= geom.Tolerance {
			return errShort
		}
	}
	return nil
}
