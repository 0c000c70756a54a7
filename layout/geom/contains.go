package geom

import (
	"math"
	"slices"
)

// Contains reports whether q lies in the area of the path, closed by a straight line where it is open, by
// the nonzero rule; places within Tolerance of the boundary belong to it. Curves are taken as they are.
func (p *Path) Contains(q Point) bool {
	winding, on := p.winding(q)
	return on || winding != 0
}

// Winding returns how many times the path goes round q, anticlockwise counted positive; an open path counts as closed. Of a place on the
// path it is 0 or the winding on one of its sides.
func (p *Path) Winding(q Point) int {
	n, _ := p.winding(q)
	return n
}

// winding returns how often the path runs round q, anticlockwise positive, and whether q is on the path.
func (p *Path) winding(q Point) (n int, on bool) {
	if p == nil || len(p.pts) == 0 {
		return 0, false
	}
	if p.Straight() {
		for i := range p.verbs {
			k, hit := lineWinding(p.pts[i], p.pts[i+1], q)
			if hit {
				return 0, true
			}
			n += k
		}
	} else {
		for _, s := range p.Segments() {
			k, hit := s.winding(q)
			if hit {
				return 0, true
			}
			n += k
		}
	}
	k, on := lineWinding(p.End(), p.Start(), q)
	return n + k, on
}

// lineWinding returns 1 where the line from a to b crosses the ray from q towards +x upwards, −1
// downwards, and whether q is on the line. A line owns its lower end and not its upper, so that a vertex
// on the ray counts once.
func lineWinding(a, b, q Point) (n int, on bool) {
	if q.Y < min(a.Y, b.Y)-Tolerance || q.Y > max(a.Y, b.Y)+Tolerance || q.X > max(a.X, b.X)+Tolerance {
		return 0, false
	}
	if q.X >= min(a.X, b.X)-Tolerance && q.Dist(nearestOnLine(a, b, q)) <= Tolerance {
		return 0, true
	}
	side := b.Sub(a).Cross(q.Sub(a))
	switch {
	case a.Y <= q.Y && q.Y < b.Y && side > 0:
		return 1, false
	case b.Y <= q.Y && q.Y < a.Y && side < 0:
		return -1, false
	}
	return 0, false
}

// nearestOnLine returns the place nearest to q on the line from a to b.
func nearestOnLine(a, b, q Point) Point {
	d := b.Sub(a)
	l := d.Dot(d)
	if l == 0 {
		return a
	}
	t := q.Sub(a).Dot(d) / l
	switch {
	case t <= 0:
		return a
	case t >= 1:
		return b
	}
	return a.Add(d.Mul(t))
}

// winding is lineWinding for any segment. A curve is cut where it turns back in x or y; each part then
// meets a level line and an upright line at most once.
func (s Segment) winding(q Point) (n int, on bool) {
	if s.Kind == Line {
		return lineWinding(s.From, s.To, q)
	}
	box := s.Bounds().Grow(Tolerance)
	if q.Y < box.Min.Y || q.Y > box.Max.Y || q.X > box.Max.X {
		return 0, false
	}
	var buf [12]float64
	cuts := s.extrema(Point{0, 1}, s.extrema(Point{1, 0}, buf[:0]))
	slices.Sort(cuts)
	t, a := 0.0, s.From
	for _, u := range append(cuts, 1) {
		b := s.Point(u)
		k, hit := s.partWinding(t, u, a, b, q)
		if hit {
			return 0, true
		}
		n += k
		t, a = u, b
	}
	return n, false
}

// partWinding is lineWinding for the part of s between shares t and u, from a to b, which runs one way in
// x and in y.
func (s Segment) partWinding(t, u float64, a, b, q Point) (n int, on bool) {
	box := EmptyRect().Include(a).Include(b)
	if near := box.Grow(Tolerance); near.Contains(q) {
		level := s.meet(t, u, q.Y, Point{0, 1})
		upright := s.meet(t, u, q.X, Point{1, 0})
		// Of a curve that runs one way both ways, q is no further off than either of these.
		if level.Near(q) || upright.Near(q) {
			return 0, true
		}
	}
	up := a.Y <= q.Y && q.Y < b.Y
	if !up && !(b.Y <= q.Y && q.Y < a.Y) || box.Max.X < q.X {
		return 0, false
	}
	if box.Min.X <= q.X && s.meet(t, u, q.Y, Point{0, 1}).X <= q.X {
		return 0, false
	}
	if up {
		return 1, false
	}
	return -1, false
}

// meet returns the place between shares t and u at which the segment, running one way in the axis
// direction d, has the coordinate c; its nearer end where it does not reach c.
func (s Segment) meet(t, u, c float64, d Point) Point {
	rising := s.Point(u).Dot(d) > s.Point(t).Dot(d)
	for range 64 {
		m := (t + u) / 2
		if m == t || m == u {
			break
		}
		if at := s.Point(m).Dot(d); at == c {
			return s.Point(m)
		} else if (at < c) == rising {
			t = m
		} else {
			u = m
		}
	}
	p, q := s.Point(t), s.Point(u)
	if math.Abs(p.Dot(d)-c) <= math.Abs(q.Dot(d)-c) {
		return p
	}
	return q
}
