package sheet

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
)

// Boards that are kept count as taken: of two in hand a third is short, until one of the two is free again. What is kept may lie worse
// than what is laid anew, which is said, and a longer search is not what helps.
func TestKeptBoardsCount(t *testing.T) {
	half := func(name string, n int) set.Part {
		return set.Part{Name: name, Of: "ply 18", Length: 1218, Width: 1220, Count: n, Grain: set.GrainAlong}
	}
	a := keptCuts(t, joinery(half("a", 2), half("b", 1)), nil)
	require.Len(t, a.Boards, 2)
	require.Empty(t, a.Patched)
	b := keptCuts(t, joinery(half("a", 2), half("b", 1), set.Part{Name: "c", Of: "ply 18", Length: 1200, Width: 1220, Count: 1, Grain: set.GrainAlong}), a)
	require.Equal(t, []int{1, 2, 3}, []int{b.Boards[0].Number, b.Boards[1].Number, b.Boards[2].Number})
	require.True(t, b.Boards[2].Short)
	require.Contains(t, b.Summary(), "3 of ply 18 (1 short)")
	require.Equal(t, []string{"ply 18"}, b.Patched)
	require.Empty(t, b.Unproven)
	c := keptCuts(t, joinery(half("b", 1), set.Part{Name: "c", Of: "ply 18", Length: 1200, Width: 1220, Count: 1, Grain: set.GrainAlong}), b)
	require.Equal(t, []int{2, 3}, []int{c.Boards[0].Number, c.Boards[1].Number})
	require.False(t, c.Boards[1].Short)
	d := keptCuts(t, joinery(half("b", 1), half("d", 3)), c)
	require.Equal(t, 4, d.Boards[1].Number) // 3 is gone, and its number with it
}

// A board that is measured again keeps what is cut from it; one of another size, kerf or grain is another, and its pieces are cut from
// further boards under their old item numbers. A material that is called otherwise is the same.
func TestOtherBoards(t *testing.T) {
	parts := []set.Part{{Name: "a", Of: "ply 18", Length: 700, Width: 500, Count: 3}, {Name: "b", Of: "foam", Length: 700, Width: 500, Count: 1},
		{Name: "c", Of: "batten 44", Length: 900, Count: 3}}
	was := keptCuts(t, joinery(parts...), nil)
	for name, tt := range map[string]struct {
		change func(s *set.Set)
		number int
	}{
		"measured again":   {func(s *set.Set) { s.Boards[0].Thick = 18.1 }, 1},
		"another material": {func(s *set.Set) { s.Boards[0].Thick = 9 }, 2},
		"shorter":          {func(s *set.Set) { s.Boards[0].Length = 2400 }, 2},
		"another saw":      {func(s *set.Set) { s.Boards[0].Kerf = 4 }, 2},
		"other grain":      {func(s *set.Set) { s.Boards[0].Grain = set.GrainFree }, 2},
		"called otherwise": {func(s *set.Set) { s.Boards[0].Name, s.Parts[0].Of = "birch", "birch" }, 1},
		"more of them":     {func(s *set.Set) { s.Boards[0].Count = 9 }, 1},
	} {
		s := joinery(slices.Clone(parts)...)
		tt.change(s)
		c := keptCuts(t, s, was)
		require.Equal(t, tt.number, c.Boards[0].Number, name)
		require.Equal(t, 1, c.Boards[1].Number, name)
		require.Equal(t, 1, c.Bars[0].Number, name)
		require.Equal(t, 1, c.Taken.Pieces[0].Item, name)
	}
	free := laid(t, joinery(parts...), CuttingOptions{Since: recordedCuts(t, was), Free: true})
	require.Equal(t, 2, free.Boards[0].Number)

	// A material that nothing is cut from for one issue, or that the file leaves out, gives no number twice.
	none := joinery(parts[1:]...)
	none.Boards = none.Boards[1:]
	c := keptCuts(t, joinery(parts...), keptCuts(t, none, was))
	require.Equal(t, 2, c.Boards[0].Number)
	require.Equal(t, 4, c.Taken.Pieces[0].Item)
}
