package cut

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBlocksUseTheFewestBoxes(t *testing.T) {
	stock := []Box{{Name: "box", Length: 600, Width: 400, Height: 150, Count: 40}}
	tests := []struct {
		top     Top
		boxes   int
		packing float64
		layers  int
	}{
		// One box flat, one on its side, one on its end.
		{Top{ID: "flat", Length: 600, Width: 400, Height: 150, Count: 1}, 1, 0, 1},
		{Top{ID: "side", Length: 600, Width: 150, Height: 400, Count: 1}, 1, 0, 1},
		{Top{ID: "end", Length: 400, Width: 150, Height: 600, Count: 1}, 1, 0, 1},
		// Two flat boxes with a gap of 200, twice, and 5 of packing.
		{Top{ID: "second", Length: 1400, Width: 400, Height: 305, Count: 1}, 4, 5, 2},
		// On their sides two rows of 150 make the depth: 2 × 2 boxes 400 high and 55 of packing.
		{Top{ID: "deep", Length: 1400, Width: 300, Height: 455, Count: 1}, 4, 55, 1},
		// Nothing stands under 140.
		{Top{ID: "low", Length: 1400, Width: 400, Height: 140, Count: 1}, 0, 140, 0},
	}
	for _, tt := range tests {
		t.Run(tt.top.ID, func(t *testing.T) {
			p, err := Blocks(stock, []Top{tt.top}, BlockOptions{})
			require.NoError(t, err)
			require.True(t, p.Proven)
			got := p.Tops[0]
			require.Equal(t, tt.boxes, got.Boxes)
			require.InDelta(t, tt.packing, got.Packing, 1e-6)
			require.Len(t, got.Layers, tt.layers)
			require.NotEmpty(t, p.Assumed)
			require.False(t, got.Bare)
		})
	}
}

func TestBlocksSayWhatIsShort(t *testing.T) {
	stock := []Box{
		{Name: "whole", Length: 600, Width: 400, Height: 150, Count: 3},
		{Name: "half", Length: 600, Width: 400, Height: 75, Count: 4},
	}
	// Five tops of 150: three on whole boxes, two on halves, two each.
	p, err := Blocks(stock, []Top{{ID: "a", Length: 600, Width: 400, Height: 150, Count: 5}}, BlockOptions{})
	require.NoError(t, err)
	require.True(t, p.Proven)
	require.Equal(t, []int{3, 4}, p.Used)
	require.Equal(t, []int{0, 0}, p.Short)
	require.Equal(t, 7, p.Boxes)
	n := 0
	for _, top := range p.Tops {
		n += top.Count
	}
	require.Equal(t, 5, n)

	p, err = Blocks(stock, []Top{{ID: "a", Length: 600, Width: 400, Height: 150, Count: 7}}, BlockOptions{})
	require.NoError(t, err)
	require.Equal(t, 2, p.Short[0]+p.Short[1])
}

func TestPackingIsMadeUpOfTheFewestPlates(t *testing.T) {
	plates, left := packing(55, []float64{18, 9, 6})
	require.Equal(t, []float64{18, 18, 18}, plates)
	require.InDelta(t, 1, left, 1e-9)
	plates, left = packing(30, []float64{18, 12, 10})
	require.Equal(t, []float64{18, 12}, plates)
	require.Zero(t, left)
	plates, left = packing(5, []float64{18})
	require.Empty(t, plates)
	require.Equal(t, 5.0, left)
	plates, left = packing(87.4, []float64{17.6, 9}) // nine of 9 come 1.6 nearer, which is a shim's work
	require.Equal(t, []float64{17.6, 17.6, 17.6, 17.6, 9}, plates)
	require.InDelta(t, 8, left, 1e-9)
}

// fewestOf is the fewest boxes under one top by trying every stack of layers.
func fewestOf(layers []Layer, height, packing float64, last int) (int, bool) {
	best, found := 0, height <= packing+1e-9
	if found {
		return 0, true
	}
	for n := range layers {
		if layers[n].Height > height+1e-9 || last >= 0 && !layers[n].restsOn(&layers[last]) {
			continue
		}
		if k, ok := fewestOf(layers, height-layers[n].Height, packing, n); ok && (!found || k+layers[n].boxes() < best) {
			best, found = k+layers[n].boxes(), true
		}
	}
	return best, found
}

func TestBlocksAreTheFewestOfEveryStack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 8))
	for n := range 200 {
		side := func() float64 { return float64(100 + 50*rnd.IntN(8)) }
		stock := []Box{{Name: "a", Length: side(), Width: side(), Height: side()}}
		if n%2 == 0 {
			stock = append(stock, Box{Name: "b", Length: side(), Width: side(), Height: side()})
		}
		top := Top{ID: "t", Length: 300 + 10*float64(rnd.IntN(120)), Width: 250 + 10*float64(rnd.IntN(60)), Height: 100 + 5*float64(rnd.IntN(240)), Count: 1}
		p, err := Blocks(stock, []Top{top}, BlockOptions{})
		require.NoError(t, err)
		least := math.Inf(1)
		for _, b := range stock {
			least = min(least, b.Length, b.Width, b.Height)
		}
		j := newBlockJob(stock, []Top{top}, BlockOptions{})
		want, ok := fewestOf(j.layers(top), top.Height, least-1e-5, -1)
		require.Equal(t, ok, !p.Tops[0].Bare, "case %d", n)
		if ok {
			require.Equal(t, want, p.Tops[0].Boxes, "case %d: %v %v", n, stock, top)
		}
		sum := p.Tops[0].Packing
		for i, l := range p.Tops[0].Layers {
			sum += l.Height
			require.LessOrEqual(t, float64(l.AlongLength)*l.Length+float64(l.AlongLength-1)*l.GapLength, top.Length+1e-6)
			require.LessOrEqual(t, float64(l.AlongWidth)*l.Width+float64(l.AlongWidth-1)*l.GapWidth, top.Width+1e-6)
			if i > 0 {
				require.True(t, l.restsOn(&p.Tops[0].Layers[i-1]))
			}
		}
		require.InDelta(t, top.Height, sum, 1e-6)
	}
}
