package setout

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Values worked out by hand from a + bL of Directive 2014/32/EU, Annex X (MI-008), chapter I.
func TestAllowed(t *testing.T) {
	for _, c := range []struct{ metres, one, two, three float64 }{
		{5, 0.6, 1.3, 2.6},
		{10, 1.1, 2.3, 4.6},
		{30, 3.1, 6.3, 12.6},
		{7.4, 0.9, 1.9, 3.8}, // L is rounded up to a whole metre first
		{0.25, 0.2, 0.5, 1.0},
	} {
		for class, want := range []float64{1: c.one, 2: c.two, 3: c.three} {
			if class > 0 {
				require.InDelta(t, want, Allowed(class, c.metres*1000), 1e-9, "%v m, class %d", c.metres, class)
			}
		}
	}
	require.Equal(t, Allowed(2, 5000), Allowed(0, 5000))
	require.Equal(t, Allowed(2, 5000), Allowed(2, 5000+1e-7), "a length that is whole but for rounding")
}

func TestCrossingError(t *testing.T) {
	require.InDelta(t, math.Sqrt2, CrossingError(1, 1, 90), 1e-12)
	// Equal tapes: the rhombus between two pairs of parallels 2e apart has half diagonals e/sin(γ/2) and e/cos(γ/2).
	for _, g := range []float64{30, 45, 60, 120, 150} {
		half := g / 2 * math.Pi / 180
		require.InDelta(t, max(1/math.Sin(half), 1/math.Cos(half)), CrossingError(1, 1, g), 1e-9, "%v", g)
	}
	require.True(t, math.IsInf(CrossingError(1, 1, 180), 1))
	// Rebuilding from figures printed in steps of 0.5 mm, each at most 0.25 out, at the flattest crossing allowed.
	require.InDelta(t, 0.966, CrossingError(0.25, 0.25, LeastCrossing), 0.0005)
}

// The error is a bound: no point whose distances differ from the true ones by no more than e1 and e2 lies further away.
// (To first order; the tapes are metres, the errors millimetres.)
func TestCrossingErrorBounds(t *testing.T) {
	a, b := pt(-4000, 0), pt(4000, 0)
	for _, p := range []struct{ x, y float64 }{{0, 3600}, {-3000, 2200}, {1087, 7657}, {3900, -2500}} {
		at := pt(p.x, p.y)
		limit := CrossingError(2, 1.5, Crossing(at, a, b))
		most := 0.0
		for _, da := range []float64{-2, 0, 2} {
			for _, db := range []float64{-1.5, 0, 1.5} {
				got, ok := rebuilt(a, b, at.Dist(a)+da, at.Dist(b)+db, Side(at, a, b))
				require.True(t, ok)
				most = max(most, got.Dist(at))
			}
		}
		require.LessOrEqual(t, most, limit*1.005)
		require.GreaterOrEqual(t, most, limit*0.995, "and it is reached")
	}
}

// A yard measured from a base line. Inputs from an exercise in an open maths collection (from memory); the places
// recomputed. The triples are exact.
func TestDistancesFromBaseLine(t *testing.T) {
	for _, c := range []struct{ base, da, db, x, y float64 }{
		{8, 9, 12, 0.0625, 8.999782983},
		{8, 11, 7, 8.5, 6.982120022},
		{14, 13, 15, 5, 12},
		{21, 10, 17, 6, 8},
		{4, 3, 5, 0, 3},
	} {
		a, b, p := pt(0, 0), pt(c.base, 0), pt(c.x, c.y)
		require.InDelta(t, c.da, p.Dist(a), 1e-8)
		require.InDelta(t, c.db, p.Dist(b), 1e-8)
		require.Equal(t, "upstage", Side(p, a, b))
		got, ok := rebuilt(a, b, c.da, c.db, "upstage")
		require.True(t, ok)
		require.InDelta(t, c.x, got.X, 1e-8)
		require.InDelta(t, c.y, got.Y, 1e-8)
		require.Equal(t, "downstage", Side(pt(c.x, -c.y), a, b))
	}
	// A right angle by 6-8-10 (the carpenter's square corner): the tapes of 6 and 8 cross square.
	require.InDelta(t, 90, Crossing(pt(0, 0), pt(6, 0), pt(0, 8)), 1e-12)
	require.InDelta(t, 10, pt(6, 0).Dist(pt(0, 8)), 1e-12)
	// Touching: the point lies on the line and has no side.
	require.Equal(t, "", Side(pt(6, 0), pt(0, 0), pt(10, 0)))
	require.InDelta(t, 180, Crossing(pt(6, 0), pt(0, 0), pt(10, 0)), 1e-12)
}

func TestSideOfLineUpAndDownStage(t *testing.T) {
	a, b := pt(0, 0), pt(500, 4000)
	require.Equal(t, "plan-right", Side(pt(2000, 1000), a, b))
	require.Equal(t, "plan-left", Side(pt(-2000, 1000), a, b))
	require.Equal(t, "plan-left", Side(pt(-2000, 1000), b, a), "whichever start comes first")
}
