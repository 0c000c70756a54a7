package sheet

import (
	"math"
	"strings"

	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// sideNote is lettering beside a piece that is too small to hold its number; the card it stands on is kept free for it.
type sideNote struct {
	plaque
	box  geom.Rect // of the lettering, in the piece's own axes
	turn float64   // of the lettering, degrees
}

// sideGap is from a piece to the lettering beside it.
const noteGap = 0.9

// sideNoteOf returns the note that stands beside a piece, nil for one that holds its number.
func (c *CardModel) sideNoteOf(piece int, l lettersOf) *sideNote {
	p := &c.Model.Pieces[piece]
	if c.holdsNumber(piece, l) {
		return nil
	}
	least := l.names[len(l.names)-1]
	n := &sideNote{plaque: plaque{lines: []string{p.Label()}, height: least, small: least}}
	b := p.Outline.Bounds()
	var codes []string
	for _, m := range c.marksOf(piece) {
		codes = append(codes, m.forms[len(m.forms)-min(2, len(m.forms))])
	}
	if len(codes) > 0 {
		room := max(b.W(), b.H(), lettering.Width(p.Label(), least, true), 20*least)
		n.lines = append(n.lines, lettering.Wrap(strings.Join(codes, ", "), least, false, room)...)
	}
	w, h := n.size()
	mid := b.Mid()
	if b.H() > b.W() {
		n.turn = 90
		n.box = boxAbout(geom.Point{X: b.Max.X + noteGap + h/2, Y: mid.Y}, h, w)
	} else {
		n.box = boxAbout(geom.Point{X: mid.X, Y: b.Max.Y + noteGap + h/2}, w, h)
	}
	return n
}

// around is the outline of the card that a small piece and its note take.
func (n *sideNote) around(piece geom.Rect) geom.Region {
	b := piece.Union(n.box.Grow(lineClear))
	return geom.Region{Outer: geom.Polygon(tiling.Box(b))}
}

// holdsNumber reports whether a piece has room for its number somewhere in the least lettering, which it has where it
// has on any sheet.
func (c *CardModel) holdsNumber(piece int, l lettersOf) bool {
	p := &c.Model.Pieces[piece]
	least := l.names[len(l.names)-1]
	width := lettering.Width(p.Label(), least, true)
	w, h := textBox(width, least)
	b := p.Outline.Bounds()
	if min(w, h)+2*lineClear > min(b.W(), b.H()) || w > max(b.W(), b.H()) {
		return false
	}
	// Glue lines are thin lines that lettering keeps clear of as well.
	glue := c.glueLines(piece)
	about := []float64{math.Ceil(width)}
	for _, q := range glue {
		lo, hi := q.Bounds().Min, q.Bounds().Max
		about = append(about, lo.X, lo.Y, hi.X, hi.Y)
	}
	key := outlineKey(p.Outline, about)
	if known, ok := c.holding[key]; ok {
		return known
	}
	g := newGround(b.Grow(1))
	g.region(1, p.Outline)
	for _, q := range c.linesOf(p) {
		g.line(q.Path.Flatten(tiling.Flatness, nil), q.Path.Closed())
	}
	for _, q := range glue {
		g.line(q.Flatten(tiling.Flatness, nil), false)
	}
	ok := false
	w, h = w+2*g.cell, h+2*g.cell
	for _, m := range g.places(b, 1) {
		if ok = g.free(tilted{m, w, h, 0}, 1) || g.free(tilted{m, w, h, 90}, 1); ok {
			break
		}
	}
	c.holding[key] = ok
	return ok
}
