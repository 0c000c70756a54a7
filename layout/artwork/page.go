package artwork

import (
	"math"

	"markout/layout/geom"
)

// picture draws the outermost element in its own frame.
func (r *reader) picture(root *element) *Picture {
	d := r.declare(root)
	view, has, ok := r.viewBox(root)
	if !ok {
		return nil
	}
	w, okW := r.side(root, d, pWidth)
	h, okH := r.side(root, d, pHeight)
	if !okW || !okH {
		return nil
	}
	if !has && (w == 0 || h == 0) {
		return r.unsized(root, w, h)
	}
	switch {
	case w == 0 && h == 0:
		w, h = view.w, view.h
	case w == 0:
		w = h * view.w / view.h
	case h == 0:
		h = w * view.h / view.w
	}
	m := Identity()
	if has {
		m = parseAspect(root.attr("preserveAspectRatio")).fit(view, box{0, 0, w, h})
	} else {
		view = box{0, 0, w, h}
	}
	return r.page(root, box{0, 0, w, h}, m, viewport{view.w, view.h})
}

// page draws what lies in the frame, given in pixels with y down; m is the map to these pixels.
func (r *reader) page(root *element, frame box, m Matrix, view viewport) *Picture {
	p := &Picture{W: frame.w * pixel, H: frame.h * pixel}
	if !(p.W <= geom.MostCoordinate && p.H <= geom.MostCoordinate && p.W > geom.Tolerance && p.H > geom.Tolerance) {
		r.refuse(r.tag(root), "", "the picture's size is out of reach")
		return nil
	}
	m = m.Then(Matrix{A: pixel, D: -pixel, E: -frame.x * pixel, F: (frame.y + frame.h) * pixel})
	p.Nodes = r.draw(root, context{frame: m, style: &initialStyle, view: view}, nil)
	return p
}

// viewBox reads the viewBox of an element; has is false where there is none that can be used. ok is false after an
// error.
func (r *reader) viewBox(e *element) (view box, has, ok bool) {
	text := e.attr("viewBox")
	if text == "" {
		return box{}, false, true
	}
	view, good := parseViewBox(text)
	switch at := r.place(e, "viewBox"); {
	case !good:
		r.caution(at, codeValue, "", "viewBox %s is not read: it is four numbers, of which the last two are not below 0", quote(text))
		return box{}, false, true
	case view.w > 0 && view.h > 0:
		return view, true, true
	case e.parent == nil:
		r.refuse(at, "a viewBox is x, y, width and height", "the picture's viewBox has no size")
	}
	return view, true, e.parent != nil
}

// side reads the width or height of the outermost element in pixels, 0 where it is not given or a percentage, which
// has nothing to be a part of. ok is false after an error.
func (r *reader) side(root *element, d *declared, p property) (px float64, ok bool) {
	v := valueReader{r, root, d}
	if !v.given(p) || d[p] == "auto" {
		return 0, true
	}
	l, good := parseLength(d[p], mediumType)
	switch {
	case !good:
		v.wrong(p, "is no length that is read here")
		return 0, true
	case l.value <= 0:
		r.refuse(v.where(p), "", "the picture's %s is not more than 0", p)
		return 0, false
	case l.percent:
		return 0, true
	}
	return l.value, true
}

// unsized draws a picture that does not say its size: what is drawn in it makes the frame.
func (r *reader) unsized(root *element, w, h float64) *Picture {
	r.caution(r.tag(root), codeValue, "export it with a size or a viewBox", "the picture does not say its size; what is drawn in it is taken for its frame")
	// CSS gives such pictures 300 × 150 pixels, of which percentages are.
	view := viewport{300, 150}
	if w > 0 {
		view.w = w
	}
	if h > 0 {
		view.h = h
	}
	r.muted = true
	nodes := r.draw(root, context{frame: Matrix{A: 1, D: 1}, style: &initialStyle, view: view}, nil)
	r.muted = false
	b := r.nodeBounds(nodes, Identity())
	if r.failed || b.Empty() || !(b.W() > 0 && b.H() > 0) {
		r.refuse(r.tag(root), "export it with a size or a viewBox", "the picture has no size, and nothing drawn in it to take one from")
		return nil
	}
	r.visits, r.uses, r.points, r.bytes = 0, 0, 0, 0
	r.clips = map[clipKey]*Clip{}
	return r.page(root, box{b.Min.X, b.Min.Y, b.W(), b.H()}, Identity(), view)
}

// squareCorners are those of the unit square.
var squareCorners = [4]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}

// nodeBounds is the box of what nodes draw, strokes and clips apart, seen through the map to.
func (r *reader) nodeBounds(nodes []Node, to Matrix) geom.Rect {
	b := geom.EmptyRect()
	r.visits += len(nodes)
	if r.visits > mostVisits { // the next element that is drawn says so
		return b
	}
	for _, n := range nodes {
		switch n := n.(type) {
		case *Group:
			b = b.Union(r.nodeBounds(n.Nodes, to))
		case *Shape:
			for _, p := range n.Paths {
				b = b.Union(to.Path(p).Bounds())
			}
		case *Image:
			m := n.Frame.Then(to)
			for _, q := range squareCorners {
				b = b.Include(m.Apply(q))
			}
		}
	}
	if math.IsNaN(b.W() + b.H()) {
		return geom.EmptyRect()
	}
	return b
}
