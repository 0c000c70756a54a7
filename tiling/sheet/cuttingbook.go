package sheet

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/layout/table"
	"markout/tiling"
)

// Book makes the cutting document: a cover that says what it takes and in what order to work, every board to scale with its cuts,
// the bars with running measures, the blocks, the list, the weights, and what is not in it. The error says what does not fit the paper.
func (c *Cutting) Book(cautions []caution.Caution, opt Options) (*Book, error) {
	frames, err := framesOf(opt)
	if err != nil {
		return nil, err
	}
	b := &binder{set: c.set, frames: frames, stamps: opt.Stamps}
	if err := c.bindBoards(b); err != nil {
		return nil, err
	}
	for _, s := range c.layBars(frames) {
		e := tiling.Entry{Label: fmt.Sprintf("bars %d", s.number), View: "cutting", Title: "Bars", Element: s.elements(), Paper: s.frame.paper,
			Mark: tiling.ContentMark(s.digest), Digest: s.digest, Size: [2]float64{s.frame.live.W(), s.frame.live.H()}}
		c.bindPage(b, e, s.frame, s.draw)
	}
	type titled struct {
		label, kind string
		t           *table.Table
	}
	tables := []titled{{"blocks", "Blocks from stock", c.Stacks()}}
	for n, t := range c.pages() {
		tables = append(tables, titled{fmt.Sprintf("cuts %d", n+1), "Cutting list", t})
	}
	tables = append(tables, titled{"weights", "Weights", c.WeightTable()}, titled{"no material", "No material given", c.Unsaid()},
		titled{"not taken off", "Not taken off", c.NotTaken()})
	for _, t := range tables {
		if t.t == nil || len(t.t.Rows) == 0 {
			continue
		}
		t.t.Notes = append(slices.Clone(t.t.Notes), sawing)
		laid, err := layTable(t.t, true, frames)
		if err != nil {
			return nil, err
		}
		b.table(t.label, t.kind, laid)
	}
	if len(cautions) > 0 {
		t, err := layTable(cautionTable(cautions), true, frames)
		if err != nil {
			return nil, err
		}
		b.table("cautions", "Cautions", t)
	}
	c.cover(b, cautions)
	return b.bind(c.set.Name + ", cutting"), nil
}

// bindBoards adds a sheet for each board, those cut alike together, and what finds no room beside it on sheets of its own.
func (c *Cutting) bindBoards(b *binder) error {
	n := 0
	for i := 0; i < len(c.Boards); i += n {
		n = 1
		for i+n < len(c.Boards) && c.Boards[i].Board == c.Boards[i+n].Board && c.Boards[i].sheet == c.Boards[i+n].sheet {
			n++
		}
		s, err := c.layBoard(&c.Boards[i], n, b.frames)
		if err != nil {
			return err
		}
		name := alike(c.set.Boards[s.board.Board].Name, s.board.Number, n)
		mat := &c.set.Boards[s.board.Board]
		e := tiling.Entry{Label: name, View: "cutting", Title: "Boards, " + mat.Name, Element: s.elements(), Scale: s.scale.text, Paper: s.frame.paper,
			Mark: tiling.ContentMark(s.digest), Digest: s.digest, Size: [2]float64{mat.Length / s.scale.n, mat.Width / s.scale.n}}
		c.bindPage(b, e, s.frame, s.draw)
		rest := s.lines[s.fits:]
		for k := 2; len(rest) > 0; k++ {
			columns := listColumns(s.frame)
			here := rest
			n := max(1, fittingAll(here, drawing.Lettering3_5, columns))
			here, rest = here[:n], here[n:]
			e := e
			e.Label = fmt.Sprintf("%s list %d", name, k-1)
			e.Scale = ""
			e.Digest = digestOf(b.set, "list", here)
			e.Mark = tiling.ContentMark(e.Digest)
			c.bindPage(b, e, s.frame, func(p *tiling.Page) {
				writeLists(&p.Layers[drawing.Notes], here, drawing.Lettering3_5, columns)
			})
		}
	}
	return nil
}

// listColumns are the columns of a sheet of lines.
func listColumns(f *frame) []geom.Rect {
	r := f.live
	r.Min = r.Min.Add(geom.Point{X: gap, Y: stripHeight + cautionTall + gap})
	r.Max = r.Max.Sub(geom.Point{X: gap, Y: gap + 2})
	return split(r)
}

func digestOf(s *set.Set, view string, lines []string) [32]byte {
	d := digester(s)
	d.Reset(view, "", "", geom.Rect{})
	for i, l := range lines {
		d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: geom.Point{Y: float64(i)}, Text: l})
	}
	return d.Sum()
}

// cautionTall is how much room the caution takes over the title strip.
const cautionTall = 2*drawing.Lettering2_5*lettering.Leading + 1

// sawing stands on every sheet that is taken to the saw.
const sawing = "Guards and riving knife on, dust taken off at the machine, long boards held up; only people trained on the machine cut (HSE L114, 2nd edition 2014, from memory)."

// bindPage adds a page with its frame, its title strip and what is to be looked out for at the saw.
func (c *Cutting) bindPage(b *binder, e tiling.Entry, f *frame, draw func(*tiling.Page)) {
	b.pages = append(b.pages, page{entry: e, size: f.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		f.drawFrame(p)
		draw(p)
		left, top := f.live.Min.X+gap, f.live.Min.Y+stripHeight+cautionTall
		for i, l := range [2]string{sawing, caution.Defer} {
			h, l := fitted(l, drawing.Lettering2_5, false, f.live.W()-2*gap)
			p.Layers[drawing.Furniture].Write(geom.Point{X: left, Y: top - float64(i+1)*drawing.Lettering2_5*lettering.Leading}, h, false, l)
		}
		titleStrip(p, f.strip(), b.set, b.titles(e, "Cutting", f, n, of))
	}})
}

// cover says what it takes, in what order to work and what to look out for.
func (c *Cutting) cover(b *binder, cautions []caution.Caution) {
	s := c.set
	what := tiling.Block{Heading: "What this is", Lines: []string{"What the carpenter cuts for the set: from which board, bar or stock box, and where it lies."}}
	what.Lines = append(what.Lines, b.sheets()...)
	blocks := []tiling.Block{what, {Heading: "What it takes", Lines: c.takes()}, {Heading: "In this order", Numbered: true, Lines: c.order()}}
	blocks = append(blocks, tiling.Block{Heading: "How it is reckoned", Lines: c.rules()})
	if len(cautions) > 0 {
		lines := []string{caution.Defer}
		for _, k := range cautions {
			line := k.Code
			if k.Element != "" {
				line += ", " + k.Element
			}
			lines = append(lines, line+": "+k.Message)
		}
		blocks = append(blocks, tiling.Block{Heading: "Cautions", Lines: lines})
	}
	if s.Trial && len(s.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: s.With})
	}
	cv := newCover(s, s.Name+": cutting", blocks)
	b.covers(cv, b.coverFrame())
}

// takes lists boards, bars and boxes to fetch, what is short, and the weight.
func (c *Cutting) takes() []string {
	var out []string
	for _, w := range c.Weights() {
		line := fmt.Sprintf("%s: %d", w.Material, w.Whole)
		if w.Weighed {
			line += " of " + c.kilograms(w.EachWeighs)
		}
		if w.InHand > 0 {
			line += fmt.Sprintf("; %d in hand", w.InHand)
		}
		if w.Short > 0 {
			line += fmt.Sprintf(", %d short", w.Short)
		}
		out = append(out, line+fmt.Sprintf("; %.0f %% is left over.", 100*w.Waste))
	}
	if t := c.Stacks(); t != nil {
		for _, n := range t.Notes {
			if !strings.HasPrefix(n, "Taken for granted") {
				out = append(out, n)
			}
		}
	}
	if len(out) == 0 {
		return []string{"Nothing: no piece has a material."}
	}
	if len(c.Weights()) > 0 {
		out = append(out, "All pieces together weigh "+c.TotalWords()+".")
	}
	if len(c.Unproven) > 0 {
		out = append(out, "A longer search (--effort long) may do with less: "+strings.Join(c.Unproven, ", ")+".")
	}
	if len(c.Patched) > 0 {
		out = append(out, "What an earlier issue has laid out stays; laid anew (--nest anew), fewer may do: "+strings.Join(c.Patched, ", ")+".")
	}
	for _, f := range c.Freer {
		out = append(out, f+".")
	}
	if c.Stopped {
		out = append(out, "The search for a denser layout was ended early.")
	}
	return out
}

// order is the order of work.
func (c *Cutting) order() []string {
	var out []string
	out = append(out, "Measure one board of each kind, thickness too: where it is not what its sheet says, change the file and print again.")
	if len(c.Boards) > 0 {
		out = append(out, "Write its name on every board before the first cut ("+from(c.set.Boards[c.Boards[0].Board].Name, 1)+"), and mark the corner it is measured from.",
			"Cut each board in the order of its numbers; the figure is the near part's size, the saw's own width is beyond it.")
	}
	if len(c.Bars) > 0 {
		out = append(out, "Cut bars from their left end. Measure each piece itself; the running figures are a check.")
	}
	out = append(out, "Write the item number on every piece as it comes off.", "Tick the pieces on the list before anything is fixed.")
	if c.Blocks != nil {
		out = append(out, "Stack the blocks as the table of blocks says, from the floor up, and fix box to box before the next layer.")
	}
	return out
}

// rules say how pieces are taken off.
func (c *Cutting) rules() []string {
	out := []string{
		"Sizes are of the finished piece. Boards are reckoned as thick as they were measured.",
		"Treads and riser boards run over the strings and are as long as the flight is wide; a tread reaches behind the riser board that stands on it. What is not as thick as the board it is of comes from the board that is.",
		"A lid runs through; front and back of a block are as wide as it is, ends stand between them.",
		"What is larger than its board is split; seams keep away from narrow places and want a bearer behind.",
		"Frames, legs, braces and fixings that the file does not say are not in the list; a part line of the file adds them.",
	}
	if c.opt.Free {
		out = append(out, "Pieces lie free: they are cut with a router or a jigsaw, not from edge to edge.")
	} else if len(c.Boards) > 0 {
		out = append(out, "Every cut runs from edge to edge of what it parts; outlines lie on boards of their own and are cut with a jigsaw or a router.")
	}
	return out
}
