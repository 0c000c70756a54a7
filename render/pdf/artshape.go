package pdf

import (
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// nodes appends what of nodes meets the window.
func (c *canvas) nodes(nodes []artwork.Node) {
	for _, n := range nodes {
		if c.err != nil {
			return
		}
		box := c.box(n)
		if box.Empty() || !box.Overlaps(c.window) {
			continue
		}
		switch n := n.(type) {
		case *artwork.Shape:
			c.shape(n)
		case *artwork.Group:
			c.together(n)
		case *artwork.Image:
			c.image(n)
		}
	}
}

func (c *canvas) shape(s *artwork.Shape) {
	if s.StrokeFirst && s.Stroke != nil {
		c.line(s, s.Stroke)
	}
	if s.Fill != nil {
		c.area(s, s.Fill.Paint, func() {
			if !c.paths(s.Paths) {
				return
			}
			if s.Fill.EvenOdd {
				c.put("f*\n")
			} else {
				c.put("f\n")
			}
		})
	}
	if !s.StrokeFirst && s.Stroke != nil {
		c.line(s, s.Stroke)
	}
}

// area sets a paint for areas and draws.
func (c *canvas) area(s *artwork.Shape, p artwork.Paint, draw func()) {
	if p.Gradient == nil {
		c.setFillAlpha(p.Opacity)
		c.setFill(p.Colour)
		draw()
		return
	}
	c.push()
	c.setFillAlpha(p.Opacity * c.seeThrough(s, p.Gradient))
	c.put("/Pattern cs ")
	c.name('P', c.pattern(p.Gradient, c.box(s), false))
	c.put("scn\n")
	c.coarsen(draw)
	c.pop()
}

// line draws a shape's stroke.
func (c *canvas) line(s *artwork.Shape, k *artwork.Stroke) {
	pen := k.Pen
	if pen == (artwork.Matrix{}) {
		pen = artwork.Identity()
	}
	if _, ok := pen.Inverse(); !ok || !(k.Width > 0) {
		return
	}
	if dotted(s.Paths, k) {
		c.dots(s, k)
		return
	}
	c.push()
	defer c.pop()
	if k.Gradient == nil {
		c.setStrokeAlpha(k.Opacity)
		c.setStroke(k.Colour)
	} else {
		c.setStrokeAlpha(k.Opacity * c.seeThrough(s, k.Gradient))
		c.put("/Pattern CS ")
		c.name('P', c.pattern(k.Gradient, c.box(s), false))
		c.put("SCN\n")
		c.coarsen(func() { c.stroke(s.Paths, k, pen) })
		return
	}
	c.stroke(s.Paths, k, pen)
}

// stroke draws paths with a pen.
func (c *canvas) stroke(paths []*geom.Path, k *artwork.Stroke, pen artwork.Matrix) {
	if pen != artwork.Identity() {
		pen.E, pen.F = 0, 0
		back, _ := pen.Inverse()
		c.matrix(pen, c.unit)
		bent := make([]*geom.Path, len(paths))
		for i, p := range paths {
			bent[i] = back.Path(p)
		}
		paths = bent
	}
	c.pen(k)
	if c.paths(paths) {
		c.put("S\n")
	}
}

// pen sets width, ends, corners and dashes.
func (c *canvas) pen(k *artwork.Stroke) {
	c.number(max(k.Width, 1/c.unit))
	c.put("w ")
	c.buf = appendInt(c.buf, int64([]int{artwork.Butt: 0, artwork.RoundCap: 1, artwork.Square: 2}[k.Cap]))
	c.put("J ")
	c.buf = appendInt(c.buf, int64([]int{artwork.Miter: 0, artwork.RoundJoin: 1, artwork.Bevel: 2}[k.Join]))
	c.put("j ")
	if k.Join == artwork.Miter {
		c.buf = appendSignificant(c.buf, max(k.MiterLimit, 1))
		c.put(" M ")
	}
	c.put("[")
	sum := 0.0
	for _, d := range k.Dashes {
		c.number(d)
		sum += d
	}
	c.put("]")
	if sum > 0 {
		c.number(math.Mod(k.Phase, sum))
		c.put("d\n")
	} else {
		c.put("0 d\n")
	}
}

// mostDots is the number of dashes up to which a dotted line is drawn as areas; what has more is left to the reader's dashes.
const mostDots = 10_000

// dotted reports whether a line has parts without length, which readers draw differently.
func dotted(paths []*geom.Path, k *artwork.Stroke) bool {
	period, empty := 0.0, false
	for i, d := range k.Dashes {
		period += d
		empty = empty || i%2 == 0 && d == 0
	}
	if empty {
		length := 0.0
		for _, p := range paths {
			length += p.Length()
		}
		return length <= mostDots*period/float64(len(k.Dashes))
	}
	for _, p := range paths {
		if b := p.Bounds(); !p.Empty() && b.W() == 0 && b.H() == 0 {
			return true
		}
	}
	return false
}

// dots draws a line as the area that its pen covers.
func (c *canvas) dots(s *artwork.Shape, k *artwork.Stroke) {
	c.area(s, k.Paint, func() {
		drawn := false
		for _, p := range k.Polygons(s.Paths, 2*leastGap*perMillimetre/c.unit) {
			box := geom.EmptyRect()
			for _, q := range p {
				box = box.Include(q)
			}
			if len(p) > 2 && box.Overlaps(c.window) {
				c.polygon(p)
				drawn = true
			}
		}
		if drawn {
			c.put("f\n")
		}
	})
}
