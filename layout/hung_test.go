package layout_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// A board hung on a flat's face stands upright, its back on the face, its middle so far from P.
func TestShapeHungOnAWall(t *testing.T) {
	const text = `set "Quay"

flat wall
    from -2000, 3000 to 2000, 3000
    height 2400
    thickness 40

shape board
    outline rect 600 x 400
    thickness 12
    on wall at 1500 level 1400
`
	s := open(t, text)
	board := s.Find("board")
	place := board.Copies[0].Places[0]
	require.Equal(t, 1400.0, place.Level())
	require.Equal(t, 400.0, set.Height(board.Shape))
	box := geom.EmptyRect()
	for _, r := range set.Footprints(board.Shape) {
		box = box.Union(r.Transform(place.Frame.Plan()).Bounds())
	}
	require.InDelta(t, -800, box.Min.X, 1e-9)
	require.InDelta(t, -200, box.Max.X, 1e-9)
	require.InDelta(t, 2988, box.Min.Y, 1e-9)
	require.InDelta(t, 3000, box.Max.Y, 1e-9)
}
