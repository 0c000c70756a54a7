package view

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

func wallWith(faceLeft bool) (*set.Set, *set.Element) {
	e := &set.Element{Name: "front_wall", Copies: at(0, 0, 0, 0), FullSize: []string{"face"}, Shape: &set.Flat{
		Length: 4000, Height: 2400, Thickness: 44, FaceLeft: faceLeft, Openings: []set.Opening{
			{Word: "arch", At: 2600, Width: 1000, Height: 2100, Arch: 200},
			{Word: "door", Name: "in", At: 600, Width: 800, Height: 2000, Hinge: "left", Opens: "up"},
			{Word: "window", At: 1700, Sill: 900, Width: 600, Height: 800, Arch: 300},
		}}}
	return &set.Set{Sides: "stage", Elements: []*set.Element{e}}, e
}

// Areas from handbook formulas: a circular segment of half chord c and rise a has the radius (c² + a²) / 2a and the area
// R² acos((R−a)/R) − (R−a)·c; a half circle is such a segment.
func TestFaceIsCutToItsOpenings(t *testing.T) {
	segment := func(c, a float64) float64 {
		r := (c*c + a*a) / (2 * a)
		return r*r*math.Acos((r-a)/r) - (r-a)*c
	}
	door := 800.0 * 2000
	window := 600*500 + segment(300, 300)
	require.InEpsilon(t, 600*500+math.Pi*300*300/2, window, 1e-12)
	arch := 1000*1900 + segment(500, 200)
	for _, left := range []bool{false, true} {
		s, e := wallWith(left)
		d := Face(s, e)
		edges := closed(d, "front_wall", drawing.Continuous)
		require.Len(t, edges, 2, "the wall with its notches, the window")
		require.InEpsilon(t, 4000*2400-door-arch, area(t, edges[0]), 1e-5)
		require.InEpsilon(t, window, area(t, edges[1]), 1e-5)
	}
}

// Standing at P and looking to Q the face is on your right: from P (0, 0) to Q (4000, 0) it looks downstage, and who
// stands downstage of it and looks upstage has plan-right, and so Q, at the right hand.
func TestFaceSeenFromTheFrontHasPAtTheRightPlace(t *testing.T) {
	s, e := wallWith(false)
	d := Face(s, e)
	require.Contains(t, d.Hold, "P at the left")
	require.InDelta(t, 0, d.Bounds().Min.X, 1e-9)
	require.InDelta(t, 4000, d.Bounds().Max.X, 1e-9)
	require.InDelta(t, 2000, closed(d, "front_wall", drawing.Continuous)[1].Bounds().Mid().X, 1e-9)

	s, e = wallWith(true) // the face looks upstage: who looks at it looks downstage and has plan-left at the right hand
	d = Face(s, e)
	require.Contains(t, d.Hold, "P at the right")
	require.InDelta(t, -4000, d.Bounds().Min.X, 1e-9)
	require.InDelta(t, 0, d.Bounds().Max.X, 1e-9)
	require.InDelta(t, -2000, closed(d, "front_wall", drawing.Continuous)[1].Bounds().Mid().X, 1e-9)
	for _, w := range d.Texts {
		if w.Text == "P" {
			require.Greater(t, w.At.X, -100.0)
		}
		if w.Text == "Q" {
			require.Less(t, w.At.X, -3900.0)
		}
	}
}

// A head higher than half the opening's width is half an ellipse (area π·a·b/2), which stays within the width.
func TestSteepArchStaysWithinItsWidth(t *testing.T) {
	p := set.Opening{At: 100, Sill: 50, Width: 800, Height: 2000, Arch: 600}.Path()
	require.InEpsilon(t, 800*1400+math.Pi*400*600/2, area(t, p), 1e-5)
	b := p.Bounds()
	require.InDelta(t, 100, b.Min.X, 1e-9)
	require.InDelta(t, 900, b.Max.X, 1e-9)
	require.InDelta(t, 2050, b.Max.Y, 1e-9)
}

func TestOpeningsAtTheEndsOfAFlat(t *testing.T) {
	f := &set.Flat{Length: 2000, Height: 2400, Openings: []set.Opening{{At: 0, Width: 500, Height: 2000}, {At: 1200, Width: 800, Height: 2100}}}
	outer, holes := f.CutFace()
	require.Empty(t, holes)
	require.InDelta(t, 2000*2400-500*2000-800*2100, area(t, outer), 1e-6)
}

func TestFaceOfAPanel(t *testing.T) {
	hole := outline(geom.Rectangle(200, 100), "rect")
	e := &set.Element{Name: "roofs", Copies: at(0, 0, 0, 0), Shape: &set.Panel{Outline: outline(box(0, 0, 3000, 900), "rect"),
		Holes: []set.Outline{hole}, Thickness: 12, Stands: true, Run: 3000}}
	d := Face(&set.Set{}, e)
	require.Contains(t, d.Hold, "P at the left")
	edges := closed(d, "roofs", drawing.Continuous)
	require.Len(t, edges, 2)
	require.InDelta(t, 2700000, area(t, edges[0]), 1e-6)
	require.InDelta(t, 20000, area(t, edges[1]), 1e-6)
	require.Nil(t, Face(&set.Set{}, &set.Element{Shape: &set.Mark{}}))
}

// climbs returns the lengths of the upright cuts of a profile from the foot up, its back left aside.
func climbs(p *geom.Path) []float64 {
	var out []float64
	for _, s := range p.Segments() {
		if near(s.From.X, s.To.X) && s.From.Y > s.To.Y {
			out = append([]float64{s.From.Y - s.To.Y}, out...)
		}
	}
	return out
}

// Arithmetic of the trade: the first notch is the rise less the tread (150 − 18 = 132), the last the rise plus the tread
// less the deck's board (150 + 18 − 18 = 150; with a board of 12, 156).
func TestStringerNotches(t *testing.T) {
	s := kiosk()
	e := s.Elements[2]
	st := e.Shape.(*set.Steps)
	require.InDeltaSlice(t, []float64{132, 150, 150}, climbs(st.Stringer()), 1e-9)
	st.DeckBoard = 12
	require.InDeltaSlice(t, []float64{132, 150, 156}, climbs(st.Stringer()), 1e-9)
	require.InDelta(t, 450-12, st.Stringer().Bounds().Max.Y, 1e-9)
	require.InDelta(t, 600+set.StringerSeat, st.Stringer().Bounds().Max.X, 1e-9)
	st.DeckBoard = 0
	require.InDeltaSlice(t, []float64{132, 150}, climbs(st.Stringer()), 1e-9, "where the board is not known it ends below the last tread")
	require.InDelta(t, 600, st.Stringer().Bounds().Max.X, 1e-9)
	require.InDelta(t, 300*132+300*282, area(t, st.Stringer()), 1e-6)
}

func TestRiserBoardsAreTakenOffTheStringer(t *testing.T) {
	s := kiosk()
	e := s.Elements[2]
	st := e.Shape.(*set.Steps)
	st.RiserBoard, st.Nosing, st.DeckBoard = 9, 25, 0
	p := st.Stringer()
	require.InDelta(t, 9, p.Bounds().Min.X, 1e-9, "the first riser board stands before the stringer")
	require.InDelta(t, 600, p.Bounds().Max.X, 1e-9)
	require.InDelta(t, 300*132+291*282, area(t, p), 1e-6)
	d := Sides(s, e)[0]
	require.InDelta(t, -25, d.Bounds().Min.X, 1e-9, "the nosing of the first tread")
	boards := 0.0
	for _, k := range d.Strokes {
		if k.Layer == drawing.Notes && k.Path.Closed() {
			boards += area(t, k.Path)
		}
	}
	require.InDelta(t, 18*(25+309)+18*(25+300)+9*132+9*132, boards, 1e-6)
}

func TestSidesOfBlocksAndRamps(t *testing.T) {
	s := crates()
	d := Sides(s, s.Elements[0])[0]
	sides := closed(d, "climb", drawing.Continuous)
	require.Len(t, sides, 8)
	tops := []float64{140, 305, 455, 645, 765, 940, 1100, 1305}
	goings := []float64{300, 320, 280, 340, 300, 360, 300, 310}
	for k, p := range sides {
		require.InDelta(t, (tops[k]-18)*goings[k], area(t, p), 1e-6, "block %d less its lid", k+1)
	}
	require.InDelta(t, 4.2, 1305.0/310, 0.01, "the eighth is 4.2 times as tall as it is deep")

	k := kiosk()
	d = Sides(k, k.Elements[3])[0]
	wedge := closed(d, "back", drawing.Continuous)
	require.Len(t, wedge, 1)
	require.InDelta(t, 3600*450/2, area(t, wedge[0]), 1e-6)
	require.Contains(t, words(d), "UP 1:8\n")
	require.Empty(t, Sides(k, k.Elements[1]))
	require.Empty(t, Sides(k, &set.Element{Shape: &set.Steps{Rises: []float64{150}, Widths: []float64{900}}})[0].Strokes, "one riser has no tread")
}
