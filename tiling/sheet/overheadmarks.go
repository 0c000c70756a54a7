package sheet

import (
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/table"
	"markout/layout/view"
)

// marksTable is the tape table of the overhead points on the walking floor: the place and the fixings of each piece, straight below
// where they come to, from the room's stations or, where it has fewer than two, from the hall's. The level of a row is the one that its
// mark is plumbed up to. Pieces stacked on one another have the marks of the first.
func marksTable(s *set.Set, r *overhead.Room) *table.Table {
	marked := &set.Set{Name: s.Name, Units: s.Units, Sides: s.Sides, Hall: s.Hall}
	if h := hallBelow(s, r); h != nil {
		marked.Hall = h
	}
	type stacked struct {
		first *overhead.Piece
		tags  string
	}
	up := map[string]stacked{}
	for _, g := range view.Stacks(r) {
		p := &r.Pieces[g[0]]
		points := append([]geom.Point{p.Overhead.T.Plan()}, p.Fixings...)
		name := view.StackName(r, g)
		up[name] = stacked{p, view.StackTags(r, g)}
		marked.Elements = append(marked.Elements, &set.Element{
			Name: name, Kind: "mark",
			// The empty path keeps a piece of one point in its place in the order, not first as a pin.
			Shape:  &set.Mark{Points: points, Paths: []*geom.Path{{}}},
			Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}}}},
		})
	}
	l := setout.Lay(marked)
	for i := range l.Rows {
		w := &l.Rows[i]
		if n, err := strconv.Atoi(w.Point[max(0, len(w.Point)-len(digits(w.Point))):]); err == nil && n > 1 {
			w.Point = "fixing " + strconv.Itoa(n-1)
		} else {
			w.Point = "place"
		}
	}
	for i := range l.Rows {
		for k := range l.Rows[i].Starts {
			if t := &l.Rows[i].Starts[k]; t.Row >= 0 {
				t.From = l.Rows[t.Row].Name()
			}
		}
	}
	t := l.Table()
	t.Title = r.Element.Name + ": marks to plumb up, on the walking floor"
	t.Head = []string{overhead.Note}
	t.Columns[4].Heading = "Plumb up to level"
	t.Columns[0].Heading = "Piece"
	t.Columns = slices.Insert(t.Columns, 1, textColumn("tag", "Tag"))
	for i := range t.Rows {
		p := up[t.Rows[i][0].Text]
		t.Rows[i][4] = table.N(p.first.Overhead.T.Z)
		t.Rows[i] = slices.Insert(slices.Clone(t.Rows[i]), 1, table.T(p.tags))
	}
	from := "the room's stations"
	if marked.Hall == s.Hall {
		from = "the hall's stations, plumbed up to it where it is higher than they are"
	}
	if !l.Measured() {
		t.Notes = []string{"There are no distances: they need two stations under the room (`station P -2000, 200`), or a hall with two. Each mark is plumbed up to its level."}
		return t
	}
	t.Notes = append([]string{
		"Mark the walking floor from " + from + ", tapes level on that floor, and plumb each mark up to its level: the surface that the piece is fixed to. A place is the piece's own 0,0, fixings are numbered as on its templates.",
	}, t.Notes[1:]...)
	return t
}

// digits returns the digits at the end of a text.
func digits(t string) string {
	n := len(t)
	for n > 0 && t[n-1] >= '0' && t[n-1] <= '9' {
		n--
	}
	return t[n:]
}

// hallBelow makes a hall of a room's walking floor with its stations; nil where it has fewer than two.
func hallBelow(s *set.Set, r *overhead.Room) *set.Element {
	if len(r.Shape.Stations) < 2 {
		return nil
	}
	h := &set.Hall{Outline: r.Shape.Outline, Stations: r.Shape.Stations, Class: 2}
	if own := hallOf(s); own != nil {
		h.TapeLong, h.Class = own.TapeLong, own.Class
	}
	return &set.Element{Name: r.Element.Name, Kind: "hall", Shape: h, Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: r.Frame}}}}}
}
