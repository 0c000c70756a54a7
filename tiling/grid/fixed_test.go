package grid

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
)

// wantedOf lists the windows that ink wants of a grid.
func wantedOf(t *testing.T, k *ink, base, live geom.Point, lap, half float64) map[[2]int]bool {
	var s sieve
	s.resetAt(base, live, lap, half, k.bounds)
	s.walk(k)
	places, err := s.wanted()
	require.NoError(t, err)
	out := map[[2]int]bool{}
	for _, p := range places {
		require.False(t, out[p])
		out[p] = true
	}
	return out
}

// Wherever a grid lies, the windows that it wants show every place of every line whole, and each of them something that no other
// wanted one does.
func TestWantedWindowsOfOneGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 2))
	for range 120 {
		live := geom.Point{X: 80 + r.Float64()*200, Y: 80 + r.Float64()*200}
		lap := [...]float64{0, 1, 5, 10, 25}[r.IntN(5)]
		k := scribble(r, 200+r.Float64()*1500)
		base := geom.Point{X: (r.Float64() - 0.5) * 1e5, Y: (r.Float64() - 0.5) * 1e5}
		wanted := wantedOf(t, k, base, live, lap, k.half)
		step := live.Sub(geom.Point{X: lap, Y: lap})
		spare := k.half - 1e-6
		if lap < 2*k.half {
			spare = -1e-6
		}
		own := map[[2]int]int{}
		visit := func(p geom.Point) {
			n, at := 0, [2]int{}
			c0, r0 := int(math.Floor((p.X-base.X)/step.X)), int(math.Floor((p.Y-base.Y)/step.Y))
			for c := c0 - 1; c <= c0+1; c++ {
				for r := r0 - 1; r <= r0+1; r++ {
					w := geom.Point{X: base.X + float64(c)*step.X, Y: base.Y + float64(r)*step.Y}
					if wanted[[2]int{c, r}] && (geom.Rect{Min: w, Max: w.Add(live)}).Grow(-spare).Contains(p) {
						n++
						at = [2]int{c, r}
					}
				}
			}
			require.NotZero(t, n, "%v is on no window; lap %v", p, lap)
			if n == 1 {
				own[at]++
			}
		}
		eachPlace(k, 1, visit)
		if len(own) < len(wanted) && lap >= 2*k.half { // a line may come into a window by less than that
			eachPlace(k, 0.05, visit)
		}
		if lap >= 2*k.half {
			for c := range wanted {
				require.NotZero(t, own[c], "window %v shows nothing of its own; lap %v, live %v", c, lap, live)
			}
		}
	}
}

// What lies far off changes no window of the rest, not even where lines lie on the very edges of windows.
func TestWindowsDoNotHangOnOtherThings(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 3))
	for range 300 {
		lap := [...]float64{0, 3, 10, 20}[r.IntN(4)]
		live := geom.Point{X: 190, Y: 277}
		step := live.Sub(geom.Point{X: lap, Y: lap})
		base := geom.Point{X: float64(r.IntN(4000)) * 0.35, Y: float64(r.IntN(4000)) * 0.05}
		const half = drawing.WideLine / 2
		edge := func(at, step float64) float64 {
			return at + float64(r.IntN(9)-4)*step + [...]float64{0, half, -half, lap, lap - half, lap + half}[r.IntN(6)]
		}
		draw := func(boxes ...geom.Rect) *ink {
			k := &ink{bounds: geom.EmptyRect()}
			d := &drawing.Drawing{}
			for _, b := range boxes {
				d.Strokes = append(d.Strokes, drawing.Stroke{Path: geom.Polygon(ringOf(b)), Width: drawing.WideLine})
				d.Fills = append(d.Fills, drawing.Fill{Region: geom.Region{Outer: geom.Polygon(ringOf(b))}})
			}
			k.add(d, nil, nil)
			return k
		}
		var boxes []geom.Rect
		for range 1 + r.IntN(4) {
			b := geom.EmptyRect().Include(geom.Point{X: edge(base.X, step.X), Y: edge(base.Y, step.Y)}).Include(geom.Point{X: edge(base.X, step.X), Y: edge(base.Y, step.Y)})
			if b.W() > 1 && b.H() > 1 {
				boxes = append(boxes, b)
			}
		}
		if len(boxes) == 0 {
			continue
		}
		alone := wantedOf(t, draw(boxes...), base, live, lap, half)
		far := geom.Point{X: base.X + float64(r.IntN(9)-4)*12345.6, Y: base.Y - 20000 - float64(r.IntN(50000))}
		with := wantedOf(t, draw(append(boxes, geom.Rect{Min: far, Max: far.Add(geom.Point{X: 50, Y: 50})})...), base, live, lap, half)
		for c := range alone {
			require.True(t, with[c], "%v is wanted no more", c)
		}
		for c := range with {
			at := geom.Point{X: base.X + float64(c[0])*step.X, Y: base.Y + float64(c[1])*step.Y}
			if at.Dist(far) > 1000 {
				require.True(t, alone[c], "%v is wanted of nothing", c)
			}
		}
	}
}
