package tiling

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
)

// PlaceText lays a drawing's text on a page: at is the paper's place of t.At. Its offset and its alignment are worked out
// in the text's own turn.
func PlaceText(t *drawing.Text, at geom.Point) Text {
	o := t.Offset
	w := 0.0
	if t.Align != drawing.AlignLeft {
		w = lettering.Width(t.Text, t.Height, t.Bold)
	}
	switch t.Align {
	case drawing.AlignCentre:
		o.X -= w / 2
	case drawing.AlignRight:
		o.X -= w
	case drawing.AlignMiddle:
		o.X -= w / 2
		o.Y -= t.Height / 2
	}
	if t.Turn != 0 {
		s, c := geom.SincosDeg(t.Turn)
		o = geom.Point{X: o.X*c - o.Y*s, Y: o.X*s + o.Y*c}
	}
	return Text{At: at.Add(o), Turn: t.Turn, Height: t.Height, Bold: t.Bold, Tone: t.Tone, Text: t.Text}
}

// Corners returns the corners of the box that a text's ink keeps to, from the base line's left end downwards and then
// anticlockwise: tails below the base line, accents above its capitals.
func (t *Text) Corners() [4]geom.Point {
	w := lettering.Width(t.Text, t.Height, t.Bold)
	lo, hi := -lettering.Descent*t.Height, lettering.Ascent*t.Height
	s, c := geom.SincosDeg(t.Turn)
	at := func(x, y float64) geom.Point {
		return geom.Point{X: t.At.X + x*c - y*s, Y: t.At.Y + x*s + y*c}
	}
	return [4]geom.Point{at(0, lo), at(w, lo), at(w, hi), at(0, hi)}
}

// Ink returns the corners of the box of a text's very ink, as Corners does; those of nothing at its place where it has none.
func (t *Text) Ink() [4]geom.Point {
	x0, y0, x1, y1, _ := lettering.Ink(t.Text, t.Height, t.Bold)
	s, c := geom.SincosDeg(t.Turn)
	at := func(x, y float64) geom.Point {
		return geom.Point{X: t.At.X + x*c - y*s, Y: t.At.Y + x*s + y*c}
	}
	return [4]geom.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
}

// Write adds a line of lettering whose base line begins at at.
func (c *Content) Write(at geom.Point, height float64, bold bool, text string) {
	c.Texts = append(c.Texts, Text{At: at, Height: height, Bold: bold, Text: text})
}

// WriteLines adds lines under one another, the top of the first line's capitals at top, and returns the height they take.
func (c *Content) WriteLines(left, top, height float64, bold bool, lines []string) float64 {
	for i, l := range lines {
		c.Write(geom.Point{X: left, Y: top - height - float64(i)*height*lettering.Leading}, height, bold, l)
	}
	if len(lines) == 0 {
		return 0
	}
	return height + float64(len(lines)-1)*height*lettering.Leading
}

// Widest returns the width of the widest of some lines.
func Widest(height float64, bold bool, lines ...string) float64 {
	w := 0.0
	for _, l := range lines {
		w = max(w, lettering.Width(l, height, bold))
	}
	return w
}
