package cut

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// With a kerf of 1/8 in the optimum stays 453: testdata/README.md says of the plan without kerf what to
// change, 206 bars of 36 36 14 14 become 36 36 14.
func TestKerfIsKeptExactly(t *testing.T) {
	c := readCase[lengthCase](t, "lengths-chvatal")
	stock := []Bar{{Name: "stock", Length: c.Stock}}
	p, err := Lengths(stock, c.pieces(), 0.125, Options{})
	require.NoError(t, err)
	checkLengthPlan(t, stock, c.pieces(), 0.125, p)
	require.Len(t, p.Bars, 453)
	require.True(t, p.Proven)

	// The last piece ends on the bar's end and costs no cut; a hair more does not fit.
	for _, tt := range []struct {
		length float64
		bars   int
	}{{1598, 1}, {1598.1, 2}} {
		p, err := Lengths([]Bar{{Name: "b", Length: 4800}}, []Piece{{ID: "p", Length: tt.length, Count: 3}}, 3, Options{})
		require.NoError(t, err)
		require.Len(t, p.Bars, tt.bars)
	}
	// Three thirds of a bar fit it, however they are rounded.
	p, err = Lengths([]Bar{{Name: "b", Length: 1000}}, []Piece{{ID: "p", Length: 1000.0 / 3, Count: 3}}, 0, Options{})
	require.NoError(t, err)
	require.Len(t, p.Bars, 1)
}

func TestWhatIsShortIsSaid(t *testing.T) {
	stock := []Bar{{Name: "batten 44", Length: 4800, Count: 2}}
	pieces := []Piece{{ID: "rail", Length: 2300, Count: 5}, {ID: "stile", Length: 900, Count: 1}}
	p, err := Lengths(stock, pieces, 3, Options{})
	require.NoError(t, err)
	checkLengthPlan(t, stock, pieces, 3, p)
	require.Equal(t, 1, p.Buy)
	require.Equal(t, 1, p.BuyBound)
	require.Len(t, p.Bars, 3)
	require.True(t, p.Bars[2].Buy)
	require.Equal(t, 3, p.Bars[2].Number)
	require.Equal(t, []Short{{0, "rail", 1}, {1, "stile", 1}}, p.Short)

	boards := []Board{{Name: "ply 18", Length: 2440, Width: 1220, Count: 1}}
	rects := []Rect{{ID: "side", Length: 2400, Width: 1200, Count: 2}}
	b, err := Boards(boards, rects, 3, BoardOptions{})
	require.NoError(t, err)
	checkBoardPlan(t, boards, rects, 3, b)
	require.Equal(t, []Short{{0, "side", 1}}, b.Short)
	require.True(t, b.Proven)
}

func TestFaultsSayWhatWouldFit(t *testing.T) {
	bars := []Bar{{Name: "batten 44", Length: 4800}}
	_, err := Lengths(bars, []Piece{{ID: "ridge", Length: 5000, Count: 1}, {ID: "none", Length: 100, Count: 0}}, 3, Options{})
	require.Equal(t, Faults{
		{0, -1, "piece ridge: 5000 is longer than any bar, the longest is batten 44 of 4800", "at most 4800 fits; join it from shorter ones or give a longer bar"},
		{1, -1, "piece none: a count of 0", ""},
	}, err)
	boards := []Board{{Name: "ply 18", Length: 2440, Width: 1220}}
	_, err = Boards(boards, []Rect{{ID: "wall", Length: 1200, Width: 2400, Count: 1}, {ID: "floor", Length: 3000, Width: 1300, Count: 1, Turn: true}}, 3, BoardOptions{})
	require.Equal(t, Faults{
		{0, -1, "piece wall: 1200 × 2400 fits on no board, the largest is ply 18 of 2440 × 1220", "it fits turned a quarter, if its grain may run across"},
		{1, -1, "piece floor: 3000 × 1300 fits on no board, the largest is ply 18 of 2440 × 1220", "at most 2440 × 1220 fits; join it from two or give a larger board"},
	}, err)
	_, err = Blocks(nil, []Top{{ID: "a", Length: 1, Width: 1, Height: 1, Count: 1}}, BlockOptions{})
	require.Error(t, err)
	_, err = Lengths(bars, nil, -1, Options{})
	require.Error(t, err)
	p, err := Lengths(bars, nil, 3, Options{})
	require.NoError(t, err)
	require.Empty(t, p.Bars)
}

// A board is longer than what the pieces' common measure divides it into: the rest is trimmed.
func TestTheRestBeyondTheGrainIsTrimmed(t *testing.T) {
	boards := []Board{{Name: "b", Length: 573.75, Width: 313.75}}
	rects := []Rect{{ID: "p", Length: 313.75, Width: 313.75, Count: 1}}
	p, err := Boards(boards, rects, 3, BoardOptions{})
	require.NoError(t, err)
	checkBoardPlan(t, boards, rects, 3, p)
	require.Equal(t, Across, p.Boards[0].Part.Cut)
	require.Equal(t, 313.75, p.Boards[0].Part.At)
	require.InDelta(t, 257, p.Boards[0].Part.Far.Length, 1e-6)
}

// A list of common work on a set: uprights, rails and gussets out of counted stock of two lengths, and
// boards with and without grain.
func sample() ([]Bar, []Piece, []Board, []Rect) {
	bars := []Bar{{Name: "batten 44", Length: 4800, Count: 20}, {Name: "batten 44 short", Length: 3600, Count: 6}}
	pieces := []Piece{
		{"upright", 2362, 14}, {"rail", 1132, 22}, {"sill", 1988.2, 8}, {"toggle", 556, 17}, {"brace", 1674.5, 9},
		{"head", 862, 6}, {"corner", 304.8, 24}, {"ledge", 2710, 3},
	}
	boards := []Board{{Name: "ply 18", Length: 2440, Width: 1220, Count: 6}}
	rects := []Rect{
		{"tread", 1800, 318, 6, false}, {"riser", 1800, 132, 6, false}, {"stringer", 1200, 450, 4, false},
		{"gusset", 300, 300, 16, true}, {"lid", 1164, 582, 5, true}, {"shelf", 760, 240, 7, true},
	}
	return bars, pieces, boards, rects
}

func TestPlansAreTheSameEachTime(t *testing.T) {
	bars, pieces, boards, rects := sample()
	a, err := Lengths(bars, pieces, 3, Options{})
	require.NoError(t, err)
	checkLengthPlan(t, bars, pieces, 3, a)
	require.True(t, a.Proven)
	b, err := Lengths(bars, pieces, 3, Options{})
	require.NoError(t, err)
	require.Equal(t, a, b)
	for _, free := range []bool{false, true} {
		x, err := Boards(boards, rects, 3, BoardOptions{Free: free})
		require.NoError(t, err)
		checkBoardPlan(t, boards, rects, 3, x)
		y, err := Boards(boards, rects, 3, BoardOptions{Free: free})
		require.NoError(t, err)
		require.Equal(t, x, y)
	}
	// The order of the list changes whose piece is whose and nothing of the numbers.
	back := slices.Clone(pieces)
	slices.Reverse(back)
	c, err := Lengths(bars, back, 3, Options{})
	require.NoError(t, err)
	require.Equal(t, [3]float64{float64(len(a.Bars)), a.StockLength, a.Longest}, [3]float64{float64(len(c.Bars)), c.StockLength, c.Longest})
}

func BenchmarkLengths(b *testing.B) {
	bars, pieces, _, _ := sample()
	b.Run("sample", func(b *testing.B) {
		for b.Loop() {
			if _, err := Lengths(bars, pieces, 3, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
	for _, name := range []string{"lengths-chvatal", "lengths-t60_00", "lengths-bpp1"} {
		c := readCase[lengthCase](b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Lengths([]Bar{{Length: c.Stock}}, c.pieces(), 0, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkBoards(b *testing.B) {
	_, _, boards, rects := sample()
	for b.Loop() {
		if _, err := Boards(boards, rects, 3, BoardOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBlocks(b *testing.B) {
	stock := []Box{{Name: "box", Length: 600, Width: 400, Height: 150, Count: 40}}
	var tops []Top
	for _, h := range []float64{140, 305, 455, 645, 765, 940, 1100, 1305} {
		tops = append(tops, Top{ID: mm(h), Length: 1400, Width: 410, Height: h, Count: 1})
	}
	for b.Loop() {
		if _, err := Blocks(stock, tops, BlockOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}
