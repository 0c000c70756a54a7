package sheet

import (
	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/tiling"
)

// block is something that stands beside the plan in a column: how tall it is at a width, and how it is drawn with its
// upper left corner at left, top.
type block struct {
	height func(width float64) float64
	draw   func(p *tiling.Page, left, top, width float64)
}

// paragraph is lines of lettering, broken to the column's width. The first may be bold.
type paragraph struct {
	text   string
	height float64
	bold   bool
}

// between is the distance in millimetres between paragraphs of a block.
const between = 1.5

// paragraphs are what a sheet says of what it shows: they count in its digest.
func paragraphs(ps ...paragraph) block { return paragraphsOn(drawing.Notes, ps...) }

func paragraphsOn(layer drawing.Layer, ps ...paragraph) block {
	return block{
		height: func(width float64) float64 {
			h := 0.0
			for i, q := range ps {
				if i > 0 {
					h += between
				}
				n := len(lettering.Wrap(q.text, q.height, q.bold, width))
				h += q.height * (1 + float64(n-1)*lettering.Leading)
			}
			return h + lettering.Descent*ps[len(ps)-1].height
		},
		draw: func(p *tiling.Page, left, top, width float64) {
			c := &p.Layers[layer]
			for i, q := range ps {
				if i > 0 {
					top -= between
				}
				top -= c.WriteLines(left, top, q.height, q.bold, lettering.Wrap(q.text, q.height, q.bold, width))
			}
		},
	}
}

// legendBlock shows what the lines mean, in lettering of the given height.
func legendBlock(lines []view.LegendLine, height float64) block {
	const sample = 22.0
	pitch := height * 1.75
	return block{
		height: func(width float64) float64 {
			h := height + between
			for _, l := range lines {
				n := len(lettering.Wrap(l.Says, height, false, width-sample-gap))
				h += pitch + float64(n-1)*height*lettering.Leading
			}
			return h
		},
		draw: func(p *tiling.Page, left, top, width float64) {
			c := &p.Layers[drawing.Furniture]
			c.Write(geom.Point{X: left, Y: top - height}, height, true, "LINES")
			top -= height + between
			for _, l := range lines {
				y := top - pitch/2
				c.Line(p, tiling.PenOf(l.Type, l.Width, drawing.Black), left, y, left+sample, y)
				says := lettering.Wrap(l.Says, height, false, width-sample-gap)
				c.WriteLines(left+sample+gap, y+height/2, height, false, says)
				top -= pitch + float64(len(says)-1)*height*lettering.Leading
			}
		},
	}
}

// barBlock is the scale in words and a bar of five divisions, filled by turns.
func barBlock(sc scale, u unit.System) block {
	const (
		divisions = 5
		thick     = 2.5
		words     = drawing.Lettering3_5
		figures   = drawing.Lettering2_5
		tall      = words + 2 + thick + 1.5 + figures + 1
	)
	step, label := barStep(sc, u)
	return block{
		height: func(float64) float64 { return tall },
		draw: func(p *tiling.Page, left, top, width float64) {
			c := &p.Layers[drawing.Registration]
			c.Write(geom.Point{X: left, Y: top - words}, words, true, "SCALE "+sc.text)
			y1 := top - words - 2
			y0 := y1 - thick
			n := divisions
			for n > 1 && float64(n)*step/sc.n > width-8 {
				n--
			}
			for k := 0; k <= n; k++ {
				x := left + 1 + float64(k)*step/sc.n
				t := drawing.Text{Height: figures, Align: drawing.AlignCentre, Text: label(k)}
				if k == 0 {
					t.Align = drawing.AlignLeft
				}
				c.Texts = append(c.Texts, tiling.PlaceText(&t, geom.Point{X: x, Y: y0 - 1.5 - figures}))
				if k == n {
					break
				}
				box := tiling.Box(geom.Rect{Min: geom.Point{X: x, Y: y0}, Max: geom.Point{X: x + step/sc.n, Y: y1}})
				if k%2 == 0 {
					c.Fills = append(c.Fills, tiling.Fill{Tone: drawing.Black, Rings: [][]geom.Point{box}})
				}
				c.Polyline(p, tiling.Thin, true, box...)
			}
		},
	}
}

// TapeNote is how tape lies to the line (common practice, no source).
const TapeNote = "The outside edge of the tape lies on the line, the tape inside the piece; lines with no inside are centred."

// notes are the sentences that stand on every plan.
func notes(s *set.Set, unsaid bool) []string {
	out := []string{TapeNote}
	if s.Units.Imperial() {
		out = append(out, `Lengths in feet and inches, to 1/16"; chains add up to their overall. Levels are above the floor.`)
	} else {
		out = append(out, "Lengths in "+unitsOf(s)+"; chains add up to their overall. Levels are above the floor.")
	}
	out = append(out, "Measure from centre and setting line, never from walls.")
	if len(stationsOf(s)) < 2 {
		out = append(out, "The hall has fewer than two stations: the tape table gives no distances.")
	}
	if unsaid {
		out = append(out, "Some names or figures found no room here; the tape table has them.")
	}
	return out
}

func notesBlock(lines []string, height float64) block {
	ps := []paragraph{{"NOTES", height, true}}
	for _, l := range lines {
		ps = append(ps, paragraph{l, height, false})
	}
	return paragraphs(ps...)
}

// deferBlock heads the cautions: who decides, and where they stand in full.
func deferBlock(height float64) block {
	return paragraphs(paragraph{"CAUTIONS", height, true}, paragraph{caution.Defer, height, true},
		paragraph{"In full, with their sources: sheet `cautions`.", height, false})
}

// cautionBlock says what was found and what is published.
func cautionBlock(c caution.Caution, height float64) block {
	t := c.Code
	if c.Element != "" {
		t += ", " + c.Element
	}
	says := c.Figure
	if says == "" {
		says = c.Message
	}
	t += ": " + says
	if c.Limit != "" {
		t += "; " + c.Against()
	}
	return paragraphs(paragraph{t, height, false})
}

// trialBlock says that this is no issue, and which values were changed for it.
func trialBlock(s *set.Set) block {
	ps := []paragraph{{"TRIAL", drawing.Lettering10, true}}
	for _, w := range s.With {
		ps = append(ps, paragraph{w, drawing.Lettering3_5, false})
	}
	return paragraphsOn(drawing.Furniture, ps...)
}

// flow sets the blocks into the columns, each as a whole into the first that has room, and returns how many found some:
// it stops at the first that does not.
func flow(blocks []block, columns []geom.Rect, draw *tiling.Page) int {
	tops := make([]float64, len(columns))
	for i, c := range columns {
		tops[i] = c.Max.Y
	}
next:
	for n, b := range blocks {
		for i, c := range columns {
			h := b.height(c.W())
			if tops[i]-h < c.Min.Y-geom.Tolerance {
				continue
			}
			if draw != nil {
				b.draw(draw, c.Min.X, tops[i], c.W())
			}
			tops[i] -= h + gap
			continue next
		}
		return n
	}
	return len(blocks)
}
