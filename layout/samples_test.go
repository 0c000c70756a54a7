package layout_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/geom"
	"markout/layout/set"
)

func sample(t *testing.T, name string) *set.Set {
	t.Helper()
	files := sampleFiles(t, name)
	s, list := layout.Open(files, "main.markout", layout.Options{})
	require.Empty(t, printed(list))
	return s
}

// sampleFiles are a sample's own file, as the main one, and what stands beside it.
func sampleFiles(t *testing.T, name string) texts {
	t.Helper()
	files := texts{}
	all, err := os.ReadDir("../samples/" + name)
	require.NoError(t, err)
	for _, f := range all {
		data, err := os.ReadFile("../samples/" + name + "/" + f.Name())
		require.NoError(t, err)
		files[f.Name()] = string(data)
	}
	files["main.markout"] = files[name+".markout"]
	return files
}

// plan is where copy number k of an element stands.
func plan(s *set.Set, name string, k int) geom.Point {
	for _, c := range s.Find(name).Copies {
		if c.Number == k {
			return c.Places[0].Frame.T.Plan()
		}
	}
	return geom.Point{X: math.NaN()}
}

// near compares with a figure that is known to 0.1 mm.
func near(t *testing.T, want, got float64) {
	t.Helper()
	require.InDelta(t, want, got, 0.05)
}

func TestKiosk(t *testing.T) {
	s := sample(t, "kiosk")
	deck := s.Find("deck").Shape.(*set.Platform)
	require.Equal(t, 450.0, deck.Height)
	// RUN: the side of a regular octagon 4800 across flats is 4800·tan 22.5° = 1988.2.
	near(t, 1988.2, deck.Outline.Path.Segment(0).From.Dist(deck.Outline.Path.Segment(0).To))
	// RUN: (4200·cos(15° + 30°(k − 1)), 3600 + 4200·sin(15° + 30°(k − 1))).
	for k, want := range map[int]geom.Point{1: {X: 4056.9, Y: 4687.0}, 3: {X: 1087.0, Y: 7656.9}, 9: {X: -1087.0, Y: -456.9}, 10: {X: 1087.0, Y: -456.9}} {
		near(t, want.X, plan(s, "bollard", k).X)
		near(t, want.Y, plan(s, "bollard", k).Y)
	}
	near(t, 2174.1, plan(s, "bollard", 1).Dist(plan(s, "bollard", 2))) // RUN: 2·4200·sin 15°
	ramp := s.Find("up")
	require.Equal(t, 8.0, ramp.Shape.(*set.Ramp).Length/ramp.Shape.(*set.Ramp).Rise, "1:8")
	require.InDelta(t, 9600, plan(s, "up", 1).Y, 1e-9, "the ramp ends at y 9600")
	front := s.Find("front").Shape.(*set.Steps)
	require.Equal(t, []float64{150, 150, 150}, front.Rises)
	require.Equal(t, "floor", front.FootOn)
	require.Equal(t, geom.Point{X: 0, Y: 600}, plan(s, "front", 1))
	h := s.Hall
	st := h.Shape.(*set.Hall).Stations
	m := h.Copies[0].Places[0].Frame.Plan()
	require.Equal(t, geom.Point{X: -4000}, m.Apply(st[0].At), "stations stand on the setting line")
	require.Equal(t, geom.Point{X: 4000}, m.Apply(st[1].At))
	for _, c := range s.Find("canopy").Copies {
		require.Equal(t, 450.0, c.Places[0].Level())
		require.Equal(t, 2850.0, set.Top(s.Find("canopy"), c.Places[0]), "the soffit")
		require.InDelta(t, 2350, c.Places[0].Frame.T.Plan().Dist(geom.Point{Y: 3600}), 1e-9)
	}
	require.Equal(t, geom.Point{Y: 3600}, plan(s, "pin", 1))
	require.Equal(t, "B", s.Letter)
	require.False(t, s.Trial)
}

func TestCrates(t *testing.T) {
	s := sample(t, "crates")
	e := s.Find("crates")
	c := e.Shape.(*set.Steps)
	var tops []float64
	top := 0.0
	for _, r := range c.Rises {
		top += r
		tops = append(tops, top)
	}
	require.Equal(t, []float64{140, 305, 455, 645, 765, 940, 1100, 1305, 1460}, tops)
	require.Equal(t, 85.0, slices.Max(c.Rises)-slices.Min(c.Rises), "spread of rises")
	jump := 0.0
	for i := 1; i < len(c.Rises); i++ {
		jump = max(jump, math.Abs(c.Rises[i]-c.Rises[i-1]))
	}
	require.Equal(t, 70.0, jump, "largest difference of neighbours")
	// The eighth riser rises from the seventh tread: 2R + G = 2·205 + 300.
	require.Equal(t, 710.0, 2*c.Rises[7]+c.Goings[6])
	require.InDelta(t, 4.2, c.Treads()[7].Top/c.Goings[7], 0.05, "the eighth block: as tall as so many times its depth")
	require.Equal(t, []float64{1400, 1350, 1300, 1250, 1200, 1150, 1100, 1050}, c.Widths)
	require.True(t, c.Blocks)
	require.Equal(t, geom.Point{Y: 1200}, plan(s, "crates", 1))
	deck := s.Find("deck")
	require.Equal(t, 1460.0, deck.Shape.(*set.Platform).Height)
	box := deck.Shape.(*set.Platform).Outline.Path.Transform(deck.Copies[0].Places[0].Frame.Plan()).Bounds()
	require.Equal(t, geom.Rect{Min: geom.Point{X: -1220, Y: 3710}, Max: geom.Point{X: 1220, Y: 4930}}, box, "the front at the last riser")
	// A soffit at 3300 over the eighth top leaves 1995.
	require.Equal(t, 1995.0, s.Find("beam").Copies[0].Places[0].Level()-tops[7])
}

func TestBacking(t *testing.T) {
	s := sample(t, "backing")
	require.True(t, s.Units.Imperial())
	require.Equal(t, 24.0, s.Scale, `1/2" = 1'-0"`)
	w := s.Find("backing").Shape.(*set.Flat)
	require.InDelta(t, 24*304.8, w.Length, 1e-9)
	require.InDelta(t, 9*304.8, w.Height, 1e-9)
	require.InDelta(t, 88.9, w.Thickness, 1e-9) // 3 1/2 in × 25.4
	require.Len(t, w.Openings, 3)
	up := s.Find("up").Shape.(*set.Steps)
	require.InDelta(t, 152.4, up.Rises[0], 1e-9)
	require.Equal(t, "floor", up.FootOn)
	require.Zero(t, s.Find("roofs").Shape.(*set.Panel).Outline.Path.Bounds().Min.Y)
	require.InDelta(t, 20*304.8, s.Find("roofs").Shape.(*set.Panel).Run, 1e-9)
}

// The lighthouse stair: half a circle of radius 2000 is π·2000 = 6283.2 long; two landings of 1000 leave twelve treads
// (6283.2 − 2000) / 12 = 356.9; the rises are uneven by 13 and make 2400.
func TestLightstair(t *testing.T) {
	s := sample(t, "lightstair")
	e := s.Find("stair")
	st := e.Shape.(*set.Steps)
	require.Len(t, st.Rises, 15)
	require.Equal(t, 2400.0, st.Total())
	require.Equal(t, 13.0, slices.Max(st.Rises)-slices.Min(st.Rises))
	require.Equal(t, []int{5, 10}, st.Landings)
	near(t, 6283.2, st.Run())
	near(t, 356.9, st.Goings[0])
	require.Equal(t, "floor", st.FootOn)
	middle := geom.Point{Y: 4200}
	require.Equal(t, middle, plan(s, "pin", 1))
	y := 0.0
	for k := range st.Rises {
		a := -y / 2000 // it goes round to the right from plan-right
		at := set.FloorPoints(e, e.Copies[0].Places[0])
		require.InDelta(t, 0, at[2*k].At.Dist(middle.Add(geom.Point{X: 2500 * math.Cos(a), Y: 2500 * math.Sin(a)})), 1e-6)
		require.InDelta(t, 0, at[2*k+1].At.Dist(middle.Add(geom.Point{X: 1500 * math.Cos(a), Y: 1500 * math.Sin(a)})), 1e-6)
		if k < len(st.Goings) {
			y += st.Goings[k]
		}
	}
	area := 0.0
	for _, r := range set.Footprints(st) {
		area += r.Outer.Area()
	}
	require.InDelta(t, math.Pi/2*(2500*2500-1500*1500), area, 1e-3)
	gallery := s.Find("gallery")
	require.Equal(t, 2400.0, gallery.Shape.(*set.Platform).Height)
	require.InDelta(t, 0, plan(s, "gallery", 1).Dist(geom.Point{X: -2000, Y: 5100}), 1e-6, "its front is the last riser")
}
