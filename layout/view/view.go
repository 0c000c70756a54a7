// Package view turns the resolved set into drawings: the full-size floor, the face of a flat as it is cut, the side
// of a flight as a carpenter cuts it, and the plan that the floor is laid from. Places are world millimetres of the
// view; widths and lettering are paper millimetres. Nothing here knows a page or a scale.
//
// A piece's lines are worked out once in its own axes and laid at each of its places.
package view

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// pen is everything of a stroke but its path.
type pen struct {
	layer drawing.Layer
	typ   drawing.LineType
	width float64
	tone  drawing.Tone
}

// builder adds to a drawing what belongs to one element after the other.
type builder struct {
	d     *drawing.Drawing
	owner int32
}

func newBuilder(d *drawing.Drawing) *builder { return &builder{d: d, owner: -1} }

// own makes e the owner of what is added from here on.
func (b *builder) own(e *set.Element) {
	b.owner = int32(len(b.d.Owners))
	b.d.Owners = append(b.d.Owners, e.Name)
}

// nobody ends the ownership: what follows concerns the whole set.
func (b *builder) nobody() { b.owner = -1 }

func (b *builder) stroke(p *geom.Path, n pen) {
	if p.Empty() {
		return
	}
	b.d.Strokes = append(b.d.Strokes, drawing.Stroke{
		Mark: drawing.Mark{Layer: n.layer, Role: drawing.Shape, Owner: b.owner},
		Path: p, Type: n.typ, Width: n.width, Tone: n.tone,
	})
}

func (b *builder) fill(r geom.Region, layer drawing.Layer, tone drawing.Tone) {
	b.d.Fills = append(b.d.Fills, drawing.Fill{
		Mark:   drawing.Mark{Layer: layer, Role: drawing.Shape, Owner: b.owner},
		Region: r, Tone: tone,
	})
}

// text adds a line of lettering in the layer notes; t's mark is set here but for its role.
func (b *builder) text(t drawing.Text) {
	if t.Text == "" {
		return
	}
	t.Layer, t.Owner = drawing.Notes, b.owner
	b.d.Texts = append(b.d.Texts, t)
}

// polyline returns the open path through the points.
func polyline(ps ...geom.Point) *geom.Path {
	p := geom.NewPath(ps[0])
	for _, q := range ps[1:] {
		p.LineTo(q)
	}
	return p
}

// box returns the upright rectangle between two opposite corners, closed and anticlockwise from its lower left.
func box(x0, y0, x1, y1 float64) *geom.Path {
	return geom.Polygon([]geom.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
}

// wants reports whether e asks for a view on full-size paper.
func wants(e *set.Element, view string) bool {
	for _, v := range e.FullSize {
		if v == view {
			return true
		}
	}
	return false
}
