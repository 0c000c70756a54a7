package cli

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/diag"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/table"
	"markout/layout/unit"
	rtable "markout/render/table"
)

type checkOptions struct {
	setOptions
	format string
	margin string
	tries  []string
}

func newCheck(a *app) *cobra.Command {
	o := &checkOptions{}
	cmd := &cobra.Command{
		Use:   "check SET",
		Short: "Errors, cautions, hall fit, distances and measures",
		Long: `Say what is wrong in the text, what to look out for before anything is built, whether the set fits the hall
worked in, how far pieces stand apart and how large they are. Exit code 0: clean, or cautions only; 1: errors.

` + fitHelp + `

` + tryHelp,
		Example: `  markout check kiosk.markout
  markout check kiosk.markout --with front.risers=4 --format json
  markout check kiosk.markout --try front.risers=2..6`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.check(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	cmd.Flags().StringArrayVar(&o.tries, "try", nil, "try other values: `NAME.attribute=2..6`, =150..180 by 10, =135,150; one row an option")
	cmd.Flags().StringVar(&o.margin, "margin", "100", "how far the set is wanted to stay clear of the hall's walls and pillars: a `LENGTH`, millimetres unless it says")
	formatFlag(cmd, &o.format, "how to print", "text", "csv", "json")
	return cmd
}

func (o *checkOptions) check(ctx context.Context, a *app, file string) error {
	if err := checkFormat(o.format, "text", "csv", "json"); err != nil {
		return err
	}
	margin, err := fitMargin(o.margin)
	if err != nil {
		return err
	}
	if len(o.tries) > 0 {
		return o.try(ctx, a, file, margin)
	}
	s, list, err := o.setOptions.read(file)
	if err != nil {
		return err
	}
	failed := list.HasErrors() || s == nil
	r := report{list: list}
	if !failed {
		r.set, r.cautions, r.lay = s, rules.Check(s), setout.Lay(s)
		r.clear, r.measures = setout.Clearances(s), setout.Measures(s)
		r.headroom, r.asked = overhead.Headroom(s), looksUp(s)
		r.fit = setout.FitHall(s, margin)
	}
	switch {
	case o.format == "json":
		err = a.printJSON(r.json())
	case failed:
		return a.errors(list)
	case o.format == "csv":
		err = a.printed(rtable.CSV(a.Out, r.cautionTable()))
	default:
		err = a.printed(r.text(a))
	}
	if err == nil && failed {
		return errReported
	}
	return err
}

// report is what check has found.
type report struct {
	set      *set.Set // nil where the text has errors
	list     *diag.List
	cautions []caution.Caution
	lay      *setout.Layout
	clear    []setout.Clearance
	measures []setout.Measure
	headroom []overhead.Low
	fit      *setout.Fit // nil where there is no hall worked in
	asked    bool        // there is a walk or a room overhead, so that headroom was looked for
}

// The JSON of check, a contract. What is not computed is null.
type (
	checkJSON struct {
		Set       string         `json:"set"`
		Issue     string         `json:"issue"`
		Errors    []errorJSON    `json:"errors"`
		Cautions  []cautionJSON  `json:"cautions"`
		Fit       *fitJSON       `json:"fit"`
		Headroom  any            `json:"headroom"`
		Distances []distanceJSON `json:"distances"`
		Measures  []measureJSON  `json:"measures"`
	}
	errorJSON struct {
		File    string `json:"file"`
		Line    int    `json:"line"`
		Column  int    `json:"column"`
		Message string `json:"message"`
		Hint    string `json:"hint"`
	}
	cautionJSON struct {
		Code    string `json:"code"`
		Element string `json:"element"`
		File    string `json:"file"`
		Line    int    `json:"line"`
		Column  int    `json:"column"`
		Message string `json:"message"`
		Figure  string `json:"figure"`
		Limit   string `json:"limit"`
		Source  string `json:"source"`
	}
	distanceJSON struct {
		From    string   `json:"from"`
		To      string   `json:"to"`
		Clear   float64  `json:"clear_mm"`
		AtLeast *float64 `json:"at_least_mm"`
	}
	measureJSON struct {
		Element   string  `json:"element"`
		Area      float64 `json:"area_m2"`
		Perimeter float64 `json:"perimeter_mm"`
		Top       float64 `json:"top_mm"`
	}
)

func (r report) json() checkJSON {
	out := checkJSON{Errors: []errorJSON{}, Cautions: []cautionJSON{}, Distances: []distanceJSON{}, Measures: []measureJSON{}}
	for _, d := range r.list.Sorted() {
		if d.Severity == diag.Error {
			p := r.list.Sources.Position(d.Span)
			out.Errors = append(out.Errors, errorJSON{p.File, p.Line, p.Column, d.Message, d.Hint})
		}
	}
	if r.set == nil {
		return out
	}
	out.Set, out.Issue = r.set.Name, r.set.Letter
	for _, c := range r.cautions {
		p := r.set.Sources.Position(c.Span)
		out.Cautions = append(out.Cautions, cautionJSON{c.Code, c.Element, p.File, p.Line, p.Column, c.Message, c.Figure, c.Limit, c.Source})
	}
	for _, c := range r.clear {
		d := distanceJSON{From: c.From, To: c.To, Clear: unit.Round(c.Clear, 0.1)}
		if c.Asked == setout.Keep {
			d.AtLeast = &c.AtLeast
		}
		out.Distances = append(out.Distances, d)
	}
	out.Fit = newFitJSON(r.fit)
	if r.asked {
		out.Headroom = lowsJSON(r.headroom)
	}
	for _, m := range r.measures {
		out.Measures = append(out.Measures, measureJSON{m.Element, unit.Round(m.Area/1e6, 0.0001), unit.Round(m.Perimeter, 0.1), unit.Round(m.Top, 0.1)})
	}
	return out
}

// cautionTable is what check prints as CSV: its cautions.
func (r report) cautionTable() *table.Table {
	t := &table.Table{Name: "cautions", Title: "Cautions", Columns: []table.Column{
		{Name: "code", Heading: "code"}, {Name: "element", Heading: "element"}, {Name: "file", Heading: "file"},
		{Name: "line", Heading: "line", Kind: table.Count}, {Name: "column", Heading: "column", Kind: table.Count},
		{Name: "message", Heading: "message"}, {Name: "figure", Heading: "figure"}, {Name: "limit", Heading: "limit"}, {Name: "source", Heading: "source"},
	}}
	for _, c := range r.cautions {
		p := r.set.Sources.Position(c.Span)
		t.Rows = append(t.Rows, []table.Value{
			table.T(c.Code), table.T(c.Element), table.T(p.File), table.N(float64(p.Line)), table.N(float64(p.Column)),
			table.T(c.Message), table.T(c.Figure), table.T(c.Limit), table.T(c.Source),
		})
	}
	return t
}

// text prints the report for people: cautions first, then distances, measures and what cannot be taped.
func (r report) text(a *app) error {
	p := &printer{w: a.Out}
	s := r.set
	length := func(mm float64) string { return unit.FormatLength(mm, s.Units, 0.1) }
	p.printf("%s: %s, %s\n", s.Name, plural(len(s.Elements), "element"), plural(len(r.cautions), "caution"))
	p.printf("%s\n", caution.Defer)
	for _, c := range r.cautions {
		p.printf("\n%s: caution: %s: %s [%s]\n    found: %s    %s\n    source: %s\n",
			s.Sources.Position(c.Span), c.Element, c.Message, c.Code, c.Figure, c.Against(), c.Source)
	}
	if len(r.lay.Unlaid) > 0 {
		p.printf("\nNo tape reaches or crosses well at %s:\n", plural(len(r.lay.Unlaid), "point"))
		for i, k := range r.lay.Unlaid {
			if i == errorsPrinted {
				p.printf("    … and %d more\n", len(r.lay.Unlaid)-i)
				break
			}
			p.printf("    %s\n", r.lay.Rows[k].Name())
		}
	}
	if len(r.clear) > 0 {
		p.printf("\nClear distances\n")
		for _, c := range r.clear {
			p.printf("    %-40s %12s", c.From+" to "+c.To, length(c.Clear))
			if c.Asked == setout.Keep {
				p.printf("    kept at least %s", length(c.AtLeast))
			}
			p.printf("\n")
		}
	}
	if len(r.measures) > 0 {
		p.printf("\n%-24s %14s %14s %14s\n", "Measures", "area", "perimeter", "top")
		for _, m := range r.measures {
			p.printf("    %-20s %14s %14s %14s\n", m.Element, unit.FormatArea(m.Area, s.Units), length(m.Perimeter), length(m.Top))
		}
	}
	if r.asked {
		r.lows(p, length)
	}
	if r.fit != nil {
		fitWords{s, r.fit}.print(p)
	}
	var not []string
	if r.fit == nil {
		not = append(not, "whether the set fits the hall, since there is no hall worked in")
	}
	if !r.asked {
		not = append(not, "headroom along a way someone takes (`walk`)")
	}
	if len(not) > 0 {
		p.printf("\nNot checked: %s.\n", strings.Join(not, ", and "))
	}
	return p.err
}
