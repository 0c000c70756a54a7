package develop

import (
	"math"

	"markout/layout/geom"
)

// fineness is the greatest distance in model millimetres between a drawn curve and the circular arcs that stand for it
// where card is rolled along it: a tenth of what a knife keeps to.
const fineness = 0.002

// arcsOf appends to dst the lines and circular arcs that stand for a segment: lines and arcs themselves, any other
// curve within fineness, running on smoothly.
func arcsOf(s geom.Segment, dst []geom.Segment) []geom.Segment {
	switch {
	case s.Length() <= geom.Tolerance:
		return dst
	case s.Kind == geom.Line || s.Kind == geom.Arc:
		return append(dst, s)
	}
	return fit(s, dst, 12)
}

// fit halves the curve until two arcs keep to each part.
func fit(s geom.Segment, dst []geom.Segment, depth int) []geom.Segment {
	if a, b, ok := biarc(s); ok && (depth == 0 || keeps(s, a, b)) {
		for _, x := range [2]geom.Segment{a, b} {
			if x.Length() > geom.Tolerance {
				dst = append(dst, x)
			}
		}
		return dst
	} else if depth == 0 {
		return append(dst, geom.Segment{From: s.From, To: s.To})
	}
	return fit(s.Split(0.5, 1), fit(s.Split(0, 0.5), dst, depth-1), depth-1)
}

// keeps reports whether places of the curve lie on the arcs within fineness.
func keeps(s, a, b geom.Segment) bool {
	for k := 1; k < 16; k++ {
		p := s.Point(float64(k) / 16)
		if min(off(a, p), off(b, p)) > fineness {
			return false
		}
	}
	return true
}

// off is the distance of p from an arc or line that it lies beside, or from its ends.
func off(s geom.Segment, p geom.Point) float64 {
	ends := min(p.Dist(s.From), p.Dist(s.To))
	if s.Kind == geom.Line {
		d := s.To.Sub(s.From)
		if t := p.Sub(s.From).Dot(d); t <= 0 || t >= d.Dot(d) {
			return ends
		}
		return math.Abs(d.Unit().Cross(p.Sub(s.From)))
	}
	sp := span{seg: s}
	if x := sp.flat(p) / sp.middle(); x < 0 || x > math.Abs(s.Sweep) {
		return ends
	}
	return math.Abs(p.Dist(s.Centre) - s.RX)
}

// biarc returns two arcs, each a line where it is straight, that leave and arrive as the curve does and run on smoothly
// into one another: those with equal distances from the ends to the meeting tangent.
func biarc(s geom.Segment) (a, b geom.Segment, ok bool) {
	u, v, c := s.Tangent(0), s.Tangent(1), s.To.Sub(s.From)
	sum := u.Add(v)
	var d float64
	switch k := 2 * (1 - u.Dot(v)); {
	case k > 1e-12:
		d = (math.Sqrt(c.Dot(sum)*c.Dot(sum)+k*c.Dot(c)) - c.Dot(sum)) / k
	case c.Dot(v) > 0:
		d = c.Dot(c) / (4 * c.Dot(v))
	default:
		return a, b, false
	}
	if d <= 0 {
		return a, b, false
	}
	mid := s.From.Add(s.To).Add(u.Sub(v).Mul(d)).Mul(0.5)
	return arcFrom(s.From, u, mid), arcFrom(s.To, v.Mul(-1), mid).Reverse(), true
}

// arcFrom returns the arc, or the line, that leaves p in direction u and ends at q.
func arcFrom(p, u, q geom.Point) geom.Segment {
	c := q.Sub(p)
	k := c.Dot(u.Left())
	if math.Abs(k) <= 1e-12*c.Dot(c)+1e-15 {
		return geom.Segment{From: p, To: q}
	}
	r := c.Dot(c) / (2 * k)
	centre := p.Add(u.Left().Mul(r))
	return geom.Segment{
		Kind: geom.Arc, From: p, To: q, Centre: centre, RX: math.Abs(r), RY: math.Abs(r),
		Theta: p.Sub(centre).Angle(), Sweep: 2 * math.Atan2(u.Cross(c), u.Dot(c)),
	}
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
