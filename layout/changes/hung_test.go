package changes_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/layout/overhead"
)

func hang(h changes.Hang) string {
	return fmt.Sprintf("%s %d: %s: %s", h.Piece, h.Tag, h.Change, h.Words)
}

func total(t changes.TotalChange) string { return t.Words }

// The locker weighs 8.5 kg more. The moments of the galley as it hangs, worked by hand: (67 375, 524 520) kg mm for 192.5 kg; with 8.5 kg at
// (−1500, 3350) they are (54 625, 552 995) for 201 kg, so that the centre goes from (350, 2724.8) to (271.8, 2751.2).
func TestWeightsOfTheGalley(t *testing.T) {
	a, b := sample(t, "galley"), sample(t, "galley", "weight   38kg", "weight   46.5kg")
	require.Equal(t, []string{"locker 19: weight: weight 38 kg → 46.5 kg"}, listed(changes.Hung(a, b), hang))
	got := changes.Totals(a, b)
	require.Len(t, got, 2)
	require.Equal(t, "starboard", got[0].Panel)
	require.Equal(t, "all: 192.5 kg → 201 kg, centre of gravity moves 78 stage right and 26.5 upstage", got[1].Words)
	require.Empty(t, changes.Hung(a, a))
	require.Empty(t, changes.Totals(a, a))
}

const hold = `set "Hold"
room hold
    outline  rect 4000 x 3000
    at       0, 1500
    overhead 5000 turned lengthways
    panel    port outline rect 2000 x 3000 at -1000, 1500
    panel    starboard outline rect 2000 x 3000 at 1000, 1500
`

const chest = "dressing chest\n    in hold\n    at 1000, 1000\n    size 800 x 400\n    height 500\n    weight 20kg\n    fixings -300,0 300,0\n"

func TestHung(t *testing.T) {
	lamp := "dressing lamp\n    in hold\n    at -500, 500\n    outline circle 200\n    height 300\n    fixings 1\n    tag 9\n"
	for _, c := range []struct {
		name, old, new string
		want, totals   []string
	}{
		{"the same", chest + lamp, chest + lamp, nil, nil},
		{"called otherwise", chest, strings.Replace(chest, "chest", "box", 1), nil, nil},
		// lengthways left and right change places: 250 to plan-right as dressed is 250 to plan-left, stage right, overhead
		{"moved", chest, strings.Replace(chest, "1000, 1000", "1250, 900", 1),
			[]string{"chest 1: move: moves 250 stage right and 100 downstage"},
			[]string{"starboard: centre of gravity moves 250 stage right and 100 downstage", "all: centre of gravity moves 250 stage right and 100 downstage"}},
		{"turned", chest, chest + "    turn 30deg\n", []string{"chest 1: move: turns 30° clockwise"}, nil},
		{"a round piece turned, which nobody sees", lamp, lamp + "    turn 180deg\n", nil, nil},
		{"a round piece whose fixings turn with it", strings.Replace(lamp, "fixings 1", "fixings 0,-60 50,30 -50,30", 1),
			strings.Replace(lamp, "fixings 1", "fixings 0,-60 50,30 -50,30", 1) + "    turn 30deg\n", []string{"lamp 9: move: turns 30° clockwise"}, nil},
		{"fixed elsewhere", chest, strings.Replace(chest, "-300,0 300,0", "-250,0 300,0", 1), []string{"chest 1: move: its fixings move on it"}, nil},
		{"fixed more", chest, strings.Replace(chest, "-300,0 300,0", "4", 1), []string{"chest 1: move: 2 fixings → 4 fixings"}, nil},
		{"higher", chest, strings.Replace(chest, "height 500", "height 650", 1),
			[]string{"chest 1: move: its shape changes: take down and hang anew, lowest point 4500 → 4350"}, nil},
		{"added, not weighed", chest, chest + lamp, []string{"lamp 9: hang: hang at 500 L 500 U, lowest point at 4700, facing 270°, not weighed, 1 fixing"},
			[]string{"port: 0 kg → at least 0 kg (1 piece not weighed)", "all: 20 kg → at least 20 kg (1 piece not weighed)"}},
		{"taken away", chest + lamp, lamp, []string{"chest 1: take down: take down, 20 kg"},
			[]string{"starboard: 20 kg → 0 kg", "all: at least 20 kg (1 piece not weighed) → at least 0 kg (1 piece not weighed)"}},
		{"weighed about", chest, strings.Replace(chest, "20kg", "about 20kg", 1), []string{"chest 1: weight: weight 20 kg → about 20 kg"}, nil},
		{"loose", chest, chest + "    loose\n", []string{"chest 1: move: neither loose nor soft → loose"}, nil},
		{"another tag", chest, chest + "    tag 5\n", []string{"chest 5: tag: tag 1 → 5"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, b := open(t, hold+c.old), open(t, hold+c.new)
			require.Equal(t, append([]string{}, c.want...), listed(changes.Hung(a, b), hang))
			require.Equal(t, append([]string{}, c.totals...), listed(changes.Totals(a, b), total))
		})
	}
}

func TestARoomThatHangsNoMore(t *testing.T) {
	a, b := open(t, hold+chest), open(t, "set \"Hold\"\n")
	require.Equal(t, []string{"chest 1: take down: take down, 20 kg"}, listed(changes.Hung(a, b), hang))
	require.Empty(t, changes.Totals(a, a))
	require.Equal(t, []string{"starboard: 20 kg → 0 kg", "all: 20 kg → 0 kg"}, listed(changes.Totals(a, b), total))
	require.Equal(t, []string{"starboard: 0 kg → 20 kg", "all: 0 kg → 20 kg"}, listed(changes.Totals(b, a), total))
	require.Equal(t, []string{"chest 1: hang: hang at 1000 R 1000 U, lowest point at 4500, facing 270°, 20 kg, 2 fixings"}, listed(changes.Hung(b, a), hang))
}

// Of random rooms: what hangs, less what is taken down, and what is hung, is what hangs after; and no words certify.
func TestHungAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	random := func() string {
		var b strings.Builder
		b.WriteString(hold)
		for i := range 8 {
			if r.IntN(3) > 0 {
				fmt.Fprintf(&b, "dressing d%d\n    in hold\n    at %d, %d\n    size 400 x 300\n    height %d\n    weight %dkg\n    tag %d\n",
					(i + r.IntN(2)*20), r.IntN(3)*500, 500+i*200, 300+100*r.IntN(2), 10+r.IntN(2), i+1)
			}
		}
		return b.String()
	}
	pieces := func(rooms []*overhead.Room) int { return len(rooms[0].Pieces) }
	for range 200 {
		a, b := open(t, random()), open(t, random())
		require.Empty(t, changes.Hung(a, a))
		by := map[changes.Change]int{}
		for _, h := range changes.Hung(a, b) {
			by[h.Change]++
			require.NotContains(t, strings.ToLower(h.Words), "safe")
			require.NotContains(t, h.Words, "-")
		}
		back := map[changes.Change]int{}
		for _, h := range changes.Hung(b, a) {
			back[h.Change]++
		}
		require.Equal(t, pieces(overhead.Rooms(b)), pieces(overhead.Rooms(a))-by[changes.TakeDown]+by[changes.HangNew])
		require.Equal(t, by[changes.HangNew], back[changes.TakeDown])
		require.Equal(t, by[changes.Moved]+by[changes.Weighs]+by[changes.Retag], back[changes.Moved]+back[changes.Weighs]+back[changes.Retag])
	}
}
