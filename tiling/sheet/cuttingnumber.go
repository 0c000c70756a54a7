package sheet

import (
	"math"
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// cutNumbers are the heights that a cut's number may have, the best first.
var cutNumbers = [...]float64{drawing.Lettering2_5, drawing.Lettering1_8}

// numberCuts writes every cut's number in a ring on its line, over the line, where it keeps clear of what is written already: near
// the cut's end if it can, otherwise further along, otherwise where it covers least.
func (s *boardSheet) numberCuts(p *tiling.Page) {
	notes, over := &p.Layers[drawing.Notes], &p.Layers[drawing.Cut] // over the cuts, which are drawn last
	taken := make([]geom.Rect, 0, len(notes.Texts)+len(s.cuts))
	for i := range notes.Texts {
		box := geom.EmptyRect()
		for _, c := range notes.Texts[i].Corners() {
			box = box.Include(c)
		}
		taken = append(taken, box)
	}
	for _, k := range s.cuts {
		text := strconv.Itoa(k.number)
		at, h := clearPlace(s.at.to(k.a), s.at.to(k.b), text, taken)
		w, r := lettering.Width(text, h, true), ringRadius(text, h)
		white := r - drawing.NarrowLine // within the ring: a stroke lies over the cut's line, where a fill would lie under it
		over.Polyline(p, tiling.Pen{Width: white, Tone: 1}, true, circle(at, white/2)...)
		over.Polyline(p, tiling.Thin, true, circle(at, r)...)
		over.Texts = append(over.Texts, tiling.Text{At: geom.Point{X: at.X - w/2, Y: at.Y - h/2}, Height: h, Bold: true, Text: text})
		taken = append(taken, square(at, r))
	}
}

// ringRadius is the radius of the ring round a number.
func ringRadius(text string, h float64) float64 {
	return math.Hypot(lettering.Width(text, h, true), h)/2 + 0.5
}

func circle(at geom.Point, r float64) []geom.Point {
	ring := make([]geom.Point, 24)
	for i := range ring {
		ring[i] = at.Add(geom.Polar(r, 2*math.Pi*float64(i)/float64(len(ring))))
	}
	return ring
}

// square is the box round a ring.
func square(at geom.Point, r float64) geom.Rect {
	return geom.Rect{Min: at.Sub(geom.Point{X: r, Y: r}), Max: at.Add(geom.Point{X: r, Y: r})}
}

// clearPlace looks for a ring's middle along a cut from a to b, and for the height of its number.
func clearPlace(a, b geom.Point, text string, taken []geom.Rect) (geom.Point, float64) {
	const first, step = 4.0, 1.0
	long := a.Dist(b)
	back := a.Sub(b).Unit()
	best, height, least := b.Lerp(a, 0.5), cutNumbers[len(cutNumbers)-1], math.Inf(1)
	for _, h := range cutNumbers {
		r := ringRadius(text, h)
		for _, from := range [2]float64{min(first, long/2), 0} { // the very end only where nothing else is clear
			for d := from; d <= long && (from > 0 || d < first); d += step {
				at := b.Add(back.Mul(d))
				covers := 0.0
				for _, t := range taken {
					box := square(at, r)
					x := min(box.Max.X, t.Max.X) - max(box.Min.X, t.Min.X)
					y := min(box.Max.Y, t.Max.Y) - max(box.Min.Y, t.Min.Y)
					if x > 0 && y > 0 {
						covers += x * y
					}
				}
				if covers < least {
					best, height, least = at, h, covers
				}
				if covers == 0 {
					return best, height
				}
			}
		}
	}
	return best, height
}
