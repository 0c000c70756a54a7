package issue

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"

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
	Picture template.HTML
}

type indexTape struct {
	Headings []string
	Rows     []indexRow
	Notes    []string
}

type indexRow struct {
	ID    string
	Cells []string
}

// writeIndex writes the page that opens from disk: cautions first, every sheet with a thumbnail, the tape table with
// boxes to tick. It fetches nothing.
func writeIndex(w io.Writer, in Input) error {
	s := in.Set
	d := indexData{
		Set: s.Name, Production: s.Production, Issue: issueWords(s), Defer: caution.Defer,
		Trial: s.Trial, With: s.With, Key: s.Name + " " + issueWords(s),
	}
	for _, c := range in.Cautions {
		at := ""
		if p := s.Sources.Position(c.Span); p.File != "" {
			at = p.String()
		}
		d.Cautions = append(d.Cautions, indexCaution{c, at})
	}
	var page tiling.Page
	for _, b := range in.Books {
		book := indexBook{File: b.File}
		for _, e := range b.Entries {
			page.Reset()
			b.Doc.Make(e.Page-1, &page)
			picture, err := svg.Thumbnail(&page)
			if err != nil {
				return fmt.Errorf("thumbnail of %s: %w", e.Label, err)
			}
			book.Sheets = append(book.Sheets, indexSheet{e, template.HTML(picture)})
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
	for i, row := range t.Rows {
		r := indexRow{ID: fmt.Sprint(i)}
		for k, v := range row {
			r.Cells = append(r.Cells, t.ForPeople(t.Columns[k], v))
		}
		if len(r.Cells) > 1 {
			r.ID = strings.Join(r.Cells[:2], " ")
		}
		out.Rows = append(out.Rows, r)
	}
	return out
}
