package grid_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling/grid"
)

// Boxes come, go and move at random, issue after issue: a page whose digest the issue before has is that page still, to the last line
// of what it is laid by; a label never stands for another place; and the first boxes again give the first digests and labels.
func TestRandomIssues(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 9))
	one := func() geom.Rect {
		x, y := float64(r.IntN(6000)-3000), float64(r.IntN(6000)-3000)
		return slab(x, y, x+float64(50+r.IntN(900)), y+float64(50+r.IntN(900)))
	}
	for i := range 24 {
		opt := options(t, []string{"A4", "A3", "roll 610"}[i%3])
		opt.Lap = []float64{10, 0, 3, 20}[i/3%4]
		boxes := []geom.Rect{one(), one(), one()}
		first := append([]geom.Rect{}, boxes...)
		a := build(t, info, opt, slabs(boxes...))
		at := map[string][2]float64{}
		places := func(p *grid.Plan) {
			for _, e := range p.Entries() {
				if before, ok := at[e.Label]; ok && i%3 < 2 {
					require.Equal(t, before, e.Origin, e.Label)
				}
				at[e.Label] = e.Origin
			}
		}
		places(a)
		was := a
		for range 6 {
			switch n := r.IntN(len(boxes)); r.IntN(3) {
			case 0:
				boxes = append(boxes, one())
			case 1:
				boxes[n] = one()
			default:
				if len(boxes) > 1 {
					boxes = append(boxes[:n], boxes[n+1:]...)
				}
			}
			opt = earlier(t, opt, was, "A")
			is := build(t, info, opt, slabs(boxes...))
			held(t, was, is)
			places(is)
			was = is
		}
		back := build(t, info, earlier(t, opt, was, "A"), slabs(first...))
		require.Equal(t, digests(a), digests(back))
	}
}
