package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRegularPolygonFollowsPublishedRatios(t *testing.T) {
	// Side over the diameter of the circle through the corners, side over its radius, apothem over side, area
	// over the square of the side, side over the distance across flats: the formulas of the mathforum.org
	// table of regular polygons, computed to six places.
	for _, c := range []struct {
		n                                         int
		sideOverDiameter, apothem, area, overFlat float64
	}{
		{3, 0.866025, 0.288675, 0.433013, 0},
		{4, 0.707107, 0.500000, 1.000000, 1.000000},
		{5, 0.587785, 0.688191, 1.720477, 0},
		{6, 0.500000, 0.866025, 2.598076, 0.577350},
		{7, 0.433884, 1.038261, 3.633912, 0},
		{8, 0.382683, 1.207107, 4.828427, 0.414214},
		{9, 0.342020, 1.373739, 6.181824, 0},
		{10, 0.309017, 1.538842, 7.694209, 0.324920},
		{11, 0.281733, 1.702844, 9.365640, 0},
		{12, 0.258819, 1.866025, 11.196152, 0.267949},
	} {
		p, err := RegularPolygon(c.n, 1000, true)
		require.NoError(t, err)
		require.Equal(t, c.n, p.Len())
		require.True(t, p.Closed())
		for i, s := range p.Segments() {
			require.InDelta(t, c.sideOverDiameter, s.Length()/1000, 1e-6, "%d corners, edge %d", c.n, i)
		}
		side := p.Segment(0).Length()
		require.InDelta(t, c.apothem, -p.Start().Y/side, 1e-6)
		require.InDelta(t, c.area, p.Area()/side/side, 2e-6)
		front := p.Segment(0)
		require.Equal(t, front.From.Y, front.To.Y, "edge 1 is level")
		require.Equal(t, -front.From.X, front.To.X)
		require.Less(t, front.From.X, front.To.X, "and starts at its plan-left end")
		require.Equal(t, 0, FrontEdge(p))
		flat, err := RegularPolygon(c.n, 1000, false)
		if c.overFlat == 0 {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err)
		require.InDelta(t, c.overFlat, flat.Segment(0).Length()/1000, 1e-6)
		require.Equal(t, -500.0, flat.Bounds().Min.Y)
		require.Equal(t, 500.0, flat.Bounds().Max.Y)
	}
	deck, err := RegularPolygon(8, 4800, false)
	require.NoError(t, err)
	require.InDelta(t, 1988.2, deck.Segment(0).Length(), 0.05) // 4800 (√2 − 1)
	for _, c := range []struct {
		n      int
		across float64
	}{{2, 100}, {0, 100}, {-4, 100}, {MostCorners + 2, 100}, {6, 0}, {6, -1}, {6, math.NaN()}, {6, math.Inf(1)}} {
		_, err := RegularPolygon(c.n, c.across, true)
		require.Error(t, err, "%v", c)
	}
}

func TestShapesStandAboutTheirMiddle(t *testing.T) {
	for name, p := range map[string]*Path{
		"rectangle": Rectangle(3600, 2400), "circle": Circle(900), "ellipse": EllipsePath(2400, 1200),
	} {
		require.True(t, p.Closed(), name)
		require.Greater(t, p.Area(), 0.0, name)
		require.True(t, p.Bounds().Mid().Near(Point{}), name)
		require.True(t, p.Centroid().Near(Point{}), name)
		require.Equal(t, 0, FrontEdge(p), name)
	}
	require.Equal(t, Rect{Point{-1800, -1200}, Point{1800, 1200}}, Rectangle(3600, 2400).Bounds())
	require.Equal(t, Rect{Point{-450, -450}, Point{450, 450}}, Circle(900).Bounds())
	require.Equal(t, Rect{Point{-1200, -600}, Point{1200, 600}}, EllipsePath(2400, 1200).Bounds())
	require.InDelta(t, math.Pi*450*450, Circle(900).Area(), 1e-6)
	require.InDelta(t, math.Pi*1200*600, EllipsePath(2400, 1200).Area(), 1e-6)
}

func TestShapesWithoutSizeAreEmpty(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, p := range []*Path{
		Rectangle(0, 5), Rectangle(5, -1), Rectangle(nan, 1), Rectangle(1, inf), Circle(0), Circle(nan), Circle(inf),
		EllipsePath(1, nan), EllipsePath(-1, 1), Polygon(nil), Polygon([]Point{{1, 1}}), Polygon([]Point{{0, 0}, {nan, 1}}),
		Polygon([]Point{{0, 0}, {1, -inf}, {3, 4}}), {}, nil,
	} {
		require.True(t, p.Empty())
		require.True(t, p.Bounds().Empty())
		require.Zero(t, p.Area())
		require.Zero(t, p.Length())
		require.Equal(t, Point{}, p.Centroid())
		require.Equal(t, Point{}, p.Start())
		require.Equal(t, Point{}, p.End())
		require.Empty(t, p.Flatten(1, nil))
		require.Empty(t, p.Vertices())
		require.False(t, p.Contains(Point{}))
		require.True(t, p.Straight())
		require.True(t, p.Reverse().Empty())
		require.True(t, p.Transform(Move(Point{1, 2}, 3)).Empty())
		require.Equal(t, 0, FrontEdge(p))
		require.True(t, StartAtFront(p).Empty())
		require.Equal(t, Point{}, RimAt(p, Point{1, 0}))
		require.Equal(t, Segment{}, p.Segment(3))
		at, dir := p.At(12)
		require.Equal(t, Point{}, at)
		require.Equal(t, Point{}, dir)
	}
	dot := NewPath(Point{3, 4})
	require.Equal(t, Rect{Point{3, 4}, Point{3, 4}}, dot.Bounds())
	require.Equal(t, []Point{{3, 4}}, dot.Flatten(1, nil))
	require.True(t, dot.Contains(Point{3, 4}))
}
