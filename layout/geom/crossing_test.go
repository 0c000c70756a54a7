package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSelfCrossing(t *testing.T) {
	for d, want := range map[string]struct {
		crosses bool
		i, j    int
		at      Point
	}{
		"M0 0 10 0 10 10 0 10z":              {},
		"M0 0 10 0 10 10 0 10":               {},
		"M0 0 10 0 10 10 0 10 0 0":           {},
		"M0 0 10 10 10 0 0 10z":              {true, 0, 2, Point{5, 5}},
		"M0 0 10 10 10 0 0 10":               {true, 0, 2, Point{5, 5}},
		"M0 0 10 0 4 0 4 5z":                 {true, 0, 1, Point{4, 0}},    // runs back along itself
		"M0 0 10 0 10 10 5 0 0 10z":          {true, 0, 2, Point{5, 0}},    // touches
		"M0 0 10 0 10 0 10 10z":              {},                           // a corner typed twice
		"M0 0 10 0 20 0 20 5 10 5 5 0z":      {true, 0, 4, Point{5, 0}},    // runs home along its first edge
		"M0 0 10 0 10 10 10 -5":              {true, 0, 2, Point{10, 0}},   // back through a corner
		"M0 0 10 0z":                         {true, 0, 1, Point{0, 0}},    // there and back
		"M0 0C30 20-20 20 10 0":              {true, 0, 0, Point{5, 3.75}}, // a loop: x − 5 = (2t − 1)(80t² − 80t + 5), y = 60t(1 − t)
		"M0 0A5 5 0 1 1 10 0A5 5 0 1 1 0 0z": {},
		"M0 0A5 5 0 0 1 10 0L4 -9L4 3z":      {true, 0, 2, Point{4, -math.Sqrt(24)}},
		"M0 0A5 5 0 0 1 10 0A5 5 0 0 0 0 0":  {true, 0, 1, Point{}}, // the same arc back
		"M0 0":                               {},
		"M3 3 3 3z":                          {},
	} {
		for _, p := range parsed(t, d) {
			i, j, at, crosses := p.SelfCrossing()
			require.Equal(t, want.crosses, crosses, d)
			if !crosses {
				continue
			}
			require.Equal(t, [2]int{want.i, want.j}, [2]int{i, j}, d)
			if want.at != (Point{}) {
				near(t, want.at, at, 1e-3, d)
			}
		}
	}
	require.NotPanics(t, func() { (&Path{}).SelfCrossing() })
}

func TestSelfCrossingAgainstALibrary(t *testing.T) {
	r := seeded(12)
	found := [2]int{}
	for range 400 {
		// A star shape with a corner moved at random: about half cross themselves.
		n := 5 + r.IntN(40)
		pts := make([]Point, n)
		for i := range pts {
			pts[i] = Polar(500+500*r.Float64(), 2*math.Pi*float64(i)/float64(n))
		}
		if r.IntN(2) == 0 {
			pts[r.IntN(n)] = randomPoint(r, 2000)
		}
		p := Polygon(pts)
		_, _, at, crosses := p.SelfCrossing()
		require.Equal(t, asPolygon(p, 1).ExteriorRing().IsSimple(), !crosses)
		if crosses {
			found[1]++
			require.True(t, p.Contains(at))
		} else {
			found[0]++
		}
	}
	require.Greater(t, min(found[0], found[1]), 50)
}
