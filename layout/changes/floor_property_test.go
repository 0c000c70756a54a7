package changes_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/layout/set"
	"markout/layout/setout"
)

// yardOf is a random set of up to n pieces on a coarse raster, so that places are often shared.
func yardOf(r *rand.Rand, n int) string {
	var parts []string
	for i := range n {
		x, y, name := r.IntN(5)*500-1000, 1000+r.IntN(5)*500, i+r.IntN(2)*n
		tape := [...]string{"", "    tape \"white\" 25mm\n", "    tape \"yellow\"\n"}[r.IntN(3)]
		switch r.IntN(6) {
		case 0:
			parts = append(parts, fmt.Sprintf("platform p%d\n    outline rect 1000 x 500\n    at %d, %d\n    height %d\n    turn %ddeg\n", name, x, y, 150*(1+r.IntN(3)), 90*r.IntN(4))+tape)
		case 1:
			parts = append(parts, fmt.Sprintf("steps s%d\n    starts %d, %d heading %ddeg\n    risers %d\n    rise 150\n    going 500\n    width 1000\n", name, x, y, 90*r.IntN(4), 2+r.IntN(3))+tape)
		case 2:
			parts = append(parts, fmt.Sprintf("post q%d\n    diameter 60\n    height 700\n    at %d, %d\n", name, x, y)+tape)
		case 3:
			parts = append(parts, fmt.Sprintf("mark m%d\n    path %d,%d line %d,%d arc to %d,%d radius %d left\n", name, x, y, x+500, y, x+1000, y+500, 500+100*r.IntN(2))+tape)
		case 4:
			parts = append(parts, fmt.Sprintf("mark n%d\n    point %d,%d\n", name, x, y)+tape)
		case 5:
			parts = append(parts, fmt.Sprintf("steps b%d\n    starts %d, %d heading 90deg\n    rises 150 %d 150\n    goings 500 500\n    widths 1000\n    built blocks\n", name, x, y, 150+15*r.IntN(2))+tape)
		}
	}
	r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
	return yard + strings.Join(parts, "")
}

// marked lists what a floor has marked, each mark once: its place and its tape.
func marked(l *setout.Layout) []string {
	var out []string
	for i := range l.Rows {
		r := &l.Rows[i]
		out = append(out, fmt.Sprintf("%.3f %.3f %s", r.At.X+0, r.At.Y+0, l.TapeName(r.Tape)))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func spot(m changes.Mark) string { return fmt.Sprintf("%.3f %.3f %s", m.At.X+0, m.At.Y+0, m.Tape) }

// What was on the floor, less what is lifted, and what is laid, is what is on it after; nothing is both lifted and laid; the way back
// lifts what was laid.
func TestMarksAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for range 150 {
		a, b := setout.Lay(open(t, yardOf(r, 1+r.IntN(6)))), setout.Lay(open(t, yardOf(r, 1+r.IntN(6))))
		lift, lay := changes.Marks(a, b)
		then := map[string]bool{}
		for _, m := range marked(a) {
			then[m] = true
		}
		for _, m := range listed(lift, spot) {
			require.True(t, then[m], m)
			delete(then, m)
		}
		for _, m := range listed(lay, spot) {
			require.False(t, then[m], m)
			then[m] = true
		}
		var after []string
		for m := range then {
			after = append(after, m)
		}
		slices.Sort(after)
		require.Equal(t, marked(b), after)
		for _, m := range listed(lay, spot) {
			require.NotContains(t, listed(lift, spot), m)
		}
		up, down := changes.Marks(b, a)
		require.ElementsMatch(t, listed(lift, spot), listed(down, spot))
		require.ElementsMatch(t, listed(lay, spot), listed(up, spot))
		require.True(t, slices.IsSortedFunc(lay, func(a, b changes.Mark) int { return a.Row - b.Row }), "in laying order")

		x, y := changes.Marks(a, a)
		require.Empty(t, append(x, y...))
		l, m := changes.Lines(a, a)
		require.Empty(t, append(l, m...))
	}
}

// The metres of tape on the floor change by those laid less those lifted.
func TestLinesAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	for range 150 {
		a, b := setout.Lay(open(t, yardOf(r, 1+r.IntN(6)))), setout.Lay(open(t, yardOf(r, 1+r.IntN(6))))
		none := setout.Lay(open(t, yard))
		metres := func(l []changes.Line) float64 {
			sum := 0.0
			for _, m := range changes.Metres(l) {
				sum += m.Metres
			}
			return sum
		}
		lift, lay := changes.Lines(a, b)
		_, before := changes.Lines(none, a)
		_, after := changes.Lines(none, b)
		require.InDelta(t, metres(after), metres(before)-metres(lift)+metres(lay), 1e-9)
		require.Len(t, after, len(before)-len(lift)+len(lay))
		up, down := changes.Lines(b, a)
		require.InDelta(t, metres(lift), metres(down), 1e-9)
		require.InDelta(t, metres(lay), metres(up), 1e-9)
	}
}

func many(n int) string {
	var b strings.Builder
	b.WriteString(yard)
	for i := range n {
		fmt.Fprintf(&b, "platform p%d\n    outline rect 300 x 200\n    at %d, %d\n    height 150\n", i, i%20*400-4000, i/20*400)
	}
	return b.String()
}

func manyChanged(b *testing.B) (old, new *set.Set) {
	text := many(300)
	return open(b, text), open(b, strings.Replace(text, "at -2000, 2000", "at -2050, 2000", 1))
}

// One of 300 elements is moved.
func BenchmarkMarks300(b *testing.B) {
	old, new := manyChanged(b)
	x, y := setout.Lay(old), setout.Lay(new)
	b.ReportAllocs()
	for b.Loop() {
		lift, lay := changes.Marks(x, y)
		up, down := changes.Lines(x, y)
		if len(lift) != 4 || len(lay) != 4 || len(up) != 4 || len(down) != 4 {
			b.Fatal(len(lift), len(lay), len(up), len(down))
		}
	}
}

func BenchmarkMoves300(b *testing.B) {
	old, new := manyChanged(b)
	for b.Loop() {
		if len(changes.Moves(old, new)) != 1 {
			b.Fatal("one moves")
		}
	}
}

// Blocks of which every one has another height, and pieces of boards that all change.
func BenchmarkAllChanged300(b *testing.B) {
	var x, y strings.Builder
	for i := range 300 {
		fmt.Fprintf(&x, "shape s%d\n    outline rect %d x 600\n    thickness 18\n    of \"ply\"\nsteps b%d\n    starts %d, 0 heading 90deg\n    rises 150 150 150\n    goings 300 300\n    widths %d\n    built blocks\n", i, 500+i, i, i*1500, 900+i)
		fmt.Fprintf(&y, "shape s%d\n    outline rect %d x 590\n    thickness 18\n    of \"ply\"\nsteps b%d\n    starts %d, 300 heading 90deg\n    rises 150 140 150\n    goings 300 300\n    widths %d\n    built blocks\n", i, 501+i, i, i*1500, 900+i)
	}
	const head = "set \"Many\"\nboard \"ply\" 2440 x 1220 thick 18\n"
	old, new := taken(open(b, head+x.String())), taken(open(b, head+y.String()))
	b.ReportAllocs()
	for b.Loop() {
		if len(changes.Blocks(old.Set, new.Set)) == 0 || len(changes.Boards(old, new)) == 0 {
			b.Fatal("everything changes")
		}
	}
}
