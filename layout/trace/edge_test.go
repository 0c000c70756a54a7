package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

func loopsOf(t require.TestingT, f *Field) []*loop {
	s, err := NewScanner(f.w, f.h)
	require.NoError(t, err)
	buf := make([]uint16, f.w)
	for y := range f.h {
		f.row(y, buf)
		require.NoError(t, s.Row(buf))
	}
	ls, err := s.loops()
	require.NoError(t, err)
	return ls
}

func edgesOf(t require.TestingT, f *Field) (out [][]geom.Point) {
	for _, l := range loopsOf(t, f) {
		out = append(out, l.pts)
	}
	return out
}

// grid reads a picture of #, for wholly covered, and other characters.
func grid(rows ...string) *Field {
	f := &Field{w: len(rows[0]), h: len(rows)}
	for _, r := range rows {
		for _, c := range r {
			v := uint8(0)
			if c == '#' {
				v = 255
			}
			f.low = append(f.low, v)
		}
	}
	return f
}

func TestEdgeLine(t *testing.T) {
	one := loopsOf(t, grid("#"))
	require.Len(t, one, 1)
	require.ElementsMatch(t, []geom.Point{{X: 1, Y: .5}, {X: .5, Y: 1}, {X: 0, Y: .5}, {X: .5, Y: 0}}, one[0].pts)
	require.Equal(t, 0.5, one[0].area, "anticlockwise")

	ring := loopsOf(t, grid("#####", "#...#", "#.#.#", "#...#", "#####"))
	require.Len(t, ring, 3)
	require.Equal(t, []int{-1, 0, 1}, []int{ring[0].parent, ring[1].parent, ring[2].parent})
	require.Positive(t, ring[0].area)
	require.Negative(t, ring[1].area)
	require.Positive(t, ring[2].area)

	// Pixels that touch at a corner alone are parted, whichever way.
	require.Len(t, loopsOf(t, grid("#.", ".#")), 2)
	require.Len(t, loopsOf(t, grid(".#", "#.")), 2)
	require.Len(t, loopsOf(t, grid("#.#", "...", "#.#")), 4)
	require.Empty(t, loopsOf(t, grid("...")))
}

// The pixels within a circle about a pixel's middle: counts of the integer sequence A000328 (from memory). Of an outline of
// pixels' edges the area is the count; the line cuts an eighth off each outward corner and adds as much at inward ones, of
// which there are four fewer.
func TestDiscs(t *testing.T) {
	for r, count := range map[int]int{1: 5, 2: 13, 3: 29, 4: 49, 5: 81, 6: 113, 7: 149, 8: 197, 9: 253, 10: 317, 20: 1257} {
		f := &Field{w: 2*r + 1, h: 2*r + 1}
		for y := -r; y <= r; y++ {
			for x := -r; x <= r; x++ {
				v := uint8(0)
				if x*x+y*y <= r*r {
					v = 255
				}
				f.low = append(f.low, v)
			}
		}
		require.InDelta(t, count, f.Area(), 1e-9)
		require.InDelta(t, float64(count)-0.5, loopsOf(t, f)[0].area, 0.5+float64(r)*0.02, "radius %d", r)
	}
}

// A straight edge is placed where it is, however it lies to the pixels, but for the rounding of samples to 8 bits. (The
// rasteriser follows slopes by coarser numbers in pictures under 512 pixels.)
func TestStraightEdgesArePlacedExactly(t *testing.T) {
	for a := 0.0; a < 6.28; a += 0.37 {
		c := geom.Point{X: 60.3, Y: 59.8}
		var ps []geom.Point
		for k := range 4 {
			ps = append(ps, c.Add(geom.Polar(50, a+float64(k)*math.Pi/2)))
		}
		want := runsNear{}
		want.add(ps)
		for _, l := range loopsOf(t, raster(600, 600, geom.Polygon(ps))) {
			for _, q := range l.pts {
				near := math.Inf(1)
				for _, corner := range ps {
					near = min(near, q.Dist(corner))
				}
				if near > 8 {
					require.Less(t, want.distance(q), 0.02, "turned by %g", a)
				}
			}
		}
	}
}
