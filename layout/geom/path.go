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

// Start returns where the path begins.
func (p *Path) Start() Point { return p.pts[0] }

// End returns where the path has got to.
func (p *Path) End() Point { return p.pts[len(p.pts)-1] }

// Len returns the number of segments, the closing line of Close included.
func (p *Path) Len() int { return len(p.verbs) }

// Closed reports whether the path's end is joined to its start.
func (p *Path) Closed() bool { return p.closed }

// Empty reports whether the path has no segment.
func (p *Path) Empty() bool { return p == nil || len(p.verbs) == 0 }

// LineTo adds a straight line.
func (p *Path) LineTo(q Point) {
	p.verbs = append(p.verbs, Line)
	p.pts = append(p.pts, q)
}

// ArcTo adds a circular arc about centre that sweeps so many radians (anticlockwise positive) and ends at q.
// The caller sees to it that q lies on the arc; the radius is taken from the arc's start.
func (p *Path) ArcTo(centre Point, sweep float64, q Point) {
	p.verbs = append(p.verbs, Arc)
	p.pts = append(p.pts, centre, Point{sweep, 0}, q)
}

// EllipseTo adds an arc of the ellipse about centre with semi-axes rx, ry, the rx axis turned by phi radians,
// from parameter theta through sweep radians, ending at q.
func (p *Path) EllipseTo(centre Point, rx, ry, phi, theta, sweep float64, q Point) {
	p.verbs = append(p.verbs, EllipticalArc)
	p.pts = append(p.pts, centre, Point{rx, ry}, Point{phi, theta}, Point{sweep, 0}, q)
}

// CubicTo adds a cubic Bézier curve with handles c1 and c2.
func (p *Path) CubicTo(c1, c2, q Point) {
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

// Segments yields the segments in order.
func (p *Path) Segments() iter.Seq2[int, Segment] {
	return func(yield func(int, Segment) bool) {
		if p == nil || len(p.pts) == 0 {
			return
		}
		from, k := p.pts[0], 1
		for i, v := range p.verbs {
			s := Segment{Kind: v, From: from}
			switch v {
			case Line:
				s.To = p.pts[k]
				k++
			case Arc:
				s.Centre, s.Sweep, s.To = p.pts[k], p.pts[k+1].X, p.pts[k+2]
				d := from.Sub(s.Centre)
				s.RX = d.Len()
				s.RY, s.Theta = s.RX, d.Angle()
				k += 3
			case EllipticalArc:
				s.Centre, s.RX, s.RY, s.Phi, s.Theta, s.Sweep, s.To = p.pts[k], p.pts[k+1].X, p.pts[k+1].Y, p.pts[k+2].X, p.pts[k+2].Y, p.pts[k+3].X, p.pts[k+4]
				k += 5
			case Cubic:
				s.C1, s.C2, s.To = p.pts[k], p.pts[k+1], p.pts[k+2]
				k += 3
			}
			if !yield(i, s) {
				return
			}
			from = s.To
		}
	}
}

// Region is an area: one closed outer path and the holes in it.
type Region struct {
	Outer *Path
	Holes []*Path
}

// Bounds returns the exact box of the path.
func (p *Path) Bounds() Rect { panic("not yet") }
