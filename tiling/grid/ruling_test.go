package grid

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/tiling"
)

// A ruling that grows again and again gives every place one name, takes none back and gives none twice.
func TestRulingKeepsNames(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 26))
	for range 300 {
		lo, hi := r.IntN(9)-4, 0
		hi = lo + r.IntN(5)
		k := Ruling(nil).reach(lo, hi)
		for range r.IntN(8) {
			before := k
			first, last := before.span()
			a, b := lo-r.IntN(3), hi+r.IntN(3)
			if r.IntN(3) == 0 { // what is left may be anywhere inside
				a, b = lo+r.IntN(hi-lo+1), hi
			}
			k = before.reach(a, b)
			lo, hi = k.span()
			require.Equal(t, [2]int{min(first, a), max(last, b)}, [2]int{lo, hi})
			require.NoError(t, k.check())
			seen := map[int]bool{}
			for p := lo; p <= hi; p++ {
				n := k.name(p)
				require.True(t, n >= 1 && n <= hi-lo+1 && !seen[n], "%v: %d has %d", k, p, n)
				seen[n] = true
				if p >= first && p <= last {
					require.Equal(t, before.name(p), n)
				} else {
					require.Greater(t, n, last-first+1)
				}
			}
			require.Zero(t, k.name(lo-1))
			require.Zero(t, k.name(hi+1))
		}
	}
}

func TestRulingWords(t *testing.T) {
	letters := func(n int) string { return tiling.Letters(n - 1) }
	k := Ruling{{0, 6}}
	require.Equal(t, "A to G", k.words(0, 6, letters))
	require.Equal(t, "C", k.words(2, 2, letters))
	k = k.reach(-2, 7)
	require.Equal(t, Ruling{{0, 7}, {-1, -2}}, k)
	require.Equal(t, "K to J, A to H", k.words(-2, 7, letters))
	k = k.reach(0, 8)
	require.Equal(t, Ruling{{0, 7}, {-1, -2}, {8, 8}}, k)
	require.Equal(t, "J, A to H, L", k.words(-1, 8, letters))
	for i := range 20 {
		k = k.reach(-3-i, 0)
		k = k.reach(0, 9+i)
	}
	require.Equal(t, "9 … 51", k.words(-1, 28, func(n int) string { return fmt.Sprint(n) }))
}

func TestRulingThatIsNone(t *testing.T) {
	for _, k := range []Ruling{
		nil, {}, {{0, 5}, {5, 6}}, {{0, 5}, {7, 8}}, {{0, 5}, {-2, -1}}, {{0, 5}, {8, 6}}, {{0, 5}, {0, 5}},
		{{0, mostPlaces + 1}}, {{-1 << 62, 1 << 62}}, {{1 << 62, -1 << 62}}, {{0, 0}, {-1, -1 << 63}},
	} {
		require.Error(t, k.check(), "%v", k)
	}
	for _, k := range []Ruling{{{0, 0}}, {{3, 1}}, {{0, 5}, {-1, -4}, {6, 6}, {7, 9}}} {
		require.NoError(t, k.check(), "%v", k)
	}
}
