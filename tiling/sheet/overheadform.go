package sheet

import (
	"math"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/tiling"
)

// formColumn is a column of the survey form: what is written in it, the word of the file, and its share of the width.
type formColumn struct {
	heading, word string
	share         float64
}

var formColumns = []formColumn{
	{"Tag", "tag", 5}, {"Piece", "name", 16}, {"From the middle line, to which side", "at x", 9}, {"From the front wall", "at y", 9},
	{"Above the floor, or on which piece", "level, on", 10}, {"Its front looks", "turn", 8}, {"Width", "size", 6}, {"Depth", "size", 6}, {"Height", "height", 6},
	{"Weight", "weight", 7}, {"Weighed, or about", "about", 7}, {"Fixings: how many, and where from its middle", "fixings", 16},
	{"Loose", "loose", 5}, {"Soft", "soft", 5}, {"Measured by, date", "", 10},
}

// OverheadForm makes the blank form on which a room is surveyed while it is still the right way up: a line a piece, headed by what is
// written in each column and the word that the file has for it.
func OverheadForm(s *set.Set, rooms []*overhead.Room, opt Options) (*Book, error) {
	frames, err := framesOf(opt)
	if err != nil {
		return nil, err
	}
	b := &binder{set: s, frames: frames, stamps: opt.Stamps}
	f := &frames[0]
	for _, r := range rooms {
		d := digester(s)
		d.Reset("form", "", s.Sides, geom.Rect{})
		words := formWords(s, r)
		for k, w := range words {
			d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: geom.Point{Y: float64(k)}, Text: w})
		}
		sum := d.Sum()
		b.pages = append(b.pages, page{
			entry: tiling.Entry{
				Label: r.Element.Name + " form", View: "form", Title: r.Element.Name + ": survey form", Element: r.Element.Name, Paper: f.paper,
				Mark: tiling.ContentMark(sum), Digest: sum, Size: [2]float64{f.live.W(), f.live.H()},
			},
			size: f.size,
			draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
				f.drawFrame(p)
				drawForm(p, f, r.Element.Name+": survey of what is to hang", words)
				titleStrip(p, f.strip(), s, b.titles(e, "Survey form", f, n, of))
			},
		})
	}
	return b.bind(s.Name + ", survey form"), nil
}

// formWords say how to measure.
func formWords(s *set.Set, r *overhead.Room) []string {
	m := r.Frame.Plan()
	side := func(x float64) string {
		v := m.Vector(geom.Point{X: x})
		near, _, _ := quarters(s, math.Mod(math.Atan2(v.Y, v.X)*180/math.Pi+360, 360))
		return near.word
	}
	return []string{
		overhead.Note,
		"Measure " + r.Element.Name + " the right way up, as it is dressed: from its middle line to the middle of each piece, and to which side (towards " + side(1) +
			" is more than 0 in the file, towards " + side(-1) + " less), and from its front wall. Its front looks: to the front wall is 0; say the turn anticlockwise as seen from above.",
		"Weigh each piece. What is not weighed is left blank, never 0. Write what stands on what. Lengths in one unit: ____________ Weights in: ____________",
	}
}

// drawForm draws the form's words and its lines to fill.
func drawForm(p *tiling.Page, f *frame, title string, words []string) {
	const row, head = 8.5, 22.0
	c := &p.Layers[drawing.Notes]
	left, top, width := f.live.Min.X+gap, f.live.Max.Y-gap, f.live.W()-2*gap
	c.Write(geom.Point{X: left, Y: top - tableTitle}, tableTitle, true, title)
	top -= tableTitle + 3
	for _, w := range words {
		top -= c.WriteLines(left, top, introHeight, false, lettering.Wrap(w, introHeight, false, width)) + 1.5
	}
	top -= 2
	foot := f.live.Min.Y + stripHeight + gap
	rows := max(1, int((top-head-foot)/row))
	bottom := top - head - float64(rows)*row
	total := 0.0
	for _, k := range formColumns {
		total += k.share
	}
	x := left
	for _, k := range formColumns {
		w := width * k.share / total
		c.Line(p, tiling.Thin, x, top, x, bottom)
		size, lines := drawing.Lettering2_5, []string(nil)
		for _, size = range []float64{drawing.Lettering2_5, drawing.Lettering1_8} {
			if lines = lettering.Wrap(k.heading, size, true, w-2); longestWord(k.heading, size, true) <= w-2 && len(lines) <= 4 {
				break
			}
		}
		c.WriteLines(x+1, top-1.5, size, true, lines)
		if k.word != "" {
			h, t := fitted(strings.TrimSpace(k.word), drawing.Lettering2_5, false, w-2)
			c.Texts = append(c.Texts, tiling.Text{At: geom.Point{X: x + 1, Y: top - head + 1.5}, Height: h, Tone: drawing.Grey, Text: t})
		}
		x += w
	}
	c.Line(p, tiling.Thin, x, top, x, bottom)
	c.Line(p, tiling.Pen{Width: ruleWidth}, left, top, x, top)
	c.Line(p, tiling.Pen{Width: ruleWidth}, left, top-head, x, top-head)
	for k := 1; k <= rows; k++ {
		y := top - head - float64(k)*row
		c.Line(p, tiling.Thin, left, y, x, y)
	}
}
