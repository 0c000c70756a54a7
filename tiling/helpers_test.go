package tiling

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
)

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 7: "H", 8: "J", 12: "N", 13: "P", 23: "Z", 24: "AA", 25: "AB", 47: "AZ", 48: "BA", 24 + 24*24 - 1: "ZZ", 24 + 24*24: "AAA"} {
		require.Equal(t, want, Letters(i))
	}
	seen := map[string]bool{}
	for i := range 20000 {
		l := Letters(i)
		require.False(t, seen[l] || strings.ContainsAny(l, "IO01"), l)
		seen[l] = true
	}
	require.Equal(t, "Z", Letter(-1))
	require.Equal(t, "A", Letter(24))
}

// A chain line 0.25 wide repeats every 7.625 mm, 0.35 wide every 10.675 mm; a dashed one 0.25 wide is 3 on and 0.75 off
// (ISO 128-20 as handbooks quote it: 24, 3, 0.5, 3 and 12, 3 widths; computed).
func TestPens(t *testing.T) {
	require.InDelta(t, 7.625, PenOf(drawing.LongDashDot, 0.25, 0).Period(), 1e-12)
	require.InDelta(t, 10.675, PenOf(drawing.LongDashDot, 0.35, 0).Period(), 1e-12)
	require.InDeltaSlice(t, []float64{3, 0.75}, PenOf(drawing.Dashed, 0.25, 0).Dash, 1e-12)
	require.InDeltaSlice(t, []float64{6, 1.5}, PenOf(drawing.Dashed, 0.5, 0).Dash, 1e-12) // a width that has no table
	require.Nil(t, PenOf(drawing.Continuous, 0.7, 0).Dash)
	require.Zero(t, PenOf(drawing.Continuous, 0.7, 0).Period())
}

func TestPlaceText(t *testing.T) {
	w := lettering.Width("deck", 7, true)
	for _, c := range []struct {
		align  drawing.Align
		turn   float64
		offset geom.Point
		want   geom.Point
	}{
		{drawing.AlignLeft, 0, geom.Point{X: 1, Y: 2}, geom.Point{X: 101, Y: 52}},
		{drawing.AlignCentre, 0, geom.Point{}, geom.Point{X: 100 - w/2, Y: 50}},
		{drawing.AlignRight, 0, geom.Point{}, geom.Point{X: 100 - w, Y: 50}},
		{drawing.AlignMiddle, 0, geom.Point{}, geom.Point{X: 100 - w/2, Y: 46.5}},
		{drawing.AlignMiddle, 90, geom.Point{}, geom.Point{X: 103.5, Y: 50 - w/2}},
		{drawing.AlignLeft, 90, geom.Point{X: 1, Y: 2}, geom.Point{X: 98, Y: 51}},
	} {
		got := PlaceText(&drawing.Text{Text: "deck", Height: 7, Bold: true, Align: c.align, Turn: c.turn, Offset: c.offset}, geom.Point{X: 100, Y: 50})
		require.InDelta(t, c.want.X, got.At.X, 1e-9)
		require.InDelta(t, c.want.Y, got.At.Y, 1e-9)
	}
}

// The part that is kept lies in the box, what is cut off does not.
func TestClipSegment(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	box := geom.Rect{Min: geom.Point{X: 10, Y: 20}, Max: geom.Point{X: 60, Y: 50}}
	at := func() geom.Point { return geom.Point{X: math.Round(r.Float64() * 70), Y: math.Round(r.Float64() * 70)} }
	for range 5000 {
		a, b := at(), at()
		t0, t1, ok := ClipSegment(a, b, box)
		for k := range 101 {
			s := float64(k) / 100
			in := ok && s >= t0-1e-9 && s <= t1+1e-9
			require.False(t, in && !box.Grow(1e-6).Contains(a.Lerp(b, s)))
			require.False(t, !in && box.Grow(-1e-6).Contains(a.Lerp(b, s)))
		}
	}
}

func TestDigestSortsAndRounds(t *testing.T) {
	window := geom.Rect{Max: geom.Point{X: 190, Y: 277}}
	line := func(d *Digester, x float64) {
		d.Line(drawing.Mark{Layer: drawing.Cut}, drawing.Continuous, 0.7, 0, 0, false, []geom.Point{{X: x}, {X: x, Y: 10}})
	}
	sum := func(view string, xs ...float64) [32]byte {
		var d Digester
		d.Reset(view, "1:1", "STAGE LEFT", window)
		require.True(t, d.Empty())
		for _, x := range xs {
			line(&d, x)
		}
		return d.Sum()
	}
	require.Equal(t, sum("floor", 1, 2, 3), sum("floor", 3, 1, 2))
	require.Equal(t, sum("floor", 1), sum("floor", 1.0004), "less than half a micrometre is nothing")
	require.NotEqual(t, sum("floor", 1), sum("floor", 1.001))
	require.NotEqual(t, sum("floor", 1), sum("face", 1))
	require.NotEqual(t, sum("floor", 1), sum("floor", 1, 1))
	require.Regexp(t, `^[2-9A-HJ-NP-Z]{4}$`, ContentMark(sum("floor", 1)))
	require.Equal(t, "2222", ContentMark([32]byte{}))
	require.Equal(t, "ZZZZ", ContentMark([32]byte{255, 255, 255}))
}

// Whatever a cover says stays on its pages, and nothing is left out.
func TestCoverFlows(t *testing.T) {
	words := strings.Repeat("lay each page on its neighbour ", 6)
	c := Cover{Title: "Full-size paper", Under: []string{"Low Tide / Quayside kiosk", "issue B"}, Map: &Form{W: 60, H: 50}}
	for range 12 {
		c.Blocks = append(c.Blocks, Block{Heading: "In this order", Numbered: true, Lines: []string{words, words, words}})
	}
	for _, size := range []Size{{210, 297}, {420, 297}, {105, 148}, {914, 297}} {
		live := geom.Rect{Min: geom.Point{X: 10, Y: 10}, Max: geom.Point{X: size.W - 10, Y: size.H - 10}}
		pages := c.Lay(size, live)
		said := 0
		for i, p := range pages {
			require.Equal(t, size.W, p.Form.W)
			for _, x := range p.Form.Texts {
				w := lettering.Width(x.Text, x.Height, x.Bold)
				require.True(t, x.At.X >= live.Min.X-1e-6 && x.At.X+w <= live.Max.X+1e-6, "%v page %d %q", size, i, x.Text)
				require.True(t, x.At.Y >= live.Min.Y-1e-6 && x.At.Y+x.Height <= live.Max.Y+1e-6, "%v page %d %q %v", size, i, x.Text, x.At)
				said += strings.Count(x.Text, "neighbour")
			}
		}
		require.Equal(t, 12*3*6, said)
	}
}
