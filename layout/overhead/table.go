package overhead

import (
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
)

// Table returns the transfer table of rooms: the columns of overhead.csv, one row a piece, and for people what carries what.
func Table(s *set.Set, rooms []*Room) *table.Table {
	t := &table.Table{
		Name: "overhead", Title: s.Name + ": transfer table", Sides: s.SideNames(), Feet: s.Units.Imperial(),
		Columns: columns(),
	}
	for _, r := range rooms {
		for i := range r.Pieces {
			t.Rows = append(t.Rows, r.row(&r.Pieces[i], len(t.Columns)))
		}
	}
	return t
}

func columns() []table.Column {
	mm := func(name, heading string, k table.Kind) table.Column {
		return table.Column{Name: name, Heading: heading, Kind: k, Decimals: 1, Step: 1}
	}
	return []table.Column{
		{Name: "piece", Heading: "Piece"},
		{Name: "tag", Heading: "Tag", Kind: table.Count},
		{Name: "weight_kg", Heading: "Weight", Kind: table.Weight, Decimals: 3, Step: 0.1},
		{Name: "weight_is", Heading: "Weight is"},
		mm("x_upright_mm", "Upright from centre line", table.X),
		mm("y_upright_mm", "Upright from setting line", table.Y),
		mm("z_upright_mm", "Upright above its floor", table.Level),
		{Name: "facing_upright_deg", Heading: "Upright facing", Kind: table.Angle, Decimals: 2, Step: 1},
		{Name: "x_overhead_mm", Heading: "Overhead from centre line", Kind: table.X, Decimals: 1, Step: 1, Break: true},
		mm("y_overhead_mm", "Overhead from setting line", table.Y),
		mm("z_overhead_mm", "Overhead level", table.Level),
		{Name: "facing_overhead_deg", Heading: "Overhead facing", Kind: table.Angle, Decimals: 2, Step: 1},
		mm("lowest_mm", "Lowest", table.Level),
		mm("headroom_mm", "Headroom", table.Level),
		{Name: "fixings", Heading: "Fixings", Break: true},
		{Name: "panel", Heading: "Panel"},
		{Name: "loose", Heading: "Loose", Kind: table.Flag},
		{Name: "soft", Heading: "Soft", Kind: table.Flag},
		{Name: "opposite_handed", Heading: "Opposite-handed", Kind: table.Flag},
		{Name: "on", Heading: "Fixed to", PeopleOnly: true},
	}
}

func (r *Room) row(p *Piece, n int) []table.Value {
	yes := func(b bool) table.Value {
		if b {
			return table.T("yes")
		}
		return table.Blank
	}
	up, over := p.Upright.T, p.Overhead.T
	row := append(make([]table.Value, 0, n), table.T(p.Name), table.Blank, table.Blank, table.T(p.Is.String()),
		table.N(up.X), table.N(up.Y), table.N(up.Z), table.N(Facing(p.Upright)),
		table.N(over.X), table.N(over.Y), table.N(over.Z), table.N(Facing(p.Overhead)),
		table.N(p.Lowest), table.N(p.Headroom), table.T(fixings(p)), table.T(p.Panel),
		yes(p.Loose), yes(p.Soft), yes(p.Opposite), table.Blank)
	if p.Tag > 0 {
		row[1] = table.N(float64(p.Tag))
	}
	if p.Is != set.Unknown {
		row[2] = table.N(p.Weight)
	}
	if p.On >= 0 {
		row[n-1] = table.T(r.Pieces[p.On].Name)
	}
	return row
}

// fixings writes the overhead places `x,y x,y …`, or the count where no places are given; empty where nothing is.
func fixings(p *Piece) string {
	if len(p.Fixings) == 0 {
		if p.Count == 0 {
			return ""
		}
		return strconv.Itoa(p.Count)
	}
	places := make([]string, len(p.Fixings))
	for i, f := range p.Fixings {
		places[i] = place(f)
	}
	return strings.Join(places, " ")
}

func place(p geom.Point) string {
	return string(unit.AppendNumber(append(unit.AppendNumber(nil, p.X, 0.1), ','), p.Y, 0.1))
}
