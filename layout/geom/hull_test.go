package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// A hull is convex, has only given points for corners, and holds every point.
func TestHull(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	for range 200 {
		ps := make([]Point, 3+r.IntN(40))
		for i := range ps {
			ps[i] = Point{X: float64(r.IntN(12)), Y: float64(r.IntN(12))}
		}
		h := Hull(ps)
		for i, a := range h {
			require.Contains(t, ps, a)
			b := h[(i+1)%len(h)]
			for _, q := range ps {
				require.GreaterOrEqual(t, b.Sub(a).Cross(q.Sub(a)), 0.0)
			}
		}
	}
	require.Empty(t, Hull(nil))
	require.Equal(t, []Point{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}, Hull([]Point{{X: 1, Y: 1}, {}, {X: 2}, {X: 2, Y: 2}, {Y: 2}, {X: 1}}))
	require.Len(t, Hull([]Point{{X: 1}, {X: 2}, {X: 3}}), 2)
}

// A rectangle is found however it is turned, and its box is never larger than the upright one.
func TestLeastBox(t *testing.T) {
	for deg := 0.0; deg < 180; deg += 7.5 {
		m := Move(Point{X: 300, Y: -40}, deg)
		var ps []Point
		for _, q := range []Point{{}, {X: 800}, {X: 800, Y: 300}, {Y: 300}, {X: 400, Y: 100}} {
			ps = append(ps, m.Apply(q))
		}
		narrow, long := LeastBox(ps)
		require.InDelta(t, 300, narrow, 1e-6, deg)
		require.InDelta(t, 800, long, 1e-6, deg)
	}
	r := rand.New(rand.NewPCG(5, 5))
	for range 100 {
		ps := make([]Point, 3+r.IntN(9))
		box := EmptyRect()
		for i := range ps {
			ps[i] = Point{X: r.Float64() * 100, Y: r.Float64() * 100}
			box = box.Include(ps[i])
		}
		narrow, long := LeastBox(ps)
		require.LessOrEqual(t, narrow*long, box.W()*box.H()+1e-6)
		require.LessOrEqual(t, narrow, long)
	}
	narrow, long := LeastBox([]Point{{}, {X: 3, Y: 4}})
	require.InDelta(t, 0, narrow, 1e-9)
	require.InDelta(t, 5, long, 1e-9)
}
