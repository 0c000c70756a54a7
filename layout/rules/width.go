package rules

import (
	"math"

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
	h := geom.Hull(o.Path.Flatten(solid.Flatness, nil))
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
