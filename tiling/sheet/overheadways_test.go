package sheet

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/lettering"
	"markout/layout/rules"
	"markout/layout/solid"
)

// A walk that the file has beside the room and not in it, but that comes beneath it, is in the room's headroom; there it goes on the
// walking floor at 600: the bench hangs at 3920.
func TestWalksBeneathARoomCount(t *testing.T) {
	s, rooms := galleySet(t, "walk passage\n    in       galley\n", "walk passage\n    tall 2300\n", "path     -1500,300 line -1500,3000 900,3000", "path 1450,-2000 line 1450,2000")
	tab := headroomTable(s, rooms[0], solid.NewScene(s))
	row := tab.Rows[0]
	require.Equal(t, "walk passage", row[0].Text)
	require.InDelta(t, 3320, row[1].X, 1e-9)
	require.Equal(t, "bench_left", row[4].Text)
	require.Empty(t, row[5].Text)
	require.Equal(t, "2300 tall", row[6].Text)
	require.Len(t, tab.Rows, 1+10, "and every piece or stack of pieces")

	s, rooms = galleySet(t, "walk passage\n    in       galley\n", "walk passage\n", "path     -1500,300 line -1500,3000 900,3000", "path 5000,-2000 line 5000,2000")
	require.Empty(t, rooms[0].Walks)
	require.Contains(t, GaugeWords(s, rooms[0])[0], "comes 2420 above", "4900 − 600 − 1880")
}

// What a sheet says of weights and places counts as drawn; what a piece is called does not.
func TestOverheadDigests(t *testing.T) {
	digests := func(changes ...string) map[string][32]byte {
		s, rooms := galleySet(t, changes...)
		s.Called = map[string]string{"cabinet": "dresser"}
		b, err := Overhead(s, rooms, rules.Check(s), filed("A3"))
		require.NoError(t, err)
		out := map[string][32]byte{}
		for i, e := range b.Entries {
			if e.View != "cover" && e.Label != "cautions" {
				out[string(rune('a'+i))+e.View] = e.Digest
			}
		}
		return out
	}
	as := digests()
	require.Equal(t, as, digests("dresser", "cabinet"))
	heavier := digests("weight   41kg", "weight   43kg")
	changed := map[string]bool{}
	for k, d := range heavier {
		if d != as[k] {
			changed[k[1:]] = true
		}
	}
	require.Equal(t, map[string]bool{"table": true, "reflected plan": true, "section": true, "template below": true, "template above": true, "tags": true}, changed)
}

// Paper too narrow for the transfer table has it in two; smaller paper than that of most printers has every sheet.
func TestOverheadOnSmallPaper(t *testing.T) {
	s, rooms := galleySet(t, "at       0, 1800", "at       1300, 2800\n    turn 20deg")
	frames, err := framesOf(filed("A5"))
	require.NoError(t, err)
	o := &overheadBook{binder: binder{set: s, frames: frames}}
	require.NoError(t, o.transfer(rooms[0]))
	require.Equal(t, "galley transfer upright 1", o.pages[0].entry.Label)
	require.True(t, slices.ContainsFunc(o.pages, func(p page) bool { return p.entry.Label == "galley transfer overhead 1" }))
	for _, paper := range []string{"A4", "Letter"} {
		_, err := Overhead(s, rooms, rules.Check(s), filed(paper))
		require.NoError(t, err)
	}
}

// What a tag warns of is never cut short, and keeps over the sentence at its foot.
func TestWarningsOfATagAreWhole(t *testing.T) {
	const says = lookOut + "not weighed, loose, soft, opposite-handed, below the headroom wanted, within reach, crosses into starboard_quarter, port_quarter"
	for _, high := range []float64{20, 10.3, 8} {
		h, lines := wrappedIn(says, tagWide-2*tagIn, high)
		require.Equal(t, says, strings.Join(lines, " "), high)
		require.LessOrEqual(t, h*(1+float64(len(lines)-1)*lettering.Leading), high)
		require.GreaterOrEqual(t, h, 1.8)
	}
}

// What hangs lower than the walking floor is said to be under it, without a sign.
func TestUnderTheWalkingFloor(t *testing.T) {
	s, rooms := galleySet(t, "height   2050", "height   4600")
	says := OverheadLists(s, rooms[0])
	require.Contains(t, says[len(says)-1].Says, "locker (300 under the walking floor, 2700 short)")
	low := cautionOf(t, rules.Check(s), "OVER-LOW")
	require.Equal(t, "300 mm under the floor", low.Figure)
	require.Equal(t, "it comes 300 mm under the walking floor, where galley wants 2400 mm above it", low.Message)
}

func cautionOf(t *testing.T, all []caution.Caution, code string) caution.Caution {
	t.Helper()
	k := slices.IndexFunc(all, func(c caution.Caution) bool { return c.Code == code })
	require.GreaterOrEqual(t, k, 0)
	return all[k]
}
