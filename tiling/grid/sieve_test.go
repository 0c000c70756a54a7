package grid

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// scribble is random polylines and circles.
func scribble(r *rand.Rand, size float64) *ink {
	k := &ink{bounds: geom.EmptyRect()}
	d := &drawing.Drawing{}
	for range 1 + r.IntN(6) {
		p := geom.NewPath(geom.Point{X: r.Float64() * size, Y: r.Float64() * size})
		for range 1 + r.IntN(5) {
			q := geom.Point{X: r.Float64() * size, Y: r.Float64() * size}
			switch r.IntN(4) { // upright and level lines are what sets are made of
			case 0:
				q.X = p.End().X
			case 1:
				q.Y = p.End().Y
			}
			p.LineTo(q)
		}
		d.Strokes = append(d.Strokes, drawing.Stroke{Path: p, Width: drawing.WideLine})
	}
	k.add(d, nil, nil)
	return k
}

// eachPlace visits places along every line.
func eachPlace(k *ink, apart float64, visit func(p geom.Point)) {
	for i := range k.tracks {
		t := &k.tracks[i]
		for s := range t.segments() {
			a, b := k.at(t, s), k.at(t, s+1)
			n := int(a.Dist(b)/apart) + 1
			for j := range n + 1 {
				visit(a.Lerp(b, float64(j)/float64(n)))
			}
		}
	}
}

// The windows wanted show every place of every line whole, and each of them something that no other wanted one does.
func TestWantedWindowsShowEverything(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 150 {
		live := geom.Point{X: 80 + r.Float64()*200, Y: 80 + r.Float64()*200}
		lap := [...]float64{0, 1, 5, 10, 25}[r.IntN(5)]
		k := scribble(r, 200+r.Float64()*1500)
		var s sieve
		s.reset(live, lap, k.half, k.bounds)
		s.walk(k)
		f, err := s.solve(k.bounds)
		require.NoError(t, err)
		step := live.Sub(geom.Point{X: lap, Y: lap})
		spare := k.half - 1e-6
		if lap < 2*k.half {
			spare = -1e-6
		}
		wanted := map[[2]int]bool{}
		for _, c := range f.cells {
			require.False(t, wanted[c])
			wanted[c] = true
		}
		own := map[[2]int]int{}
		eachPlace(k, 1, func(p geom.Point) {
			n := 0
			var at [2]int
			c0, r0 := int(math.Floor((p.X-f.origin.X)/step.X)), int(math.Floor((p.Y-f.origin.Y)/step.Y))
			for c := c0 - 1; c <= c0; c++ {
				for r := r0 - 1; r <= r0; r++ {
					w := geom.Point{X: f.origin.X + float64(c)*step.X, Y: f.origin.Y + float64(r)*step.Y}
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
		})
		if lap >= 2*k.half {
			for c := range wanted {
				require.NotZero(t, own[c], "window %v shows nothing of its own; lap %v, live %v", c, lap, live)
			}
		}
	}
}

// The counts of all origins at once are those of each origin by itself, counted by where the lines' places lie.
func TestCountsAgreeWithOneOriginAtATime(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 40 {
		live := geom.Point{X: 100 + r.Float64()*100, Y: 100 + r.Float64()*100}
		lap := [...]float64{5, 10, 20}[r.IntN(3)]
		k := scribble(r, 600)
		var s sieve
		s.reset(live, lap, k.half, k.bounds)
		s.walk(k)
		f, err := s.solve(k.bounds)
		require.NoError(t, err)
		step := live.Sub(geom.Point{X: lap, Y: lap})
		least := math.MaxInt
		for j := range origins {
			for i := range origins {
				o := s.originAt(i, j)
				own := map[[2]int]bool{}
				eachPlace(k, 0.5, func(p geom.Point) {
					x, y := p.X-o.X, p.Y-o.Y
					c, r := math.Floor(x/step.X), math.Floor(y/step.Y)
					x, y = x-c*step.X, y-r*step.Y
					if x > lap-k.half && x < step.X+k.half && y > lap-k.half && y < step.Y+k.half {
						own[[2]int{int(c), int(r)}] = true
					}
				})
				least = min(least, len(own))
			}
		}
		require.GreaterOrEqual(t, len(f.cells), least, "fewer windows than hold something of their own")
	}
}

func TestBitsOfIntervals(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		w, n := r.Uint64()&r.Uint64()&r.Uint64(), 1+r.IntN(31)
		got := runs(w, n)
		for i := range 64 - n {
			want := w>>i&(1<<n-1) != 0
			require.Equal(t, want, got>>i&1 != 0)
		}
		for i := range 16 {
			require.Equal(t, w>>(2*i)&1, uint64(evens(w)>>i&1))
		}
	}
}

// A run of a page and the pages that show it are found by the same measure: every page that a line touches has it.
func TestEveryPageHasWhatTouchesIt(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 60 {
		k := scribble(r, 900)
		g := &grid{ink: *k, live: geom.Point{X: 190, Y: 150}, step: geom.Point{X: 180, Y: 140}, lap: 10, info: &Info{}}
		for c := range 9 {
			for r := range 9 {
				g.cells = append(g.cells, cell{c: c, r: r})
			}
		}
		g.number()
		g.bin()
		for ci := range g.cells {
			win := g.cells[ci].win
			has := map[[2]int32]bool{}
			for _, run := range g.bins.of(int32(ci)) {
				tr := &k.tracks[run.track]
				for i := range run.n {
					has[[2]int32{run.track, (run.from + i) % tr.segments()}] = true
				}
			}
			for ti := range k.tracks {
				tr := &k.tracks[ti]
				for s := range tr.segments() {
					_, _, in := tiling.ClipSegment(k.at(tr, s), k.at(tr, s+1), win)
					if in {
						require.True(t, has[[2]int32{int32(ti), s}], "segment %d of track %d is missing on %s", s, ti, g.cells[ci].label)
					}
				}
			}
			// What clip hands on is exactly what lies in the window.
			length := 0.0
			for _, run := range g.bins.of(int32(ci)) {
				g.clip(&k.tracks[run.track], run, win, nil, func(ps []geom.Point, closed bool, _ float64) {
					for i := 1; i < len(ps); i++ {
						length += ps[i-1].Dist(ps[i])
					}
					if closed {
						length += ps[len(ps)-1].Dist(ps[0])
					}
				})
			}
			want := 0.0
			for ti := range k.tracks {
				tr := &k.tracks[ti]
				for s := range tr.segments() {
					a, b := k.at(tr, s), k.at(tr, s+1)
					if t0, t1, in := tiling.ClipSegment(a, b, win); in {
						want += (t1 - t0) * a.Dist(b)
					}
				}
			}
			require.InDelta(t, want, length, 1e-6)
		}
	}
}
