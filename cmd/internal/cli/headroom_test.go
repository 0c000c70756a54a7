package cli

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

// A room hung at 5000 over a walking floor at 500, walked by several people. Lengthways the locker comes to x −1000 with its underside
// at 3000, the lamp to x 500 with its at 2300, the bench stays at x 0 with its at 4000.
const walkedHold = `set "Hold"

room hold
    outline  rect 4000 x 3000
    at       0, 1500
    overhead 5000 turned lengthways
    stand    500

dressing locker
    in       hold
    at       1000, 2000
    size     600 x 400
    height   2000

dressing lamp
    in       hold
    at       -500, 1000
    outline  circle 200
    height   2700

dressing bench
    in       hold
    at       0, 500
    size     400 x 400
    height   1000

platform box
    at       500, 1000
    outline  rect 300 x 300
    height   800

walk captain
    in       hold
    path     -1000,200 line -1000,2800
    tall     1980
    wide     700

walk boy
    in       hold
    path     250,200 line 250,2800
    tall     1500
    wide     400

walk mate
    in       hold
    path     150,200 line 150,2800
    tall     1980
    wide     300

walk cook
    in       hold
    path     150,200 line 150,2800
    tall     1980
    wide     600

walk porter
    path     9000,0 line 9000,2000
`

// Places are worked by hand: who is w wide first meets what lies d beside the way and r about a middle where the way is
// √((r + w/2)² − d²) short of that middle.
func TestHeadroomOfSeveralPeople(t *testing.T) {
	out, _ := runMain(t, exitOK, "check", writeSet(t, walkedHold), "--format", "json")
	var got struct {
		Headroom []struct {
			Walk, Piece, Under string
			Least              *float64    `json:"least_mm"`
			At                 *[2]float64 `json:"at_mm"`
		}
		Cautions []cautionJSON
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	for i, w := range []struct {
		walk, piece  string
		least, x, y  float64
		under        string
		nothingAbove bool
	}{
		{walk: "captain", least: 3000 - 500, x: -1000, y: 1800 - 350, under: "locker"},
		// 250 beside the lamp's middle: √(300² − 250²) = 165.83.
		{walk: "boy", least: 2300 - 500, x: 250, y: 1000 - 165.83, under: "lamp"},
		// 350 beside it, and only 250 reach it; the bench is over the first step.
		{walk: "mate", least: 4000 - 500, x: 150, y: 200, under: "bench"},
		// √(400² − 350²) = 193.65.
		{walk: "cook", least: 2300 - 500, x: 150, y: 1000 - 193.65, under: "lamp"},
		{walk: "porter", nothingAbove: true},
		{piece: "locker", least: 3000 - 500, x: -1000, y: 2000},
		{piece: "lamp", least: 2300 - 800, x: 500, y: 1000, under: "box"},
		{piece: "bench", least: 4000 - 500, x: 0, y: 500},
	} {
		g := got.Headroom[i]
		require.Equal(t, []string{w.walk, w.piece, w.under}, []string{g.Walk, g.Piece, g.Under})
		if w.nothingAbove {
			require.Nil(t, g.Least)
			require.Nil(t, g.At)
			continue
		}
		require.InDelta(t, w.least, *g.Least, 0.05, w.walk+w.piece)
		within := 0.2 // a circle's runs lie within 0.05 of it
		if w.piece == "lamp" {
			within = 101 // anywhere under it
		}
		require.InDelta(t, w.x, g.At[0], within, w.walk+w.piece)
		require.InDelta(t, w.y, g.At[1], within, w.walk+w.piece)
	}
	require.Len(t, got.Headroom, 8)
	heads := map[string]string{}
	for _, c := range got.Cautions {
		if c.Code == "WALK-HEAD" {
			heads[c.Element] = c.Figure + " of " + c.Limit
		}
	}
	require.Equal(t, map[string]string{"cook": "1800 mm of 1980 mm"}, heads)
}
