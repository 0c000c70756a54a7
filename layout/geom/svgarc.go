package geom

import "math"

// svgArc returns the segment of SVG's elliptical arc command: the endpoint form turned into the centre form
// by the implementation notes (W3C SVG 2, appendix B.2), their rules for parameters out of range included: a
// radius of 0 gives a line, negative radii count as positive, radii that do not reach are scaled up until
// they just do. turn is in degrees; sweep is the direction of growing angles. from and to differ.
//
// The notes' formulas are worked in the space where the ellipse is the unit circle: there the chord's half
// is the vector u, the centre stands square to it at √(1 − |u|²), and half the short sweep is the angle whose
// sine is |u|; nothing large is taken from anything large.
func svgArc(from, to Point, rx, ry, turn float64, large, sweep bool) Segment {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 {
		return Segment{Kind: Line, From: from, To: to}
	}
	half := from.Sub(to).Mul(0.5)
	if m, h := max(rx, ry), half.Len(); m < h {
		rx, ry = rx/m*h, ry/m*h // they do not reach at any turn; near half the chord nothing overflows below
	}
	s := Segment{Kind: EllipticalArc, From: from, To: to, RX: rx, RY: ry}
	if rx == ry {
		s.Kind = Arc
	} else {
		s.Phi = math.Mod(turn, 360) * math.Pi / 180
	}
	sn, cs := math.Sincos(s.Phi)
	u := Point{(half.X*cs + half.Y*sn) / rx, (half.Y*cs - half.X*sn) / ry}
	d := u.Len()
	if d > 1 {
		s.RX, s.RY, u, d = rx*d, ry*d, u.Mul(1/d), 1
	}
	off := math.Sqrt((1 - d) * (1 + d))
	c := u.Unit().Left().Mul(-off) // from the middle of the chord, unit circle
	s.Sweep = 2 * math.Atan2(d, off)
	if large {
		s.Sweep = 2*math.Pi - s.Sweep
	}
	if !sweep {
		s.Sweep = -s.Sweep
	}
	if large == sweep {
		c = c.Mul(-1)
	}
	s.Theta = u.Sub(c).Angle()
	s.Centre = from.Lerp(to, 0.5).Add(s.tilt(Point{c.X * s.RX, c.Y * s.RY}))
	return s
}
