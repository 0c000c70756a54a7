package nest

import (
	"math"

	"markout/layout/geom"
)

// laid is an outline at its place: its lower left corner, seen from that of the room for outlines.
type laid struct {
	*outline
	at geom.Point
}

// frontier is the border of the places that an outline can take in a room among others, made longer by every outline laid.
// Of the sheet's free places the leftmost, lowest and so on lie among the ends of its runs.
type frontier struct {
	o    *outline
	room geom.Point
	free []edge
	met  int // how many of the outlines laid it knows
	seen []*nofit
	at   []geom.Point
	cut  cutter
}

func newFrontier(o *outline, room geom.Point, eps float64) *frontier {
	f := &frontier{o: o, room: room}
	w, h := room.X-o.w, room.Y-o.h
	if w < -eps || h < -eps {
		return f
	}
	w, h = max(w, 0), max(h, 0)
	c := [5]geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}, {}}
	for i := range 4 {
		f.free = append(f.free, edge{c[i], c[i+1]})
	}
	return f
}

// add takes the places away at which the outline would overlap the one laid.
func (f *frontier) add(n *nofit, at geom.Point, eps float64) {
	if len(f.free) == 0 {
		return
	}
	w, h := max(f.room.X-f.o.w, 0), max(f.room.Y-f.o.h, 0)
	if n.box.Max.X+at.X < -eps || n.box.Max.Y+at.Y < -eps || n.box.Min.X+at.X > w+eps || n.box.Min.Y+at.Y > h+eps {
		return
	}
	var next []edge
	for _, e := range f.free {
		f.cut.start(e)
		for i := range n.parts {
			f.cut.cut(&n.parts[i], at.X, at.Y, eps)
		}
		next = f.cut.rest(next)
	}
	for _, e := range n.border {
		e, ok := clip(edge{e.a.Add(at), e.b.Add(at)}, w, h, eps)
		if !ok {
			continue
		}
		f.cut.start(e)
		for j, m := range f.seen {
			p := f.at[j]
			if m.box.Max.X+p.X <= f.cut.box.Min.X || m.box.Min.X+p.X >= f.cut.box.Max.X+eps ||
				m.box.Max.Y+p.Y <= f.cut.box.Min.Y || m.box.Min.Y+p.Y >= f.cut.box.Max.Y+eps {
				continue
			}
			for i := range m.parts {
				f.cut.cut(&m.parts[i], p.X, p.Y, eps)
			}
		}
		next = f.cut.rest(next)
	}
	f.free = next
	f.seen, f.at = append(f.seen, n), append(f.at, at)
}

// clip cuts a run to the rectangle from 0,0 to w,h, its sides included.
func clip(e edge, w, h, eps float64) (edge, bool) {
	d := e.b.Sub(e.a)
	from, to := 0.0, 1.0
	for _, s := range [4][2]float64{{e.a.X, d.X}, {w - e.a.X, -d.X}, {e.a.Y, d.Y}, {h - e.a.Y, -d.Y}} {
		v, k := s[0], s[1]
		if max(v, v+k) < -eps {
			return e, false
		}
		if min(v, v+k) >= -eps {
			continue
		}
		if k > 0 {
			from = max(from, -v/k)
		} else {
			to = min(to, -v/k)
		}
	}
	if from > to {
		return e, false
	}
	cut := edge{e.a, e.b}
	if from > 0 {
		cut.a = e.a.Lerp(e.b, from)
	}
	if to < 1 {
		cut.b = e.a.Lerp(e.b, to)
	}
	for _, p := range []*geom.Point{&cut.a, &cut.b} {
		p.X, p.Y = min(max(p.X, 0), w), min(max(p.Y, 0), h)
	}
	return cut, true
}

// lowest returns the leftmost place, of those within eps of it the lowest.
func (f *frontier) lowest(eps float64) (geom.Point, bool) {
	best := geom.Point{X: math.Inf(1)}
	for _, e := range f.free {
		for _, p := range [2]geom.Point{e.a, e.b} {
			if p.X < best.X-eps || p.X <= best.X+eps && p.Y < best.Y {
				best = p
			}
		}
	}
	return best, len(f.free) > 0
}
