package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
)

// A cut's number stands near its end, moves along where something is written there, and covers least where nothing is free.
func TestCutNumbersKeepClear(t *testing.T) {
	a, b := geom.Point{}, geom.Point{X: 100}
	at, h := clearPlace(a, b, "7", nil)
	require.Equal(t, geom.Point{X: 96}, at)
	require.Equal(t, drawing.Lettering2_5, h)

	written := geom.Rect{Min: geom.Point{X: 80, Y: 0.5}, Max: geom.Point{X: 99, Y: 4}}
	at, h = clearPlace(a, b, "7", []geom.Rect{written})
	require.Less(t, at.X, 80-ringRadius("7", h))
	require.Greater(t, at.X, 70.0)
	require.Equal(t, drawing.Lettering2_5, h)

	// All of a short cut is written over but for its lower half: the number is smaller, and still on the cut.
	at, h = clearPlace(a, geom.Point{X: 6}, "12", []geom.Rect{{Min: geom.Point{Y: 0.2}, Max: geom.Point{X: 6, Y: 4}}})
	require.Equal(t, drawing.Lettering1_8, h)
	require.True(t, at.X >= 0 && at.X <= 6 && at.Y == 0, at)
}

// What is said alike of several pieces of a board is one line.
func TestPiecesSaidOnce(t *testing.T) {
	s := &boardSheet{c: laid(t, joinery(set.Part{Name: "cleat", Of: "ply 18", Length: 300, Width: 90, Count: 6}), CuttingOptions{})}
	s.board = &s.c.Boards[0]
	require.Equal(t, []string{"1  cleat: 300 x 90; 6 of them"}, s.pieces())
}

// What is set out from full-size paper names the one that shows it.
func TestFullSizePaperIsNamed(t *testing.T) {
	s := &set.Set{Elements: []*set.Element{
		{Name: "wall", Shape: &set.Flat{}}, {Name: "roofs", Shape: &set.Panel{}}, {Name: "deck", Shape: &set.Platform{}}, {Name: "kerb", Shape: &set.Ring{}}, {Name: "stair", Shape: &set.Steps{}},
	}}
	c := &Cutting{set: s}
	for _, k := range [][3]string{
		{"wall", "facing", "face"}, {"roofs", "shape", "face"}, {"deck", "deck", "floor"}, {"kerb", "top", "floor"},
		{"stair", "string", "side"}, {"stair", "tread 2", "floor"}, {"stair", "block 1 lid", "floor"},
	} {
		require.Contains(t, c.fullSize(&takeoff.Piece{Element: k[0], Name: k[1]}), "`full-size "+k[2]+"`", k)
	}
}
