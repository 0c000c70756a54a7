package geom

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

func open(from Point, segs ...Segment) *Path {
	p := NewPath(from)
	for _, s := range segs {
		s.From = p.End()
		switch s.Kind {
		case Arc:
			p.ArcTo(s.Centre, s.Sweep, s.To)
		default:
			p.Append(s)
		}
	}
	return p
}

func lineTo(x, y float64) Segment { return Segment{Kind: Line, To: Point{x, y}} }

func TestParallelOfStraightPieces(t *testing.T) {
	p := open(Point{}, lineTo(1000, 0), lineTo(1000, 500))
	left, err := Parallel(p, 60)
	require.NoError(t, err)
	require.Equal(t, []Point{{0, 60}, {940, 60}, {940, 500}}, left.Vertices())
	right, err := Parallel(p, -60)
	require.NoError(t, err)
	require.Len(t, right.Vertices(), 3)
	require.True(t, right.Vertices()[1].Near(Point{1060, -60}))
}

// An arc of radius R has parallels of radius R ± d over the same angle.
func TestParallelOfAnArc(t *testing.T) {
	p := open(Point{2000, 0}, Segment{Kind: Arc, Sweep: math.Pi / 2, To: Point{0, 2000}})
	for _, d := range []float64{60, -60, 1999} {
		q, err := Parallel(p, d)
		require.NoError(t, err)
		require.Equal(t, 1, q.Len())
		s := q.Segment(0)
		require.Equal(t, Arc, s.Kind)
		require.InDelta(t, 2000-d, s.RX, 1e-9)
		require.InDelta(t, (2000-d)*math.Pi/2, q.Length(), 1e-9)
		require.InDelta(t, 2000-d, s.From.X, 1e-9)
	}
	_, err := Parallel(p, 2000)
	var bad *ParallelError
	require.ErrorAs(t, err, &bad)
	require.Equal(t, ParallelError{Radius: 2000}, *bad)
}

func TestParallelWhereAnArcMeetsALine(t *testing.T) {
	// A quarter circle about 0,0 that arrives upwards at 1000, 0, walked clockwise, then a line to the right: they meet at a
	// right angle. The parallel on the right is an arc of 940 to where y is −60, and there the line's.
	p := open(Point{0, 1000}, Segment{Kind: Arc, Sweep: -math.Pi / 2, To: Point{1000, 0}}, lineTo(2000, 0))
	q, err := Parallel(p, -60)
	require.NoError(t, err)
	require.Equal(t, 3, q.Len(), "the arc goes on straight to the mitre")
	require.InDelta(t, 940, q.Segment(0).RX, 1e-9)
	require.True(t, q.Segment(1).To.Near(Point{940, -60}), q.Segment(1).To)
	q, err = Parallel(p, 60)
	require.NoError(t, err)
	require.Equal(t, 2, q.Len())
	meet := q.Segment(0).To
	require.InDelta(t, 60, meet.Y, 1e-6)
	require.InDelta(t, math.Sqrt(1060*1060-60*60), meet.X, 1e-6, "Pythagoras")
}

func TestParallelErrors(t *testing.T) {
	for name, c := range map[string]struct {
		line *Path
		d    float64
		want ParallelError
	}{
		"between two corners": {open(Point{}, lineTo(900, 0), lineTo(900, 40), lineTo(0, 40)), 60, ParallelError{Segment: 1, Length: 40, Taken: 120}},
		"turns back":          {open(Point{}, lineTo(900, 0), lineTo(0, 0.1)), 60, ParallelError{Turn: 180 - math.Atan2(0.1, 900)*180/math.Pi}},
		"ellipse": {open(Point{1200, 0}, Segment{Kind: EllipticalArc, RX: 1200, RY: 600, Sweep: math.Pi, To: Point{-1200, 0}}), 400,
			// at its long end an ellipse has the radius b²/a
			ParallelError{Radius: 600 * 600 / 1200.0}},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Parallel(c.line, c.d)
			var bad *ParallelError
			require.ErrorAs(t, err, &bad)
			require.Equal(t, c.want.Segment, bad.Segment)
			require.InDelta(t, c.want.Length, bad.Length, 1e-6)
			require.InDelta(t, c.want.Taken, bad.Taken, 1e-6)
			require.InDelta(t, c.want.Radius, bad.Radius, 1e-6)
			require.InDelta(t, c.want.Turn, bad.Turn, 1e-6)
		})
	}
	closed := Circle(900)
	_, err := Parallel(closed, 10)
	require.Error(t, err)
}

// The radius of the parabola x = t, y = t² at its vertex is 1/2, here of 1000 mm a unit: a cubic is it exactly.
func TestTightestOfACubic(t *testing.T) {
	s := Segment{Kind: Cubic, From: Point{-1000, 1000}, C1: Point{-1000.0 / 3, -1000.0 / 3}, C2: Point{1000.0 / 3, -1000.0 / 3}, To: Point{1000, 1000}}
	require.InDelta(t, 0, s.Point(0.5).Y, 1e-9)
	require.InDelta(t, 500, s.tightest(true), 1e-3)
	require.True(t, math.IsInf(s.tightest(false), 1))
	require.InDelta(t, 500, s.Reverse().tightest(false), 1e-3)
}

// randomLine is an open line that turns by no more than a right angle in its corners; with smooth, curves run on from what
// is before them and into what is after.
func randomLine(r *rand.Rand, smooth bool) *Path {
	p := NewPath(Point{r.Float64() * 1000, r.Float64() * 1000})
	heading := r.Float64() * 2 * math.Pi
	last := 0
	for range 1 + r.Intn(5) {
		kind := r.Intn(4)
		if !smooth || kind == 0 && last == 0 {
			heading += (r.Float64() - 0.5) * math.Pi
		}
		at := p.End()
		last = kind
		switch kind {
		case 0:
			p.LineTo(at.Add(Polar(200+r.Float64()*2000, heading)))
		case 1, 2:
			radius, sweep := 300+r.Float64()*2000, (r.Float64()-0.5)*math.Pi
			centre := at.Add(Polar(radius, heading).Left().Mul(math.Copysign(1, sweep)))
			p.ArcTo(centre, sweep, centre.Add(Polar(radius, at.Sub(centre).Angle()+sweep)))
			heading += sweep
		default:
			size := 500 + r.Float64()*1500
			c1 := at.Add(Polar(size/3, heading))
			c2 := c1.Add(Polar(size/3, heading+(r.Float64()-0.5)))
			q := c2.Add(Polar(size/3, heading+(r.Float64()-0.5)))
			p.CubicTo(c1, c2, q)
			heading = q.Sub(c2).Angle()
		}
	}
	return p
}

// Every place of a parallel stands at least its distance from the line as long as the line is far from itself elsewhere,
// and at most the mitre's; its ends stand square off the line's.
func TestParallelProperty(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	found := 0
	for range 400 {
		p, d := randomLine(r, false), (r.Float64()-0.5)*300
		if math.Abs(d) < 1 {
			continue
		}
		q, err := Parallel(p, d)
		var bad *ParallelError
		if errors.As(err, &bad) {
			require.Less(t, bad.Segment, p.Len())
			require.True(t, bad.Turn > 150 || bad.Radius > 0 && bad.Radius <= math.Abs(d)+Tolerance || bad.Taken > bad.Length || bad.Taken > 0, bad)
			continue
		}
		require.NoError(t, err)
		found++
		first, last := p.Segment(0), p.Segment(p.Len()-1)
		require.True(t, q.Start().Dist(first.From.Add(first.Tangent(0).Left().Mul(d))) < 1e-3 || q.Len() < p.Len())
		require.True(t, q.End().Dist(last.To.Add(last.Tangent(1).Left().Mul(d))) < 1e-3 || q.Len() < p.Len())
		line := p.Flatten(0.001, nil)
		distance := func(at Point) float64 {
			least := math.Inf(1)
			for i := 1; i < len(line); i++ {
				least = min(least, nearestOnLine(line[i-1], line[i], at).Dist(at))
			}
			return least
		}
		ruler := NewRuler(q)
		for k := range 40 {
			at, ahead := ruler.At(ruler.Length() * float64(k) / 39)
			require.InDelta(t, 1, ahead.Len(), 1e-9)
			require.LessOrEqual(t, distance(at), math.Abs(d)/math.Cos(75*math.Pi/180)+0.01)
		}
	}
	require.Greater(t, found, 200)
}

// Between a line of length L and its parallel at d to its left lies the area d·L − d²·φ/2, φ the angle that it turns to its
// left in curves (Steiner's formula for parallel curves), and less d²·tan(τ/2) at each mitred corner that turns by τ.
func TestAreaBesideALineProperty(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	found := 0
	for range 2000 {
		p, d := randomLine(r, true), (r.Float64()-0.5)*400
		q, err := Parallel(p, d)
		if err != nil || math.Abs(d) < 1 {
			continue
		}
		found++
		want := d * p.Length()
		var before Segment
		for i, s := range p.Segments() {
			if i > 0 {
				in, out := before.Tangent(1), s.Tangent(0)
				want -= d * d * math.Tan(math.Atan2(in.Cross(out), in.Dot(out))/2)
			}
			turned := s.Sweep
			if s.Kind == Cubic {
				turned = 0
				for k := range 64 {
					a, b := s.Tangent(float64(k)/64), s.Tangent(float64(k+1)/64)
					turned += math.Atan2(a.Cross(b), a.Dot(b))
				}
			}
			want -= d * d * turned / 2
			before = s
		}
		// Along the line and back along its parallel.
		strip := NewPath(p.Start())
		for _, s := range p.Segments() {
			strip.Append(s)
		}
		strip.LineTo(q.End())
		for _, s := range q.Reverse().Segments() {
			strip.Append(s)
		}
		strip.Close()
		require.InDelta(t, want, strip.Area(), 0.0006*p.Length())
	}
	require.Greater(t, found, 800)
}

// A part of a line has the length between its places, begins and ends at them, and keeps each piece's kind.
func TestPartProperty(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for range 500 {
		p := randomLine(r, true)
		ruler := NewRuler(p)
		a, b := r.Float64()*ruler.Length(), r.Float64()*ruler.Length()
		if a > b {
			a, b = b, a
		}
		part := ruler.Part(a, b)
		require.InDelta(t, b-a, part.Length(), 1e-5)
		from, _ := ruler.At(a)
		to, _ := ruler.At(b)
		require.Less(t, part.Start().Dist(from), 1e-5)
		require.Less(t, part.End().Dist(to), 1e-5)
		require.Equal(t, ruler.Length(), ruler.Ends()[p.Len()-1])
	}
	p := randomLine(r, true)
	require.InDelta(t, p.Length(), NewRuler(p).Part(-5, p.Length()+5).Length(), 1e-9)
	require.True(t, NewRuler(p).Part(5, 5).Empty())
}
