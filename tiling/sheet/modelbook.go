package sheet

import (
	"strings"
	"sync"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/paper"
)

// Book makes the model's document: a cover that says what this is, what it takes and in what order to work; the sheets of card;
// the base sheet; the lists of joints, of rods and of what is too small to cut. The error says what does not fit the paper.
func (c *CardModel) Book() (*Book, error) {
	frames, err := framesOf(c.opt.Options)
	if err != nil {
		return nil, err
	}
	b := &binder{set: c.set, frames: frames, stamps: c.opt.Stamps}
	for i := range c.Sheets {
		b.pages = append(b.pages, c.cardPage(i))
	}
	if c.basePlan != nil {
		for _, p := range gridPages(c.basePlan) {
			lo := geom.Point{X: p.entry.Origin[0], Y: p.entry.Origin[1]}
			p.entry.Element = c.onBase(geom.Rect{Min: lo, Max: lo.Add(geom.Point{X: p.entry.Size[0], Y: p.entry.Size[1]})})
			b.pages = append(b.pages, p)
		}
	}
	for _, t := range c.lists() {
		if len(t.Rows) == 0 {
			continue
		}
		laid, err := layTable(t, false, frames)
		if err != nil {
			return nil, err
		}
		b.table(t.Name, listKinds[t.Name], laid)
	}
	b.covers(c.cover(b), uprightFrame(frames))
	return b.bind(c.set.Name + ", model"), nil
}

// listKinds are the document types of the lists.
var listKinds = map[string]string{"joints": "Joints", "rods": "Rods", "left out": "Left out"}

// uprightFrame prefers the sheet as it is kept.
func uprightFrame(frames []frame) *frame {
	return &frames[len(frames)-1]
}

// cardPage is the page of a sheet of card. It is lettered when it is first asked for: a later issue prints few of its pages.
func (c *CardModel) cardPage(i int) page {
	lettered := sync.OnceValues(func() (*tiling.CutSheet, footing) { return c.cutSheet(i) })
	return page{entry: c.entry(i), size: c.Sheets[i].Size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		cut, foot := lettered()
		cut.Draw(p)
		foot.draw(&p.Layers[drawing.Furniture], c.words(i, &foot, e, n, of))
	}}
}

// entry is what the register says of a sheet of card.
func (c *CardModel) entry(i int) tiling.Entry {
	s := &c.Sheets[i]
	sum := c.digest(i)
	return tiling.Entry{
		Label: s.label(), Element: c.elementsOn(s), View: "model", Title: "Card model, " + cardWords(s.Card, s.Thickness, c.set.Units),
		Scale: c.opt.ScaleWords, Paper: c.paperOf(s), Mark: tiling.ContentMark(sum), Digest: sum, Size: [2]float64{s.Size.W, s.Size.H},
	}
}

// paperOf says what a sheet of card is.
func (c *CardModel) paperOf(s *CardSheet) string {
	if c.opt.Board.H > 0 {
		return trimmed(s.Size.W) + "x" + trimmed(s.Size.H)
	}
	return c.opt.Paper.Name + " " + paper.Lie(s.Size.W, s.Size.H)
}

// elementsOn lists the elements with pieces on a sheet, without their copies' numbers.
func (c *CardModel) elementsOn(s *CardSheet) string {
	var names []string
	seen := map[string]bool{}
	for _, l := range s.Places {
		n, _, _ := strings.Cut(c.Model.Pieces[l.Piece].Element, ".")
		if !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	return strings.Join(names, ",")
}

// gridPages are the pages of a grid, without its own cover.
func gridPages(g *grid.Plan) []page {
	doc, entries := g.Document(), g.Entries()
	var out []page
	for _, e := range entries {
		at := e.Page - 1
		size := tiling.Size{}
		if doc.Sizes != nil {
			size = doc.Sizes[at]
		} else {
			var p tiling.Page
			p.Reset()
			doc.Make(at, &p)
			size = tiling.Size{W: p.W, H: p.H}
		}
		out = append(out, page{entry: e, size: size, draw: func(p *tiling.Page, _ *tiling.Entry, _, _ int) { doc.Make(at, p) }})
	}
	return out
}

// CutSheets are the sheets of card for a machine that cuts; what a sheet is stands in its notes.
func (c *CardModel) CutSheets() []*tiling.CutSheet {
	out := make([]*tiling.CutSheet, len(c.Sheets))
	for i := range c.Sheets {
		cut, foot := c.cutSheet(i)
		e := c.entry(i)
		if letter, date, ok := c.opt.Stamps.Of(e.Label, e.Digest); ok && !c.set.Trial {
			e.Letter, e.Date = letter, date
		}
		foot.draw(&cut.Notes, c.words(i, &foot, &e, 0, 0))
		out[i] = cut
	}
	return out
}

// lists are the tables that follow the sheets.
func (c *CardModel) lists() []*table.Table {
	return []*table.Table{c.jointList(), c.rodList(), c.smallList()}
}
