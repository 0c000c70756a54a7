package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func seeded(n uint64) *rand.Rand { return rand.New(rand.NewPCG(n, 7)) }

func randomPoint(r *rand.Rand, size float64) Point {
	return Point{(r.Float64() - 0.5) * size, (r.Float64() - 0.5) * size}
}

// randomSegment returns a segment of any kind from a given place; one in eight is of an awkward sort.
func randomSegment(r *rand.Rand, from Point) Segment {
	to := from.Add(randomPoint(r, 2000))
	awkward := r.IntN(8) == 0
	switch r.IntN(4) {
	case 0:
		return Segment{Kind: Line, From: from, To: to}
	case 1:
		rad := 300 + 2000*r.Float64()
		return svgArc(from, to, rad, rad, 0, r.IntN(2) == 0, r.IntN(2) == 0)
	case 2:
		rx, ry := 100+1500*r.Float64(), 100+1500*r.Float64()
		if awkward {
			ry = rx / 500
		}
		return svgArc(from, to, rx, ry, r.Float64()*360, r.IntN(2) == 0, r.IntN(2) == 0)
	}
	s := Segment{Kind: Cubic, From: from, To: to, C1: from.Add(randomPoint(r, 3000)), C2: to.Add(randomPoint(r, 3000))}
	if awkward {
		switch r.IntN(3) {
		case 0:
			s.C1 = s.From
		case 1:
			s.C2 = s.To
		default: // a cusp
			s.C1, s.C2 = from.Add(Point{1000, 1000}), from.Add(Point{0, 1000})
			s.To = from.Add(Point{1000, 0})
		}
	}
	return s
}

// randomPath returns a closed path of n segments and the line that closes it.
func randomPath(r *rand.Rand, n int) *Path {
	p := NewPath(randomPoint(r, 5000))
	for range n {
		p.Append(randomSegment(r, p.End()))
	}
	p.Close()
	return p
}

// randomMove returns a turn or a reflection with a shift.
func randomMove(r *rand.Rand) Isometry {
	m := Move(randomPoint(r, 10000), r.Float64()*360)
	if r.IntN(2) == 0 {
		m = Isometry{A: -1, D: 1}.Then(m)
	}
	return m
}

func eachSegment(t *testing.T, n int, check func(t *testing.T, s Segment)) {
	t.Helper()
	r := seeded(1)
	for range n {
		check(t, randomSegment(r, randomPoint(r, 5000)))
		if t.Failed() {
			return
		}
	}
}

var shares = []float64{0, 0.01, 0.2, 1.0 / 3, 0.5, 0.77, 0.99, 1}

func TestSegmentsEndExactlyWhereTheySay(t *testing.T) {
	eachSegment(t, 400, func(t *testing.T, s Segment) {
		require.Equal(t, s.From, s.Point(0))
		require.Equal(t, s.To, s.Point(1))
		move := 1e-12*max(s.Length(), s.RX*math.Abs(s.Sweep)) + 1e-8
		near(t, s.From, s.Point(1e-12), move, "%v", s)
		near(t, s.To, s.Point(1-1e-12), move, "%v", s)
	})
}

func TestReverseRunsTheSameWayBack(t *testing.T) {
	eachSegment(t, 400, func(t *testing.T, s Segment) {
		for _, u := range shares {
			near(t, s.Point(u), s.Reverse().Point(1-u), 1e-8)
			if s.derivative(u).Len() > 1e-3 { // at a cusp it is the way of leaving, either way
				near(t, s.Tangent(u).Mul(-1), s.Reverse().Tangent(1-u), 1e-5, "%v at %v", s, u)
			}
		}
	})
}

func TestTangentIsTheDirectionOfTheCurve(t *testing.T) {
	eachSegment(t, 400, func(t *testing.T, s Segment) {
		for _, u := range []float64{0.1, 0.37, 0.8} {
			const h = 1e-6
			want := s.Point(u + h).Sub(s.Point(u - h)).Unit()
			near(t, want, s.Tangent(u), 1e-3, "%v at %v", s, u)
			require.InDelta(t, 1, s.Tangent(u).Len(), 1e-12)
		}
	})
	o := Point{10, 10}
	for _, s := range []Segment{
		{Kind: Cubic, From: o, C1: o, C2: o.Add(Point{0, 5}), To: o.Add(Point{5, 5})},
		{Kind: Cubic, From: o, C1: o, C2: o, To: o.Add(Point{0, 5})},
		{Kind: Cubic, From: o, C1: o.Add(Point{1e-13, 0}), C2: o.Add(Point{0, 5}), To: o.Add(Point{5, 5})},
	} {
		near(t, Point{0, 1}, s.Tangent(0), 1e-12)
		near(t, Point{0, -1}, s.Reverse().Tangent(1), 1e-12)
	}
	// From (0,0) by (1,1) and (0,1) to (1,0): at half way the curve stands still and turns back.
	cusp := Segment{Kind: Cubic, C1: Point{1, 1}, C2: Point{0, 1}, To: Point{1, 0}}
	near(t, Point{0, -1}, cusp.Tangent(0.5), 1e-12)
	require.Equal(t, Point{}, Segment{Kind: Line, From: o, To: o}.Tangent(0.5))
	require.Equal(t, Point{}, Segment{Kind: Cubic, From: o, C1: o, C2: o, To: o}.Tangent(1))
}

func TestSplitPartsJoin(t *testing.T) {
	eachSegment(t, 300, func(t *testing.T, s Segment) {
		a, b, c := s.Split(0, 0.3), s.Split(0.3, 0.8), s.Split(0.8, 1)
		require.Equal(t, s.From, a.From)
		require.Equal(t, a.To, b.From)
		require.Equal(t, b.To, c.From)
		require.Equal(t, s.To, c.To)
		for _, u := range shares {
			near(t, s.Point(0.3+0.5*u), b.Point(u), 1e-8)
			near(t, s.Point(0.8-0.5*u), s.Split(0.8, 0.3).Point(u), 1e-8)
		}
		whole := s.Length()
		require.InEpsilon(t, whole, a.Length()+b.Length()+c.Length(), 1e-9)
	})
}

func TestBoundsAreExact(t *testing.T) {
	eachSegment(t, 300, func(t *testing.T, s Segment) {
		box, dense := s.Bounds(), EmptyRect()
		const n = 4000
		for i := range n + 1 {
			q := s.Point(float64(i) / n)
			dense = dense.Include(q)
			require.True(t, box.Grow(1e-8).Contains(q))
		}
		// At an extreme n steps miss it by at most a step's sagitta.
		miss := 1e-6 * (s.Length() + 1000)
		require.InDelta(t, dense.W(), box.W(), miss)
		require.InDelta(t, dense.H(), box.H(), miss)
	})
	require.Equal(t, Rect{Point{-5, 0}, Point{5, 5}}, svgArc(Point{5, 0}, Point{-5, 0}, 5, 5, 0, false, true).Bounds())
	turned := EllipsePath(2400, 1200).Transform(Move(Point{}, 30))
	// Half the width of an ellipse turned by a: √(rx² cos² a + ry² sin² a).
	require.InDelta(t, 2*math.Hypot(1200*math.Cos(math.Pi/6), 600*math.Sin(math.Pi/6)), turned.Bounds().W(), 1e-9)
	require.InDelta(t, 2*math.Hypot(1200*math.Sin(math.Pi/6), 600*math.Cos(math.Pi/6)), turned.Bounds().H(), 1e-9)
}

func TestFlattenKeepsItsTolerance(t *testing.T) {
	for _, tol := range []float64{1, 0.1, Flatness} {
		eachSegment(t, 60, func(t *testing.T, s Segment) {
			pts := s.Flatten(tol, []Point{s.From})
			require.Equal(t, s.To, pts[len(pts)-1])
			// Places of the curve in order, each against the run's chords near it.
			const n = 20000
			k, worst := 0, 0.0
			for i := range n + 1 {
				q := s.Point(float64(i) / n)
				best := math.Inf(1)
				for m := k; m < min(k+3, len(pts)-1); m++ {
					if d := q.Dist(nearestOnLine(pts[m], pts[m+1], q)); d < best {
						best, k = d, m
					}
				}
				worst = max(worst, best)
			}
			require.LessOrEqual(t, worst, tol*(1+1e-9)+1e-8, "%+v", s)
		})
	}
}

func TestFlattenTakesNoMoreStepsThanItNeeds(t *testing.T) {
	// By the sagitta a circle of radius 900 needs steps of 2 acos(1 − tol/r).
	want := 2 * math.Ceil(math.Pi/(2*math.Acos(1-0.01/900)))
	require.InDelta(t, want, len(Circle(1800).Flatten(0.01, nil)), 2)
	require.Len(t, Segment{Kind: Cubic, C1: Point{1, 0}, C2: Point{2, 0}, To: Point{3, 0}}.Flatten(0.01, nil), 1)
	for _, tol := range []float64{0, -1, math.NaN(), 1e-12} {
		require.Less(t, len(Circle(100).Flatten(tol, nil)), 100000)
	}
	p := one(t, "M0 0 1 0 2 0 2 2z")
	require.Equal(t, []Point{{0, 0}, {1, 0}, {2, 0}, {2, 2}}, p.Flatten(1, nil), "corners in line stay")
}
