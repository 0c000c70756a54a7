package tiling

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/geom"
)

func TestFitted(t *testing.T) {
	part := geom.Rect{Min: geom.Point{X: 100, Y: 50}, Max: geom.Point{X: 300, Y: 150}}
	box := geom.Rect{Min: geom.Point{X: 10, Y: 20}, Max: geom.Point{X: 60, Y: 120}}
	p := &artwork.Picture{W: 400, H: 200}
	s, scale := Fitted(p, part, box)
	require.InDelta(t, 0.25, scale, 1e-12)
	require.Same(t, p, s.Picture)
	require.Equal(t, geom.Rect{Min: geom.Point{X: 10, Y: 57.5}, Max: geom.Point{X: 60, Y: 82.5}}, s.Window)
	require.Equal(t, s.Window.Min, s.Frame.Apply(part.Min))
	require.Equal(t, s.Window.Max, s.Frame.Apply(part.Max))

	none, _ := Fitted(p, geom.EmptyRect(), box)
	require.Nil(t, none)
}
