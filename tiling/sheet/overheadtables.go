package sheet

import (
	"math"
	"slices"
	"strings"

	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
)

// lay lays a table of a room overhead and binds its sheets.
func (o *overheadBook) lay(t *table.Table, label, kind string) error {
	laid, err := layTable(t, false, o.frames)
	if err != nil {
		return err
	}
	o.table(label, kind, laid)
	return nil
}

// overheadTable is an empty table of a room with the sentence that says who decides above it.
func overheadTable(s *set.Set, r *overhead.Room, name, title string, columns ...table.Column) *table.Table {
	return &table.Table{
		Name: name, Title: r.Element.Name + ": " + title, Sides: s.SideNames(), Feet: s.Units.Imperial(), Columns: columns, Head: []string{overhead.Note},
	}
}

// only is a table with some of the columns of another, in that order.
func only(t *table.Table, title string, names ...string) *table.Table {
	out := *t
	out.Name, out.Title, out.Columns, out.Rows = t.Name+" "+title, t.Title+", "+title, nil, make([][]table.Value, len(t.Rows))
	for _, n := range names {
		k := slices.IndexFunc(t.Columns, func(c table.Column) bool { return c.Name == n })
		out.Columns = append(out.Columns, t.Columns[k])
		for i, row := range t.Rows {
			out.Rows[i] = append(out.Rows[i], row[k])
		}
	}
	return &out
}

func textColumn(name, heading string) table.Column { return table.Column{Name: name, Heading: heading} }

func mmColumn(name, heading string, k table.Kind) table.Column {
	return table.Column{Name: name, Heading: heading, Kind: k, Step: 1}
}

func weightColumn(name, heading string) table.Column {
	return table.Column{Name: name, Heading: heading, Kind: table.Weight, Step: 0.01}
}

// count is a cell with a whole number; blank for 0.
func count(n int) table.Value {
	if n == 0 {
		return table.Blank
	}
	return table.N(float64(n))
}

// weighed returns the cells of a weight and of how well it is known.
func weighed(p *overhead.Piece) (kg, is table.Value) {
	switch p.Is {
	case set.Unknown:
		return table.Blank, table.T("not weighed")
	case set.About:
		return table.N(p.Weight), table.T("about")
	}
	return table.N(p.Weight), table.T("measured")
}

// transferTable is the transfer of a room, a row a piece: where it was dressed and where it hangs.
func transferTable(s *set.Set, r *overhead.Room) *table.Table {
	t := overheadTable(s, r, "transfer", "transfer table, "+r.Shape.Turned.String(),
		table.Column{Name: "tag", Heading: "Tag", Kind: table.Count}, textColumn("piece", "Piece"),
		weightColumn("weight", "Weight"),
		mmColumn("xu", "Upright L or R", table.X), mmColumn("yu", "Upright U or D", table.Y),
		mmColumn("zu", "Upright over floor", table.Level), textColumn("fu", "Upright front looks"),
		mmColumn("xo", "OVERHEAD L or R", table.X), mmColumn("yo", "OVERHEAD U or D", table.Y),
		mmColumn("zo", "OVERHEAD fixed at", table.Level), textColumn("fo", "OVERHEAD front looks"),
		mmColumn("low", "Lowest level", table.Level), mmColumn("head", "Headroom", table.Level),
		textColumn("panel", "Panel"), textColumn("on", "Fixed to"), textColumn("says", "Look out"))
	for i := range r.Pieces {
		p := &r.Pieces[i]
		kg, _ := weighed(p)
		up, over := p.Upright.T, p.Overhead.T
		t.Rows = append(t.Rows, []table.Value{
			count(p.Tag), table.T(p.Name), kg,
			table.N(up.X), table.N(up.Y), table.N(up.Z - r.Frame.T.Z), table.T(looksBriefly(s, overhead.Facing(p.Upright))),
			table.N(over.X), table.N(over.Y), table.N(over.Z), table.T(looksBriefly(s, overhead.Facing(p.Overhead))),
			table.N(p.Lowest), table.N(p.Headroom), table.T(p.Panel), table.T(fixedTo(r, p)), table.T(warned(r, p)),
		})
	}
	t.Notes = []string{
		turnWords(s, r),
		"L and R: from the centre line; U and D: from the setting line. Upstage 20° L: 20° from upstage towards the side L. Headroom: from the walking floor to the lowest point.",
		"Places are those of a piece's own 0,0: the middle of a plain outline. Levels are over the set's 0. A weight that is blank is not known: weigh the piece. Fixed to the floor: to the room's own, overhead; not said: the file has it over that floor and on no other piece, such as on a wall.",
	}
	return t
}

// fixedTo names what a piece is fixed to; the file does not say it of one that is over the room's floor and on no other piece.
func fixedTo(r *overhead.Room, p *overhead.Piece) string {
	switch {
	case p.On >= 0:
		return r.Pieces[p.On].Name
	case p.Upright.T.Z > r.Frame.T.Z+0.5:
		return "not said"
	}
	return "floor"
}

// warned says in words what is to be looked out for in a piece.
func warned(r *overhead.Room, p *overhead.Piece) string {
	var out []string
	for _, w := range []struct {
		is  bool
		say string
	}{
		{p.Is == set.Unknown, "not weighed"}, {p.Is == set.About, "weight only estimated"}, {p.Loose, "loose"}, {p.Soft, "soft"}, {p.Opposite, "opposite-handed"},
		{tooLow(r, p), "below the headroom wanted"}, {p.Headroom <= reachOf(r), "within reach"},
		{len(p.Crosses) > 0, "crosses into " + strings.Join(p.Crosses, ", ")},
	} {
		if w.is {
			out = append(out, w.say)
		}
	}
	return strings.Join(out, ", ")
}

func tooLow(r *overhead.Room, p *overhead.Piece) bool {
	return r.Shape.Headroom > 0 && p.Headroom < r.Shape.Headroom-0.05
}

// looks says in words which way a direction on the plan is: upstage, 20° from upstage to stage left.
func looks(s *set.Set, deg float64) string {
	near, off, to := quarters(s, deg)
	if off == "" {
		return near.word
	}
	return off + "° from " + near.word + " to " + to.word
}

// looksBriefly says the same for a narrow column: upstage 20° L.
func looksBriefly(s *set.Set, deg float64) string {
	near, off, to := quarters(s, deg)
	if off == "" {
		return near.word
	}
	return near.word + " " + off + "° " + to.letter
}

// side is one of the four sides of the plan.
type side struct{ word, letter string }

// quarters returns the side of the plan that a direction is nearest to, how many degrees it is off that, and the side that it is off to;
// no degrees where it is not off.
func quarters(s *set.Set, deg float64) (near side, off string, to side) {
	sides := s.SideNames()
	ways := [4]side{{strings.ToLower(sides.PlusWord), sides.Plus}, {"upstage", "U"}, {strings.ToLower(sides.MinusWord), sides.Minus}, {"downstage", "D"}}
	k := int(math.Round(deg/90)) % 4
	near = ways[k]
	switch by := unit.Round(deg-90*math.Round(deg/90), 0.1); {
	case by > 0:
		return near, unit.FormatNumber(by, 0.1), ways[(k+1)%4]
	case by < 0:
		return near, unit.FormatNumber(-by, 0.1), ways[(k+3)%4]
	}
	return near, "", side{}
}

// toFill is a cell to write in by hand.
const toFill = "_____________"

// fixingTable is the list to fix by, a row a piece: what it carries, its fixings, and cells to fill in by hand.
func fixingTable(s *set.Set, r *overhead.Room) *table.Table {
	t := overheadTable(s, r, "fixing", "fixing list",
		table.Column{Name: "tag", Heading: "Tag", Kind: table.Count}, textColumn("piece", "Piece"),
		weightColumn("weight", "Weight"), textColumn("is", "Weight is"), weightColumn("load", "Load"), textColumn("least", "Load is"),
		table.Column{Name: "fixings", Heading: "Fixings", Kind: table.Count}, table.Column{Name: "each", Heading: "If shared equally", Kind: table.Weight, Step: 0.1}, textColumn("panel", "Panel"),
		textColumn("by", "Fixed by"), textColumn("second", "Second line"), textColumn("checked", "Checked"), textColumn("date", "Date"))
	for i := range r.Pieces {
		p := &r.Pieces[i]
		kg, is := weighed(p)
		load, least, each := table.N(p.Load), table.Blank, table.Blank
		switch {
		case !p.LoadKnown && p.Load == 0:
			load, least = table.Blank, table.T("not known")
		case !p.LoadKnown:
			least = table.T("at least")
		case p.LoadAbout:
			least = table.T("about")
		}
		if share, ok := p.Shared(); ok {
			each = table.N(share)
		}
		fill := table.T(toFill)
		t.Rows = append(t.Rows, []table.Value{
			count(p.Tag), table.T(p.Name), kg, is, load, least, count(p.Count), each, table.T(p.Panel), fill, fill, fill, fill,
		})
	}
	t.Notes = []string{
		"Load: the weight of the piece with all that is fixed to it. If shared equally: the load divided by the fixings. Fixings hardly ever share equally. It is left out where a weight or the places are not known, or where the centre of gravity lies outside the fixings.",
		"A weight is taken to act in the middle of the piece's outline.",
	}
	return t
}

// totalsTable is the weights by panel and in all with their centres of gravity.
func totalsTable(s *set.Set, r *overhead.Room) *table.Table {
	t := overheadTable(s, r, "totals", "weights and centres of gravity",
		textColumn("of", "Of"), table.Column{Name: "pieces", Heading: "Pieces", Kind: table.Count}, textColumn("least", "Weight is"), weightColumn("weight", "Weight"),
		textColumn("unknown", "Not weighed"), textColumn("about", "Only estimated"),
		textColumn("at", "Centre of gravity"))
	add := func(of string, q *overhead.Total) {
		least, at := "in all", table.Blank
		if q.AtLeast() {
			least = "at least"
		}
		if q.Weight > 0 {
			at = table.T(centreWords(s, q.Centre))
		}
		t.Rows = append(t.Rows, []table.Value{table.T(of), count(q.Pieces), table.T(least), table.N(q.Weight), table.T(few(q.NotKnown)), table.T(few(q.Estimated)), at})
	}
	for i := range r.Panels {
		add(panelName(&r.Panels[i]), &r.Panels[i])
	}
	add("the whole room", &r.All)
	t.Notes = []string{"What is not weighed is not in the weight, nor in the centre of gravity. " + overhead.LeftOut}
	return t
}
