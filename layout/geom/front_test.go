package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFrontEdge(t *testing.T) {
	for name, c := range map[string]struct {
		points []Point
		want   int
	}{
		"rectangle":                                     {[]Point{{0, 0}, {10, 0}, {10, 5}, {0, 5}}, 0},
		"clockwise":                                     {[]Point{{0, 0}, {0, 5}, {10, 5}, {10, 0}}, 3},
		"started elsewhere":                             {[]Point{{10, 5}, {0, 5}, {0, 0}, {10, 0}}, 2},
		"two level edges: the downstage one":            {[]Point{{0, 4}, {4, 4}, {4, 0}, {8, 0}, {8, 9}, {0, 9}}, 2},
		"two on one line: the plan-left one":            {[]Point{{5, 0}, {8, 0}, {8, 9}, {0, 9}, {0, 0}, {3, 0}, {3, 2}, {5, 2}}, 4},
		"none level: the one most nearly so":            {[]Point{{0, 0}, {6, 1}, {5, 8}, {-3, 4}}, 0},
		"a corner downstage: of equals the plan-left":   {[]Point{{0, -5}, {5, 0}, {0, 5}, {-5, 0}}, 3},
		"split edge: the plan-left part":                {[]Point{{0, 0}, {4, 0}, {10, 0}, {10, 5}, {0, 5}}, 0},
		"a corner typed twice":                          {[]Point{{0, 0}, {0, 0}, {10, 0}, {10, 5}, {0, 5}}, 1},
		"level only at the back: the side is not front": {[]Point{{0, 0}, {1, 5}, {-1, 5}}, 2},
	} {
		require.Equal(t, c.want, FrontEdge(Polygon(c.points)), name)
	}
}

func TestFrontEdgeOfCurvesByTheirMiddle(t *testing.T) {
	require.Equal(t, 0, FrontEdge(Circle(10)))
	// A bow to the front between two straight sides: (0,0) bulging to −y, as drawn.
	p := one(t, "M10 0L10 8L0 8L0 0A8 8 0 0 1 10 0z")
	require.Equal(t, 3, FrontEdge(p))
	// A bay turned inwards: the middle of its curve looks downstage, further back than the edge beside it.
	q := one(t, "M0 0L2 0A2 2 0 0 0 6 0L9 0L9 5L0 5z")
	require.Equal(t, 0, FrontEdge(q))
	require.Equal(t, FrontEdge(q.Reverse()), q.Len()-1)
}

func TestStartAtFront(t *testing.T) {
	r := seeded(10)
	for range 200 {
		p := randomPath(r, 1+r.IntN(6))
		if p.Area() == 0 {
			continue
		}
		q := StartAtFront(p)
		require.True(t, q.Closed())
		require.Greater(t, q.Area(), 0.0)
		require.Equal(t, p.Len(), q.Len())
		require.InEpsilon(t, math.Abs(p.Area()), q.Area(), 1e-7)
		require.Equal(t, 0, FrontEdge(q))
		require.Equal(t, q.Start(), q.End())
		require.ElementsMatch(t, p.Vertices(), q.Vertices())
		require.Equal(t, q, StartAtFront(q), "done once, done")
		require.Equal(t, q, StartAtFront(p), "p itself is left alone")
	}
	open := one(t, "M5 5L0 5L0 0L10 0L10 5")
	q := StartAtFront(open)
	require.Equal(t, []Point{{0, 0}, {10, 0}, {10, 5}, {5, 5}, {0, 5}}, q.Vertices())
	require.False(t, open.Closed())
}

func TestRimAt(t *testing.T) {
	c := Circle(900).Transform(Move(Point{100, 200}, 17))
	for _, a := range []float64{0, 0.3, math.Pi / 2, 2.5, math.Pi, 4.4, 6} {
		near(t, Point{100, 200}.Add(Polar(450, a)), RimAt(c, Polar(3, a)), 1e-9)
	}
	e := EllipsePath(2400, 1200)
	near(t, Point{0, -600}, RimAt(e, Point{0, -1}), 1e-9)
	near(t, Point{1200, 0}, RimAt(e, Point{1, 0}), 1e-9)
	near(t, Point{0, 600}, RimAt(e, Point{0, 1}), 1e-9)
}

func TestFramesAndMovesUndo(t *testing.T) {
	r := seeded(11)
	for range 100 {
		m, n, p := randomMove(r), randomMove(r), randomPoint(r, 1e4)
		near(t, p, m.Inverse().Apply(m.Apply(p)), 1e-8)
		near(t, n.Apply(m.Apply(p)), m.Then(n).Apply(p), 1e-8)
		require.Equal(t, m.Hand()*n.Hand(), m.Then(n).Hand())
		f := Upright(randomPoint(r, 1e4), 50, 360*r.Float64())
		g := f.Then(Frame{R: [3][3]float64{{-1, 0, 0}, {0, 1, 0}, {0, 0, -1}}, T: Vec{1, 2, 3}})
		v := Vec{p.X, p.Y, 7}
		back := g.Inverse().Apply(g.Apply(v))
		near(t, p, back.Plan(), 1e-8)
		require.InDelta(t, 7, back.Z, 1e-8)
		near(t, g.Apply(v).Plan(), g.Plan().Apply(p), 1e-8)
		require.Equal(t, -1.0, g.Plan().Hand(), "turned over, the plan is mirrored")
	}
	require.Equal(t, Point{-2, 1}, Move(Point{}, 90).Apply(Point{1, 2}), "quarter turns are exact")
}
