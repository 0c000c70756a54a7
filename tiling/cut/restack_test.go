package cut

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// A stack that was planned stands as it was planned; one that is none of the plan's ways, or whose boxes or plates are not there, does not.
func TestRestack(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	stock := []Box{{Name: "a", Length: 600, Width: 400, Height: 150}, {Name: "b", Length: 400, Width: 300, Height: 120}}
	opt := BlockOptions{Plates: []float64{18, 9}}
	for range 40 {
		top := Top{ID: "t", Length: 700 + 20*float64(r.IntN(40)), Width: 300 + 10*float64(r.IntN(30)), Height: 110 + 5*float64(r.IntN(150)), Count: 2}
		plan, err := Blocks(stock, []Top{top}, opt)
		require.NoError(t, err)
		want := plan.Tops[0]
		s := Stacked{Plates: want.Plates}
		for _, l := range want.Layers {
			s.Layers = append(s.Layers, [3]float64{l.Length, l.Width, l.Height})
		}
		got, ok := Restack(stock, top, s, opt)
		require.True(t, ok)
		require.Equal(t, want, got)
		for _, other := range []Stacked{
			{Layers: append([][3]float64{{1, 2, 3}}, s.Layers...)}, {Plates: []float64{5}}, {Layers: s.Layers, Plates: append([]float64{18}, make([]float64, 9)...)},
		} {
			_, ok := Restack(stock, top, other, opt)
			require.False(t, ok)
		}
		high := s
		for range 60 {
			high.Layers = append(high.Layers, [3]float64{600, 400, 150})
		}
		_, ok = Restack(stock, top, high, opt)
		require.False(t, ok)
		bare := opt
		bare.Plates = nil
		_, ok = Restack(stock, top, s, bare)
		require.Equal(t, len(s.Plates) == 0, ok)
	}
}

// Boxes that other stacks have are not in hand: six carry six tops; where four are taken, four tops stand on two smaller ones each.
func TestTakenBoxes(t *testing.T) {
	stock := []Box{{Name: "a", Length: 600, Width: 400, Height: 150, Count: 6}, {Name: "b", Length: 600, Width: 200, Height: 150, Count: 20}}
	tops := []Top{{ID: "t", Length: 600, Width: 400, Height: 150, Count: 6}}
	p, err := Blocks(stock, tops, BlockOptions{})
	require.NoError(t, err)
	require.Equal(t, []int{6, 0}, p.Used)
	p, err = Blocks(stock, tops, BlockOptions{Taken: []int{4, 0}})
	require.NoError(t, err)
	require.Equal(t, []int{2, 8}, p.Used)
	require.Equal(t, []int{0, 0}, p.Short)
	p, err = Blocks(stock, tops, BlockOptions{Taken: []int{6, 20}})
	require.NoError(t, err)
	require.Equal(t, 6, p.Short[0]+p.Short[1])
}
