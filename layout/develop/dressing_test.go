package develop_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/develop"
)

const dressed = `set "Cabin"
    scale 1:25
    card wall 1.5 detail 0.5
room cabin
    outline rect 4000 x 3200
    overhead 5200 turned lengthways
dressing chest
    in cabin
    at -1000, 2000
    size 900 x 500
    height 620
    model detail
dressing drum
    in cabin
    at 1000, 2000
    outline circle 400
    height 620
    model tube
dressing pole
    in cabin
    at 1500, 500
    outline circle 60
    height 1500
    model rod
dressing rug
    in cabin
    size 900 x 600
    height 10
    model no
dressing lamp
    on chest
    at -1000, 2000
    outline circle 200
    height 330
dressing jar
    on chest
    at -1200, 2000
    outline circle 100
    height 150
`

// Dressing is modelled as it says: a chest 900 x 500 x 620 at 1:25 is 36 by 20 by 24.8; a drum 400 across is a tube of 16, a pole of 60 a rod
// of 2.4 by 60. What does not say is left out, and that is said once.
func TestDressingIsModelled(t *testing.T) {
	s, list := layout.Open(texts{"m": dressed}, "m", layout.Options{})
	require.Empty(t, printed(list))
	m, list := develop.Develop(s, develop.Options{})
	require.Empty(t, printed(list))
	var of []string
	for i := range m.Pieces {
		p := &m.Pieces[i]
		if len(of) == 0 || of[len(of)-1] != p.Element {
			of = append(of, p.Element)
		}
		if p.Element == "chest" && p.Name == "top" {
			require.Equal(t, "detail", p.Card)
			require.InDelta(t, 36, max(p.Outline.Bounds().W(), p.Outline.Bounds().H()), 2, "with its tabs and walls folded on")
		}
	}
	require.Equal(t, []string{"chest", "drum"}, of)
	require.Len(t, m.Rods, 1)
	require.Equal(t, "pole", m.Rods[0].Element)
	require.InDelta(t, 2.4, m.Rods[0].Diameter, 1e-9)
	require.InDelta(t, 60, m.Rods[0].Length, 1e-9)
	require.Contains(t, m.Notes, develop.Note{Element: "lamp", Words: "dressing, 2 pieces in all, is left out of the model; `model` with a card's name makes a box of it"})
	levels := map[string]float64{}
	for _, f := range m.Base {
		levels[f.Element] = f.Level
	}
	require.InDelta(t, (5200-620)/25.0, levels["chest"], 1e-9, "its lowest point as it hangs")
	requireJoints(t, m)
}

// In a room that is mirrored it is said how pieces are made; once a room, and in no other.
func TestMirroredRoomsAreSaid(t *testing.T) {
	for way, want := range map[string]int{"turned lengthways": 0, "turned crossways": 0, "mirrored": 1} {
		s, _ := layout.Open(texts{"m": strings.Replace(dressed, "turned lengthways", way, 1)}, "m", layout.Options{})
		m, _ := develop.Develop(s, develop.Options{})
		found := 0
		for _, n := range m.Notes {
			if n.Element == "cabin" && strings.Contains(n.Words, "opposite-handed") {
				found++
			}
		}
		require.Equal(t, want, found, way)
	}
}
