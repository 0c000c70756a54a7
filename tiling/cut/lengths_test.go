package cut

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// aim is what Lengths makes least, in this order; kept is the longest offcut, made most.
type aim struct {
	buy, bars int
	length    float64
	kept      float64
}

func (a aim) less(b aim) bool {
	switch {
	case a.buy != b.buy:
		return a.buy < b.buy
	case a.bars != b.bars:
		return a.bars < b.bars
	case math.Abs(a.length-b.length) > 1e-6:
		return a.length < b.length
	}
	return a.kept > b.kept+1e-6
}

// everyPartition tries every way of putting pieces together on bars of every stock: the answer for a
// handful of pieces, by nothing but counting.
func everyPartition(stock []Bar, pieces []Piece, kerf float64) (best aim, found bool) {
	var single []float64
	for _, p := range pieces {
		for range p.Count {
			single = append(single, p.Length)
		}
	}
	var loads []float64
	var assign func(i int, left []int, a aim)
	assign = func(i int, left []int, a aim) {
		if i == len(loads) {
			if !found || a.less(best) {
				best, found = a, true
			}
			return
		}
		for s, b := range stock {
			if loads[i] > b.Length+kerf+1e-6 {
				continue
			}
			next := a
			next.bars++
			next.length += b.Length
			next.kept = max(next.kept, b.Length-loads[i])
			if b.Count > 0 && left[s] == 0 {
				next.buy++
				assign(i+1, left, next)
				continue
			}
			left[s]--
			assign(i+1, left, next)
			left[s]++
		}
	}
	var place func(i int)
	place = func(i int) {
		if i == len(single) {
			left := make([]int, len(stock))
			for s := range stock {
				left[s] = stock[s].Count
			}
			assign(0, left, aim{})
			return
		}
		l := single[i] + kerf
		for b := range loads {
			loads[b] += l
			place(i + 1)
			loads[b] -= l
		}
		loads = append(loads, l)
		place(i + 1)
		loads = loads[:len(loads)-1]
	}
	place(0)
	return best, found
}

func TestLengthsAreTheBestOfEveryWay(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 11))
	for n := range 400 {
		var stock []Bar
		for i := range 1 + rnd.IntN(2) {
			stock = append(stock, Bar{Name: string(rune('a' + i)), Length: float64(40 + rnd.IntN(60)), Count: rnd.IntN(4)})
		}
		longest := stock[0].Length
		for _, b := range stock {
			longest = max(longest, b.Length)
		}
		var pieces []Piece
		left := 2 + rnd.IntN(5)
		for left > 0 {
			c := 1 + rnd.IntN(left)
			left -= c
			pieces = append(pieces, Piece{ID: fmt.Sprint(len(pieces)), Length: 5 + math.Floor(rnd.Float64()*(longest-5)), Count: c})
		}
		kerf := float64(rnd.IntN(4))
		p, err := Lengths(stock, pieces, kerf, Options{})
		require.NoError(t, err)
		checkLengthPlan(t, stock, pieces, kerf, p)
		want, ok := everyPartition(stock, pieces, kerf)
		require.True(t, ok)
		got := aim{p.Buy, len(p.Bars), p.StockLength, p.Longest}
		require.True(t, p.Proven && p.LongestProven, "case %d: %v %v kerf %v: %+v", n, stock, pieces, kerf, p)
		require.Equal(t, want.buy, got.buy, "case %d: %v %v kerf %v", n, stock, pieces, kerf)
		require.Equal(t, want.bars, got.bars, "case %d: %v %v kerf %v", n, stock, pieces, kerf)
		require.InDelta(t, want.length, got.length, 1e-6, "case %d: %v %v kerf %v", n, stock, pieces, kerf)
		require.InDelta(t, want.kept, got.kept, 0.011, "case %d: %v %v kerf %v", n, stock, pieces, kerf)
	}
}
