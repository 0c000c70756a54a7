package sheet

import (
	"fmt"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/tiling"
)

// WorkOrder is what one trade has to do after a change. It takes one page, whatever there is to do.
type WorkOrder struct {
	Trade    string     // "Floor", "Carpenter", "Model maker"
	Takes    []string   // counts: "12 marks to lay", "14.2 m of white tape 25 mm", "3 sheets to print"
	Steps    []WorkStep // in order of work
	Cautions []string   // in full at the page's foot, the line that defers to who decides last; none for no box
}

// WorkStep is one step of a work order: lines, a table, or both, the lines first. Each line and each row has a box to tick.
type WorkStep struct {
	Does  string       // "Lift these marks"
	Lines []string     // one a thing to do
	Table *table.Table // where figures are read off: marks to lay with their distances; nil for none
	Thing string       // what a line or row is, for what finds no room: "mark" makes "… and 37 more marks"; empty is "line"
}

// WorkChange is what changed since an earlier issue, and what each trade has to do for it.
type WorkChange struct {
	Since                   string      // the earlier issue, "A, 2026-11-20"
	Elements                []string    // what changed, in words, with what was held
	Keep, Reprint, Withdraw int         // pages
	Superseded              []string    // the pages to withdraw, one a line
	Orders                  []WorkOrder // in the order of their pages
	Rest                    string      // where all is listed that finds no room on its page: "`markout changes OLD NEW --format csv`"
}

// WorkOrders makes the document of a change's work orders: a cover that says what changed and what becomes of the paper, then one
// page a trade, in the tallest lettering in which all of it finds room. What finds none even in the least lettering is counted on
// the page, with where it is listed. The error says that the paper is too small for any sheet.
func WorkOrders(s *set.Set, w *WorkChange, opt Options) (*Book, error) {
	frames, err := framesOf(opt)
	if err != nil {
		return nil, err
	}
	b := &binder{set: s, frames: frames, stamps: opt.Stamps}
	for i := range w.Orders {
		b.workOrder(w, &w.Orders[i])
	}
	b.workCover(w)
	return b.bind(s.Name + ", work orders"), nil
}

// workOrder adds the page of one trade.
func (b *binder) workOrder(w *WorkChange, o *WorkOrder) {
	laid := layWorkOrder(b.set, w, o, b.frames)
	f := laid.frame
	sum := o.digest(digester(b.set), w.Since)
	e := tiling.Entry{
		Label: strings.ToLower(o.Trade) + " order", View: "order", Title: "Work order: " + strings.ToLower(o.Trade), Paper: f.paper,
		Mark: tiling.ContentMark(sum), Digest: sum, Size: [2]float64{f.live.W(), f.live.H()},
	}
	b.pages = append(b.pages, page{entry: e, size: f.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		f.drawFrame(p)
		laid.draw(p)
		titleStrip(p, f.strip(), b.set, b.titles(e, "Work order", f, n, of))
	}})
}

// saidIn is the digest of what a table's rows say, wherever they stand.
func saidIn(t *table.Table, d *tiling.Digester) [32]byte {
	d.Reset("rows", t.Name, t.Sides.Plus, geom.Rect{})
	for r, row := range t.Rows {
		for k, c := range t.Columns {
			at := geom.Point{X: float64(k), Y: float64(r)}
			d.Word(drawing.Mark{Layer: drawing.Notes, Role: drawing.Word}, &tiling.Text{At: at, Text: t.ForPeople(c, row[k])})
		}
	}
	return d.Sum()
}

// digest is of all that the order says, wherever it stands on the paper and however much of it finds room.
func (o *WorkOrder) digest(d *tiling.Digester, since string) [32]byte {
	var tables []string
	for i := range o.Steps {
		said := ""
		if t := o.Steps[i].Table; t != nil {
			said = fmt.Sprintf("%x", saidIn(t, d))
		}
		tables = append(tables, said)
	}
	d.Reset("order", "", "", geom.Rect{})
	say := func(step int, words ...string) {
		for k, t := range words {
			at := geom.Point{X: float64(k), Y: float64(step)}
			d.Word(drawing.Mark{Layer: drawing.Notes, Role: drawing.Word}, &tiling.Text{At: at, Text: t})
		}
	}
	const head, takes, cautions, first = 0, 1, 2, 3
	say(head, o.Trade, since)
	say(takes, o.Takes...)
	say(cautions, o.Cautions...)
	for i := range o.Steps {
		step := &o.Steps[i]
		says := []string{step.Does, tables[i]}
		if t := step.Table; t != nil {
			says = append(append(says, t.Head...), t.Notes...)
		}
		say(first+2*i, says...)
		say(first+2*i+1, step.Lines...)
	}
	return d.Sum()
}
