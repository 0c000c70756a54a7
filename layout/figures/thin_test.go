package figures

import (
	"math"
	"math/rand/v2"
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

// Turned by a quarter or made larger with the width looked for, an outline has the same thin parts; they lie within its box, and
// a disc as wide as the width that lies in the outline is no part of them.
func TestThinPartsTurnAndGrow(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 9))
	for range 40 {
		n := 6 + r.IntN(8)
		pts := make([]geom.Point, n)
		for i := range pts {
			pts[i] = geom.Polar(60+240*r.Float64(), 2*math.Pi*float64(i)/float64(n))
		}
		whole := geom.Region{Outer: geom.Polygon(pts)}
		got := ThinParts(whole, 24)
		turned := ThinParts(whole.Transform(geom.Move(geom.Point{}, 90)), 24)
		require.InDelta(t, longest(got, 24), longest(turned, 24), 5)
		for i := range pts {
			pts[i] = pts[i].Mul(3)
		}
		require.InDelta(t, longest(got, 24), longest(ThinParts(geom.Region{Outer: geom.Polygon(pts)}, 72), 72)/3, 1e-6)
		box := whole.Bounds().Grow(3)
		for _, p := range got {
			require.True(t, box.Contains(p.At))
			require.Greater(t, p.Long, 24.0)
			require.LessOrEqual(t, p.Wide, 24.0+3)
		}
	}
	require.Nil(t, ThinParts(geom.Region{Outer: &geom.Path{}}, 30))
	require.Nil(t, ThinParts(limbs(), 0))
	require.Nil(t, ThinParts(limbs(), math.NaN()))
	require.Nil(t, ThinParts(limbs(), 0.01), "too fine to look for")
}

// longest is that of the longest part, or the width that was looked for.
func longest(parts []Thin, width float64) float64 {
	if len(parts) == 0 {
		return width
	}
	return parts[0].Long
}
