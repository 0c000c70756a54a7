package develop_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// hollows are the empty parts of a section, joined as they turn out to be one.
type hollows struct {
	to    []int
	area  []float64
	wide  []float64 // area of the widest piece
	place []geom.Point
}

func (h *hollows) add(area float64, at geom.Point) int {
	h.to, h.area = append(h.to, len(h.to)), append(h.area, area)
	h.wide, h.place = append(h.wide, area), append(h.place, at)
	return len(h.to) - 1
}

func (h *hollows) find(i int) int {
	for h.to[i] != i {
		h.to[i] = h.to[h.to[i]]
		i = h.to[i]
	}
	return i
}

func (h *hollows) join(i, k int) {
	if i, k = h.find(i), h.find(k); i == k {
		return
	}
	h.to[k] = i
	h.area[i] += h.area[k]
	if h.wide[k] > h.wide[i] {
		h.wide[i], h.place[i] = h.wide[k], h.place[k]
	}
}

// within is the area of the parts that are not outside and, by their widest piece, inside.
func (h *hollows) within(outside int, inside func(geom.Point) bool) float64 {
	a := 0.0
	for i := range h.to {
		if h.find(i) == i && h.find(outside) != i && (inside == nil || inside(h.place[i])) {
			a += h.area[i]
		}
	}
	return a
}

// The sweep against the overlay library: triangles and boxes thrown at random, and a ring of touching boxes.
func TestAreas(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for range 60 {
		var cuts []cut
		var regions []geom.Region
		sum := 0.0
		for k := range 2 + rnd.IntN(12) {
			x, y := rnd.Float64()*80, rnd.Float64()*80
			r := geom.Region{Outer: boxPath(x, y, x+3+rnd.Float64()*40, y+3+rnd.Float64()*40)}
			regions = append(regions, r)
			cuts = cutsOfRegion(r, k, k, cuts)
			sum += r.Area()
		}
		got := areasOf(cuts, nil)
		both, err := geom.Union(regions, geom.Flatness)
		require.NoError(t, err)
		together, enclosed := 0.0, 0.0
		for _, r := range both {
			together += r.Area()
		}
		var filled []geom.Region
		for _, r := range both {
			filled = append(filled, geom.Region{Outer: r.Outer})
		}
		filled, err = geom.Union(filled, geom.Flatness)
		require.NoError(t, err)
		for _, r := range filled {
			enclosed += r.Area()
		}
		require.InDelta(t, sum, got.sum, 1e-2)
		require.InDelta(t, together, got.together, 1e-2)
		require.InDelta(t, enclosed, got.enclosed, 1e-2)
	}
	ring := []geom.Region{{Outer: boxPath(0, 0, 100, 2)}, {Outer: boxPath(0, 48, 100, 50)}, {Outer: boxPath(0, 2, 2, 48)}, {Outer: boxPath(98, 2, 100, 48)}}
	var cuts []cut
	for k, r := range ring {
		cuts = cutsOfRegion(r, k, k, cuts)
	}
	require.InDelta(t, 5000, areasOf(cuts, nil).enclosed, 1e-9)
	require.InDelta(t, 5000-96*46, areasOf(cuts, func(geom.Point) bool { return false }).enclosed, 1e-9)
	require.InDelta(t, 5000-96*46-2*46, areasOf(cuts[:12], nil).enclosed, 1e-9, "open on one side")
}
