package artwork

// useOrigin reads where a use puts what it shows.
func (r *reader) useOrigin(e *element, d *declared, c context) (x, y float64, ok bool) {
	if !r.useAgain(e) {
		return 0, 0, false
	}
	m := measures{valueReader{r, e, d}, c}
	return m.get(pX, c.view.w, false), m.get(pY, c.view.h, false), true
}

// useAgain counts what stands in one place and is drawn in another; false means that nothing more is to be.
func (r *reader) useAgain(e *element) bool {
	r.uses++
	if r.uses > mostUses {
		r.refuse(r.tag(e), "", "the picture uses parts again more than %d times", mostUses)
	}
	return !r.failed
}

// drawUse draws what a use points to, in the style of the use.
func (r *reader) drawUse(e *element, d *declared, c context) []Node {
	link := e.href()
	if link == "" {
		return nil
	}
	target := r.linked(e, "href", link)
	if target == nil {
		return nil
	}
	if r.active[target] || target.holds(e) {
		r.fault(r.place(e, "href"), codeLink, "", "use of %s leads round in a circle and is left out", quote(link))
		return nil
	}
	r.active[target] = true
	defer delete(r.active, target)
	m := measures{valueReader{r, e, d}, c}
	if target.name == "symbol" || target.name == "svg" {
		return r.drawSized(target, m, c)
	}
	return r.draw(target, c, nil)
}

// holds reports whether e is inner or stands around it.
func (e *element) holds(inner *element) bool {
	for ; inner != nil; inner = inner.parent {
		if inner == e {
			return true
		}
	}
	return false
}

// usedSize is the size that an element asks for; otherwise is taken for a side that it does not give.
func (m measures) usedSize(otherwise box) box {
	if m.given(pWidth) && m.d[pWidth] != "auto" {
		otherwise.w = m.get(pWidth, m.c.view.w, true)
	}
	if m.given(pHeight) && m.d[pHeight] != "auto" {
		otherwise.h = m.get(pHeight, m.c.view.h, true)
	}
	return otherwise
}

// drawSized draws a symbol or svg element with the size that the use gives instead of its own.
func (r *reader) drawSized(target *element, use measures, c context) []Node {
	if !r.visit(target) {
		return nil
	}
	c.depth++
	d := r.declare(target)
	if d[pDisplay] == "none" {
		return nil
	}
	c.style = r.inherit(target, d, c.style)
	own := measures{valueReader{r, target, d}, c}
	at := use.usedSize(own.usedSize(box{w: c.view.w, h: c.view.h}))
	at.x, at.y = own.get(pX, c.view.w, false), own.get(pY, c.view.h, false)
	if !r.move(target, d, &c) {
		return nil
	}
	inner := r.drawViewport(target, d, c, at)
	return r.compose(target, d, c, r.boxOf(inner, c), inner, nil)
}
