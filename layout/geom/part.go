package geom

// Part returns the part of the path between two lengths along it, counted from its start, as an open path that runs the
// same way. Lengths before the start or past the end count as those; a part without length is empty.
func (r *Ruler) Part(from, to float64) *Path {
	p := &Path{}
	start := 0.0
	for i, end := range r.ends {
		length := end - start
		a, b := max(from-start, 0), min(to-start, length)
		start = end
		if b-a <= Tolerance {
			continue
		}
		s := r.segment(i)
		if a > 0 || b < length {
			s = s.Split(s.shareAt(a, length), s.shareAt(b, length))
		}
		p.Append(s)
	}
	return p
}

// Ends returns the length along the path at the end of each segment.
func (r *Ruler) Ends() []float64 { return r.ends }
