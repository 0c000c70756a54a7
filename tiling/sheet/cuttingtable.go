package sheet

import (
	"fmt"
	"strconv"

	"markout/layout/table"
	"markout/layout/takeoff"
	"markout/layout/unit"
)

// Table returns the contract's cutting table: one row a cut, in the order of work, boards by material and number, then bars, then
// the stock boxes under each block.
func (c *Cutting) Table() *table.Table {
	t := c.cuts()
	c.boxes(t)
	return t
}

// cuts is the table of what is cut: all but the stock boxes.
func (c *Cutting) cuts() *table.Table {
	t := c.cutTable()
	for i := range c.Boards {
		t.Rows = append(t.Rows, c.boardRows(&c.Boards[i])...)
	}
	for i := range c.Bars {
		t.Rows = append(t.Rows, c.barRows(&c.Bars[i])...)
	}
	return t
}

func (c *Cutting) cutTable() *table.Table {
	return c.table("cutting", "Cutting list", []table.Column{
		{Name: "item", Heading: "Item", Kind: table.Count}, {Name: "element", Heading: "Of"}, {Name: "piece", Heading: "Piece"},
		{Name: "material", Heading: "Material"}, {Name: "from", Heading: "From"},
		{Name: "length_mm", Heading: "Length", Kind: table.Length, Decimals: 1}, {Name: "width_mm", Heading: "Width", Kind: table.Length, Decimals: 1},
		{Name: "thickness_mm", Heading: "Thick", Kind: table.Length, Decimals: 1}, {Name: "count", Heading: "Count", Kind: table.Count},
		{Name: "note", Heading: "Note"},
	})
}

// boardRows are the rows of what is cut from a board.
func (c *Cutting) boardRows(b *CutBoard) (rows [][]table.Value) {
	name := c.set.Boards[b.Board].Name
	for _, k := range b.Cuts {
		rows = append(rows, cutRow(&c.Taken.Pieces[k.Piece], name, b.Number, b.Short))
	}
	return rows
}

func (c *Cutting) barRows(b *CutBar) (rows [][]table.Value) {
	name := c.set.Lengths[b.Bar].Name
	for _, k := range b.Cuts {
		rows = append(rows, cutRow(&c.Taken.Pieces[k.Piece], name, b.Number, b.Short))
	}
	return rows
}

// cutRow is the row of a piece that is cut from a board or bar with a number.
func cutRow(p *takeoff.Piece, material string, number int, short bool) []table.Value {
	note := p.Note
	if short {
		note = joinedWords(note, "not in hand")
	}
	if p.Outline != nil {
		note = joinedWords(note, "cut to its outline")
	}
	return []table.Value{table.N(float64(p.Item)), table.T(p.Element), table.T(p.Name), table.T(material), table.T(from(material, number)),
		table.N(p.Length), table.N(p.Width), table.N(p.Thickness), table.N(1), table.T(note)}
}

func from(name string, number int) string { return name + "/" + strconv.Itoa(number) }

// boxes adds the stock boxes, each a row: what stands under each block, from the floor up.
func (c *Cutting) boxes(t *table.Table) {
	if c.Blocks == nil {
		return
	}
	used := make([]int, len(c.set.Stock))
	for i, b := range c.Blocks.Tops {
		top := &c.Taken.Tops[b.Top]
		item := c.topItems[i]
		for range b.Count {
			nth := 0
			for k, l := range b.Layers {
				for range l.AlongLength * l.AlongWidth {
					nth++
					used[l.Box]++
					note := "layer " + strconv.Itoa(k+1) + " of " + strconv.Itoa(len(b.Layers))
					if n := c.set.Stock[l.Box].Count; n > 0 && used[l.Box] > n {
						note += "; not in hand"
					}
					t.Rows = append(t.Rows, []table.Value{table.N(float64(item)), table.T(top.Element),
						table.T(top.Name + " box " + strconv.Itoa(nth) + " of " + strconv.Itoa(b.Boxes)), table.T(l.Name), table.T(from(l.Name, used[l.Box])),
						table.N(l.Length), table.N(l.Width), table.N(l.Height), table.N(1), table.T(note)})
				}
			}
		}
	}
}

// Stacks returns the table of blocks on stock boxes, a row a layer from the floor up and one for the packing, nil where there
// are none.
func (c *Cutting) Stacks() *table.Table {
	if c.Blocks == nil {
		return nil
	}
	t := c.table("blocks", "Blocks from stock, layer by layer from the floor up", []table.Column{
		{Name: "element", Heading: "Of"}, {Name: "block", Heading: "Block"}, {Name: "count", Heading: "Blocks", Kind: table.Count},
		{Name: "top_across_mm", Heading: "Top across", Kind: table.Length, Decimals: 1}, {Name: "top_along_mm", Heading: "Top along", Kind: table.Length, Decimals: 1},
		{Name: "carried_at_mm", Heading: "Carried at", Kind: table.Length, Decimals: 1}, {Name: "layer", Heading: "Layer"},
		{Name: "across", Heading: "Boxes across", Kind: table.Count}, {Name: "along", Heading: "Boxes along", Kind: table.Count}, {Name: "box", Heading: "Each"},
		{Name: "height_mm", Heading: "High", Kind: table.Length, Decimals: 1},
		{Name: "gap_across_mm", Heading: "Gaps across", Kind: table.Length, Decimals: 1}, {Name: "gap_along_mm", Heading: "Gaps along", Kind: table.Length, Decimals: 1},
		{Name: "left_mm", Heading: "Left", Kind: table.Length, Decimals: 1},
	})
	for _, b := range c.Blocks.Tops {
		top := &c.Taken.Tops[b.Top]
		head := []table.Value{table.T(top.Element), table.T(top.Name), table.N(float64(b.Count)), table.N(top.Length), table.N(top.Width), table.N(top.Height)}
		row := func(rest ...table.Value) {
			t.Rows = append(t.Rows, append(head[:len(head):len(head)], rest...))
			head = []table.Value{table.T(top.Element), table.T(top.Name), table.Blank, table.Blank, table.Blank, table.Blank}
		}
		for k, l := range b.Layers {
			row(table.T(strconv.Itoa(k+1)), table.N(float64(l.AlongLength)), table.N(float64(l.AlongWidth)), table.T(l.Name), table.N(l.Height),
				known(l.GapLength), known(l.GapWidth), table.Blank)
		}
		if b.Packing <= 0.05 {
			continue
		}
		plates := ""
		for _, p := range b.Plates {
			if plates != "" {
				plates += " + "
			}
			plates += c.length(p)
		}
		switch {
		case b.Bare:
			plates = joinedWords(plates, "no stack of these boxes comes nearer")
		case plates == "":
			plates = "none of the boards"
		}
		row(table.T("packing"), table.Blank, table.Blank, table.T(plates), table.N(b.Packing), table.Blank, table.Blank, known(b.Left))
	}
	for i, n := range c.Blocks.Used {
		if n == 0 {
			continue
		}
		line := fmt.Sprintf("%s: %d wanted", c.boxName(i), n)
		if have := c.set.Stock[i].Count; have > 0 {
			line += fmt.Sprintf(", %d in hand", have)
		}
		if s := c.Blocks.Short[i]; s > 0 {
			line += fmt.Sprintf(", %d short", s)
		}
		t.Notes = append(t.Notes, line+".")
	}
	for _, a := range c.Blocks.Assumed {
		t.Notes = append(t.Notes, "Taken for granted: "+a+".")
	}
	return t
}

// Unsaid returns the pieces that have no material, nil where all have.
func (c *Cutting) Unsaid() *table.Table {
	if len(c.Taken.Loose) == 0 {
		return nil
	}
	t := c.table("no_material", "No material given", []table.Column{
		{Name: "element", Heading: "Of"}, {Name: "piece", Heading: "Piece"},
		{Name: "length_mm", Heading: "Length", Kind: table.Length, Decimals: 1}, {Name: "width_mm", Heading: "Width", Kind: table.Length, Decimals: 1},
		{Name: "thickness_mm", Heading: "Thick", Kind: table.Length, Decimals: 1}, {Name: "count", Heading: "Count", Kind: table.Count},
		{Name: "note", Heading: "Note"},
	})
	for _, l := range c.Taken.Loose {
		t.Rows = append(t.Rows, []table.Value{table.T(l.Element), table.T(l.Name), known(l.Length), known(l.Width), known(l.Thickness),
			table.N(float64(l.Count)), table.T(l.Note)})
	}
	t.Notes = []string{"`of` says what a piece is cut from; what has none is cut from nothing here."}
	return t
}

// known is a size that is not 0.
func known(mm float64) table.Value {
	if mm <= 0 {
		return table.Blank
	}
	return table.N(mm)
}

// NotTaken returns what was not taken off, nil where everything was.
func (c *Cutting) NotTaken() *table.Table {
	if len(c.Taken.Missing) == 0 {
		return nil
	}
	t := c.table("not_taken_off", "Not taken off", []table.Column{
		{Name: "element", Heading: "Of"}, {Name: "what", Heading: "What"}, {Name: "why", Heading: "Why"},
	})
	for _, m := range c.Taken.Missing {
		t.Rows = append(t.Rows, []table.Value{table.T(m.Element), table.T(m.What), table.T(m.Why)})
	}
	return t
}

func (c *Cutting) table(name, title string, columns []table.Column) *table.Table {
	for i := range columns {
		if columns[i].Kind == table.Length {
			columns[i].Step = 0.1 // in feet and inches that is to 1/64"
		}
	}
	return &table.Table{Name: name, Title: title, Columns: columns, Feet: c.set.Units.Imperial()}
}

// kilograms prints a weight as people of the set read it.
func (c *Cutting) kilograms(kg float64) string { return unit.FormatWeight(kg, c.set.Units, 0.1) }
