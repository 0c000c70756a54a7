package changes_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/layout/set"
)

func block(b changes.Block) string { return fmt.Sprintf("%s: %s: %s", b.Element, b.Change, b.Words) }

// Revision B of the climb: top 4 becomes 630, so that block 4 is cut down and block 5, which stands from the floor to its own top of
// 765, is as it was; block 6 goes from x −90 to +30, which is 120 to plan-right, stage left.
func TestBlocksOfTheClimb(t *testing.T) {
	a, b := sample(t, "crates"), sample(t, "crates", "190 120", "175 135", "-90", "30")
	require.Equal(t, []string{
		"crates: cut down: block 4: 1250 x 340 x 645 → 630 high",
		"crates: move: block 6 moves 120 stage left",
	}, listed(changes.Blocks(a, b), block))
	require.Equal(t, []string{
		"crates: build: block 4: 1250 x 340 x 630 → 645 high",
		"crates: move: block 6 moves 120 stage right",
		"crates: take away: block 4: take away 1250 x 340 x 630",
	}, listed(changes.Blocks(b, a), block))
}

func climb(rises, goings, widths, rest string) string {
	return "steps climb\n    starts 0, 1200 heading 90deg\n    rises " + rises + "\n    goings " + goings + "\n    widths " + widths + "\n    built blocks\n    lid 18\n" + rest
}

func TestBlocks(t *testing.T) {
	const sides = "set \"Yard\"\n    sides house\n"
	for _, c := range []struct {
		name, old, new string
		want           []string
	}{
		{"the same", climb("150 150 150", "300 300", "900 900", ""), climb("150 150 150", "300 300", "900 900", ""), nil},
		{"one more at the foot", climb("150 150 150", "300 300", "900 900", ""), climb("150 150 150 150", "300 300 300", "900 900 900", ""),
			[]string{"climb: build: block 3: build 900 x 300 x 450"}},
		{"turned where it is", climb("150 150", "300", "900", ""), strings.Replace(climb("150 150", "300", "900", ""), "0, 1200 heading 90deg", "150, 1350 heading 180deg", 1),
			[]string{"climb: turn: block 1 turns 90° anticlockwise"}},
		{"turned half round", climb("150 150", "300", "900", ""), strings.Replace(climb("150 150", "300", "900", ""), "0, 1200 heading 90deg", "0, 1500 heading -90deg", 1), nil},
		{"another name", climb("150 150", "300", "900", ""), strings.Replace(climb("150 150", "300", "900", ""), "climb", "stair", 1), nil},
		{"another flight's block", climb("150 150 150", "300 300", "900 900", ""),
			climb("150 150", "300", "900", "") + "steps other\n    starts 2000, 1200 heading 90deg\n    rises 300 150\n    goings 300\n    widths 900\n    built blocks\n",
			[]string{"other: move: block 1 moves 2000 right and 300 downstage (it was climb block 2)"}},
		{"higher up", climb("150 150", "300", "900", ""), climb("150 150", "300", "900", "    level 200\n"), []string{"climb: move: block 1 moves 200 up"}},
		{"cut down elsewhere", climb("150 150 150", "300 300", "900 900", ""), climb("150 100 150", "300 300", "900 900", "    shift 0 50\n"),
			[]string{"climb: cut down: block 2: 900 x 300 x 300 → 250 high, moves 50 right"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.ElementsMatch(t, c.want, listed(changes.Blocks(open(t, sides+c.old), open(t, sides+c.new)), func(b changes.Block) string {
				return strings.ReplaceAll(block(b), "house ", "")
			}))
		})
	}
}

// sizes counts blocks by size.
func sizes(s *set.Set) map[string]int {
	out := map[string]int{}
	for _, e := range s.Elements {
		if st, ok := e.Shape.(*set.Steps); ok && st.Blocks {
			for _, t := range st.Treads() {
				out[fmt.Sprintf("%.1f x %.1f x %.1f", math.Max(t.Width, t.Y1-t.Y0), math.Min(t.Width, t.Y1-t.Y0), t.Top)]++
			}
		}
	}
	return out
}

// Of random climbs: what is built and what is taken away are the sizes that one has more of than the other, but for what is cut down;
// what is moved is at hand, and nothing serves twice.
func TestBlocksAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	random := func() string {
		n := 2 + r.IntN(6)
		var rises, goings, widths, shifts []string
		for k := range n {
			rises = append(rises, fmt.Sprint(140+20*r.IntN(3)))
			if k < n-1 {
				goings = append(goings, fmt.Sprint(280+20*r.IntN(2)))
				widths = append(widths, fmt.Sprint(900+100*r.IntN(2)))
				shifts = append(shifts, fmt.Sprint(40*r.IntN(3)))
			}
		}
		list := func(l []string) string { return strings.Join(l, " ") }
		return climb(list(rises), list(goings), list(widths), "    shift "+list(shifts)+"\n")
	}
	for range 200 {
		a, b := open(t, random()), open(t, random())
		require.Empty(t, changes.Blocks(a, a))
		had, has := sizes(a), sizes(b)
		moves, back := 0, 0
		count := map[changes.Change]int{}
		for _, c := range changes.Blocks(a, b) {
			count[c.Change]++
			if c.Change == changes.Moved || c.Change == changes.Turned {
				moves++
			}
		}
		for _, c := range changes.Blocks(b, a) {
			if c.Change == changes.Moved || c.Change == changes.Turned {
				back++
			}
		}
		more, fewer := 0, 0
		for k, n := range has {
			more += max(0, n-had[k])
		}
		for k, n := range had {
			fewer += max(0, n-has[k])
		}
		require.Equal(t, more, count[changes.Built]+count[changes.CutDown])
		require.Equal(t, fewer, count[changes.TakeAway]+count[changes.CutDown])
		require.Equal(t, moves, back, "what serves one way serves the other")
	}
}
