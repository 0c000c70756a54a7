package tiling

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
)

// square is a filled square of 10 whose lower left corner is at x, 0.
func square(x float64, red uint8) *artwork.Shape {
	at := func(u, v float64) geom.Point { return geom.Point{X: x + u, Y: v} }
	return &artwork.Shape{
		Paths: []*geom.Path{geom.Polygon([]geom.Point{at(0, 0), at(10, 0), at(10, 10), at(0, 10)})},
		Fill:  &artwork.Fill{Paint: artwork.Paint{Colour: artwork.Colour{R: red}, Opacity: 1}},
	}
}

func grouped(opacity float64, nodes ...artwork.Node) *artwork.Group {
	return &artwork.Group{Opacity: opacity, Nodes: nodes}
}

// left is the digest of what the left 45 of 100 millimetres show.
func left(nodes ...artwork.Node) [32]byte {
	p := &artwork.Picture{W: 100, H: 10, Nodes: nodes}
	var d Digester
	d.Reset("artwork", "1:1", "", geom.Rect{})
	d.Picture(drawing.Mark{}, NewArt(p, artwork.Identity(), ImageSums{}), geom.Rect{Max: geom.Point{X: 45, Y: 10}})
	return d.Sum()
}

func TestDigestOfArtwork(t *testing.T) {
	base := left(square(0, 1), square(20, 2), square(60, 3))
	same := map[string][32]byte{
		"nothing far away":            left(square(0, 1), square(20, 2)),
		"another colour far away":     left(square(0, 1), square(20, 2), square(60, 4)),
		"more between, far away":      left(square(0, 1), square(70, 9), square(20, 2)),
		"far things put into a group": left(square(0, 1), grouped(0.5, square(70, 9)), square(20, 2)),
	}
	for name, d := range same {
		require.Equal(t, base, d, name)
	}
	other := map[string][32]byte{
		"another colour":         left(square(0, 9), square(20, 2)),
		"another order":          left(square(20, 2), square(0, 1)),
		"moved by a micrometre":  left(square(0.001, 1), square(20, 2)),
		"one group of both":      left(grouped(0.5, square(0, 1), square(20, 2))),
		"a group of each":        left(grouped(0.5, square(0, 1)), grouped(0.5, square(20, 2))),
		"groups of 0.4":          left(grouped(0.4, square(0, 1)), grouped(0.4, square(20, 2))),
		"masked":                 left(&artwork.Group{Opacity: 1, Mask: &artwork.Mask{Nodes: []artwork.Node{square(0, 7)}}, Nodes: []artwork.Node{square(0, 1), square(20, 2)}}),
		"masked by another":      left(&artwork.Group{Opacity: 1, Mask: &artwork.Mask{Nodes: []artwork.Node{square(0, 8)}}, Nodes: []artwork.Node{square(0, 1), square(20, 2)}}),
		"its mask's thing is in": left(&artwork.Group{Opacity: 1, Nodes: []artwork.Node{square(0, 7), square(0, 1), square(20, 2)}}),
	}
	seen := map[[32]byte]string{base: "base"}
	for name, d := range other {
		require.Empty(t, seen[d], name)
		seen[d] = name
	}
}

// A picture made of pixels is known by its bytes and place; it fills its frame.
func TestDigestOfPixels(t *testing.T) {
	image := func(data string, x float64) *artwork.Image {
		return &artwork.Image{Data: []byte(data), Opacity: 1, Frame: artwork.Matrix{A: 40, D: 10, E: x}}
	}
	require.Equal(t, left(image("ab", 0)), left(image("ab", 0)))
	require.NotEqual(t, left(image("ab", 0)), left(image("ac", 0)))
	require.NotEqual(t, left(image("ab", 0)), left(image("ab", 1)))
	require.Equal(t, left(), left(image("ab", 50)))

	sums := ImageSums{}
	im := image("ab", 0)
	p := &artwork.Picture{W: 100, H: 10, Nodes: []artwork.Node{im}}
	NewArt(p, artwork.Identity(), sums)
	require.Len(t, sums, 1)
	im.Data = []byte("changed") // its bytes are not read again
	first := sums[im]
	NewArt(p, artwork.Identity(), sums)
	require.Equal(t, first, sums[im])
}
