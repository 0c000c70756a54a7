package view

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

func clothOf(pounce float64) (*set.Set, *set.Element) {
	p := &artwork.Picture{W: 200, H: 100, Nodes: []artwork.Node{&artwork.Shape{
		Paths: []*geom.Path{geom.Polygon([]geom.Point{{X: 50, Y: 20}, {X: 150, Y: 20}, {X: 100, Y: 80}})},
		Fill:  &artwork.Fill{Paint: artwork.Paint{Opacity: 1}},
	}}}
	c := &set.Cloth{
		Art: &set.Artwork{Picture: p, Drawn: true}, Width: 2000, Height: 1000, Frame: artwork.Matrix{A: 10, D: 10, E: -1000},
		Allow: set.Allowance{Top: 100, Bottom: 150}, Grid: 500, Pounce: pounce,
	}
	c.Shown = c.Finished()
	e := &set.Element{Name: "harbour", Kind: "cloth", Shape: c, FullSize: []string{"face"}}
	return &set.Set{Elements: []*set.Element{e}}, e
}

func TestClothFullSize(t *testing.T) {
	s, e := clothOf(50)
	d := Cloth(s, e, nil)
	require.Len(t, d.Pictures, 1)
	b := d.Bounds()
	require.Equal(t, geom.Rect{Min: geom.Point{X: -1000, Y: -150}, Max: geom.Point{X: 1000, Y: 1100}}, b)
	labels := map[string]int{}
	for _, x := range d.Texts {
		labels[x.Text]++
	}
	require.Equal(t, 2, labels["A"])
	require.Equal(t, 2, labels["E"])
	require.Equal(t, 2, labels["HEM"])
	require.Equal(t, 2, labels["2"])
	require.Zero(t, labels["3"], "1000 is the upper edge, two steps up")

	p, err := Pounce(s, e)
	require.NoError(t, err)
	require.Empty(t, p.Pictures)
	// The triangle's sides are 1000, 781.02 and 781.02 long: 20, 16 and 16 steps of at most 50.
	dots := 0
	for _, f := range p.Fills {
		require.Equal(t, drawing.Notes, f.Layer)
		dots++
	}
	require.Equal(t, 52, dots)

	_, e = clothOf(0)
	p, err = Pounce(s, e)
	require.NoError(t, err)
	require.Nil(t, p)
}
