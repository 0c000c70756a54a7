package grid

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/unit"
	"markout/tiling"
)

// issueWords says which issue this is.
func (p *Plan) issueWords() string {
	in := &p.info
	switch {
	case in.Trial:
		return joined(", ", "trial: values were changed or no issue is given", in.Date)
	case in.Letter != "":
		return joined(", ", "issue "+in.Letter, in.Date)
	}
	return joined(", ", "no issue", in.Date)
}

// makeCover writes the first page: what this is, which issue, what it takes, in what order, how to hold it.
func (p *Plan) makeCover() {
	c := tiling.Cover{
		Title: "Full-size paper", Trial: p.info.Trial,
		Under: []string{joined(" / ", p.info.Production, p.info.Set), p.issueWords()},
		Blocks: []tiling.Block{
			{Heading: "What this is", Lines: p.whatItIs()},
			{Heading: "What it takes", Lines: p.whatItTakes()},
			{Heading: "In this order", Numbered: true, Lines: p.inOrder()},
			{Heading: "How to hold it", Lines: p.howToHold()},
		},
	}
	if b := p.cautionBlock(); len(b.Lines) > 0 {
		c.Blocks = append(c.Blocks, b)
	}
	if b := p.cutBlock(); len(b.Lines) > 0 {
		c.Blocks = append(c.Blocks, b)
	}
	if b := p.pieceBlock(); len(b.Lines) > 0 {
		c.Blocks = append(c.Blocks, b)
	}
	g := p.grids[p.pages[0].grid]
	m := g.margins
	if !p.opt.Paper.Roll {
		p.size = g.size
		live := geom.Rect{Min: geom.Point{X: m.Left, Y: m.Bottom}, Max: geom.Point{X: p.size.W - m.Right, Y: p.size.H - m.Top}}
		c.Map = coverMap(g, min(live.W()*0.55, live.H()*0.4))
		p.cover = c.Lay(p.size, live)
		return
	}
	// The cover of a roll is as long as it needs to be.
	m = p.opt.Margins
	for _, h := range [...]float64{297, 420, 594, 841} {
		p.size = tiling.Size{W: p.opt.Paper.W, H: h}
		live := geom.Rect{Min: geom.Point{X: m.Left, Y: m.Bottom}, Max: geom.Point{X: p.size.W - m.Right, Y: p.size.H - m.Top}}
		c.Map = coverMap(g, min(live.W()*0.4, live.H()*0.5))
		if p.cover = c.Lay(p.size, live); len(p.cover) == 1 {
			return
		}
	}
}

func (p *Plan) whatItIs() []string {
	noun := "sheet"
	if p.opt.Paper.Roll {
		noun = "strip"
	}
	out := []string{"Drawings at full size, 1:1, to lay on the floor or on the board and mark or cut through."}
	printed := p.printed()
	for i, g := range printed {
		line := fmt.Sprintf("%s: %s", g.title, plural(g.printed, noun))
		if g.strips == nil {
			line += fmt.Sprintf(", %s from the bottom, %s from the left", g.rowWords(), g.columnWords())
			if g.cols == 1 && g.rows == 1 {
				line = fmt.Sprintf("%s: 1 sheet", g.title)
			}
			if g.empty > 0 {
				line += fmt.Sprintf("; %s of that grid %s nothing and %s not printed", plural(g.empty, "page"), verb(g.empty, "carries", "carry"), verb(g.empty, "is", "are"))
			}
		} else if g.cols > 1 {
			line += fmt.Sprintf(", %s, parts of a strip numbered", g.columnWords())
		}
		out = append(out, line+".")
		if len(out) == 20 && i < len(printed)-1 {
			out = append(out, fmt.Sprintf("… and %d more.", len(printed)-i-1))
			break
		}
	}
	if p.hidden > 0 {
		out = append(out, fmt.Sprintf("Only pages that show %s: %s left out.", strings.Join(p.opt.Names, ", "), plural(p.hidden, "page")))
	}
	return out
}

func (p *Plan) whatItTakes() []string {
	out := []string{p.words(p.cost(), p.paperWords(), p.opt.Paper.Roll) + ", and this cover."}
	if len(p.pages) > 1 {
		out = append(out, "Adhesive tape, a knife and a straight edge, a steel rule or tape measure.")
	} else {
		out = append(out, "A steel rule or tape measure, tape to hold the paper down.")
	}
	return out
}

func (p *Plan) inOrder() []string {
	out := []string{"Print at 100 %, actual size; no fitting, no scaling, one-sided."}
	g := p.grids[p.pages[0].grid]
	if len(g.kit.xBars) > 0 && len(g.kit.yBars) > 0 {
		out = append(out, "Measure both check bars on a sheet with the steel rule. If one is not true, stop: the paper is wrong.")
	}
	if len(p.pages) == 1 {
		return append(out, "Lay the paper by its ticks, or by the piece, and mark along the wide lines.")
	}
	many := false
	for _, g := range p.printed() {
		many = many || len(g.cells) > 1
	}
	if many {
		first := g.cells[p.pages[0].cell].label
		if g.lap == 0 {
			out = append(out,
				"Trim every page along its thin lines.",
				fmt.Sprintf("Start at %s. Butt each page against its neighbour: the halves of the crosses meet and equal letters face each other. Tape.", first))
		} else {
			out = append(out,
				"Trim every page along the thin unbroken line at its left and its lower edge, where it has one. Where it has none, nothing joins.",
				fmt.Sprintf("Start at %s and go to the right, then upwards. Lay each page's trimmed edge on its neighbour's dashed line: crosses become whole and equal letters face each other. Tape.", first))
		}
		if slices.ContainsFunc(p.printed(), func(g *grid) bool { return g.bare }) {
			out = append(out, "A page that is kept from an earlier issue has no line and no cross where it had no neighbour then: lay the new page beside it by its ticks.")
		}
		out = append(out, "Or lay a page by itself: its ticks give its distances, so that no error adds up from page to page.")
	}
	return append(out, "Mark along the middle of the wide lines. Wide lines are cut or taped; thin ones are for measuring.")
}

func (p *Plan) howToHold() []string {
	var out []string
	printed := p.printed()
	for i, g := range printed {
		words := joined("; ", g.hold, ticksFrom(g))
		if words == "" {
			continue
		}
		line := g.title + ": " + words + "."
		if len(printed) == 1 {
			line = words + "."
		}
		out = append(out, line)
		if len(out) == 20 && i < len(printed)-1 {
			out = append(out, "… the other pages say it themselves.")
			break
		}
	}
	if p.info.Sides.PlusWord != "" && slices.ContainsFunc(printed, func(g *grid) bool { return g.view == "floor" }) {
		out = append(out, fmt.Sprintf("On the floor %s is %s, at the right of the page, and %s is %s, at the left; U is upstage of the setting line, D downstage.",
			p.info.Sides.Plus, strings.ToLower(p.info.Sides.PlusWord), p.info.Sides.Minus, strings.ToLower(p.info.Sides.MinusWord)))
	}
	return out
}

func ticksFrom(g *grid) string {
	if g.datum.Says == "" {
		return ""
	}
	return "ticks count " + g.datum.Says
}

// cautionBlock lists every caution of the pieces that a page shows.
func (p *Plan) cautionBlock() tiling.Block {
	b := tiling.Block{Heading: "Be careful"}
	byLine := map[string][]string{}
	var lines []string
	index := p.index()
	for gi, g := range p.grids {
		for i, o := range g.owners {
			l := p.info.Cautions[o]
			if l == "" || len(index[gi][i]) == 0 || slices.Contains(byLine[l], o) {
				continue
			}
			if byLine[l] == nil {
				lines = append(lines, l)
			}
			byLine[l] = append(byLine[l], o)
		}
	}
	for _, l := range lines {
		b.Lines = append(b.Lines, some(byLine[l], 12)+": "+l)
	}
	if len(lines) > 0 && !slices.ContainsFunc(lines, func(l string) bool { return strings.Contains(l, caution.Defer) }) {
		b.Lines = append(b.Lines, caution.Defer)
	}
	return b
}

// cutBlock lists the lengths to cut off the roll.
func (p *Plan) cutBlock() tiling.Block {
	b := tiling.Block{Heading: "Lengths to cut, as they come off the roll"}
	if !p.opt.Paper.Roll {
		return b
	}
	for i, r := range p.pages {
		g := p.grids[r.grid]
		c := &g.cells[r.cell]
		length := unit.FormatMeasure(g.cutLength(c), unit.Millimetre, 1)
		if p.info.Units.Imperial() {
			length = unit.FormatLength(g.cutLength(c), p.info.Units, unit.Sixteenth)
		}
		b.Lines = append(b.Lines, fmt.Sprintf("strip %d: %s   %s", i+1, length, c.label))
	}
	return b
}

// mostListed is how many pieces the cover lists.
const mostListed = 60

// pieceBlock says which pages show which piece.
func (p *Plan) pieceBlock() tiling.Block {
	b := tiling.Block{Heading: "Pieces and their pages"}
	more := 0
	for gi, pieces := range p.index() {
		g := p.grids[gi]
		for o, pages := range pieces {
			if len(pages) == 0 {
				continue
			}
			if len(b.Lines) == mostListed {
				more++
				continue
			}
			labels := make([]string, 0, 13)
			for _, i := range pages {
				l := g.cells[p.pages[i].cell].label
				if len(labels) > 0 {
					l = strings.TrimPrefix(l, g.prefix+" ")
				}
				if labels = append(labels, l); len(labels) == 13 {
					break
				}
			}
			line := g.owners[o] + ": " + strings.Join(labels[:min(len(labels), 12)], ", ")
			if n := len(pages) - 12; n > 0 {
				line += fmt.Sprintf(" and %d more", n)
			}
			b.Lines = append(b.Lines, line)
		}
	}
	if more > 0 {
		b.Lines = append(b.Lines, fmt.Sprintf("… and %d more pieces: the bookmarks of the file list them all.", more))
	}
	return b
}

// some joins names, at most so many.
func some(names []string, most int) string {
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}

// coverMap is the key map with the pages' labels, or with their letters and numbers along its edges.
func coverMap(g *grid, side float64) *tiling.Form {
	m := newKeyMap(g, side-8)
	f := &tiling.Form{W: m.form.W + 8, H: m.form.H + 6}
	f.Uses = append(f.Uses, tiling.Use{Form: m.form, At: geom.Point{X: 8, Y: 6}})
	const h = drawing.Lettering1_8
	write := func(text string, mid geom.Point, height float64) {
		f.Write(geom.Point{X: mid.X + 8 - lettering.Width(text, height, false)/2, Y: mid.Y + 6 - height/2}, height, false, text)
	}
	widest, cells := 0.0, len(g.cells)
	for i := range g.cells {
		widest = max(widest, lettering.Width(shortLabel(g, &g.cells[i]), h, false))
	}
	first := m.cellBox(g, &g.cells[0])
	if cells <= 400 && first.W() > widest+0.6 && first.H() > 1.4*h {
		for i := range g.cells {
			write(shortLabel(g, &g.cells[i]), m.cellBox(g, &g.cells[i]).Mid(), h)
		}
		return f
	}
	if g.strips != nil {
		return f
	}
	everyC := max(1, int(math.Ceil(2.5*h/first.W())))
	everyR := max(1, int(math.Ceil(1.5*h/first.H())))
	mid := func(c, r int) geom.Point {
		b := first.Mid()
		return geom.Point{X: b.X + float64(c-g.cells[0].c)*first.W(), Y: b.Y + float64(r-g.cells[0].r)*first.H()}
	}
	for c := 0; c < g.cols; c += everyC {
		p := mid(c, 0)
		write(g.columnName(c), geom.Point{X: p.X, Y: -2.5}, h)
	}
	for r := 0; r < g.rows; r += everyR {
		p := mid(0, r)
		write(fmt.Sprint(g.rowName(r)), geom.Point{X: -3.5, Y: p.Y}, h)
	}
	return f
}

// columnWords and rowWords say how the columns and rows are named, in the order in which they lie.
func (g *grid) columnWords() string {
	noun := "column"
	if g.strips != nil {
		noun = "strip"
	}
	return several(g.cols, noun) + g.columns.words(g.first[0], g.first[0]+g.cols-1, func(n int) string { return tiling.Letters(n - 1) })
}

func (g *grid) rowWords() string {
	return several(g.rows, "row") + g.lines.words(g.first[1], g.first[1]+g.rows-1, func(n int) string { return fmt.Sprint(n) })
}

// several is a noun as it stands before the names of n things.
func several(n int, noun string) string {
	if n == 1 {
		return noun + " "
	}
	return noun + "s "
}

// shortLabel is a page's label without its grid's words.
func shortLabel(g *grid, c *cell) string { return strings.TrimPrefix(c.label, g.prefix+" ") }
