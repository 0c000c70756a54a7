package artwork

import (
	"strings"

	"markout/layout/geom"
)

// draw adds what an element draws, from the back to the front.
func (r *reader) draw(e *element, c context, out []Node) []Node {
	if !r.visit(e) || !r.drawn(e) {
		return out
	}
	c.depth++
	if c.depth > mostDepth {
		r.refuse(r.tag(e), "", "elements stand more than %d deep in each other through use", mostDepth)
		return out
	}
	d := r.declare(e)
	if d[pDisplay] == "none" || !fitsReader(e) {
		return out
	}
	c.style = r.inherit(e, d, c.style)
	if e.name == "text" {
		r.refuseText(e, c.style)
		return out
	}
	if !r.move(e, d, &c) {
		return out
	}
	if isShape(e.name) {
		return r.drawShape(e, d, c, out)
	}
	var inner []Node
	switch e.name {
	case "g", "a":
		inner = r.drawAll(e.children, c, nil)
	case "switch":
		for _, child := range e.children {
			if fitsReader(child) && r.drawn(child) {
				inner = r.draw(child, c, nil)
				break
			}
		}
	case "svg":
		inner = r.drawNested(e, d, c)
	case "use":
		if x, y, ok := r.useOrigin(e, d, c); ok {
			c.frame = Matrix{A: 1, D: 1, E: x, F: y}.Then(c.frame)
			inner = r.drawUse(e, d, c)
		}
	case "image":
		inner = r.drawImage(e, d, c)
	}
	return r.compose(e, d, c, r.boxOf(inner, c), inner, out)
}

func (r *reader) drawAll(all []*element, c context, out []Node) []Node {
	for _, e := range all {
		out = r.draw(e, c, out)
		if r.failed {
			return nil
		}
	}
	return out
}

// drawn reports whether elements of this kind draw something where they stand. What would draw in another reader is
// said.
func (r *reader) drawn(e *element) bool {
	switch e.name {
	case "g", "a", "svg", "switch", "use", "image", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text":
		return true
	case "foreignObject":
		if e.parent == nil || e.parent.name != "switch" {
			r.caution(r.tag(e), codeLeft, "", "what stands in a foreignObject is not drawn")
		}
	}
	return false
}

// refuseText says that a text is not drawn, where it would be seen.
func (r *reader) refuseText(e *element, s *style) {
	if lettered(e) && !s.hidden {
		r.caution(r.tag(e), codeText, "in the drawing program, convert the text to outlines (paths) and export again", "text is not drawn, since the letters could come out as others")
	}
}

// lettered reports whether something other than white space stands in e, at any depth.
func lettered(e *element) bool {
	if e.lettered {
		return true
	}
	for _, child := range e.children {
		if lettered(child) {
			return true
		}
	}
	return false
}

// fitsReader reports whether a child of switch is meant for this reader: it asks for no extension, and for no
// language but English.
func fitsReader(e *element) bool {
	for _, a := range e.attrs {
		switch a.name {
		case "requiredExtensions":
			return false
		case "systemLanguage":
			fits := false
			for _, l := range strings.Split(a.value, ",") {
				l = strings.ToLower(strings.TrimSpace(l))
				fits = fits || l == "en" || strings.HasPrefix(l, "en-")
			}
			if !fits {
				return false
			}
		}
	}
	return true
}

// move puts an element's transform before the frame. ok is false where nothing can be seen any more.
func (r *reader) move(e *element, d *declared, c *context) (ok bool) {
	text := d[pTransform]
	if text == "" {
		return true
	}
	m, good := parseTransform(text)
	if !good {
		r.caution(r.where(e, pTransform.String()), codeValue, "", "transform %s is not read", quote(text))
		return true
	}
	c.frame = m.Then(c.frame)
	if !c.frame.usable() {
		r.fault(r.where(e, pTransform.String()), codeValue, "", "the transform takes everything out of reach; nothing of it is drawn")
		return false
	}
	_, ok = c.frame.Inverse()
	return ok
}

// drawNested draws the inside of an svg element. The outermost one's own place was worked out before.
func (r *reader) drawNested(e *element, d *declared, c context) []Node {
	if e.parent == nil {
		return r.drawAll(e.children, c, nil)
	}
	m := measures{valueReader{r, e, d}, c}
	at := m.usedSize(box{w: c.view.w, h: c.view.h})
	at.x, at.y = m.get(pX, c.view.w, false), m.get(pY, c.view.h, false)
	return r.drawViewport(e, d, c, at)
}

// drawViewport draws the inside of an svg or symbol element laid into a place.
func (r *reader) drawViewport(e *element, d *declared, c context, at box) []Node {
	view, has, _ := r.viewBox(e)
	if !(at.w > 0 && at.h > 0) || has && !(view.w > 0 && view.h > 0) {
		return nil
	}
	outer := c.frame
	m := Matrix{A: 1, D: 1, E: at.x, F: at.y}
	c.view = viewport{at.w, at.h}
	if has {
		m = parseAspect(e.attr("preserveAspectRatio")).fit(view, at)
		c.view = viewport{view.w, view.h}
	}
	c.frame = m.Then(outer)
	if _, ok := c.frame.Inverse(); !ok {
		return nil
	}
	inner := r.drawAll(e.children, c, nil)
	if o := d[pOverflow]; o == "visible" || o == "auto" || len(inner) == 0 {
		return inner
	}
	return r.cropped(e, outer, at, inner)
}

// cropped clips nodes to a box; frame is the map from its units to the picture.
func (r *reader) cropped(e *element, frame Matrix, at box, nodes []Node) []Node {
	rect := geom.Polygon([]geom.Point{{X: at.x, Y: at.y}, {X: at.x + at.w, Y: at.y}, {X: at.x + at.w, Y: at.y + at.h}, {X: at.x, Y: at.y + at.h}})
	paths, ok := frame.carry([]*geom.Path{rect})
	if !ok { // so large that it cuts nothing that is in reach, or all of it
		return nodes
	}
	if !r.keep(e, paths) {
		return nil
	}
	return []Node{&Group{Opacity: 1, Clip: &Clip{Outlines: []Outline{{Paths: paths}}}, Nodes: nodes}}
}

// boxOf returns a function that finds the box of nodes in the units of c.
func (r *reader) boxOf(nodes []Node, c context) func() geom.Rect {
	return func() geom.Rect {
		back, ok := c.frame.Inverse()
		if !ok {
			return geom.EmptyRect()
		}
		return r.nodeBounds(nodes, back)
	}
}

// compose adds nodes under what an element asks for its inside as a whole. boxOf returns the box of them all in
// the units of c.
func (r *reader) compose(e *element, d *declared, c context, boxOf func() geom.Rect, inner, out []Node) []Node {
	if len(inner) == 0 || r.failed {
		return out
	}
	opacity := 1.0
	v := valueReader{r, e, d}
	v.opacity(pOpacity, &opacity)
	if opacity < leastOpacity {
		return out
	}
	r.notDrawn(v)
	clip, all := r.clipOf(e, d, c, boxOf)
	if all {
		return out
	}
	mask, all := r.maskOf(e, d, c, boxOf)
	plain := clip == nil && mask == nil
	switch {
	case all:
		return out
	case plain && opacity == 1:
		return append(out, inner...)
	case plain && len(inner) == 1 && fade(inner[0], opacity):
		return append(out, inner[0])
	}
	return append(out, &Group{Opacity: opacity, Clip: clip, Mask: mask, Nodes: inner})
}

// leastOpacity is what can still be seen; products of opacities stay above nothing.
const leastOpacity = 1e-4

// fade makes a node let through more, where one opacity of its own can say that.
func fade(n Node, opacity float64) bool {
	switch n := n.(type) {
	case *Group:
		return dim(&n.Opacity, opacity)
	case *Image:
		return dim(&n.Opacity, opacity)
	case *Shape:
		switch {
		case n.Stroke == nil:
			return dim(&n.Fill.Opacity, opacity)
		case n.Fill == nil:
			return dim(&n.Stroke.Opacity, opacity)
		}
	}
	return false
}

// dim multiplies an opacity, unless it would vanish.
func dim(o *float64, by float64) bool {
	if *o*by < leastOpacity {
		return false
	}
	*o *= by
	return true
}

// notDrawn says what an element asks for that this reader leaves out.
func (r *reader) notDrawn(v valueReader) {
	for _, p := range [...]property{pFilter, pBlend, pTransformOrigin} {
		if v.given(p) && v.d[p] != "none" && v.d[p] != "normal" && v.d[p] != "initial" {
			r.caution(v.where(p), codeLeft, "in the drawing program, flatten it to outlines or to a picture", "%s is left out; the rest is drawn without it", p)
		}
	}
}
