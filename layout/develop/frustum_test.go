package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
)

func TestFrustum(t *testing.T) {
	// Worked example, ceemrr.com DrawingsNets6: D 8, d 5, h 4: radii 7.12 and 11.39, sector 126.4°.
	f, err := develop.NewFrustum(8, 5, 4)
	require.NoError(t, err)
	require.InDelta(t, 7.12, f.Inner, 0.005)
	require.InDelta(t, 11.39, f.Outer, 0.005)
	require.InDelta(t, 126.4, f.Sector, 0.05)
	require.InDelta(t, 20.337082, 2*f.Outer*math.Sin(f.Sector/2*math.Pi/180), 5e-7) // RUN: the outer chord
	require.InDelta(t, f.Area, f.Path().Area(), 1e-9)

	// anvilfire.com, cones: a point of 90° has a sector of 254.6° (sin 45° × 360).
	f, err = develop.NewFrustum(200, 0, 100)
	require.NoError(t, err)
	require.InDelta(t, 254.6, f.Sector, 0.05)
	require.Zero(t, f.Inner)
	require.InDelta(t, f.Area, f.Path().Area(), 1e-6)

	// Sheet Metal Drafting (public domain, Wikisource djvu/96): base 5, slant 12 and base 7, slant 11.25; results RUN.
	for _, row := range []struct{ d, slant, area, sector float64 }{{5, 12, 94.2478, 75}, {7, 11.25, 123.7002, 112}} {
		f, err = develop.NewFrustum(row.d, 0, math.Sqrt(row.slant*row.slant-row.d*row.d/4))
		require.NoError(t, err)
		require.InDelta(t, row.area, f.Area, 5e-5)
		require.InDelta(t, row.sector, f.Sector, 1e-9)
	}
	// The same book, djvu/142, sample problem and problem 30B; results RUN.
	for _, row := range []struct{ lower, upper, h, slant, outer, inner, sector, area float64 }{
		{6, 3, 3, 3.354102, 6.708204, 3.354102, 160.996894, 47.417499},
		{8, 4, 4, 4.472136, 8.944272, 4.472136, 160.996894, 84.297777},
	} {
		for _, f := range []func() (develop.Frustum, error){
			func() (develop.Frustum, error) { return develop.NewFrustum(row.lower, row.upper, row.h) },
			func() (develop.Frustum, error) { return develop.NewFrustum(row.upper, row.lower, row.h) },
		} {
			got, err := f()
			require.NoError(t, err)
			require.InDelta(t, row.slant, got.Slant, 5e-7)
			require.InDelta(t, row.outer, got.Outer, 5e-7)
			require.InDelta(t, row.inner, got.Inner, 5e-7)
			require.InDelta(t, row.sector, got.Sector, 5e-7)
			require.InDelta(t, row.area, got.Area, 5e-7)
		}
	}
	// The same place, a spout of 3 1/8 and 2 1/2 with a slant of 7.5, by the general rule x = rH/(R − r), y = x + H, angle
	// 2π(R − r)/H (scribd.com 836463957): 30, 37.5 and 15°.
	f, err = develop.NewFrustum(3.125, 2.5, math.Sqrt(7.5*7.5-0.3125*0.3125))
	require.NoError(t, err)
	require.InDelta(t, 7.5, f.Slant, 1e-9)
	require.InDelta(t, 30, f.Inner, 1e-9)
	require.InDelta(t, 37.5, f.Outer, 1e-9)
	require.InDelta(t, 15, f.Sector, 1e-9)
	require.InDelta(t, math.Pi*2.8125*7.5, f.Area, 1e-9)
	// chestofbooks.com, rule for striking out a cone: the sector is 60° when the slant is 6 times the base radius.
	f, err = develop.NewFrustum(2, 0, math.Sqrt(35))
	require.NoError(t, err)
	require.InDelta(t, 60, f.Sector, 1e-9)
	for _, bad := range [][3]float64{{5, 5, 3}, {0, 0, 3}, {5, 3, 0}, {-1, 3, 2}, {math.NaN(), 1, 1}, {math.Inf(1), 1, 1}} {
		_, err := develop.NewFrustum(bad[0], bad[1], bad[2])
		require.Error(t, err, "%v", bad)
	}
}

func TestPyramid(t *testing.T) {
	// Square frustum 200/100/150 (RUN).
	p, err := develop.NewPyramid(4, 200, 100, 150)
	require.NoError(t, err)
	require.InDelta(t, 158.113883, p.Face, 5e-7)
	require.InDelta(t, 165.831240, p.Edge, 5e-7)
	require.InDelta(t, 331.662479, p.Apex, 5e-7)
	require.InDelta(t, 35.096801, p.Corner, 5e-7)
	require.InDelta(t, 94868.329805, p.Area, 5e-7)
	for _, bad := range [][3]float64{{5, 5, 3}, {0, 0, 3}, {5, 3, 0}, {-1, 3, 2}, {math.NaN(), 1, 1}} {
		_, err := develop.NewPyramid(4, bad[0], bad[1], bad[2])
		require.Error(t, err, "%v", bad)
	}
	_, err = develop.NewPyramid(2, 2, 1, 1)
	require.Error(t, err)
}
