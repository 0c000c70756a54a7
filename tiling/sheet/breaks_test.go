package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling"
)

// What is left of a line and what lay in the box are the whole line; nothing that is left lies in the box.
func TestLinesBreakAtALabel(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	length := func(ps []geom.Point) (l float64) {
		for i := 1; i < len(ps); i++ {
			l += ps[i-1].Dist(ps[i])
		}
		return l
	}
	for range 300 {
		run := tiling.Run{Closed: r.IntN(2) == 0}
		for range 2 + r.IntN(6) {
			run.Points = append(run.Points, geom.Point{X: r.Float64() * 100, Y: r.Float64() * 100})
		}
		box := geom.Rect{Min: geom.Point{X: r.Float64() * 60, Y: r.Float64() * 60}}
		box.Max = box.Min.Add(geom.Point{X: 1 + r.Float64()*40, Y: 1 + r.Float64()*40})
		ps := run.Points
		if run.Closed {
			ps = append(ps[:len(ps):len(ps)], ps[0])
		}
		inside := 0.0
		for i := 1; i < len(ps); i++ {
			if t0, t1, ok := tiling.ClipSegment(ps[i-1], ps[i], box); ok {
				inside += (t1 - t0) * ps[i-1].Dist(ps[i])
			}
		}
		left := 0.0
		for _, k := range outside(run, []geom.Rect{box}) {
			q := k.Points
			if k.Closed {
				q = append(q[:len(q):len(q)], q[0])
			}
			left += length(q)
			for i := 1; i < len(q); i++ {
				require.False(t, strictly(box.Grow(-1e-6), q[i-1].Lerp(q[i], 0.5)))
			}
		}
		require.InDelta(t, length(ps), left+inside, 1e-6)
	}
}

func strictly(b geom.Rect, q geom.Point) bool {
	return math.Min(q.X-b.Min.X, b.Max.X-q.X) > 0 && math.Min(q.Y-b.Min.Y, b.Max.Y-q.Y) > 0
}

// A line that no label meets is left as it was, and a closed one that is broken once is one line.
func TestLinesStayWhole(t *testing.T) {
	ring := tiling.Run{Closed: true, Points: tiling.Box(geom.Rect{Max: geom.Point{X: 10, Y: 10}})}
	require.Equal(t, []tiling.Run{ring}, outside(ring, []geom.Rect{{Min: geom.Point{X: 2, Y: 2}, Max: geom.Point{X: 8, Y: 8}}}))
	require.Len(t, outside(ring, []geom.Rect{{Min: geom.Point{X: 9, Y: 2}, Max: geom.Point{X: 12, Y: 8}}}), 1)
}
