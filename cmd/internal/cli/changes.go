package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"markout/layout/changes"
	"markout/layout/develop"
	"markout/layout/overhead"
	"markout/layout/setout"
	"markout/layout/takeoff"
	"markout/render/issue"
	rtable "markout/render/table"
)

type changesOptions struct {
	issueOptions
	format string
}

func newChanges(a *app) *cobra.Command {
	o := &changesOptions{}
	cmd := &cobra.Command{
		Use:   "changes OLD NEW",
		Short: "What changed, what it costs on the floor and at the bench, and which sheets to print again",
		Long: `Compare two files, two issue folders, or one of each: what changed of each piece and what was held, which
marks to lift and to lay, which pieces of the card model, which boards and blocks to make again, what overhead
to hang again, and which sheets stay, are printed again or are withdrawn. It writes a PDF with a work order
for each trade and the changed sheets alone, a bar beside what changed. Pages are laid on the grid of OLD, and
compared by what is drawn on them.`,
		Example: `  markout changes kiosk-A kiosk.markout
  markout changes kiosk-A kiosk-B --format text
  markout changes kiosk.markout kiosk.markout --with front.risers=4    # what this change would cost`,
		Args: cobra.ExactArgs(2),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.changes(ctx, a, args[0], args[1]) }),
	}
	o.setOptions.add(cmd)
	o.addPaper(cmd)
	formatFlag(cmd, &o.format, "print instead of drawing", "text", "csv", "json")
	return cmd
}

func (o *changesOptions) changes(ctx context.Context, a *app, old, new string) error {
	if err := checkFormat(o.format, "text", "csv", "json"); err != nil {
		return err
	}
	if sameThing(old, new) && len(o.with) == 0 {
		return refuse("%s and %s are the same; name two issues, or give the change with --with", old, new)
	}
	d, err := o.compare(ctx, a, old, new)
	if err != nil {
		return err
	}
	if o.format == "csv" || o.format == "json" {
		for _, l := range d.unsure() {
			fmt.Fprintf(a.Err, "%s\n", l)
		}
	}
	switch o.format {
	case "text":
		return a.printed(d.text(a.Out))
	case "csv":
		return a.printed(rtable.CSV(a.Out, d.table()))
	case "json":
		return a.printJSON(d.json())
	}
	if len(d.pages.Reprint) == 0 && d.still() {
		fmt.Fprintf(a.Out, "%s: nothing has changed since %s; there is nothing to do and nothing to print\n", d.new.set.Name, d.old.words())
		return nil
	}
	doc, err := d.document(ctx, a, &o.issueOptions)
	if err != nil {
		return err
	}
	if err := a.confirm(doc.Pages, fmt.Sprintf("%s to print again.", plural(len(d.pages.Reprint), "sheet")), o.yes); err != nil {
		return err
	}
	if err := d.text(a.Out); err != nil {
		return a.printed(err)
	}
	wrote, err := a.writePages(ctx, doc, &o.drawOptions, d.new.main, "changes", "")
	if err != nil {
		return ofPicture(d.new.set, err)
	}
	fmt.Fprintf(a.Out, "\n%s: %s\n", wrote, plural(doc.Pages, "page"))
	return nil
}

// difference is what has changed between two versions of a set.
type difference struct {
	old, new *version
	was      *earlier   // the old version's pages
	is       *assembled // the new one's, on the old grid
	before   *assembled // the old one's, made again; nil until it is needed
	card     *cardBook  // the old one's card model, its pieces where its issue has them; nil without one
	taken    [2]changes.Taken
	pages    *issue.Compared

	elements  []changes.Element
	lift, lay []changes.Mark
	off, on   []changes.Line
	blocks    []changes.Block
	moves     []changes.Move
	pieces    []changes.Piece
	boards    []changes.Cut
	hung      []changes.Hang
	totals    []changes.TotalChange

	footprints map[string]bool // labels of full-size pages that lie on the floor
}

// compare opens two versions and finds all that has changed.
func (o *changesOptions) compare(ctx context.Context, a *app, old, new string) (*difference, error) {
	was := setOptions{allow: o.allow, hall: o.hall} // what is changed for this run, and its date, concern the new version
	d := &difference{}
	var err error
	if d.old, err = was.openVersion(a, old, filepath.Dir(new)); err != nil {
		return nil, err
	}
	if d.new, err = o.setOptions.openVersion(a, new, filepath.Dir(old)); err != nil {
		return nil, err
	}
	if d.new.record != nil && len(o.with) > 0 {
		return nil, refuse("--with changes a file for this run; %s is an issue", new)
	}
	if strangers(d.old.set.Order(), d.new.set.Order()) {
		return nil, refuse("%s and %s share no names: they are two sets, and nothing of one can stay for the other", old, new)
	}
	if d.old.record != nil {
		o.drawAs(d.old.record.Drawn)
	} else {
		if d.before, err = o.assemble(ctx, a, d.old.set, d.old.main, nil); err != nil {
			return nil, err
		}
		if d.old.record, err = issue.NewRecord(d.before.in); err != nil {
			return nil, err
		}
	}
	if d.was, err = newEarlier(old, d.old.record, d.old.set); err != nil {
		return nil, err
	}
	d.taken = [2]changes.Taken{{Set: d.old.set, Quantities: takeoff.Take(d.old.set)}, {Set: d.new.set, Quantities: takeoff.Take(d.new.set)}}
	now := o.issueOptions
	if alikeTaken(d.taken[0], d.taken[1]) {
		now.but = "cutting.pdf" // what is cut alike lies alike, and need not be laid to be known
	}
	if d.is, err = now.assemble(ctx, a, d.new.set, d.new.main, d.was); err != nil {
		return nil, err
	}
	r, err := issue.NewRecord(d.is.in)
	if err != nil {
		return nil, err
	}
	for _, p := range d.was.Pages {
		if p.File == now.but {
			r.Pages = append(r.Pages, p)
		}
	}
	d.pages = issue.Compare(d.was.Record, r)
	return d, d.find(ctx, a, &o.issueOptions)
}

// find compares the two sets.
func (d *difference) find(ctx context.Context, a *app, o *issueOptions) error {
	old, new := d.old.set, d.is.in.Set // in the old order and with the old tags, as the sheets have it
	if len(d.was.Tags) > 0 {
		own := *old
		own.Tags = d.was.Tags
		old = &own
	}
	lay := setout.Lay(old)
	d.elements = changes.Elements(old, new)
	d.lift, d.lay = changes.Marks(lay, d.is.lay)
	d.off, d.on = changes.Lines(lay, d.is.lay)
	d.blocks, d.moves = changes.Blocks(old, new), changes.Moves(old, new)
	d.boards = changes.Boards(d.taken[0], d.taken[1])
	hung, hangs := overhead.Rooms(old), overhead.Rooms(new)
	d.hung, d.totals = changes.HungIn(hung, hangs, new), changes.TotalsIn(hung, hangs, new)
	if d.before != nil {
		d.card = d.before.model
	} else {
		var err error
		if d.card, err = o.card(ctx, a.quiet(), old, d.was); err != nil {
			return err
		}
	}
	d.pieces = changes.Pieces(modelOf(d.card), modelOf(d.is.model))
	return nil
}

// modelOf is a card model's pieces; none for a set that has no model.
func modelOf(b *cardBook) *develop.Model {
	if b == nil {
		return &develop.Model{}
	}
	return b.laid.Model
}

// quiet is the same app for what is worked out beside what was asked for: it draws no progress and says nothing.
func (a *app) quiet() *app {
	own := *a
	own.Err, own.ErrTerminal = io.Discard, false
	return &own
}

// still reports whether nobody has anything to do.
func (d *difference) still() bool {
	return len(d.elements)+len(d.lift)+len(d.lay)+len(d.off)+len(d.on)+len(d.blocks)+len(d.moves)+len(d.pieces)+len(d.boards)+len(d.hung)+len(d.pages.Withdraw) == 0
}
