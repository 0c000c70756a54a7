package develop

import "markout/layout/geom"

// fineness is the greatest distance in model millimetres between a drawn curve and the circular arcs that stand for it
// where card is rolled along it: a tenth of what a knife keeps to.
const fineness = 0.002

// arcsOf appends to dst the lines and circular arcs that stand for a segment: lines and arcs themselves, any other
// curve within fineness, running on smoothly.
func arcsOf(s geom.Segment, dst []geom.Segment) []geom.Segment {
	if s.Length() <= geom.Tolerance {
		return dst
	}
	p := geom.NewPath(s.From)
	p.Append(s)
	for _, x := range p.Arcs(fineness).Segments() {
		dst = append(dst, x)
	}
	return dst
}

// scaled returns the path with all its lengths multiplied by k.
func scaled(p *geom.Path, k float64) *geom.Path {
	if p.Empty() {
		return &geom.Path{}
	}
	q := geom.NewPath(p.Start().Mul(k))
	for _, s := range p.Segments() {
		to := s.To.Mul(k)
		switch s.Kind {
		case geom.Line:
			q.LineTo(to)
		case geom.Arc:
			q.ArcTo(s.Centre.Mul(k), s.Sweep, to)
		case geom.EllipticalArc:
			q.EllipseTo(s.Centre.Mul(k), s.RX*k, s.RY*k, s.Phi, s.Theta, s.Sweep, to)
		case geom.Cubic:
			q.CubicTo(s.C1.Mul(k), s.C2.Mul(k), to)
		}
	}
	if p.Closed() {
		q.Close()
	}
	return q
}

// scaledRegion is scaled for an area.
func scaledRegion(r geom.Region, k float64) geom.Region {
	out := geom.Region{Outer: scaled(r.Outer, k)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, scaled(h, k))
	}
	return out
}
