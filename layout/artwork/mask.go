package artwork

import (
	"strings"

	"markout/layout/geom"
)

// maskOf returns what an element is masked with, nil for nothing; all is true where nothing of it is left.
func (r *reader) maskOf(e *element, d *declared, c context, boxOf func() geom.Rect) (mask *Mask, all bool) {
	v := valueReader{r, e, d}
	if !v.given(pMask) || d[pMask] == "none" {
		return nil, false
	}
	link, _, ok := parseURL(d[pMask])
	if !ok {
		r.caution(v.where(pMask), codeLeft, "", "mask %s is not read here", quote(d[pMask]))
		return nil, false
	}
	target := r.linked(e, pMask.String(), link)
	switch {
	case target == nil:
		return nil, false
	case target.name != "mask":
		r.caution(v.where(pMask), codeLink, "", "%s is not a mask; nothing is masked", quote(link))
		return nil, false
	case r.active[target]:
		r.caution(v.where(pMask), codeLink, "", "the mask %s leads round in a circle; nothing is masked by it", quote(link))
		return nil, false
	case !r.useAgain(e):
		return nil, true
	}
	r.active[target] = true
	defer delete(r.active, target)
	td := r.declare(target)
	mask = &Mask{Alpha: td[pMaskType] == "alpha"}
	area, ok := r.maskArea(target, td, c, boxOf)
	if !ok {
		return nil, true
	}
	own := context{frame: c.frame, style: r.styleOf(target), view: c.view, depth: c.depth + 1}
	if target.attr("maskContentUnits") == "objectBoundingBox" {
		b := boxOf()
		if b.Empty() || !(b.W() > 0 && b.H() > 0) {
			return nil, true
		}
		own.frame = Matrix{A: b.W(), D: b.H(), E: b.Min.X, F: b.Min.Y}.Then(own.frame)
		own.view = viewport{1, 1}
	}
	nodes := r.drawAll(target.children, own, nil)
	if len(nodes) > 0 {
		nodes = r.cropped(target, c.frame, area, nodes)
	}
	// A mask may be masked and clipped itself, in the place of what it masks.
	mask.Nodes = r.compose(target, td, c, boxOf, nodes, nil)
	return mask, len(mask.Nodes) == 0
}

// maskArea is the part of the plane that a mask lets anything through in: by default the box of what is masked
// and a tenth more on every side.
func (r *reader) maskArea(target *element, d *declared, c context, boxOf func() geom.Rect) (area box, ok bool) {
	m := measures{valueReader{r, target, d}, c}
	shares := strings.TrimSpace(target.attr("maskUnits")) != "userSpaceOnUse"
	if shares {
		m.c.view = viewport{1, 1}
	}
	get := func(p property, otherwise, whole float64) float64 {
		if !m.given(p) {
			return otherwise * whole
		}
		return m.get(p, whole, false)
	}
	area = box{get(pX, -0.1, m.c.view.w), get(pY, -0.1, m.c.view.h), get(pWidth, 1.2, m.c.view.w), get(pHeight, 1.2, m.c.view.h)}
	if shares {
		b := boxOf()
		if b.Empty() {
			return box{}, false
		}
		area = box{b.Min.X + area.x*b.W(), b.Min.Y + area.y*b.H(), area.w * b.W(), area.h * b.H()}
	}
	return area, area.w > 0 && area.h > 0
}
