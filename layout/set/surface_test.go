package set

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// crates is the climb of odd-height crates of "Low Tide".
func crates() *Steps {
	return &Steps{
		Rises:  []float64{140, 165, 150, 190, 120, 175, 160, 205, 155},
		Goings: []float64{300, 320, 280, 340, 300, 360, 300, 310},
		Widths: []float64{1400, 1350, 1300, 1250, 1200, 1150, 1100, 1050},
		Shifts: []float64{0, 60, -40, 80, 0, -90, 50, 0},
		Blocks: true,
	}
}

func TestTreads(t *testing.T) {
	s := crates()
	var tops []float64
	for _, tr := range s.Treads() {
		tops = append(tops, tr.Top)
	}
	// RUN: running sums by hand.
	require.Equal(t, []float64{140, 305, 455, 645, 765, 940, 1100, 1305}, tops)
	require.Equal(t, 1460.0, s.Total())
	require.Equal(t, 2510.0, s.Run())
	last := s.Treads()[7]
	require.Equal(t, Tread{Y0: 2200, Y1: 2510, Top: 1305, Width: 1050, Mid: 0}, last)
	require.Empty(t, (&Steps{Rises: []float64{150}}).Treads(), "one riser is a step up, without a tread")
}

func TestFootprintsAndHeight(t *testing.T) {
	rect := Outline{Form: "rect", Path: geom.Rectangle(1000, 600)}
	low := Outline{Form: "path", Path: box(0, 0, 2400, 700)}
	for _, c := range []struct {
		name   string
		shape  Shape
		area   float64 // of all footprints, mm²
		boxes  geom.Rect
		height float64
	}{
		{"platform", &Platform{Outline: rect, Height: 450}, 600000, geom.Rect{Min: geom.Point{X: -500, Y: -300}, Max: geom.Point{X: 500, Y: 300}}, 450},
		{"steps", crates(), 420000 + 432000 + 364000 + 425000 + 360000 + 414000 + 330000 + 325500, geom.Rect{Min: geom.Point{X: -700}, Max: geom.Point{X: 735, Y: 2510}}, 1460},
		{"ramp", &Ramp{Length: 3600, Rise: 450, Width: 1200}, 3600 * 1200, geom.Rect{Min: geom.Point{X: -600}, Max: geom.Point{X: 600, Y: 3600}}, 450},
		{"flat", &Flat{Length: 3000, Height: 2400, Thickness: 60}, 180000, geom.Rect{Max: geom.Point{X: 3000, Y: 60}}, 2400},
		{"flat, face left", &Flat{Length: 3000, Height: 2400, Thickness: 60, FaceLeft: true}, 180000, geom.Rect{Min: geom.Point{Y: -60}, Max: geom.Point{X: 3000}}, 2400},
		{"flat without thickness", &Flat{Length: 3000, Height: 2400}, 3000, geom.Rect{Max: geom.Point{X: 3000, Y: 1}}, 2400},
		{"ground row", &Panel{Outline: low, Stands: true, Run: 2400, Thickness: 18}, 2400 * 18, geom.Rect{Max: geom.Point{X: 2400, Y: 18}}, 700},
		{"lying panel", &Panel{Outline: rect, Thickness: 18}, 600000, geom.Rect{Min: geom.Point{X: -500, Y: -300}, Max: geom.Point{X: 500, Y: 300}}, 18},
		{"mark", &Mark{Points: []geom.Point{{}}}, 0, geom.EmptyRect(), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			area, boxes := 0.0, geom.EmptyRect()
			for _, r := range Footprints(c.shape) {
				area += r.Outer.Area()
				boxes = boxes.Union(r.Outer.Bounds())
			}
			require.InDelta(t, c.area, area, 1e-6)
			require.Equal(t, c.boxes, boxes)
			require.Equal(t, c.height, Height(c.shape))
		})
	}
}

func TestRingFootprintHasItsHole(t *testing.T) {
	inner := Outline{Form: "circle", Path: geom.Circle(600)}
	r := &Ring{Outer: Outline{Form: "circle", Path: geom.Circle(1000)}, Inner: &inner, Height: 100}
	got := Footprints(r)
	require.Len(t, got, 1)
	require.Len(t, got[0].Holes, 1)
	require.InDelta(t, math.Pi*(500*500-300*300), got[0].Outer.Area()-got[0].Holes[0].Area(), 1e-6)
}

func TestSurfaces(t *testing.T) {
	at := func(x, y, z, turn float64) Place {
		return Place{Frame: geom.Upright(geom.Point{X: x, Y: y}, z, turn)}
	}
	t.Run("ramp", func(t *testing.T) {
		e := &Element{Name: "ramp", Shape: &Ramp{Length: 3600, Rise: 450, Width: 1200}}
		for _, turn := range []float64{0, 90, 180, 33} {
			pl := at(500, 9600, 20, turn)
			s := Surfaces(e, pl)
			require.Len(t, s, 1)
			for _, y := range []float64{0, 1234, 3600} {
				p := pl.Frame.Apply(geom.Vec{X: 100, Y: y}).Plan()
				require.True(t, s[0].Region.Outer.Contains(p))
				require.InDelta(t, 20+y/8, s[0].Z(p), 1e-9, "1:8")
			}
		}
	})
	t.Run("steps", func(t *testing.T) {
		e := &Element{Name: "front", Shape: &Steps{Rises: []float64{150, 150, 150}, Goings: []float64{300, 300}, Widths: []float64{1800}, Nosing: 25}}
		pl := at(0, 600, 0, 0)
		s := Surfaces(e, pl)
		require.Len(t, s, 2)
		require.Equal(t, 150.0, s[0].Z(geom.Point{Y: 700}))
		require.Equal(t, 300.0, s[1].Z(geom.Point{Y: 1000}))
		require.True(t, s[1].Region.Outer.Contains(geom.Point{Y: 880}), "a nosing can be stood on")
		require.Equal(t, 450.0, Top(e, pl))
	})
	t.Run("standing panel", func(t *testing.T) {
		e := &Element{Shape: &Panel{Outline: Outline{Path: box(0, 0, 100, 100)}, Stands: true}}
		require.Empty(t, Surfaces(e, at(0, 0, 0, 0)))
	})
}
