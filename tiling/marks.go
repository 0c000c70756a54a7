package tiling

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
)

// Thin is the pen of everything on a page that is measured by and not cut: crosses, ticks, check bars.
var Thin = Pen{Width: drawing.NarrowLine}

// Polyline adds a run of straight lines. Its points are copied into the page's memory, or into their own where mem is nil.
func (c *Content) Polyline(mem *Page, pen Pen, closed bool, points ...geom.Point) {
	var own []geom.Point
	if mem != nil {
		own = mem.Arena(len(points))
	} else {
		own = make([]geom.Point, len(points))
	}
	copy(own, points)
	s := c.Stroke(pen)
	s.Runs = append(s.Runs, Run{Points: own, Closed: closed})
}

// Line adds one straight line.
func (c *Content) Line(mem *Page, pen Pen, x0, y0, x1, y1 float64) {
	c.Polyline(mem, pen, false, geom.Point{X: x0, Y: y0}, geom.Point{X: x1, Y: y1})
}

// Cross adds a registration cross: full, its four arms equal.
func (c *Content) Cross(mem *Page, at geom.Point, arm float64) {
	c.Line(mem, Thin, at.X-arm, at.Y, at.X+arm, at.Y)
	c.Line(mem, Thin, at.X, at.Y-arm, at.X, at.Y+arm)
}

const barWords = drawing.Lettering3_5

// BarHalf is half the length of a check bar's end ticks.
const BarHalf = 2.0

// BarBreadth is how much room a check bar takes across its length: its ticks and its words beside it.
const BarBreadth = 2*BarHalf + 1 + barWords*1.25

// CheckBar adds a bar of a length that proves the scale, and its end ticks: level, or upright. Its box has its lower left corner
// at 0,0 and is length by BarBreadth: the bar runs BarHalf above its lower edge, or BarHalf left of its right one, and its words
// stand above it, or left of it and read upwards.
func CheckBar(c *Content, length float64, upright bool, words string) {
	turn := func(x, y float64) geom.Point {
		if upright {
			return geom.Point{X: BarBreadth - BarHalf - y, Y: x}
		}
		return geom.Point{X: x, Y: BarHalf + y}
	}
	for _, ends := range [3][2]geom.Point{
		{turn(0, 0), turn(length, 0)},
		{turn(0, -BarHalf), turn(0, BarHalf)},
		{turn(length, -BarHalf), turn(length, BarHalf)},
	} {
		c.Polyline(nil, Thin, false, ends[0], ends[1])
	}
	t := Text{At: turn((length-lettering.Width(words, barWords, false))/2, BarHalf+0.5), Height: barWords, Text: words}
	if upright {
		t.Turn = 90
	}
	c.Texts = append(c.Texts, t)
}

// Arrow adds an arrow from a to b with a filled head.
func (c *Content) Arrow(mem *Page, pen Pen, a, b geom.Point, head float64) {
	u := b.Sub(a).Unit()
	if u == (geom.Point{}) {
		return
	}
	base := b.Sub(u.Mul(head))
	side := u.Left().Mul(head / 3)
	c.Polyline(mem, pen, false, a, base)
	c.Fills = append(c.Fills, Fill{Tone: pen.Tone, Rings: [][]geom.Point{{b, base.Add(side), base.Sub(side)}}})
}

// Box returns the four corners of a box, anticlockwise.
func Box(r geom.Rect) []geom.Point {
	return []geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}
