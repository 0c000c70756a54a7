package figures

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// A square of 400 with an arm of 300 × 20 at its right, a tail that tapers from 200 to nothing over 600 at its left, and a round
// hole of which 12 are left to the top.
func limbs() geom.Region {
	hole := geom.Circle(100).Transform(geom.Move(geom.Point{X: 200, Y: 338}, 0))
	return geom.Region{Outer: geom.Polygon([]geom.Point{{}, {X: 400}, {X: 400, Y: 100}, {X: 700, Y: 100}, {X: 700, Y: 120}, {X: 400, Y: 120},
		{X: 400, Y: 400}, {Y: 400}, {Y: 300}, {X: -600, Y: 200}, {Y: 100}}), Holes: []*geom.Path{hole}}
}

func TestThinParts(t *testing.T) {
	got := ThinParts(limbs(), 30)
	require.Len(t, got, 3)
	// The arm is lost but for what a disc of 30 that leans into its root reaches.
	require.InDelta(t, 300, got[0].Long, 10)
	require.InDelta(t, 550, got[0].At.X, 10)
	// The tail's sides meet at atan(100/600) = 9.46° to its middle: a disc of radius 15 comes to 15/sin 9.46° − 15 = 76 from its tip.
	require.InDelta(t, 76, got[1].Long, 10)
	require.Less(t, got[1].At.X, -540.0)
	// Over the hole the bridge is thinner than 30 where 50 − √(50² − x²) < 18, for 2 × 38.4.
	require.InDelta(t, 2*math.Sqrt(50*50-32*32), got[2].Long, 45)
	require.InDelta(t, 200, got[2].At.X, 5)

	got = ThinParts(limbs(), 15)
	require.Len(t, got, 2, "the arm is 20")
	got = ThinParts(geom.Region{Outer: geom.Rectangle(600, 400)}, 30)
	require.Empty(t, got, "corners are not thin")
	got = ThinParts(geom.Region{Outer: geom.Rectangle(600, 20)}, 30)
	require.Len(t, got, 1, "all of it")
	require.InDelta(t, 600, got[0].Long, 5)
	require.InDelta(t, 20, got[0].Wide, 2)
	require.Empty(t, ThinParts(geom.Region{Outer: geom.Rectangle(600, 33)}, 30))
	require.Len(t, ThinParts(geom.Region{Outer: geom.Rectangle(600, 26)}, 30), 1)
	slant := geom.Rectangle(600, 33).Transform(geom.Move(geom.Point{X: 3, Y: 7}, 33))
	require.Empty(t, ThinParts(geom.Region{Outer: slant}, 30))
	slant = geom.Rectangle(600, 26).Transform(geom.Move(geom.Point{X: 3, Y: 7}, 33))
	require.Len(t, ThinParts(geom.Region{Outer: slant}, 30), 1)
}
