package geom

// Bounds returns the exact box of the segment.
func (s Segment) Bounds() Rect {
	r := EmptyRect().Include(s.From).Include(s.To)
	if s.Kind == Line {
		return r
	}
	if s.Kind == Cubic && r.Contains(s.C1) && r.Contains(s.C2) {
		return r // a cubic stays within the hull of its four points
	}
	var buf [12]float64
	ts := s.extrema(Point{0, 1}, s.extrema(Point{1, 0}, buf[:0]))
	for _, t := range ts {
		r = r.Include(s.Point(t))
	}
	return r
}

// Bounds returns the exact box of the path: EmptyRect where it has not begun, its one point where it has
// no segment.
func (p *Path) Bounds() Rect {
	r := EmptyRect()
	if p == nil {
		return r
	}
	if p.Straight() {
		for _, q := range p.pts {
			r = r.Include(q)
		}
		return r
	}
	for _, s := range p.Segments() {
		r = r.Union(s.Bounds())
	}
	return r
}
