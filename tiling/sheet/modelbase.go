package sheet

import (
	"math"
	"slices"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/unit"
	"markout/tiling/grid"
)

// leastBase is the least scale denominator at which there is a base sheet: a mock-up larger than that stands on the floor, which
// is marked out.
const leastBase = 4.0

// baseMargin is how far the base sheet's lines reach beyond what stands on it.
const baseMargin = 15.0

// hasBase reports whether the model stands on a base sheet.
func (c *CardModel) hasBase() bool { return len(c.Model.Base) > 0 && c.Model.Scale >= leastBase }

// baseBox is the box of all footprints in the set's axes at the model's scale.
func (c *CardModel) baseBox() (geom.Rect, bool) {
	box := geom.EmptyRect()
	if !c.hasBase() {
		return box, false
	}
	for _, f := range c.Model.Base {
		for _, r := range f.Areas {
			box = box.Union(r.Bounds())
		}
	}
	return box.Grow(baseMargin), true
}

// base draws the base sheet: every footprint, what stands higher dashed with its level, holes for rods to be cut, the centre line
// and the setting line.
func (c *CardModel) base() *drawing.Drawing {
	box, _ := c.baseBox()
	sides := c.set.SideNames()
	d := &drawing.Drawing{
		View: "base", Name: BaseSheet, Title: "Base sheet",
		Hold: "seen from above, upstage at the top: glue each piece onto its footprint",
		Datum: drawing.Datum{
			XPlus: sides.Plus, XMinus: sides.Minus, YPlus: "U", YMinus: "D",
			Says: "in the set, from the centre line and the setting line",
		},
	}
	line := func(m drawing.Mark, p *geom.Path, t drawing.LineType, width float64) {
		d.Strokes = append(d.Strokes, drawing.Stroke{Mark: m, Path: p, Type: t, Width: width})
	}
	notes := drawing.Mark{Layer: drawing.Notes, Owner: -1}
	reg := drawing.Mark{Layer: drawing.Registration, Owner: -1}
	says := drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: -1}
	if box.Min.X <= 0 && box.Max.X >= 0 {
		d.Texts = append(d.Texts, drawing.Text{Mark: says, At: geom.Point{X: -1, Y: box.Min.Y + 1}, Turn: 90, Height: drawing.Lettering1_8, Text: "centre line"})
		line(reg, straight(geom.Point{Y: box.Min.Y}, geom.Point{Y: box.Max.Y}), drawing.LongDashDot, drawing.NarrowLine)
	}
	if box.Min.Y <= 0 && box.Max.Y >= 0 {
		d.Texts = append(d.Texts, drawing.Text{Mark: says, At: geom.Point{X: box.Min.X + 1, Y: 1}, Height: drawing.Lettering1_8, Text: "setting line"})
		line(reg, straight(geom.Point{X: box.Min.X}, geom.Point{X: box.Max.X}), drawing.LongDashDot, drawing.NarrowLine)
	}
	lines := c.footLines()
	for _, f := range c.Model.Base {
		raised := f.Level > geom.Tolerance || f.Level < -geom.Tolerance
		for _, r := range f.Areas {
			for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
				switch {
				case f.Hole:
					line(drawing.Mark{Layer: drawing.Cut, Owner: -1}, p, drawing.Continuous, drawing.WideLine)
				case raised:
					line(notes, p, drawing.Dashed, drawing.NarrowLine)
				default:
					line(notes, p, drawing.Continuous, drawing.WideLine)
				}
			}
		}
		c.nameFootprint(d, f, raised, lines)
	}
	if !c.apart {
		drawPeople(d, c.people)
	}
	return d
}

// nameFootprint writes an element's name into its footprint, or beside a small one.
func (c *CardModel) nameFootprint(d *drawing.Drawing, f develop.Footprint, raised bool, lines []footLine) {
	d.Owners = append(d.Owners, f.Element)
	mark := drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: int32(len(d.Owners) - 1)}
	words := f.Element
	if raised {
		words += " " + c.levelWords(f.Level)
	}
	largest := slices.MaxFunc(f.Areas, func(a, b geom.Region) int {
		if x, y := a.Area(), b.Area(); x < y {
			return -1
		} else if x > y {
			return 1
		}
		return 0
	})
	b := largest.Bounds()
	t := drawing.Text{Mark: mark, At: b.Mid(), Height: drawing.Lettering2_5, Align: drawing.AlignMiddle, Text: words}
	const small = 12.0
	if min(b.W(), b.H()) < small || !largest.Contains(b.Mid()) {
		t.Height, t.Align = drawing.Lettering1_8, drawing.AlignLeft
		t.At = besideFootprint(b, lines, lettering.Width(words, t.Height, false), t.Height)
	}
	if half := lettering.Width(words, t.Height, false)/2 + 1.5; t.Align == drawing.AlignMiddle && math.Abs(t.At.X) < half {
		t.At.X = half // beside the centre line
	}
	d.Texts = append(d.Texts, t)
}

// levelWords says how high over the base a piece stands: in the model, and in the set.
func (c *CardModel) levelWords(level float64) string {
	words := "up "
	if level < 0 {
		words, level = "below ", -level
	}
	u := c.set.Units
	if u.Imperial() {
		return words + inches(level) + " (" + unit.FormatLength(level*c.Model.Scale, u, unit.Sixteenth) + ")"
	}
	return words + unit.FormatNumber(level, 0.1) + " mm (" + unit.FormatLength(level*c.Model.Scale, u, 1) + ")"
}

// layBase lays the base sheet over pages; nil where there is none.
func (c *CardModel) layBase() (*grid.Plan, error) {
	if !c.hasBase() {
		return nil, nil
	}
	s := c.set
	info := grid.Info{
		Set: s.Name, Production: s.Production, Letter: s.Letter, Date: s.Date, Trial: s.Trial,
		Units: s.Units, Sides: s.SideNames(), Scale: c.Model.Scale, ScaleWords: c.opt.ScaleWords,
	}
	drawings := []*drawing.Drawing{c.base()}
	if c.apart {
		d := &drawing.Drawing{View: "base", Name: "people", Title: "Scale figures", Hold: "cut out, fold the foot back and glue it on"}
		drawPeople(d, c.people)
		drawings = append(drawings, d)
	}
	return grid.Build(drawings, info, grid.Options{Paper: c.opt.Paper, Margins: c.opt.Margins, Lap: grid.DefaultLap})
}
