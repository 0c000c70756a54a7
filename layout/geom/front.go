package geom

import "math"

// sameDirection is the angle in radians within which two edges face the same way: a turn of a set by any
// angle leaves equal directions equal to better than this.
const sameDirection = 1e-9

// FrontEdge returns the index of the front edge of a closed outline of either orientation: the segment
// whose outward side at its middle looks most nearly downstage (−y), of equals the most downstage by its
// middle, of those the most plan-left. It is 0 for a path without length.
func FrontEdge(p *Path) int {
	ahead := 1.0
	if p.Area() < 0 {
		ahead = -1
	}
	var f front
	if p.Straight() {
		for i := range p.Len() {
			a, b := p.pts[i], p.pts[i+1]
			f.try(i, b.Sub(a).Mul(ahead), a.Lerp(b, 0.5))
		}
		return f.index
	}
	for i, s := range p.Segments() {
		f.try(i, s.Tangent(0.5).Mul(ahead), s.Point(0.5))
	}
	return f.index
}

// front is the edge most to the front among those tried.
type front struct {
	index int
	found bool
	cos   float64 // of the angle off
	off   float64 // angle in radians between the outward side and downstage
	mid   Point
}

// try takes edge i where it is more to the front than the one so far: d is its direction at its middle mid
// on the way anticlockwise round the outline, of any length. Of such an edge the outward side is on the
// right; it looks downstage where the edge runs along +x.
func (f *front) try(i int, d, mid Point) {
	l := math.Sqrt(d.Dot(d))
	if l == 0 {
		return
	}
	// A cosine less by more than sameDirection means an angle greater by more than that; most edges are
	// told apart so, without their angle.
	cos := d.X / l
	if f.found && cos < f.cos-2*sameDirection {
		return
	}
	off := math.Abs(math.Atan2(d.Y, d.X))
	if f.found {
		switch {
		case math.Abs(off-f.off) > sameDirection:
			if off > f.off {
				return
			}
		case math.Abs(mid.Y-f.mid.Y) > Tolerance:
			if mid.Y > f.mid.Y {
				return
			}
		case mid.X >= f.mid.X-Tolerance:
			return
		}
	}
	*f = front{index: i, found: true, cos: cos, off: off, mid: mid}
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
