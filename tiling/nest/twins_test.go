package nest

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// What is kept of runs is what a search through all of them keeps.
func TestDropTwinsKeepsWhatASearchThroughAllKeeps(t *testing.T) {
	const eps = 1e-3
	r := rand.New(rand.NewPCG(3, 7))
	for range 200 {
		var es []edge
		for range 60 {
			// Places on a coarse lattice, moved by up to twice the tolerance, so that many nearly meet.
			at := func() geom.Point {
				return geom.Point{X: float64(r.IntN(4)-2) + (2*r.Float64()-1)*2*eps, Y: float64(r.IntN(4)-2) + (2*r.Float64()-1)*2*eps}
			}
			e := edge{at(), at()}
			if r.IntN(3) == 0 {
				e.b = e.a
			}
			es = append(es, e)
		}
		kept := dropTwins(append([]edge(nil), es...), eps)
		twin := func(e, f edge) bool {
			point := e.a.Dist(e.b) <= eps
			return point && (e.a.Dist(f.a) <= 2*eps || e.a.Dist(f.b) <= 2*eps) ||
				e.a.Dist(f.a) <= eps && e.b.Dist(f.b) <= eps || e.a.Dist(f.b) <= eps && e.b.Dist(f.a) <= eps
		}
		for i, e := range kept {
			for _, f := range kept[:i] {
				require.False(t, twin(e, f))
			}
		}
		for _, e := range es {
			found := false
			for _, f := range kept {
				found = found || e == f || twin(e, f)
			}
			require.True(t, found)
		}
	}
}
