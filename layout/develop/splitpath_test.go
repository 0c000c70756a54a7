package develop

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// star is an outline of straight edges round 0,0, its corners between two radii.
func star(rnd *rand.Rand, n int, least, most float64) *geom.Path {
	pts := make([]geom.Point, n)
	for i := range pts {
		pts[i] = geom.Polar(least+(most-least)*rnd.Float64(), 2*math.Pi*float64(i)/float64(n))
	}
	return geom.Polygon(pts)
}

// Parts of areas cut by straight lines, against the overlay library: as many, as large, none on the wrong side.
func TestCutArea(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 9))
	ellipse := func() *geom.Path { return geom.EllipsePath(10+20*rnd.Float64(), 10+20*rnd.Float64()) }
	drawn, err := geom.ParsePathData("M0 -60 C50 -60 70 -20 20 0 S60 80 0 60 A40 60 20 0 1 0 -60 Z")
	require.NoError(t, err)
	for k := range 48 {
		r := geom.Region{Outer: star(rnd, 3+rnd.IntN(30), 40, 100)}
		switch k % 4 {
		case 1:
			r.Holes = []*geom.Path{ellipse()}
		case 2:
			r.Outer, r.Holes = geom.Circle(200), []*geom.Path{star(rnd, 9, 20, 80)}
		case 3:
			r = geom.Region{Outer: drawn[0]}
		}
		b := r.Bounds()
		l := seamLine{upright: rnd.IntN(2) == 0}
		if l.upright {
			l.at = b.Min.X + b.W()*(0.02+0.96*rnd.Float64())
		} else {
			l.at = b.Min.Y + b.H()*(0.02+0.96*rnd.Float64())
		}
		h, err := cutArea(r, l)
		require.NoError(t, err)
		sum, chords := 0.0, 0.0
		for side, parts := range h.parts {
			half := b.Grow(1)
			switch {
			case l.upright && side == 0:
				half.Max.X = l.at
			case l.upright:
				half.Min.X = l.at
			case side == 0:
				half.Max.Y = l.at
			default:
				half.Min.Y = l.at
			}
			want, err := geom.Intersect([]geom.Region{r}, []geom.Region{{Outer: cornered(half)}}, 2e-3)
			require.NoError(t, err)
			require.Len(t, parts, len(want), "case %d side %d", k, side)
			wanted, got := 0.0, 0.0
			for _, w := range want {
				wanted += w.Area()
			}
			for _, p := range parts {
				got += p.Area()
				box := p.Bounds()
				require.True(t, half.Grow(1e-9).Contains(box.Min) && half.Grow(1e-9).Contains(box.Max))
				_, _, _, crosses := p.Outer.SelfCrossing()
				require.False(t, crosses)
			}
			require.InDelta(t, wanted, got, 0.8)
			sum += got
		}
		require.InDelta(t, r.Area(), sum, 1e-7*r.Area(), "case %d", k)
		for _, c := range h.chords {
			chords += c.From.Dist(c.To)
			require.True(t, r.Contains(c.From.Lerp(c.To, 0.5)))
		}
		require.Positive(t, chords)
	}
}
