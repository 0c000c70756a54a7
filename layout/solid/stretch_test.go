package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
)

// What is cut never takes a cone for less than it is, and its upper face can be stood on.
func TestTaperedHoldsTheCone(t *testing.T) {
	for _, c := range []*set.Cone{{Lower: 900, Height: 800}, {Lower: 300, Upper: 450, Height: 420, Sides: 4}, {Lower: 500, Upper: 500, Height: 20, Sides: 5}} {
		volume, stood := 0.0, 0.0
		for _, p := range tapered(c) {
			if p.stood {
				stood += p.region.Area()
			}
			if !p.stood || c.Upper > c.Lower {
				volume += p.region.Area() * (p.top - p.under)
			}
		}
		area := func(d float64) float64 { return math.Abs(c.Rim(d).Path.Area()) }
		// A frustum of a cone or pyramid: h/3 (A + B + √AB).
		a, b := area(c.Lower), area(c.Upper)
		exact := c.Height / 3 * (a + b + math.Sqrt(a*b))
		require.GreaterOrEqual(t, volume, exact*(1-1e-12))
		require.LessOrEqual(t, volume, exact+max(a, b)*c.Height/slabs)
		require.InDelta(t, b, stood, 1e-6)
	}
}
