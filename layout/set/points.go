package set

import (
	"markout/layout/geom"
)

// FloorPoint is a point of an element that is marked on the floor, in the set's axes.
type FloorPoint struct {
	Name  string     // within the element: "corner 1", "riser 3 left", "P"
	At    geom.Point // plan place, millimetres
	Level float64    // of the piece's underside above the floor; of a riser line that of the tread below it
	First bool       // a pin: a mark of one point, laid before all else
	Run   float64    // length of the line, arc or curve taped from this point to the next, 0 where none starts here
	// Along is that line's places a third and two thirds of the way, of a curve by its parameter, and its end: with At they fix
	// a line, an arc and a cubic. Nothing where no line starts here.
	Along [3]geom.Point
}

// PlaceName returns the name of a copy at one of its places as people and tables use it: deck, bollard.3, cart (scene 2).
func (e *Element) PlaceName(c Copy, pl Place) string {
	if pl.Position == "" {
		return e.CopyName(c)
	}
	return e.CopyName(c) + " (" + pl.Position + ")"
}

// FloorPoints returns the points to be marked for a copy of e that stands at pl, in the order in which they are
// taped along the piece:
//
//	straight outline         corner 1 …, anticlockwise from the front edge's plan-left end
//	drawn outline            end 1 … of each line, arc and curve, in the order in which they were typed
//	circle                   centre
//	ellipse                  centre, then end 1 … end 4 of its axes, anticlockwise from the front, which its turn needs
//	flight of steps          riser 1 left, riser 1 right (as one climbs) … up to the last riser
//	loose blocks             block 1 corner 1 … from the left end of its front, without riser lines
//	ramp                     corner 1 … from the left end of its lower edge
//	cone                     as its lower outline; one that stands on its point as its upper one
//	flat                     P, Q; of a curved one between them middle 1 … of each arc or curve and end 1 … where the
//	                         pieces of its line meet; then near and far (from P) of every opening that comes down to the floor: door 1 near
//	standing panel           P, Q
//	mark                     point (or point 1 …); start and end 1 … of a path, a closed one without start
//
// The holes of a lying panel follow its outline as `hole 1 corner 1`, a ring's inner edge as `inner corner 1` (left out
// where both edges are circles about one centre).
//
// Dressing is taped as its outline. What hangs upside down in a room overhead gives none: its places belong to the room's own table. A
// cloth's are P and Q.
//
// A hall gives none: it is what is measured from. A reserve gives none either: nothing stands there, and tape around it
// would be read as a piece by everyone who walks the floor; who wants its edge seen gives it a mark.
func FloorPoints(e *Element, pl Place) []FloorPoint {
	l := lister{frame: pl.Frame}
	if pl.Over != nil {
		return nil
	}
	switch s := e.Shape.(type) {
	case *Platform:
		l.outline("", s.Outline)
	case *Dressing:
		l.outline("", s.Outline)
	case *Post:
		if s.Diameter > 0 {
			l.add("centre", s.Outline.Centre, 0)
			break
		}
		l.outline("", s.Outline)
	case *Ring:
		l.outline("", s.Outer)
		if in := s.Inner; in != nil && !(round(s.Outer) && round(*in) && in.Centre.Near(s.Outer.Centre)) {
			l.outline("inner ", *in)
		}
	case *Cone:
		l.outline("", s.Foot())
	case *Panel:
		if s.Stands {
			l.line("P", straight(geom.Point{}, geom.Point{X: s.Run}), 0)
			l.add("Q", geom.Point{X: s.Run}, 0)
			break
		}
		l.outline("", s.Outline)
		for i, h := range s.Holes {
			l.outline("hole "+itoa(i+1)+" ", h)
		}
	case *Figure:
		b := s.Box()
		l.line("P", straight(geom.Point{X: b.Min.X}, geom.Point{X: b.Max.X}), 0)
		l.add("Q", geom.Point{X: b.Max.X}, 0)
	case *Cloth:
		b := s.Finished()
		l.line("P", straight(geom.Point{X: b.Min.X}, geom.Point{X: b.Max.X}), 0)
		l.add("Q", geom.Point{X: b.Max.X}, 0)
	case *Steps:
		l.steps(s)
	case *Ramp:
		l.corners("", box(-s.Width/2, 0, s.Width/2, s.Length))
	case *Flat:
		l.flat(s)
	case *Mark:
		l.mark(s)
	}
	return l.points
}

// lister gathers the points of one piece, given in its own axes.
type lister struct {
	frame  geom.Frame
	points []FloorPoint
}

// add marks the point p of the piece, up above its underside, from which no line is taped.
func (l *lister) add(name string, p geom.Point, up float64) {
	v := l.frame.Apply(geom.Vec{X: p.X, Y: p.Y, Z: up})
	l.points = append(l.points, FloorPoint{Name: name, At: v.Plan(), Level: v.Z})
}

// line marks the start of s, which is taped, up above the piece's underside.
func (l *lister) line(name string, s geom.Segment, up float64) {
	l.add(name, s.From, up)
	p := &l.points[len(l.points)-1]
	p.Run = s.Length()
	m := l.frame.Plan()
	p.Along = [3]geom.Point{m.Apply(s.Point(1. / 3)), m.Apply(s.Point(2. / 3)), m.Apply(s.To)}
}

func straight(from, to geom.Point) geom.Segment {
	return geom.Segment{Kind: geom.Line, From: from, To: to}
}

func round(o Outline) bool { return o.Form == "circle" }

func (l *lister) outline(prefix string, o Outline) {
	switch {
	case round(o):
		l.add(prefix+"centre", o.Centre, 0)
	case o.Path.Empty():
	case o.Form == "ellipse":
		l.ellipse(prefix, o)
	case o.Form == "path" || o.Form == "svg":
		l.ends(prefix, o.Path, o.Reversed)
	default:
		l.corners(prefix, o.Path)
	}
}

func (l *lister) corners(prefix string, p *geom.Path) {
	for i, s := range p.Segments() {
		l.line(prefix+"corner "+itoa(i+1), s, 0)
	}
}

// ellipse takes the axes from the box: an ellipse lies with its axes along its own.
func (l *lister) ellipse(prefix string, o Outline) {
	b := o.Path.Bounds()
	mid := b.Mid()
	l.add(prefix+"centre", o.Centre, 0)
	for i, p := range [4]geom.Point{{X: mid.X, Y: b.Min.Y}, {X: b.Max.X, Y: mid.Y}, {X: mid.X, Y: b.Max.Y}, {X: b.Min.X, Y: mid.Y}} {
		l.add(prefix+"end "+itoa(i+1), p, 0)
	}
}

// ends numbers the segments' ends as they were typed, so that a clockwise outline, which is kept the other way
// round, still has its first typed end as end 1.
func (l *lister) ends(prefix string, p *geom.Path, reversed bool) {
	segs := make([]geom.Segment, 0, p.Len())
	for _, s := range p.Segments() {
		segs = append(segs, s)
	}
	n := len(segs)
	if !p.Closed() {
		l.line(prefix+"start", segs[0], 0)
	}
	for k := range n {
		name := prefix + "end " + itoa(k+1)
		switch {
		case !p.Closed() && k == n-1:
			l.add(name, segs[k].To, 0)
		case reversed:
			l.line(name, segs[(2*n-2-k)%n].Reverse(), 0)
		default:
			l.line(name, segs[(k+1)%n], 0)
		}
	}
}

func (l *lister) mark(s *Mark) {
	for i, p := range s.Points {
		name := "point"
		if len(s.Points) > 1 {
			name += " " + itoa(i+1)
		}
		l.add(name, p, 0)
	}
	if len(s.Points) == 1 && len(s.Paths) == 0 {
		l.points[0].First = true
	}
	for i, p := range s.Paths {
		if p.Empty() {
			continue
		}
		prefix := ""
		if len(s.Paths) > 1 {
			prefix = "path " + itoa(i+1) + " "
		}
		l.ends(prefix, p, false)
	}
}
