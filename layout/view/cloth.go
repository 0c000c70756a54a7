package view

import (
	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/set"
)

// Pens of a cloth: its finished edge is what people work to, its grid lies over paint.
var (
	finished  = pen{drawing.Cut, drawing.Continuous, drawing.WideLine, drawing.Black}
	allowed   = pen{drawing.Fold, drawing.Dashed, drawing.NarrowLine, drawing.Black}
	gridLine  = pen{drawing.Notes, drawing.Continuous, drawing.NarrowLine, drawing.Black}
	centred   = pen{drawing.Notes, drawing.LongDashDot, drawing.MediumLine, drawing.Black}
	finerLine = pen{drawing.Notes, drawing.Continuous, drawing.FineLine, drawing.Black}
)

// dotSize is the diameter of a pounce dot in millimetres (common practice, no source: the holes of a hand wheel are about a
// millimetre).
const dotSize = 1.2

// Cloth returns a cloth's face full size, seen from the front: its artwork (or p in its place), its finished edge, what is allowed
// beyond it, and its grid where one is asked for. x counts from the centre line, y from the finished lower edge. It is nil for any other piece.
func Cloth(s *set.Set, e *set.Element, p *artwork.Picture) *drawing.Drawing {
	c, ok := e.Shape.(*set.Cloth)
	if !ok {
		return nil
	}
	b := newCloth(e, "artwork", e.Name+", artwork")
	if p == nil {
		p = c.Art.Picture
	}
	b.d.Pictures = append(b.d.Pictures, drawing.Picture{
		Mark:    drawing.Mark{Layer: artLayer, Role: drawing.Shape, Owner: b.owner},
		Picture: p, Frame: c.Frame, Shown: c.Shown,
	})
	b.clothEdges(c)
	if c.Grid > 0 {
		b.clothGrid(c, c.Grid)
	}
	return b.d
}

// Pounce returns a cloth's pounce pattern full size, seen from the front: the dots along the lines of its artwork, its edges and its
// grid's lines, without the artwork. Its error says why the artwork has no lines.
func Pounce(s *set.Set, e *set.Element) (*drawing.Drawing, error) {
	c, ok := e.Shape.(*set.Cloth)
	if !ok || c.Pounce <= 0 {
		return nil, nil
	}
	dots, err := enlarge.Pounce(c, c.Pounce)
	if err != nil {
		return nil, err
	}
	b := newCloth(e, "pounce", e.Name+", pounce pattern")
	b.d.Hold += "; prick the dots, sand the back, and pounce through with this side up"
	for _, q := range dots {
		b.fill(geom.Region{Outer: geom.Circle(dotSize).Transform(geom.Isometry{A: 1, D: 1, T: q})}, drawing.Notes, drawing.Black)
	}
	b.clothEdges(c)
	if c.Grid > 0 {
		b.clothGrid(c, c.Grid)
	}
	return b.d, nil
}

func newCloth(e *set.Element, view, title string) *builder {
	b := newBuilder(&drawing.Drawing{
		View: view, Name: e.Name, Title: title, Hold: "seen from the front, lower edge at the bottom",
		Datum: drawing.Datum{XPlus: "right", XMinus: "left", YPlus: "up", YMinus: "down", Says: "from the cloth's centre line and its finished lower edge"},
	})
	b.own(e)
	return b
}

func boxPath(r geom.Rect) *geom.Path { return box(r.Min.X, r.Min.Y, r.Max.X, r.Max.Y) }

// clothEdges draws the finished edge and, where something is allowed, the edge of the whole cloth.
func (b *builder) clothEdges(c *set.Cloth) {
	f, w := c.Finished(), c.Whole()
	b.stroke(boxPath(f), finished)
	if w != f {
		b.stroke(boxPath(w), allowed)
	}
	for _, edge := range [...]struct {
		allow float64
		at    geom.Point
	}{
		{c.Allow.Top, geom.Point{Y: f.Max.Y + c.Allow.Top/2}}, {c.Allow.Bottom, geom.Point{Y: f.Min.Y - c.Allow.Bottom/2}},
		{c.Allow.Left, geom.Point{X: f.Min.X - c.Allow.Left/2, Y: c.Height / 2}}, {c.Allow.Right, geom.Point{X: f.Max.X + c.Allow.Right/2, Y: c.Height / 2}},
	} {
		if edge.allow >= 3*drawing.Lettering7 {
			b.stack(edge.at, word("HEM", drawing.Lettering7))
		}
	}
}

// clothGrid draws the grid with the label of each line at both of its ends, and the finer grids.
func (b *builder) clothGrid(c *set.Cloth, step float64) {
	across, up := enlarge.Lines(c, step)
	f := c.Finished()
	for _, l := range across {
		n := gridLine
		if l.Centre {
			n = centred
		}
		b.stroke(polyline(geom.Point{X: l.At, Y: f.Min.Y}, geom.Point{X: l.At, Y: f.Max.Y}), n)
		for _, y := range [2]float64{f.Min.Y, f.Max.Y} {
			b.gridLabel(geom.Point{X: l.At, Y: y}, geom.Point{Y: side(y > f.Min.Y)}, l.Label)
		}
	}
	for _, l := range up {
		b.stroke(polyline(geom.Point{X: f.Min.X, Y: l.At}, geom.Point{X: f.Max.X, Y: l.At}), gridLine)
		for _, x := range [2]float64{f.Min.X, f.Max.X} {
			b.gridLabel(geom.Point{X: x, Y: l.At}, geom.Point{X: side(x > f.Min.X)}, l.Label)
		}
	}
	for _, g := range c.Fine {
		xs, ys := enlarge.Finer(g)
		b.stroke(boxPath(g.Over), gridLine)
		for _, x := range xs {
			b.stroke(polyline(geom.Point{X: x, Y: g.Over.Min.Y}, geom.Point{X: x, Y: g.Over.Max.Y}), finerLine)
		}
		for _, y := range ys {
			b.stroke(polyline(geom.Point{X: g.Over.Min.X, Y: y}, geom.Point{X: g.Over.Max.X, Y: y}), finerLine)
		}
	}
}

func side(plus bool) float64 {
	if plus {
		return 1
	}
	return -1
}

// gridLabel writes a line's letter or number beyond its end.
func (b *builder) gridLabel(at, out geom.Point, text string) {
	t := word(text, drawing.Lettering5)
	t.At, t.Align, t.Offset, t.Bold = at, drawing.AlignMiddle, out.Mul(drawing.Lettering5*1.2), true
	b.text(t)
}
