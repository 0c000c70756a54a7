package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
	rtable "markout/render/table"
)

type overheadOptions struct {
	setOptions
	format string
}

func newOverhead(a *app) *cobra.Command {
	o := &overheadOptions{}
	cmd := &cobra.Command{
		Use:   "overhead SET [ROOM]",
		Short: "Transfer table of a room that is hung upside down",
		Long: `Say where each piece of a room comes to that is dressed the right way up and hung upside down: its place and facing
upright and overhead, its lowest point, the height that it leaves above the walking floor, its fixings, its weight, by
panel and in all with the centre of gravity. A weight that is not known makes every total an "at least". All of it is
information for a competent, licensed rigger or engineer under local codes, who decides.`,
		Example: `  markout overhead galley.markout
  markout overhead galley.markout --format csv > overhead.csv`,
		Args: cobra.RangeArgs(1, 2),
		RunE: a.run(func(_ context.Context, args []string) error { return o.overhead(a, args) }),
	}
	o.setOptions.add(cmd)
	formatFlag(cmd, &o.format, "how to print", "text", "csv", "json")
	return cmd
}

func (o *overheadOptions) overhead(a *app, args []string) error {
	if err := checkFormat(o.format, "text", "csv", "json"); err != nil {
		return err
	}
	s, err := o.setOptions.open(a, args[0])
	if err != nil {
		return err
	}
	rooms, err := roomsAsked(s, args[1:])
	if err != nil {
		return err
	}
	switch o.format {
	case "csv":
		return a.printed(rtable.CSV(a.Out, overhead.Table(s, rooms)))
	case "json":
		return a.printJSON(overheadAsJSON(s, rooms))
	}
	return a.printed(overheadText(a, s, rooms))
}

// roomsAsked are the rooms overhead that are asked for, all of them where none is.
func roomsAsked(s *set.Set, names []string) ([]*overhead.Room, error) {
	rooms := overhead.Rooms(s)
	if len(rooms) == 0 {
		return nil, fmt.Errorf("%s: no room hangs overhead; write `overhead 4900 turned lengthways` under a room", s.Name)
	}
	if len(names) == 0 {
		return rooms, nil
	}
	var known []string
	for _, r := range rooms {
		if r.Element.Name == names[0] {
			return []*overhead.Room{r}, nil
		}
		known = append(known, r.Element.Name)
	}
	return nil, refuse("%s is no room that hangs overhead; what is: %s", names[0], strings.Join(known, ", "))
}

// The JSON of overhead: the rows of the table, and totals by panel and in all.
type (
	overheadJSON struct {
		Set    string           `json:"set"`
		Pieces []map[string]any `json:"pieces"`
		Rooms  []roomJSON       `json:"rooms"`
		Note   string           `json:"note"`
	}
	roomJSON struct {
		Room   string               `json:"room"`
		Turned string               `json:"turned"`
		Panels map[string]totalJSON `json:"panels"`
		All    totalJSON            `json:"all"`
	}
	totalJSON struct {
		Weight     float64    `json:"weight_kg"`
		AtLeast    bool       `json:"at_least"`
		NotWeighed []string   `json:"not_weighed"`
		Centre     [2]float64 `json:"centre_mm"`
	}
)

func overheadAsJSON(s *set.Set, rooms []*overhead.Room) overheadJSON {
	out := overheadJSON{Set: s.Name, Pieces: []map[string]any{}, Note: overheadNote}
	t := overhead.Table(s, rooms)
	for _, row := range t.Rows {
		m := map[string]any{}
		for _, i := range t.ForPrograms() {
			c, v := t.Columns[i], row[i]
			switch {
			case !v.Set:
				m[c.Name] = nil
			case v.Text != "":
				m[c.Name] = v.Text
			default:
				m[c.Name] = unit.Round(v.X, 0.001)
			}
		}
		out.Pieces = append(out.Pieces, m)
	}
	for _, r := range rooms {
		j := roomJSON{Room: r.Element.Name, Turned: r.Shape.Turned.String(), Panels: map[string]totalJSON{}, All: totalAsJSON(&r.All)}
		for i := range r.Panels {
			j.Panels[r.Panels[i].Panel] = totalAsJSON(&r.Panels[i])
		}
		out.Rooms = append(out.Rooms, j)
	}
	return out
}

func totalAsJSON(t *overhead.Total) totalJSON {
	return totalJSON{
		Weight: unit.Round(t.Weight, 0.001), AtLeast: t.AtLeast(), NotWeighed: append([]string{}, t.NotKnown...),
		Centre: [2]float64{unit.Round(t.Centre.X, 0.1), unit.Round(t.Centre.Y, 0.1)},
	}
}

// overheadNote stands with every table of what hangs.
const overheadNote = "Weights, places and headroom are information for a competent, licensed rigger or engineer under local codes, who decides."

func overheadText(a *app, s *set.Set, rooms []*overhead.Room) error {
	if err := rtable.Text(a.Out, overhead.Table(s, rooms)); err != nil {
		return err
	}
	p := &printer{w: a.Out}
	sides := s.SideNames()
	place := &table.Table{Sides: sides, Feet: s.Units.Imperial()}
	at := func(t *overhead.Total) string {
		x := place.ForPeople(table.Column{Kind: table.X, Step: 1}, table.N(t.Centre.X))
		y := place.ForPeople(table.Column{Kind: table.Y, Step: 1}, table.N(t.Centre.Y))
		return x + "  " + y
	}
	total := func(name string, t *overhead.Total) {
		words := unit.FormatNumber(t.Weight, 0.1) + " kg"
		if t.AtLeast() {
			words = "at least " + words + "; " + plural(len(t.NotKnown), "piece") + " not weighed: " + strings.Join(t.NotKnown, ", ")
		}
		p.printf("    %-16s %s", name, words)
		if t.Weight > 0 {
			p.printf(", centre of gravity at %s", at(t))
		}
		p.printf("\n")
	}
	for _, r := range rooms {
		p.printf("\n%s, %s, its floor at %s over a walking floor at %s\n", r.Element.Name, r.Shape.Turned,
			unit.FormatLength(r.Shape.Overhead, s.Units, 1), unit.FormatLength(r.Shape.Stand, s.Units, 1))
		for i := range r.Panels {
			name := r.Panels[i].Panel
			if name == "" {
				name = "on no panel"
			}
			total(name, &r.Panels[i])
		}
		total("in all", &r.All)
		list := func(what string, is func(*overhead.Piece) bool) {
			var names []string
			for i := range r.Pieces {
				if is(&r.Pieces[i]) {
					names = append(names, r.Pieces[i].Name)
				}
			}
			if len(names) > 0 {
				p.printf("    %-16s %s\n", what, strings.Join(names, ", "))
			}
		}
		list("loose", func(q *overhead.Piece) bool { return q.Loose })
		list("soft", func(q *overhead.Piece) bool { return q.Soft })
		list("opposite-handed", func(q *overhead.Piece) bool { return q.Opposite })
		list("too low", func(q *overhead.Piece) bool { return r.Shape.Headroom > 0 && q.Headroom < r.Shape.Headroom-0.05 })
	}
	p.printf("\n%s\n%s\n", overheadNote, caution.Defer)
	return p.err
}
