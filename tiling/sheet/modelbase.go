package sheet

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/unit"
	"markout/tiling"
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

// datumStart is where a centre or setting line that reaches to lo begins: a whole number of dash patterns from 0,0, so that no dash
// moves where the base sheet grows.
func datumStart(lo float64) float64 {
	pattern := 0.0
	for _, x := range tiling.PenOf(drawing.LongDashDot, drawing.NarrowLine, drawing.Black).Dash {
		pattern += x
	}
	return math.Ceil(lo/pattern) * pattern
}

// base draws the base sheet: every footprint, what stands higher dashed with its level, holes for rods to be cut, the centre line
// and the setting line; and the footprints' names, each whole on one of the pages that show the windows in, without which there are
// no names.
func (c *CardModel) base(in []geom.Rect) *drawing.Drawing {
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
		line(reg, straight(geom.Point{Y: datumStart(box.Min.Y)}, geom.Point{Y: box.Max.Y}), drawing.LongDashDot, drawing.NarrowLine)
	}
	if box.Min.Y <= 0 && box.Max.Y >= 0 {
		d.Texts = append(d.Texts, drawing.Text{Mark: says, At: geom.Point{X: box.Min.X + 1, Y: 1}, Height: drawing.Lettering1_8, Text: "setting line"})
		line(reg, straight(geom.Point{X: datumStart(box.Min.X)}, geom.Point{X: box.Max.X}), drawing.LongDashDot, drawing.NarrowLine)
	}
	lines := c.footLines()
	if !c.apart {
		for i := range c.people {
			lines = append(lines, boxLine(c.people[i].box()))
		}
	}
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
		lines = c.sayLevel(d, f, raised, lines)
		if len(in) > 0 {
			c.nameFootprint(d, f, raised, lines, in)
		}
	}
	if !c.apart {
		drawPeople(d, c.people)
	}
	return d
}

// smallFootprint is the lesser side in millimetres under which what is said of a footprint stands beside it.
const smallFootprint = 12.0

// largestArea returns a footprint's largest part, and whether words stand in its middle.
func largestArea(f develop.Footprint) (b geom.Rect, inside bool) {
	largest := slices.MaxFunc(f.Areas, func(a, b geom.Region) int { return cmp.Compare(a.Area(), b.Area()) })
	b = largest.Bounds()
	return b, min(b.W(), b.H()) >= smallFootprint && largest.Contains(b.Mid())
}

// sayLevel writes how high a raised footprint lies into it, below its middle, or beside a small one, and returns the lines with the
// box of what it wrote. What is said does not depend on names, which are furniture.
func (c *CardModel) sayLevel(d *drawing.Drawing, f develop.Footprint, raised bool, lines []footLine) []footLine {
	if !raised {
		return lines
	}
	b, inside := largestArea(f)
	t := drawing.Text{Mark: drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: -1}, Text: c.levelWords(f.Level)}
	c.putFootWords(&t, b, inside, true, -0.3, lines)
	d.Texts = append(d.Texts, t)
	return append(lines, textLine(&t))
}

// nameFootprint writes an element's name into its footprint, or beside a small one, whole in one of the windows.
func (c *CardModel) nameFootprint(d *drawing.Drawing, f develop.Footprint, raised bool, lines []footLine, in []geom.Rect) {
	b, inside := largestArea(f)
	t := drawing.Text{Mark: drawing.Mark{Layer: drawing.Notes, Role: drawing.Name, Owner: -1}, Text: f.Element}
	c.putFootWords(&t, b, inside, raised, 1.3, lines)
	t.At = t.At.Add(intoOne(textLine(&t).box, in))
	d.Texts = append(d.Texts, t)
}

// putFootWords places words of a footprint whose box is b: in its middle, off it upwards by off heights where others share it, or
// beside it.
func (c *CardModel) putFootWords(t *drawing.Text, b geom.Rect, inside, shared bool, off float64, lines []footLine) {
	if !inside {
		t.Height, t.Align = drawing.Lettering1_8, drawing.AlignLeft
		t.At = besideFootprint(b, lines, lettering.Width(t.Text, t.Height, false), t.Height)
		return
	}
	t.Height, t.Align, t.At = drawing.Lettering2_5, drawing.AlignMiddle, b.Mid()
	if shared {
		t.At.Y += (off - 0.5) * t.Height
	}
	if half := lettering.Width(t.Text, t.Height, false)/2 + 1.5; math.Abs(t.At.X) < half {
		t.At.X = half // beside the centre line
	}
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
	bare, err := c.basePages(c.base(nil))
	if err != nil {
		return nil, err
	}
	drawings := []*drawing.Drawing{c.base(windows(bare, 0))}
	if c.apart {
		d := &drawing.Drawing{View: "base", Name: "people", Title: "Scale figures", Hold: "cut out, fold the foot back and glue it on"}
		drawPeople(d, c.people)
		drawings = append(drawings, d)
	}
	return c.basePages(drawings...)
}

// basePages lays drawings at the model's scale over pages.
func (c *CardModel) basePages(drawings ...*drawing.Drawing) (*grid.Plan, error) {
	s := c.set
	info := grid.Info{
		Set: s.Name, Production: s.Production, Letter: s.Letter, Date: s.Date, Trial: s.Trial,
		Units: s.Units, Sides: s.SideNames(), Scale: c.Model.Scale, ScaleWords: c.opt.ScaleWords,
	}
	opt := grid.Options{Paper: c.opt.Paper, Margins: c.opt.Margins, Lap: grid.DefaultLap, Stamps: c.opt.Stamps}
	if c.opt.Since != nil {
		opt.Since = c.opt.Since.Base
	}
	return grid.Build(drawings, info, opt)
}

// onBase names the elements whose footprints a window of the base sheet shows, without their copies' numbers.
func (c *CardModel) onBase(window geom.Rect) string {
	var names []string
	for _, f := range c.Model.Base {
		shown := slices.ContainsFunc(f.Areas, func(r geom.Region) bool { return window.Overlaps(r.Bounds()) })
		if n := baseName(f.Element); shown && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, ",")
}
