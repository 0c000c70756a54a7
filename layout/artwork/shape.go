package artwork

import (
	"markout/layout/geom"
)

// drawShape draws one outline with its paints.
func (r *reader) drawShape(e *element, d *declared, c context, out []Node) []Node {
	own := r.outline(e, d, c)
	if len(own) == 0 || c.style.hidden {
		return out
	}
	paths, ok := c.frame.carry(own)
	if !ok {
		r.fault(r.tag(e), codeValue, "", "this outline lies out of reach (beyond 10 km) and is left out")
		return out
	}
	box := bounds(own)
	s := &Shape{Paths: paths, StrokeFirst: c.style.strokeFirst, Span: r.tag(e)}
	v := valueReader{r, e, d}
	var nodes []Node
	if p := r.patternOf(c.style.fill); p != nil {
		nodes = r.patternFill(v, c, p, Outline{Paths: paths, EvenOdd: c.style.fillEvenOdd}, box)
	} else if paint, ok := r.paint(v, pFill, c, box); ok {
		s.Fill = &Fill{paint, c.style.fillEvenOdd}
	}
	if paint, ok := r.paint(v, pStroke, c, box); ok {
		s.Stroke = r.stroke(v, c, own, paint)
	}
	lines := r.dots(s, own, c)
	if s.Fill != nil || s.Stroke != nil {
		lines = append(lines, s)
	}
	for _, n := range lines {
		if !r.keep(e, n.(*Shape).Paths) {
			return nil
		}
	}
	if s.StrokeFirst {
		nodes = append(lines, nodes...)
	} else {
		nodes = append(nodes, lines...)
	}
	nodes = r.drawMarkers(e, c, own, nodes)
	return r.compose(e, d, c, func() geom.Rect { return box }, nodes, out)
}

// paint returns what fill or stroke is painted with; ok is false for nothing.
func (r *reader) paint(v valueReader, p property, c context, box geom.Rect) (Paint, bool) {
	w, opacity := c.style.fill, c.style.fillOpacity
	if p == pStroke {
		w, opacity = c.style.stroke, c.style.strokeOpacity
	}
	paint := Paint{Colour: w.Colour, Opacity: opacity * w.opacity}
	switch w.kind {
	case noPaint:
		return Paint{}, false
	case colourPaint:
		paint = Paint{Colour: c.style.colour.Colour, Opacity: opacity * c.style.colour.opacity}
	case serverPaint:
		server, ok := r.server(v, p, w.link, c, box)
		if ok {
			server.Opacity *= opacity
			return server, server.Opacity >= leastOpacity
		}
		if w.none {
			return Paint{}, false
		}
	}
	return paint, paint.Opacity >= leastOpacity
}

// dots turns subpaths without length into what a stroke shows of them: nothing, or a dot where its ends are round
// or square. Readers of pages differ on such lines, so they become areas, and leave the shape.
func (r *reader) dots(s *Shape, own []*geom.Path, c context) []Node {
	var lines, dots []*geom.Path
	for i, p := range own {
		if b := p.Bounds(); b.W() > 0 || b.H() > 0 {
			lines = append(lines, s.Paths[i])
			continue
		}
		if s.Stroke == nil || s.Stroke.Cap == Butt {
			continue
		}
		dots = append(dots, s.dot(s.Paths[i].Start(), c))
	}
	if len(lines) == len(own) {
		return nil
	}
	s.Paths = lines
	if len(dots) == 0 {
		if len(lines) == 0 {
			s.Fill, s.Stroke = nil, nil
		}
		return nil
	}
	dot := &Shape{Paths: dots, Fill: &Fill{Paint: s.Stroke.Paint}, Span: s.Span}
	if len(lines) == 0 {
		s.Fill, s.Stroke = nil, nil
	}
	return []Node{dot}
}

// dot is the area of a dot at a place of the picture: round, or square along the axes of the shape's own units.
func (s *Shape) dot(at geom.Point, c context) *geom.Path {
	m := s.Stroke.Pen
	m.E, m.F = at.X, at.Y
	if s.Stroke.Cap == RoundCap {
		return m.Path(geom.Circle(s.Stroke.Width))
	}
	if s.Stroke.Pen == Identity() { // an even scale may still have turned the axes
		axis := c.frame.Vector(geom.Point{X: 1}).Unit()
		m.A, m.B, m.C, m.D = axis.X, axis.Y, -axis.Y, axis.X
	}
	return m.Path(geom.Rectangle(s.Stroke.Width, s.Stroke.Width))
}
