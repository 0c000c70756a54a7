package rules_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A board of MDF 2440 x 1220 x 18 at 730 kg/m³ weighs 39.1 kg (a published calculator), so that it always warns; half of it, 19.6 kg,
// is between the filter's figures for women and for men, 16 and 25 kg.
func TestHeavyBoards(t *testing.T) {
	s := open(t, `board "mdf 18" 2440 x 1220 thick 18 density 730kg/m3
board "foam" 2440 x 1220 thick 50 density 15kg/m3
board "mystery" 2440 x 1220 thick 18
part half of "mdf 18" length 1220 width 1220
part quarter of "mdf 18" length 1220 width 610
part slab of "foam" length 2440 width 1220
part riddle of "mystery" length 2440 width 1220
`)
	c := found(t, s, "mdf 18")["LIFT"]
	require.Equal(t, "39.1 kg", c.Figure)
	require.Contains(t, c.Message, "more than the filter's figure for one person")
	require.Contains(t, c.Source, "not a legal limit")
	half := found(t, s, "half")["LIFT"]
	require.Equal(t, "19.6 kg", half.Figure)
	require.Contains(t, half.Message, "more than the filter's 16 kg for women")
	for _, name := range []string{"quarter", "slab", "foam", "riddle", "mystery"} {
		require.Empty(t, found(t, s, name), name)
	}
}

func TestThinBoard(t *testing.T) {
	text := "board \"ply 18\" 2440 x 1220 thick 17.6\nplatform p\n    outline rect 1000 x 500\n    height 150\n    of \"ply 18\"\n    deck "
	s := open(t, text+"18\n")
	c := found(t, s, "p")["BOARD-THICK"]
	require.Equal(t, "17.6 mm", c.Figure)
	require.Equal(t, "18 mm (the file)", c.Limit)
	require.Contains(t, c.Message, "0.4 mm thinner")
	require.Equal(t, "a.markout:6:5", s.Sources.Position(c.Span).String())
	require.Empty(t, found(t, open(t, text+"17.6\n"), "p")["BOARD-THICK"])
	require.Empty(t, found(t, open(t, text+"12\n"), "p")["BOARD-THICK"], "12 is another board")
}
