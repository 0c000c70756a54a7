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

// Measures of a check bar, in millimetres.
const (
	barTick  = 4.0 // end ticks, half to each side of the bar
	barWords = drawing.Lettering3_5
)

// BarBreadth is how much room a check bar takes across its length: its ticks and its words beside it.
const BarBreadth = barTick + 1 + barWords*1.25

// CheckBar adds a bar of a length that proves the scale, and its end ticks: along x from 0,0, or along y where upright.
// Its words stand above the bar, or to the left of an upright one and read upwards, so that the box is Length +
// line widths by BarBreadth, the bar half a tick from its lower (right) edge.
func CheckBar(c *Content, length float64, upright bool, words string) {
	turn := func(x, y float64) geom.Point {
		if upright {
			return geom.Point{X: -y, Y: x}
		}
		return geom.Point{X: x, Y: y}
	}
	for _, ends := range [3][2]geom.Point{
		{turn(0, 0), turn(length, 0)},
		{turn(0, -barTick/2), turn(0, barTick/2)},
		{turn(length, -barTick/2), turn(length, barTick/2)},
	} {
		c.Polyline(nil, Thin, false, ends[0], ends[1])
	}
	t := Text{At: turn((length-lettering.Width(words, barWords, false))/2, barTick/2+0.5), Height: barWords, Text: words}
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
