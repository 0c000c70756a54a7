package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

// upright is what a prism of the outline comes to.
func upright(path *geom.Path, height, scale float64) closing {
	b := path.Bounds()
	return closing{
		volume: path.Area() * height / (scale * scale * scale),
		size:   geom.Vec{X: b.W() / scale, Y: b.H() / scale, Z: height / scale},
	}
}

func TestBoxesClose(t *testing.T) {
	for name, outline := range map[string]string{
		"rect":     "rect 3600 x 2400",
		"octagon":  "polygon 8 across 4800",
		"hexagon":  "polygon 6 across 4800",
		"pentagon": "polygon 5 corners 4800",
		"triangle": "points 0,0 3000,0 900,2400",
		"ell":      "points 0,0 3000,0 3000,1200 1200,1200 1200,2700 0,2700",
		"cross":    "points 900,0 2100,0 2100,900 3000,900 3000,2100 2100,2100 2100,3000 900,3000 900,2100 0,2100 0,900 900,900",
		"arrow":    "points 0,0 3000,0 4500,1500 3000,3000 0,3000 1500,1500",
	} {
		t.Run(name, func(t *testing.T) {
			for _, closed := range []string{"", "    closed\n"} {
				everyWay(t, "platform deck\n    outline "+outline+"\n    height 450\n"+closed, 25, func(e *set.Element, scale, card float64) closing {
					p := e.Shape.(*set.Platform)
					return upright(p.Outline.Path, p.Height, scale)
				})
			}
		})
	}
}

func TestRectangleOfCard(t *testing.T) {
	s := open(t, "platform deck\n    outline rect 3600 x 2400\n    height 450\n")
	// By hand, at 1:25: outside 144 × 96 × 18. The top is whole, walls are 18 − t high, the front is whole, the sides
	// are shorter by one card behind the front, the back by two between them.
	for _, card := range []float64{1.5, 1.6} {
		m, list := develop.Develop(s, develop.Options{Scale: 25, Card: card})
		require.Empty(t, printed(list))
		sizes := map[string][2]float64{}
		for _, p := range m.Pieces {
			sizes[p.Name] = [2]float64{p.Outline.Bounds().W(), p.Outline.Bounds().H()}
			require.True(t, p.Hidden)
		}
		require.Len(t, sizes, 5)
		for name, want := range map[string][2]float64{
			"top": {144, 96}, "front wall": {144, 18 - card}, "right wall": {96 - card, 18 - card},
			"left wall": {96 - card, 18 - card}, "back wall": {144 - 2*card, 18 - card},
		} {
			require.InDelta(t, want[0], sizes[name][0], 1e-9, name)
			require.InDelta(t, want[1], sizes[name][1], 1e-9, name)
		}
		require.Equal(t, "deck-1/5", m.Pieces[0].Label())
		require.Equal(t, "top", m.Pieces[0].Name)
		require.Len(t, m.Joints, 8, "four walls under the top, four corners")
	}
}

func TestOctagonBevels(t *testing.T) {
	s := open(t, "platform deck\n    outline polygon 8 across 4800\n    height 450\n")
	m, list := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5})
	require.Empty(t, printed(list))
	require.Len(t, m.Pieces, 9)
	side := 4800 * math.Tan(math.Pi/8) / 25
	for _, p := range m.Pieces[1:] {
		require.InDelta(t, side, p.Outline.Bounds().W(), 1e-9)
		require.Equal(t, develop.Mitre, p.Edges[0].Treatment)
		require.InDelta(t, 22.5, p.Edges[0].Bevel, 1e-9, "half of 45°")
		require.Equal(t, "mitre, bevel 22.5°", p.Edges[1].Words())
	}
}
