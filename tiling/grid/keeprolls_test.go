package grid_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling/grid"
)

// slabs is a floor of boxes.
func slabs(boxes ...geom.Rect) *drawing.Drawing {
	s := newFloor()
	for _, b := range boxes {
		s.cut(s.own("slab"), geom.Rectangle(b.W(), b.H()).Transform(geom.Move(b.Mid(), 0)))
	}
	return s.Drawing
}

func slab(x0, y0, x1, y1 float64) geom.Rect { return geom.Rect{Min: pt(x0, y0), Max: pt(x1, y1)} }

func labelsOf(p *grid.Plan) (out []string) {
	for _, e := range p.Entries() {
		out = append(out, e.Label)
	}
	return out
}

// A strip of several lengths that grows at its upper end keeps its joins and its lower parts; one that grows at its lower end keeps
// its joins and its upper ones.
func TestLongStripKeepsItsJoins(t *testing.T) {
	for _, lap := range []float64{10, 0} {
		opt := options(t, "roll 914")
		opt.Lap = lap
		a := build(t, info, opt, slabs(slab(-350, 0, 350, 13000)))
		require.Equal(t, []string{"floor 1A", "floor 2A", "floor 3A"}, labelsOf(a))
		up := build(t, info, earlier(t, opt, a, "A"), slabs(slab(-350, 0, 350, 13300)))
		require.Equal(t, 2, held(t, a, up))
		require.Equal(t, labelsOf(a), labelsOf(up))
		down := build(t, info, earlier(t, opt, a, "A"), slabs(slab(-350, -300, 350, 13000)))
		require.Equal(t, 2, held(t, a, down))
		require.Equal(t, labelsOf(a), labelsOf(down))
		// Longer by more than a strip can be: a part is added, with the next number, and lies in its place.
		longer := build(t, info, earlier(t, opt, a, "A"), slabs(slab(-350, -3000, 350, 13000)))
		require.Equal(t, 2, held(t, a, longer))
		require.Equal(t, []string{"floor 4A", "floor 1A", "floor 2A", "floor 3A"}, labelsOf(longer))
		for _, e := range longer.Entries() {
			require.LessOrEqual(t, max(e.Size[0], e.Size[1])+20, 5000.0)
		}
		back := build(t, info, earlier(t, opt, longer, "B"), slabs(slab(-350, 0, 350, 13000)))
		require.Equal(t, digests(a), digests(back))
	}
}

// Parts of a strip keep their numbers when others come before them, and a number that is gone comes back with its own place only.
func TestPartsKeepTheirNumbers(t *testing.T) {
	opt := options(t, "roll 610")
	low, mid, high, end := slab(0, 0, 400, 300), slab(0, 3000, 400, 3300), slab(0, 6000, 400, 6300), slab(0, 9000, 400, 9300)
	a := build(t, info, opt, slabs(mid, high))
	require.Equal(t, []string{"floor 1A", "floor 2A"}, labelsOf(a))
	b := build(t, info, earlier(t, opt, a, "A"), slabs(low, mid, high))
	require.Equal(t, []string{"floor 3A", "floor 1A", "floor 2A"}, labelsOf(b))
	require.Equal(t, 2, held(t, a, b))
	c := build(t, info, earlier(t, opt, b, "B"), slabs(mid, high))
	require.Equal(t, digests(a), digests(c))
	d := build(t, info, earlier(t, opt, c, "C"), slabs(mid, high, end))
	require.Equal(t, []string{"floor 1A", "floor 2A", "floor 4A"}, labelsOf(d))
	e := build(t, info, earlier(t, opt, d, "D"), slabs(low, mid, high, end))
	require.Equal(t, []string{"floor 3A", "floor 1A", "floor 2A", "floor 4A"}, labelsOf(e))
	// A part that is longer now is the same part, to print again.
	f := build(t, info, earlier(t, opt, e, "E"), slabs(low, mid, slab(0, 6000, 400, 6600), end))
	require.Equal(t, labelsOf(e), labelsOf(f))
	require.Equal(t, 3, held(t, e, f))
}

// Strips that lie beside one another: what is drawn on a kept one for its neighbours stays as it was, whatever becomes of them.
func TestStripsKeepTheirSeams(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 5))
	wall := func() geom.Rect {
		x, y := float64(r.IntN(3000)), float64(r.IntN(7000))
		return slab(x, y, x+float64(100+r.IntN(900)), y+float64(100+r.IntN(4000)))
	}
	for i := range 40 {
		opt := options(t, []string{"roll 610", "roll 914"}[i%2])
		opt.Lap = []float64{0, 3, 10, 20}[r.IntN(4)]
		var boxes []geom.Rect
		for range 2 + r.IntN(4) {
			boxes = append(boxes, wall())
		}
		was := build(t, info, opt, slabs(boxes...))
		same := build(t, info, earlier(t, opt, was, "A"), slabs(boxes...))
		require.Equal(t, was.Count(), held(t, was, same))
		require.Equal(t, was.Grids(), same.Grids())
		first := digests(was)
		opt = earlier(t, opt, was, "A")
		for range 4 {
			n := r.IntN(len(boxes))
			before := boxes[n]
			boxes[n] = wall()
			is := build(t, info, opt, slabs(boxes...))
			held(t, was, is)
			opt = earlier(t, opt, is, "B")
			boxes[n] = before
			back := build(t, info, opt, slabs(boxes...))
			held(t, is, back)
			require.Equal(t, first, digests(back))
			was, opt = back, earlier(t, opt, back, "C")
		}
	}
}
