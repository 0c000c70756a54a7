package view

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// bayWall runs 1000 up, a half circle of radius 1000 to the right and 1000 down again, its face inside.
func bayWall(openings ...set.Opening) (*set.Set, *set.Element) {
	line := geom.NewPath(geom.Point{X: -1000})
	line.LineTo(geom.Point{X: -1000, Y: 1000})
	line.ArcTo(geom.Point{Y: 1000}, -math.Pi, geom.Point{X: 1000, Y: 1000})
	line.LineTo(geom.Point{X: 1000})
	e := &set.Element{Name: "bay", Copies: at(0, 0, 0, 0), FullSize: []string{"floor", "face"}, Shape: &set.Flat{
		Line: line, Length: line.Length(), Height: 2400, Thickness: 60, Openings: openings}}
	return &set.Set{Sides: "stage", Elements: []*set.Element{e}}, e
}

func uprights(d *drawing.Drawing) map[float64][][2]float64 {
	out := map[float64][][2]float64{}
	for _, s := range d.Strokes {
		if s.Layer == drawing.Notes && s.Path.Len() == 1 {
			g := s.Path.Segment(0)
			out[math.Round(g.From.X)] = append(out[math.Round(g.From.X)], [2]float64{g.From.Y, g.To.Y})
		}
	}
	return out
}

// The face laid flat is as long as its line (2·1000 + π·1000) and has a thin line where its pieces meet, broken by what is
// cut there: by a window of 900 to 1700 over the first joint, and by an arch whose head 200 beside the middle of its 800 is
// at the springing and √(400² − 200²).
func TestDevelopedFace(t *testing.T) {
	length := 2000 + 1000*math.Pi
	second := 1000 + 1000*math.Pi
	s, e := bayWall(set.Opening{Word: "window", At: 700, Sill: 900, Width: 600, Height: 800},
		set.Opening{Word: "arch", At: second - 200, Width: 800, Height: 2000, Arch: 400})
	d := Face(s, e)
	require.Contains(t, d.Hold, "laid flat, seen from the front, P at the left")
	require.InDelta(t, length, d.Bounds().Max.X, 1e-9)
	edges := closed(d, "bay", drawing.Continuous)
	require.Len(t, edges, 2)
	require.InEpsilon(t, length*2400-800*1600-math.Pi*400*400/2, area(t, edges[0]), 1e-5)
	lines := uprights(d)
	require.Len(t, lines, 2)
	require.Equal(t, [][2]float64{{0, 900}, {1700, 2400}}, lines[1000])
	require.Len(t, lines[math.Round(second)], 1)
	require.InDelta(t, 1600+math.Sqrt(400*400-200*200), lines[math.Round(second)][0][0], 1e-6)
	var words []string
	for _, w := range d.Texts {
		words = append(words, w.Text)
	}
	require.Contains(t, words, "hollow, face radius 1000")
	require.NotContains(t, strings.Join(words, "|"), "corner,", "it runs on smoothly")

	e.Shape.(*set.Flat).FaceLeft = true
	d = Face(s, e)
	require.Contains(t, d.Hold, "P at the right")
	require.InDelta(t, -length, d.Bounds().Min.X, 1e-9)
	require.Contains(t, d.Texts[1].Text+d.Texts[2].Text, "bulging, face radius 1000")
}

func TestCornersOfADevelopedFace(t *testing.T) {
	s, e := bayWall()
	line := geom.NewPath(geom.Point{})
	line.LineTo(geom.Point{X: 1000})
	line.LineTo(geom.Point{X: 1000, Y: 1000})
	f := e.Shape.(*set.Flat)
	f.Line, f.Length = line, 2000
	said := func() string {
		for _, w := range Face(s, e).Texts {
			if strings.HasPrefix(w.Text, "corner,") {
				return w.Text
			}
		}
		return ""
	}
	require.Equal(t, "corner, turns 90° away from you", said(), "the face is on the outside of the turn")
	f.FaceLeft = true
	require.Equal(t, "corner, turns 90° towards you", said())
}

// On the floor the strip is broken by the door: what is drawn has the footprint's area less the door's annulus sector.
func TestCurvedFlatOnTheFloor(t *testing.T) {
	s, e := bayWall(set.Opening{Word: "door", At: 1500, Width: 800, Height: 2000}, set.Opening{Word: "window", At: 2600, Sill: 900, Width: 500, Height: 900})
	d := Floor(s)
	strips := closed(d, "bay", drawing.Continuous)
	require.Len(t, strips, 2)
	ring := func(angle float64) float64 { return (1060*1060 - 1000*1000) * angle / 2 }
	require.InEpsilon(t, 2*1000*60+ring(math.Pi)-ring(0.8), strips[0].Area()+strips[1].Area(), 1e-9)
	require.InEpsilon(t, set.Footprints(e.Shape)[0].Area()-ring(0.8), strips[0].Area()+strips[1].Area(), 1e-9)
	heads, jambs := 0, 0
	for _, st := range d.Strokes {
		if st.Type != drawing.Dashed {
			continue
		}
		switch l := st.Path.Length(); {
		case math.Abs(l-800) < 1e-6 || math.Abs(l-848) < 1e-6: // 0.8 radians on 1000 and on 1060
			heads++
		case math.Abs(l-60) < 1e-6:
			jambs++
		}
	}
	require.Equal(t, 2, heads)
	require.Equal(t, 2, jambs)
	words := ""
	for _, w := range d.Texts {
		words += w.Text + "|"
		if w.Text == "FACE" {
			require.Less(t, w.At.Y, 2000.0, "inside the turn")
		}
	}
	require.Contains(t, words, "P|Q")
}

func TestConeOnTheFloor(t *testing.T) {
	planter := &set.Element{Name: "planter", Copies: at(1000, 0, 0, 0), FullSize: []string{"floor"}, Shape: &set.Cone{Lower: 300, Upper: 450, Height: 420, Sides: 4}}
	spire := &set.Element{Name: "spire", Copies: at(0, 0, 0, 0), FullSize: []string{"floor"}, Shape: &set.Cone{Lower: 900, Height: 1800}}
	s := &set.Set{Sides: "stage", Elements: []*set.Element{planter, spire}}
	d := Floor(s)
	wide := map[string]float64{}
	hips := 0
	for _, st := range d.Strokes {
		if st.Layer == drawing.Cut && st.Path.Closed() {
			wide[d.Owners[st.Owner]] = st.Path.Area()
		}
		if st.Type == drawing.Dashed && math.Abs(st.Path.Length()-75*math.Sqrt2) < 1e-6 {
			hips++
		}
	}
	require.InDelta(t, 300*300, wide["planter"], 1e-6, "the lower outline is taped")
	require.InDelta(t, math.Pi*450*450, wide["spire"], 1e-3)
	require.Equal(t, 4, hips)
	require.NotEmpty(t, Plan(s).Strokes)
}
