package geom

import "math"

// Flatten appends to dst the points after From, up to and including To, of a run of straight lines that
// stands for the segment: all on the curve, nowhere further from it than tol (Tolerance, where tol is not
// more).
//
// Circular arc of radius r: over a step of Δ radians the curve is furthest from its chord at the middle of
// the step, by r(1 − cos Δ/2) = 2r sin²(Δ/4); so Δ = 4 asin √(tol/2r) keeps tol.
//
// Elliptical arc: it is the image of the unit circle under a linear map that lengthens no vector by more
// than the greater semi-axis R. A place of the unit arc stands off the chord by at most 1 − cos Δ/2,
// square to the chord, its image off the image of the chord by at most R times as much; so the circle's
// step with r = R keeps tol.
//
// Cubic: between shares a and b the curve B is nowhere further from the chord, both taken at the same
// share, than (b − a)²/8 · max|B″|. B″ is linear in the share, with ends 6(From − 2C1 + C2) and
// 6(C1 − 2C2 + To) over the whole, so that max|B″| is at an end; halving goes on until that bound keeps tol.
func (s Segment) Flatten(tol float64, dst []Point) []Point {
	if !(tol > Tolerance) {
		tol = Tolerance
	}
	switch s.Kind {
	case Arc:
		n := steps(s.Sweep, s.RX, tol)
		for i := 1; i < n; i++ {
			dst = append(dst, s.Centre.Add(Polar(s.RX, s.Theta+s.Sweep*float64(i)/float64(n))))
		}
	case EllipticalArc:
		n := steps(s.Sweep, max(s.RX, s.RY), tol)
		// The axes are turned once, not at every point.
		e1 := s.tilt(Point{1, 0})
		u, v := e1.Mul(s.RX), e1.Left().Mul(s.RY)
		for i := 1; i < n; i++ {
			sn, cs := math.Sincos(s.Theta + s.Sweep*float64(i)/float64(n))
			dst = append(dst, Point{s.Centre.X + u.X*cs + v.X*sn, s.Centre.Y + u.Y*cs + v.Y*sn})
		}
	case Cubic:
		a := s.From.Sub(s.C1).Add(s.C2.Sub(s.C1))
		b := s.C1.Sub(s.C2).Add(s.To.Sub(s.C2))
		dst = s.halve(0, 1, a, b, tol, 26, dst)
	}
	return append(dst, s.To)
}

// steps returns the number of equal steps of an arc of radius r, so that each keeps tol and none turns
// more than a quarter.
func steps(sweep, r, tol float64) int {
	step := math.Pi / 2
	if k := math.Sqrt(tol / (2 * r)); k < math.Sin(math.Pi/8) {
		step = 4 * math.Asin(k)
	}
	n := math.Ceil(math.Abs(sweep)/step - 1e-9)
	return max(1, int(n))
}

// halve appends the inner points of the part from share a to b of a cubic; da and db are a sixth of its
// second derivative by the share of the whole at a and at b.
func (s Segment) halve(a, b float64, da, db Point, tol float64, depth int, dst []Point) []Point {
	w := b - a
	if depth == 0 || 6*w*w/8*max(da.Len(), db.Len()) <= tol {
		return dst
	}
	m, dm := (a+b)/2, da.Lerp(db, 0.5)
	dst = s.halve(a, m, da, dm, tol, depth-1, dst)
	dst = append(dst, s.Point(m))
	return s.halve(m, b, dm, db, tol, depth-1, dst)
}

// Flatten appends to dst the path's start and a run of straight lines that is nowhere further from it than
// tol. Every vertex is kept. A closed path does not repeat its start.
func (p *Path) Flatten(tol float64, dst []Point) []Point {
	if p == nil || len(p.pts) == 0 {
		return dst
	}
	if p.Straight() {
		dst = append(dst, p.pts...)
	} else {
		dst = append(dst, p.pts[0])
		for _, s := range p.Segments() {
			dst = s.Flatten(tol, dst)
		}
	}
	if p.closed {
		dst = dst[:len(dst)-1]
	}
	return dst
}
