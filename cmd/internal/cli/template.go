package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/notation"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/tiling/grid"
)

type templateOptions struct {
	setOptions
	drawOptions
	lap    string
	format string

	noCloths bool // the faces of cloths stand in another document
}

func newTemplate(a *app) *cobra.Command {
	o := &templateOptions{}
	cmd := &cobra.Command{
		Use:   "template SET [NAME…]",
		Short: "Full-size paper, tiled over pages or in strips of a roll",
		Long: `Draw what is wanted full size (` + "`full-size floor|face|side`" + ` in the file, and the head of a figure by
` + "`show head`" + `) at 1:1 over as many pages as it takes. Every page has crosses that meet on its neighbours,
ticks with its own distances from the centre line and the setting line, and check bars to measure before use.
NAME prints only the pages that show that piece.`,
		Example: `  markout template kiosk.markout --paper A3
  markout template kiosk.markout deck --paper "roll 914" -o deck.pdf`,
		Args: cobra.MinimumNArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error {
			return o.template(ctx, a, args[0], args[1:])
		}),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	cmd.Flags().StringVar(&o.lap, "lap", "", "how far a page lies over the next: a `LENGTH`, 10 mm unless given; 0 for butt edges")
	formatFlag(cmd, &o.format, "what to print or write", "json", "svg")
	return cmd
}

func (o *templateOptions) template(ctx context.Context, a *app, file string, names []string) error {
	if err := checkFormat(o.format, "json", "svg"); err != nil {
		return err
	}
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	plan, err := o.plan(s, names)
	if err != nil {
		return err
	}
	if err := a.confirm(plan.Count(), plan.Words(), o.yes); err != nil {
		return err
	}
	doc := plan.Document()
	if o.format == "json" {
		name, err := outputName(o.out, file, "template", ".pdf")
		if err != nil {
			return err
		}
		if o.out != "" {
			if _, err := a.writePages(ctx, doc, &o.drawOptions, file, "template", ""); err != nil {
				return ofPicture(s, err)
			}
		}
		return a.printJSON(templateJSON(plan, filepath.Base(name)))
	}
	if o.format == "svg" { // whose files are written one by one
		if err := damaged(s); err != nil {
			return err
		}
	}
	wrote, err := a.writePages(ctx, doc, &o.drawOptions, file, "template", o.format)
	if err != nil {
		return ofPicture(s, err)
	}
	fmt.Fprintf(a.Out, "%s: %s\n", wrote, plan.Summary())
	return nil
}

// plan lays everything wanted full size over pages.
func (o *templateOptions) plan(s *set.Set, names []string) (*grid.Plan, error) {
	p, err := o.on(s, "A4", "Letter")
	if err != nil {
		return nil, err
	}
	edges, err := o.edges(10)
	if err != nil {
		return nil, err
	}
	lap := 10.0
	if o.lap != "" {
		if lap, err = unit.ParseLength(o.lap, unit.Millimetre); err != nil {
			return nil, refuse("--lap %s: %w", o.lap, err)
		}
	}
	for _, n := range names {
		if err := wantedFullSize(s, n); err != nil {
			return nil, err
		}
	}
	drawings := fullSize(s, !o.noCloths)
	if len(drawings) == 0 {
		return nil, fmt.Errorf("%s: nothing is wanted full size; write `full-size floor` (or face, or side) under a piece", s.Name)
	}
	plan, err := grid.Build(drawings, gridInfo(s), grid.Options{Paper: p, Margins: edges, Lap: lap, Names: names, Since: o.since, Stamps: o.stamps})
	if err != nil {
		return nil, refusal{err} // the paper, margins, lap and names asked for do not go together with the set
	}
	return plan, nil
}

// fullSize draws what the file wants full size: one floor for all, then each face and side in the file's order; of a cut-out
// the back and the head too, where it asks for them.
func fullSize(s *set.Set, cloths bool) []*drawing.Drawing {
	var out []*drawing.Drawing
	for _, e := range s.Elements {
		if wants(e, "floor") {
			out = append(out, view.Floor(s))
			break
		}
	}
	for _, e := range s.Elements {
		switch e.Shape.(type) {
		case *set.Figure:
			out = append(out, view.FigureFaces(s, e)...)
		case *set.Cloth:
			if cloths && wants(e, "face") {
				out = append(out, view.Cloth(s, e, nil))
			}
		default:
			if wants(e, "face") {
				out = append(out, view.Face(s, e))
			}
		}
		if wants(e, "side") {
			out = append(out, view.Sides(s, e)...)
		}
	}
	return out
}

func wants(e *set.Element, view string) bool {
	for _, v := range e.FullSize {
		if v == view {
			return true
		}
	}
	return false
}

// wantedFullSize refuses a name that no page can show.
func wantedFullSize(s *set.Set, name string) error {
	var known []string
	for _, e := range s.Elements {
		known = append(known, e.Name)
		if e.Name != name {
			continue
		}
		if f, ok := e.Shape.(*set.Figure); len(e.FullSize) == 0 && !(ok && f.Head > 0) {
			return fmt.Errorf("%s is not wanted full size; write `full-size floor` (or face, or side) under it", name)
		}
		return nil
	}
	if near := notation.Suggest(name, known); near != "" {
		return refuse("there is no %s in %s; did you mean %s?", name, s.Name, near)
	}
	return refuse("there is no %s in %s", name, s.Name)
}

// gridInfo is what pages say of their set.
func gridInfo(s *set.Set) grid.Info {
	info := grid.Info{
		Set: s.Name, Production: s.Production, Letter: s.Letter, Date: s.Date, Trial: s.Trial,
		Units: s.Units, Sides: s.SideNames(), Cautions: map[string]string{},
	}
	for _, c := range rules.Check(s) {
		info.Cautions[elementOf(c)] = caution.Defer
	}
	return info
}

// elementOf returns the name of the element a caution concerns, without its copy's number or position.
func elementOf(c caution.Caution) string {
	name, _, _ := strings.Cut(c.Element, " ")
	name, _, _ = strings.Cut(name, ".")
	return name
}

type templatePages struct {
	Paper string         `json:"paper"`
	Pages []templatePage `json:"pages"`
}

type templatePage struct {
	File    string     `json:"file"`
	Page    int        `json:"page"`
	Label   string     `json:"label"`
	Element string     `json:"element"`
	View    string     `json:"view"`
	Origin  [2]float64 `json:"origin_mm"`
	Size    [2]float64 `json:"size_mm"`
	Mark    string     `json:"mark"`
}

func templateJSON(plan *grid.Plan, file string) templatePages {
	out := templatePages{Paper: plan.Paper(), Pages: []templatePage{}}
	for _, e := range plan.Entries() {
		out.Pages = append(out.Pages, templatePage{file, e.Page, e.Label, e.Element, e.View, e.Origin, e.Size, e.Mark})
	}
	return out
}
