package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every corner of the coarser outline lies on the first one, every point of the first one no farther than tol from the coarser.
func TestCoarse(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 7))
	for range 60 {
		var ps []Point
		n := 40 + rng.IntN(300)
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			r := 500 + 40*math.Sin(7*a) + 3*rng.Float64()
			ps = append(ps, Point{r * math.Cos(a), r * math.Sin(a)})
		}
		r := Region{Outer: Polygon(ps), Holes: []*Path{Circle(400)}}
		tol := 0.5 + 4*rng.Float64()
		c, ok := r.Coarse(tol)
		require.True(t, ok)
		require.LessOrEqual(t, c.Outer.Len(), r.Outer.Len())
		require.InDelta(t, r.Area(), c.Area(), tol*(r.Outer.Length()+r.Holes[0].Length()))
		for _, q := range ps {
			require.LessOrEqual(t, awayFrom(c.Outer, q), tol+Tolerance)
		}
		for _, q := range r.Holes[0].Flatten(0.1, nil) {
			require.LessOrEqual(t, awayFrom(c.Holes[0], q), tol+Tolerance)
		}
		for _, s := range c.Outer.Segments() {
			require.LessOrEqual(t, awayFrom(r.Outer, s.From), Tolerance)
		}
	}
}

func awayFrom(p *Path, q Point) float64 {
	best := math.Inf(1)
	for _, s := range p.Segments() {
		d := s.To.Sub(s.From)
		k := min(max(q.Sub(s.From).Dot(d)/d.Dot(d), 0), 1)
		best = min(best, q.Sub(s.From.Add(d.Mul(k))).Len())
	}
	return best
}

func TestCoarseLeavesWhatWouldCross(t *testing.T) {
	thin := Region{Outer: Polygon([]Point{{0, 0}, {1000, 0}, {1000, 0.3}, {0, 0.3}})}
	c, ok := thin.Coarse(2)
	require.False(t, ok)
	require.Equal(t, thin, c)
}
