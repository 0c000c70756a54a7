package geom_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

func TestRound(t *testing.T) {
	c, r, ok := geom.Circle(900).Transform(geom.Move(geom.Point{X: 10, Y: 20}, 30)).Round()
	require.True(t, ok)
	require.InDelta(t, 450, r, 1e-9)
	require.True(t, c.Near(geom.Point{X: 10, Y: 20}))
	for _, p := range []*geom.Path{geom.Rectangle(10, 10), geom.EllipsePath(10, 8), geom.NewPath(geom.Point{})} {
		_, _, ok := p.Round()
		require.False(t, ok)
	}
}

// A 3-4-5 triangle: centres 500 apart, radii 100 and 150, so 250 between the rims.
func TestDistanceOfCirclesIsExact(t *testing.T) {
	a := geom.Region{Outer: geom.Circle(200)}
	b := geom.Region{Outer: geom.Circle(300).Transform(geom.Move(geom.Point{X: 300, Y: 400}, 0))}
	d, pa, pb := geom.Distance(a, b)
	require.InDelta(t, 250, d, 1e-9)
	require.True(t, pa.Near(geom.Point{X: 60, Y: 80}))
	require.True(t, pb.Near(geom.Point{X: 210, Y: 280}))
	d, _, _ = geom.Distance(a, geom.Region{Outer: geom.Circle(50)})
	require.Zero(t, d, "one lies in the other")
}
