package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func offsetOf(t testing.TB, p *Path, d float64) []*Path {
	t.Helper()
	ps, err := Offset(p, d)
	require.NoError(t, err)
	return ps
}

func signedArea(ps []*Path) float64 {
	sum := 0.0
	for _, p := range ps {
		sum += p.Area()
	}
	return sum
}

func TestOffsetOfConvexOutlinesByTheSteinerFormula(t *testing.T) {
	// Jakob Steiner: a convex area A of perimeter P grows by d to A + Pd + πd², its perimeter to P + 2πd.
	hexagon, _ := RegularPolygon(6, 500, false)
	stadium := one(t, "M-300-100L300-100A100 100 0 0 1 300 100L-300 100A100 100 0 0 1-300-100z")
	for name, p := range map[string]*Path{
		"rectangle": Rectangle(300, 200), "circle": Circle(400), "hexagon": hexagon, "stadium": stadium,
		"clockwise": Rectangle(300, 200).Reverse(), "turned": Rectangle(300, 200).Transform(Move(Point{5e6, -3e6}, 31)),
		"open": one(t, "M0 0L300 0 300 200 0 200"),
	} {
		a, round := math.Abs(p.Area()), p.Length()
		if name == "open" {
			round += 200
		}
		for _, d := range []float64{0.5, 30, 1000} {
			got := offsetOf(t, p, d)
			require.Len(t, got, 1, name)
			require.InEpsilon(t, a+round*d+math.Pi*d*d, got[0].Area(), 1e-9, name)
			require.InEpsilon(t, round+2*math.Pi*d, got[0].Length(), 1e-9, name)
			require.True(t, got[0].Closed())
			back := offsetOf(t, got[0], -d)
			require.Len(t, back, 1)
			require.InEpsilon(t, a, back[0].Area(), 1e-7, "%s there and back", name)
		}
	}
	for _, s := range offsetOf(t, stadium, 50)[0].segments() {
		require.Contains(t, []SegmentKind{Line, Arc}, s.Kind)
		if s.Kind == Arc {
			require.InDelta(t, 150, s.RX, 1e-9, "arcs stay arcs")
		}
	}
	e := EllipsePath(2400, 1200)
	require.InDelta(t, e.Area()+e.Length()*100+math.Pi*1e4, offsetOf(t, e, 100)[0].Area(), 2*Flatness*e.Length())
}

func (p *Path) segments() []Segment {
	var out []Segment
	for _, s := range p.Segments() {
		out = append(out, s)
	}
	return out
}

// mouth is the area between the line at distance d before a gap of width w and the parallel's rounds about
// the gap's two corners: 2 ∫ d − √(d² − t²) over t from 0 to w/2.
func mouth(w, d float64) float64 {
	h := w / 2
	return 2 * (d*h - (h*math.Sqrt(d*d-h*h)+d*d*math.Asin(h/d))/2)
}

func TestOffsetInward(t *testing.T) {
	in := offsetOf(t, Rectangle(300, 200), -30)
	require.Len(t, in, 1)
	require.Equal(t, 4, in[0].Len())
	require.InDelta(t, 240*140, in[0].Area(), 1e-6)
	require.InDelta(t, math.Pi*150*150, signedArea(offsetOf(t, Circle(400), -50)), 1e-6)
	for _, d := range []float64{-100, -101, -5000} {
		require.Empty(t, offsetOf(t, Rectangle(300, 200), d), "nowhere wide enough")
	}
	require.Empty(t, offsetOf(t, Circle(400), -200))
	// A dumb-bell: two squares of 100 and a neck of 10 between; the neck goes, two squares stay.
	bell := Polygon([]Point{{0, 0}, {100, 0}, {100, 45}, {150, 45}, {150, 0}, {250, 0}, {250, 100}, {150, 100}, {150, 55}, {100, 55}, {100, 100}, {0, 100}})
	got := offsetOf(t, bell, -10)
	require.Len(t, got, 2)
	require.InDelta(t, 2*(80*80+mouth(10, 10)), signedArea(got), 1e-6)
	// Just as wide as twice the distance: nothing is left of the neck either.
	require.InDelta(t, 2*(90*90+mouth(10, 5)), signedArea(offsetOf(t, bell, -5)), 1e-6)
	require.Len(t, offsetOf(t, bell, -4), 1)
}

func TestOffsetOutward(t *testing.T) {
	// A C with a slot of 20 that opens into a chamber of 100 × 60: growing by 12 closes the slot and leaves
	// the chamber as a hole of 76 × 36.
	c := Polygon([]Point{{0, 0}, {200, 0}, {200, 90}, {150, 90}, {150, 70}, {50, 70}, {50, 130}, {150, 130}, {150, 110}, {200, 110}, {200, 200}, {0, 200}})
	got := offsetOf(t, c, 12)
	require.Len(t, got, 2)
	hole, outer := got[0], got[1]
	if hole.Area() > 0 {
		hole, outer = outer, hole
	}
	require.InDelta(t, -76*36-mouth(20, 12), hole.Area(), 1e-6)
	require.InDelta(t, 224*224-(4-math.Pi)*144-mouth(20, 12), outer.Area(), 1e-6)
	// An L: its inward corner stays sharp.
	l := offsetOf(t, Polygon([]Point{{0, 0}, {200, 0}, {200, 100}, {100, 100}, {100, 200}, {0, 200}}), 10)
	require.Len(t, l, 1)
	require.InDelta(t, 30000+800*10+5*math.Pi/4*100-100, l[0].Area(), 1e-6)
	// A slot exactly twice the distance wide closes without a seam.
	u := Polygon([]Point{{0, 0}, {300, 0}, {300, 100}, {160, 100}, {160, 50}, {140, 50}, {140, 100}, {0, 100}})
	require.Len(t, offsetOf(t, u, 10), 1)
	require.InDelta(t, 320*120-(4-math.Pi)*100-2*(100-math.Pi*100/4), signedArea(offsetOf(t, u, 10)), 1e-4)
	// A concave arc of radius 50 shrinks to one of 40, and to nothing.
	bay := one(t, "M0 0L200 0L200 100L150 100A50 50 0 0 0 50 100L0 100z")
	for _, s := range offsetOf(t, bay, 10)[0].segments() {
		if s.Kind == Arc && s.Sweep < 0 {
			require.InDelta(t, 40, s.RX, 1e-9)
		}
	}
	require.Len(t, offsetOf(t, bay, 60), 1)
}

func TestOffsetRefuses(t *testing.T) {
	for _, d := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e8} {
		_, err := Offset(Rectangle(1, 1), d)
		require.Error(t, err)
	}
	_, err := Offset(one(t, "M0 0L10 10L10 0L0 10z"), 1)
	require.Error(t, err)
	_, err = Offset(one(t, "M0 0L10 10L10 0L0 10"), 1)
	require.Error(t, err, "by its closing line, too")
	for _, p := range []*Path{nil, {}, NewPath(Point{1, 2}), one(t, "M5 5z")} {
		got, err := Offset(p, 5)
		require.NoError(t, err)
		require.Empty(t, got)
	}
	require.InDelta(t, 60000, signedArea(offsetOf(t, Rectangle(300, 200), 0)), 1e-9)
}

// grown returns the area within d of the outline, made another way: the union of a disc about each corner
// and a band along each side.
func grown(t *testing.T, p *Path, d float64) []Region {
	t.Helper()
	rs := []Region{}
	for _, s := range p.Segments() {
		n := s.Tangent(0).Left().Mul(d)
		rs = append(rs, Region{Outer: at(Circle(2*d), s.From.X, s.From.Y)})
		switch s.Kind {
		case Line:
			rs = append(rs, Region{Outer: Polygon([]Point{s.From.Sub(n), s.To.Sub(n), s.To.Add(n), s.From.Add(n)})})
		case Arc:
			band := NewPath(s.Point(0).Sub(n))
			for _, side := range []float64{-1, 1} {
				r := s
				if side > 0 {
					r = s.Reverse()
				}
				k := (s.RX - side*d*math.Copysign(1, s.Sweep)) / s.RX
				move := func(q Point) Point { return s.Centre.Add(q.Sub(s.Centre).Mul(k)) }
				r.From, r.To = move(r.From), move(r.To)
				band.Append(r)
			}
			band.Close()
			rs = append(rs, Region{Outer: band})
		}
	}
	u, err := Union(rs, 0.005)
	require.NoError(t, err)
	return u
}

func TestOffsetAgainstAUnionOfBands(t *testing.T) {
	r := seeded(16)
	parts, gone := 0, 0
	for n := range 12 {
		// A star shape with straight sides and, where there is room, arcs for some of them.
		corners := 4 + r.IntN(20)
		var p *Path
		for {
			p = NewPath(Polar(600, 0))
			for i := 1; i <= corners; i++ {
				q := Polar(150+650*r.Float64(), 2*math.Pi*float64(i)/float64(corners))
				if i == corners {
					q = p.Start()
				}
				if n%2 == 0 && r.IntN(3) == 0 {
					rad := p.End().Dist(q) * (0.6 + 2*r.Float64())
					p.Append(svgArc(p.End(), q, rad, rad, 0, false, r.IntN(2) == 0))
				} else {
					p.LineTo(q)
				}
			}
			p.Close()
			if _, _, _, crosses := p.SelfCrossing(); !crosses {
				break
			}
		}
		for _, d := range []float64{3, 60, 250} {
			least := math.Inf(1)
			for _, s := range p.Segments() {
				if s.Kind == Arc {
					least = min(least, s.RX)
				}
			}
			if d >= least {
				continue // the bands of the reference turn over
			}
			band := grown(t, p, d)
			self := []Region{{Outer: p}}
			outer, err := Union(append(band, self...), 0.005)
			require.NoError(t, err)
			inner, err := Difference(self, band, 0.005)
			require.NoError(t, err)
			for _, side := range []float64{1, -1} {
				want := area(outer)
				if side < 0 {
					want = area(inner)
				}
				got, err := Offset(p, side*d)
				require.NoError(t, err, "%v %v %s", n, side*d, pathData([]*Path{p}))
				require.InDelta(t, want, signedArea(got), 0.01*(p.Length()+20*d)+1, "%v %v %s", n, side*d, pathData([]*Path{p}))
				switch {
				case len(got) == 0:
					gone++
				case len(got) > 1 && side < 0:
					parts++
				}
				// Every place of the parallel is |d| from the outline and on its side.
				o := newOffset(p, side*d)
				for _, q := range got {
					_, _, _, crosses := q.SelfCrossing()
					require.False(t, crosses, "%v %v %s", n, side*d, pathData([]*Path{p}))
					for _, s := range q.Segments() {
						for _, u := range shares {
							require.InDelta(t, d, o.distance(s.Point(u)), 1e-4)
							require.Equal(t, side < 0, p.Contains(s.Point(u)))
						}
					}
				}
			}
		}
	}
	require.Greater(t, min(parts, gone), 0)
}

func BenchmarkOffset(b *testing.B) {
	p := coast(10_000)
	for b.Loop() {
		if _, err := Offset(p, 20); err != nil {
			b.Fatal(err)
		}
	}
}
