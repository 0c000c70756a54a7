package geom

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestChordAndRise(t *testing.T) {
	// R = (c²/4 + h²)/2h. 96 and 12 inches: 102, finehomebuilding.com 1997/11/01; 6 and 1 feet: 5, askvity.info;
	// 85 and 4, 132 and 21 inches: questions at mathcentral.uregina.ca. Arc lengths computed.
	for _, c := range []struct{ chord, rise, radius, length float64 }{
		{96, 12, 102, 99.951295}, {6, 1, 5, 6.435011}, {85, 4, 227.78125, 85.501075}, {132, 21, 4797.0 / 42, 0},
	} {
		to := Point{c.chord, 0}
		// Walked to plan-right and turning right, the arc rises upstage.
		centre, sweep, err := ArcRadius(Point{}, to, c.radius, false, false)
		require.NoError(t, err)
		require.Less(t, sweep, 0.0)
		p := NewPath(Point{})
		p.ArcTo(centre, sweep, to)
		require.InDelta(t, c.rise, p.Bounds().H(), 1e-5)
		if c.length > 0 {
			require.InDelta(t, c.length, p.Length(), 1e-6)
		}
		again, turn, err := ArcThrough(Point{}, Point{c.chord / 2, c.rise}, to)
		require.NoError(t, err)
		require.InDelta(t, c.radius, again.Len(), 1e-5)
		require.InDelta(t, sweep, turn, 1e-6)
	}
}

func TestOffsetsFromTheLongChord(t *testing.T) {
	// C 80, R 202: 4.000 3.752 3.007 1.760 0 at 0, 10 … 40 from mid chord; exact by V(2R − V) = (C/2)².
	for i, want := range []float64{4.000, 3.752, 3.007, 1.760, 0} {
		centre, sweep, err := ArcRadius(Point{-40, 0}, Point{40, 0}, 202, false, false)
		require.NoError(t, err)
		s := svgArc(Point{-40, 0}, Point{40, 0}, 202, 202, 0, false, false)
		near(t, centre, s.Centre, 1e-9)
		require.InDelta(t, sweep, s.Sweep, 1e-12)
		x := 10 * float64(i)
		require.InDelta(t, want, centre.Y+math.Sqrt(202*202-x*x), 6e-4)
	}
}

func TestArcRadiusTurnsAsOneWalks(t *testing.T) {
	from, to := Point{0, 0}, Point{600, 0}
	for _, c := range []struct {
		left, long bool
		centre     Point
		sign       float64
	}{
		{true, false, Point{300, 400}, 1}, {true, true, Point{300, -400}, 1},
		{false, false, Point{300, -400}, -1}, {false, true, Point{300, 400}, -1},
	} {
		centre, sweep, err := ArcRadius(from, to, 500, c.left, c.long)
		require.NoError(t, err)
		near(t, c.centre, centre, 1e-9)
		short := 2 * math.Asin(0.6)
		if c.long {
			require.InDelta(t, c.sign*(2*math.Pi-short), sweep, 1e-12)
		} else {
			require.InDelta(t, c.sign*short, sweep, 1e-12)
		}
		p := NewPath(from)
		p.ArcTo(centre, sweep, to)
		near(t, to, p.Segment(0).Point(1-1e-13), 1e-9)
	}
}

func TestArcRadiusLeast(t *testing.T) {
	centre, sweep, err := ArcRadius(Point{}, Point{600.009, 0}, 300, true, false)
	require.NoError(t, err, "so little is rounding")
	near(t, Point{300.0045, 0}, centre, 1e-9)
	require.InDelta(t, math.Pi, sweep, 1e-12)
	_, _, err = ArcRadius(Point{}, Point{600.011, 0}, 300, true, false)
	var least *LeastRadiusError
	require.True(t, errors.As(err, &least))
	require.InDelta(t, 300.0055, least.Least, 1e-9)
	require.Contains(t, err.Error(), "300.006")
	for _, r := range []float64{0, -5, math.NaN(), math.Inf(1), 1e11} {
		_, _, err := ArcRadius(Point{}, Point{1, 1}, r, true, false)
		require.Error(t, err)
	}
	_, _, err = ArcRadius(Point{}, Point{math.NaN(), 1}, 5, true, false)
	require.Error(t, err)
	_, _, err = ArcRadius(Point{3, 3}, Point{3, 3}, 5, true, false)
	require.Error(t, err)
}

func TestArcThroughThreePlaces(t *testing.T) {
	r := seeded(8)
	for range 500 {
		c, rad, a := randomPoint(r, 1e5), 1+r.Float64()*1e4, r.Float64()*7
		sweep := (r.Float64()*0.96 + 0.02) * 2 * math.Pi
		if r.IntN(2) == 0 {
			sweep = -sweep
		}
		on := func(share float64) Point { return c.Add(Polar(rad, a+sweep*share)) }
		centre, got, err := ArcThrough(on(0), on(0.2+0.6*r.Float64()), on(1))
		require.NoError(t, err)
		near(t, c, centre, 1e-3)
		require.InDelta(t, sweep, got, 1e-5)
	}
	for _, c := range [][3]Point{
		{{0, 0}, {5, 0}, {10, 0}}, {{0, 0}, {15, 0}, {10, 0}}, {{0, 0}, {0, 0}, {10, 0}}, {{0, 0}, {5, 5}, {0, 0}},
		{{0, 0}, {1e6, 9e-7}, {2e6, 0}}, {{0, 0}, {math.NaN(), 0}, {10, 1}}, {{0, 0}, {5, 1e-6}, {10, 0}},
	} {
		_, _, err := ArcThrough(c[0], c[1], c[2])
		require.Error(t, err, "%v", c)
	}
}

func TestTwoDistances(t *testing.T) {
	// A yard measured from its south wall of 8 (exercise of an open maths collection; inputs from memory).
	nw, _, ok := TwoDistances(Point{}, 9, Point{8, 0}, 12)
	require.True(t, ok)
	near(t, Point{0.0625, 8.999782983}, nw, 1e-9)
	ne, south, ok := TwoDistances(Point{}, 11, Point{8, 0}, 7)
	require.True(t, ok)
	near(t, Point{8.5, 6.982120022}, ne, 1e-9)
	near(t, Point{8.5, -6.982120022}, south, 1e-9)
	require.InDelta(t, 8.675388757, nw.Dist(ne), 1e-9)
	require.InDelta(t, 65.959366507, Polygon([]Point{{}, {8, 0}, ne, nw}).Area(), 1e-8)
	// Triangles in whole numbers.
	for _, c := range []struct {
		base, da, db float64
		left         Point
	}{{14, 13, 15, Point{5, 12}}, {21, 10, 17, Point{6, 8}}, {4, 3, 5, Point{0, 3}}, {10, 6, 4, Point{6, 0}}, {10, 14, 4, Point{14, 0}}} {
		left, right, ok := TwoDistances(Point{}, c.da, Point{c.base, 0}, c.db)
		require.True(t, ok)
		near(t, c.left, left, 1e-9)
		near(t, Point{c.left.X, -c.left.Y}, right, 1e-9)
	}
	for _, c := range [][3]float64{{10, 3, 4}, {10, 15, 4}, {10, 4, 15}, {0, 5, 5}, {10, -1, 11}, {10, math.NaN(), 5}, {math.Inf(1), 5, 5}} {
		_, _, ok := TwoDistances(Point{}, c[1], Point{c[0], 0}, c[2])
		require.False(t, ok, "%v", c)
	}
	r := seeded(9)
	for range 500 {
		a, b, p := randomPoint(r, 2e4), randomPoint(r, 2e4), randomPoint(r, 2e4)
		left, right, ok := TwoDistances(a, a.Dist(p), b, b.Dist(p))
		require.True(t, ok)
		require.GreaterOrEqual(t, b.Sub(a).Cross(left.Sub(a)), 0.0)
		require.Less(t, min(left.Dist(p), right.Dist(p)), 1e-4)
	}
}

func TestMeasuredHall(t *testing.T) {
	c, err := MeasuredHall([]float64{9012, 7988, 9005, 8010}, 12031)
	require.NoError(t, err)
	require.Equal(t, Point{-4506, 0}, c[0])
	require.Equal(t, Point{4506, 0}, c[1])
	for i, want := range []float64{9012, 7988, 9005, 8010} {
		require.InDelta(t, want, c[i].Dist(c[(i+1)%4]), 1e-9)
	}
	require.InDelta(t, 12031, c[0].Dist(c[2]), 1e-9)
	require.Greater(t, Polygon(c).Area(), 0.0)
	// 3-4-5 triangles: a true rectangle.
	c, err = MeasuredHall([]float64{4000, 3000, 4000, 3000}, 5000)
	require.NoError(t, err)
	near(t, Point{2000, 3000}, c[2], 1e-9)
	near(t, Point{-2000, 3000}, c[3], 1e-9)

	var triangle *TriangleError
	_, err = MeasuredHall([]float64{9012, 2000, 9005, 8010}, 12031)
	require.True(t, errors.As(err, &triangle))
	require.True(t, triangle.First)
	require.Equal(t, 7012.0, triangle.Least())
	require.Equal(t, 11012.0, triangle.Greatest())
	require.Contains(t, err.Error(), "front wall and second side")
	_, err = MeasuredHall([]float64{9012, 7988, 2000, 8010}, 12031)
	require.True(t, errors.As(err, &triangle))
	require.False(t, triangle.First)
	require.Contains(t, err.Error(), "third and fourth sides")
	_, err = MeasuredHall([]float64{3, 4, 3, 4}, 7)
	require.Error(t, err, "flat")
	for _, bad := range [][]float64{nil, {1, 2, 3}, {1, 2, 3, 4, 5}, {1, 1, 1, -1}, {1, math.NaN(), 1, 1}} {
		_, err := MeasuredHall(bad, 1.4)
		require.Error(t, err)
	}
	_, err = MeasuredHall([]float64{1, 1, 1, 1}, math.Inf(1))
	require.Error(t, err)
}
