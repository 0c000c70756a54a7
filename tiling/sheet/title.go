package sheet

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/tiling"
)

// Title blocks have the fields of ISO 7200, at the lower right of a plan (180 mm wide, that standard's width) and along
// the foot of a table.
const (
	titleWidth  = 180.0
	titleHeight = 49.0
	stripHeight = 18.0
)

// titleCell is one cell of a title block: its caption, what stands in it, how tall, and its share of the row.
type titleCell struct {
	caption, text string
	height        float64
	bold          bool
	share         float64
	below         string // a second line, smaller
}

// titles is what a sheet's title block says of it.
type titles struct {
	letter, date string // of the issue in which its drawing last changed
	kind         string // document type: "Plan", "Tape table"
	label        string // "tape 2"
	sheet        string // "3 / 5"
	scale        string
	mark         string
	paper        string
}

// issueOf returns the issue's letter, TRIAL for a trial.
func issueOf(s *set.Set) string {
	switch {
	case s.Trial:
		return "TRIAL"
	case s.Letter == "":
		return "none"
	}
	return s.Letter
}

func unitsOf(s *set.Set) string {
	if s.Units.Imperial() {
		return "feet and inches"
	}
	return s.Units.String()
}

// titleBlock draws the block of a plan into box.
func titleBlock(p *tiling.Page, box geom.Rect, s *set.Set, t titles) {
	const mid = drawing.Lettering3_5
	rows := []struct {
		height float64
		fields []titleCell
	}{
		{10, []titleCell{
			{"Owner", s.Title.Owner, mid, false, 0.4, ""},
			{"Document type", t.kind, mid, false, 0.3, ""},
			{"Number", s.Title.Number, mid, false, 0.3, ""},
		}},
		{19, []titleCell{
			{"Title", s.Name, drawing.Lettering5, true, 0.56, s.Production},
			{"Issue", t.letter, drawing.Lettering7, true, 0.22, ""},
			{"Content", t.mark, drawing.Lettering5, false, 0.22, ""},
		}},
		{10, []titleCell{
			{"Drawn", s.Title.Drawn, mid, false, 0.25, ""},
			{"Checked", s.Title.Checked, mid, false, 0.25, ""},
			{"Approved", s.Title.Approved, mid, false, 0.25, ""},
			{"Date", t.date, mid, false, 0.25, ""},
		}},
		{10, []titleCell{
			{"Scale", t.scale, mid, true, 0.25, ""},
			{"Units", unitsOf(s), mid, false, 0.25, ""},
			{"Sheet", t.label + ", " + t.sheet, mid, false, 0.25, ""},
			{"Paper", t.paper, mid, false, 0.25, ""},
		}},
	}
	y := box.Max.Y
	for _, r := range rows {
		y -= r.height
		fieldRow(p, box.Min.X, y, box.W(), r.height, r.fields)
	}
	p.Layers[drawing.Furniture].Polyline(p, tiling.Pen{Width: frameLine}, true, tiling.Box(box)...)
}

// titleStrip draws the block of a table's page into box.
func titleStrip(p *tiling.Page, box geom.Rect, s *set.Set, t titles) {
	const mid = drawing.Lettering3_5
	title := s.Name
	if s.Production != "" {
		title += ", " + s.Production
	}
	half := box.H() / 2
	fieldRow(p, box.Min.X, box.Min.Y+half, box.W(), half, []titleCell{
		{"Title", title, mid, true, 0.34, ""},
		{"Document type", t.kind, mid, false, 0.16, ""},
		{"Number", s.Title.Number, mid, false, 0.14, ""},
		{"Issue", t.letter, mid, true, 0.09, ""},
		{"Date", t.date, mid, false, 0.11, ""},
		{"Sheet", t.label + ", " + t.sheet, mid, false, 0.16, ""},
	})
	fieldRow(p, box.Min.X, box.Min.Y, box.W(), half, []titleCell{
		{"Owner", s.Title.Owner, mid, false, 0.24, ""},
		{"Drawn", s.Title.Drawn, mid, false, 0.16, ""},
		{"Checked", s.Title.Checked, mid, false, 0.16, ""},
		{"Approved", s.Title.Approved, mid, false, 0.16, ""},
		{"Units", unitsOf(s), mid, false, 0.14, ""},
		{"Content", t.mark, mid, false, 0.14, ""},
	})
	p.Layers[drawing.Furniture].Polyline(p, tiling.Pen{Width: frameLine}, true, tiling.Box(box)...)
}

// fieldRow draws one row of fields, its lower left at x, y.
func fieldRow(p *tiling.Page, x, y, w, h float64, fields []titleCell) {
	c := &p.Layers[drawing.Furniture]
	for _, f := range fields {
		fw := w * f.share
		c.Polyline(p, tiling.Thin, true, tiling.Box(geom.Rect{Min: geom.Point{X: x, Y: y}, Max: geom.Point{X: x + fw, Y: y + h}})...)
		const in = 1.0
		c.Texts = append(c.Texts, tiling.Text{
			At:     geom.Point{X: x + in, Y: y + h - in - drawing.Lettering1_8},
			Height: drawing.Lettering1_8, Tone: drawing.Grey, Text: f.caption,
		})
		base := y + in + 1
		if f.below != "" {
			size, text := fitted(f.below, drawing.Lettering3_5, false, fw-2*in)
			c.Write(geom.Point{X: x + in, Y: base}, size, false, text)
			base += drawing.Lettering3_5 + 2
		}
		size, text := fitted(f.text, f.height, f.bold, fw-2*in)
		if text != "" {
			c.Write(geom.Point{X: x + in, Y: base}, size, f.bold, text)
		}
		x += fw
	}
}

// letterings are the heights in use, the tallest first (ISO 3098).
var letterings = [...]float64{drawing.Lettering10, drawing.Lettering7, drawing.Lettering5, drawing.Lettering3_5, drawing.Lettering2_5, drawing.Lettering1_8}

// fitted returns the greatest lettering height up to height at which text is no wider than width; where even the least is
// too wide the text is cut off and ends in dots.
func fitted(text string, height float64, bold bool, width float64) (float64, string) {
	for _, h := range letterings {
		if h <= height && lettering.Width(text, h, bold) <= width {
			return h, text
		}
	}
	const least, dots = drawing.Lettering1_8, "..."
	r := []rune(text)
	for len(r) > 0 && lettering.Width(string(r)+dots, least, bold) > width {
		r = r[:len(r)-1]
	}
	return least, string(r) + dots
}
