package sheet

import (
	"strings"

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
	b := &binder{set: c.set, frames: frames}
	for i := range c.Sheets {
		b.pages = append(b.pages, c.cardPage(i))
	}
	base, err := c.layBase()
	if err != nil {
		return nil, err
	}
	if base != nil {
		b.pages = append(b.pages, gridPages(base)...)
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
	cover, words := c.cover(b)
	b.covers(cover, uprightFrame(frames), words)
	return b.bind(c.set.Name + ", model"), nil
}

// listKinds are the document types of the lists.
var listKinds = map[string]string{"joints": "Joints", "rods": "Rods", "left out": "Left out"}

// uprightFrame prefers the sheet as it is kept.
func uprightFrame(frames []frame) *frame {
	return &frames[len(frames)-1]
}

// cardPage is the page of a sheet of card.
func (c *CardModel) cardPage(i int) page {
	cut := c.cutSheet(i)
	s := &c.Sheets[i]
	sum := c.digest(i, cut)
	e := tiling.Entry{
		Label: cut.Label, Element: c.elementsOn(s), View: "model", Title: "Card model, " + cardWords(s.Card, s.Thickness, c.set.Units),
		Scale: c.opt.ScaleWords, Paper: c.paperOf(s), Mark: tiling.ContentMark(sum), Digest: sum, Size: [2]float64{s.Size.W, s.Size.H},
	}
	foot := s.foot
	return page{entry: e, size: s.Size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		cut.Draw(p)
		foot.draw(&p.Layers[drawing.Furniture], c.words(i, e.Mark, n, of))
	}}
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

// digest is of a sheet's lines and of what stands along its edges; the names of pieces are not in it.
func (c *CardModel) digest(i int, cut *tiling.CutSheet) [32]byte {
	var d tiling.Digester
	s := &c.Sheets[i]
	d.Reset("model", c.opt.ScaleWords, faceOf(c.Model), geom.Rect{Max: geom.Point{X: s.Size.W, Y: s.Size.H}})
	d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{Text: cardWords("", s.Thickness, c.set.Units)})
	var ps []geom.Point
	path := func(l drawing.Layer, pen tiling.Pen, q *geom.Path) {
		ps = q.Flatten(tiling.Flatness, ps[:0])
		kind := drawing.Continuous
		switch {
		case sameDashes(pen, foldFront):
			kind = drawing.Dashed
		case sameDashes(pen, foldBack):
			kind = drawing.LongDashDot
		case sameDashes(pen, gluePen):
			kind = drawing.Dotted
		}
		d.Line(drawing.Mark{Layer: l}, kind, pen.Width, pen.Tone, 0, q.Closed(), ps)
	}
	for k := range cut.Pieces {
		p := &cut.Pieces[k]
		p.Each(p.Bends, path)
		for t := range p.Notes.Texts {
			if x := &p.Notes.Texts[t]; !x.Bold {
				d.Word(drawing.Mark{Layer: drawing.Notes, Role: drawing.Word}, x)
			}
		}
	}
	return d.Sum()
}

func sameDashes(a, b tiling.Pen) bool {
	return len(a.Dash) == len(b.Dash) && len(a.Dash) > 0 && a.Dash[0] == b.Dash[0]
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
		cut := c.cutSheet(i)
		w := c.words(i, tiling.ContentMark(c.digest(i, cut)), 0, 0)
		c.Sheets[i].foot.draw(&cut.Notes, w)
		out[i] = cut
	}
	return out
}

// SheetRecord is what issue.json keeps of a sheet of card, so that a later issue can leave pieces where they lie.
type SheetRecord struct {
	Label  string       `json:"label"`
	Card   string       `json:"card"`
	Thick  float64      `json:"thickness_mm"`
	Paper  string       `json:"paper"`
	Size   [2]float64   `json:"size_mm"`
	Gap    float64      `json:"gap_mm"`
	Pieces []LaidRecord `json:"pieces"`
}

// LaidRecord is where a piece lies.
type LaidRecord struct {
	Piece string     `json:"piece"`
	At    [2]float64 `json:"at_mm"`
	Turn  float64    `json:"turn_deg"`
}

// Record returns the nests as issue.json keeps them.
func (c *CardModel) Record() []SheetRecord {
	out := []SheetRecord{}
	for i := range c.Sheets {
		s := &c.Sheets[i]
		r := SheetRecord{Label: sheetLabel(i), Card: s.Card, Thick: s.Thickness, Paper: c.paperOf(s), Size: [2]float64{s.Size.W, s.Size.H}, Gap: c.opt.Gap}
		for _, l := range s.Places {
			r.Pieces = append(r.Pieces, LaidRecord{c.Model.Pieces[l.Piece].Label(), [2]float64{round6(l.At.X), round6(l.At.Y)}, l.Turn})
		}
		out = append(out, r)
	}
	return out
}

// lists are the tables that follow the sheets.
func (c *CardModel) lists() []*table.Table {
	return []*table.Table{c.jointList(), c.rodList(), c.smallList()}
}
