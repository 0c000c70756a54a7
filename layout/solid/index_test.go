package solid

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// The index finds exactly what a look at every box finds.
func TestIndexFindsWhatALookAtEveryBoxFinds(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{0, 1, 2, 7, 8, 9, 63, 64, 65, 500, 1000} {
		boxes := make([]geom.Rect, n)
		for i := range boxes {
			p := geom.Point{X: rnd.Float64() * 1000, Y: rnd.Float64() * 1000}
			boxes[i] = geom.Rect{Min: p, Max: p.Add(geom.Point{X: rnd.Float64() * 90, Y: rnd.Float64() * 40})}
		}
		ix := newIndex(boxes)
		for range 50 {
			p := geom.Point{X: rnd.Float64() * 1000, Y: rnd.Float64() * 1000}
			r := geom.Rect{Min: p, Max: p.Add(geom.Point{X: rnd.Float64() * 200, Y: rnd.Float64() * 200})}
			var want []int32
			for i, b := range boxes {
				if b.Overlaps(r) {
					want = append(want, int32(i))
				}
			}
			require.Equal(t, want, ix.Find(r, nil), "%d boxes", n)
		}
	}
}
