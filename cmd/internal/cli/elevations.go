package cli

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/notation"
	"markout/layout/rules"
	"markout/layout/set"
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
		Short: "Dimensioned elevations of flats, figures, steps and ramps",
		Long: `Draw each flat, cut-out, standing shape, flight and ramp to scale on a sheet of its own, with dimension chains that add up,
openings with their sills and heads, arcs, material and thickness. With names, only those pieces. --from back shows faces and
fronts from behind, mirrored.`,
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
	views, err := elevationsOf(s, names, o.from == "back")
	if err != nil {
		return err
	}
	if len(views) == 0 {
		return fmt.Errorf("%s: nothing here has an elevation; flats, figures, standing shapes, steps and ramps have", s.Name)
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
	p, err := o.on(s, "A3", "Tabloid")
	if err != nil {
		return nil, err
	}
	edges, err := o.edges(20)
	if err != nil {
		return nil, err
	}
	return sheet.Elevations(s, views, cautions, sheet.Options{Paper: p, Margins: edges})
}
