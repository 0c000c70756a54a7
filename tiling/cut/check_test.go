package cut

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// checkLengthPlan holds a plan against what was asked: every piece as often as wanted, inside its bar, a
// kerf between neighbours, no more bars than are in hand but those to buy.
func checkLengthPlan(t testing.TB, stock []Bar, pieces []Piece, kerf float64, p *LengthPlan) {
	t.Helper()
	const near = 1e-4 // a rounding of 1 nm a cut
	got := make([]int, len(pieces))
	waiting := make([]int, len(pieces))
	used := make([]int, len(stock))
	buy, total, longest := 0, 0.0, 0.0
	for _, b := range p.Bars {
		require.Equal(t, stock[b.Stock].Length, b.Length)
		require.NotEmpty(t, b.Cuts)
		end := -kerf
		for _, c := range b.Cuts {
			require.InDelta(t, end+kerf, c.From, near)
			require.Equal(t, pieces[c.Piece].Length, c.Length)
			end = c.From + c.Length
			got[c.Piece]++
			if b.Buy {
				waiting[c.Piece]++
			}
		}
		require.LessOrEqual(t, end, b.Length+near)
		require.InDelta(t, max(0, b.Length-end-kerf), b.Offcut, near)
		if b.Buy {
			buy++
		} else {
			used[b.Stock]++
		}
		total += b.Length
		longest = max(longest, b.Offcut)
	}
	for i, pc := range pieces {
		require.Equal(t, pc.Count, got[i], "piece %d", i)
	}
	for i, s := range stock {
		if s.Count > 0 {
			require.LessOrEqual(t, used[i], s.Count)
		}
	}
	for _, s := range p.Short {
		require.Equal(t, waiting[s.Piece], s.Count)
		waiting[s.Piece] = 0
	}
	for _, n := range waiting {
		require.Zero(t, n)
	}
	require.Equal(t, buy, p.Buy)
	require.InDelta(t, total, p.StockLength, near)
	require.InDelta(t, longest, p.Longest, near)
	require.LessOrEqual(t, p.Longest, p.LongestBound+near)
	require.LessOrEqual(t, p.Bound, len(p.Bars))
}
