package cli

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/develop"
	"markout/layout/diag"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/render/issue"
	"markout/tiling/grid"
	"markout/tiling/nest"
	"markout/tiling/sheet"
)

type issueOptions struct {
	templateOptions
	floorPaper string
	modelPaper string
}

func newIssue(a *app) *cobra.Command {
	o := &issueOptions{}
	cmd := &cobra.Command{
		Use:   "issue SET",
		Short: "Everything for one set, in one folder with its register",
		Long: `Write the issue folder: the floor plan and tape table, the full-size paper, the elevations, the card model's sheets where the set gives
a scale and its card, the sheets and the table of what hangs overhead, the sheets of cloths, the cutting lists where pieces have materials, the register, the cautions, a page to open on a
phone, and the texts it was made from. The folder is named after the file and the issue letter. It never overwrites a
folder that markout did not make, nor an issue of another letter.`,
		Example: `  markout issue kiosk.markout --yes
  markout issue kiosk.markout --with front.risers=4 --yes    # a trial: kiosk-trial`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.issue(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	cmd.Flags().Lookup("output").Usage = "write into this `FOLDER`"
	cmd.Flags().Lookup("paper").Usage = "`PAPER` of the full-size paper: A4, A3 …, \"roll 610|914|1067\", or WxH in millimetres"
	cmd.Flags().StringVar(&o.floorPaper, "floor-paper", "", "`PAPER` of the plan, the tape table, the elevations and the cutting lists")
	cmd.Flags().StringVar(&o.modelPaper, "model-paper", "", "`PAPER` of the card model's sheets")
	cmd.Flags().StringVar(&o.lap, "lap", "", "how far a page lies over the next: a `LENGTH`, 10 mm unless given; 0 for butt edges")
	return cmd
}

func (o *issueOptions) issue(ctx context.Context, a *app, file string) error {
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	main := filepath.ToSlash(file)
	in := issue.Input{Set: s, Main: main, Program: "markout " + Version, Cautions: rules.Check(s), Tape: setout.Lay(s).Table()}
	floor := drawOptions{paper: o.floorPaper}
	book, err := floor.book(s, in.Tape, in.Cautions)
	if err != nil {
		return err
	}
	in.Books = append(in.Books, issue.Book{File: "floor.pdf", Doc: book.Document, Entries: book.Entries})
	pages, words := book.Document.Pages, fmt.Sprintf("%s makes %s.", s.Name, plural(book.Document.Pages, "page"))
	o.noCloths = true
	if len(fullSize(s, false)) > 0 {
		plan, err := o.plan(s, nil)
		if err != nil {
			return err
		}
		in.Books = append(in.Books, issue.Book{File: "templates.pdf", Doc: plan.Document(), Entries: plan.Entries()})
		in.Grids = plan.Grids()
		pages, words = pages+plan.Count(), plan.Words()
	}
	model, err := o.card(ctx, a, s)
	if err != nil {
		return err
	}
	if model != nil {
		in.Books = append(in.Books, issue.Book{File: "model.pdf", Doc: model.Document, Entries: model.Entries})
		in.Nests = model.nests
		pages, words = pages+model.Document.Pages, strings.TrimSuffix(words, ".")+fmt.Sprintf(". The card model takes %s.", plural(model.Document.Pages, "page"))
	}
	views, err := o.elevations(s, &in)
	if err != nil {
		return err
	}
	if views > 0 {
		pages, words = pages+views, words+fmt.Sprintf(" The elevations take %s.", plural(views, "page"))
	}
	hung, err := o.overhead(s, &in)
	if err != nil {
		return err
	}
	if hung > 0 {
		pages, words = pages+hung, words+fmt.Sprintf(" What hangs overhead takes %s.", plural(hung, "page"))
	}
	art, err := o.cloths(s, &in)
	if err != nil {
		return err
	}
	if art > 0 {
		pages, words = pages+art, words+fmt.Sprintf(" The artwork takes %s.", plural(art, "page"))
	}
	sheets, err := o.carpentry(ctx, a, s, &in)
	if err != nil {
		return err
	}
	if sheets > 0 {
		pages, words = pages+sheets, words+fmt.Sprintf(" The cutting lists take %s.", plural(sheets, "page"))
	}
	if err := a.confirm(pages, words, o.yes); err != nil {
		return err
	}
	place := o.out
	if place == "" {
		place = issue.Default(main, s)
	}
	tell, end := a.progress(place)
	res, err := issue.Write(ctx, place, in, issue.Options{Workers: runtime.GOMAXPROCS(0), Progress: tell})
	end()
	var refused *issue.Refused
	switch {
	case errors.As(err, &refused):
		return refusal{err}
	case err != nil:
		return ofPicture(s, err)
	case !res.Written:
		fmt.Fprintf(a.Out, "%s holds this issue already; nothing was written\n", place)
	default:
		fmt.Fprintf(a.Out, "%s: %s, %s; open %s\n", place, plural(res.Pages, "sheet"), plural(len(in.Cautions), "caution"), filepath.Join(place, "index.html"))
	}
	return nil
}

// elevations adds the elevations of a set's pieces from the front to an issue, and returns how many pages they take.
func (o *issueOptions) elevations(s *set.Set, in *issue.Input) (int, error) {
	views, err := elevationsOf(s, nil, false)
	if err != nil || len(views) == 0 {
		return 0, err
	}
	book, err := (&drawOptions{paper: o.floorPaper}).elevationBook(s, views, in.Cautions)
	if err != nil {
		return 0, err
	}
	in.Books = append(in.Books, issue.Book{File: "elevations.pdf", Doc: book.Document, Entries: book.Entries})
	return book.Document.Pages, nil
}

// overhead adds the sheets and the table of what hangs overhead to an issue, and returns how many pages they take.
func (o *issueOptions) overhead(s *set.Set, in *issue.Input) (int, error) {
	rooms := overhead.Rooms(s)
	if len(rooms) == 0 {
		return 0, nil
	}
	book, err := (&drawOptions{paper: o.floorPaper}).overheadBook(s, rooms, in.Cautions)
	if err != nil {
		return 0, err
	}
	in.Books = append(in.Books, issue.Book{File: "overhead.pdf", Doc: book.Document, Entries: book.Entries})
	in.Overhead = overhead.Table(s, rooms)
	return book.Document.Pages, nil
}

// cloths adds the sheets of a set's cloths to an issue, and returns how many there are.
func (o *issueOptions) cloths(s *set.Set, in *issue.Input) (int, error) {
	cloths := clothsOf(s)
	if len(cloths) == 0 {
		return 0, nil
	}
	art, err := o.drawOptions.artwork(s, cloths, artworkChoice{sheets: issued, lap: o.lap})
	if err != nil {
		return 0, err
	}
	in.Books = append(in.Books, issue.Book{File: "artwork.pdf", Doc: art.doc, Entries: art.entries})
	if before, ok := in.Grids.([]grid.GridRecord); ok {
		art.grids = append(before, art.grids...)
	}
	in.Grids = art.grids
	return art.doc.Pages, nil
}

// carpentry adds what is cut, and its caution, to an issue whose pieces have materials, and returns how many sheets it takes.
func (o *issueOptions) carpentry(ctx context.Context, a *app, s *set.Set, in *issue.Input) (int, error) {
	if len(s.Boards)+len(s.Lengths)+len(s.Stock) == 0 {
		return 0, nil
	}
	var choices cuttingChoices
	c, err := choices.lay(ctx, a, s)
	if err != nil || c.Empty() {
		return 0, err
	}
	book, err := (&drawOptions{paper: o.floorPaper}).cuttingBook(s, c, cuttingCautions(s, in.Cautions))
	if err != nil {
		return 0, err
	}
	in.Cautions = append(in.Cautions, rules.Cutting(s)...)
	in.Books = append(in.Books, issue.Book{File: "cutting.pdf", Doc: book.Document, Entries: book.Entries})
	in.Cutting = c.Table()
	return book.Document.Pages, nil
}

// cardBook is the card model's document, and where its pieces lie.
type cardBook struct {
	*sheet.Book
	nests []sheet.SheetRecord
}

// An issue of so many pieces no longer waits for a denser placement, and of so many more takes the first one that is whole:
// `markout model` makes a better one.
const (
	issueQuick = 300
	issueFirst = 1000
)

// card makes the card model of a set that gives a scale and its card; nil for one that does not. An element that cannot be
// made of its card is left out of the model, not the model of the issue: the sheets and the terminal say so.
func (o *issueOptions) card(ctx context.Context, a *app, s *set.Set) (*cardBook, error) {
	if s.Scale == 0 || len(s.Cards) == 0 {
		return nil, nil
	}
	var flags modelFlags
	opt, dev, err := flags.options(s, &drawOptions{paper: o.modelPaper})
	if err != nil {
		return nil, err
	}
	m, list := develop.Develop(s, dev)
	if len(m.Pieces) == 0 {
		return nil, a.leftOut(list)
	}
	for _, d := range list.Sorted() {
		opt.LeftOut = append(opt.LeftOut, d.Message)
	}
	if len(m.Pieces) > issueQuick {
		opt.Effort = nest.Quick
	}
	if len(m.Pieces) > issueFirst {
		opt.Stop = func() bool { return true }
	}
	tell, end := a.progress("nesting")
	opt.Progress = tell
	laid, unlaid, err := sheet.LayModel(ctx, s, m, opt)
	end()
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, refusal{err}
	case unlaid.HasErrors():
		return nil, a.leftOut(unlaid)
	}
	book, err := laid.Book()
	if err != nil {
		return nil, refusal{err}
	}
	return &cardBook{book, laid.Record()}, a.leftOut(list)
}

// leftOut says what is left out of the card model.
func (a *app) leftOut(list *diag.List) error {
	if !list.HasErrors() {
		return nil
	}
	fmt.Fprintln(a.Err, "markout: left out of the card model:")
	return list.Print(a.Err, errorsPrinted)
}
