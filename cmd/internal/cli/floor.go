package cli

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/figures"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/table"
	"markout/layout/view"
	rtable "markout/render/table"
	"markout/tiling/sheet"
)

type floorOptions struct {
	setOptions
	drawOptions
	format string
}

func newFloor(a *app) *cobra.Command {
	o := &floorOptions{}
	cmd := &cobra.Command{
		Use:   "floor SET",
		Short: "The mark-out plan and the tape table",
		Long: `Draw the plan to scale on one sheet, and the tape table: one row a point in laying order, its distance from
two stations, on which side, and a third distance as a check. Where figures look at something, their eye lines
follow.`,
		Example: `  markout floor kiosk.markout --paper A3
  markout floor kiosk.markout --format csv > floor.csv`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.floor(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	formatFlag(cmd, &o.format, "print the tape table, or write pictures", "text", "csv", "json", "svg")
	return cmd
}

func (o *floorOptions) floor(ctx context.Context, a *app, file string) error {
	if err := checkFormat(o.format, "text", "csv", "json", "svg"); err != nil {
		return err
	}
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	lay := setout.Lay(s)
	switch o.format {
	case "text":
		return a.printed(o.text(a, s, lay))
	case "csv":
		return a.printed(rtable.CSV(a.Out, lay.Table()))
	case "json":
		return a.printed(rtable.JSON(a.Out, lay.Table()))
	}
	book, err := o.book(s, lay.Table(), rules.Check(s))
	if err != nil {
		return err
	}
	if err := a.confirm(book.Document.Pages, fmt.Sprintf("%s makes %s.", s.Name, plural(book.Document.Pages, "page")), o.yes); err != nil {
		return err
	}
	wrote, err := a.writePages(ctx, book.Document, &o.drawOptions, file, "floor", o.format)
	if err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %s, %s\n", wrote, plural(book.Document.Pages, "page"), plural(len(lay.Rows), "point"))
	return nil
}

// text prints the tape table, and below it the eye lines where a figure looks at something.
func (o *floorOptions) text(a *app, s *set.Set, lay *setout.Layout) error {
	if err := rtable.Text(a.Out, lay.Table()); err != nil {
		return err
	}
	eyes := figures.EyeLines(s)
	if eyes == nil {
		return nil
	}
	fmt.Fprintln(a.Out)
	return rtable.Text(a.Out, eyes)
}

// book makes the floor document of a set. What concerns the carpenter alone stands on the cutting sheets.
func (o *drawOptions) book(s *set.Set, tape *table.Table, cautions []caution.Caution) (*sheet.Book, error) {
	opt, err := o.sheets(s)
	if err != nil {
		return nil, err
	}
	cautions = slices.DeleteFunc(slices.Clone(cautions), rules.OfCutting)
	return sheet.Floor(s, view.Plan(s), tape, cautions, opt)
}

// printed says what failed on standard output.
func (a *app) printed(err error) error {
	if err != nil {
		return fmt.Errorf("standard output: %w", err)
	}
	return nil
}
