package geom

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func parsed(t testing.TB, d string) []*Path {
	t.Helper()
	ps, err := ParsePathData(d)
	require.NoError(t, err, "%q", d)
	return ps
}

func one(t testing.TB, d string) *Path {
	t.Helper()
	ps := parsed(t, d)
	require.Len(t, ps, 1, "%q", d)
	return ps[0]
}

func near(t testing.TB, want, got Point, tol float64, more ...any) {
	t.Helper()
	require.InDelta(t, want.X, got.X, tol, more...)
	require.InDelta(t, want.Y, got.Y, tol, more...)
}

func TestArcsByTheImplementationNotes(t *testing.T) {
	// Worked by the formulas of W3C SVG 2, appendix B.2 (calculated values).
	for _, c := range []struct {
		d              string
		centre         Point
		start, sweep   float64
		half           Point
		radiusX, radiY float64
	}{
		{"M0 0 A100 50 0 0 0 100 50", Point{100, 0}, 180, -90, Point{29.2893218813, 35.3553390593}, 100, 50},
		{"M0 0 A100 50 0 1 0 100 50", Point{0, 50}, -90, -270, Point{-70.7106781187, 85.3553390593}, 100, 50},
		{"M0 0 A100 50 0 0 1 100 50", Point{0, 50}, -90, 90, Point{70.7106781187, 14.6446609407}, 100, 50},
		{"M0 0 A100 50 0 1 1 100 50", Point{100, 0}, 180, 270, Point{170.710678119, -35.3553390593}, 100, 50},
	} {
		s := one(t, c.d).Segment(0)
		require.Equal(t, EllipticalArc, s.Kind)
		near(t, c.centre, s.Centre, 1e-9, c.d)
		near(t, Polar(1, c.start*math.Pi/180), Polar(1, s.Theta), 1e-12, c.d)
		require.InDelta(t, c.sweep, s.Sweep*180/math.Pi, 1e-9, c.d)
		near(t, c.half, s.Point(0.5), 1e-8, c.d)
		require.Equal(t, c.radiusX, s.RX)
		require.Equal(t, c.radiY, s.RY)
	}
}

func TestArcParametersOutOfRange(t *testing.T) {
	// W3C SVG 2, appendix B.2.5.
	for _, d := range []string{"M0 0A1 1 0 0 0 200 0", "M0 0A-100-100 720 0 0 200 0", "M0 0A1e-300 1e-300 9 1 0 200 0"} {
		s := one(t, d).Segment(0)
		require.Equal(t, Arc, s.Kind, d)
		require.InDelta(t, 100*math.Pi, s.Length(), 1e-9, d)
	}
	require.Equal(t, 1, one(t, "M0 0L5 5A10 10 0 1 1 5 5").Len(), "equal ends are left out")
	require.Empty(t, parsed(t, "M5 5A10 10 0 1 1 5 5"))
	for _, d := range []string{"M0 0A0 10 0 1 1 5 5", "M0 0A10 0 0 1 1 5 5"} {
		require.Equal(t, Line, one(t, d).Segment(0).Kind, d)
	}
	turned := one(t, "M0 0A100 50 405 0 0 100 50").Segment(0)
	same := one(t, "M0 0A-100-50 45 0 0 100 50").Segment(0)
	near(t, same.Point(0.3), turned.Point(0.3), 1e-9)
}

func TestPiesOfTheSpecification(t *testing.T) {
	// The pies of the specification's picture arcs01; lengths are those the figure implies, areas by the sector formula.
	pie := one(t, "M300,200 h-150 a150,150 0 1,0 150,-150 z")
	require.InDelta(t, 225*math.Pi+300, pie.Length(), 1e-9)
	require.InDelta(t, 53014.376029, math.Abs(pie.Area()), 1e-5)
	near(t, Point{300, 200}, pie.Segment(1).Centre, 1e-9)
	small := one(t, "M275,175 v-150 a150,150 0 0,0 -150,150 z")
	require.InDelta(t, 535.619449, small.Length(), 1e-6)
	require.InDelta(t, 17671.458676, math.Abs(small.Area()), 1e-5)
}

func TestBumpyPath(t *testing.T) {
	// The specification's picture arcs01: every pair of radii is too small and scaled up. Scaled radii, centres
	// and the length by independent quadrature; a widely copied value of the length is 4e-6 less.
	p := one(t, `M600,350 l 50,-25 a25,25 -30 0,1 50,-25 l 50,-25 a25,50 -30 0,1 50,-25 l 50,-25
		a25,75 -30 0,1 50,-25 l 50,-25 a25,100 -30 0,1 50,-25 l 50,-25`)
	require.InDelta(t, 928.388643567, p.Length(), 1e-6)
	want := []struct {
		rx, ry float64
		centre Point
	}{
		{27.950850, 27.950850, Point{675, 312.5}}, {27.913197, 55.826394, Point{775, 262.5}},
		{27.906219, 83.718657, Point{875, 212.5}}, {27.903776, 111.615105, Point{975, 162.5}},
	}
	k := 0
	for _, s := range p.Segments() {
		if s.Kind == Line {
			continue
		}
		require.InDelta(t, want[k].rx, s.RX, 1e-6)
		require.InDelta(t, want[k].ry, s.RY, 1e-6)
		near(t, want[k].centre, s.Centre, 1e-6)
		require.InDelta(t, math.Pi, math.Abs(s.Sweep), 1e-6)
		k++
	}
	require.Equal(t, 4, k)
}

func TestCurvesOfTheSpecification(t *testing.T) {
	// Points on the curves of the specification's pictures cubic01 and quad01 and their lengths, to the figures
	// usual in path test collections.
	first := one(t, "M100,200 C100,100 250,100 250,200 S400,300 400,200")
	s := first.Segment(0)
	near(t, Point{132.4, 137}, s.Point(0.3), 1e-9)
	near(t, Point{175, 125}, s.Point(0.5), 1e-9)
	near(t, Point{245.8, 173}, s.Point(0.9), 1e-9)
	require.Equal(t, Point{250, 300}, first.Segment(1).C1, "S mirrors the handle")
	s = one(t, "M600,500 C600,350 900,650 900,500").Segment(0)
	near(t, Point{664.8, 462.2}, s.Point(0.3), 1e-9)
	near(t, Point{891.6, 532.4}, s.Point(0.9), 1e-9)
	s = one(t, "M200,300 Q400,50 600,300 T1000,300").Segment(0)
	near(t, Point{320, 195}, s.Point(0.3), 1e-9)
	near(t, Point{400, 175}, s.Point(0.5), 1e-9)
	require.InDelta(t, 487.77109389525975, s.Length(), 1e-8)
	require.InDelta(t, 379.90458193489155, one(t, "M200 300Q400 50 500 200").Length(), 1e-8)
	q := one(t, "M200,300 Q400,50 600,300 T1000,300")
	near(t, Point{800, 425}, q.Segment(1).Point(0.5), 1e-9, "T mirrors the handle downwards")
	require.InDelta(t, 157.10167, one(t, "M100 0C100 55.22847498 55.22847498 100 0 100").Length(), 1e-5)
}

func TestPathDataGrammar(t *testing.T) {
	for d, want := range map[string][][]Point{
		"":                      nil,
		" \t\r\n\f":             nil,
		"M1 2":                  nil,
		"M 100 100 L 200 200":   {{{100, 100}, {200, 200}}},
		"M100 100L200 200":      {{{100, 100}, {200, 200}}},
		"M100-200 300-400":      {{{100, -200}, {300, -400}}},
		"M.5-.8.5.8":            {{{.5, -.8}, {.5, .8}}},
		"M 0.6.5 1,1":           {{{.6, .5}, {1, 1}}},
		"m1 2 3 4 5 6":          {{{1, 2}, {4, 6}, {9, 12}}},
		"M1 2 3 4 5 6":          {{{1, 2}, {3, 4}, {5, 6}}},
		"M1,2,3,4":              {{{1, 2}, {3, 4}}},
		"M0 0h1 2V5 4v-1":       {{{0, 0}, {1, 0}, {3, 0}, {3, 5}, {3, 4}, {3, 3}}},
		"M1e2 1E+1L1e-1 10.":    {{{100, 10}, {.1, 10}}},
		"M+1+2l+3+4":            {{{1, 2}, {4, 6}}},
		"M0 0 1 0 1 1z":         {{{0, 0}, {1, 0}, {1, 1}}},
		"M0 0 1 0 1 1 0 0Z":     {{{0, 0}, {1, 0}, {1, 1}}},
		"M0 0 1 0 2 0 2 0 2 2":  {{{0, 0}, {1, 0}, {2, 0}, {2, 0}, {2, 2}}},
		"M5 5 6 5 6 6zl1 1":     {{{5, 5}, {6, 5}, {6, 6}}, {{5, 5}, {6, 6}}},
		"M5 5 6 5 6 6zm1 1l1 0": {{{5, 5}, {6, 5}, {6, 6}}, {{6, 6}, {7, 6}}},
		"M1 1 2 2M3 3M4 4 5 5":  {{{1, 1}, {2, 2}}, {{4, 4}, {5, 5}}},
		"M7 8z":                 {{{7, 8}}},
		"M7 8 7 8":              {{{7, 8}, {7, 8}}},
		"M0 0A1 1 0 0122 6.2":   {{{0, 0}, {22, 6.2}}},
		"M0 0a1 1 0 00-1 0":     {{{0, 0}, {-1, 0}}},
	} {
		ps, err := ParsePathData(d)
		require.NoError(t, err, d)
		var got [][]Point
		for _, p := range ps {
			got = append(got, p.Vertices())
		}
		require.Equal(t, want, got, d)
	}
	circle := one(t, "M1 0A1 1 0 00-1 0 1 1 0 001 0")
	require.InDelta(t, 2*math.Pi, circle.Length(), 1e-12)
	require.False(t, circle.Closed())
	s := one(t, "M0 0 10 0S20 20 30 0").Segment(1)
	require.Equal(t, Point{10, 0}, s.C1, "S after a line starts with its handle at home")
	s = parsed(t, "M0 0Q5 5 10 0M20 0T30 0")[1].Segment(0)
	near(t, Point{22.5, 0}, s.Point(0.5), 1e-12, "T after a move has its handle at home")
	s = one(t, "M0 0c1 1 2 1 3 0s2 -1 3 0").Segment(1)
	require.Equal(t, [3]Point{{4, -1}, {5, -1}, {6, 0}}, [3]Point{s.C1, s.C2, s.To})
}

func TestPathDataErrors(t *testing.T) {
	for _, c := range []struct {
		d     string // a caret stands before the byte that is wrong
		drawn int    // segments drawn before it
		words string
	}{
		{"^L1 1", 0, "starts with M"},
		{"^,M1 1", 0, "starts with M"},
		{"M^", 0, "the end"},
		{"M^,1 1", 0, "','"},
		{"M1^", 0, "the end"},
		{"M1 ^x", 0, "'x'"},
		{"M1 1^,", 0, "comma"},
		{"M1 1L2 2^,L3 3", 1, "comma"},
		{"M1,^,1", 0, "','"},
		{"M1 1 2 2^ü", 1, "'ü'"},
		{"M1 1 2 2^e", 1, "'e'"},
		{"M1 1 2 2^\x00", 1, "command"},
		{"M 10,10 L 20,20,30^", 1, "the end"}, // W3C SVG 2, section 9.3.9: draws to 20,20
		{"M0 0A1 1 0 ^2 0 1 1", 0, "flag"},
		{"M0 0A1 1 0 0^.5 1 1", 0, "flag"},
		{"M0 0A1 1 0 0 1 1^", 0, "the end"},
		{"M^1e400 0", 0, "too great"},
		{"M^1e8 0", 0, "beyond"},
		{"M0 0l1 1 -1e7 0 ^-1e7 0", 2, "beyond"},
		{"M0 0c^0 0 1e8 0 1 1", 0, "beyond"},
		{"M0 0q^1e8 0 1 1", 0, "beyond"},
		{"M0 0a^1e9 1e9 0 1 1 1 1", 0, "beyond"},
		{"M0 0a^1 1e-300 0 0 1 0 1e3", 0, "beyond"},
		{"M1 1z^5", 1, "command"},
		{"M^.", 0, "number"},
		{"M^-", 0, "number"},
		{"M^nan 0", 0, "number"},
		{"M^inf 0", 0, "number"},
		{"M0^x10 0", 0, "number"},
		{"M1 2 1^_0 3", 0, "'_'"},
		{"M0 0a1 1 0 01-1 0 1 1 0,1^", 1, "the end"},
	} {
		at := strings.Index(c.d, "^")
		ps, err := ParsePathData(strings.Replace(c.d, "^", "", 1))
		var wrong *DataError
		require.True(t, errors.As(err, &wrong), "%q: %v", c.d, err)
		require.Equal(t, at, wrong.Offset, "%q: %v", c.d, err)
		require.Contains(t, wrong.Message, c.words, c.d)
		drawn := 0
		for _, p := range ps {
			drawn += p.Len()
		}
		require.Equal(t, c.drawn, drawn, c.d)
	}
}

// pathData writes paths back as absolute path data with every figure of a float64.
func pathData(ps []*Path) string {
	var b strings.Builder
	num := func(xs ...float64) {
		for _, x := range xs {
			b.WriteByte(' ')
			b.WriteString(strconv.FormatFloat(x, 'g', -1, 64))
		}
	}
	flag := func(on bool) float64 {
		if on {
			return 1
		}
		return 0
	}
	for _, p := range ps {
		b.WriteString("M")
		num(p.Start().X, p.Start().Y)
		for _, s := range p.Segments() {
			switch s.Kind {
			case Line:
				b.WriteString("L")
			case Cubic:
				b.WriteString("C")
				num(s.C1.X, s.C1.Y, s.C2.X, s.C2.Y)
			default:
				b.WriteString("A")
				num(s.RX, s.RY, s.Phi*180/math.Pi, flag(math.Abs(s.Sweep) > math.Pi), flag(s.Sweep > 0))
			}
			num(s.To.X, s.To.Y)
		}
		if p.Closed() {
			b.WriteString("Z")
		}
	}
	return b.String()
}

// FuzzParsePathData: whatever the bytes, what comes out is finite and in reach, an error stands inside the
// data, and the same paths written out and read again are the same.
func FuzzParsePathData(f *testing.F) {
	for _, d := range []string{
		"M0 0A100 50 0 1 1 100 50z", "M600,350 l 50,-25 a25,25 -30 0,1 50,-25", "M1 0A1 1 0 00-1 0 1 1 0 001 0",
		"M100,200 C100,100 250,100 250,200 S400,300 400,200", "M200,300 Q400,50 600,300 T1000,300", "M.5-.8.5.8h1v2H0V0zm1 1z",
		"M0 0a1 1e-300 0 0 1 0 1e3", "m1e7-1e7l0 1", "M 10,10 L 20,20,30", "M1,", "M1 1e", "L", "m\u00e91",
	} {
		f.Add(d)
	}
	f.Fuzz(func(t *testing.T, d string) {
		ps, err := ParsePathData(d)
		if err != nil {
			var wrong *DataError
			require.True(t, errors.As(err, &wrong))
			require.GreaterOrEqual(t, wrong.Offset, 0)
			require.LessOrEqual(t, wrong.Offset, len(d))
		}
		edge := false
		for _, p := range ps {
			require.Greater(t, p.Len(), 0)
			box := p.Bounds()
			require.True(t, inReach(box.Min) && inReach(box.Max), "%v", box)
			require.False(t, box.Empty())
			edge = edge || max(box.Max.X, box.Max.Y, -box.Min.X, -box.Min.Y) > 0.999*MostCoordinate
			for _, s := range p.Segments() {
				for _, u := range []float64{0, 0.3, 0.5, 1} {
					require.True(t, s.Point(u).Finite() && s.Tangent(u).Finite())
				}
				length := s.Length()
				require.False(t, math.IsNaN(length) || math.IsInf(length, 0))
			}
			require.False(t, math.IsNaN(p.Area()) || math.IsInf(p.Area(), 0))
		}
		if edge {
			return // an arc's rounding may carry it over the limit the second time
		}
		again, err := ParsePathData(pathData(ps))
		require.NoError(t, err)
		require.Len(t, again, len(ps))
		for i, p := range ps {
			require.Equal(t, p.Closed(), again[i].Closed())
			require.Equal(t, p.Vertices(), again[i].Vertices())
			for j, s := range p.Segments() {
				q := again[i].Segment(j)
				require.Equal(t, s.C1, q.C1)
				require.Equal(t, s.C2, q.C2)
				if s.Kind == Line || s.Kind == Cubic {
					continue
				}
				// The end form of an arc nearly a half turn, or nearly a full one, holds its middle to the root
				// of the rounding only.
				size := max(s.RX, s.RY, s.From.Len(), s.To.Len())
				near(t, s.Point(0.5), q.Point(0.5), 1e-5*size+1e-9, "%v %v", s, q)
			}
		}
	})
}
