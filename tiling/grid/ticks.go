package grid

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/unit"
	"markout/tiling"
)

// tick is a mark at an absolute distance, at so much from its window's beginning.
type tick struct {
	at    float64
	text  string
	width float64
}

const (
	tickLong = 4.0 // of a mark
	tickGap  = 1.0 // from a mark to its figure
	tickText = drawing.Lettering2_5
)

// tickStep returns how far ticks stand apart along a stretch, millimetres: round figures of the set's unit, at least two or three
// on every page.
func tickStep(length float64, imperial bool) float64 {
	switch {
	case imperial && length < 14*25.4:
		return 3 * 25.4
	case imperial && length < 60*25.4:
		return 6 * 25.4
	case imperial:
		return 12 * 25.4
	case length < 240:
		return 50
	case length < 1500:
		return 100
	}
	return 250
}

// scaledStep returns how far apart in the set ticks stand on paper at a scale: a round figure, at least 30 mm on the paper.
func scaledStep(by float64, imperial bool) float64 {
	const apart = 30.0
	round, last := [...]float64{50, 100, 250, 500, 1000, 2000, 5000, 10000, 20000}, 50000.0
	if imperial {
		const foot = 304.8
		round, last = [...]float64{foot / 4, foot / 2, foot, 2 * foot, 5 * foot, 10 * foot, 20 * foot, 50 * foot, 100 * foot}, 200*foot
	}
	for _, s := range round {
		if s >= apart*by {
			return s
		}
	}
	return max(last, math.Ceil(apart*by/last)*last)
}

// ticks returns the marks between two places, counted from zero.
func (g *grid) ticks(zero, from, to float64, plus, minus string) []tick {
	if g.datum == (drawing.Datum{}) { // they would count from nothing
		return nil
	}
	by := g.info.scale()
	step := tickStep(to-from, g.info.Units.Imperial())
	if g.info.Scale > 0 {
		step = scaledStep(by, g.info.Units.Imperial()) / by
	}
	var out []tick
	for k := math.Ceil(from / step); k*step <= to; k++ {
		x := k * step
		t := tick{at: x - zero, text: tickFigure(x*by, g.info.Units, plus, minus)}
		t.width = lettering.Width(t.text, tickText, false)
		out = append(out, t)
	}
	return out
}

// tickFigure is a distance with its letter, and never a minus sign.
func tickFigure(x float64, u unit.System, plus, minus string) string {
	figure := unit.FormatLength(math.Abs(x), u, 0.1)
	switch letter := plus; {
	case math.Abs(x) < geom.Tolerance:
		return figure
	case x < 0 && minus == "":
		return figure + " before 0"
	default:
		if x < 0 {
			letter = minus
		}
		if letter == "" {
			return figure
		}
		return figure + " " + letter
	}
}

// showTicks draws the marks along the page's edges, each where it and its figure are clear: at the left and the lower seam, else at
// the other, else on the page wherever there is room, since a mark is true all along its line.
func (m *maker) showTicks() {
	a, b := m.inner.Min, m.inner.Max
	for i := range m.xTicks {
		t := &m.xTicks[i]
		x := t.at + m.live.Min.X
		if !m.tickUp(t, x, a.Y, false) && !m.tickUp(t, x, b.Y-tickLong, false) {
			m.tickUp(t, x, a.Y, true)
		}
	}
	for i := range m.yTicks {
		t := &m.yTicks[i]
		y := t.at + m.live.Min.Y
		if !m.tickAcross(t, a.X, y, true, false) && !m.tickAcross(t, b.X, y, false, false) {
			m.tickAcross(t, a.X, y, true, true)
		}
	}
}

// tickUp draws an upright mark from y upwards, its figure to the right or the left; where search is set, at the first clear
// place above y.
func (m *maker) tickUp(t *tick, x, y float64, search bool) bool {
	end := y
	if search {
		end = m.inner.Max.Y - tickLong
	}
	for ; y <= end; y += m.room.each {
		for _, left := range [2]float64{x + tickGap, x - tickGap - t.width} {
			box := geom.Rect{Min: geom.Point{X: min(left, x-0.3), Y: y}, Max: geom.Point{X: max(left+t.width, x+0.3), Y: y + tickLong}}
			if m.room.free(box) {
				m.mark(x, y, x, y+tickLong, geom.Point{X: left, Y: y + (tickLong-tickText)/2}, t.text, box)
				return true
			}
		}
	}
	return false
}

// tickAcross draws a level mark from x to the right, or to the left, its figure beyond it.
func (m *maker) tickAcross(t *tick, x, y float64, right, search bool) bool {
	end := x
	if search {
		end = m.inner.Max.X - tickLong
	}
	for ; x <= end; x += m.room.each {
		left, text := x, x+tickLong+tickGap
		if !right {
			left, text = x-tickLong, x-tickLong-tickGap-t.width
		}
		box := geom.Rect{Min: geom.Point{X: min(left, text), Y: y - tickText/2 - 0.3}, Max: geom.Point{X: max(left+tickLong, text+t.width), Y: y + tickText/2 + 0.3}}
		if m.room.free(box) {
			m.mark(left, y, left+tickLong, y, geom.Point{X: text, Y: y - tickText/2}, t.text, box)
			return true
		}
	}
	return false
}

func (m *maker) mark(x0, y0, x1, y1 float64, at geom.Point, text string, box geom.Rect) {
	c := &m.page.Layers[drawing.Registration]
	c.Line(m.page, tiling.Thin, x0, y0, x1, y1)
	c.Write(at, tickText, false, text)
	m.room.take(box)
}
