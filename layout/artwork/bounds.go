package artwork

import (
	"math"

	"markout/layout/geom"
)

// Bounds returns a box that holds all that a node paints: of shapes the box of their outlines with the most that their lines can reach
// beyond it, of a group its nodes' within its clip's.
func Bounds(n Node) geom.Rect { return clipBoxes{}.node(n) }

// clipBoxes are the boxes of clips that are known: one clip may stand in many others, those again in many.
type clipBoxes map[*Clip]geom.Rect

func (b clipBoxes) node(n Node) geom.Rect {
	switch n := n.(type) {
	case *Group:
		box := geom.EmptyRect()
		for _, k := range n.Nodes {
			box = box.Union(b.node(k))
		}
		if n.Clip != nil {
			box = common(box, b.clip(n.Clip))
		}
		return box
	case *Shape:
		box := outlines(n.Paths)
		if s := n.Stroke; s != nil && !box.Empty() {
			box = box.Grow(s.reach())
		}
		return box
	case *Image:
		box := geom.EmptyRect()
		for _, q := range squareCorners {
			box = box.Include(n.Frame.Apply(q))
		}
		return box
	}
	return geom.EmptyRect()
}

func outlines(paths []*geom.Path) geom.Rect {
	box := geom.EmptyRect()
	for _, p := range paths {
		box = box.Union(p.Bounds())
	}
	return box
}

// reach is how far a line covers beyond its path: half its width, more at the points of mitred corners and of square ends.
func (s *Stroke) reach() float64 {
	k := 1.0
	if s.Join == Miter {
		k = max(k, s.MiterLimit)
	}
	if s.Cap == Square {
		k = max(k, math.Sqrt2)
	}
	long := math.Sqrt(s.Pen.A*s.Pen.A + s.Pen.B*s.Pen.B + s.Pen.C*s.Pen.C + s.Pen.D*s.Pen.D) // at least the pen's longer axis
	return s.Width / 2 * k * long
}

func (b clipBoxes) clip(c *Clip) geom.Rect {
	if box, known := b[c]; known {
		return box
	}
	box := geom.EmptyRect()
	for _, o := range c.Outlines {
		area := outlines(o.Paths)
		if o.Clip != nil {
			area = common(area, b.clip(o.Clip))
		}
		box = box.Union(area)
	}
	if c.Clip != nil {
		box = common(box, b.clip(c.Clip))
	}
	b[c] = box
	return box
}

// common returns what two boxes share; it is empty where they share nothing.
func common(a, b geom.Rect) geom.Rect {
	return geom.Rect{
		Min: geom.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: geom.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
	}
}
