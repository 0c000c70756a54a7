package takeoff_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
)

// giant stands 3000 high: two legs 500 wide that are only a neck of 160 above the knee, and a body.
func giant() *set.Figure {
	p := geom.Polygon([]geom.Point{{X: -600}, {X: -100}, {X: -100, Y: 900}, {X: -220, Y: 1000}, {X: -220, Y: 1400}, {X: 220, Y: 1400}, {X: 220, Y: 1000}, {X: 100, Y: 900}, {X: 100}, {X: 600},
		{X: 600, Y: 900}, {X: 380, Y: 1000}, {X: 380, Y: 1400}, {X: 600, Y: 1500}, {X: 600, Y: 3000}, {X: -600, Y: 3000}, {X: -600, Y: 1500}, {X: -380, Y: 1400}, {X: -380, Y: 1000}, {X: -600, Y: 900}})
	f := &set.Figure{Width: 1200, Height: 3000, Thickness: 18, Eye: 2800, Bodies: []geom.Region{{Outer: p}}}
	f.Drawn = f.Bodies
	return f
}

func figureSet(f *set.Figure) *set.Set {
	e := &set.Element{Name: "giant", Kind: "figure", Shape: f, Material: "ply 18", FullSize: []string{"face"},
		Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}}}, {Number: 2, Places: []set.Place{{Frame: geom.Identity()}}}}}
	return &set.Set{Elements: []*set.Element{e},
		Boards:  []set.Board{{Name: "ply 18", Length: 2440, Width: 1220, Thick: 17.6, Density: 620}},
		Lengths: []set.Length{{Name: "batten 44", Width: 44, Depth: 69, Long: 4800}, {Name: "cls", Width: 97, Depth: 47, Long: 4800}}}
}

// Larger than a board it comes out of two, the seam above the knees, which are thin; its area and so its weight are kept. The
// brace of one 3000 high wants 47 x 97: the file's own.
func TestFigureOverBoards(t *testing.T) {
	f := giant()
	f.Brace = true
	q := takeoff.Take(figureSet(f))
	require.Empty(t, q.Missing)
	area, boards, timbers := 0.0, 0, 0
	for _, p := range q.Pieces {
		require.Equal(t, 2, p.Count, "a copy each")
		if p.Board < 0 {
			timbers++
			require.Equal(t, 1, p.Bar)
			require.Contains(t, p.Note, "common practice, no source")
			continue
		}
		boards++
		area += p.Area()
		require.LessOrEqual(t, max(p.Length, p.Width), 2440.0)
		require.LessOrEqual(t, min(p.Length, p.Width), 1220.0)
	}
	require.Equal(t, 3, timbers)
	require.Equal(t, 2, boards)
	require.InEpsilon(t, f.Bodies[0].Area(), area, 1e-6)
	for _, p := range q.Pieces[:2] { // parts begin above the knees or end there
		up := p.Width
		require.False(t, up > 900 && up < 1400, "the seam runs at %g, through the knees", up)
	}

	s := figureSet(f)
	s.Lengths = nil
	require.Len(t, takeoff.Take(s).Loose, 3, "timbers with their sizes where the file has none")
}

// Of one of which only the head is wanted the head is sawn, and a pole found.
func TestFigureHeadTakenOff(t *testing.T) {
	f := giant()
	f.Head = 500
	s := figureSet(f)
	s.Elements[0].FullSize = nil
	q := takeoff.Take(s)
	require.Len(t, q.Pieces, 1)
	require.Equal(t, "head", q.Pieces[0].Name)
	require.InDelta(t, 500*1200, q.Pieces[0].Area(), 1)
	require.Len(t, q.Loose, 1)
	require.Equal(t, [2]any{"pole", 2800.0}, [2]any{q.Loose[0].Name, q.Loose[0].Length})
}
