package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"markout/layout/caution"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/takeoff"
	rtable "markout/render/table"
	"markout/tiling/cut"
	"markout/tiling/sheet"
)

type cuttingOptions struct {
	setOptions
	drawOptions
	cuttingChoices
	format string
	since  string
	anew   bool
}

// cuttingChoices say how boards and bars are laid out.
type cuttingChoices struct {
	free    bool
	effort  string
	earlier *sheet.Cuts // what an earlier issue has cut from what, which stays; nil for none
}

func newCutting(a *app) *cobra.Command {
	o := &cuttingOptions{}
	cmd := &cobra.Command{
		Use:   "cutting SET",
		Short: "What the carpenter cuts: boards, lengths, blocks from stock, weights",
		Long: `Take off what the set's pieces are cut from (` + "`of`" + ` in the file), and lay it out: every board to scale with
its cuts in order, every bar with running measures, stock boxes under loose blocks with their packing, weights
by material, and what is short. What the file does not say is listed and not guessed.

With --since pieces that the earlier issue has stay on their boards and bars with their item numbers, and what
is new or has changed is cut from further ones; boards of another size, kerf or grain are laid anew.`,
		Example: `  markout cutting crates.markout
  markout cutting crates.markout --format csv > cutting.csv
  markout cutting backing.markout --free --paper A3
  markout cutting crates.markout --since crates-A           # only what has changed is cut anew`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.cutting(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	f := cmd.Flags()
	f.BoolVar(&o.free, "free", false, "pieces need not come apart by cuts from edge to edge: for a router or a jigsaw")
	f.StringVar(&o.effort, "effort", "normal", "how long to look for fewer boards: `quick|normal|long`; it counts trials, never seconds")
	_ = cmd.RegisterFlagCompletionFunc("effort", cobra.FixedCompletions([]string{"quick", "normal", "long"}, cobra.ShellCompDirectiveNoFileComp))
	f.StringVar(&o.since, "since", "", "the `FOLDER` of the earlier issue whose boards and bars stay as they are")
	f.Func("nest", "with --since: `anew` lays all boards and bars anew", func(how string) error { return nestHow(how, &o.anew) })
	formatFlag(cmd, &o.format, "print the lists, or write pictures", "text", "csv", "json", "pdf", "svg")
	return cmd
}

func (o *cuttingOptions) cutting(ctx context.Context, a *app, file string) error {
	if err := checkFormat(o.format, "text", "csv", "json", "pdf", "svg"); err != nil {
		return err
	}
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	if o.since != "" {
		if s, err = o.keep(a, file, s); err != nil {
			return err
		}
	}
	c, err := o.lay(ctx, a, s)
	if err != nil {
		return err
	}
	cautions := cuttingCautions(s, rules.Check(s))
	switch o.format {
	case "text":
		return a.printed(o.text(a, c, cautions))
	case "csv":
		return a.printed(rtable.CSV(a.Out, c.Table()))
	case "json":
		return a.printJSON(cuttingAsJSON(s, c, cautions))
	}
	book, err := o.drawOptions.cuttingBook(s, c, cautions)
	if err != nil {
		return err
	}
	pages := book.Document.Pages
	if err := a.confirm(pages, fmt.Sprintf("%s makes %s of cutting lists; --format csv is the list alone.", s.Name, plural(pages, "page")), o.yes); err != nil {
		return err
	}
	wrote, err := a.writePages(ctx, book.Document, &o.drawOptions, file, "cutting", o.format)
	if err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %s; %s\n", wrote, plural(pages, "page"), c.Summary())
	for _, f := range c.Freer {
		fmt.Fprintln(a.Out, f)
	}
	return nil
}

// keep returns a set in the order of the earlier issue, and notes what that has cut from what and the letters of its pages.
func (o *cuttingOptions) keep(a *app, file string, s *set.Set) (*set.Set, error) {
	was, err := o.openEarlier(a, o.since, file)
	switch {
	case err != nil:
		return nil, err
	case was.timber() == nil:
		return nil, refuse("--since %s: that issue has no boards and bars cut", o.since)
	}
	if !o.anew {
		o.earlier = was.timber()
	}
	o.stamps = was.stamps("cutting.pdf")
	return was.follow(s), nil
}

// lay takes a set off and lays it out.
func (o *cuttingChoices) lay(ctx context.Context, a *app, s *set.Set) (*sheet.Cutting, error) {
	opt := sheet.CuttingOptions{Free: o.free, Since: o.earlier, Stop: func() bool { return ctx.Err() != nil }}
	switch o.effort {
	case "", "normal":
	case "quick":
		opt.Effort = cut.Quick
	case "long":
		opt.Effort = cut.Long
	default:
		return nil, refuse("--effort %s: it is quick, normal or long", o.effort)
	}
	tell, end := a.progress("laying out")
	defer end()
	opt.Progress = tell
	c, err := sheet.LayCutting(ctx, s, takeoff.Take(s), opt)
	if err == nil {
		err = ctx.Err()
	}
	return c, err
}

// cuttingBook draws what was laid out.
func (o *drawOptions) cuttingBook(s *set.Set, c *sheet.Cutting, cautions []caution.Caution) (*sheet.Book, error) {
	opt, err := o.sheets(s)
	if err != nil {
		return nil, err
	}
	return c.Book(cautions, opt)
}

// cuttingCautions are those that a carpenter meets: of what is lifted and of boards, and of sawing.
func cuttingCautions(s *set.Set, all []caution.Caution) []caution.Caution {
	out := rules.Cutting(s)
	for _, c := range all {
		if rules.OfCutting(c) {
			out = append(out, c)
		}
	}
	return out
}

func (o *cuttingOptions) text(a *app, c *sheet.Cutting, cautions []caution.Caution) error {
	for _, t := range []*table.Table{c.Listed(), c.Stacks(), c.WeightTable(), c.Unsaid(), c.NotTaken()} {
		if t == nil || len(t.Rows) == 0 {
			continue
		}
		if err := rtable.Text(a.Out, t); err != nil {
			return err
		}
		fmt.Fprintln(a.Out)
	}
	fmt.Fprintln(a.Out, c.Summary())
	for _, f := range c.Freer {
		fmt.Fprintln(a.Out, f)
	}
	fmt.Fprintln(a.Out)
	for _, k := range cautions {
		fmt.Fprintf(a.Out, "%s  %s: %s\n    found: %s    published: %s\n    source: %s\n", k.Code, k.Element, k.Message, k.Figure, k.Limit, k.Source)
	}
	_, err := fmt.Fprintln(a.Out, caution.Defer)
	return err
}
