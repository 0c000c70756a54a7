package artwork

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/geom"
)

// readText reads a picture and returns it with what was said of it, a line each.
func readText(svg string) (*Picture, []string) { return besideText(svg, nil) }

func besideText(svg string, open Beside) (*Picture, []string) {
	list := &diag.List{Sources: &diag.Sources{}}
	p, _ := ReadSVGBeside(list, list.Sources.Add("a.svg", []byte(svg)), open)
	var said []string
	for _, d := range list.Sorted() {
		line := fmt.Sprintf("%s: %s: %s", list.Sources.Position(d.Span), d.Severity, d.Message)
		if d.Code != "" {
			line += " [" + d.Code + "]"
		}
		said = append(said, line)
	}
	return p, said
}

// inside reads the inside of a picture of 100 × 100 mm whose unit is a millimetre; nothing may be said of it.
func inside(t *testing.T, body string) []Node {
	t.Helper()
	p, said := readText(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">` + body + `</svg>`)
	require.Empty(t, said)
	require.NotNil(t, p)
	return p.Nodes
}

func shapeOf(t *testing.T, body string) *Shape {
	t.Helper()
	nodes := inside(t, body)
	require.Len(t, nodes, 1)
	s, ok := nodes[0].(*Shape)
	require.True(t, ok, "%T", nodes[0])
	return s
}

// Sizes by CSS Values and Units 3, section 5.2: 1 in = 2.54 cm = 96 px = 72 pt = 6 pc, 1 Q = 1/40 cm.
func TestSize(t *testing.T) {
	for _, c := range []struct {
		attributes string
		w, h       float64
	}{
		{`width="210mm" height="297mm"`, 210, 297},
		{`width="96" height="48px"`, 25.4, 12.7},
		{`width="72pt" height="6pc"`, 25.4, 25.4},
		{`width="2in" height="3cm"`, 50.8, 30},
		{`width="40Q" height="80q"`, 10, 20},
		{`viewBox="0 0 96 192"`, 25.4, 50.8},
		{`width="100%" height="100%" viewBox="0 0 96 192"`, 25.4, 50.8},
		{`width="50mm" viewBox="0 0 100 40"`, 50, 20},
		{`height="50mm" viewBox="0 0 100 40"`, 125, 50},
		{`style="width:50mm;height:20mm"`, 50, 20},
	} {
		p, said := readText(`<svg xmlns="http://www.w3.org/2000/svg" ` + c.attributes + `/>`)
		require.Empty(t, said, c.attributes)
		require.InDelta(t, c.w, p.W, 1e-9, c.attributes)
		require.InDelta(t, c.h, p.H, 1e-9, c.attributes)
	}
}

func TestPlaceIsFromTheLowerLeft(t *testing.T) {
	s := shapeOf(t, `<rect x="10" y="20" width="30" height="5"/>`)
	require.Equal(t, 4, s.Paths[0].Len())
	b := s.Paths[0].Bounds()
	require.InDelta(t, 10, b.Min.X, 1e-9)
	require.InDelta(t, 75, b.Min.Y, 1e-9)
	require.InDelta(t, 40, b.Max.X, 1e-9)
	require.InDelta(t, 80, b.Max.Y, 1e-9)
	require.InDelta(t, 0, s.Paths[0].Start().Dist(geom.Point{X: 10, Y: 80}), 1e-9, "it begins at the upper left corner")
}

func TestCirclesStayArcs(t *testing.T) {
	s := shapeOf(t, `<circle cx="50" cy="40" r="20" transform="rotate(30) translate(5 5) scale(2)"/>`)
	for _, seg := range s.Paths[0].Segments() {
		require.Equal(t, geom.Arc, seg.Kind)
		require.InDelta(t, 40, seg.RX, 1e-9)
	}
	require.InDelta(t, 2*math.Pi*40, s.Paths[0].Length(), 1e-9)
	s = shapeOf(t, `<circle cx="50" cy="40" r="20" transform="scale(2 1) skewX(20)"/>`)
	require.InDelta(t, 2*math.Pi*400, math.Abs(s.Paths[0].Area()), 1e-6, "areas grow by the determinant")
}

// Lengths and areas of the pies are calculated from their radii: SVG 2, section 9.3.8, has their data.
func TestArcsOfThePies(t *testing.T) {
	s := shapeOf(t, `<g transform="scale(.1)"><path d="M300,200 h-150 a150,150 0 1,0 150,-150 z"/></g>`)
	require.InDelta(t, (225*math.Pi+300)/10, s.Paths[0].Length(), 1e-9)
	require.InDelta(t, 530.14376029, math.Abs(s.Paths[0].Area()), 1e-8)
	s = shapeOf(t, `<g transform="scale(.1)"><path d="M275,175 v-150 a150,150 0 0,0 -150,150 z"/></g>`)
	require.InDelta(t, (75*math.Pi+300)/10, s.Paths[0].Length(), 1e-9)
	require.InDelta(t, 176.71458676, math.Abs(s.Paths[0].Area()), 1e-8)
}

func TestMatrixTakesArcsExactly(t *testing.T) {
	for _, m := range []Matrix{{2, 0, 0, -3, 1, 2}, {1, 2, -2, 1, 0, 0}, {0.3, 1.7, 2.1, -0.4, 5, 6}, {1, 0, 3, 1, 0, 0}, {-1, 0, 0, 1, 0, 0}} {
		for _, d := range []string{"M0 0A30 20 25 1 0 40 10", "M0 0A30 30 0 0 1 20 -10", "M5 5A70 2 -80 0 0 30 30"} {
			paths, err := geom.ParsePathData(d)
			require.NoError(t, err)
			from, to := paths[0].Segment(0), m.Path(paths[0]).Segment(0)
			for i := range 11 {
				k := float64(i) / 10
				require.InDelta(t, 0, m.Apply(from.Point(k)).Dist(to.Point(k)), 1e-9, "%v of %s at %v", m, d, k)
			}
		}
	}
}

func TestInverseAndThen(t *testing.T) {
	m := Matrix{0.3, 1.7, 2.1, -0.4, 5, 6}
	inv, ok := m.Inverse()
	require.True(t, ok)
	p := geom.Point{X: 3, Y: -8}
	require.InDelta(t, 0, m.Then(inv).Apply(p).Dist(p), 1e-12)
	_, ok = Matrix{1, 2, 2, 4, 0, 0}.Inverse()
	require.False(t, ok)
}

func TestStroke(t *testing.T) {
	s := shapeOf(t, `<g transform="scale(2)"><path d="M5 5H20" fill="none" stroke="#102030" stroke-width="3" stroke-linecap="round" stroke-linejoin="bevel" stroke-miterlimit="7" stroke-dasharray="1 2 3" stroke-dashoffset="-1" stroke-opacity=".5"/></g>`)
	require.Nil(t, s.Fill)
	require.Equal(t, Colour{0x10, 0x20, 0x30}, s.Stroke.Colour)
	require.InDelta(t, 6, s.Stroke.Width, 1e-9)
	require.Equal(t, RoundCap, s.Stroke.Cap)
	require.Equal(t, Bevel, s.Stroke.Join)
	require.InDelta(t, 7, s.Stroke.MiterLimit, 0)
	require.InDeltaSlice(t, []float64{2, 4, 6, 2, 4, 6}, s.Stroke.Dashes, 1e-9, "an odd list counts twice")
	require.InDelta(t, 22, s.Stroke.Phase, 1e-9)
	require.InDelta(t, 0.5, s.Stroke.Opacity, 0)
	require.Equal(t, Identity(), s.Stroke.Pen)
}

func TestPenOfAnUnevenScale(t *testing.T) {
	s := shapeOf(t, `<path transform="scale(4 1)" d="M5 5H20" stroke="red" stroke-width="3"/>`)
	require.InDelta(t, 6, s.Stroke.Width, 1e-9, "the mean of both directions, by area")
	require.InDelta(t, 2, math.Abs(s.Stroke.Pen.A), 1e-9)
	require.InDelta(t, 0.5, math.Abs(s.Stroke.Pen.D), 1e-9)
	require.InDelta(t, 1, math.Abs(s.Stroke.Pen.Det()), 1e-9)
}

func TestPathLengthScalesDashes(t *testing.T) {
	s := shapeOf(t, `<path d="M0 0H50" pathLength="100" stroke="red" stroke-dasharray="10"/>`)
	require.InDeltaSlice(t, []float64{5, 5}, s.Stroke.Dashes, 1e-9)
}

func TestGroupsStandOnlyWhereTheyMatter(t *testing.T) {
	nodes := inside(t, `<g><g><rect width="5" height="5"/></g><g opacity=".5"><rect width="5" height="5"/></g><g opacity=".5"><rect width="5" height="5"/><rect width="5" height="5"/></g></g>`)
	require.Len(t, nodes, 3)
	require.InDelta(t, 1, nodes[0].(*Shape).Fill.Opacity, 0)
	require.InDelta(t, 0.5, nodes[1].(*Shape).Fill.Opacity, 0, "what is drawn once needs no group")
	require.InDelta(t, 0.5, nodes[2].(*Group).Opacity, 0)
	require.Len(t, nodes[2].(*Group).Nodes, 2)
}

func TestClipIsShared(t *testing.T) {
	nodes := inside(t, `<clipPath id="c"><circle r="5"/><rect width="9" height="3" clip-rule="evenodd"/></clipPath><g clip-path="url(#c)"><rect width="5" height="5"/></g><rect clip-path="url('#c')" width="5" height="5"/>`)
	require.Len(t, nodes, 2)
	a, b := nodes[0].(*Group).Clip, nodes[1].(*Group).Clip
	require.Same(t, a, b)
	require.Len(t, a.Outlines, 2)
	require.False(t, a.Outlines[0].EvenOdd)
	require.True(t, a.Outlines[1].EvenOdd)
	require.Nil(t, a.Clip)
}

func TestGradient(t *testing.T) {
	s := shapeOf(t, `<linearGradient id="a"><stop offset="25%" stop-color="red" stop-opacity=".5"/><stop offset="1"/></linearGradient>
		<linearGradient id="b" href="#a" x2="0" y2="1" spreadMethod="reflect"/><rect x="10" y="20" width="30" height="40" fill="url(#b)" fill-opacity=".5"/>`)
	g := s.Fill.Gradient
	require.False(t, g.Radial)
	require.Equal(t, Reflect, g.Spread)
	require.InDelta(t, 0, g.Frame.Apply(g.From).Dist(geom.Point{X: 10, Y: 80}), 1e-9)
	require.InDelta(t, 0, g.Frame.Apply(g.To).Dist(geom.Point{X: 10, Y: 40}), 1e-9)
	require.Equal(t, []Stop{{0.25, Colour{255, 0, 0}, 0.5}, {1, Colour{}, 1}}, g.Stops)
	require.InDelta(t, 0.5, s.Fill.Opacity, 0)
	require.False(t, g.Opaque())
}

func TestDotsAreAreas(t *testing.T) {
	s := shapeOf(t, `<path d="M20 30z" stroke="red" stroke-width="8" stroke-linecap="round"/>`)
	require.Nil(t, s.Stroke)
	require.Equal(t, Colour{255, 0, 0}, s.Fill.Colour)
	require.InDelta(t, 16*math.Pi, s.Paths[0].Area(), 1e-9)
	require.Empty(t, inside(t, `<path d="M20 30z" stroke="red" stroke-width="8"/>`), "a butt end shows nothing")
}

// The colours are worked by CSS Color 3, sections 4.2.1 and 4.2.4.
func TestColours(t *testing.T) {
	for text, want := range map[string]tint{
		"#fff":                  {Colour{255, 255, 255}, 1},
		"#1234":                 {Colour{0x11, 0x22, 0x33}, 0x44 / 255.0},
		"#01020380":             {Colour{1, 2, 3}, 128 / 255.0},
		"RGB( 1 , 2,3 )":        {Colour{1, 2, 3}, 1},
		"rgb(1 2 3 / 50%)":      {Colour{1, 2, 3}, 0.5},
		"rgb(100%,0%,50%)":      {Colour{255, 0, 128}, 1},
		"hsl(0, 100%, 50%)":     {Colour{255, 0, 0}, 1},
		"hsl(120, 100%, 25%)":   {Colour{0, 128, 0}, 1},
		"hsla(240,100%,50%,.5)": {Colour{0, 0, 255}, 0.5},
		"RebeccaPurple":         {Colour{0x66, 0x33, 0x99}, 1},
		"peru icc-color(#a, 1)": {Colour{205, 133, 63}, 1},
	} {
		got, _, ok := parseColour(text)
		require.True(t, ok, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "#", "#12", "#12345", "#ggg", "rgb(1,2)", "rgb(1,2,3,4,5)", "rgb(1,2%,3)", "hsl(1,2,3)", "nocolour", "rgb(NaN,0,0)", "rgb(1,2,3"} {
		_, _, ok := parseColour(text)
		require.False(t, ok, text)
	}
}

func TestNumbers(t *testing.T) {
	for text, want := range map[string][]float64{
		"1,2 3": {1, 2, 3}, "1-2+3.5.5": {1, -2, 3.5, 0.5}, "1e2 1E-1": {100, 0.1}, " -.5 ": {-0.5}, "": nil, "2.": {2},
	} {
		got, ok := numbers(text)
		require.Equal(t, text != "2.", ok, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"NaN", "inf", "0x10", "1e30", "1_000", "-", ".", "1e400"} {
		got, ok := numbers(text)
		require.False(t, ok && len(got) == 1, "%s is read as %v", text, got)
	}
}

func TestSamePictureTwice(t *testing.T) {
	for _, s := range ownSamples(t) {
		a, saidA := readText(string(s.svg))
		b, saidB := readText(string(s.svg))
		require.Equal(t, a, b, s.name)
		require.Equal(t, strings.Join(saidA, "\n"), strings.Join(saidB, "\n"))
	}
}
