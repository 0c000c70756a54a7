package geom

import "math"

// Round reports whether a closed path is one whole circle, and which.
func (p *Path) Round() (centre Point, radius float64, ok bool) {
	if p.Empty() || !p.Closed() {
		return Point{}, 0, false
	}
	turned := 0.0
	for i, s := range p.Segments() {
		if s.Kind != Arc {
			return Point{}, 0, false
		}
		if i == 0 {
			centre, radius = s.Centre, s.RX
		} else if !s.Centre.Near(centre) {
			return Point{}, 0, false
		}
		turned += s.Sweep
	}
	return centre, radius, math.Abs(math.Abs(turned)-2*math.Pi) < 1e-9
}

// roundDistance is Distance where a is one whole circle without holes: from its centre, less its radius. That holds
// wherever the circle lies, in a hole of b too, and needs no chords of it.
func roundDistance(a, b Region) (d float64, pa, pb Point, ok bool) {
	if len(a.Holes) > 0 {
		return 0, Point{}, Point{}, false
	}
	ca, ra, round := a.Outer.Round()
	if !round {
		return 0, Point{}, Point{}, false
	}
	if cb, rb, round := b.Outer.Round(); round && len(b.Holes) == 0 {
		d = ca.Dist(cb) - rb
		pb = cb.Sub(cb.Sub(ca).Unit().Mul(rb))
	} else {
		centre := NewPath(ca)
		centre.LineTo(ca)
		d, _, pb = Distance(Region{Outer: centre}, b)
	}
	pa = ca.Add(pb.Sub(ca).Unit().Mul(ra))
	if d -= ra; d <= Tolerance {
		return 0, pb, pb, true
	}
	return d, pa, pb, true
}
