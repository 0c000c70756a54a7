package view

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// wallOf is a flat with its openings, in a set of its own.
func wallOf(f *set.Flat) (*set.Set, *set.Element) {
	e := &set.Element{Name: "wall", Kind: "flat", Copies: at(0, 0, 0, 0), Shape: f, Material: "ply 9"}
	return &set.Set{Name: "Net loft", Elements: []*set.Element{e}}, e
}

func randomWall(r *rand.Rand) *set.Flat {
	f := &set.Flat{Height: 2000 + 2000*r.Float64(), Thickness: 9, FaceLeft: r.IntN(2) == 0}
	x := 0.0
	for range r.IntN(5) {
		o := set.Opening{Word: "window", At: x + 20 + 500*r.Float64(), Width: 100 + 1200*r.Float64(), Height: 100 + 1200*r.Float64(), Hinge: "left"}
		if r.IntN(2) == 0 {
			o.Sill = 700 * r.Float64()
		}
		if r.IntN(3) == 0 {
			o.Arch = min(o.Width/2, o.Height) * r.Float64()
		}
		x = o.At + o.Width
		f.Openings = append(f.Openings, o)
	}
	f.Length = x + 50 + 900*r.Float64()
	return f
}

// texts returns the words of a drawing.
func texts(d *drawing.Drawing) string {
	var out []string
	for i := range d.Texts {
		out = append(out, d.Texts[i].Text)
	}
	return strings.Join(out, "\n")
}

// From the back every line and every dimensioned place lies where a mirror shows it, and hinges change sides.
func TestElevationFromTheBackIsMirrored(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 200 {
		f := randomWall(r)
		s, e := wallOf(f)
		front, back := Elevations(s, e, false)[0], Elevations(s, e, true)[0]
		require.Equal(t, len(front.Strokes), len(back.Strokes))
		for i := range front.Strokes {
			a, b := front.Strokes[i].Path.Bounds(), back.Strokes[i].Path.Bounds()
			require.InDelta(t, a.Min.X, -b.Max.X, 1e-6)
			require.InDelta(t, a.Max.X, -b.Min.X, 1e-6)
			require.InDelta(t, a.Max.Y, b.Max.Y, 1e-6)
		}
		a, b := front.Dimensions[0].Points, back.Dimensions[0].Points
		require.Equal(t, len(a), len(b))
		for i := range a {
			require.InDelta(t, a[i].X, -b[len(b)-1-i].X, 1e-6)
		}
		require.Contains(t, texts(front.Drawing), "FRONT")
		require.Contains(t, texts(back.Drawing), "BACK")
		if len(f.Openings) > 0 {
			require.Contains(t, texts(front.Drawing), "hinge left")
			require.Contains(t, texts(back.Drawing), "hinge right")
		}
		require.Contains(t, front.Says, "Of ply 9.")
	}
}

// Every jamb, sill and head is dimensioned, and the ends and the top.
func TestElevationDimensionsEveryOpening(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		f := randomWall(r)
		s, e := wallOf(f)
		v := Elevations(s, e, false)[0]
		has := func(k int, want float64) {
			for _, p := range v.Dimensions[k].Points {
				x := p.X
				if k == 1 {
					x = p.Y
				} else if f.FaceLeft {
					x = -x
				}
				if x-want < 1e-6 && want-x < 1e-6 {
					return
				}
			}
			require.Fail(t, "not dimensioned", "%v in %v", want, v.Dimensions[k].Points)
		}
		has(0, 0)
		has(0, f.Length)
		has(1, 0)
		has(1, f.Height)
		for _, o := range f.Openings {
			has(0, o.At)
			has(0, o.At+o.Width)
			has(1, o.Sill)
			has(1, o.Sill+o.Height)
		}
	}
}

// A segmental head of chord c and rise h has the radius (c² + 4h²) / 8h (Euclid III.35): 1200 wide, 200 up, radius 1000.
func TestElevationSaysArcs(t *testing.T) {
	s, e := wallOf(&set.Flat{Length: 3000, Height: 2743.2, Openings: []set.Opening{{Word: "arch", At: 600, Width: 1200, Height: 2200, Arch: 200}}})
	v := Elevations(s, e, false)[0]
	require.Contains(t, v.Says, "Arc 1: radius 1000, chord 1200, rise 200, centre 1200 from the left end, +1200 up.")
}

// What nearer treads hide is dashed: from the back of a straight flight all but the last tread, from the front nothing.
func TestStepsFromFrontAndBack(t *testing.T) {
	flight := &set.Steps{Rises: []float64{150, 150, 150}, Goings: []float64{300, 300}, Widths: []float64{1800}, Shifts: []float64{0}, Tread: 18}
	e := &set.Element{Name: "front", Kind: "steps", Copies: at(0, 0, 0, 0), Shape: flight}
	s := &set.Set{Elements: []*set.Element{e}}
	hidden := func(v Elevation) (n int) {
		for i := range v.Strokes {
			if v.Strokes[i].Type == drawing.Dashed {
				n++
			}
		}
		return n
	}
	front, back := Elevations(s, e, false), Elevations(s, e, true)
	require.Len(t, front, 2)
	require.Equal(t, 1, hidden(front[0])) // where it lands
	require.Equal(t, 2, hidden(back[0]))  // and the top of tread 1; its sides lie behind those of tread 2
	require.Contains(t, front[1].Says, "3 risers, 2 treads: total rise 450, total going 600.")
	rises := front[1].Dimensions[1]
	require.Len(t, rises.Points, 4)
	require.True(t, rises.Overall)
	require.Equal(t, []float64{0, 150, 300, 450}, []float64{rises.Points[0].Y, rises.Points[1].Y, rises.Points[2].Y, rises.Points[3].Y})
}

// Of loose blocks that are shifted sideways, the parts that stick out beyond nearer ones are seen.
func TestHiddenParts(t *testing.T) {
	boxes := []geom.Rect{{Max: geom.Point{X: 10, Y: 10}}, {Min: geom.Point{X: 5}, Max: geom.Point{X: 20, Y: 30}}}
	for _, c := range []struct {
		a, b geom.Point
		want [][2]float64
	}{
		{geom.Point{X: 7}, geom.Point{X: 7, Y: 40}, [][2]float64{{0, 0.25}, {0, 0.75}}},
		{geom.Point{X: -10, Y: 20}, geom.Point{X: 30, Y: 20}, [][2]float64{{0.375, 0.75}}},
		{geom.Point{X: -10, Y: 30}, geom.Point{X: 30, Y: 30}, nil},
		{geom.Point{X: 25}, geom.Point{X: 25, Y: 40}, nil},
	} {
		require.Equal(t, c.want, hiddenParts(c.a, c.b, boxes))
	}
}

// Nothing that has no elevation gives one, and no piece makes a panic.
func TestElevationsOfEveryKind(t *testing.T) {
	for _, s := range []*set.Set{kiosk(), crates()} {
		for _, e := range s.Elements {
			for _, behind := range []bool{false, true} {
				for _, v := range Elevations(s, e, behind) {
					require.NotEmpty(t, v.Dimensions, e.Name)
					require.NotContains(t, strings.ToLower(texts(v.Drawing)+strings.Join(v.Says, " ")), "safe")
				}
			}
		}
	}
	require.Nil(t, Elevations(&set.Set{}, &set.Element{Shape: &set.Flat{}}, false))
}

// Of a curved flat the arc on the plan is said: chord 3000 and rise 500 make the radius 2500 (Euclid III.35), its centre 2000 off the chord.
func TestElevationOfACurvedFlat(t *testing.T) {
	line := geom.NewPath(geom.Point{X: -1500})
	centre, sweep, err := geom.ArcThrough(geom.Point{X: -1500}, geom.Point{Y: 500}, geom.Point{X: 1500})
	require.NoError(t, err)
	line.ArcTo(centre, sweep, geom.Point{X: 1500})
	s, e := wallOf(&set.Flat{Length: line.Length(), Height: 2400, Thickness: 12, Line: line})
	v := Elevations(s, e, false)[0]
	require.Contains(t, v.Says[0], "LAID FLAT")
	require.Contains(t, v.Says[1], "face radius 2500, chord 3000, rise 500, centre square off the middle of the chord, 2000 from it.")
	require.InDelta(t, 2*2500*math.Asin(0.6), v.Dimensions[0].Points[1].X, 1e-6)
}
