package cli

import (
	"context"
	"fmt"
	"maps"

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

// assembled is everything of an issue before it is written.
type assembled struct {
	in    issue.Input
	lay   *setout.Layout
	model *cardBook      // nil without one
	cut   *sheet.Cutting // nil where nothing is cut
	pages int
	words string // what the paper costs, and the cheaper ways
}

// assemble makes the documents and tables of an issue. Where there is an earlier one its page grids and nests are kept, and pages
// whose drawings it has carry its letter.
func (o *issueOptions) assemble(ctx context.Context, a *app, s *set.Set, main string, was *earlier) (*assembled, error) {
	if was != nil {
		s = was.follow(s)
	}
	all := &assembled{lay: setout.Lay(s)}
	all.in = issue.Input{Set: s, Main: main, Program: "markout " + Version, Cautions: rules.Check(s), Tape: all.lay.Table(), Hall: o.hall, Drawn: o.drawn()}
	in := &all.in
	if was != nil {
		in.Since = was.Record
	}
	book, err := o.small(was, "floor.pdf").book(s, in.Tape, in.Cautions)
	if err != nil {
		return nil, err
	}
	in.Books = append(in.Books, issue.Book{File: "floor.pdf", Doc: book.Document, Entries: book.Entries})
	all.pages, all.words = book.Document.Pages, fmt.Sprintf("%s makes %s.", s.Name, plural(book.Document.Pages, "page"))
	if o.makes("templates.pdf") && len(fullSize(s, false)) > 0 {
		own := o.templateOptions
		own.noCloths, own.stamps, own.since = true, was.stamps("templates.pdf"), was.pageGrids()
		plan, err := own.plan(s, nil)
		if err != nil {
			return nil, err
		}
		in.Books = append(in.Books, issue.Book{File: "templates.pdf", Doc: plan.Document(), Entries: plan.Entries()})
		in.Grids = plan.Grids()
		all.pages, all.words = all.pages+plan.Count(), plan.Words()+"."
	}
	if o.makes("model.pdf") {
		if all.model, err = o.card(ctx, a, s, was); err != nil {
			return nil, err
		}
	}
	if m := all.model; m != nil {
		if err := m.bind(); err != nil {
			return nil, err
		}
		in.Books = append(in.Books, issue.Book{File: "model.pdf", Doc: m.Document, Entries: m.Entries})
		in.Nests = m.laid.Record()
		all.pages += m.Document.Pages
		all.words += fmt.Sprintf(" The card model takes %s.", plural(m.Document.Pages, "page"))
	}
	for _, part := range []struct {
		file, says string
		add        func() (int, error)
	}{
		{"elevations.pdf", "The elevations take", func() (int, error) { return o.elevations(s, in, was) }},
		{"overhead.pdf", "What hangs overhead takes", func() (int, error) { return o.overhead(s, in, was) }},
		{"artwork.pdf", "The artwork takes", func() (int, error) { return o.cloths(s, in, was) }},
		{"cutting.pdf", "The cutting lists take", func() (int, error) { return o.carpentry(ctx, a, s, all, was) }},
	} {
		if !o.makes(part.file) {
			continue
		}
		n, err := part.add()
		if err != nil {
			return nil, err
		}
		if n > 0 {
			all.pages, all.words = all.pages+n, all.words+fmt.Sprintf(" %s %s.", part.says, plural(n, "page"))
		}
	}
	return all, nil
}

// makes reports whether a document is among those wanted.
func (o *issueOptions) makes(file string) bool {
	return file != o.but && (o.only == nil || o.only[file])
}

// small is how a document of plans, tables and elevations is drawn.
func (o *issueOptions) small(was *earlier, file string) *drawOptions {
	return &drawOptions{paper: o.floorPaper, stamps: was.stamps(file)}
}

// elevations adds the elevations of a set's pieces from the front to an issue, and returns how many pages they take.
func (o *issueOptions) elevations(s *set.Set, in *issue.Input, was *earlier) (int, error) {
	views, err := elevationsOf(s, nil, false)
	if err != nil || len(views) == 0 {
		return 0, err
	}
	book, err := o.small(was, "elevations.pdf").elevationBook(s, views, in.Cautions)
	if err != nil {
		return 0, err
	}
	in.Books = append(in.Books, issue.Book{File: "elevations.pdf", Doc: book.Document, Entries: book.Entries})
	return book.Document.Pages, nil
}

// overhead adds the sheets and the table of what hangs overhead to an issue, and returns how many pages they take.
func (o *issueOptions) overhead(s *set.Set, in *issue.Input, was *earlier) (int, error) {
	rooms := overhead.Rooms(s)
	in.Tags = maps.Clone(s.Tags)
	if len(rooms) == 0 {
		return 0, nil
	}
	if in.Tags == nil {
		in.Tags = map[string]int{}
	}
	for _, r := range rooms {
		for i := range r.Pieces {
			if p := &r.Pieces[i]; p.Tag > 0 {
				in.Tags[p.Name] = p.Tag
			}
		}
	}
	book, err := o.small(was, "overhead.pdf").overheadBook(s, rooms, in.Cautions)
	if err != nil {
		return 0, err
	}
	in.Books = append(in.Books, issue.Book{File: "overhead.pdf", Doc: book.Document, Entries: book.Entries})
	in.Overhead = overhead.Table(s, rooms)
	return book.Document.Pages, nil
}

// cloths adds the sheets of a set's cloths to an issue, and returns how many there are.
func (o *issueOptions) cloths(s *set.Set, in *issue.Input, was *earlier) (int, error) {
	cloths := clothsOf(s)
	if len(cloths) == 0 {
		return 0, nil
	}
	own := o.drawOptions
	own.stamps, own.since = was.stamps("artwork.pdf"), was.pageGrids()
	art, err := own.artwork(s, cloths, artworkChoice{sheets: issued, lap: o.lap})
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
func (o *issueOptions) carpentry(ctx context.Context, a *app, s *set.Set, all *assembled, was *earlier) (int, error) {
	if len(s.Boards)+len(s.Lengths)+len(s.Stock) == 0 {
		return 0, nil
	}
	in := &all.in
	var choices cuttingChoices
	if !o.anew {
		choices.earlier = was.timber()
	}
	c, err := choices.lay(ctx, a, s)
	if err != nil {
		return 0, err
	}
	if !c.Empty() || choices.earlier != nil { // whose numbers are not given again
		in.Cuts = c.Record()
	}
	if c.Empty() {
		return 0, nil
	}
	book, err := o.small(was, "cutting.pdf").cuttingBook(s, c, cuttingCautions(s, in.Cautions))
	if err != nil {
		return 0, err
	}
	in.Cautions = append(in.Cautions, rules.Cutting(s)...)
	all.cut = c
	in.Books = append(in.Books, issue.Book{File: "cutting.pdf", Doc: book.Document, Entries: book.Entries})
	in.Cutting = c.Table()
	return book.Document.Pages, nil
}

// cardBook is a card model's sheets.
type cardBook struct {
	laid *sheet.CardModel // its model has the labels and joints as they are printed
	*sheet.Book
}

// An issue of so many pieces no longer waits for a denser placement, and of so many more takes the first one that is whole:
// `markout model` makes a better one.
const (
	issueQuick = 300
	issueFirst = 1000
)

// card makes the card model of a set that gives a scale and its card; nil for one that does not. An element that cannot be
// made of its card is left out of the model, not the model of the issue: the sheets and the terminal say so.
func (o *issueOptions) card(ctx context.Context, a *app, s *set.Set, was *earlier) (*cardBook, error) {
	if s.Scale == 0 || len(s.Cards) == 0 {
		return nil, nil
	}
	var flags modelFlags
	opt, dev, err := flags.options(s, &drawOptions{paper: o.modelPaper})
	if err != nil {
		return nil, err
	}
	opt.Stamps = was.stamps("model.pdf")
	opt.Since, opt.Anew = was.pieces(), o.anew
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
	return &cardBook{laid: laid}, a.leftOut(list)
}

// bind makes the model's document.
func (b *cardBook) bind() (err error) {
	if b.Book == nil {
		if b.Book, err = b.laid.Book(); err != nil {
			return refusal{err}
		}
	}
	return nil
}

// leftOut says what is left out of the card model.
func (a *app) leftOut(list *diag.List) error {
	if !list.HasErrors() {
		return nil
	}
	fmt.Fprintln(a.Err, "markout: left out of the card model:")
	return list.Print(a.Err, errorsPrinted)
}
