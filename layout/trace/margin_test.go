package trace

import (
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

func TestToHeight(t *testing.T) {
	_, f := shapes[2].picture()
	s, err := Trace(f, Options{})
	require.NoError(t, err)
	out, k, err := ToHeight(s.Regions, 1780)
	require.NoError(t, err)
	b := out[0].Bounds()
	require.InDelta(t, 1780, b.H(), 1e-9)
	require.InDelta(t, 0, b.Min.Y, 1e-9)
	require.InDelta(t, 0, b.Min.X+b.Max.X, 1e-9)
	require.InEpsilon(t, s.Regions[0].Area()*k*k, out[0].Area(), 1e-9)
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, _, err = ToHeight(s.Regions, bad)
		require.Error(t, err)
	}
	_, _, err = ToHeight(nil, 100)
	require.Error(t, err)
}

// The margin's outline is as far from the silhouette as asked, wherever it is probed, and the area between is Steiner's.
func TestMargin(t *testing.T) {
	small := slices.Clone(shapes)
	for i := range small {
		small[i].height /= 8
	}
	for _, c := range slices.Concat(small, shapes) {
		_, f := c.picture()
		s, err := Trace(f, Options{})
		require.NoError(t, err)
		mm, _, err := ToHeight(s.Regions, 1780)
		require.NoError(t, err)
		lines := flattened(mm)
		for _, d := range []float64{3, -2, 12} {
			out, err := Margin(mm, d)
			require.NoError(t, err, "%s %g", c.name, d)
			valid(t, out)
			for _, r := range out {
				for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
					for i, q := range p.Flatten(0.01, nil) {
						if i%41 != 0 {
							continue
						}
						require.InDelta(t, math.Abs(d), toOutlines(lines, q), 0.05, "%s %g at %v", c.name, d, q)
						require.Equal(t, d < 0, mm[0].Contains(q))
					}
				}
			}
		}
	}
}

// toOutlines returns the distance of q from the outlines.
func toOutlines(lines [][]geom.Point, q geom.Point) float64 {
	best := math.Inf(1)
	for _, pts := range lines {
		for i, a := range pts {
			best = min(best, q.Dist(nearest(a, pts[(i+1)%len(pts)], q)))
		}
	}
	return best
}

func TestMarginClosesGaps(t *testing.T) {
	square := func(x float64) geom.Region { return geom.Region{Outer: moved(geom.Rectangle(50, 50), x, 0)} }
	apart, err := Margin([]geom.Region{square(0), square(60)}, 4)
	require.NoError(t, err)
	require.Len(t, apart, 2)
	one, err := Margin([]geom.Region{square(0), square(60)}, 6)
	require.NoError(t, err)
	require.Len(t, one, 1)
	frame := geom.Region{Outer: geom.Rectangle(100, 100), Holes: []*geom.Path{geom.Rectangle(8, 60).Reverse()}}
	closed, err := Margin([]geom.Region{frame}, 5)
	require.NoError(t, err)
	require.Empty(t, closed[0].Holes)
	gone, err := Margin([]geom.Region{square(0)}, -26)
	require.NoError(t, err)
	require.Empty(t, gone)
	open, err := Margin([]geom.Region{frame}, -5)
	require.NoError(t, err)
	require.Len(t, open, 1)
	require.InDelta(t, 90*90-(18*70-(4-math.Pi)*25), open[0].Area(), 0.05)
	through, err := Margin([]geom.Region{frame}, -21)
	require.NoError(t, err)
	require.Len(t, through, 2)
}

// Otsu's method parts two levels anywhere between them; of four equal heaps at 10, 20, 200, 210 it is the two pairs
// (worked by hand).
func TestOtsu(t *testing.T) {
	var h [256]int
	for _, v := range []int{10, 20, 200, 210} {
		h[v] = 7
	}
	level, below, above, ok := otsu(&h)
	require.True(t, ok)
	require.Equal(t, 21, level)
	require.Equal(t, []float64{15, 205}, []float64{below, above})
	_, _, _, ok = otsu(&[256]int{5: 9})
	require.False(t, ok)
}

// Whatever the ground, the same figure is found.
func TestBackgrounds(t *testing.T) {
	circle := moved(geom.Circle(60), 50, 50)
	f := raster(100, 100, circle)
	paint := func(ground, figure color.NRGBA) *image.NRGBA {
		img := image.NewNRGBA(image.Rect(5, 3, 105, 103))
		for i, v := range f.low {
			mix := func(a, b uint8) uint8 { return uint8((int(a)*(255-int(v)) + int(b)*int(v) + 127) / 255) }
			img.SetNRGBA(5+i%100, 3+i/100, color.NRGBA{
				mix(ground.R, figure.R), mix(ground.G, figure.G), mix(ground.B, figure.B), mix(ground.A, figure.A)})
		}
		return img
	}
	white, black := color.NRGBA{255, 255, 255, 255}, color.NRGBA{0, 0, 0, 255}
	sky, coat := color.NRGBA{120, 180, 230, 255}, color.NRGBA{200, 170, 60, 255}
	for name, make := range map[string]func() (*Field, error){
		"alpha":      func() (*Field, error) { return FromAlpha(paint(color.NRGBA{}, color.NRGBA{0, 0, 0, 255})) },
		"light":      func() (*Field, error) { return FromBrightness(paint(white, black), Light, 0) },
		"dark":       func() (*Field, error) { return FromBrightness(paint(black, white), Dark, 0) },
		"threshold":  func() (*Field, error) { return FromBrightness(paint(white, black), Light, 0.5) },
		"background": func() (*Field, error) { return FromBackground(paint(sky, coat), 0) },
	} {
		got, err := make()
		require.NoError(t, err, name)
		s, err := Trace(got, Options{})
		require.NoError(t, err, name)
		require.InEpsilon(t, f.Area(), s.Regions[0].Area(), 0.003, name)
		b := s.Regions[0].Bounds()
		require.InDelta(t, 50, b.Mid().X, 0.15, name)
		require.InDelta(t, 60, b.W(), 0.4, name)
	}
	_, err := FromBrightness(paint(white, white), Light, 0)
	require.ErrorIs(t, err, ErrNothing)
	_, err = FromBrightness(paint(white, black), Light, 2)
	require.Error(t, err)
	plain, err := FromBackground(paint(sky, sky), 0)
	require.NoError(t, err)
	_, err = Trace(plain, Options{})
	require.ErrorIs(t, err, ErrNothing)
}
