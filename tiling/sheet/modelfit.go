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

// holds names the flag with which a piece's box would fit, empty where none is known.
func (c *CardModel) holds(b geom.Rect) string {
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
		if w, h := g.area.W(), g.area.H(); b.W() <= w && b.H() <= h || b.H() <= w && b.W() <= h {
			return "--paper " + n
		}
	}
	return ""
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
	box := geom.Rect{}
	for i := range whole.Pieces {
		p := &whole.Pieces[i]
		if now[p.Element] == before[p.Element] {
			continue
		}
		if n := baseName(p.Element); !slices.Contains(c.divided, n) {
			c.divided = append(c.divided, n)
		}
		b := p.Outline.Bounds()
		box.Max = geom.Point{X: max(box.Max.X, min(b.W(), b.H())), Y: max(box.Max.Y, max(b.W(), b.H()))}
	}
	if len(c.divided) > 0 && c.opt.Board.H == 0 {
		c.keeps = c.holds(box)
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
