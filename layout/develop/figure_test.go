package develop_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

// harbourPilot is a cut-out 1780 high, 700 wide, with an arm held out; its feet stand apart.
func harbourPilot(ground float64) *set.Figure {
	p := geom.Polygon([]geom.Point{{X: -80}, {X: 40}, {X: 60, Y: 700}, {X: 80, Y: 700}, {X: 160}, {X: 300},
		{X: 300, Y: 900}, {X: 350, Y: 1450}, {X: 180, Y: 1500}, {X: 200, Y: 1560}, {X: 200, Y: 1780}, {X: 20, Y: 1780}, {X: 20, Y: 1560},
		{X: 40, Y: 1500}, {X: -350, Y: 1500}, {X: -350, Y: 1420}, {X: -60, Y: 1380}}).Transform(geom.Move(geom.Point{Y: ground}, 0))
	f := &set.Figure{Width: 700, Height: 1780, Ground: ground, Thickness: 18, Bodies: []geom.Region{{Outer: p}}}
	f.Drawn = f.Bodies
	return f
}

func modelOf(f *set.Figure, scale, card float64) (*develop.Model, bool) {
	e := &set.Element{Name: "pilot", Kind: "figure", Shape: f, Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}}}}}
	m, list := develop.Develop(&set.Set{Elements: []*set.Element{e}}, develop.Options{Scale: scale, Card: card})
	return m, !list.HasErrors()
}

// A cut-out closes: one card of its silhouette at the model's scale, and behind it a foot whose upright edge meets its back. What
// they enclose is the silhouette's area and the foot's, by the card's thickness.
func TestFiguresClose(t *testing.T) {
	for _, ground := range []float64{0, 40} {
		for i, scale := range scales {
			for k, card := range thicknesses {
				if !*all && k != (i+int(ground))%len(thicknesses) {
					continue
				}
				f := harbourPilot(ground)
				m, ok := modelOf(f, scale, card)
				require.True(t, ok)
				if len(m.Pieces) != 2 { // too small a figure for so thick a card: no foot, said so
					require.Len(t, m.Pieces, 1)
					require.NotEmpty(t, m.Notes)
					continue
				}
				t.Run(fmt.Sprintf("%g of air, 1:%g of %g", ground, scale, card), func(t *testing.T) {
					foot := m.Pieces[1].Outline.Bounds()
					require.InDelta(t, foot.H()/2, foot.W(), 1e-9)
					area := f.Bodies[0].Area()/scale/scale + foot.W()*foot.H()/2
					c := closing{volume: area * card, size: geom.Vec{X: 700 / scale, Y: card + foot.W(), Z: 1780/scale + ground/scale}, stands: true}
					requireClosed(t, m, c)
				})
			}
		}
	}
	m, _ := modelOf(harbourPilot(0), 25, 1.5)
	require.Len(t, m.Pieces, 2)
	require.Equal(t, []string{"figure", "foot"}, []string{m.Pieces[0].Name, m.Pieces[1].Name})
	require.InDelta(t, 1780.0/25, m.Pieces[0].Outline.Bounds().H(), 1e-9)
}

// A hung figure has no foot; curves stay curves; what is thinner than 0.5 at this scale is listed.
func TestFigureDetails(t *testing.T) {
	f := harbourPilot(0)
	f.Hung = true
	m, _ := modelOf(f, 25, 1.5)
	require.Len(t, m.Pieces, 1)
	require.Contains(t, fmt.Sprint(m.Notes), "fix it from above")

	p := geom.NewPath(geom.Point{X: -300})
	p.LineTo(geom.Point{X: 300})
	p.CubicTo(geom.Point{X: 500, Y: 900}, geom.Point{X: 300, Y: 1500}, geom.Point{X: 5, Y: 1500})
	p.LineTo(geom.Point{X: 5, Y: 1780}) // a feather 10 wide
	p.LineTo(geom.Point{X: -5, Y: 1780})
	p.LineTo(geom.Point{X: -5, Y: 1500})
	p.CubicTo(geom.Point{X: -300, Y: 1500}, geom.Point{X: -500, Y: 900}, geom.Point{X: -300})
	p.Close()
	f = &set.Figure{Width: 800, Height: 1780, Bodies: []geom.Region{{Outer: p}}}
	f.Drawn = f.Bodies
	m, _ = modelOf(f, 25, 1.5)
	curves := 0
	for _, s := range m.Pieces[0].Outline.Outer.Segments() {
		if s.Kind == geom.Cubic {
			curves++
		}
	}
	require.Equal(t, 2, curves)
	require.Len(t, m.Small, 1)
	require.InDelta(t, 0.4, m.Small[0].Size, 0.02, "10 at 1:25")
	require.Contains(t, m.Small[0].What, "a part of the figure, 11.")
	require.False(t, math.IsNaN(m.Small[0].Size))
}
