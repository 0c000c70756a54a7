package silhouette

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Rows of runs make together what their pixels make one by one, and stay in order, apart and without runs of nothing.
func TestMerge(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	const w = 40
	random := func() (row []span, px [w]uint16) {
		for x := int32(0); x < w; {
			to := min(w, x+1+rnd.Int32N(6))
			v := [...]uint16{0, 0, full, uint16(rnd.Uint32())}[rnd.IntN(4)]
			row = add(row, x, to, v)
			for ; x < to; x++ {
				px[x] = v
			}
		}
		return row, px
	}
	for range 2000 {
		a, pa := random()
		b, pb := random()
		for _, both := range []func(a, b uint16) uint16{over, within} {
			var got [w]uint16
			last := span{}
			for i, r := range merge(nil, a, b, both) {
				require.True(t, r.v > 0 && r.from < r.to && (i == 0 || r.from > last.to || r.from == last.to && r.v != last.v))
				for x := r.from; x < r.to; x++ {
					got[x] = r.v
				}
				last = r
			}
			for x := range w {
				require.Equal(t, both(pa[x], pb[x]), got[x])
			}
		}
	}
	for _, v := range []uint16{0, 1, 32768, full} { // what is nothing and what is all change nothing
		require.Equal(t, []uint16{v, full, 0, v}, []uint16{over(v, 0), over(v, full), within(v, 0), within(v, full)})
	}
}
