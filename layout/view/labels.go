package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// small is the width in millimetres under which a piece's name stands beside it and not in it, on full-size paper.
const small = 200.0

// inset is how far inside its front edge a piece's words stand on full-size paper, clear of the widest tape.
const inset = 70.0

// stack adds lines of lettering centred under one another about the place at, the first at the top.
// The lines are shown in order; empty ones take no room.
func (b *builder) stack(at geom.Point, lines ...drawing.Text) {
	total := 0.0
	for _, t := range lines {
		if t.Text != "" {
			total += pitch * t.Height
		}
	}
	y := total / 2
	for _, t := range lines {
		if t.Text == "" {
			continue
		}
		y -= pitch * t.Height / 2
		t.At, t.Offset.Y, t.Align = at, y, drawing.AlignMiddle
		b.text(t)
		y -= pitch * t.Height / 2
	}
}

// pitch is the distance of base lines in heights of capitals: 15/10 of ISO 3098, type B.
const pitch = 1.5

func name(s string, height float64) drawing.Text {
	return drawing.Text{Mark: drawing.Mark{Role: drawing.Name}, Text: s, Height: height, Bold: true}
}

func word(s string, height float64) drawing.Text {
	return drawing.Text{Mark: drawing.Mark{Role: drawing.Word}, Text: s, Height: height}
}

// beside adds a line of lettering to the upper right of a place.
func (b *builder) beside(at geom.Point, t drawing.Text) {
	t.At, t.Offset, t.Align = at, t.Offset.Add(geom.Point{X: 4, Y: 4}), drawing.AlignLeft
	b.text(t)
}

// front returns the middle of an outline's front edge and the direction from it into the piece; ok is false of a
// round outline, which has no edge.
func front(o set.Outline) (mid, in geom.Point, ok bool) {
	if o.Form == "circle" || o.Form == "ellipse" || o.Front >= o.Path.Len() {
		return geom.Point{}, geom.Point{}, false
	}
	s := o.Path.Segment(o.Front)
	return s.Point(0.5), s.Tangent(0.5).Unit().Left(), true
}

// floorLabels writes on full-size paper what a piece is, which edge is its front and how high its parts lie.
func (b *builder) floorLabels(s *set.Set, e *set.Element, c set.Copy, pl set.Place) {
	m := pl.Frame.Plan()
	title := e.PlaceName(c, pl)
	stands := ""
	if l := pl.Level(); l > geom.Tolerance || l < -geom.Tolerance {
		stands = "stands at " + level(s, l)
	}
	switch sh := e.Shape.(type) {
	case *set.Platform:
		b.outlineLabels(m, sh.Outline, title, level(s, set.Top(e, pl)))
	case *set.Post:
		b.outlineLabels(m, sh.Outline, title, stands)
	case *set.Ring:
		b.outlineLabels(m, sh.Outer, title, stands)
	case *set.Reserve:
		b.outlineLabels(m, sh.Outline, title, keepClear(s, pl))
	case *set.Panel:
		if sh.Stands {
			box := sh.Outline.Path.Bounds()
			b.wallLabels(m, box.Min.X, box.Max.X, 0, sh.Thickness, title, stands)
			return
		}
		b.outlineLabels(m, sh.Outline, title, stands)
	case *set.Hall:
		b.outlineLabels(m, sh.Outline, title, "")
	case *set.Cone:
		b.outlineLabels(m, sh.Foot(), title, stands)
	case *set.Flat:
		if sh.Line != nil {
			b.curvedLabels(m, sh, title, stands)
			return
		}
		y0, y1 := sh.Face()
		b.wallLabels(m, 0, sh.Length, y0, y1, title, stands)
	case *set.Steps:
		b.stepLabels(s, sh, m, pl, title)
	case *set.Ramp:
		b.stack(m.Apply(geom.Point{X: sh.Width / 4, Y: min(inset, sh.Length/2)}), name(title, drawing.Lettering10), word(slope(sh), drawing.Lettering10))
		b.stack(m.Apply(geom.Point{X: sh.Width / 4, Y: max(sh.Length-inset, sh.Length/2)}), word(level(s, set.Top(e, pl)), drawing.Lettering10))
	case *set.Figure:
		b.figureLabels(s, m, sh, title, stands)
	case *set.Mark:
		b.markLabels(sh, m, title)
	}
}

func (b *builder) outlineLabels(m geom.Isometry, o set.Outline, title, height string) {
	if o.Path.Empty() {
		return
	}
	bounds := o.Path.Bounds()
	least := min(bounds.W(), bounds.H())
	mid, in, straight := front(o)
	switch {
	case least < small:
		at := m.Apply(o.Centre)
		b.beside(at, name(title, drawing.Lettering5))
		low := word(height, drawing.Lettering5)
		low.Offset.Y = -2*4 - drawing.Lettering5
		b.beside(at, low)
	case straight:
		b.stack(m.Apply(mid.Add(in.Mul(min(inset, least/3)))),
			name(title, drawing.Lettering10), word(height, drawing.Lettering10), word("FRONT", drawing.Lettering7))
	default:
		rim := geom.Point{X: o.Centre.X, Y: bounds.Min.Y + min(inset, least/4)}
		b.stack(m.Apply(rim), name(title, drawing.Lettering10), word(height, drawing.Lettering10))
	}
}

// wallLabels names the ends of a wall's foot and says on which side its face is: the side away from its thickness.
func (b *builder) wallLabels(m geom.Isometry, x0, x1, y0, y1 float64, title, height string) {
	face, back := -inset/2, y1+inset/2
	if y0 < 0 {
		face, back = inset/2, y0-inset/2
	}
	mid := (x0 + x1) / 2
	b.stack(m.Apply(geom.Point{X: mid, Y: face}), word("FACE", drawing.Lettering5))
	b.stack(m.Apply(geom.Point{X: mid, Y: back}), name(title, drawing.Lettering7), word(height, drawing.Lettering5))
	end := min(inset/2, (x1-x0)/4)
	b.stack(m.Apply(geom.Point{X: x0 + end, Y: face}), word("P", drawing.Lettering7))
	b.stack(m.Apply(geom.Point{X: x1 - end, Y: face}), word("Q", drawing.Lettering7))
}

func (b *builder) markLabels(sh *set.Mark, m geom.Isometry, title string) {
	for i, p := range sh.Points {
		t := title
		if len(sh.Points) > 1 {
			t += " point " + strconv.Itoa(i+1)
		}
		b.beside(m.Apply(p), name(t, drawing.Lettering5))
	}
	for _, p := range sh.Paths {
		b.beside(m.Apply(p.Start()), name(title, drawing.Lettering5))
	}
}

// risers says which way and how many: risers are counted, not treads.
func risers(s *set.Steps) string {
	n := len(s.Rises)
	if n == 1 {
		return "UP 1 riser"
	}
	return "UP " + strconv.Itoa(n) + " risers"
}
