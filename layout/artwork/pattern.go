package artwork

import (
	"math"
	"strings"

	"markout/layout/geom"
)

// mostTiles is how often a pattern may be laid over one shape.
const mostTiles = 10_000

// pattern is a pattern as the file defines it, with what it takes from those that it points to.
type pattern struct {
	e                 *element // whose children are drawn, nil where there are none
	chain             []*element
	boxed, contentBox bool // its place, and what is in it, are in shares of the shape's box
	transform         Matrix
}

// patternOf returns the pattern that fills a shape, nil where it is filled otherwise.
func (r *reader) patternOf(w paintWord) *element {
	if w.kind != serverPaint {
		return nil
	}
	if e := r.ids[strings.TrimPrefix(w.link, "#")]; e != nil && e.name == "pattern" && strings.HasPrefix(w.link, "#") {
		return e
	}
	return nil
}

// patternFill draws a pattern's tiles cut to the area that a shape fills. box is the shape's in its own units.
func (r *reader) patternFill(v valueReader, c context, target *element, area Outline, box geom.Rect) []Node {
	if r.active[target] {
		r.caution(v.where(pFill), codeLink, "", "the pattern leads round in a circle and is left out")
		return nil
	}
	p, ok := r.readPattern(target)
	if !ok || p.e == nil || c.style.fillOpacity < leastOpacity {
		return nil
	}
	tile, content, ok := r.tile(p, c, box)
	if !ok {
		return nil
	}
	c.frame = p.transform.Then(c.frame)
	toTiles, ok := p.transform.Inverse()
	if !ok || !c.frame.usable() {
		return nil
	}
	reach := geom.EmptyRect()
	for _, q := range squareCorners {
		reach = reach.Include(toTiles.Apply(geom.Point{X: box.Min.X + q.X*box.W(), Y: box.Min.Y + q.Y*box.H()}))
	}
	i0, i1 := math.Floor((reach.Min.X-tile.x)/tile.w), math.Ceil((reach.Max.X-tile.x)/tile.w)
	j0, j1 := math.Floor((reach.Min.Y-tile.y)/tile.h), math.Ceil((reach.Max.Y-tile.y)/tile.h)
	if !((i1-i0)*(j1-j0) <= mostTiles) {
		r.caution(v.where(pFill), codeValue, "in the drawing program, expand the pattern to outlines", "the pattern would be laid more than %d times; it is left out", mostTiles)
		return nil
	}
	r.active[target] = true
	defer delete(r.active, target)
	var tiles []Node
	for j := j0; j < j1; j++ {
		for i := i0; i < i1; i++ {
			if !r.useAgain(v.e) {
				return nil
			}
			at := tile
			at.x, at.y = tile.x+i*tile.w, tile.y+j*tile.h
			tiles = append(tiles, r.drawTile(p, c, at, content)...)
		}
	}
	if len(tiles) == 0 || !r.keep(v.e, area.Paths) {
		return nil
	}
	return []Node{&Group{Opacity: c.style.fillOpacity, Clip: &Clip{Outlines: []Outline{area}}, Nodes: tiles}}
}

// readPattern follows a pattern to those that it points to; ok is false where that runs in a circle.
func (r *reader) readPattern(e *element) (p pattern, ok bool) {
	seen := map[*element]bool{}
	for at := e; at != nil; {
		if seen[at] || len(seen) > mostDepth {
			r.caution(r.place(at, "href"), codeLink, "", "the pattern %s leads round in a circle", quote(e.attr("id")))
			return pattern{}, false
		}
		seen[at] = true
		p.chain = append(p.chain, at)
		if p.e == nil && len(at.children) > 0 {
			p.e = at
		}
		link := at.href()
		if link == "" {
			break
		}
		if at = r.linked(at, "href", link); at != nil && at.name != "pattern" {
			break
		}
	}
	p.boxed = firstAttr(p.chain, "patternUnits") != "userSpaceOnUse"
	p.contentBox = firstAttr(p.chain, "patternContentUnits") == "objectBoundingBox"
	p.transform = Identity()
	if text := firstAttr(p.chain, "patternTransform"); text != "" {
		if p.transform, ok = parseTransform(text); !ok {
			r.caution(r.tag(e), codeValue, "", "patternTransform %s is not read", quote(text))
		}
	}
	return p, true
}

// tile returns the first tile in the shape's units, and the map from the units of what is in it to those, as seen from
// the tile's corner.
func (r *reader) tile(p pattern, c context, area geom.Rect) (tile box, content Matrix, ok bool) {
	if area.Empty() || (p.boxed || p.contentBox) && !(area.W() > 0 && area.H() > 0) {
		return tile, content, false
	}
	get := func(name string, from, size, whole float64) float64 {
		text := firstAttr(p.chain, name)
		if text == "" {
			text = "0"
		}
		l, good := parseLength(text, mediumType)
		if !good {
			r.caution(r.tag(p.chain[0]), codeValue, "", "%s %s is no length that is read here", name, quote(text))
		}
		if p.boxed {
			return from + size*l.value
		}
		return l.along(whole)
	}
	tile.x, tile.y = get("x", area.Min.X, area.W(), c.view.w), get("y", area.Min.Y, area.H(), c.view.h)
	tile.w, tile.h = get("width", 0, area.W(), c.view.w), get("height", 0, area.H(), c.view.h)
	if !(tile.w > 0 && tile.h > 0) {
		return tile, content, false
	}
	content = Identity()
	view, has := parseViewBox(firstAttr(p.chain, "viewBox"))
	switch {
	case has && !(view.w > 0 && view.h > 0):
		return tile, content, false
	case has:
		content = parseAspect(firstAttr(p.chain, "preserveAspectRatio")).fit(view, box{w: tile.w, h: tile.h})
	case p.contentBox:
		content = Matrix{A: area.W(), D: area.H()}
	}
	return tile, content, true
}

// drawTile draws one tile, cut at its sides where what is in it goes beyond.
func (r *reader) drawTile(p pattern, c context, at box, content Matrix) []Node {
	outer := c.frame
	c.style = r.styleOf(p.e)
	c.depth++
	c.frame = content.Then(Matrix{A: 1, D: 1, E: at.x, F: at.y}).Then(outer)
	if _, ok := c.frame.Inverse(); !ok {
		return nil
	}
	inner := r.drawAll(p.e.children, c, nil)
	if len(inner) == 0 || r.failed {
		return nil
	}
	return r.cropped(p.e, outer, at, inner)
}
