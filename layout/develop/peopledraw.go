package develop

import (
	"math"

	"markout/layout/geom"
)

// node is a place that a drawn outline goes through: smoothly, or with a corner.
type node struct {
	x, y   float64
	corner bool
}

// drawn is the closed outline through nodes. Between corners it is smooth, and where it turns back in x or in y it does so
// at a node, so that no measure is overshot. A run of two corners is straight.
func drawn(nodes []node) *geom.Path {
	n := len(nodes)
	at := func(i int) geom.Point { k := nodes[(i+n)%n]; return geom.Point{X: k.x, Y: k.y} }
	tangent := func(i int) geom.Point {
		before, here, after := at(i-1), at(i), at(i+1)
		t := after.Sub(before).Mul(1.0 / 6)
		if (here.X-before.X)*(after.X-here.X) <= 0 {
			t.X = 0
		}
		if (here.Y-before.Y)*(after.Y-here.Y) <= 0 {
			t.Y = 0
		}
		// No longer than keeps the curve between its ends.
		t.X = math.Copysign(min(math.Abs(t.X), math.Abs(here.X-before.X)/2, math.Abs(after.X-here.X)/2), t.X)
		t.Y = math.Copysign(min(math.Abs(t.Y), math.Abs(here.Y-before.Y)/2, math.Abs(after.Y-here.Y)/2), t.Y)
		return t
	}
	p := geom.NewPath(at(0))
	for i := range n {
		a, b := nodes[i], nodes[(i+1)%n]
		from, to := at(i), at(i+1)
		if a.corner && b.corner {
			p.LineTo(to)
			continue
		}
		c1, c2 := from.Lerp(to, 1.0/3), to.Lerp(from, 1.0/3)
		if !a.corner {
			c1 = from.Add(tangent(i))
		}
		if !b.corner {
			c2 = to.Sub(tangent(i + 1))
		}
		p.CubicTo(c1, c2, to)
	}
	p.Close()
	return p
}

// armsApart is how far in life the arms hang from the waist; where that is too little to cut they lie on the body.
const armsApart = 45

// Of half the breadth: where the soles stand.
const soleInside, soleOutside = 0.1, 0.48

func (b build) soles() []Line {
	half := b.breadth / 2
	return []Line{
		{geom.Point{X: -soleOutside * half}, geom.Point{X: -soleInside * half}},
		{geom.Point{X: soleInside * half}, geom.Point{X: soleOutside * half}},
	}
}

// outline draws the figure from the front: the head an oval round the eyes, the shoulders as broad as published a little
// below their height, arms that hang, legs a little apart.
func (b build) outline(arms bool) *geom.Path {
	h, half, s := b.stature, b.breadth/2, b.shoulders
	head := h / b.heads
	// The right side, from the fork of the legs round to the crown.
	right := []node{
		{0, 0.465 * h, true},
		{0.13 * half, 0.29 * h, false},
		{0.1 * half, 0.2 * h, false},
		{0.17 * half, 0.045 * h, false},
		{soleInside * half, 0, true},
		{soleOutside * half, 0, true},
		{0.42 * half, 0.022 * h, false},
		{0.38 * half, 0.055 * h, false},
		{0.5 * half, 0.2 * h, false},
		{0.47 * half, 0.285 * h, false},
		{(b.hips - 0.06) * half, 0.4 * h, false},
		{b.hips * half, 0.485 * h, false},
	}
	if arms {
		right = append(right,
			node{b.waist * half, 0.6 * h, false},
			node{0.7 * half, 0.87 * s, true}, // the armpit
			node{0.775 * half, 0.66 * h, false},
			node{0.82 * half, 0.5 * h, false},
			node{0.8 * half, 0.425 * h, false},
		)
	} else {
		right = append(right, node{(b.hips + 0.05) * half, 0.5 * h, true}, node{0.8 * half, 0.43 * h, false})
	}
	right = append(right,
		node{0.85 * half, 0.385 * h, false}, // fingertips
		node{0.91 * half, 0.392 * h, false},
		node{0.955 * half, 0.43 * h, false},
		node{0.95 * half, 0.49 * h, false},
		node{0.985 * half, 0.63 * h, false},
		node{half, s - 0.075*h, false},
		node{0.93 * half, s - 0.024*h, false},
		node{0.76 * half, s, false},
		node{0.5 * half, s + 0.28*(h-head-s), false},
		node{0.27 * head, s + 0.8*(h-head-s), false},
		node{0.235 * head, h - 0.93*head, false},
		node{0.285 * head, h - 0.82*head, false},
		node{0.335 * head, h - 0.6*head, false},
		node{0.35 * head, h - 0.42*head, false},
		node{0.31 * head, h - 0.17*head, false},
		node{0.18 * head, h - 0.035*head, false},
		node{0, h, false},
	)
	nodes := right
	for i := len(right) - 2; i > 0; i-- {
		k := right[i]
		k.x = -k.x
		nodes = append(nodes, k)
	}
	return drawn(nodes)
}

// heel is where the heel of the figure that sits stands, from its back.
const heel = 455

// seated draws a man who sits, from his left, looking to the right.
func seated() *geom.Path {
	const top = seatHeight + sittingHeight
	return drawn([]node{
		{heel, 0, true}, {heel + footLength, 0, true},
		{heel + footLength - 4, 32, false}, {heel + 175, 72, false}, {heel + 100, 112, false},
		{560, 250, false}, {598, 430, false}, {606, 500, false}, {570, kneeHeight, false},
		{420, 583, false}, {300, 604, false}, {272, 660, false}, {262, 780, false}, {274, 900, false},
		{240, 1010, false}, {196, 1062, false}, {196, 1104, true},
		{226, 1108, false}, {262, 1118, false}, {268, 1150, false}, {280, 1176, true}, {296, 1184, true},
		{284, 1228, false}, {284, 1270, false}, {258, 1325, false}, {185, top, false}, {108, 1318, false},
		{84, 1250, false}, {100, 1180, false}, {112, 1120, false}, {88, 1060, false},
		{36, 960, false}, {18, 860, false}, {52, 700, false}, {36, 600, false}, {8, 520, false}, {30, 452, false},
		{80, seatHeight, true}, {400, seatHeight, true},
		{446, 400, false}, {434, 290, false}, {462, 120, false}, {456, 50, false},
	})
}
