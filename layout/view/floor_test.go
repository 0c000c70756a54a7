package view

import (
	"math"
	"strings"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// area measures a closed path with a general reference library.
func area(t *testing.T, p *geom.Path) float64 {
	t.Helper()
	return polygon(t, p).Area()
}

func polygon(t *testing.T, p *geom.Path) sf.Polygon {
	t.Helper()
	require.True(t, p.Closed())
	ps := p.Flatten(0.001, nil)
	coords := make([]float64, 0, 2*len(ps)+2)
	for _, q := range append(ps, ps[0]) {
		coords = append(coords, q.X, q.Y)
	}
	poly := sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(coords, sf.DimXY))})
	require.NoError(t, poly.Validate())
	return poly
}

// closed returns the closed strokes of an element by line type.
func closed(d *drawing.Drawing, owner string, typ drawing.LineType) []*geom.Path {
	var out []*geom.Path
	for _, s := range d.Strokes {
		if s.Owner >= 0 && d.Owners[s.Owner] == owner && s.Type == typ && s.Path.Closed() && s.Layer == drawing.Cut {
			out = append(out, s.Path)
		}
	}
	return out
}

func words(d *drawing.Drawing) string {
	var b strings.Builder
	for _, t := range d.Texts {
		b.WriteString(t.Text)
		b.WriteByte('\n')
	}
	return b.String()
}

// The regular octagon's area is 4.828427 × side² and its side 0.414214 × the width across flats
// (formulas of regular polygons, mathforum.org; recomputed).
func TestFloorOctagonHasItsAreaAndPlace(t *testing.T) {
	d := Floor(kiosk())
	require.Equal(t, []string{"deck", "front", "bollard"}, d.Owners, "only what asks for it, in the file's order")
	deck := closed(d, "deck", drawing.Continuous)
	require.Len(t, deck, 1)
	require.InEpsilon(t, 4.828427*math.Pow(0.414214*4800, 2), area(t, deck[0]), 5e-6)
	require.InDelta(t, 1988.2, deck[0].Segment(0).Length(), 0.05)
	b := deck[0].Bounds()
	require.InDelta(t, 1200, b.Min.Y, 1e-6)
	require.InDelta(t, 6000, b.Max.Y, 1e-6)
	require.Equal(t, "L", d.Datum.XPlus)
	require.Contains(t, words(d), "+450\n")
	require.Contains(t, words(d), "FRONT\n")
}

// Bollards 1, 3, 9, 10 of the known answers: 4200 from (0, 3600), from 15° by 30°.
func TestFloorBollardsStandWhereTheyShould(t *testing.T) {
	d := Floor(kiosk())
	posts := closed(d, "bollard", drawing.Continuous)
	require.Len(t, posts, 12)
	for n, want := range map[int]geom.Point{1: {X: 4056.9, Y: 4687.0}, 3: {X: 1087.0, Y: 7656.9}, 9: {X: -1087.0, Y: -456.9}, 10: {X: 1087.0, Y: -456.9}} {
		got := posts[n-1].Bounds().Mid()
		require.InDelta(t, want.X, got.X, 0.05, "bollard %d", n)
		require.InDelta(t, want.Y, got.Y, 0.05, "bollard %d", n)
		require.InEpsilon(t, math.Pi*30*30, area(t, posts[n-1]), 1e-4)
	}
}

func TestFlightOnTheFloor(t *testing.T) {
	d := Floor(kiosk())
	out := closed(d, "front", drawing.Continuous)
	require.Len(t, out, 1)
	require.InDelta(t, 1800*600, area(t, out[0]), 1e-6)
	require.Equal(t, 4, out[0].Len(), "sides of one width are one line")
	// Three risers: the first and the last are edges of the outline, the second a line of its own at y 900.
	var lines []float64
	for _, s := range d.Strokes {
		if d.Owners[s.Owner] == "front" && s.Layer == drawing.Cut && !s.Path.Closed() {
			require.InDelta(t, 1800, s.Path.Length(), 1e-9)
			lines = append(lines, s.Path.Start().Y)
		}
	}
	require.Equal(t, []float64{900}, lines)
	require.Contains(t, words(d), "UP 3 risers\n")
}

func TestNosingIsDashedAndJogsFollowTheWidths(t *testing.T) {
	s := crates()
	st := s.Elements[0].Shape.(*set.Steps)
	st.Blocks, st.Nosing = false, 25
	d := Floor(s)
	out := closed(d, "climb", drawing.Continuous)
	require.Len(t, out, 1)
	var want float64
	for k, g := range st.Goings {
		want += g * st.Widths[k]
	}
	require.InDelta(t, want, area(t, out[0]), 1e-6)
	n := 0
	for _, k := range d.Strokes {
		if k.Type == drawing.Dashed {
			n++
		}
	}
	require.Equal(t, 8, n, "one nosing a tread")
}

func TestBlocksOnTheFloor(t *testing.T) {
	s := crates()
	d := Floor(s)
	out := closed(d, "climb", drawing.Continuous)
	require.Len(t, out, 8)
	st := s.Elements[0].Shape.(*set.Steps)
	for k, p := range out {
		require.InDelta(t, st.Goings[k]*st.Widths[k], area(t, p), 1e-6)
		require.InDelta(t, st.Shifts[k], p.Bounds().Mid().X, 1e-9)
	}
	require.InDelta(t, 1200+2510, out[7].Bounds().Max.Y, 1e-9)
	for _, top := range []string{"+140", "+305", "+455", "+645", "+765", "+940", "+1100", "+1305"} {
		require.Contains(t, words(d), top+"\n")
	}
}

func TestFlatOnTheFloorIsBrokenByItsDoor(t *testing.T) {
	f := &set.Flat{Length: 4000, Height: 2400, Thickness: 50, Openings: []set.Opening{
		{Word: "window", At: 2500, Sill: 900, Width: 1000, Height: 1000},
		{Word: "door", At: 600, Width: 800, Height: 2000},
	}}
	s := &set.Set{Sides: "stage", Elements: []*set.Element{{Name: "wall", Copies: at(100, 200, 0, 90), Shape: f, FullSize: []string{"floor"}}}}
	d := Floor(s)
	out := closed(d, "wall", drawing.Continuous)
	require.Len(t, out, 2)
	require.InDelta(t, (4000-800)*50, area(t, out[0])+area(t, out[1]), 1e-6)
	// Turned by 90° own x runs upstage and the thickness, behind the face, goes to plan-left.
	require.InDelta(t, 50, out[0].Bounds().Min.X, 1e-9)
	require.InDelta(t, 100, out[0].Bounds().Max.X, 1e-9)
	require.InDelta(t, 200, out[0].Bounds().Min.Y, 1e-9)
	n := 0
	for _, k := range d.Strokes {
		if k.Type == drawing.Dashed {
			n++
		}
	}
	require.Equal(t, 4, n, "the door's head on both faces, the window's two jambs")
}

func TestOtherPositionsAreDoubleDotted(t *testing.T) {
	e := &set.Element{Name: "cart", Shape: &set.Platform{Outline: outline(geom.Rectangle(1200, 600), "rect"), Height: 200}, FullSize: []string{"floor"},
		Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}, {Position: "scene 2", Frame: geom.Upright(geom.Point{X: 3000}, 0, 30)}}}}}
	s := &set.Set{Sides: "house", Elements: []*set.Element{e}}
	for _, d := range []*drawing.Drawing{Floor(s), Plan(s)} {
		require.Len(t, closed(d, "cart", drawing.Continuous), 1)
		other := closed(d, "cart", drawing.LongDashDoubleDot)
		require.Len(t, other, 1)
		require.InDelta(t, 720000, area(t, other[0]), 1e-3)
		require.Contains(t, words(d), "cart (scene 2)\n")
		require.Equal(t, "R", d.Datum.XPlus)
	}
}

func TestMarksRingsAndReserves(t *testing.T) {
	inner := outline(geom.Circle(1000), "circle")
	all := []string{"floor"}
	s := &set.Set{Sides: "stage", Elements: []*set.Element{
		{Name: "kerb", Copies: at(0, 0, 0, 0), FullSize: all, Shape: &set.Ring{Outer: outline(geom.Circle(1400), "circle"), Inner: &inner, Height: 100}},
		{Name: "spike", Copies: at(5, 6, 0, 0), FullSize: all, Shape: &set.Mark{Points: []geom.Point{{}}}},
		{Name: "run", Copies: at(0, 0, 0, 0), FullSize: all, Shape: &set.Mark{Dashed: true, Paths: []*geom.Path{polyline(geom.Point{}, geom.Point{X: 900}, geom.Point{X: 900, Y: 600})}}},
		{Name: "turn", Copies: at(0, 0, 0, 0), FullSize: all, Shape: &set.Reserve{Outline: outline(geom.Circle(1500), "circle"), Height: 2000}},
		{Name: "mat", Copies: at(0, 0, 0, 0), FullSize: all, Shape: &set.Mark{Corner: true, Paths: []*geom.Path{geom.Rectangle(3000, 300)}}},
	}}
	d := Floor(s)
	ring := closed(d, "kerb", drawing.Continuous)
	require.Len(t, ring, 2)
	require.InEpsilon(t, math.Pi*(700*700-500*500), area(t, ring[0])-area(t, ring[1]), 1e-4)
	count := map[string]int{}
	var legs float64
	for _, k := range d.Strokes {
		o := d.Owners[k.Owner]
		count[o]++
		switch o {
		case "run":
			require.Equal(t, drawing.Dashed, k.Type)
		case "turn":
			require.NotEqual(t, drawing.Cut, k.Layer, "a volume to keep clear is no tape")
		case "mat":
			legs += k.Path.Length()
		}
	}
	require.Equal(t, 4, count["kerb"], "two edges and a centre cross")
	require.Equal(t, 2, count["spike"])
	require.Equal(t, 8, count["mat"])
	require.InDelta(t, 4*150+4*100, legs, 1e-9, "150 on the long sides, a third of the short")
}

func TestNothingAskedNothingDrawn(t *testing.T) {
	s := crates()
	for _, e := range s.Elements {
		e.FullSize = nil
	}
	d := Floor(s)
	require.Empty(t, d.Strokes)
	require.Empty(t, d.Texts)
}

// rings is a floor of n rings of 64 corners.
func rings(n int) *set.Set {
	s := &set.Set{Sides: "stage"}
	for i := range n {
		ps := make([]geom.Point, 64)
		for k := range ps {
			ps[k] = geom.Polar(600, 2*math.Pi*float64(k)/64)
		}
		s.Elements = append(s.Elements, &set.Element{Name: "r", FullSize: []string{"floor"},
			Copies: at(float64(i%200)*1500, float64(i/200)*1500, 0, 0), Shape: &set.Ring{Outer: outline(geom.Polygon(ps), "points"), Height: 100}})
	}
	return s
}

// A ring's footprint costs a handful of allocations whatever the number of its points.
func TestFloorAllocatesByPieceNotByPoint(t *testing.T) {
	s := rings(1000)
	per := testing.AllocsPerRun(3, func() { Floor(s) }) / 1000
	require.Less(t, per, 12.0)
}

func BenchmarkFloor(b *testing.B) {
	for _, n := range []int{400, 20000} {
		s := rings(n)
		b.Run(map[int]string{400: "400", 20000: "20000"}[n], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Floor(s)
			}
		})
	}
}

func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{400, 20000} {
		s := rings(n)
		b.Run(map[int]string{400: "400", 20000: "20000"}[n], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Plan(s)
			}
		})
	}
}
