package develop

import (
	"errors"
	"math"

	"markout/layout/geom"
)

// loop is one boundary of a profile, the material to its left: the outer edge anticlockwise, a hole clockwise. Its
// segments are lines and circular arcs.
type loop struct {
	segs []geom.Segment
	edge []int // the edge of the outline, counted from 0, that each segment is or is part of
	hole int   // −1 for the outer edge
	open []bool
}

// loopsOf returns the boundaries of a region; nothing stands on the segments that open picks.
func loopsOf(r geom.Region, open func(geom.Segment) bool) []*loop {
	var out []*loop
	for k, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		l := &loop{hole: k - 1}
		back := (p.Area() < 0) == (k == 0)
		if back {
			p = p.Reverse()
		}
		n := p.Len()
		for i, s := range p.Segments() {
			edge := i
			if back {
				edge = n - 1 - i
			}
			from := len(l.segs)
			l.segs = arcsOf(s, l.segs)
			for range l.segs[from:] {
				l.edge = append(l.edge, edge)
			}
		}
		for _, s := range l.segs {
			l.open = append(l.open, open != nil && open(s))
		}
		out = append(out, l)
	}
	return out
}

func (l *loop) next(i int) int { return (i + 1) % len(l.segs) }
func (l *loop) prev(i int) int { return (i + len(l.segs) - 1) % len(l.segs) }

var (
	errNarrow = errors.New("its walls would run into each other")
	errShort  = errors.New("an edge is too short for it")
)

// inset returns the loop's inner parallel, depth t off every segment but the open ones, as the walls' inner faces
// make it: corners stay corners. The error says why card of that thickness cannot stand on it.
func (l *loop) inset(t float64) (*geom.Path, error) {
	return l.parallel(func(i int) float64 {
		if l.open[i] {
			return 0
		}
		return t
	})
}

// parallel is inset with a depth of its own for each segment, less than 0 outwards.
func (l *loop) parallel(depth func(i int) float64) (*geom.Path, error) {
	n := len(l.segs)
	if n < 2 {
		return nil, errShort
	}
	pts := make([]geom.Point, n) // where segment i ends
	for i, s := range l.segs {
		j := l.next(i)
		p, ok := meet(s, depth(i), l.segs[j], depth(j), s.To)
		if !ok {
			return nil, errNarrow
		}
		pts[i] = p
	}
	path := geom.NewPath(pts[n-1])
	for i, s := range l.segs {
		from, to := pts[l.prev(i)], pts[i]
		if s.Kind == geom.Line {
			if to.Sub(from).Dot(s.To.Sub(s.From)) <= 0 {
				return nil, errShort
			}
			path.LineTo(to)
			continue
		}
		if reach(s, depth(i)) <= geom.Tolerance {
			return nil, errNarrow
		}
		sweep := l.sweep(i, from, to)
		if sweep*s.Sweep <= 0 || math.Abs(sweep) > 2*math.Pi {
			return nil, errShort
		}
		path.ArcTo(s.Centre, sweep, to)
	}
	path.Close()
	if n > 2 {
		if _, _, _, crosses := path.SelfCrossing(); crosses {
			return nil, errNarrow
		}
	}
	return path, nil
}

// sweep is the sweep of the parallel of arc i from one place to another, near the arc's own.
func (l *loop) sweep(i int, from, to geom.Point) float64 {
	s := l.segs[i]
	sp := span{seg: s}
	return (sp.flat(to) - sp.flat(from)) / sp.middle() * sp.hand()
}

// insetRegion returns what the walls on all loops leave in the middle.
func insetRegion(loops []*loop, t float64) (geom.Region, error) {
	var r geom.Region
	for _, l := range loops {
		p, err := l.inset(t)
		if err != nil {
			return r, err
		}
		if l.hole < 0 {
			r.Outer = p
			continue
		}
		r.Holes = append(r.Holes, p)
	}
	if len(r.Holes) == 0 {
		return r, nil
	}
	b := r.Outer.Bounds()
	for _, h := range r.Holes {
		b = b.Union(h.Bounds())
	}
	around := outside(b, r.Outer)
	for i, h := range r.Holes {
		if d, _, _ := geom.Distance(around, geom.Region{Outer: h}); d <= 0 {
			return r, errNarrow
		}
		for _, o := range r.Holes[:i] {
			if d, _, _ := geom.Distance(geom.Region{Outer: o}, geom.Region{Outer: h}); d <= 0 {
				return r, errNarrow
			}
		}
	}
	return r, nil
}

// outside is what lies round an outline, as far as a little beyond a box.
func outside(b geom.Rect, outline *geom.Path) geom.Region {
	b = b.Grow(1)
	around := geom.Rectangle(b.W(), b.H()).Transform(geom.Isometry{A: 1, D: 1, T: b.Mid()})
	return geom.Region{Outer: around, Holes: []*geom.Path{outline}}
}
