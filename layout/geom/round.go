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

// roundDistance is Distance between two whole circles without holes.
func roundDistance(a, b Region) (d float64, pa, pb Point, ok bool) {
	if len(a.Holes) > 0 || len(b.Holes) > 0 {
		return 0, Point{}, Point{}, false
	}
	ca, ra, round := a.Outer.Round()
	if !round {
		return 0, Point{}, Point{}, false
	}
	cb, rb, round := b.Outer.Round()
	if !round {
		return 0, Point{}, Point{}, false
	}
	way := cb.Sub(ca).Unit()
	pa, pb = ca.Add(way.Mul(ra)), cb.Sub(way.Mul(rb))
	if d = ca.Dist(cb) - ra - rb; d <= Tolerance {
		return 0, pa, pa, true
	}
	return d, pa, pb, true
}
