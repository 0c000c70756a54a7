package geom

import "math"

// Point returns the place at share t of the segment, 0 to 1: of a line's length, of an arc's sweep, of a
// cubic's parameter. Outside 0..1 it is the nearer end. The ends are exactly From and To.
func (s Segment) Point(t float64) Point {
	switch {
	case t <= 0:
		return s.From
	case t >= 1:
		return s.To
	}
	switch s.Kind {
	case Arc:
		return s.Centre.Add(Polar(s.RX, s.Theta+t*s.Sweep))
	case EllipticalArc:
		return s.Centre.Add(s.ellipse(s.Theta + t*s.Sweep))
	case Cubic:
		return s.blossom(t, t, t)
	}
	return s.From.Lerp(s.To, t)
}

// ellipse returns the vector from the centre to the ellipse's point at parameter a.
func (s Segment) ellipse(a float64) Point {
	sn, cs := math.Sincos(a)
	return s.tilt(Point{s.RX * cs, s.RY * sn})
}

// tilt turns a vector in the ellipse's own axes by Phi.
func (s Segment) tilt(v Point) Point {
	sn, cs := math.Sincos(s.Phi)
	return Point{v.X*cs - v.Y*sn, v.X*sn + v.Y*cs}
}

// blossom is the polar form of the cubic: blossom(t, t, t) is the point at t, and the control points of the
// part from a to b are blossom(a,a,a), (a,a,b), (a,b,b), (b,b,b).
func (s Segment) blossom(a, b, c float64) Point {
	p, q, r := s.From.Lerp(s.C1, a), s.C1.Lerp(s.C2, a), s.C2.Lerp(s.To, a)
	p, q = p.Lerp(q, b), q.Lerp(r, b)
	return p.Lerp(q, c)
}

// derivative returns the rate of change of Point by t.
func (s Segment) derivative(t float64) Point {
	switch s.Kind {
	case Arc:
		return Polar(s.RX*s.Sweep, s.Theta+t*s.Sweep).Left()
	case EllipticalArc:
		sn, cs := math.Sincos(s.Theta + t*s.Sweep)
		return s.tilt(Point{-s.RX * sn, s.RY * cs}).Mul(s.Sweep)
	case Cubic:
		a, b, c := s.C1.Sub(s.From), s.C2.Sub(s.C1), s.To.Sub(s.C2)
		return a.Lerp(b, t).Lerp(b.Lerp(c, t), t).Mul(3)
	}
	return s.To.Sub(s.From)
}

// Tangent returns the direction in which the segment runs at share t, length 1. Where a cubic stands still
// (a handle on its end, a cusp) it is the direction in which it leaves, at its end the one in which it
// arrives. A segment without length has none: the zero vector.
func (s Segment) Tangent(t float64) Point {
	t = min(max(t, 0), 1)
	d := s.derivative(t)
	if s.Kind != Cubic {
		return d.Unit()
	}
	// Differences below this share of the curve's size are rounding, not direction.
	least := 1e-9 * (s.From.Dist(s.C1) + s.C1.Dist(s.C2) + s.C2.Dist(s.To))
	if d.Len() > least {
		return d.Unit()
	}
	ends := [3]Point{s.C1.Sub(s.From), s.C2.Sub(s.From), s.To.Sub(s.From)}
	switch {
	case t == 1:
		ends = [3]Point{s.To.Sub(s.C2), s.To.Sub(s.C1), s.To.Sub(s.From)}
	case t > 0:
		// At a cusp inside the curve the second derivative is the direction of leaving.
		a, b := s.From.Sub(s.C1).Add(s.C2.Sub(s.C1)), s.C1.Sub(s.C2).Add(s.To.Sub(s.C2))
		ends = [3]Point{a.Lerp(b, t), s.To.Sub(s.Point(t)), s.To.Sub(s.From)}
	}
	for _, e := range ends {
		if e.Len() > least {
			return e.Unit()
		}
	}
	return Point{}
}

// Reverse returns the segment walked from To to From.
func (s Segment) Reverse() Segment {
	r := s
	r.From, r.To = s.To, s.From
	r.C1, r.C2 = s.C2, s.C1
	switch s.Kind {
	case Arc:
		r.Theta, r.Sweep = s.To.Sub(s.Centre).Angle(), -s.Sweep
	case EllipticalArc:
		r.Theta, r.Sweep = s.Theta+s.Sweep, -s.Sweep
	}
	return r
}

// Split returns the part of the segment from share t0 to share t1; with t0 > t1 it runs backwards.
func (s Segment) Split(t0, t1 float64) Segment {
	r := s
	r.From, r.To = s.Point(t0), s.Point(t1)
	switch s.Kind {
	case Arc, EllipticalArc:
		r.Theta, r.Sweep = s.Theta+t0*s.Sweep, s.Sweep*(t1-t0)
	case Cubic:
		r.C1, r.C2 = s.blossom(t0, t0, t1), s.blossom(t0, t1, t1)
	}
	return r
}

// extrema appends to dst, unsorted, the shares strictly between 0 and 1 at which the segment reaches its
// furthest or least far in direction d: where its tangent is square to d.
func (s Segment) extrema(d Point, dst []float64) []float64 {
	switch s.Kind {
	case Arc:
		return s.atAngle(d.Angle(), dst)
	case EllipticalArc:
		// Point·d − Centre·d = RX cos a (e1·d) + RY sin a (e2·d), greatest at this a.
		e1 := s.tilt(Point{1, 0})
		return s.atAngle(math.Atan2(s.RY*e1.Left().Dot(d), s.RX*e1.Dot(d)), dst)
	case Cubic:
		a, b, c := s.C1.Sub(s.From).Dot(d), s.C2.Sub(s.C1).Dot(d), s.To.Sub(s.C2).Dot(d)
		for _, t := range quadratic(a-2*b+c, 2*(b-a), a) {
			if t > 0 && t < 1 {
				dst = append(dst, t)
			}
		}
	}
	return dst
}

// atAngle appends the shares strictly inside the sweep at which the parameter is a or its opposite.
func (s Segment) atAngle(a float64, dst []float64) []float64 {
	if s.Sweep == 0 {
		return dst
	}
	lo, hi := min(s.Theta, s.Theta+s.Sweep), max(s.Theta, s.Theta+s.Sweep)
	for k := math.Ceil((lo - a) / math.Pi); a+k*math.Pi <= hi; k++ {
		if t := (a + k*math.Pi - s.Theta) / s.Sweep; t > 0 && t < 1 {
			dst = append(dst, t)
		}
	}
	return dst
}

// quadratic returns the real roots of ax² + bx + c, NaN in the places of those that do not exist. The form
// avoids taking nearly equal numbers from each other.
func quadratic(a, b, c float64) [2]float64 {
	nan := math.NaN()
	disc := b*b - 4*a*c
	if disc < 0 {
		return [2]float64{nan, nan}
	}
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
	r := [2]float64{nan, nan}
	if a != 0 {
		r[0] = q / a
	}
	if q != 0 {
		r[1] = c / q
	}
	return r
}
