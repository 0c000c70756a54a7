package geom

import (
	overlay "github.com/peterstace/simplefeatures/geom"
)

// Coarse returns the region with fewer corners: straight outlines no farther than tol from its own (Ramer, Douglas and Peucker).
// A hole that shrinks to nothing is left out. Where the outlines would cross themselves or one another the region comes back as it is, and ok is false.
func (r Region) Coarse(tol float64) (coarse Region, ok bool) {
	rings := make([]overlay.LineString, 0, 1+len(r.Holes))
	for _, p := range r.paths() {
		var flat []float64
		points := p.Flatten(tol/2, nil)
		for i, q := range points {
			if i == 0 || q != points[i-1] {
				flat = append(flat, q.X, q.Y)
			}
		}
		if n := len(flat); n >= 2 && (flat[0] != flat[n-2] || flat[1] != flat[n-1]) {
			flat = append(flat, flat[0], flat[1])
		}
		rings = append(rings, overlay.NewLineString(overlay.NewSequence(flat, overlay.DimXY)))
	}
	g, err := overlay.NewPolygon(rings).Simplify(tol / 2)
	if err != nil || g.IsEmpty() {
		return r, false
	}
	out := Region{Outer: outlineOf(g.ExteriorRing(), 1)}
	for i := range g.NumInteriorRings() {
		out.Holes = append(out.Holes, outlineOf(g.InteriorRingN(i), -1))
	}
	return out, true
}
