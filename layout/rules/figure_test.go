package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/set"
)

// rectAt is an upright rectangle about a middle.
func rectAt(x, y, w, h float64) *geom.Path {
	return geom.Rectangle(w, h).Transform(geom.Move(geom.Point{X: x, Y: y}, 0))
}

// heron is a wading bird 1000 high: a body on one leg 20 wide and 600 long.
func heron() *set.Figure {
	f := &set.Figure{Width: 300, Height: 1000, Thickness: 18, Bodies: []geom.Region{{Outer: geom.Polygon([]geom.Point{
		{X: -10}, {X: 10}, {X: 10, Y: 600}, {X: 150, Y: 600}, {X: 150, Y: 1000}, {X: -150, Y: 1000}, {X: -150, Y: 600}, {X: -10, Y: 600}})}}}
	f.Drawn = f.Bodies
	return f
}

func figureCautions(f *set.Figure, change func(e *set.Element, s *set.Set)) map[string]caution.Caution {
	e := element("heron", f, place(0, 3600, 450, 0))
	s := of(e)
	if change != nil {
		change(e, s)
	}
	out := map[string]caution.Caution{}
	for _, c := range Check(s) {
		if c.Element == "heron" {
			out[c.Code] = c
		}
	}
	return out
}

// A board 18 thick and 1000 high is 55.6 times as high as it is deep; on a foot of 450 it is 2.2 times. Its leg, 20 wide and
// 600 long, is likely to snap.
func TestFigureTips(t *testing.T) {
	got := figureCautions(heron(), nil)
	require.Equal(t, "55.6 times", got["FIG-TIP"].Figure)
	require.Contains(t, got["FIG-TIP"].Limit, "at most 3 times")
	require.Equal(t, "1 part under 30 mm", got["FIG-THIN"].Figure)
	require.Contains(t, got["FIG-THIN"].Message, "mm wide and lies")
	require.Contains(t, got["FIG-THIN"].Message, "mm up, at its middle")
	require.NotContains(t, got, "FIG-AIR")
	require.NotContains(t, got, "TALL", "said once")

	f := heron()
	f.Brace = true
	got = figureCautions(f, nil)
	require.Equal(t, "2.2 times", got["FIG-TIP"].Figure)
	require.Contains(t, got["FIG-TIP"].Message, "450 mm behind it and nothing before it")

	f = heron()
	f.Thickness = 0
	require.Contains(t, figureCautions(f, nil)["FIG-TIP"].Figure, "no base given")
}

func TestFigureInTheAir(t *testing.T) {
	f := heron()
	f.Ground = 40
	require.Equal(t, "40 mm", figureCautions(f, nil)["FIG-AIR"].Figure)
	f.Brace = true
	require.NotContains(t, figureCautions(f, nil), "FIG-AIR")
	f.Brace = false
	got := figureCautions(f, func(e *set.Element, s *set.Set) {
		s.Elements = append(s.Elements, element("wall", &set.Flat{Length: 3000, Height: 2400, Thickness: 45}, place(0, 3600, 0, 0)))
		e.Copies[0].Places[0].On = "wall"
	})
	require.NotContains(t, got, "FIG-AIR")
	require.NotContains(t, got, "FIG-TIP")
}

// Hung, it is a rigger's, with its lowest point and what its board weighs: 0.132 m² of 17.6 mm at 620 kg/m³ are 1.4 kg.
func TestFigureHung(t *testing.T) {
	f := heron()
	f.Hung, f.Ground = true, 2000
	got := figureCautions(f, nil)
	require.Equal(t, "2450 mm above the floor, not weighed", got["FIG-HUNG"].Figure)
	require.Contains(t, got["FIG-HUNG"].Limit, "rigger decides")
	require.NotContains(t, got, "FIG-TIP")
	require.NotContains(t, got, "FIG-AIR")
	got = figureCautions(f, func(e *set.Element, s *set.Set) {
		e.Material = "ply 18"
		s.Boards = []set.Board{{Name: "ply 18", Length: 2440, Width: 1220, Thick: 17.6, Density: 620}}
	})
	require.Equal(t, "2450 mm above the floor, about 1.4 kg", got["FIG-HUNG"].Figure)
}

// A cut-out that stands in a volume kept clear reaches into it, and one hung low over steps is met by a head.
func TestFigureIsInTheWay(t *testing.T) {
	got := Check(of(
		element("heron", heron(), place(0, 0, 0, 0)),
		element("clear", &set.Reserve{Outline: circle(3000)}, place(0, 0, 0, 0)),
	))
	require.Contains(t, codesFor(got, "clear"), "RESERVE")
	low := heron()
	low.Hung = true
	climb := flight([]float64{150, 150, 150}, []float64{300, 300}, 1200)
	got = Check(of(element("climb", climb, place(0, -450, 0, 0)), element("heron", low, place(0, -250, 1900, 0))))
	require.Contains(t, codesFor(got, "climb"), "HEADROOM")
}

func codesFor(list []caution.Caution, element string) []string {
	var out []string
	for _, c := range list {
		if c.Element == element {
			out = append(out, c.Code)
		}
	}
	return out
}

// Of a figure whose head alone is made, the head is looked at: no leg snaps and nothing tips.
func TestFigureHeadAlone(t *testing.T) {
	f := heron()
	f.Head, f.Eye, f.Others = 300, 900, 1
	got := figureCautions(f, nil)
	require.Len(t, got, 1)
	require.Equal(t, "1 body left out", got["FIG-BODIES"].Figure)
}
