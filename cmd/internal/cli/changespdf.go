package cli

import (
	"context"
	"fmt"

	"markout/render/issue"
	"markout/tiling"
)

// document is the work orders and then the changed sheets alone, file by file, each with a bar beside what changed.
func (d *difference) document(ctx context.Context, a *app, o *issueOptions) (*tiling.Document, error) {
	orders, err := d.workOrders(o)
	if err != nil {
		return nil, err
	}
	docs := []*tiling.Document{orders}
	wanted := map[string]bool{}
	for _, r := range d.pages.Reprint {
		wanted[r.File] = true
	}
	if err := d.madeAgain(ctx, a, o, wanted); err != nil {
		return nil, err
	}
	for _, b := range d.is.in.Books {
		var pages []int
		for _, r := range d.pages.Reprint {
			if r.File == b.File {
				pages = append(pages, r.Page-1)
			}
		}
		if len(pages) == 0 {
			continue
		}
		doc := tiling.Selected(b.File, b.Doc, pages, d.barsOf(b))
		doc.Bookmarks = []tiling.Bookmark{{Title: b.File}}
		docs = append(docs, doc)
	}
	return tiling.Join(d.new.set.Name+", changes", docs...), nil
}

// madeAgain makes the earlier pages of the files wanted once more, to see where they differ; an earlier set that can no longer be
// drawn leaves whole pages marked.
func (d *difference) madeAgain(ctx context.Context, a *app, o *issueOptions, wanted map[string]bool) error {
	if d.before != nil || len(wanted) == 0 {
		return nil
	}
	own := *o
	own.with, own.only, own.but = nil, wanted, "model.pdf" // which is there already
	var err error
	d.before, err = own.assemble(ctx, a.quiet(), d.old.set, d.old.main, d.was)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		d.before = &assembled{}
	}
	if d.card != nil && wanted["model.pdf"] {
		if err := d.card.bind(); err != nil {
			return err
		}
		d.before.in.Books = append(d.before.in.Books, issue.Book{File: "model.pdf", Doc: d.card.Document, Entries: d.card.Entries})
	}
	return nil
}

// barsOf marks on a book's page where it differs from the earlier page of the same label.
func (d *difference) barsOf(b issue.Book) func(i int, p *tiling.Page) {
	label := make(map[int]string, len(b.Entries))
	for _, e := range b.Entries {
		label[e.Page-1] = e.Label
	}
	var old issue.Book
	for _, k := range d.before.in.Books {
		if k.File == b.File {
			old = k
		}
	}
	at := make(map[string]int, len(old.Entries))
	for _, e := range old.Entries {
		at[e.Label] = e.Page - 1
	}
	words := "changed"
	if !d.old.set.Trial && d.old.set.Letter != "" {
		words = fmt.Sprintf("changed since %s", d.old.set.Letter)
	}
	return func(i int, p *tiling.Page) {
		var was *tiling.Page
		if k, ok := at[label[i]]; ok {
			was = &tiling.Page{}
			was.Reset()
			old.Doc.Make(k, was)
		}
		p.MarkChanged(tiling.Changed(was, p), words)
	}
}
