package trace

import "markout/layout/geom"

// widths are the half widths in samples of the windows in which the line's direction is measured, widest first.
var widths = [...]int{32, 24, 16, 10, 6, 4, 3, 2}

// through returns the knot of a smooth place, at sample k and no nearer than some samples to the end of the run that it
// stands in: place and direction of the least-squares cubic in the widest window in which that keeps to the line.
func (r *ring) through(k, room int) knot {
	own, lim := r.own(k)
	out := knot{k: k, at: own, dir: r.place(k + 1).Sub(r.place(k - 1)).Unit()}
	for _, w := range widths {
		if w > room {
			continue
		}
		at, dir, ok := r.window(k, w)
		if ok || w <= 3 {
			out.at, out.dir = at, dir
			break
		}
	}
	if out.at.Dist(own) > lim/2 {
		out.at = own
	}
	if out.dir == (geom.Point{}) {
		out.corner = true
	}
	return out
}

// window fits cubics in the sample's number to the 2w + 1 samples about k. It is not ok where one of them is further off
// than the line is rough.
func (r *ring) window(k, w int) (at, dir geom.Point, ok bool) {
	s0, s2, s4 := powers(w)
	s6 := 0.0
	var p0, p1, p2, p3 geom.Point
	o := r.place(k)
	for i := -w; i <= w; i++ {
		f := float64(i)
		q := r.place(k + i).Sub(o)
		p0 = p0.Add(q)
		p1 = p1.Add(q.Mul(f))
		p2 = p2.Add(q.Mul(f * f))
		p3 = p3.Add(q.Mul(f * f * f))
		s6 += f * f * f * f * f * f
	}
	even := 1 / (s0*s4 - s2*s2)
	c0, c2 := p0.Mul(s4).Sub(p2.Mul(s2)).Mul(even), p2.Mul(s0).Sub(p0.Mul(s2)).Mul(even)
	c1, c3 := p1.Mul(1/s2), geom.Point{}
	if odd := s2*s6 - s4*s4; w > 2 && odd > 0 {
		c1, c3 = p1.Mul(s6).Sub(p3.Mul(s4)).Mul(1/odd), p3.Mul(s2).Sub(p1.Mul(s4)).Mul(1/odd)
	}
	for i := -w; i <= w; i++ {
		f := float64(i)
		q := r.place(k + i).Sub(o).Sub(c0).Sub(c1.Mul(f)).Sub(c2.Mul(f * f)).Sub(c3.Mul(f * f * f))
		if q.Dot(q) > r.rough*r.rough {
			return o.Add(c0), c1.Unit(), false
		}
	}
	return o.Add(c0), c1.Unit(), true
}
