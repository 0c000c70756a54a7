package sheet

import (
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/tiling"
)

// digest is of all that page i draws: rows, headings, notes, and where they stand, which hangs on what all pages say.
func (s *tableSheets) digest(i int) [32]byte {
	var p tiling.Page
	p.Reset()
	s.draw(&p, i)
	var d tiling.Digester
	d.Reset("table", "", s.frame.paper, geom.Rect{})
	notes := &p.Layers[drawing.Notes]
	m := drawing.Mark{Layer: drawing.Notes}
	for k := range notes.Texts {
		d.Word(m, &notes.Texts[k])
	}
	for _, k := range notes.Strokes {
		for _, r := range k.Runs {
			d.Line(m, drawing.Continuous, k.Pen.Width, k.Pen.Tone, 0, r.Closed, r.Points)
		}
	}
	for _, f := range notes.Fills {
		d.Area(m, f.Tone, f.Rings)
	}
	return d.Sum()
}

// asCalled lays a table as it would be laid if nothing were called otherwise than an earlier issue calls it, so that another name, which
// may be longer, counts for nothing. Where that would take another number of pages it is the table itself.
func (b *binder) asCalled(t *tableSheets) *tableSheets {
	if len(b.set.Called) == 0 {
		return t
	}
	d := digester(b.set)
	texts := func(list []string) []string {
		list = slices.Clone(list)
		for i := range list {
			list[i] = d.Called(list[i])
		}
		return list
	}
	own := *t.t
	own.Title, own.Head, own.Notes = d.Called(own.Title), texts(own.Head), texts(own.Notes)
	own.Rows = make([][]table.Value, len(t.t.Rows))
	for r, row := range t.t.Rows {
		row = slices.Clone(row)
		for k := range row {
			if !own.Columns[k].Trade {
				row[k].Text = d.Called(row[k].Text)
			}
		}
		own.Rows[r] = row
	}
	was, err := layTable(&own, t.defers, b.frames)
	if err != nil || len(was.pages) != len(t.pages) {
		return t
	}
	return was
}
