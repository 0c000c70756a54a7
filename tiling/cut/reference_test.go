package cut

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// lengthCase is one of testdata's lengths-*.json.
type lengthCase struct {
	Stock   float64 `json:"stock_length"`
	Optimum int     `json:"optimum_bars"`
	Pieces  []struct {
		Length float64
		Count  int
	}
}

func readCase[T any](t testing.TB, name string) T {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name + ".json")
	require.NoError(t, err)
	var c T
	require.NoError(t, json.Unmarshal(b, &c))
	return c
}

func (c *lengthCase) pieces() []Piece {
	var out []Piece
	for _, p := range c.Pieces {
		out = append(out, Piece{ID: mm(p.Length), Length: p.Length, Count: p.Count})
	}
	return out
}

// The optimum of each is in testdata/README.md with its source.
func TestLengthsReachThePublishedOptimum(t *testing.T) {
	for _, name := range []string{"lengths-chvatal", "lengths-t60_00", "lengths-bpp1"} {
		t.Run(name, func(t *testing.T) {
			c := readCase[lengthCase](t, name)
			stock := []Bar{{Name: "stock", Length: c.Stock}}
			p, err := Lengths(stock, c.pieces(), 0, Options{})
			require.NoError(t, err)
			checkLengthPlan(t, stock, c.pieces(), 0, p)
			require.Len(t, p.Bars, c.Optimum)
			require.Equal(t, c.Optimum, p.Bound)
			require.True(t, p.Proven)
			t.Logf("longest offcut %v of at most %v, proven %v", p.Longest, p.LongestBound, p.LongestProven)
		})
	}
}
