package sheet

import "markout/layout/table"

// Listed is the cutting list for people: pieces of one item that come off one board or bar after one another are one row, with
// their count. Stock boxes stand in Stacks.
func (c *Cutting) Listed() *table.Table {
	t := c.cuts()
	t.Rows = merged(t.Rows)
	return t
}

// merged makes one row of rows of one item, from one board.
func merged(all [][]table.Value) [][]table.Value {
	rows := all[:0:0]
	for _, r := range all {
		if n := len(rows); n > 0 && sameCut(rows[n-1], r) {
			rows[n-1][8].X++
			continue
		}
		rows = append(rows, append([]table.Value(nil), r...))
	}
	return rows
}

// sameCut reports whether two rows are of one item, from one board.
func sameCut(a, b []table.Value) bool {
	for i := range a {
		if i != 8 && a[i] != b[i] {
			return false
		}
	}
	return true
}

// listRows is how many rows one list of the document has at most, unless a single board has more: about a sheet of A3.
const listRows = 40

// list shares out boards and bars to the lists of the document. Those of the earlier issue stay on theirs, so that a list of which
// nothing has changed need not be printed again; new ones fill the last list and go on to further ones.
func (c *Cutting) list() {
	if c.opt.Since != nil {
		c.lists = c.opt.Since.Lists
	}
	rows := 0 // of the last list
	put := func(list *int, r [][]table.Value, kept bool) {
		n := len(merged(r))
		switch {
		case kept != (*list > 0):
			return
		case kept:
			if *list == c.lists {
				rows += n
			}
			return
		case c.lists == 0 || rows > 0 && rows+n > listRows:
			c.lists++
			rows = 0
		}
		*list = c.lists
		rows += n
	}
	for _, kept := range [2]bool{true, false} {
		for i := range c.Boards {
			put(&c.Boards[i].list, c.boardRows(&c.Boards[i]), kept)
		}
		for i := range c.Bars {
			put(&c.Bars[i].list, c.barRows(&c.Bars[i]), kept)
		}
	}
}

// pages are the cutting lists of the document by their numbers, nil for one of which nothing is left.
func (c *Cutting) pages() []*table.Table {
	out := make([]*table.Table, c.lists)
	add := func(list int, rows [][]table.Value) {
		if out[list-1] == nil {
			out[list-1] = c.cutTable()
		}
		out[list-1].Rows = append(out[list-1].Rows, merged(rows)...)
	}
	for i := range c.Boards {
		add(c.Boards[i].list, c.boardRows(&c.Boards[i]))
	}
	for i := range c.Bars {
		add(c.Bars[i].list, c.barRows(&c.Bars[i]))
	}
	return out
}
