package geom

import "math"

// Area returns the area within the path, closed by a straight line where it is open, by the exact line
// integral of every segment: positive where the path runs anticlockwise. Parts that it goes round twice
// count twice.
func (p *Path) Area() float64 {
	// Counted from the start, so that a small outline far from 0,0 loses no figures.
	o, sum := p.Start(), 0.0
	if p.Straight() {
		for i := range p.Len() {
			sum += p.pts[i].Sub(o).Cross(p.pts[i+1].Sub(o)) / 2
		}
		return sum
	}
	for _, s := range p.Segments() {
		sum += s.From.Sub(o).Cross(s.To.Sub(o))/2 + s.cap()
	}
	return sum
}

// cap returns the area between the segment and its chord, positive where the segment bulges to the right
// of the way from From to To.
func (s Segment) cap() float64 {
	switch s.Kind {
	case Arc, EllipticalArc:
		return s.RX * s.RY * lessSine(s.Sweep) / 2
	case Cubic:
		a, b, c := s.C1.Sub(s.From), s.C2.Sub(s.From), s.To.Sub(s.From)
		return 3 * (a.Cross(b) + a.Cross(c) + 2*b.Cross(c)) / 20
	}
	return 0
}

// lessSine returns x − sin x without taking nearly equal numbers from each other.
func lessSine(x float64) float64 {
	if math.Abs(x) > 0.3 {
		return x - math.Sin(x)
	}
	q := x * x
	return x * q / 6 * (1 - q/20*(1-q/42*(1-q/72*(1-q/110))))
}

// Centroid returns the centre of the path's area, closed by a straight line where it is open. A path that
// encloses nothing has none: it is the middle of its box then, and 0,0 for an empty path.
func (p *Path) Centroid() Point {
	o, area, sum := p.Start(), 0.0, Point{}
	for _, s := range p.Segments() {
		a, b := s.From.Sub(o), s.To.Sub(o)
		w := a.Cross(b) / 2
		area += w + s.cap()
		sum = sum.Add(a.Add(b).Mul(w / 3)).Add(s.capMoment(o))
	}
	box := p.Bounds()
	if box.Empty() {
		return Point{}
	}
	if math.Abs(area) <= Tolerance*(box.W()+box.H()) {
		return box.Mid()
	}
	return o.Add(sum.Mul(1 / area))
}

// capMoment returns the integral of place, counted from o, over the area that cap measures.
func (s Segment) capMoment(o Point) Point {
	switch s.Kind {
	case Arc, EllipticalArc:
		// The cap of the unit circle has the moment 2/3 sin³(sweep/2) towards the middle of the arc
		// (centroid 4 r sin³ / 3(sweep − sin sweep)); an ellipse is its image under an affine map.
		h := math.Sin(s.Sweep / 2)
		mid := s.ellipse(s.Theta + s.Sweep/2)
		return s.Centre.Sub(o).Mul(s.cap()).Add(mid.Mul(s.RX * s.RY * 2 / 3 * h * h * h))
	case Cubic:
		// Green: ∬x = ½∮x² dy, ∬y = −½∮y² dx; of degree 8 in t, so that ten points give it exactly. Along
		// the chord back the same integrals have closed forms.
		var m Point
		for _, n := range gaussNodes {
			for _, t := range [2]float64{(1 - n[0]) / 2, (1 + n[0]) / 2} {
				q, d := s.Point(t).Sub(o), s.derivative(t)
				m = m.Add(Point{q.X * q.X * d.Y, -q.Y * q.Y * d.X}.Mul(n[1] / 4))
			}
		}
		a, b := s.From.Sub(o), s.To.Sub(o)
		return m.Sub(Point{
			(b.Y - a.Y) * (a.X*a.X + a.X*b.X + b.X*b.X) / 6,
			-(b.X - a.X) * (a.Y*a.Y + a.Y*b.Y + b.Y*b.Y) / 6,
		})
	}
	return Point{}
}
