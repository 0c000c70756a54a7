package geom

import "math"

// sameDirection is the angle in radians within which two edges face the same way: a turn of a set by any
// angle leaves equal directions equal to better than this.
const sameDirection = 1e-9

// FrontEdge returns the index of the front edge of a closed outline of either orientation: the segment
// whose outward side at its middle looks most nearly downstage (−y), of equals the most downstage by its
// middle, of those the most plan-left. It is 0 for a path without length.
func FrontEdge(p *Path) int {
	best, found := 0, false
	var off float64
	var mid Point
	ahead := 1.0
	if p.Area() < 0 {
		ahead = -1
	}
	for i, s := range p.Segments() {
		d := s.Tangent(0.5).Mul(ahead)
		if d == (Point{}) {
			continue
		}
		// Of an anticlockwise outline the outward side is on the right; it looks downstage where the edge
		// runs along +x.
		o, m := math.Abs(math.Atan2(d.Y, d.X)), s.Point(0.5)
		if !found || frontBefore(o, m, off, mid) {
			best, found, off, mid = i, true, o, m
		}
	}
	return best
}

// frontBefore reports whether an edge with angle o off downstage and middle m is more to the front than
// one with off and mid.
func frontBefore(o float64, m Point, off float64, mid Point) bool {
	if math.Abs(o-off) > sameDirection {
		return o < off
	}
	if math.Abs(m.Y-mid.Y) > Tolerance {
		return m.Y < mid.Y
	}
	return m.X < mid.X-Tolerance
}

// StartAtFront returns the outline closed, anticlockwise and starting at its front edge's plan-left end,
// so that edge 1 is segment 0 and corner 1 the start.
func StartAtFront(p *Path) *Path {
	if p.Empty() {
		return &Path{}
	}
	r := p
	if p.Area() < 0 {
		r = p.Reverse()
	} else if !p.closed {
		r = p.Transform(Isometry{A: 1, D: 1})
	}
	r.Close()
	first := FrontEdge(r)
	if first == 0 {
		return r
	}
	k := 0
	for _, v := range r.verbs[:first] {
		k += v.width()
	}
	q := &Path{
		verbs:  make([]SegmentKind, 0, len(r.verbs)),
		pts:    make([]Point, 0, len(r.pts)),
		closed: true,
	}
	q.verbs = append(append(q.verbs, r.verbs[first:]...), r.verbs[:first]...)
	q.pts = append(append(q.pts, r.pts[k:]...), r.pts[1:k+1]...)
	return q
}

// RimAt returns the point of a round outline's rim that lies furthest in the given direction: of a circle
// the end of the radius that runs that way. Of an outline with straight sides it is a corner.
func RimAt(p *Path, direction Point) Point {
	best := p.Start()
	var buf [12]float64
	for _, s := range p.Segments() {
		if s.To.Dot(direction) > best.Dot(direction) {
			best = s.To
		}
		for _, t := range s.extrema(direction, buf[:0]) {
			if q := s.Point(t); q.Dot(direction) > best.Dot(direction) {
				best = q
			}
		}
	}
	return best
}
