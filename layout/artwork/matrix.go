package artwork

import (
	"math"

	"markout/layout/geom"
)

// Matrix is an affine map: x' = A·x + C·y + E, y' = B·x + D·y + F.
type Matrix struct{ A, B, C, D, E, F float64 }

// Identity leaves every place where it is.
func Identity() Matrix { return Matrix{A: 1, D: 1} }

// Then returns the map that is m followed by n.
func (m Matrix) Then(n Matrix) Matrix {
	return Matrix{
		A: n.A*m.A + n.C*m.B, B: n.B*m.A + n.D*m.B,
		C: n.A*m.C + n.C*m.D, D: n.B*m.C + n.D*m.D,
		E: n.A*m.E + n.C*m.F + n.E, F: n.B*m.E + n.D*m.F + n.F,
	}
}

// Apply returns the image of a place.
func (m Matrix) Apply(p geom.Point) geom.Point {
	return geom.Point{X: m.A*p.X + m.C*p.Y + m.E, Y: m.B*p.X + m.D*p.Y + m.F}
}

// Vector returns the image of a difference of places.
func (m Matrix) Vector(p geom.Point) geom.Point {
	return geom.Point{X: m.A*p.X + m.C*p.Y, Y: m.B*p.X + m.D*p.Y}
}

// Det is by how much areas grow, negative where the map mirrors.
func (m Matrix) Det() float64 { return m.A*m.D - m.B*m.C }

// Inverse returns the map back; ok is false where m flattens the plane to a line or a point.
func (m Matrix) Inverse() (inv Matrix, ok bool) {
	d := m.Det()
	if d == 0 || math.IsNaN(d) || math.IsInf(d, 0) || math.IsInf(1/d, 0) {
		return Matrix{}, false
	}
	inv = Matrix{A: m.D / d, B: -m.B / d, C: -m.C / d, D: m.A / d}
	inv.E = -(inv.A*m.E + inv.C*m.F)
	inv.F = -(inv.B*m.E + inv.D*m.F)
	return inv, inv.usable()
}

// usable reports whether every entry is a number with which places can still be told apart.
func (m Matrix) usable() bool {
	for _, x := range [6]float64{m.A, m.B, m.C, m.D, m.E, m.F} {
		if !(math.Abs(x) <= mostNumber) {
			return false
		}
	}
	return true
}

// similar reports whether circles stay circles.
func (m Matrix) similar() bool {
	u, v := geom.Point{X: m.A, Y: m.B}, geom.Point{X: m.C, Y: m.D}
	size := u.Dot(u) + v.Dot(v)
	return math.Abs(u.Dot(v)) <= 1e-9*size && math.Abs(u.Dot(u)-v.Dot(v)) <= 1e-9*size
}

// Path returns the image of a path, exactly: arcs become the arcs of the image of their ellipse. The map must
// not flatten the plane.
func (m Matrix) Path(p *geom.Path) *geom.Path {
	r := geom.NewPath(m.Apply(p.Start()))
	for _, s := range p.Segments() {
		r.Append(m.segment(s))
	}
	if p.Closed() {
		r.Close()
	}
	return r
}

// Region returns the image of an area, its outline anticlockwise and its holes clockwise as they were, also where the map mirrors.
func (m Matrix) Region(r geom.Region) geom.Region {
	turned := func(p *geom.Path) *geom.Path {
		p = m.Path(p)
		if m.Det() < 0 {
			p = p.Reverse()
		}
		return p
	}
	out := geom.Region{Outer: turned(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, turned(h))
	}
	return out
}

func (m Matrix) segment(s geom.Segment) geom.Segment {
	t := geom.Segment{Kind: s.Kind, From: m.Apply(s.From), To: m.Apply(s.To)}
	switch s.Kind {
	case geom.Cubic:
		t.C1, t.C2 = m.Apply(s.C1), m.Apply(s.C2)
	case geom.Arc, geom.EllipticalArc:
		m.arc(s, &t)
	}
	return t
}

// arc finds the image of an ellipse. The images u and v of its semi-axes are conjugate: the curve is
// u·cos θ + v·sin θ. Shifting the parameter by half the angle whose tangent is 2u·v / (u² − v²) makes the two
// square to each other (the condition that their product vanishes), and then they are the new semi-axes.
func (m Matrix) arc(s geom.Segment, t *geom.Segment) {
	axis := geom.Polar(1, s.Phi)
	u, v := m.Vector(axis.Mul(s.RX)), m.Vector(axis.Left().Mul(s.RY))
	sn, cs := math.Sincos(math.Atan2(2*u.Dot(v), u.Dot(u)-v.Dot(v)) / 2)
	shift := math.Atan2(sn, cs)
	u, v = u.Mul(cs).Add(v.Mul(sn)), v.Mul(cs).Sub(u.Mul(sn))
	t.Centre = m.Apply(s.Centre)
	t.RX, t.RY = u.Len(), v.Len()
	t.Phi, t.Theta, t.Sweep = u.Angle(), s.Theta-shift, s.Sweep
	if u.Cross(v) < 0 { // the second semi-axis lies on the other hand: the parameter runs the other way
		t.Theta, t.Sweep = -t.Theta, -t.Sweep
	}
	t.Kind = geom.EllipticalArc
	if math.Abs(t.RX-t.RY) <= 1e-12*t.RX {
		t.Kind = geom.Arc
	}
}
