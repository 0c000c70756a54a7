package geom

import "math"

// Arcs returns the path as lines and circular arcs alone: its own as they are, each other curve as arcs that leave and
// arrive as it does, run on smoothly into one another and lie within tol of it. Such a path has parallels of its own kind.
func (p *Path) Arcs(tol float64) *Path {
	if p.Empty() {
		return p
	}
	out := NewPath(p.Start())
	for _, s := range p.Segments() {
		if s.Kind == Line || s.Kind == Arc {
			out.Append(s)
			continue
		}
		out.biarcs(s, tol, 16)
	}
	if p.Closed() {
		out.Close()
	}
	return out
}

// biarcs adds the arcs of a curve, which is halved, at most depth times, until two arcs keep to each part.
func (p *Path) biarcs(s Segment, tol float64, depth int) {
	if s.Length() <= Tolerance {
		return
	}
	a, b, ok := biarc(s)
	switch {
	case ok && (depth == 0 || keeps(s, a, b, tol)):
		for _, x := range [2]Segment{a, b} {
			if x.Length() > Tolerance {
				p.Append(x)
			}
		}
	case depth == 0:
		p.LineTo(s.To)
	default:
		p.biarcs(s.Split(0, 0.5), tol, depth-1)
		p.biarcs(s.Split(0.5, 1), tol, depth-1)
	}
}

// keeps reports whether places of the curve lie on one of its two arcs within tol.
func keeps(s, a, b Segment, tol float64) bool {
	for k := 1; k < 16; k++ {
		q := s.Point(float64(k) / 16)
		_, da := a.share(q)
		_, db := b.share(q)
		if min(da, db) > tol {
			return false
		}
	}
	return true
}

// biarc returns two arcs, each a line where it is straight, of which the first leaves as the curve does, the second
// arrives as it does, and both have one tangent where they meet: those whose tangents there are as long from both ends.
func biarc(s Segment) (a, b Segment, ok bool) {
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

// arcFrom returns the arc, or the line, that leaves p in the direction u and ends at q.
func arcFrom(p, u, q Point) Segment {
	c := q.Sub(p)
	k := c.Dot(u.Left())
	if math.Abs(k) <= 1e-12*c.Dot(c)+1e-15 {
		return Segment{From: p, To: q}
	}
	r := c.Dot(c) / (2 * k)
	centre := p.Add(u.Left().Mul(r))
	return Segment{
		Kind: Arc, From: p, To: q, Centre: centre, RX: math.Abs(r), RY: math.Abs(r),
		Theta: p.Sub(centre).Angle(), Sweep: 2 * math.Atan2(u.Cross(c), u.Dot(c)),
	}
}
