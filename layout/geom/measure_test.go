package geom

import (
	"math"
	"testing"

	overlay "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
)

// quadLength measures a segment with gonum's quadrature in 400 panels.
func quadLength(s Segment) float64 {
	sum := 0.0
	const n = 400
	for i := range n {
		sum += quad.Fixed(func(t float64) float64 { return s.derivative(t).Len() }, float64(i)/n, float64(i+1)/n, 12, nil, 0)
	}
	return sum
}

func TestLengthsAgainstIndependentQuadrature(t *testing.T) {
	eachSegment(t, 300, func(t *testing.T, s Segment) {
		eps := 1e-9
		if s.Kind == EllipticalArc && s.RY < s.RX/100 {
			eps = 1e-6 // the reference has no panel ends at the vertices
		}
		if s.Kind == Cubic && s.C1 == s.From.Add(Point{1000, 1000}) {
			eps = 1e-6 // nor at a cusp
		}
		require.InEpsilon(t, quadLength(s), s.Length(), eps, "%+v", s)
	})
}

func TestEllipsePerimeters(t *testing.T) {
	// By quadrature with gonum; 16 × 10 and 2440 × 1220 are sheets of the pins-and-string method.
	for _, c := range []struct{ w, h, perimeter float64 }{
		{16, 10, 41.386276072}, {2440, 1220, 5909.953414534}, {10, 6, 25.526998863}, {10, 10, 10 * math.Pi},
	} {
		require.InEpsilon(t, c.perimeter, EllipsePath(c.w, c.h).Length(), 1e-9)
		require.InEpsilon(t, c.perimeter, EllipsePath(c.h, c.w).Transform(Move(Point{1, 2}, 33)).Length(), 1e-9)
	}
	// An ellipse without height is walked there and back.
	require.InEpsilon(t, 40, EllipsePath(20, 1e-9).Length(), 1e-9)
	// The cusped cubic (0,0) (1,1) (0,1) (1,0): x′ = 3(1−2t)², y′ = 3(1−2t); with w = 1 − 2t its length is
	// 3 ∫₀¹ w√(w²+1) dw = 2√2 − 1.
	require.InEpsilon(t, 2*math.Sqrt2-1, Segment{Kind: Cubic, C1: Point{1, 1}, C2: Point{0, 1}, To: Point{1, 0}}.Length(), 1e-9)
	require.Zero(t, Segment{Kind: Cubic}.Length())
}

func TestAreasOfPublishedFigures(t *testing.T) {
	// Shoelace task, rosettacode.org: 30. The centroid by two general libraries.
	p := Polygon([]Point{{3, 4}, {5, 11}, {12, 8}, {9, 5}, {5, 6}})
	require.InDelta(t, 30, math.Abs(p.Area()), 1e-12)
	require.Less(t, p.Area(), 0.0, "typed clockwise")
	near(t, Point{7.1666667, 7.6111111}, p.Centroid(), 1e-7)
	// Three sides, by Heron's formula.
	for _, c := range [][4]float64{{13, 14, 15, 84}, {5, 12, 13, 30}, {7, 8, 9, 26.83281573}} {
		top, _, ok := TwoDistances(Point{}, c[1], Point{c[0], 0}, c[2])
		require.True(t, ok)
		require.InDelta(t, c[3], Polygon([]Point{{}, {c[0], 0}, top}).Area(), 1e-8)
	}
	// Sector: arc 14, radius 7: 49.
	s := NewPath(Point{})
	s.LineTo(Point{7, 0})
	s.ArcTo(Point{}, 2, Polar(7, 2))
	s.Close()
	require.InDelta(t, 49, s.Area(), 1e-12)
	require.InDelta(t, 28, s.Length(), 1e-12)
	// A half disc's centre stands 4r/3π from its diameter.
	h := one(t, "M5 0A5 5 0 0 1-5 0z")
	near(t, Point{0, 20 / (3 * math.Pi)}, h.Centroid(), 1e-12)
	near(t, Point{0, 20 / (3 * math.Pi)}, one(t, "M5 0A5 5 0 0 1-5 0").Centroid(), 1e-12, "open as well")
	near(t, Point{1e7 - 5, 1e7 - 1}, Rectangle(4, 2).Transform(Move(Point{1e7 - 5, 1e7 - 1}, 0)).Centroid(), 1e-8)
	near(t, Point{5, 0}, one(t, "M0 0 10 0").Centroid(), 0, "no area: the middle of the box")
}

func asPolygon(p *Path, tol float64) overlay.Polygon {
	var xs []float64
	pts := p.Flatten(tol, nil)
	for _, q := range append(pts, pts[0]) {
		xs = append(xs, q.X, q.Y)
	}
	return overlay.NewPolygon([]overlay.LineString{overlay.NewLineString(overlay.NewSequence(xs, overlay.DimXY))})
}

func TestAreasAndCentresAgainstALibraryOnFineRuns(t *testing.T) {
	r := seeded(2)
	for range 60 {
		p := randomPath(r, 1+r.IntN(6))
		fine := asPolygon(p, 1e-5)
		area := p.Area()
		slack := 1e-5 * p.Length()
		require.InDelta(t, fine.Area(overlay.SignedArea), area, slack)
		if xy, ok := fine.Centroid().XY(); ok && math.Abs(area) > 1e4 {
			near(t, Point{xy.X, xy.Y}, p.Centroid(), 1e-3*max(1, 1e6/math.Abs(area)))
		}
		require.InDelta(t, -area, p.Reverse().Area(), 1e-6)
		near(t, p.Centroid(), p.Reverse().Centroid(), 1e-3*max(1, 1e6/math.Abs(area)))
	}
}

func TestCubicAreaAndMomentAgainstQuadrature(t *testing.T) {
	eachSegment(t, 100, func(t *testing.T, s Segment) {
		if s.Kind == Line {
			return
		}
		p := NewPath(s.From)
		p.Append(s)
		area, mx := 0.0, 0.0
		const n = 64
		for i := range n {
			lo, hi := float64(i)/n, float64(i+1)/n
			area += quad.Fixed(func(t float64) float64 { return s.Point(t).Sub(s.From).Cross(s.derivative(t)) / 2 }, lo, hi, 12, nil, 0)
			mx += quad.Fixed(func(t float64) float64 {
				q, d := s.Point(t).Sub(s.From), s.derivative(t)
				return q.X * q.X * d.Y / 2
			}, lo, hi, 12, nil, 0)
		}
		b := s.To.Sub(s.From)
		require.InDelta(t, area, p.Area(), 1e-9*max(1, s.Length()*s.Length()))
		require.InDelta(t, mx-b.Y*b.X*b.X/6, s.capMoment(s.From).X+0, 1e-9*math.Pow(s.Length(), 3), "%+v", s)
	})
}

func TestTransformIsExactForEveryKind(t *testing.T) {
	r := seeded(3)
	for range 80 {
		p, m := randomPath(r, 6), randomMove(r)
		q := p.Transform(m)
		require.Equal(t, p.Len(), q.Len())
		require.Equal(t, p.Closed(), q.Closed())
		require.InEpsilon(t, p.Length(), q.Length(), 1e-9)
		require.InDelta(t, p.Area()*m.Hand(), q.Area(), 1e-8*p.Length()*p.Length())
		for i, s := range p.Segments() {
			for _, u := range shares {
				near(t, m.Apply(s.Point(u)), q.Segment(i).Point(u), 1e-7, "%+v", s)
			}
		}
		back := q.Transform(m.Inverse())
		for i, v := range p.Vertices() {
			near(t, v, back.Vertices()[i], 1e-8)
		}
	}
}

func TestContainsAgainstALibraryOnFineRuns(t *testing.T) {
	r := seeded(4)
	tried := 0
	for range 40 {
		p := randomPath(r, 1+r.IntN(4))
		if _, _, _, crosses := p.SelfCrossing(); crosses {
			continue // the library's rule for such rings is another one
		}
		tried++
		fine := asPolygon(p, 1e-3).AsGeometry()
		box := p.Bounds().Grow(100)
		for range 30 {
			q := Point{box.Min.X + r.Float64()*box.W(), box.Min.Y + r.Float64()*box.H()}
			pt := overlay.XY{X: q.X, Y: q.Y}.AsPoint().AsGeometry()
			if d, _ := overlay.Distance(fine, pt); d > 0 && d < 0.01 {
				continue
			}
			require.Equal(t, overlay.Intersects(fine, pt), p.Contains(q), "%v", q)
		}
	}
	require.Greater(t, tried, 5)
}

func TestBoundaryBelongsToTheArea(t *testing.T) {
	r := seeded(5)
	for range 60 {
		p := randomPath(r, 5)
		for _, s := range p.Segments() {
			for _, u := range shares {
				q := s.Point(u)
				require.True(t, p.Contains(q))
			}
		}
		require.False(t, p.Contains(p.Bounds().Max.Add(Point{1, 1})))
	}
	c := Circle(900)
	require.True(t, c.Contains(Polar(450, 1)))
	require.True(t, c.Contains(Polar(450+0.7*Tolerance, 1)))
	require.False(t, c.Contains(Polar(450.00001, 1)))
	require.True(t, c.Contains(Point{0, 450}) && c.Contains(Point{-450, 0}))
	// Rays through vertices and along edges count once.
	p := Polygon([]Point{{0, 0}, {10, 0}, {10, 5}, {7, 5}, {5, 10}, {3, 5}, {0, 5}})
	for q, in := range map[Point]bool{{5, 5}: true, {-1, 5}: false, {-1, 10}: false, {-1, 0}: false, {1, 3}: true, {8, 5}: true, {8, 5.1}: false} {
		require.Equal(t, in, p.Contains(q), "%v", q)
	}
	twice := Polygon([]Point{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {4, 0}, {4, 4}, {0, 4}})
	require.True(t, twice.Contains(Point{1, 1}), "nonzero, not odd and even")
	require.True(t, one(t, "M0 0 10 0 10 10").Contains(Point{8, 5}), "an open path is closed by a straight line")
}

func TestPlacesAlongAPath(t *testing.T) {
	p := one(t, "M0 0 100 0 100 0 100 50")
	for _, c := range []struct {
		d       float64
		at, dir Point
	}{
		{-5, Point{0, 0}, Point{1, 0}}, {0, Point{0, 0}, Point{1, 0}}, {40, Point{40, 0}, Point{1, 0}},
		{100, Point{100, 0}, Point{0, 1}}, {100 - 1e-9, Point{100, 0}, Point{0, 1}}, {120, Point{100, 20}, Point{0, 1}},
		{150, Point{100, 50}, Point{0, 1}}, {900, Point{100, 50}, Point{0, 1}},
	} {
		at, dir := p.At(c.d)
		near(t, c.at, at, 1e-9, "%v", c.d)
		near(t, c.dir, dir, 1e-12, "%v", c.d)
	}
	r := seeded(6)
	for range 20 {
		p := randomPath(r, 5)
		ruler := NewRuler(p)
		whole := ruler.Length()
		require.InEpsilon(t, p.Length(), whole, 1e-12)
		for range 10 {
			d := r.Float64() * whole
			at, dir := ruler.At(d)
			require.InDelta(t, 1, dir.Len(), 1e-9)
			// The part of the path up to that place has that length.
			sum := 0.0
			for _, s := range p.Segments() {
				l := s.Length()
				if sum+l < d {
					sum += l
					continue
				}
				near(t, s.Point(s.shareAt(d-sum, l)), at, 1e-5)
				require.InDelta(t, d-sum, s.Split(0, s.shareAt(d-sum, l)).Length(), 1e-6)
				break
			}
		}
	}
}
