package geom

import (
	"math"
	"testing"

	overlay "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
)

func at(p *Path, x, y float64) *Path { return p.Transform(Move(Point{x, y}, 0)) }

func area(rs []Region) float64 {
	sum := 0.0
	for _, r := range rs {
		sum += r.Area()
	}
	return sum
}

func TestOverlaysOfSquares(t *testing.T) {
	a := []Region{{Outer: Rectangle(100, 100)}}
	b := []Region{{Outer: at(Rectangle(100, 100), 50, 50)}}
	u, err := Union(append(a, b...), 1)
	require.NoError(t, err)
	require.Len(t, u, 1)
	require.Equal(t, []Point{{-50, -50}, {50, -50}, {50, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 50}, {-50, 50}}, u[0].Outer.Vertices())
	i, err := Intersect(a, b, 1)
	require.NoError(t, err)
	require.Equal(t, []Point{{0, 0}, {50, 0}, {50, 50}, {0, 50}}, i[0].Outer.Vertices())
	d, err := Difference(a, b, 1)
	require.NoError(t, err)
	require.Equal(t, 7500.0, area(d))
	hole, err := Difference([]Region{{Outer: Rectangle(300, 300)}}, a, 1)
	require.NoError(t, err)
	require.Len(t, hole, 1)
	require.Len(t, hole[0].Holes, 1)
	require.Less(t, hole[0].Holes[0].Area(), 0.0)
	none, err := Intersect(a, []Region{{Outer: at(Rectangle(100, 100), 100, 0)}}, 1)
	require.NoError(t, err)
	require.Empty(t, none, "an edge in common is no area")
	none, err = Union(nil, 1)
	require.NoError(t, err)
	require.Empty(t, none)
	for _, r := range []Region{{}, {Outer: &Path{}}, {Outer: NewPath(Point{1, 2})}, {Outer: one(t, "M0 0 5 0z")}} {
		got, err := Union([]Region{r, a[0]}, 1)
		require.NoError(t, err)
		require.Equal(t, 10000.0, area(got))
		got, err = Difference(a, []Region{r}, 1)
		require.NoError(t, err)
		require.Equal(t, 10000.0, area(got))
	}
}

func TestOverlayTakesCrossingOutlinesByTheNonzeroRule(t *testing.T) {
	star := make([]Point, 5)
	for i := range star {
		star[i] = Polar(1000, math.Pi/2+float64(i)*4*math.Pi/5)
	}
	u, err := Union([]Region{{Outer: Polygon(star)}}, 1)
	require.NoError(t, err)
	require.Len(t, u, 1)
	require.Empty(t, u[0].Holes)
	// A pentagram's outline of radius R: area 10 tan(π/10) / (3 − tan²(π/10)) R² (Wolfram MathWorld, Pentagram,
	// from memory).
	tn := math.Tan(math.Pi / 10)
	require.InEpsilon(t, 10*tn/(3-tn*tn)*1e6, area(u), 1e-8)
	// A figure of eight has two lobes of opposite hands, and both count; where they lie over each other they cancel.
	u, err = Union([]Region{{Outer: Polygon([]Point{{0, 0}, {100, 100}, {100, 0}, {0, 100}})}}, 1)
	require.NoError(t, err)
	require.Len(t, u, 2)
	require.Equal(t, 5000.0, area(u))
	u, err = Union([]Region{{Outer: one(t, "M0 0H100V100H0V0H-50V-10H50V50H0z")}}, 1)
	require.NoError(t, err)
	require.Equal(t, 11000.0, area(u), "two loops of one hand")
	u, err = Union([]Region{{Outer: one(t, "M0 0H100V100H0V0V50H50V-10H-50V0z")}}, 1)
	require.NoError(t, err)
	require.Equal(t, 8500.0, area(u), "two of opposite hands")
	// Holes that lie over each other and over the rim are taken off once.
	r := Region{Outer: Rectangle(100, 100), Holes: []*Path{Rectangle(20, 20), at(Rectangle(20, 20), 10, 0).Reverse(), at(Rectangle(20, 20), 50, 0)}}
	u, err = Union([]Region{r}, 1)
	require.NoError(t, err)
	require.Equal(t, 10000.0-600-200, area(u))
}

func TestNonzeroAreaOfTangledOutlines(t *testing.T) {
	// Against counting places on a grid by the winding number, which is computed another way.
	r := seeded(15)
	for range 40 {
		pts := make([]Point, 4+r.IntN(14))
		for i := range pts {
			pts[i] = Point{float64(r.IntN(40)) * 25, float64(r.IntN(40)) * 25}
		}
		p := Polygon(pts)
		u, err := Union([]Region{{Outer: p}}, 1)
		require.NoError(t, err, "%v", pts)
		inside := func(q Point) bool {
			for _, r := range u {
				if r.Contains(q) {
					return true
				}
			}
			return false
		}
		for range 2000 {
			q := Point{r.Float64() * 1000, r.Float64() * 1000}
			require.Equal(t, p.Contains(q), inside(q), "%v %v", q, pts)
		}
	}
}

func TestOverlayAreasAddUp(t *testing.T) {
	r := seeded(13)
	for range 60 {
		blob := func() Region {
			n := 3 + r.IntN(60)
			pts := make([]Point, n)
			c := randomPoint(r, 1500)
			for i := range pts {
				pts[i] = c.Add(Polar(200+800*r.Float64(), 2*math.Pi*float64(i)/float64(n)))
			}
			return Region{Outer: Polygon(pts)}
		}
		a, b := []Region{blob(), blob()}, []Region{blob()}
		ua, err := Union(a, 0.01)
		require.NoError(t, err)
		u, err := Union(append(a, b...), 0.01)
		require.NoError(t, err)
		i, err := Intersect(a, b, 0.01)
		require.NoError(t, err)
		d, err := Difference(a, b, 0.01)
		require.NoError(t, err)
		require.InEpsilon(t, area(ua)+area(b), area(u)+area(i), 1e-7)
		require.InDelta(t, area(ua), area(d)+area(i), 1e-3)
		again, err := Union(append(b, a...), 0.01)
		require.NoError(t, err)
		require.InEpsilon(t, area(u), area(again), 1e-9)
		twice, err := Union(append(a, b...), 0.01)
		require.NoError(t, err)
		require.Equal(t, u, twice, "the same to the last figure")
		require.Equal(t, area(i) > 0.01, Overlaps(a[0], b[0]) || Overlaps(a[1], b[0]))
	}
}

func TestOverlayOfPiecesThatShareEdges(t *testing.T) {
	// Twelve wedges of a ring, each turned into place, make the whole ring: shared edges differ by rounding.
	wedge := NewPath(Point{1000, 0})
	wedge.LineTo(Point{2000, 0})
	wedge.ArcTo(Point{}, math.Pi/6, Polar(2000, math.Pi/6))
	wedge.LineTo(Polar(1000, math.Pi/6))
	wedge.ArcTo(Point{}, -math.Pi/6, Point{1000, 0})
	wedge.Close()
	for _, turn := range []float64{0, 7.3, 15} {
		var rs []Region
		for k := range 12 {
			rs = append(rs, Region{Outer: wedge.Transform(Move(Point{123.4, -5000.6}, turn+30*float64(k)))})
		}
		for k := range rs {
			require.False(t, Overlaps(rs[k], rs[(k+1)%12]), "neighbours only touch")
			require.True(t, Overlaps(rs[k], rs[k]))
		}
		u, err := Union(rs, Flatness)
		require.NoError(t, err)
		require.Len(t, u, 1)
		require.Len(t, u[0].Holes, 1)
		require.InEpsilon(t, 12*rs[0].Area(), area(u), 1e-5)
	}
}

func TestRegions(t *testing.T) {
	ring := Region{Outer: Circle(2000), Holes: []*Path{Circle(1000).Reverse()}}
	require.InDelta(t, math.Pi*(1e6-0.25e6), ring.Area(), 1e-6)
	require.InDelta(t, ring.Area(), Region{Outer: Circle(2000), Holes: []*Path{Circle(1000)}}.Area(), 1e-6)
	for q, in := range map[Point]bool{{0, 0}: false, {499, 0}: false, {500, 0}: true, {700, 0}: true, {1000, 0}: true, {1001, 0}: false} {
		require.Equal(t, in, ring.Contains(q), "%v", q)
	}
	moved := ring.Transform(Move(Point{50, 60}, 70))
	near(t, Point{50, 60}, moved.Bounds().Mid(), 1e-9)
	require.InDelta(t, ring.Area(), moved.Area(), 1e-6)
	require.Zero(t, Region{}.Area())
	require.True(t, Region{}.Bounds().Empty())
	require.False(t, Region{}.Contains(Point{}))
}

func TestClearDistances(t *testing.T) {
	disc := func(x, y, d float64) Region { return Region{Outer: at(Circle(d), x, y)} }
	box := func(x, y, w, h float64) Region { return Region{Outer: at(Rectangle(w, h), x, y)} }
	ring := Region{Outer: Circle(2000), Holes: []*Path{Circle(1000)}}
	for name, c := range map[string]struct {
		a, b Region
		d    float64
	}{
		"beside":                       {box(0, 0, 10, 10), box(30, 0, 10, 10), 20},
		"corner to corner":             {box(0, 0, 10, 10), box(13, 14, 10, 10), 5},
		"touching":                     {box(0, 0, 10, 10), box(10, 3, 10, 10), 0},
		"overlapping":                  {box(0, 0, 10, 10), box(7, 3, 10, 10), 0},
		"crossing without a corner in": {box(0, 0, 100, 10), box(0, 0, 10, 100), 0},
		"one within the other":         {box(0, 0, 100, 100), box(3, 3, 1, 1), 0},
		"in the hole":                  {ring, disc(100, 0, 300), 250},
		"filling the hole":             {ring, disc(0, 0, 1000), 0},
		"discs":                        {disc(0, 0, 60), disc(300, 400, 89), 425.5},
		"discs that touch":             {disc(0, 0, 60), disc(30, 40, 40), 0},
		"the ring from outside":        {ring, disc(3000, 0, 1000), 1500},
	} {
		d, pa, pb := Distance(c.a, c.b)
		require.InDelta(t, c.d, d, 1.1e-3, name)
		require.InDelta(t, d, pa.Dist(pb), 2e-3, name)
		back, _, _ := Distance(c.b, c.a)
		require.InDelta(t, d, back, 1e-9, name)
	}
	d, pa, pb := Distance(box(0, 0, 10, 10), box(30, 2, 10, 4))
	require.Equal(t, 20.0, d)
	require.Equal(t, 5.0, pa.X)
	require.Equal(t, 25.0, pb.X)
	d, _, _ = Distance(Region{}, ring)
	require.True(t, math.IsInf(d, 1))
	require.False(t, Overlaps(Region{}, ring))
	require.False(t, Overlaps(ring, disc(0, 0, 1000)), "what fills a hole does not overlap")
	require.False(t, Overlaps(disc(0, 0, 60), disc(30, 40, 40)))
	require.True(t, Overlaps(disc(0, 0, 60), disc(30, 40, 41)))
	require.False(t, Overlaps(box(0, 0, 10, 10), box(10, 3, 10, 10)))
	require.True(t, Overlaps(box(0, 0, 10, 10), box(9.99, 3, 10, 10)))
}

func TestDistanceAgainstALibrary(t *testing.T) {
	r := seeded(14)
	for range 200 {
		blob := func() Region {
			n := 3 + r.IntN(40)
			pts := make([]Point, n)
			c := randomPoint(r, 6000)
			for i := range pts {
				pts[i] = c.Add(Polar(200+800*r.Float64(), 2*math.Pi*float64(i)/float64(n)))
			}
			return Region{Outer: Polygon(pts)}
		}
		a, b := blob(), blob()
		want, _ := overlay.Distance(asPolygon(a.Outer, 1).AsGeometry(), asPolygon(b.Outer, 1).AsGeometry())
		got, pa, pb := Distance(a, b)
		require.InDelta(t, want, got, 1e-6)
		require.True(t, a.Contains(pa) && b.Contains(pb))
	}
}
