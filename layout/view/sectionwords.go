package view

import (
	"math"

	"github.com/peterstace/simplefeatures/rtree"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// words names a stack, with its lowest level, at a place where it can be seen: near the middle of its lower part.
func (c *sectioner) words(tree *rtree.RTree, stack []int) {
	box := geom.EmptyRect()
	for _, i := range stack {
		for _, k := range c.of[i] {
			box = box.Union(c.solids[k].box)
		}
	}
	if box.Empty() {
		return
	}
	title := StackName(c.r, stack)
	if tags := StackTags(c.r, stack); tags != "" {
		title = tags + " " + title
	}
	c.stack(c.seen(tree, stack, geom.Point{X: box.Mid().X, Y: box.Min.Y + box.H()/4}), name(title, drawing.Lettering3_5),
		word("lowest "+level(c.s, stackLowest(c.r, stack)), drawing.Lettering2_5))
}

// seen returns the place nearest to want where a stack is not hidden, of a grid over it; want where none is found.
func (c *sectioner) seen(tree *rtree.RTree, stack []int, want geom.Point) geom.Point {
	const steps = 9
	best, at := math.Inf(1), want
	for _, i := range stack {
		for _, k := range c.of[i] {
			over := c.nearer(tree, k)
			b := c.solids[k].box
			try := func(q geom.Point) {
				d := q.Dist(want)
				if d >= best || !c.solids[k].holds(q) {
					return
				}
				for _, o := range over {
					if c.solids[o].holds(q) {
						return
					}
				}
				best, at = d, q
			}
			try(want)
			for x := 1; x < steps; x++ {
				for y := 1; y < steps; y++ {
					try(geom.Point{X: b.Min.X + b.W()*float64(x)/steps, Y: b.Min.Y + b.H()*float64(y)/steps})
				}
			}
		}
	}
	return at
}

// holds reports whether a place lies in a profile.
func (p *profile) holds(q geom.Point) bool {
	for k, e := range p.edge {
		if p.edge[(k+1)%len(p.edge)].Sub(e).Cross(q.Sub(e)) < 0 {
			return false
		}
	}
	return true
}

// floors draws the walking floor, the room's floor overhead, and the headroom wanted, and says which way the section's ends lie.
func (c *sectioner) floors() {
	sh := c.r.Shape
	beyond := (c.right - c.left) * 0.08
	c.own(c.r.Element)
	line := func(z float64, n pen, says string) {
		c.stroke(polyline(geom.Point{X: c.left - beyond, Y: z}, geom.Point{X: c.right + beyond, Y: z}), n)
		t := word(says, drawing.Lettering2_5)
		t.At, t.Offset, t.Align = c.freeEnd(z, beyond)
		c.text(t)
	}
	line(sh.Overhead, hungEdge, "FLOOR of "+c.r.Element.Name+" "+level(c.s, sh.Overhead))
	line(sh.Stand, groundLine, "WALKING FLOOR "+level(c.s, sh.Stand))
	if sh.Headroom > 0 {
		line(sh.Stand+sh.Headroom, headroomLine, "HEADROOM WANTED "+figure(c.s, sh.Headroom))
	}
	if !c.alongside {
		c.stroke(polyline(geom.Point{Y: sh.Stand}, geom.Point{Y: sh.Overhead}), datumLine)
	}
	c.end(geom.Point{X: c.left - beyond, Y: sh.Stand}, -1, drawing.AlignLeft)
	c.end(geom.Point{X: c.right + beyond, Y: sh.Stand}, 1, drawing.AlignRight)
	c.nobody()
}

// freeEnd is where the words of a level line stand: above or beneath its left or its right end, where fewest profiles come, as far as
// that can be told before the scale is known.
func (c *sectioner) freeEnd(z, beyond float64) (at, offset geom.Point, align drawing.Align) {
	wide, high := (c.right-c.left)*0.3, (c.right-c.left)*0.03
	left, right := c.left-beyond, c.right+beyond
	fewest := math.MaxInt
	for _, e := range []struct {
		box    geom.Rect
		offset float64
		align  drawing.Align
	}{
		{geom.Rect{Min: geom.Point{X: left, Y: z}, Max: geom.Point{X: left + wide, Y: z + high}}, 1, drawing.AlignLeft},
		{geom.Rect{Min: geom.Point{X: right - wide, Y: z}, Max: geom.Point{X: right, Y: z + high}}, 1, drawing.AlignRight},
		{geom.Rect{Min: geom.Point{X: left, Y: z - high}, Max: geom.Point{X: left + wide, Y: z}}, -drawing.Lettering2_5 - 1, drawing.AlignLeft},
		{geom.Rect{Min: geom.Point{X: right - wide, Y: z - high}, Max: geom.Point{X: right, Y: z}}, -drawing.Lettering2_5 - 1, drawing.AlignRight},
	} {
		n := 0
		for k := range c.solids {
			if b := &c.solids[k].box; b.Max.X > e.box.Min.X && b.Min.X < e.box.Max.X && b.Max.Y > e.box.Min.Y && b.Min.Y < e.box.Max.Y {
				n++
			}
		}
		if n < fewest {
			fewest, offset, align = n, geom.Point{Y: e.offset}, e.align
			at = geom.Point{X: left, Y: z}
			if align == drawing.AlignRight {
				at.X = right
			}
		}
	}
	return at, offset, align
}

// end says towards which side of the plan an end of the section lies; way is 1 at the right end, −1 at the left.
func (c *sectioner) end(at geom.Point, way float64, align drawing.Align) {
	v := geom.Point{X: way}
	if c.alongside {
		v = geom.Point{Y: way}
	}
	t := word(towards(c.s, c.r.Frame.Plan().Vector(v)), drawing.Lettering2_5)
	t.At, t.Offset, t.Align = at, geom.Point{Y: 2*drawing.Lettering2_5 + 1}, align
	c.text(t)
}

// towards names the side of the plan that a direction points to, the nearest of the four.
func towards(s *set.Set, v geom.Point) string {
	sides := s.SideNames()
	switch {
	case v.X >= math.Abs(v.Y)-geom.Tolerance:
		return sides.PlusWord
	case -v.X >= math.Abs(v.Y)-geom.Tolerance:
		return sides.MinusWord
	case v.Y > 0:
		return "UPSTAGE"
	}
	return "DOWNSTAGE"
}
