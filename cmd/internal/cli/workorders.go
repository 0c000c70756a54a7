package cli

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/changes"
	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/table"
	"markout/render/issue"
	"markout/tiling"
	"markout/tiling/sheet"
)

// Where the sheets of a document go.
var tradeOf = map[string]string{
	"floor.pdf": "Floor", "templates.pdf": "Carpenter", "elevations.pdf": "Carpenter", "cutting.pdf": "Carpenter",
	"model.pdf": "Model maker", "artwork.pdf": "Scenic artist", "overhead.pdf": "Rigger",
}

// trades are the orders' in the order of their pages: what stands on the floor is found there first.
var trades = [...]string{"Floor", "Carpenter", "Model maker", "Scenic artist", "Rigger"}

// workOrders is a page for each trade that has something to do.
func (d *difference) workOrders(o *issueOptions) (*tiling.Document, error) {
	w := &sheet.WorkChange{
		Since: sinceWords(d.old), Elements: elementLines(d.elements), Rest: "`markout changes OLD NEW --format csv`",
		Keep: len(d.pages.Keep), Reprint: len(d.pages.Reprint), Withdraw: len(d.pages.Withdraw),
	}
	for _, l := range pageLines("", append(slices.Clone(d.pages.Withdraw), d.replaced()...)) {
		w.Superseded = append(w.Superseded, strings.TrimSpace(l))
	}
	for _, trade := range trades {
		if k := d.order(trade); len(k.Steps) > 0 {
			w.Orders = append(w.Orders, k)
		}
	}
	opt, err := o.small(nil, "").sheets(d.new.set)
	if err != nil {
		return nil, err
	}
	book, err := sheet.WorkOrders(d.new.set, w, opt)
	if err != nil {
		return nil, refusal{err}
	}
	return book.Document, nil
}

func sinceWords(v *version) string {
	if v.set.Trial || v.set.Letter == "" {
		return v.name
	}
	return strings.TrimSuffix(v.set.Letter+", "+v.set.Date, ", ")
}

// replaced are the pages of the earlier version that another takes the place of.
func (d *difference) replaced() []issue.PageRef {
	again := map[string]bool{}
	for _, r := range d.pages.Reprint {
		again[r.File+" "+r.Sheet] = true
	}
	var out []issue.PageRef
	for _, p := range d.was.Pages {
		if again[p.File+" "+p.Sheet] {
			out = append(out, issue.PageRef{File: p.File, Page: p.Page, Sheet: p.Sheet})
		}
	}
	return out
}

// order is what one trade has to do.
func (d *difference) order(trade string) sheet.WorkOrder {
	k := sheet.WorkOrder{Trade: trade}
	step := func(does, thing string, lines []string) {
		if len(lines) > 0 {
			k.Steps = append(k.Steps, sheet.WorkStep{Does: does, Thing: thing, Lines: lines})
		}
	}
	var papers, away []issue.PageRef
	for _, r := range d.pages.Reprint {
		if tradeOf[r.File] == trade {
			papers = append(papers, r)
		}
	}
	for _, r := range append(slices.Clone(d.pages.Withdraw), d.replaced()...) {
		if tradeOf[r.File] == trade {
			away = append(away, r)
		}
	}
	step("Take these papers away", "paper", pageLines("", away))
	step("Print these", "paper", pageLines("", papers))
	if n := len(papers); n > 0 {
		k.Takes = append(k.Takes, plural(n, "sheet")+" to print")
	}
	switch trade {
	case "Floor":
		d.floorOrder(&k, step)
	case "Carpenter":
		d.carpenterOrder(&k, step)
	case "Model maker":
		d.modelOrder(&k, step)
	case "Rigger":
		step("Read these changes to whoever decides how it hangs, before anything is moved", "piece", hungLines(d.hung, d.totals))
		if n := len(d.hung); n > 0 {
			k.Takes = append(k.Takes, plural(n, "piece")+" overhead")
		}
	}
	k.Cautions = d.cautionsFor(trade)
	return k
}

type addStep func(does, thing string, lines []string)

// floorOrder is what is lifted, moved and laid, in this order: nothing is laid over what still stands.
func (d *difference) floorOrder(k *sheet.WorkOrder, step addStep) {
	for _, part := range []struct {
		does  string
		marks int
		lines []changes.Line
	}{{"lift", len(d.lift), d.off}, {"lay", len(d.lay), d.on}} {
		if part.marks > 0 {
			k.Takes = append(k.Takes, plural(part.marks, "mark")+" to "+part.does)
		}
		if m := tapeWords(part.lines, d.new.set.Units); m != "" {
			k.Takes = append(k.Takes, m+" to "+part.does)
		}
	}
	step("Move or clear these first", "piece", append(blockLines(d.blocks), moveLines(d.moves)...))
	step("Lift these marks and tapes", "mark", floorLines("", d.old.set, d.lift, d.off))
	if len(d.lay) > 0 {
		k.Steps = append(k.Steps, sheet.WorkStep{Does: "Lay these marks, in this order", Thing: "mark", Table: d.layTable()})
	}
	step("Lay these tapes", "tape", floorLines("", d.new.set, nil, d.on))
}

// tapedBy are the columns of the tape table by which a mark is laid; what they allow for stands in the table itself.
var tapedBy = map[string]bool{
	"element": true, "point": true, "level_mm": true, "from_1": true, "distance_1_mm": true, "from_2": true, "distance_2_mm": true,
	"side": true, "from_3": true, "distance_3_mm": true,
}

// layTable is the tape table's rows of the marks to lay.
func (d *difference) layTable() *table.Table {
	all := d.is.in.Tape
	t := *all
	t.Columns, t.Rows, t.Notes = nil, nil, nil
	level := slices.ContainsFunc(d.lay, func(m changes.Mark) bool { return math.Abs(m.Level) > geom.Tolerance })
	var at []int
	for i, c := range all.Columns {
		if tapedBy[c.Name] && (level || c.Name != "level_mm") {
			c.Break = false
			t.Columns, at = append(t.Columns, c), append(at, i)
		}
	}
	for _, m := range d.lay {
		row := make([]table.Value, len(at))
		for k, i := range at {
			row[k] = all.Rows[m.Row][i]
		}
		t.Rows = append(t.Rows, row)
	}
	return &t
}

func (d *difference) carpenterOrder(k *sheet.WorkOrder, step addStep) {
	var cut, recut, scrap []changes.Cut
	pieces := 0
	for _, c := range d.boards {
		switch c.Change {
		case changes.Recut:
			recut, pieces = append(recut, c), pieces+c.Count
		case changes.Scrap:
			scrap = append(scrap, c)
		default:
			cut, pieces = append(cut, c), pieces+c.Count
		}
	}
	var build []changes.Block
	for _, b := range d.blocks {
		if b.Change != changes.Moved && b.Change != changes.Turned {
			build = append(build, b)
		}
	}
	if pieces > 0 {
		k.Takes = append(k.Takes, plural(pieces, "piece")+" to cut")
	}
	if n := len(build); n > 0 {
		k.Takes = append(k.Takes, plural(n, "block")+" to build or to cut down")
	}
	step("Cut these anew", "piece", boardLines(cut))
	step("Recut these", "piece", boardLines(recut))
	step("Build or cut down these blocks", "block", blockLines(build))
	step("Put these by", "piece", boardLines(scrap))
}

func (d *difference) modelOrder(k *sheet.WorkOrder, step addStep) {
	by := map[changes.Change][]changes.Piece{}
	for _, p := range d.pieces {
		by[p.Change] = append(by[p.Change], p)
	}
	if n := len(by[changes.Make]) + len(by[changes.Remake]); n > 0 {
		k.Takes = append(k.Takes, plural(n, "piece")+" of card to cut")
	}
	step("Part these", "piece", pieceLines(by[changes.Part]))
	step("Take these off, and make them again", "piece", pieceLines(by[changes.Remake]))
	step("Make these", "piece", pieceLines(by[changes.Make]))
	step("Put these by", "piece", pieceLines(by[changes.Scrap]))
}

// cautionsFor repeats in full the cautions of what a trade's changes touch: those of steps and what stands for the floor, all
// that a carpenter meets at the saw, and those of what hangs for whoever rigs it. The line that defers comes last.
func (d *difference) cautionsFor(trade string) []string {
	touched := map[string]bool{}
	for _, e := range d.elements {
		touched[e.Name] = true
	}
	for _, h := range d.hung {
		touched[h.Piece], touched[h.Room] = true, true
	}
	var out []string
	add := func(c caution.Caution) {
		out = append(out, fmt.Sprintf("%s: %s. Found %s; published %s. %s", c.Element, c.Message, c.Figure, c.Limit, c.Source))
	}
	for _, c := range d.is.in.Cautions {
		over := strings.HasPrefix(c.Code, "OVER-")
		switch trade {
		case "Floor":
			if !touched[elementOf(c)] || rules.OfCutting(c) {
				continue
			}
		case "Carpenter":
			if !rules.OfCutting(c) && (over || !touched[elementOf(c)]) {
				continue
			}
		case "Rigger":
			if !over {
				continue
			}
		default:
			continue
		}
		add(c)
	}
	if trade == "Rigger" {
		out = append(out, overhead.Note)
	}
	if len(out) > 0 || trade == "Floor" || trade == "Carpenter" || trade == "Rigger" {
		out = append(out, caution.Defer)
	}
	return out
}

// floorLines is marks and lines of tape of a set, each with its place.
func floorLines(does string, s *set.Set, marks []changes.Mark, lines []changes.Line) []string {
	var out []string
	for _, m := range marks {
		out = append(out, markWords(does, s, m))
	}
	for _, l := range lines {
		out = append(out, lineWords(does, s, l))
	}
	return out
}
