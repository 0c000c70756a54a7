package issue

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"

	"markout/layout/caution"
	"markout/layout/table"
	"markout/render/svg"
	"markout/tiling"
)

//go:embed index.html
var indexText string

var indexPage = template.Must(template.New("index").Parse(indexText))

type indexData struct {
	Set, Production, Issue, Defer, Key string
	Trial                              bool
	With                               []string
	Cautions                           []indexCaution
	Books                              []indexBook
	Tape                               *indexTape
	Sheets                             int
	Since                              *SinceRecord
	Superseded                         []SupersededPage
}

type indexCaution struct {
	caution.Caution
	At string
}

type indexBook struct {
	File   string
	Sheets []indexSheet
}

type indexSheet struct {
	tiling.Entry
	doc    *tiling.Document
	page   *tiling.Page // one for all sheets: they are shown one after the other
	thumbs *svg.Thumbnails
}

// Picture draws the sheet's thumbnail when its turn comes, so that an issue of many thousand sheets is never held whole.
func (s indexSheet) Picture() (template.HTML, error) {
	s.page.Reset()
	s.doc.Make(s.Entry.Page-1, s.page)
	picture, err := s.thumbs.Of(s.page)
	if err != nil {
		return "", fmt.Errorf("thumbnail of %s: %w", s.Label, err)
	}
	return template.HTML(picture), nil
}

type indexTape struct {
	Headings []string
	Rows     []indexRow
	Notes    []string
}

type indexRow struct {
	ID    string
	Cells []indexCell
}

type indexCell struct{ Column, Heading, Text string }

// writeIndex writes the page that opens from disk: cautions first, every sheet with a thumbnail, the tape table with
// boxes to tick. It fetches nothing.
func writeIndex(w io.Writer, in Input, is *Record) error {
	s := in.Set
	d := indexData{
		Set: s.Name, Production: s.Production, Issue: issueWords(s), Defer: caution.Defer,
		Trial: s.Trial, With: s.With, Key: s.Name + " " + issueWords(s), Since: is.Since, Superseded: is.Superseded,
	}
	for _, c := range in.Cautions {
		d.Cautions = append(d.Cautions, indexCaution{c, in.place(c)})
	}
	var page tiling.Page
	var thumbs svg.Thumbnails
	for _, b := range in.Books {
		book := indexBook{File: b.File}
		for _, e := range b.Entries {
			book.Sheets = append(book.Sheets, indexSheet{e, b.Doc, &page, &thumbs})
		}
		d.Sheets += len(book.Sheets)
		d.Books = append(d.Books, book)
	}
	if in.Tape != nil {
		d.Tape = tapeRows(in.Tape)
	}
	return indexPage.Execute(w, d)
}

// tapeRows is the tape table as people read it.
func tapeRows(t *table.Table) *indexTape {
	out := &indexTape{Notes: t.Notes}
	for _, c := range t.Columns {
		out.Headings = append(out.Headings, t.Heading(c))
	}
	for _, row := range t.Rows {
		var r indexRow
		for k, v := range row {
			r.Cells = append(r.Cells, indexCell{t.Columns[k].Name, out.Headings[k], t.ForPeople(t.Columns[k], v)})
		}
		r.ID = r.Cells[0].Text + " " + r.Cells[1].Text // element and point: no two rows share both
		out.Rows = append(out.Rows, r)
	}
	return out
}
