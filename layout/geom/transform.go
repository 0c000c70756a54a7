package geom

import "math"

// Transform returns the path's image under m, exactly and for every kind of segment, reflections included.
func (p *Path) Transform(m Isometry) *Path {
	if p == nil || len(p.pts) == 0 {
		return &Path{}
	}
	r := &Path{verbs: append([]SegmentKind(nil), p.verbs...), pts: make([]Point, len(p.pts)), closed: p.closed}
	hand := m.Hand()
	r.pts[0] = m.Apply(p.pts[0])
	k := 1
	for _, v := range p.verbs {
		w := v.width()
		from, to := p.pts[k:k+w], r.pts[k:k+w]
		k += w
		for i, q := range from {
			to[i] = m.Apply(q)
		}
		switch v {
		case Arc:
			to[1] = Point{hand * from[1].X, 0}
		case EllipticalArc:
			// The image of the first axis gives the new Phi. Its left-hand neighbour's image lies to the
			// right of it under a reflection, so parameters run the other way.
			to[1] = from[1]
			s, c := math.Sincos(from[2].X)
			to[2] = Point{m.Vector(Point{c, s}).Angle(), hand * from[2].Y}
			to[3] = Point{hand * from[3].X, 0}
		}
	}
	return r
}
