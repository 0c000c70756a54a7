package set

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Weights that are published: 2440 x 1220 x 18 at 730 kg/m³ is 39.1 kg and at 780 41.8 (an open weight calculator); ply of 520 kg/m³
// 27.86 and birch of 680 36.44 (derived from those densities' tables); 12 mm ply 2400 x 1200 at 550 is 19.0 (a plywood weight table);
// foam of 15 kg/m³, 50 mm, 2.23.
func TestWeights(t *testing.T) {
	for _, c := range []struct{ l, w, thick, density, kg, within float64 }{
		{2440, 1220, 18, 730, 39.1, 0.05}, {2440, 1220, 18, 780, 41.8, 0.05}, {2440, 1220, 18, 520, 27.86, 0.005},
		{2440, 1220, 18, 680, 36.44, 0.005}, {2400, 1200, 12, 550, 19.0, 0.05}, {2440, 1220, 50, 15, 2.23, 0.005}, {2440, 1220, 18, 0, 0, 0},
	} {
		b := Board{Length: c.l, Width: c.w, Thick: c.thick, Density: c.density}
		require.InDelta(t, c.kg, b.Weight(), c.within)
	}
	// 4 ft x 8 ft x 1/2 in at 700 kg/m³: a weight guide prints 26.39 kg; exactly it is 26.43.
	b := Board{Length: 2438.4, Width: 1219.2, Thick: 12.7, Density: 700}
	require.InDelta(t, 26.43, b.Weight(), 0.005)
	l := Length{Width: 44, Depth: 69, Long: 4800, Density: 480} // 0.014573 m³
	require.InDelta(t, 6.995, l.Weight(), 0.001)
}
