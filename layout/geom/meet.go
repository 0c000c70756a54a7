package geom

import "math"

// share returns the share of a line or a circular arc at the place on it that is nearest to q, and how far
// that is.
func (s Segment) share(q Point) (t, dist float64) {
	if s.Kind == Line {
		d := s.To.Sub(s.From)
		if l := d.Dot(d); l > 0 {
			t = min(max(q.Sub(s.From).Dot(d)/l, 0), 1)
		}
		return t, q.Dist(s.From.Lerp(s.To, t))
	}
	r := q.Sub(s.Centre)
	// The angle from the start, on the way of the sweep, 0 up to a whole turn.
	turn := math.Mod(r.Angle()-s.Theta, 2*math.Pi)
	if s.Sweep < 0 {
		turn = -turn
	}
	if turn < 0 {
		turn += 2 * math.Pi
	}
	if whole := math.Abs(s.Sweep); turn <= whole {
		return turn / whole, math.Abs(r.Len() - s.RX)
	}
	if a, b := q.Dist(s.From), q.Dist(s.To); a > b {
		return 1, b
	} else {
		return 0, a
	}
}

// meets appends to dst the places where two segments, lines or circular arcs, cross or touch within
// Tolerance. Where they run along each other it is the ends of the common part.
func meets(s, u Segment, dst []Point) []Point {
	var cand [6]Point
	n := 0
	switch {
	case s.Kind == Line && u.Kind == Line:
		a, b := s.To.Sub(s.From), u.To.Sub(u.From)
		if k := a.Cross(b); k != 0 {
			cand[0] = s.From.Add(a.Mul(u.From.Sub(s.From).Cross(b) / k))
			n = 1
		}
	case s.Kind == Line:
		n = lineCircle(s, u, &cand)
	case u.Kind == Line:
		n = lineCircle(u, s, &cand)
	default:
		n = circles(s, u, &cand)
	}
	n += copy(cand[n:], []Point{s.From, s.To, u.From, u.To})
	first := len(dst)
next:
	for _, q := range cand[:n] {
		if !q.Finite() {
			continue
		}
		if _, d := s.share(q); d > Tolerance {
			continue
		}
		if _, d := u.share(q); d > Tolerance {
			continue
		}
		for _, had := range dst[first:] {
			if had.Near(q) {
				continue next
			}
		}
		dst = append(dst, q)
	}
	return dst
}

// lineCircle writes the places where the endless line of l meets the whole circle of c; where the line
// passes it by within Tolerance, the place where it comes nearest.
func lineCircle(l, c Segment, dst *[6]Point) int {
	d := l.To.Sub(l.From).Unit()
	w := c.Centre.Sub(l.From)
	foot := l.From.Add(d.Mul(w.Dot(d)))
	h := math.Abs(d.Cross(w))
	if h > c.RX {
		dst[0] = foot
		return 1
	}
	x := d.Mul(math.Sqrt((c.RX - h) * (c.RX + h)))
	dst[0], dst[1] = foot.Add(x), foot.Sub(x)
	return 2
}

// circles writes the places where two whole circles meet; where they pass each other by within Tolerance,
// the place where they come nearest.
func circles(s, u Segment, dst *[6]Point) int {
	w := u.Centre.Sub(s.Centre)
	c := w.Len()
	if c <= Tolerance {
		return 0
	}
	along := w.Mul(1 / c)
	x := (c + (s.RX-u.RX)/c*(s.RX+u.RX)) / 2
	if x > s.RX || x < -s.RX {
		dst[0] = s.Centre.Add(along.Mul(math.Copysign(s.RX, x)))
		return 1
	}
	foot, off := s.Centre.Add(along.Mul(x)), along.Left().Mul(math.Sqrt((s.RX-x)*(s.RX+x)))
	dst[0], dst[1] = foot.Add(off), foot.Sub(off)
	return 2
}
