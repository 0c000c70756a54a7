package tiling

import (
	"slices"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
)

// How far white reaches beyond a line, and beyond a word, that lies on artwork, in millimetres.
const (
	offLine = 0.5
	offWord = 0.6
)

// White is the tone of paper.
const White drawing.Tone = 1

// SetOff lays white under the lines and words of a layer or form, so that they are read on dark artwork. Forms that it shows are left as they
// are; dashes get white between them too.
func SetOff(c *Content) {
	for i := range c.Texts {
		t := &c.Texts[i]
		if t.Hidden || t.Text == "" {
			continue
		}
		corners := t.Corners()
		c.Fills = append(c.Fills, Fill{Tone: White, Rings: [][]geom.Point{widened(corners[:], offWord)}})
	}
	n := len(c.Strokes)
	off := make([]Stroke, 0, 2*n)
	for _, s := range c.Strokes {
		if len(s.Runs) > 0 && s.Pen.Tone != White {
			off = append(off, Stroke{Pen: Pen{Width: s.Pen.Width + 2*offLine, Tone: White}, Runs: slices.Clone(s.Runs)})
		}
	}
	c.Strokes = append(off, c.Strokes...)
}

// widened returns a rectangle's corners, in order, moved out along its diagonals' sides by d.
func widened(c []geom.Point, d float64) []geom.Point {
	x, y := c[1].Sub(c[0]).Unit().Mul(d), c[3].Sub(c[0]).Unit().Mul(d)
	return []geom.Point{c[0].Sub(x).Sub(y), c[1].Add(x).Sub(y), c[2].Add(x).Add(y), c[3].Sub(x).Add(y)}
}

// BoxThrough returns the box of a box's image under an affine map.
func BoxThrough(m artwork.Matrix, b geom.Rect) geom.Rect {
	out := geom.EmptyRect()
	for _, q := range [4]geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		out = out.Include(m.Apply(q))
	}
	return out
}
