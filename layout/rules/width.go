package rules

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// leastWidth returns the least distance between two parallel lines that hold the outline between them, or something less
// that is still enough: an area is no larger than its least width times its greatest extent.
func leastWidth(o set.Outline, enough float64) float64 {
	if o.Path.Empty() {
		return 0
	}
	b := o.Path.Bounds()
	if o.Form == "circle" || o.Form == "rect" {
		return min(b.W(), b.H())
	}
	if w := math.Abs(o.Path.Area()) / math.Hypot(b.W(), b.H()); w >= enough {
		return w
	}
	h := hull(o.Path.Flatten(solid.Flatness, nil))
	if len(h) < 3 {
		return 0
	}
	// The least width has one of its lines along an edge of the hull; the corner furthest from the edge moves on as the
	// edge does.
	least, far := math.Inf(1), 1
	for i, p := range h {
		d := h[(i+1)%len(h)].Sub(p).Unit()
		away := func(k int) float64 { return d.Cross(h[k%len(h)].Sub(p)) }
		for away(far+1) > away(far) {
			far++
		}
		least = min(least, away(far))
	}
	return least
}

// hull returns the corners of the convex hull, anticlockwise.
func hull(points []geom.Point) []geom.Point {
	pts := slices.Clone(points)
	slices.SortFunc(pts, func(a, b geom.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	pts = slices.Compact(pts)
	half := func(next func(i int) geom.Point) []geom.Point {
		var out []geom.Point
		for i := range pts {
			p := next(i)
			for len(out) > 1 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:max(len(out)-1, 0)]
	}
	lower := half(func(i int) geom.Point { return pts[i] })
	return append(lower, half(func(i int) geom.Point { return pts[len(pts)-1-i] })...)
}
