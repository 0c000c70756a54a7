package cli

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/render/issue"
	"markout/tiling"
	"markout/tiling/sheet"
)

// Where the sheets of a document go, but for footprints at full size, which are laid on the floor.
var tradeOf = map[string]string{
	"floor.pdf": "Floor", "templates.pdf": "Carpenter", "elevations.pdf": "Carpenter", "cutting.pdf": "Carpenter",
	"model.pdf": "Model maker", "artwork.pdf": "Scenic artist", "overhead.pdf": "Rigger",
}

// trades are the orders' in the order of their pages: what stands on the floor is found there first.
var trades = [...]string{"Floor", "Carpenter", "Model maker", "Scenic artist", "Rigger"}

// workOrders is a page for each trade that has something to do.
func (d *difference) workOrders(o *issueOptions) (*tiling.Document, error) {
	w := &sheet.WorkChange{
		Since: sinceWords(d.old), Elements: append(elementLines(d.elements), d.unsure()...), Rest: "`markout changes OLD NEW --format csv`",
		Keep: len(d.pages.Keep), Reprint: len(d.pages.Reprint), Withdraw: len(d.pages.Withdraw),
	}
	for _, l := range pageLines("", append(slices.Clone(d.pages.Withdraw), d.replaced()...)) {
		w.Superseded = append(w.Superseded, strings.TrimSpace(l))
	}
	d.footprints = d.footprintsOf()
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

// ofTrade are the pages that go to one trade.
func (d *difference) ofTrade(trade string, refs []issue.PageRef) []issue.PageRef {
	var out []issue.PageRef
	for _, r := range refs {
		to := tradeOf[r.File]
		if r.File == "templates.pdf" && d.footprints[r.Sheet] {
			to = "Floor"
		}
		if to == trade {
			out = append(out, r)
		}
	}
	return out
}

// footprintsOf are the labels of the full-size pages of either version that lie on the floor.
func (d *difference) footprintsOf() map[string]bool {
	out := map[string]bool{}
	for _, p := range d.was.Pages {
		if p.File == "templates.pdf" && p.View == "floor" {
			out[p.Sheet] = true
		}
	}
	for _, b := range d.is.in.Books {
		for _, e := range b.Entries {
			if b.File == "templates.pdf" && e.View == "floor" {
				out[e.Label] = true
			}
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
	papers, away := d.ofTrade(trade, d.pages.Reprint), d.ofTrade(trade, append(slices.Clone(d.pages.Withdraw), d.replaced()...))
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
		limit := c.Against()
		if c.Source != "" && c.Source != caution.OwnFigure {
			limit += " (" + c.Source + ")"
		}
		out = append(out, fmt.Sprintf("%s: %s. Found: %s; %s", c.Element, c.Message, c.Figure, limit))
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
