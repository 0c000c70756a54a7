package changes_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/layout/set"
	"markout/layout/takeoff"
)

func taken(s *set.Set) changes.Taken { return changes.Taken{Set: s, Quantities: takeoff.Take(s)} }

func cut(c changes.Cut) string {
	return fmt.Sprintf("%s: %s %d: %s", c.Element, c.Change, c.Count, c.Words)
}

// Four risers in place of three over the same 450: 112.5 each. A riser board stands between treads of 18, so it is 150 − 18 = 132 high
// and becomes 112.5 − 18 = 94.5, out of the old one; a tread of the same size and a fourth riser board are new. The strings get longer.
func TestBoardsOfAnotherRiser(t *testing.T) {
	got := listed(changes.Boards(taken(sample(t, "kiosk")), taken(sample(t, "kiosk", "risers      3", "risers      4"))), cut)
	require.Equal(t, []string{
		`front: recut 1: riser board 1: 1800 x 132 → 1800 x 94.5 of "ply 9", cut out of the old one`,
		`front: recut 1: riser board 2: 1800 x 132 → 1800 x 94.5 of "ply 9", cut out of the old one`,
		`front: cut 1: tread 3, 1800 x 309 of "ply 18"`,
		`front: recut 1: riser board 3: 1800 x 132 → 1800 x 94.5 of "ply 9", cut out of the old one`,
		`front: cut 1: riser board 4, 1800 x 94.5 of "ply 9"`,
		`front: cut 2: string: 691 x 432 → 991 x 432 of "ply 18"`,
		`front: scrap 2: string, 691 x 432 of "ply 18" serves nowhere`,
	}, got)
}

func TestBoards(t *testing.T) {
	const head = "set \"Yard\"\nboard \"ply\" 2440 x 1220 thick 18\nboard \"mdf\" 2440 x 1220 thick 18 grain along\nlength \"batten\" 44 x 69 long 4800\n"
	shape := "shape s\n    outline rect 1000 x 600\n    thickness 18\n    of \"ply\"\n"
	wall := "flat wall\n    from 0,0 to 1200,0\n    height 2400\n    of \"ply\"\n    opening door at 200 size 700 x 2000\n"
	post := "post p\n    outline rect 44 x 69\n    height 2000\n    of \"batten\"\n    repeat 3 by 500, 0\n"
	for _, c := range []struct {
		name, old, new string
		want           []string
	}{
		{"the same", shape + wall + post, post + wall + strings.Replace(shape, "shape s", "shape q", 1), nil},
		{"a comment", shape, "# wanted by Tuesday\n" + shape, nil},
		{"turned", shape, strings.Replace(shape, "1000 x 600", "600 x 1000", 1), nil},
		{"turned, against the grain", strings.Replace(shape, "ply", "mdf", 1) + "    grain along\n", strings.NewReplacer("1000 x 600", "600 x 1000", "ply", "mdf").Replace(shape) + "    grain along\n",
			[]string{`s: cut 1: shape: 1000 x 600 → 600 x 1000 of "mdf"`, `s: scrap 1: shape, 1000 x 600 of "mdf" serves nowhere`}},
		{"smaller", shape, strings.Replace(shape, "1000 x 600", "500 x 900", 1),
			[]string{`s: recut 1: shape: 1000 x 600 → 500 x 900 of "ply", cut out of the old one`}},
		{"of another board", shape, strings.Replace(shape, "ply", "mdf", 1),
			[]string{`s: cut 1: shape: 1000 x 600 of "ply" → 1000 x 600 of "mdf"`, `s: scrap 1: shape, 1000 x 600 of "ply" serves nowhere`}},
		{"out of what is over elsewhere", shape, strings.Replace(post, "2000", "1000", 1) + strings.NewReplacer("shape s", "shape q", "1000", "900").Replace(shape),
			[]string{`p: cut 3: post, 1000 of "batten"`, `q: recut 1: shape, 900 x 600 of "ply", cut out of s shape, 1000 x 600`}},
		{"a wider door", wall, strings.Replace(wall, "700 x", "800 x", 1), []string{`wall: recut 1: facing, 1200 x 2400 of "ply": its outline changes, cut out of the old one`}},
		{"a door elsewhere", wall, strings.Replace(wall, "at 200", "at 300", 1),
			[]string{`wall: cut 1: facing, 1200 x 2400 of "ply": its outline changes`, `wall: scrap 1: facing, 1200 x 2400 of "ply" serves nowhere`}},
		{"shorter and fewer", post, strings.NewReplacer("2000", "1800", "repeat 3", "repeat 2").Replace(post),
			[]string{`p: recut 2: post: 2000 → 1800 of "batten", cut out of the old one`, `p: scrap 1: post, 2000 of "batten" serves nowhere`}},
		{"of no material", "post p\n    diameter 60\n    height 700\n", "post p\n    diameter 60\n    height 800\n",
			[]string{"p: cut 1: post: 700 x 60 → 800 x 60", "p: scrap 1: post, 700 x 60 serves nowhere"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, append([]string{}, c.want...), listed(changes.Boards(taken(open(t, head+c.old)), taken(open(t, head+c.new))), cut))
		})
	}
	thick := func(mm string) changes.Taken {
		return taken(open(t, strings.Replace(head, "thick 18\nboard", "thick "+mm+"\nboard", 1)+strings.Replace(shape, "thickness 18", "thickness "+mm, 1)))
	}
	require.Empty(t, changes.Boards(thick("18"), thick("17.6")), "the board was measured anew")
	require.Len(t, changes.Boards(thick("18"), thick("12")), 2, "it is another board")
}

// Of random parts: what there was, less what is scrap and what others are cut out of, and what is cut and recut, is what there is.
func TestBoardsAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	random := func() changes.Taken {
		var b strings.Builder
		b.WriteString("set \"Yard\"\nboard \"ply\" 2440 x 1220 thick 18\n")
		for i := range 1 + r.IntN(8) {
			fmt.Fprintf(&b, "shape s%d\n    outline rect %d x %d\n    thickness 18\n    of \"ply\"\n    repeat %d by 0, 900\n",
				i, 300+100*r.IntN(4), 300+100*r.IntN(3), 1+r.IntN(4))
		}
		return taken(open(t, b.String()))
	}
	count := func(q changes.Taken) int {
		n := 0
		for _, p := range q.Pieces {
			n += p.Count
		}
		return n
	}
	for range 200 {
		a, b := random(), random()
		require.Empty(t, changes.Boards(a, a))
		by := map[changes.Change]int{}
		for _, c := range changes.Boards(a, b) {
			require.Positive(t, c.Count)
			by[c.Change] += c.Count
		}
		require.Equal(t, count(b), count(a)-by[changes.Scrap]+by[changes.CutNew])
	}
}
