// Package sheet makes single sheets: the plan to scale with its title block, and tables as pages.
//
// A page's own millimetres run from its lower left corner as it is looked at. What is fixed about a sheet, its frame,
// title block, notes and legend, is furniture and is in no digest.
package sheet

import (
	"fmt"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/figures"
	"markout/layout/set"
	"markout/layout/table"
	"markout/tiling"
	"markout/tiling/paper"
)

// Options say on what a document is drawn. Margins are of the upright sheet; a left margin wider than the right one is the
// filing edge, which stays at the left of a lying sheet too (ISO 5457).
type Options struct {
	Paper   paper.Paper
	Margins paper.Margins
	Stamps  tiling.Stamps // what an earlier issue has
}

// Book is a document and what the register says of its pages.
type Book struct {
	Document *tiling.Document
	Entries  []tiling.Entry
}

// page is one page of a book, ready to be drawn.
type page struct {
	entry tiling.Entry
	size  tiling.Size
	draw  func(p *tiling.Page, e *tiling.Entry, n, of int)
	shows []*tiling.Show // the artwork that draw puts into the page's layers
}

// Floor makes the floor document of a set: a cover that says what this is and in what order to work, the plan, and the
// tape table in as many pages as it needs, then the eye lines of figures that look at something. A nil tape gives no tape table. The error says what does not fit the paper.
func Floor(s *set.Set, plan *drawing.Drawing, tape *table.Table, cautions []caution.Caution, opt Options) (*Book, error) {
	frames, err := framesOf(opt)
	if err != nil {
		return nil, err
	}
	b := &binder{set: s, frames: frames, stamps: opt.Stamps}
	sheetOfPlan, err := layPlan(s, plan, cautions, frames)
	if err != nil {
		return nil, err
	}
	b.plan(sheetOfPlan)
	if tape != nil && len(tape.Rows) > 0 {
		t, err := layTable(tape, len(cautions) > 0, frames)
		if err != nil {
			return nil, err
		}
		b.table("tape", "Tape table", t)
	}
	if eyes := figures.EyeLines(s); eyes != nil {
		t, err := layTable(eyes, len(cautions) > 0, frames)
		if err != nil {
			return nil, err
		}
		b.table("eye lines", "Eye lines", t)
	}
	if len(cautions) > 0 {
		t, err := layTable(cautionTable(cautions), true, frames)
		if err != nil {
			return nil, err
		}
		b.table("cautions", "Cautions", t)
	}
	b.cover(plan, tape, cautions)
	return b.bind(fmt.Sprintf("%s, floor", s.Name)), nil
}
