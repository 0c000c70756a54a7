package overhead_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
)

func opened(t testing.TB, text string) *set.Set {
	t.Helper()
	s, list := layout.Open(one(text), "x.markout", layout.Options{})
	require.False(t, list.HasErrors(), "%v\n%s", list.Sorted(), text)
	return s
}

func TestHeadroomOfTheGalley(t *testing.T) {
	s := opened(t, galley+`
walk way
    in galley
    path -1500,200 line -1500,3300
`)
	sc := solid.NewScene(s)
	r := overhead.Rooms(s)[0]
	for i, low := range r.Beneath(sc) {
		require.InDelta(t, r.Pieces[i].Headroom, low.Least, 1e-9, low.Piece)
	}
	low := overhead.Along(s, sc, s.Find("way"))
	require.Len(t, low, 1)
	// The locker hangs at x −1500, 2250 above the walking floor: 150 short of 2400.
	require.InDelta(t, 2250, low[0].Least, 1e-9)
	require.Equal(t, "locker", low[0].Under)
	require.InDelta(t, 2420, r.Head(1880), 1e-9)
	require.Len(t, r.Within(2263), 1)
}

// A soffit at 3300 over the eighth of nine odd risers, 1305 up, leaves 1995.
func TestHeadroomOverASteppedWay(t *testing.T) {
	s := opened(t, `set "Crates"
steps climb
    starts   0, 1200 heading 90deg
    rises    140 165 150 190 120 175 160 205 155
    goings   300 320 280 340 300 360 300 310
    widths   1400 by -50
platform soffit
    outline  rect 3000 x 400
    at       0, 3555
    level    3300
    height   100
walk up
    path     0,0 line 0,3700
    wide     100
`)
	low := overhead.Along(s, solid.NewScene(s), s.Find("up"))[0]
	require.InDelta(t, 1995, low.Least, 1e-9)
	require.Equal(t, "soffit", low.Under)
	require.Equal(t, "climb", low.Stands)
}

func TestFootholds(t *testing.T) {
	s := opened(t, `set "Turned"
room r
    outline rect 4000 x 3000
    overhead 5000 turned lengthways
    stand 600
dressing box
    in r
    at 0, 1000
    size 500 x 500
    height 400
    weight 5kg
dressing shelf
    in r
    at 1000, 1000
    size 800 x 300
    level 1400
    height 40
    weight 3kg
dressing ledge
    in r
    at 1000, 2000
    size 800 x 300
    level 1200
    height 40
    weight 3kg
walk over_things
    in r
    over shelf, ledge, box
`)
	f := overhead.Footholds(s, solid.NewScene(s), s.Find("over_things"))
	require.Len(t, f, 3)
	require.InDelta(t, 3600, f[0].Level, 1e-9)
	require.InDelta(t, 1400, f[0].Headroom, 1e-9)
	require.InDelta(t, 3000, f[0].Drop, 1e-9)
	require.InDelta(t, 200, f[1].Step, 1e-9)
	require.InDelta(t, 700, f[1].Gap, 1e-9)
	require.InDelta(t, 300, f[1].Narrow, 1e-9)
	require.True(t, f[2].Blocked, "a box on the overhead floor is no foothold")
}

// The sweep agrees with a fine grid of places looked at one by one, and is never higher.
func TestAlongAgreesWithAFineGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 40 {
		text := "set \"x\"\n"
		type block struct{ x, y, w, d, turn, level float64 }
		var blocks []block
		for i := range 12 {
			b := block{rng.Float64()*4000 - 2000, rng.Float64()*4000 - 2000, 100 + rng.Float64()*600, 100 + rng.Float64()*600, rng.Float64() * 90, 1900 + rng.Float64()*1500}
			blocks = append(blocks, b)
			text += fmt.Sprintf("dressing d%d\n    at %.3f, %.3f\n    turn %.4fdeg\n    level %.3f\n    size %.3f x %.3f\n    height 200\n", i, b.x, b.y, b.turn, b.level, b.w, b.d)
		}
		p := [3]geom.Point{}
		for i := range p {
			p[i] = geom.Point{X: math.Round(rng.Float64()*4000 - 2000), Y: math.Round(rng.Float64()*4000 - 2000)}
		}
		text += fmt.Sprintf("walk w\n    path %g,%g line %g,%g %g,%g\n    wide 500\n", p[0].X, p[0].Y, p[1].X, p[1].Y, p[2].X, p[2].Y)
		s := opened(t, text)
		got := overhead.Along(s, solid.NewScene(s), s.Find("w"))[0].Least
		want := math.Inf(1)
		for i := range 2 {
			n := 2000
			for k := range n + 1 {
				at := p[i].Lerp(p[i+1], float64(k)/float64(n))
				for _, b := range blocks {
					in := geom.Move(geom.Point{X: b.x, Y: b.y}, b.turn).Inverse().Apply(at)
					dx, dy := max(math.Abs(in.X)-b.w/2, 0), max(math.Abs(in.Y)-b.d/2, 0)
					if math.Hypot(dx, dy) <= 250 {
						want = min(want, b.level)
					}
				}
			}
		}
		require.LessOrEqual(t, got, want+1e-3)
		// The grid's places are up to 3 mm apart, so that it may miss what the disc no more than grazes.
		grazes := math.Inf(1)
		for i := range 2 {
			for k := range 2001 {
				at := p[i].Lerp(p[i+1], float64(k)/2000)
				for _, b := range blocks {
					in := geom.Move(geom.Point{X: b.x, Y: b.y}, b.turn).Inverse().Apply(at)
					if math.Hypot(max(math.Abs(in.X)-b.w/2, 0), max(math.Abs(in.Y)-b.d/2, 0)) <= 252 {
						grazes = min(grazes, b.level)
					}
				}
			}
		}
		require.GreaterOrEqual(t, got, grazes-1e-3)
	}
}

// A walk that is in no room goes on the walking floor of the room that it comes beneath, and looks up at its floor: 4900 − 600, and
// 4900 − 1000 − 600 under the crate, where the set's own floor would give 600 more.
func TestWalksThatComeBeneathARoom(t *testing.T) {
	const text = "set \"x\"\nroom r\n    outline rect 4000 x 3000\n    at 500, 1500\n    turn 20deg\n    overhead 4900 turned crossways\n    stand 600\n"
	const crate = "dressing crate\n    in r\n    at 0, 1500\n    size 500 x 500\n    height 1000\n"
	const walk = "walk past\n    path -6000,1500 line 6000,1500\n"
	least := func(text string) overhead.Low {
		s, list := layout.Open(one(text), "x.markout", layout.Options{})
		require.False(t, list.HasErrors(), "%v", list.Sorted())
		return overhead.Headroom(s)[0]
	}
	low := least(text + walk)
	require.InDelta(t, 4300, low.Least, 1e-9)
	require.Equal(t, "the floor of r", low.Under)
	require.Equal(t, "r", low.Room)
	low = least(text + crate + walk)
	require.InDelta(t, 3300, low.Least, 1e-9)
	require.Equal(t, "crate", low.Under)
	low = least(text + crate + "walk past\n    path -6000,9000 line 6000,9000\n")
	require.True(t, math.IsInf(low.Least, 1), "nothing is over it")
	low = least(text + crate + "walk past\n    path -6000,1500 line 6000,1500\n    level 5000\n")
	require.Empty(t, low.Room, "it goes over the room")
}
