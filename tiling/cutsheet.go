package tiling

import (
	"markout/layout/drawing"
	"markout/layout/geom"
)

// CutSheet is a sheet of pieces as a machine that cuts takes it: piece by piece, curves as curves. A page is drawn of it.
// Places are millimetres from its lower left corner.
type CutSheet struct {
	W, H         float64
	Label        string
	Pieces       []CutPiece
	Notes        Content // of no piece
	Registration Content
}

// CutPiece is one piece of a CutSheet.
type CutPiece struct {
	Name  string
	Cut   []*geom.Path // closed: the outline, then its openings
	Pen   Pen          // of what is cut
	Folds []PathLine
	Bends []PathLine // half-cuts that let card bend, whole, for a machine
	Shown []PathLine // the same for eyes, left out where lettering stands
	Lines []PathLine // what is neither cut nor folded
	Notes Content
	Named Content // its number and what it is called, which are furniture of a page
}

// Each visits the piece's paths in the order in which they are drawn, with bends either as they are cut or as they are shown.
func (c *CutPiece) Each(bends []PathLine, visit func(drawing.Layer, Pen, *geom.Path)) {
	for _, q := range c.Cut {
		visit(drawing.Cut, c.Pen, q)
	}
	for _, q := range c.Folds {
		visit(drawing.Fold, q.Pen, q.Path)
	}
	for _, q := range bends {
		visit(drawing.Fold, q.Pen, q.Path)
	}
	for _, q := range c.Lines {
		visit(drawing.Notes, q.Pen, q.Path)
	}
}

// PathLine is a path and how it is drawn.
type PathLine struct {
	Path *geom.Path
	Pen  Pen
}

// CutPen is the pen of what is cut, FineCutPen that of pieces so narrow that their edges would run into one another.
var (
	CutPen     = Pen{Width: drawing.WideLine}
	FineCutPen = Pen{Width: drawing.NarrowLine}
)

// Flatness is the greatest distance in millimetres between a curve and the straight lines that a page has for it.
const Flatness = 0.005

// Draw puts the sheet on a page that was Reset.
func (s *CutSheet) Draw(p *Page) {
	p.W, p.H, p.Label = s.W, s.H, s.Label
	path := func(l drawing.Layer, pen Pen, q *geom.Path) {
		k := p.Layers[l].Stroke(pen)
		k.Runs = append(k.Runs, Run{Points: q.Flatten(Flatness, nil), Closed: q.Closed()})
	}
	for i := range s.Pieces {
		c := &s.Pieces[i]
		c.Each(c.Shown, path)
		p.Layers[drawing.Notes].Add(&c.Notes)
		p.Layers[drawing.Furniture].Add(&c.Named)
	}
	p.Layers[drawing.Notes].Add(&s.Notes)
	p.Layers[drawing.Registration].Add(&s.Registration)
}

// Add puts another's content into c; its points are shared, which nothing changes.
func (c *Content) Add(a *Content) {
	c.Shows = append(c.Shows, a.Shows...)
	c.Fills = append(c.Fills, a.Fills...)
	c.Uses = append(c.Uses, a.Uses...)
	c.Texts = append(c.Texts, a.Texts...)
	for i := range a.Strokes {
		k := c.Stroke(a.Strokes[i].Pen)
		k.Runs = append(k.Runs, a.Strokes[i].Runs...)
	}
}
