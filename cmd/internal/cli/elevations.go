package cli

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/notation"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/solid"
	"markout/layout/view"
	"markout/tiling/sheet"
)

type elevationsOptions struct {
	setOptions
	drawOptions
	from   string
	format string
}

func newElevations(a *app) *cobra.Command {
	o := &elevationsOptions{}
	cmd := &cobra.Command{
		Use:   "elevations SET [NAME...]",
		Short: "Dimensioned elevations of flats, figures, steps and ramps, and sections through rooms overhead",
		Long: `Draw each flat, cut-out, standing shape, flight and ramp to scale on a sheet of its own, with dimension chains
that add up, openings with their sills and heads, arcs, material and thickness. With names, only those pieces.
--from back shows faces and fronts from behind, mirrored. A room that hangs overhead has two sections.`,
		Example: `  markout elevations backing.markout
  markout elevations backing.markout backing --from back`,
		Args: cobra.MinimumNArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.elevations(ctx, a, args[0], args[1:]) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	cmd.Flags().StringVar(&o.from, "from", "front", "the side that pieces are seen from: `front|back`")
	_ = cmd.RegisterFlagCompletionFunc("from", cobra.FixedCompletions([]string{"front", "back"}, cobra.ShellCompDirectiveNoFileComp))
	formatFlag(cmd, &o.format, "write a PDF, or pictures", "pdf", "svg")
	return cmd
}

func (o *elevationsOptions) elevations(ctx context.Context, a *app, file string, names []string) error {
	if err := checkFormat(o.format, "pdf", "svg"); err != nil {
		return err
	}
	if o.from != "front" && o.from != "back" {
		return refuse("--from %s: it is front or back", o.from)
	}
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	sections, names, only := sectionsOf(s, names)
	var views []view.Elevation
	if !only {
		if views, err = elevationsOf(s, names, o.from == "back"); err != nil {
			return err
		}
	}
	views = append(views, sections...)
	if len(views) == 0 {
		return fmt.Errorf("%s: nothing here has an elevation; flats, figures, standing shapes, steps, ramps and rooms overhead have", s.Name)
	}
	book, err := o.drawOptions.elevationBook(s, views, rules.Check(s))
	if err != nil {
		return err
	}
	pages := book.Document.Pages
	if err := a.confirm(pages, fmt.Sprintf("%s makes %s of elevations; name the pieces that are wanted.", s.Name, plural(pages, "page")), o.yes); err != nil {
		return err
	}
	wrote, err := a.writePages(ctx, book.Document, &o.drawOptions, file, "elevations", o.format)
	if err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %s, %s\n", wrote, plural(pages, "page"), plural(len(views), "elevation"))
	return nil
}

// sectionsOf draws the sections through the rooms overhead that are named, through all where nothing is; it returns the other names,
// and whether rooms alone were named.
func sectionsOf(s *set.Set, names []string) (out []view.Elevation, rest []string, only bool) {
	rest = slices.Clone(names)
	for _, r := range overhead.Rooms(s) {
		if len(names) > 0 && !slices.Contains(names, r.Element.Name) {
			continue
		}
		rest = slices.DeleteFunc(rest, func(n string) bool { return n == r.Element.Name })
		sc := solid.NewScene(s)
		out = append(out, view.Section(s, r, sc, false), view.Section(s, r, sc, true))
	}
	return out, rest, len(names) > 0 && len(rest) == 0
}

// elevationsOf draws the elevations of the pieces named, of all where none is, in the file's order.
func elevationsOf(s *set.Set, names []string, behind bool) ([]view.Elevation, error) {
	var known []string
	var out []view.Elevation
	for _, e := range s.Elements {
		known = append(known, e.Name)
		if len(names) > 0 && !slices.Contains(names, e.Name) {
			continue
		}
		drawn := view.Elevations(s, e, behind)
		if len(drawn) == 0 && len(names) > 0 {
			return nil, refuse("%s has no elevation; flats, figures, standing shapes, steps and ramps have", e.Name)
		}
		out = append(out, drawn...)
	}
	for _, n := range names {
		if slices.Contains(known, n) {
			continue
		}
		if near := notation.Suggest(n, known); near != "" {
			return nil, refuse("there is no %s in %s; did you mean %s?", n, s.Name, near)
		}
		return nil, refuse("there is no %s in %s", n, s.Name)
	}
	return out, nil
}

// elevationBook makes the document of elevations.
func (o *drawOptions) elevationBook(s *set.Set, views []view.Elevation, cautions []caution.Caution) (*sheet.Book, error) {
	opt, err := o.sheets(s)
	if err != nil {
		return nil, err
	}
	return sheet.Elevations(s, views, cautions, opt)
}
