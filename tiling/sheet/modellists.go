package sheet

import (
	"fmt"
	"math"
	"strings"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/layout/unit"
)

// jointList lists the joints of each element in the order of making. Copies are made alike, so that the first serves for all.
func (c *CardModel) jointList() *table.Table {
	t := &table.Table{Name: "joints", Title: "Joints in order of making", Columns: []table.Column{
		{Name: "element", Heading: "Element"}, {Name: "joint", Heading: "Joint"},
		{Name: "first", Heading: "Piece", Trade: true}, {Name: "first_edge", Heading: "Its edge, as drawn", Trade: true},
		{Name: "second", Heading: "To piece", Trade: true}, {Name: "second_edge", Heading: "Its edge, as drawn", Trade: true},
	}}
	copies, first := c.copies()
	for i := range c.Model.Joints {
		j := &c.Model.Joints[i]
		name := baseName(j.Element)
		if first[name] != j.Element {
			continue
		}
		said := name
		if n := copies[name]; n > 1 {
			said = fmt.Sprintf("%s, %d alike", name, n)
		}
		t.Rows = append(t.Rows, []table.Value{
			table.T(said), table.T(j.Label()),
			table.T(c.pieceWords(j.A.Piece)), table.T(c.edgeWords(j, &j.A, &j.B)),
			table.T(c.pieceWords(j.B.Piece)), table.T(c.edgeWords(j, &j.B, &j.A)),
		})
	}
	return t
}

func baseName(copyName string) string {
	n, _, _ := strings.Cut(copyName, ".")
	return n
}

// copies counts the copies of each element that has pieces, and names the first.
func (c *CardModel) copies() (count map[string]int, first map[string]string) {
	count, first = map[string]int{}, map[string]string{}
	last := ""
	for i := range c.Model.Pieces {
		e := c.Model.Pieces[i].Element
		if e == last {
			continue
		}
		last = e
		n := baseName(e)
		if first[n] == "" {
			first[n] = e
		}
		count[n]++
	}
	return count, first
}

func (c *CardModel) pieceWords(i int) string {
	p := &c.Model.Pieces[i]
	return fmt.Sprintf("%d/%d %s", p.Number, p.Of, p.Name)
}

// edgeWords says which edge of its piece a joint's side is, as the piece is drawn unturned, and how it is prepared. other is the
// joint's other side.
func (c *CardModel) edgeWords(j *develop.Joint, s, other *develop.Side) string {
	p := &c.Model.Pieces[s.Piece]
	i := edgeAt(p, s.Line)
	where := whereOn(p, s.Line)
	if i < 0 {
		if how := c.unedged(p, j, other); how != "" {
			if where == "" && how == develop.Captive {
				where = "an edge"
			}
			_, words := treatmentWords(how)
			return strings.TrimPrefix(where+": "+words, ": ")
		}
		if where == "" {
			return "on its face"
		}
		return "on its face, along the " + where
	}
	e := &p.Edges[i]
	if where == "" {
		where = "an edge"
	}
	_, words := treatmentWords(e.Treatment)
	if e.Bevel >= leastBevel {
		words += ", bevel " + bevelWords(e.Bevel)
	}
	return where + ": " + words
}

// whereOn names the side of a piece's box that a line lies along; empty where it lies along none.
func whereOn(p *develop.Piece, line []geom.Point) string {
	b := p.Outline.Bounds()
	reach := p.Thickness + 0.1
	lo, hi := line[0], line[0]
	for _, q := range line {
		lo = geom.Point{X: math.Min(lo.X, q.X), Y: math.Min(lo.Y, q.Y)}
		hi = geom.Point{X: math.Max(hi.X, q.X), Y: math.Max(hi.Y, q.Y)}
	}
	upright, level := hi.X-lo.X < 0.1 && hi.Y-lo.Y > 0.1, hi.Y-lo.Y < 0.1 && hi.X-lo.X > 0.1
	switch {
	case upright && lo.X <= b.Min.X+reach && lo.X-b.Min.X <= b.Max.X-lo.X:
		return "left edge"
	case upright && lo.X >= b.Max.X-reach:
		return "right edge"
	case level && lo.Y <= b.Min.Y+reach && lo.Y-b.Min.Y <= b.Max.Y-lo.Y:
		return "lower edge"
	case level && lo.Y >= b.Max.Y-reach:
		return "upper edge"
	}
	return ""
}

// rodList lists the posts that are rods, at the model's size and in full.
func (c *CardModel) rodList() *table.Table {
	feet := c.set.Units.Imperial()
	t := &table.Table{Name: "rods", Title: "Rods", Feet: feet}
	model := func(name, heading string) table.Column {
		return table.Column{Name: name, Heading: heading, Kind: table.Length, Decimals: 2, Step: 0.1}
	}
	full := func(name, heading string) table.Column {
		return table.Column{Name: name, Heading: heading, Kind: table.Length, Decimals: 1, Step: 1}
	}
	t.Columns = []table.Column{
		{Name: "element", Heading: "Element"}, {Name: "count", Heading: "How many", Kind: table.Count}, {Name: "section", Heading: "Section"},
		model("diameter", "Across, in the model"), model("length", "Length, in the model"),
		full("full_diameter", "Across, full size"), full("full_length", "Length, full size"), {Name: "foot", Heading: "Its foot"},
	}
	for i := range t.Columns {
		if feet && t.Columns[i].Kind == table.Length && i < 5 {
			t.Columns[i].Kind = table.Text
		}
	}
	type kind struct {
		name, section string
		d, l          float64
		hole          bool
		piece         string
	}
	var order []kind
	count := map[kind]int{}
	for _, r := range c.Model.Rods {
		k := kind{baseName(r.Element), r.Section, r.Diameter, r.Length, r.Hole, r.Piece}
		if count[k]++; count[k] == 1 {
			order = append(order, k)
		}
	}
	small := func(x float64) table.Value {
		if feet {
			return table.T(inches(x))
		}
		return table.N(x)
	}
	for _, k := range order {
		foot := "glued on"
		switch {
		case k.hole:
			foot = "in a hole of the base sheet; length without what is in it"
		case k.piece != "":
			foot = "in a hole of " + k.piece + "; length without what is in it"
		}
		t.Rows = append(t.Rows, []table.Value{
			table.T(k.name), table.N(float64(count[k])), table.T(k.section), small(k.d), small(k.l),
			table.N(k.d * c.Model.Scale), table.N(k.l * c.Model.Scale), table.T(foot),
		})
	}
	return t
}

// smallList lists what is too small to cut at this scale.
func (c *CardModel) smallList() *table.Table {
	t := &table.Table{Name: "left out", Title: "Too small to cut, left out", Columns: []table.Column{
		{Name: "element", Heading: "Element"}, {Name: "what", Heading: "What", Trade: true},
		{Name: "size", Heading: "Its size here (mm)", Decimals: 2}, {Name: "full", Heading: "Full size"},
	}}
	for _, x := range c.Model.Small {
		t.Rows = append(t.Rows, []table.Value{
			table.T(x.Element), table.T(x.What), table.T(unit.FormatNumber(x.Size, 0.01)),
			table.T(unit.FormatMeasure(x.Size*c.Model.Scale, c.set.Units, 0.1)),
		})
	}
	return t
}

func trimmed(x float64) string { return unit.FormatNumber(x, 0.1) }

func round6(x float64) float64 { return math.Round(x*1e6) / 1e6 }
