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
	got, err := ThinParts(limbs(), 30)
	require.NoError(t, err)
	require.Len(t, got, 3)
	// The arm is lost but for what a disc of 30 that leans into its root reaches.
	require.InDelta(t, 300, got[0].Long, 10)
	require.InDelta(t, 550, got[0].At.X, 10)
	// The tail is 30 wide 90 from its tip; the disc there touches both sides a little nearer.
	require.InDelta(t, 90, got[1].Long, 20)
	require.Less(t, got[1].At.X, -540.0)
	// Over the hole the bridge is thinner than 30 where 50 − √(50² − x²) < 18, for 2 × 38.4.
	require.InDelta(t, 2*math.Sqrt(50*50-32*32), got[2].Long, 45)
	require.InDelta(t, 200, got[2].At.X, 5)

	got, err = ThinParts(limbs(), 15)
	require.NoError(t, err)
	require.Len(t, got, 2, "the arm is 20")
	got, err = ThinParts(geom.Region{Outer: geom.Rectangle(600, 400)}, 30)
	require.NoError(t, err)
	require.Empty(t, got, "corners are not thin")
	got, err = ThinParts(geom.Region{Outer: geom.Rectangle(600, 20)}, 30)
	require.NoError(t, err)
	require.Len(t, got, 1, "all of it")
	require.InDelta(t, 600, got[0].Long, 1e-6)
	got, err = ThinParts(geom.Region{Outer: geom.Rectangle(600, 31)}, 30)
	require.NoError(t, err)
	require.Empty(t, got)
}
