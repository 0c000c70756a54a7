package sheet

import (
	"slices"
	"strings"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/tiling/paper"
)

// larger are the sheets that are offered where a piece is too large.
var larger = [...]string{"A4", "A3", "A2", "A1", "A0"}
var largerInches = [...]string{"Letter", "Tabloid", "ANSI C", "ANSI D", "ANSI E"}

// holds names the flag with which pieces would fit at a turn that each may have, empty where none is known.
func (c *CardModel) holds(pieces ...*develop.Piece) string {
	names := larger[:]
	if c.set.Units.Imperial() {
		names = largerInches[:]
	}
	for _, n := range names {
		p, err := paper.Parse(n)
		if err != nil {
			continue
		}
		opt := c.opt
		opt.Paper, opt.Board = p, Board{}
		g, err := bedOf(opt)
		if err != nil {
			continue
		}
		if !slices.ContainsFunc(pieces, func(p *develop.Piece) bool { return !c.fits(p, g) }) {
			return "--paper " + n
		}
	}
	return ""
}

// fits reports whether a piece fits a bed at a turn that it may have there.
func (c *CardModel) fits(p *develop.Piece, g bed) bool {
	return slices.ContainsFunc(p.Turns(grainUp(g)), func(turn float64) bool {
		b := p.Outline.Transform(geom.Move(geom.Point{}, turn)).Bounds()
		return b.W() <= g.area.W()+geom.Tolerance && b.H() <= g.area.H()+geom.Tolerance
	})
}

// compare notes which elements have pieces that were divided, and on what paper all would stay whole.
func (c *CardModel) compare(whole *develop.Model) {
	count := func(m *develop.Model) map[string]int {
		n := map[string]int{}
		for i := range m.Pieces {
			n[m.Pieces[i].Element]++
		}
		return n
	}
	now := count(c.Model)
	before := count(whole)
	var divided []*develop.Piece
	for i := range whole.Pieces {
		if p := &whole.Pieces[i]; now[p.Element] != before[p.Element] {
			divided = append(divided, p)
		}
	}
	for i := range c.Model.Pieces {
		e := c.Model.Pieces[i].Element
		if n := baseName(e); now[e] != before[e] && !slices.Contains(c.divided, n) {
			c.divided = append(c.divided, n)
		}
	}
	if len(c.divided) > 0 && c.opt.Board.H == 0 {
		c.keeps = c.holds(divided...)
	}
}

// dividedWords says what is divided to fit the sheets; empty where nothing is.
func (c *CardModel) dividedWords() string {
	if len(c.divided) == 0 {
		return ""
	}
	words := strings.Join(c.divided, ", ") + " divided to fit the sheet"
	if c.keeps != "" {
		words += " (" + c.keeps + " keeps all whole)"
	}
	return words
}
