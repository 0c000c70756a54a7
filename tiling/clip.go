package tiling

import (
	"math"

	"markout/layout/geom"
)

// ClipSegment returns which part of the segment from a to b lies in the box, edges included: from share t0 to share t1 of
// its length. ok is false where none does.
func ClipSegment(a, b geom.Point, box geom.Rect) (t0, t1 float64, ok bool) {
	dx, dy := b.X-a.X, b.Y-a.Y
	t0, t1 = 0, 1
	for _, e := range [4][2]float64{{-dx, a.X - box.Min.X}, {dx, box.Max.X - a.X}, {-dy, a.Y - box.Min.Y}, {dy, box.Max.Y - a.Y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0:
			if q < 0 {
				return 0, 0, false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	return t0, t1, t0 <= t1
}

// OnEdge moves a place that was cut off at a box's edge exactly on to it, so that it does not depend on where its line begins.
func OnEdge(p geom.Point, box geom.Rect) geom.Point {
	near := func(x, edge float64) float64 {
		if math.Abs(x-edge) < geom.Tolerance {
			return edge
		}
		return x
	}
	return geom.Point{X: near(near(p.X, box.Min.X), box.Max.X), Y: near(near(p.Y, box.Min.Y), box.Max.Y)}
}
