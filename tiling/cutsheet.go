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
	Cut   []*geom.Path // closed
	Folds []PathLine
	Lines []PathLine // what is neither cut nor folded
	Notes Content
}

// PathLine is a path and how it is drawn.
type PathLine struct {
	Path *geom.Path
	Pen  Pen
}

// CutPen is the pen of everything that is cut.
var CutPen = Pen{Width: drawing.WideLine}

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
		for _, q := range c.Cut {
			path(drawing.Cut, CutPen, q)
		}
		for _, q := range c.Folds {
			path(drawing.Fold, q.Pen, q.Path)
		}
		for _, q := range c.Lines {
			path(drawing.Notes, q.Pen, q.Path)
		}
		p.Layers[drawing.Notes].Add(&c.Notes)
	}
	p.Layers[drawing.Notes].Add(&s.Notes)
	p.Layers[drawing.Registration].Add(&s.Registration)
}

// Add puts another's content into c; its points are shared, which nothing changes.
func (c *Content) Add(a *Content) {
	c.Fills = append(c.Fills, a.Fills...)
	c.Uses = append(c.Uses, a.Uses...)
	c.Texts = append(c.Texts, a.Texts...)
	for i := range a.Strokes {
		k := c.Stroke(a.Strokes[i].Pen)
		k.Runs = append(k.Runs, a.Strokes[i].Runs...)
	}
}

// AddAt puts another's lines and lettering into c, its 0,0 at at.
func (c *Content) AddAt(a *Content, at geom.Point) {
	for i := range a.Strokes {
		for _, r := range a.Strokes[i].Runs {
			points := make([]geom.Point, len(r.Points))
			for k, q := range r.Points {
				points[k] = q.Add(at)
			}
			c.Polyline(nil, a.Strokes[i].Pen, r.Closed, points...)
		}
	}
	for _, t := range a.Texts {
		t.At = t.At.Add(at)
		c.Texts = append(c.Texts, t)
	}
}
