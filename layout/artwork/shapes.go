package artwork

import (
	"errors"
	"math"
	"strings"

	"markout/layout/geom"
)

// context is what holds where an element stands.
type context struct {
	frame Matrix // from its user units to the picture
	style *style
	view  viewport
	depth int // how many elements and references it stands in
}

// isShape reports whether elements of this name are outlines.
func isShape(name string) bool {
	switch name {
	case "path", "rect", "circle", "ellipse", "line", "polyline", "polygon":
		return true
	}
	return false
}

// outline returns a shape's paths in its user units, none where it draws nothing.
func (r *reader) outline(e *element, d *declared, c context) []*geom.Path {
	m := measures{valueReader{r, e, d}, c}
	switch e.name {
	case "path":
		return r.pathData(e)
	case "rect":
		return m.rect()
	case "circle":
		return m.ellipse(m.get(pR, c.view.diagonal(), true), math.NaN())
	case "ellipse":
		rx, ry := m.auto(pRX, c.view.w), m.auto(pRY, c.view.h)
		return m.ellipse(rx, ry)
	case "line":
		p := geom.NewPath(geom.Point{X: m.attr("x1", c.view.w), Y: m.attr("y1", c.view.h)})
		p.LineTo(geom.Point{X: m.attr("x2", c.view.w), Y: m.attr("y2", c.view.h)})
		return []*geom.Path{p}
	}
	return r.pointList(e)
}

// measures reads lengths that place a shape.
type measures struct {
	valueReader
	c context
}

// get reads a length, 0 where it is not given or wrong; percentages are of whole.
func (m measures) get(p property, whole float64, positive bool) float64 {
	var l length
	if m.d[p] != "auto" {
		m.length(p, m.c.style.em, &l, positive)
	}
	return l.along(whole)
}

// auto reads a radius that follows the other one where it is not given: then it is NaN.
func (m measures) auto(p property, whole float64) float64 {
	if !m.given(p) || m.d[p] == "auto" {
		return math.NaN()
	}
	l := length{value: math.NaN()}
	m.length(p, m.c.style.em, &l, true)
	return l.along(whole)
}

// attr reads a length that no style sheet sets.
func (m measures) attr(name string, whole float64) float64 {
	text := m.e.attr(name)
	if text == "" {
		return 0
	}
	l, ok := parseLength(text, m.c.style.em)
	if !ok {
		say := m.caution
		if endless(text) {
			say = m.fault
		}
		say(m.place(m.e, name), codeValue, "", "%s %s is no length that is read here", name, quote(text))
	}
	return l.along(whole)
}

// rect follows the order of SVG 2, section 10.2, so that dashes begin where they should.
func (m measures) rect() []*geom.Path {
	x, y := m.get(pX, m.c.view.w, false), m.get(pY, m.c.view.h, false)
	w, h := m.get(pWidth, m.c.view.w, true), m.get(pHeight, m.c.view.h, true)
	if !(w > 0 && h > 0) {
		return nil
	}
	rx, ry := m.auto(pRX, m.c.view.w), m.auto(pRY, m.c.view.h)
	switch {
	case math.IsNaN(rx) && math.IsNaN(ry):
		rx, ry = 0, 0
	case math.IsNaN(rx):
		rx = ry
	case math.IsNaN(ry):
		ry = rx
	}
	rx, ry = min(rx, w/2), min(ry, h/2)
	pt := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	if !(rx > 0 && ry > 0) {
		return []*geom.Path{geom.Polygon([]geom.Point{pt(x, y), pt(x+w, y), pt(x+w, y+h), pt(x, y+h)})}
	}
	p := geom.NewPath(pt(x+rx, y))
	line := func(q geom.Point) {
		if q != p.End() {
			p.LineTo(q)
		}
	}
	line(pt(x+w-rx, y))
	p.EllipseTo(pt(x+w-rx, y+ry), rx, ry, 0, -math.Pi/2, math.Pi/2, pt(x+w, y+ry))
	line(pt(x+w, y+h-ry))
	p.EllipseTo(pt(x+w-rx, y+h-ry), rx, ry, 0, 0, math.Pi/2, pt(x+w-rx, y+h))
	line(pt(x+rx, y+h))
	p.EllipseTo(pt(x+rx, y+h-ry), rx, ry, 0, math.Pi/2, math.Pi/2, pt(x, y+h-ry))
	line(pt(x, y+ry))
	p.EllipseTo(pt(x+rx, y+ry), rx, ry, 0, math.Pi, math.Pi/2, pt(x+rx, y))
	p.Close()
	return []*geom.Path{p}
}

// ellipse begins at the right and runs down, as SVG 2, section 10.3, has it. A radius that is NaN is as great as
// the other.
func (m measures) ellipse(rx, ry float64) []*geom.Path {
	if math.IsNaN(rx) {
		rx = ry
	}
	if math.IsNaN(ry) {
		ry = rx
	}
	if !(rx > 0 && ry > 0) {
		return nil
	}
	o := geom.Point{X: m.get(pCX, m.c.view.w, false), Y: m.get(pCY, m.c.view.h, false)}
	ends := [4]geom.Point{{X: o.X + rx, Y: o.Y}, {X: o.X, Y: o.Y + ry}, {X: o.X - rx, Y: o.Y}, {X: o.X, Y: o.Y - ry}}
	p := geom.NewPath(ends[0])
	for i := range 4 {
		p.EllipseTo(o, rx, ry, 0, float64(i)*math.Pi/2, math.Pi/2, ends[(i+1)%4])
	}
	p.Close()
	return []*geom.Path{p}
}

// pathData reads a path up to what is wrong in it.
func (r *reader) pathData(e *element) []*geom.Path {
	d := e.attr("d")
	if d == "none" {
		return nil
	}
	paths, err := geom.ParsePathData(d)
	var wrong *geom.DataError
	if errors.As(err, &wrong) {
		at := r.placeIn(e, "d", wrong.Offset)
		if strings.Contains(wrong.Message, "beyond") || endless(d[min(max(wrong.Offset, 0), len(d)):]) {
			r.fault(at, codeData, "", "%s in a path's data", wrong.Message)
		} else {
			r.caution(at, codeData, "", "the path is drawn up to here: %s", wrong.Message)
		}
	}
	return paths
}

// endless reports whether a text begins with a word for what is no number or has no end.
func endless(s string) bool {
	s = strings.ToLower(strings.TrimLeft(s, " \t\r\n,+-"))
	return strings.HasPrefix(s, "nan") || strings.HasPrefix(s, "inf")
}

// pointList reads the points of a polyline or polygon, up to what is wrong.
func (r *reader) pointList(e *element) []*geom.Path {
	v, ok := numbers(e.attr("points"))
	if !ok || len(v)%2 == 1 {
		r.caution(r.place(e, "points"), codeData, "", "the points are wrong, or one has no partner; the line is drawn up to there")
	}
	if len(v) < 4 { // a single point draws nothing
		return nil
	}
	p := geom.NewPath(geom.Point{X: v[0], Y: v[1]})
	for i := 2; i+1 < len(v); i += 2 {
		p.LineTo(geom.Point{X: v[i], Y: v[i+1]})
	}
	if e.name == "polygon" {
		p.Close()
	}
	return []*geom.Path{p}
}

// bounds is the box of paths, empty where there are none.
func bounds(paths []*geom.Path) geom.Rect {
	b := geom.EmptyRect()
	for _, p := range paths {
		b = b.Union(p.Bounds())
	}
	return b
}

// carry takes paths into the picture. ok is false where they come to lie out of reach.
func (m Matrix) carry(paths []*geom.Path) (out []*geom.Path, ok bool) {
	out = make([]*geom.Path, 0, len(paths))
	for _, p := range paths {
		q := m.Path(p)
		if b := q.Bounds(); !inReach(b.Min) || !inReach(b.Max) {
			return nil, false
		}
		out = append(out, q)
	}
	return out, true
}
