package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// randomCourse returns a line of straights and arcs that run on smoothly, with the radii of its arcs at least 500.
func randomCourse(r *rand.Rand) *Path {
	at, dir := randomPoint(r, 5000), 2*math.Pi*r.Float64()
	p := NewPath(at)
	for range 1 + r.IntN(5) {
		if r.IntN(2) == 0 {
			at = at.Add(Polar(100+900*r.Float64(), dir))
			p.LineTo(at)
			continue
		}
		rad, sweep := 500+2000*r.Float64(), (0.2+2*r.Float64())*float64(2*r.IntN(2)-1)
		centre := at.Add(Polar(1, dir).Left().Mul(math.Copysign(rad, sweep)))
		at = centre.Add(Polar(rad, at.Sub(centre).Angle()+sweep))
		dir += sweep
		p.ArcTo(centre, sweep, at)
	}
	return p
}

// A parallel is as long as its line and the distance times the turn together, wherever it is cut; its places lie square off
// those of the line (Steiner's formula for parallel curves).
func TestParallelsOfSmoothCourses(t *testing.T) {
	r := seeded(1)
	for range 300 {
		p := randomCourse(r)
		c := NewCourse(p)
		require.InDelta(t, p.Length(), c.Length(), 1e-6)
		x := (r.Float64() - 0.5) * 900
		y0 := r.Float64() * c.Length() / 2
		y1 := y0 + 1 + r.Float64()*(c.Length()-y0-1)
		b, err := c.Beside(x, y0, y1)
		require.NoError(t, err)
		l, rt, _, _ := NewCourse(NewRuler(p).Part(y0, y1)).Turns()
		require.InDelta(t, y1-y0+x*(l-rt), b.Length(), 1e-6)
		require.Equal(t, NewRuler(p).Part(y0, y1).Len(), b.Len(), "lines stay lines and arcs arcs")
		for k, y := range []float64{y0, y1} {
			at, ahead := c.Way(x, y)
			on, _ := c.Way(0, y)
			require.InDelta(t, 0, at.Sub(on).Dot(ahead), 1e-6)
			require.InDelta(t, x, on.Sub(at).Dot(ahead.Left()), 1e-6)
			require.InDelta(t, 0, at.Dist([]Point{b.Start(), b.End()}[k]), 1e-6)
		}
	}
}

// Beyond its ends a course goes on straight, and so do its parallels, as one with a straight end.
func TestBeyondTheEndsOfACourse(t *testing.T) {
	p := NewPath(Point{})
	p.LineTo(Point{X: 1000})
	p.ArcTo(Point{X: 1000, Y: 1000}, math.Pi/2, Point{X: 2000, Y: 1000})
	c := NewCourse(p)
	at, ahead := c.Way(100, -50)
	require.InDelta(t, 0, at.Dist(Point{X: -50, Y: -100}), 1e-9)
	require.InDelta(t, 0, ahead.Dist(Point{X: 1}), 1e-9)
	at, ahead = c.Way(100, c.Length()+50)
	require.InDelta(t, 0, at.Dist(Point{X: 2100, Y: 1050}), 1e-9)
	require.InDelta(t, 0, ahead.Dist(Point{Y: 1}), 1e-9)
	b, err := c.Beside(100, -50, c.Length()+50)
	require.NoError(t, err)
	require.Equal(t, 3, b.Len())
	require.InDelta(t, 0, b.Start().Dist(Point{X: -50, Y: -100}), 1e-9)
	require.InDelta(t, 0, b.End().Dist(Point{X: 2100, Y: 1050}), 1e-9)
	require.InDelta(t, 1050+math.Pi/2*1100+50, b.Length(), 1e-9)
	for _, ends := range [][2]float64{{-90, -50}, {c.Length() + 50, c.Length() + 90}} {
		b, err = c.Beside(-100, ends[0], ends[1])
		require.NoError(t, err)
		require.InDelta(t, 40, b.Length(), 1e-9)
	}
}

// At a corner of 90° the parallels 300 off meet 300·√2 away on the mitre; one leg is 300 longer or shorter (300·tan 45°).
func TestMitresOfCourses(t *testing.T) {
	p := NewPath(Point{})
	p.LineTo(Point{X: 1000})
	p.LineTo(Point{X: 1000, Y: 800})
	c := NewCourse(p)
	require.Equal(t, []Corner{{Along: 1000, Turn: math.Pi / 2}}, c.Corners())
	at, ahead := c.Way(300, 1000)
	require.InDelta(t, 0, at.Dist(Point{X: 1300, Y: -300}), 1e-9)
	require.InDelta(t, 0, ahead.Dist(Polar(1, math.Pi/4)), 1e-9)
	for _, tc := range []struct{ x, y0, y1, length float64 }{
		{300, 0, 1800, 1300 + 1100}, {-300, 0, 1800, 700 + 500}, {300, 0, 1000, 1300}, {-300, 1000, 1800, 500}, {-300, 200, 1400, 500 + 100},
	} {
		b, err := c.Beside(tc.x, tc.y0, tc.y1)
		require.NoError(t, err)
		require.InDelta(t, tc.length, b.Length(), 1e-9)
	}
	_, err := c.Beside(-300, 0, 1250)
	require.ErrorIs(t, err, ErrCorner, "250 are left of the second leg, and the corner takes 300")
	p.ArcTo(Point{X: 500, Y: 800}, math.Pi/2, Point{X: 500, Y: 1300})
	_, err = NewCourse(p).Beside(-499, 1000, 2200)
	require.NoError(t, err)
	_, err = NewCourse(p).Beside(-500, 1000, 2200)
	require.ErrorIs(t, err, ErrRadius)
	p.LineTo(Point{X: 500, Y: 2000})
	_, err = NewCourse(p).Beside(100, 1000, NewCourse(p).Length())
	require.ErrorIs(t, err, ErrCorner, "an arc has no mitre")
	require.True(t, NewCourse(p).Corners()[1].Curved)
}

// A turn of a few ten thousandths, as a line typed to the millimetre has it, leaves no gap in its parallel that counts.
func TestAlmostSmoothCourses(t *testing.T) {
	p := NewPath(Point{X: 2000})
	for _, q := range []Point{{X: 1414, Y: 1414}, {Y: 2000}, {X: -1414, Y: 1414}} {
		centre, sweep, err := ArcRadius(p.End(), q, 2000, true, false)
		require.NoError(t, err)
		p.ArcTo(centre, sweep, q)
	}
	c := NewCourse(p)
	require.Empty(t, c.Corners())
	for _, x := range []float64{-900, 900} {
		a, err := c.Beside(x, 0, c.ends[0])
		require.NoError(t, err)
		b, err := c.Beside(x, c.ends[0], c.ends[1])
		require.NoError(t, err)
		way, _ := c.Way(x, c.ends[0])
		require.InDelta(t, 0, a.End().Dist(b.Start()), 0.001)
		require.InDelta(t, 0, a.End().Dist(way), 0.001)
	}
}

// Arcs stand for other curves within the distance asked for, as long as they, smoothly.
func TestArcsForCurves(t *testing.T) {
	r := seeded(3)
	for range 200 {
		s := randomSegment(r, Point{})
		p := NewPath(s.From)
		p.Append(s)
		a := p.Arcs(0.0005)
		require.InDelta(t, 0, a.Start().Dist(s.From), 1e-9)
		require.InDelta(t, 0, a.End().Dist(s.To), 1e-6)
		require.InDelta(t, p.Length(), a.Length(), 1e-3+1e-6*p.Length())
		for _, u := range a.Segments() {
			require.Contains(t, []SegmentKind{Line, Arc}, u.Kind)
		}
		// Places of the curve lie on an arc near there.
		for i := range 40 {
			q := s.Point(float64(i) / 40)
			least := math.Inf(1)
			for _, u := range a.Segments() {
				_, d := u.share(q)
				least = min(least, d)
			}
			require.LessOrEqual(t, least, 0.001, "%v", s)
		}
		require.Less(t, a.Len(), 4000, "%v", s)
	}
}
