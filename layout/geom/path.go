package geom

import "iter"

// SegmentKind tells how a segment runs from its start to its end.
type SegmentKind uint8

const (
	Line          SegmentKind = iota
	Arc                       // circular
	EllipticalArc             // of an ellipse at any turn
	Cubic                     // Bézier, two handles
)

// Segment is one piece of a path. Fields that its kind does not use are zero.
type Segment struct {
	Kind     SegmentKind
	From, To Point
	Centre   Point   // Arc, EllipticalArc
	RX, RY   float64 // semi-axes; an Arc has RX == RY == its radius
	Phi      float64 // turn of the RX axis, radians
	Theta    float64 // parameter at From, radians (an Arc: the direction of From seen from Centre)
	Sweep    float64 // parameter from From to To, radians, anticlockwise positive, within [-2π, 2π]
	C1, C2   Point   // Cubic
}

// Path is a run of segments that join end to end. It is compact (a verb and its points), so that
// thousands of outlines cost little memory; read it with Segments. A Path is a value: methods that
// change its shape return a new one, and only the building methods (LineTo …) add to it in place.
type Path struct {
	verbs  []SegmentKind
	pts    []Point // start, then per verb: Line: end; Arc: centre, (sweep,0), end; EllipticalArc: centre, (rx,ry), (phi,theta), (sweep,0), end; Cubic: c1, c2, end
	closed bool
}

// NewPath returns a path that starts at p and has no segment yet.
func NewPath(p Point) *Path { return &Path{pts: []Point{p}} }

// Start returns where the path begins, 0,0 where it has not begun.
func (p *Path) Start() Point {
	if p == nil || len(p.pts) == 0 {
		return Point{}
	}
	return p.pts[0]
}

// End returns where the path has got to, 0,0 where it has not begun.
func (p *Path) End() Point {
	if p == nil || len(p.pts) == 0 {
		return Point{}
	}
	return p.pts[len(p.pts)-1]
}

// Len returns the number of segments, the closing line of Close included.
func (p *Path) Len() int {
	if p == nil {
		return 0
	}
	return len(p.verbs)
}

// Closed reports whether the path's end is joined to its start.
func (p *Path) Closed() bool { return p != nil && p.closed }

// Straight reports whether the path has lines only.
func (p *Path) Straight() bool {
	return p == nil || len(p.verbs) == 0 || len(p.pts) == len(p.verbs)+1 // a curve takes three points or more
}

// Empty reports whether the path has no segment.
func (p *Path) Empty() bool { return p == nil || len(p.verbs) == 0 }

// begin lets the zero Path start at 0,0.
func (p *Path) begin() {
	if len(p.pts) == 0 {
		p.pts = append(p.pts, Point{})
	}
}

// LineTo adds a straight line.
func (p *Path) LineTo(q Point) {
	p.begin()
	p.verbs = append(p.verbs, Line)
	p.pts = append(p.pts, q)
}

// ArcTo adds a circular arc about centre that sweeps so many radians (anticlockwise positive) and ends at q.
// The caller sees to it that q lies on the arc; the radius is taken from the arc's start.
func (p *Path) ArcTo(centre Point, sweep float64, q Point) {
	p.begin()
	p.verbs = append(p.verbs, Arc)
	p.pts = append(p.pts, centre, Point{sweep, 0}, q)
}

// EllipseTo adds an arc of the ellipse about centre with semi-axes rx, ry, the rx axis turned by phi radians,
// from parameter theta through sweep radians, ending at q.
func (p *Path) EllipseTo(centre Point, rx, ry, phi, theta, sweep float64, q Point) {
	p.begin()
	p.verbs = append(p.verbs, EllipticalArc)
	p.pts = append(p.pts, centre, Point{rx, ry}, Point{phi, theta}, Point{sweep, 0}, q)
}

// CubicTo adds a cubic Bézier curve with handles c1 and c2.
func (p *Path) CubicTo(c1, c2, q Point) {
	p.begin()
	p.verbs = append(p.verbs, Cubic)
	p.pts = append(p.pts, c1, c2, q)
}

// Close joins the end to the start, with a straight line where they lie further apart than Tolerance;
// where they coincide the end becomes exactly the start.
func (p *Path) Close() {
	if p.closed || len(p.verbs) == 0 {
		return
	}
	if p.End().Dist(p.Start()) > Tolerance {
		p.LineTo(p.Start())
	} else {
		p.pts[len(p.pts)-1] = p.pts[0]
	}
	p.closed = true
}

// Append adds a copy of s. A path that has not begun starts at s.From; one whose end is another
// place than s.From gets the line between them first.
func (p *Path) Append(s Segment) {
	switch {
	case len(p.pts) == 0:
		p.pts = append(p.pts, s.From)
	case !p.End().Near(s.From):
		p.LineTo(s.From)
	}
	switch s.Kind {
	case Line:
		p.LineTo(s.To)
	case Arc:
		p.ArcTo(s.Centre, s.Sweep, s.To)
	case EllipticalArc:
		p.EllipseTo(s.Centre, s.RX, s.RY, s.Phi, s.Theta, s.Sweep, s.To)
	case Cubic:
		p.CubicTo(s.C1, s.C2, s.To)
	}
}

// width is the number of points that a segment of kind v takes after its start.
func (v SegmentKind) width() int {
	switch v {
	case EllipticalArc:
		return 5
	case Arc, Cubic:
		return 3
	}
	return 1
}

// read decodes the segment of kind v that starts at p.pts[k].
func (p *Path) read(v SegmentKind, k int) Segment {
	s := Segment{Kind: v, From: p.pts[k]}
	q := p.pts[k+1 : k+1+v.width()]
	switch v {
	case Line:
		s.To = q[0]
	case Arc:
		s.Centre, s.Sweep, s.To = q[0], q[1].X, q[2]
		d := s.From.Sub(s.Centre)
		s.RX = d.Len()
		s.RY, s.Theta = s.RX, d.Angle()
	case EllipticalArc:
		s.Centre, s.RX, s.RY, s.Phi, s.Theta, s.Sweep, s.To = q[0], q[1].X, q[1].Y, q[2].X, q[2].Y, q[3].X, q[4]
	case Cubic:
		s.C1, s.C2, s.To = q[0], q[1], q[2]
	}
	return s
}

// Segments yields the segments in order.
func (p *Path) Segments() iter.Seq2[int, Segment] {
	return func(yield func(int, Segment) bool) {
		if p == nil || len(p.pts) == 0 {
			return
		}
		k := 0
		for i, v := range p.verbs {
			if !yield(i, p.read(v, k)) {
				return
			}
			k += v.width()
		}
	}
}

// Segment returns segment i, counted from 0; outside the path it is a line without length at the start.
// On a path with curves it walks there: loops read Segments.
func (p *Path) Segment(i int) Segment {
	if i < 0 || i >= p.Len() {
		return Segment{From: p.Start(), To: p.Start()}
	}
	if p.Straight() {
		return p.read(Line, i)
	}
	k := 0
	for _, v := range p.verbs[:i] {
		k += v.width()
	}
	return p.read(p.verbs[i], k)
}

// Vertices returns the start and the end of each segment; a closed path does not repeat its start.
func (p *Path) Vertices() []Point {
	if p == nil || len(p.pts) == 0 {
		return nil
	}
	vs := make([]Point, 1, len(p.verbs)+1)
	vs[0] = p.pts[0]
	k := 0
	for _, v := range p.verbs {
		k += v.width()
		vs = append(vs, p.pts[k])
	}
	if p.closed {
		vs = vs[:len(vs)-1]
	}
	return vs
}

// Reverse returns the path walked from its end to its start.
func (p *Path) Reverse() *Path {
	if p == nil || len(p.pts) == 0 {
		return &Path{}
	}
	r := &Path{
		verbs:  make([]SegmentKind, 0, len(p.verbs)),
		pts:    make([]Point, 1, len(p.pts)),
		closed: p.closed,
	}
	k := len(p.pts) - 1
	r.pts[0] = p.pts[k]
	for i := len(p.verbs) - 1; i >= 0; i-- {
		k -= p.verbs[i].width()
		r.Append(p.read(p.verbs[i], k).Reverse())
	}
	return r
}
