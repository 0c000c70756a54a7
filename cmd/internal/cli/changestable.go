package cli

import (
	"markout/layout/changes"
	"markout/layout/table"
	"markout/render/issue"
)

// table is what changes prints as CSV: one row a change, a mark, a line of tape, a thing to make or to move, or a sheet; `what` says which.
func (d *difference) table() *table.Table {
	t := &table.Table{Name: "changes", Columns: []table.Column{
		{Name: "what"}, {Name: "element"}, {Name: "point"}, {Name: "change"}, {Name: "words"}, {Name: "held"},
		{Name: "x_mm", Kind: table.X, Decimals: 1}, {Name: "y_mm", Kind: table.Y, Decimals: 1}, {Name: "length_mm", Kind: table.Length, Decimals: 1},
		{Name: "tape"}, {Name: "count", Kind: table.Count}, {Name: "file"}, {Name: "page", Kind: table.Count}, {Name: "sheet"},
	}}
	for i := range t.Columns {
		t.Columns[i].Heading = t.Columns[i].Name
	}
	add := func(what string, cells map[string]table.Value) {
		row := make([]table.Value, len(t.Columns))
		row[0] = table.T(what)
		for i, c := range t.Columns[1:] {
			row[i+1] = cells[c.Name]
		}
		t.Rows = append(t.Rows, row)
	}
	type cells = map[string]table.Value
	for _, e := range d.elements {
		add("element", cells{"element": table.T(e.Name), "change": table.T(e.Change), "words": table.T(e.Words), "held": table.T(e.Held)})
	}
	for _, k := range []struct {
		does  string
		marks []changes.Mark
		lines []changes.Line
	}{{"lift", d.lift, d.off}, {"lay", d.lay, d.on}} {
		for _, m := range k.marks {
			add("mark", cells{"element": table.T(m.Element), "point": table.T(m.Point), "change": table.T(k.does),
				"x_mm": table.N(m.At.X), "y_mm": table.N(m.At.Y), "tape": table.T(m.Tape)})
		}
		for _, l := range k.lines {
			add("line", cells{"element": table.T(l.Element), "point": table.T(l.Point), "change": table.T(k.does),
				"x_mm": table.N(l.From.X), "y_mm": table.N(l.From.Y), "length_mm": table.N(l.Length), "tape": table.T(l.Tape)})
		}
	}
	for _, b := range d.blocks {
		add("block", cells{"element": table.T(b.Element), "change": table.T(string(b.Change)), "words": table.T(b.Words),
			"x_mm": table.N(b.To.X), "y_mm": table.N(b.To.Y)})
	}
	for _, m := range d.moves {
		add("move", cells{"element": table.T(m.Element), "change": table.T("move"), "words": table.T(m.Words), "x_mm": table.N(m.To.X), "y_mm": table.N(m.To.Y)})
	}
	d.madeRows(add)
	for _, k := range []struct {
		does string
		refs []issue.PageRef
	}{{"reprint", d.pages.Reprint}, {"keep", d.pages.Keep}, {"withdraw", d.pages.Withdraw}} {
		for _, r := range k.refs {
			add("sheet", cells{"change": table.T(k.does), "file": table.T(r.File), "page": table.N(float64(r.Page)), "sheet": table.T(r.Sheet)})
		}
	}
	return t
}
