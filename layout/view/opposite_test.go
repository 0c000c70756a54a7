package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
)

// A pattern of what hangs mirrored is laid face down; turned over about a line, pieces are as they are dressed.
func TestPatternsOfMirroredRooms(t *testing.T) {
	const text = `set "x"
room hold
    outline rect 4000 x 3000
    overhead 4900 mirrored
flat wall
    in hold
    from -1500, 2800 to 1500, 2800
    height 2200
    opening door at 300 size 700 x 1800
steps ladder
    in hold
    starts 0, 300 heading 90deg
    risers 3
    rise 180
    going 250
    width 700
`
	for way, said := range map[string]bool{"mirrored": true, "turned lengthways": false, "turned crossways": false} {
		s, list := layout.Open(only(strings.Replace(text, "mirrored", way, 1)), "x.markout", layout.Options{})
		require.False(t, list.HasErrors())
		wall, ladder := s.Find("wall"), s.Find("ladder")
		const words = "OPPOSITE-HANDED: lay it face down"
		require.Equal(t, said, strings.Contains(Face(s, wall).Hold, words), way)
		sides := Sides(s, ladder)
		require.Len(t, sides, 1)
		require.Equal(t, said, strings.Contains(sides[0].Hold, words), way)
	}
}
