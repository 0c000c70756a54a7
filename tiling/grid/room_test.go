package grid

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling"
)

// A box that is called free is clear of every line that was taken; a place that is found is free, and the first.
func TestFreeIsFree(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	var f room
	for range 300 {
		live := geom.Rect{Min: geom.Point{X: 10, Y: 10}, Max: geom.Point{X: 10 + 60 + r.Float64()*900, Y: 10 + 60 + r.Float64()*400}}
		f.reset(live)
		var lines [][2]geom.Point
		for range r.IntN(6) {
			at := func() geom.Point {
				return geom.Point{X: r.Float64()*live.W()*1.4 - live.W()*0.2, Y: r.Float64()*live.H()*1.4 - live.H()*0.2}
			}
			a, b := at(), at()
			switch r.IntN(3) {
			case 0:
				b.X = a.X
			case 1:
				b.Y = a.Y
			}
			lines = append(lines, [2]geom.Point{a, b})
			f.takeLine(a, b, 1.5)
		}
		for range 20 {
			at := geom.Point{X: live.Min.X + r.Float64()*live.W(), Y: live.Min.Y + r.Float64()*live.H()}
			box := geom.Rect{Min: at, Max: at.Add(geom.Point{X: r.Float64() * 80, Y: r.Float64() * 40})}
			if f.free(box) {
				require.True(t, live.Contains(box.Min) && live.Contains(box.Max))
				for _, l := range lines {
					_, _, hit := tiling.ClipSegment(l[0], l[1], box.Grow(1.4))
					require.False(t, hit)
				}
			}
		}
		w, h := 5+r.Float64()*60, 5+r.Float64()*30
		for _, find := range []func(w, h float64) (geom.Point, bool){f.find, f.findLow} {
			at, ok := find(w, h)
			if ok {
				require.True(t, f.free(geom.Rect{Min: at, Max: at.Add(geom.Point{X: w, Y: h})}))
			} else {
				for y := live.Min.Y; y < live.Max.Y-h; y += f.each {
					for x := live.Min.X; x < live.Max.X-w; x += f.each {
						require.False(t, f.free(geom.Rect{Min: geom.Point{X: x, Y: y}, Max: geom.Point{X: x + w, Y: y + h}}))
					}
				}
			}
		}
	}
}
