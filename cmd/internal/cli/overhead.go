package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/solid"
	"markout/layout/unit"
	rtable "markout/render/table"
	"markout/tiling/sheet"
)

type overheadOptions struct {
	setOptions
	drawOptions
	format string
	form   bool
	full   bool
}

func newOverhead(a *app) *cobra.Command {
	o := &overheadOptions{}
	cmd := &cobra.Command{
		Use:   "overhead SET [ROOM]",
		Short: "Transfer table, plans, templates and tags of a room that is hung upside down",
		Long: `Say where each piece of a room comes to that is dressed the right way up and hung upside down: its place and
facing upright and overhead, its lowest point, the height that it leaves above the walking floor, its fixings,
its weight, by panel and in all with the centre of gravity; the least height along every walk and under every
piece, and every foothold. A weight that is not known makes every total an "at least".

The sheets have that table, the reflected plan and two sections, the marks to plumb up, templates as seen from
below and from above, tags to tie on and lists. --full-size lays the templates over pages at their own size,
--form prints the blank form on which a room is surveyed. With ROOM that room
alone; without it every room of the set.

All of it is information for a competent, licensed rigger or engineer under local codes, who decides.`,
		Example: `  markout overhead galley.markout
  markout overhead galley.markout --full-size --paper "roll 914"
  markout overhead galley.markout --form -o survey.pdf
  markout overhead galley.markout --format csv > overhead.csv`,
		Args: cobra.RangeArgs(1, 2),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.overhead(ctx, a, args) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	cmd.Flags().BoolVar(&o.form, "form", false, "the blank form on which a room is surveyed")
	cmd.Flags().BoolVar(&o.full, "full-size", false, "the fixing templates alone, over full-size pages")
	formatFlag(cmd, &o.format, "print the transfer table, or write pictures", "text", "csv", "json", "svg")
	return cmd
}

func (o *overheadOptions) overhead(ctx context.Context, a *app, args []string) error {
	if err := checkFormat(o.format, "text", "csv", "json", "svg"); err != nil {
		return err
	}
	if o.form && o.format != "" && o.format != "svg" {
		return refuse("--form with --format %s: the form is paper", o.format)
	}
	if o.full && (o.form || o.format != "" && o.format != "svg") {
		return refuse("--full-size is paper: without --form, and with no format but svg")
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
	case "text":
		return a.printed(overheadText(a, s, rooms))
	}
	if o.full {
		return o.fullSize(ctx, a, args[0], s, rooms)
	}
	command := "overhead"
	var book *sheet.Book
	if o.form {
		command = "survey"
		book, err = o.drawOptions.overheadForm(s, rooms)
	} else {
		book, err = o.drawOptions.overheadBook(s, rooms, rules.Check(s))
	}
	if err != nil {
		return err
	}
	pages := book.Document.Pages
	words := fmt.Sprintf("%s makes %s; `--format csv` writes the table alone.", s.Name, plural(pages, "page"))
	if err := a.confirm(pages, words, o.yes); err != nil {
		return err
	}
	wrote, err := a.writePages(ctx, book.Document, &o.drawOptions, args[0], command, o.format)
	if err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %s\n", wrote, plural(pages, "page"))
	if o.form {
		return nil
	}
	return a.printed(totalsText(a, s, rooms))
}

// fullSize writes the fixing templates over full-size pages.
func (o *overheadOptions) fullSize(ctx context.Context, a *app, file string, s *set.Set, rooms []*overhead.Room) error {
	plan, err := o.drawOptions.overheadFull(s, rooms)
	if err != nil {
		return err
	}
	if err := a.confirm(plan.Count(), plan.Words(), o.yes); err != nil {
		return err
	}
	wrote, err := a.writePages(ctx, plan.Document(), &o.drawOptions, file, "fixings", o.format)
	if err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %s\n%s\n%s\n", wrote, plan.Summary(), overhead.Note, caution.Defer)
	return nil
}

// overheadBook makes the sheets of rooms overhead.
func (o *drawOptions) overheadBook(s *set.Set, rooms []*overhead.Room, cautions []caution.Caution) (*sheet.Book, error) {
	opt, err := o.sheets(s)
	if err != nil {
		return nil, err
	}
	return sheet.Overhead(s, rooms, cautions, opt)
}

// overheadForm makes the blank survey form of rooms.
func (o *drawOptions) overheadForm(s *set.Set, rooms []*overhead.Room) (*sheet.Book, error) {
	opt, err := o.sheets(s)
	if err != nil {
		return nil, err
	}
	return sheet.OverheadForm(s, rooms, opt)
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
	out := overheadJSON{Set: s.Name, Pieces: []map[string]any{}, Note: overhead.Note}
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

// overheadText prints the transfer table, of each room the heights beneath it and its footholds, then the totals and the lists.
func overheadText(a *app, s *set.Set, rooms []*overhead.Room) error {
	if err := rtable.Text(a.Out, overhead.Table(s, rooms)); err != nil {
		return err
	}
	scene := solid.NewScene(s)
	for _, r := range rooms {
		for _, t := range sheet.OverheadWays(s, r, scene) {
			if _, err := fmt.Fprintln(a.Out); err != nil {
				return err
			}
			if err := rtable.Text(a.Out, t); err != nil {
				return err
			}
		}
	}
	return totalsText(a, s, rooms)
}

// totalsText prints of each room its totals, and lists what is to be looked out for.
func totalsText(a *app, s *set.Set, rooms []*overhead.Room) error {
	p := &printer{w: a.Out}
	for _, r := range rooms {
		p.printf("\n%s, %s, its floor at %s over a walking floor at %s\n", r.Element.Name, r.Shape.Turned,
			unit.FormatLength(r.Shape.Overhead, s.Units, 1), unit.FormatLength(r.Shape.Stand, s.Units, 1))
		for _, t := range sheet.OverheadTotals(s, r) {
			p.printf("    %-16s %s\n", t.Of, t.Says)
		}
		for _, l := range sheet.OverheadLists(s, r) {
			p.printf("    %s: %s\n", l.Of, l.Says)
		}
	}
	p.printf("\nTotals: %s%s\n%s\n%s\n", strings.ToLower(overhead.LeftOut[:1]), overhead.LeftOut[1:], overhead.Note, caution.Defer)
	return p.err
}
