// Package tiling turns drawings into pages. A page is positioned lines, areas and lettering in paper
// millimetres from its lower left corner, in layers; it knows nothing of PDF or SVG.
//
// Pages are made one at a time, by any number of workers, into a Page value that its caller owns and reuses;
// a document of twenty thousand pages is never held whole.
package tiling

import (
	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
)

// Pen is how a line is drawn: width and dash lengths in paper millimetres.
type Pen struct {
	Width float64
	Dash  []float64 // on and off by turns, nil for continuous; shared, never changed
	Tone  drawing.Tone
}

// Run is a polyline; a Closed one joins its end to its start. Phase is how far along its dash pattern it begins,
// so that dashes carry over a page's seam.
type Run struct {
	Points []geom.Point
	Closed bool
	Phase  float64
}

// Stroke is runs drawn with one pen.
type Stroke struct {
	Pen  Pen
	Runs []Run
}

// Fill is an area of one tone, by the nonzero rule.
type Fill struct {
	Tone  drawing.Tone
	Rings [][]geom.Point
	// EvenOdd uses the even-odd rule instead.
	EvenOdd bool
}

// Text is one line of lettering: At is the left end of its base line (alignment is already worked out), Height the height of its capitals.
type Text struct {
	At     geom.Point
	Turn   float64 // degrees
	Height float64
	Bold   bool
	Tone   drawing.Tone
	Text   string
	Hidden bool // drawn invisibly, for search
}

// Use shows a shared Form with its own 0,0 at At.
type Use struct {
	Form *Form
	At   geom.Point
}

// Show is artwork on one page. A document lists all its shows, so that a picture made of pixels is cut into the parts that its
// pages need in one reading, before any page is made.
type Show struct {
	Picture *artwork.Picture
	Frame   artwork.Matrix // the picture's millimetres to the page's
	Window  geom.Rect      // page millimetres: nothing of it is drawn outside
}

// Content is what one layer of a page holds, painted fills first, then forms, strokes, texts. Artwork comes before all of it: what
// the layers of a page show is drawn beneath every layer.
type Content struct {
	Shows   []*Show // each of them is one of the document's
	Fills   []Fill
	Uses    []Use
	Strokes []Stroke
	Texts   []Text
}

// Form is content that many pages share: a key map, constant furniture. It is written once.
type Form struct {
	W, H float64 // its box from 0,0
	Content
}

// Page is one page.
type Page struct {
	W, H   float64 // paper, millimetres
	Label  string  // "floor 3C", also the PDF's page label
	Layers [drawing.Layers]Content
	// Clip is the box outside which nothing of the layers cut, fold, notes is drawn; an empty Rect is no clip.
	Clip geom.Rect

	pts []geom.Point // arena of Run.Points
}

// Reset empties the page for reuse and keeps its memory.
func (p *Page) Reset() {
	p.W, p.H, p.Label, p.Clip = 0, 0, "", geom.EmptyRect()
	for i := range p.Layers {
		c := &p.Layers[i]
		c.Shows, c.Fills, c.Uses, c.Texts = c.Shows[:0], c.Fills[:0], c.Uses[:0], c.Texts[:0]
		for k := range c.Strokes {
			c.Strokes[k].Runs = c.Strokes[k].Runs[:0]
		}
		c.Strokes = c.Strokes[:0]
	}
	p.pts = p.pts[:0]
}

// Arena returns n points of the page's own memory, good until the next Reset.
func (p *Page) Arena(n int) []geom.Point {
	if len(p.pts)+n > cap(p.pts) {
		p.pts = make([]geom.Point, 0, max(2*cap(p.pts), n, 1024)) // what was handed out keeps the old array
	}
	at := len(p.pts)
	p.pts = p.pts[: at+n : cap(p.pts)]
	return p.pts[at : at+n : at+n]
}

// Stroke returns the layer's stroke for a pen, a new one where none has that very pen yet.
func (c *Content) Stroke(pen Pen) *Stroke {
	for i := len(c.Strokes) - 1; i >= 0; i-- {
		if q := &c.Strokes[i].Pen; q.Width == pen.Width && q.Tone == pen.Tone && sameDash(q.Dash, pen.Dash) {
			return &c.Strokes[i]
		}
	}
	if n := len(c.Strokes); n < cap(c.Strokes) {
		c.Strokes = c.Strokes[:n+1]
		c.Strokes[n].Pen, c.Strokes[n].Runs = pen, c.Strokes[n].Runs[:0]
		return &c.Strokes[n]
	}
	c.Strokes = append(c.Strokes, Stroke{Pen: pen})
	return &c.Strokes[len(c.Strokes)-1]
}

func sameDash(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// Document is pages to be written in order, and what a reader shows beside them.
type Document struct {
	Title, Subject string
	Date           string // of the issue, 2006-01-02; empty for none. Outputs know no other clock.
	Pages          int
	// Make fills page i (from 0) after a Reset. It is called by several workers at once, each with a Page of its own, and
	// must give the same page for the same i whoever asks.
	Make      func(i int, p *Page)
	Bookmarks []Bookmark
	Sizes     []Size  // of each page where they differ; nil: every page is as page 0
	Shows     []*Show // the artwork of all pages
}

// Size is a page's paper in millimetres.
type Size struct{ W, H float64 }

// Bookmark names a page in the reader's outline.
type Bookmark struct {
	Title    string
	Page     int // from 0
	Children []Bookmark
}
