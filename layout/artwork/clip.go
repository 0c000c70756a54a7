package artwork

import (
	"markout/layout/geom"
)

// clipKey tells clips apart that come out differently.
type clipKey struct {
	e     *element
	frame Matrix // from the clip's own units to the picture
	outer Matrix // from those of the element that is clipped
	view  viewport
}

// clipOf returns what an element is clipped to, nil for nothing; all is true where nothing of it is left. boxOf
// returns the box of what is clipped in its own user units.
func (r *reader) clipOf(e *element, d *declared, c context, boxOf func() geom.Rect) (clip *Clip, all bool) {
	v := valueReader{r, e, d}
	if !v.given(pClipPath) || d[pClipPath] == "none" {
		return nil, false
	}
	link, _, ok := parseURL(d[pClipPath])
	if !ok {
		r.caution(v.where(pClipPath), codeLeft, "", "clip-path %s is not read here; nothing is cut off", quote(d[pClipPath]))
		return nil, false
	}
	target := r.linked(e, pClipPath.String(), link)
	switch {
	case target == nil:
		return nil, false
	case target.name != "clipPath":
		r.caution(v.where(pClipPath), codeLink, "", "%s is not a clip path; nothing is cut off", quote(link))
		return nil, false
	case r.active[target]:
		r.caution(v.where(pClipPath), codeLink, "", "the clip path %s leads round in a circle; nothing is cut off by it", quote(link))
		return nil, false
	}
	frame := c.frame
	if target.attr("clipPathUnits") == "objectBoundingBox" {
		b := boxOf()
		if b.Empty() || !(b.W() > 0 && b.H() > 0) {
			return nil, true
		}
		frame = Matrix{A: b.W(), D: b.H(), E: b.Min.X, F: b.Min.Y}.Then(frame)
		c.view = viewport{1, 1}
	}
	td := r.declare(target)
	own := context{frame: frame, style: r.styleOf(target), view: c.view, depth: c.depth}
	if !r.move(target, td, &own) {
		return nil, true
	}
	key := clipKey{target, own.frame, c.frame, own.view}
	if clip, ok := r.clips[key]; ok {
		return clip, len(clip.Outlines) == 0
	}
	if !r.useAgain(e) {
		return nil, true
	}
	r.active[target] = true
	defer delete(r.active, target)
	clip = &Clip{}
	further, nothing := r.clipOf(target, td, c, boxOf)
	if clip.Clip = further; !nothing {
		for _, child := range target.children {
			r.clipChild(child, own, clip)
		}
	}
	r.clips[key] = clip
	r.count(target, clip)
	return clip, len(clip.Outlines) == 0
}

// count counts the areas that a clip is made of when each is cut down to others by itself, as it may have to be.
func (r *reader) count(e *element, clip *Clip) {
	n := r.cuts[clip.Clip]
	for _, o := range clip.Outlines {
		n += 1 + r.cuts[o.Clip]
		if n > mostUses {
			r.refuse(r.tag(e), "", "clip paths cut one another down more than %d times", mostUses)
			return
		}
	}
	r.cuts[clip] = n
}

// clipChild adds the outline of one child of a clip path.
func (r *reader) clipChild(e *element, c context, clip *Clip) {
	if !r.visit(e) || !fitsReader(e) {
		return
	}
	d := r.declare(e)
	if d[pDisplay] == "none" {
		return
	}
	c.style = r.inherit(e, d, c.style)
	if e.name == "text" {
		r.refuseText(e, c.style)
	}
	if !isShape(e.name) && e.name != "use" {
		return
	}
	if !r.move(e, d, &c) {
		return
	}
	if e.name == "use" {
		r.clipUse(e, d, c, clip)
		return
	}
	if c.style.hidden {
		return
	}
	own := r.outline(e, d, c)
	paths, ok := c.frame.carry(own)
	if !ok {
		r.fault(r.tag(e), codeValue, "", "this outline of a clip path lies out of reach and is left out")
		return
	}
	inner, all := r.clipOf(e, d, c, func() geom.Rect { return bounds(own) })
	if len(paths) == 0 || all || !r.keep(e, paths) {
		return
	}
	clip.Outlines = append(clip.Outlines, Outline{Paths: paths, EvenOdd: c.style.clipEvenOdd, Clip: inner})
}

// clipUse adds the outline that a use in a clip path points to; it may point to a shape only (SVG 1.1, section 14.3.5).
func (r *reader) clipUse(e *element, d *declared, c context, clip *Clip) {
	target := r.linked(e, "href", e.href())
	if target == nil || !isShape(target.name) && target.name != "text" {
		return
	}
	x, y, ok := r.useOrigin(e, d, c)
	if !ok {
		return
	}
	c.frame = Matrix{A: 1, D: 1, E: x, F: y}.Then(c.frame)
	var used Clip
	r.clipChild(target, c, &used)
	if len(used.Outlines) == 0 {
		return
	}
	further, all := r.clipOf(e, d, c, func() geom.Rect {
		b := geom.EmptyRect()
		if back, ok := c.frame.Inverse(); ok {
			for _, p := range used.Outlines[0].Paths {
				b = b.Union(back.Path(p).Bounds())
			}
		}
		return b
	})
	if all {
		return
	}
	o := used.Outlines[0]
	if further != nil && o.Clip != nil { // both cut it: one is put inside the other
		further = &Clip{Outlines: []Outline{{Paths: o.Paths, EvenOdd: o.EvenOdd, Clip: further}}, Clip: o.Clip}
		r.count(e, further)
	}
	if further != nil {
		o.Clip = further
	}
	clip.Outlines = append(clip.Outlines, o)
}

// styleOf is the style of an element where it stands in the file, for what is not drawn there but used elsewhere.
func (r *reader) styleOf(e *element) *style {
	if e == nil {
		return &initialStyle
	}
	if s := r.styles[e]; s != nil {
		return s
	}
	s := r.inherit(e, r.declare(e), r.styleOf(e.parent))
	r.styles[e] = s
	return s
}
