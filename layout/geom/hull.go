package geom

import (
	"cmp"
	"math"
	"slices"
)

// Hull returns the corners of the convex hull of points, anticlockwise, without points on its sides (Andrew's monotone chain): fewer
// than three corners where the points lie on a line.
func Hull(points []Point) []Point {
	pts := slices.Clone(points)
	slices.SortFunc(pts, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	pts = slices.Compact(pts)
	if len(pts) < 3 {
		return pts
	}
	half := func(next func(i int) Point) []Point {
		var out []Point
		for i := range pts {
			p := next(i)
			for len(out) > 1 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:max(len(out)-1, 0)]
	}
	lower := half(func(i int) Point { return pts[i] })
	return append(lower, half(func(i int) Point { return pts[len(pts)-1-i] })...)
}

// LeastBox returns the sides of the rectangle of least area, turned as it may be, that holds points: the shorter first, millimetres. Of
// equal areas it is that along the earliest side of their hull.
func LeastBox(points []Point) (narrow, long float64) {
	h := Hull(points)
	if len(h) < 2 {
		return 0, 0
	}
	least := math.Inf(1)
	// One side of the box lies along a side of the hull (Freeman and Shapira, 1975).
	for i, p := range h {
		d := h[(i+1)%len(h)].Sub(p).Unit()
		lo, hi, up := math.Inf(1), math.Inf(-1), 0.0
		for _, q := range h {
			a := d.Dot(q.Sub(p))
			lo, hi, up = min(lo, a), max(hi, a), max(up, math.Abs(d.Cross(q.Sub(p))))
		}
		if area := (hi - lo) * up; area < least-Tolerance {
			least, narrow, long = area, min(hi-lo, up), max(hi-lo, up)
		}
	}
	return narrow, long
}
