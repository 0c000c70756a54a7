package overhead_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"markout/layout/geom"
	"markout/layout/overhead"
)

// cabin lies off the centre line and is turned by 20° on the plan.
const cabin = `set "Cabin"
room cabin
    outline  rect 4000 x 3200
    at       2350, 1780
    turn     20deg
    overhead 5200 turned lengthways
    stand    300
dressing chest
    in       cabin
    at       -1300, 2600
    turn     35deg
    size     900 x 500
    height   620
    weight   21kg
    fixings  -400,-200 400,-200 400,200 -400,200
dressing table
    in       cabin
    at       450, 1400
    turn     -12.5deg
    size     1200 x 700
    height   740
    weight   17.5kg
    fixings  -500,0 500,100
dressing lamp
    on       table
    at       table.centre + (210, -90)
    turn     70deg
    outline  points -60,-40 60,-40 0,110
    height   330
    weight   about 1.2kg
    fixings  20,10
dressing book
    on       lamp
    at       table.centre + (205, -85)
    turn     100deg
    size     60 x 40
    height   30
    weight   0.4kg
    fixings  0,0 10,5
dressing stool
    in       cabin
    repeat   4 around 450, 1400 radius 900 from 15deg facing in
    turn     8deg
    size     340 x 300
    height   450
    weight   all 14kg
    fixings  -100,-80 100,-80 0,110
    loose
dressing crate
    in       cabin
    at       -1700, 300
    turn     90deg
    repeat   3 by 420, 60
    shift    3 by 0, 45
    level    100
    size     300 x 400
    height   250
    weight   5kg
    fixings  0,120
flat wall
    in       cabin
    from     -1500, 2900 to 1500, 3100
    height   2200
    thickness 40
dressing chart
    on       wall at 1100 level 1400
    size     800 x 24
    height   520
    weight   3kg
    fixings  -350,12 350,12
`

// upright is a piece of the cabin as its text has it: where it stands in the room's own axes and how it is turned there.
type upright struct {
	name     string
	u, v, w  float64
	turn     float64 // degrees
	height   float64
	weight   float64
	middle   [2]float64   // of its outline, own axes
	fixings  [][2]float64 // own axes
	unloaded bool         // nobody weighed it
}

// inCabin lists the pieces in the file's order.
func inCabin() []upright {
	corners := [][2]float64{{-400, -200}, {400, -200}, {400, 200}, {-400, 200}}
	out := []upright{
		{name: "chest", u: -1300, v: 2600, turn: 35, height: 620, weight: 21, fixings: corners},
		{name: "table", u: 450, v: 1400, turn: -12.5, height: 740, weight: 17.5, fixings: [][2]float64{{-500, 0}, {500, 100}}},
		// The middle of a triangle is a third of the sum of its corners.
		{name: "lamp", u: 660, v: 1310, w: 740, turn: 70, height: 330, weight: 1.2, middle: [2]float64{0, 10}, fixings: [][2]float64{{20, 10}}},
		{name: "book", u: 655, v: 1315, w: 740 + 330, turn: 100, height: 30, weight: 0.4, fixings: [][2]float64{{0, 0}, {10, 5}}},
	}
	// A front looks along its turn less 90°: to look at the middle of the ring from bearing b, which is b + 180°, it is turned by b + 270°.
	for i, name := range []string{"stool.1", "stool.2", "stool.3", "stool.4"} {
		b := 15 + 90*float64(i)
		out = append(out, upright{
			name: name, u: 450 + 900*math.Cos(b*math.Pi/180), v: 1400 + 900*math.Sin(b*math.Pi/180), turn: b + 270 + 8,
			height: 450, weight: 3.5, fixings: [][2]float64{{-100, -80}, {100, -80}, {0, 110}},
		})
	}
	for i, name := range []string{"crate.1", "crate.2", "crate.3"} {
		c := upright{name: name, u: -1700 + 420*float64(i), v: 300 + 60*float64(i), w: 100, turn: 90, height: 250, weight: 5, fixings: [][2]float64{{0, 120}}}
		if i == 2 {
			c.v += 45
		}
		out = append(out, c)
	}
	// The wall's own 0,0 is P. What hangs on it has its back on the face, which is to the right of whoever looks from P to Q.
	a := math.Atan2(200, 3000)
	deg := a * 180 / math.Pi
	return append(out,
		upright{name: "wall", u: -1500, v: 2900, turn: deg, height: 2200, unloaded: true},
		upright{
			name: "chart", u: -1500 + 1100*math.Cos(a) + 12*math.Sin(a), v: 2900 + 1100*math.Sin(a) - 12*math.Cos(a), w: 1400, turn: deg,
			height: 520, weight: 3, fixings: [][2]float64{{-350, 12}, {350, 12}},
		})
}

// Homogeneous matrices of space.
func shifted(x, y, z float64) *mat.Dense {
	return mat.NewDense(4, 4, []float64{1, 0, 0, x, 0, 1, 0, y, 0, 0, 1, z, 0, 0, 0, 1})
}

func turnedBy(degrees float64) *mat.Dense {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return mat.NewDense(4, 4, []float64{c, -s, 0, 0, s, c, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1})
}

func product(ms ...mat.Matrix) *mat.Dense {
	out := mat.DenseCopyOf(ms[0])
	for _, m := range ms[1:] {
		var next mat.Dense
		next.Mul(out, m)
		out = &next
	}
	return out
}

func moved(m mat.Matrix, x, y, z float64) [3]float64 {
	var v mat.VecDense
	v.MulVec(m, mat.NewVecDense(4, []float64{x, y, z, 1}))
	return [3]float64{v.AtVec(0), v.AtVec(1), v.AtVec(2)}
}

// handed is the determinant of a matrix's turn: 1 keeps left and right, −1 changes them.
func handed(m *mat.Dense) float64 { return mat.Det(m.Slice(0, 3, 0, 3)) }

// ways are the three turns: in the room's axes (u, v, w) with its depth 3200 and its floor hung at 5200, and what becomes of a facing θ
// on the plan in a room turned by τ.
var ways = []struct {
	words  string
	turn   *mat.Dense
	handed float64
	facing func(theta, tau float64) float64
}{
	{"turned lengthways", mat.NewDense(4, 4, []float64{-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, -1, 5200, 0, 0, 0, 1}), 1, func(theta, tau float64) float64 { return 180 - theta + 2*tau }},
	{"turned crossways", mat.NewDense(4, 4, []float64{1, 0, 0, 0, 0, -1, 0, 3200, 0, 0, -1, 5200, 0, 0, 0, 1}), 1, func(theta, tau float64) float64 { return -theta + 2*tau }},
	{"mirrored", mat.NewDense(4, 4, []float64{1, 0, 0, 0, 0, 1, 0, 0, 0, 0, -1, 5200, 0, 0, 0, 1}), -1, func(theta, _ float64) float64 { return theta }},
}

// cabinAxes takes a place in the room's axes to the set's: the room's 0,0 is the middle of its front, half its depth before its middle.
func cabinAxes() *mat.Dense {
	return product(shifted(2350, 1780, 0), turnedBy(20), shifted(0, -1600, 0))
}

// Every piece of the cabin comes to where matrices of gonum take it: out of the set's axes into the room's by the inverse of the room's
// frame, over by the turn, and back.
func TestTurnedRoomByMatrices(t *testing.T) {
	frame := cabinAxes()
	var back mat.Dense
	require.NoError(t, back.Inverse(frame))
	for _, way := range ways {
		t.Run(way.words, func(t *testing.T) {
			r := rooms(t, strings.Replace(cabin, "turned lengthways", way.words, 1))[0]
			over := product(frame, way.turn, &back)
			require.InDelta(t, way.handed, handed(over), 1e-12)
			want := inCabin()
			require.Len(t, r.Pieces, len(want))
			weight, sum := 0.0, [2]float64{}
			for i, w := range want {
				p := &r.Pieces[i]
				require.Equal(t, w.name, p.Name)
				stands := product(frame, shifted(w.u, w.v, w.w), turnedBy(w.turn))
				hangs := product(over, stands)
				near(t, moved(stands, 0, 0, 0), p.Upright.T, w.name)
				near(t, moved(hangs, 0, 0, 0), p.Overhead.T, w.name)
				alike(t, stands, p.Upright, w.name)
				alike(t, hangs, p.Overhead, w.name)
				require.InDelta(t, way.handed, handed(hangs), 1e-12)
				require.Equal(t, way.handed < 0, p.Opposite)

				front, looks := moved(stands, 0, -1, 0), moved(stands, 0, 0, 0)
				theta := math.Atan2(front[1]-looks[1], front[0]-looks[0]) * 180 / math.Pi
				turn := math.Remainder(theta-(20+w.turn-90), 360)
				require.InDelta(t, 0, turn, 1e-9, "a piece at turn 0 has its front downstage")
				require.InDelta(t, 0, math.Remainder(overhead.Facing(p.Upright)-theta, 360), 1e-8, w.name)
				require.InDelta(t, 0, math.Remainder(overhead.Facing(p.Overhead)-way.facing(theta, 20), 360), 1e-8, w.name)

				lowest := min(moved(hangs, 0, 0, 0)[2], moved(hangs, 0, 0, w.height)[2])
				require.InDelta(t, lowest, p.Lowest, 1e-9, w.name)
				require.InDelta(t, lowest-300, p.Headroom, 1e-9, w.name)
				require.Len(t, p.Fixings, len(w.fixings), w.name)
				for k, f := range w.fixings {
					at := moved(hangs, f[0], f[1], 0)
					require.InDelta(t, at[0], p.Fixings[k].X, 1e-9, w.name)
					require.InDelta(t, at[1], p.Fixings[k].Y, 1e-9, w.name)
				}
				if !w.unloaded {
					c := moved(hangs, w.middle[0], w.middle[1], 0)
					weight, sum = weight+w.weight, [2]float64{sum[0] + c[0]*w.weight, sum[1] + c[1]*w.weight}
				}
			}
			require.InDelta(t, weight, r.All.Weight, 1e-9)
			require.Equal(t, []string{"wall"}, r.All.NotKnown)
			require.InDelta(t, sum[0]/weight, r.All.Centre.X, 1e-9)
			require.InDelta(t, sum[1]/weight, r.All.Centre.Y, 1e-9)
		})
	}
}

// Wherever the room lies, distances between all pairs of fixings, at the heights that they are at, are kept; what is turned twice is
// where it was.
func TestTurnedRoomKeepsDistances(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 5))
	for n := range 30 {
		way := ways[n%len(ways)]
		lies := fmt.Sprintf("at %.3f, %.3f\n    turn %.3fdeg\n    overhead %.3f %s", rng.Float64()*2e4-1e4, rng.Float64()*2e4-1e4, rng.Float64()*720-360, 3e3+rng.Float64()*5e3, way.words)
		r := rooms(t, strings.Replace(cabin, "at       2350, 1780\n    turn     20deg\n    overhead 5200 turned lengthways", lies, 1))[0]
		require.NotEqual(t, 5200.0, r.Shape.Overhead)
		var before, after, twice [][3]float64
		for i := range r.Pieces {
			p := &r.Pieces[i]
			turn := p.Copy.Places[0].Over.Turn
			for k, f := range inCabin()[i].fixings {
				up := p.Upright.Apply(geom.Vec{X: f[0], Y: f[1]})
				over := p.Overhead.Apply(geom.Vec{X: f[0], Y: f[1]})
				require.InDelta(t, over.X, p.Fixings[k].X, 1e-9)
				require.InDelta(t, over.Y, p.Fixings[k].Y, 1e-9)
				again := turn.Apply(over)
				before = append(before, [3]float64{up.X, up.Y, up.Z})
				after = append(after, [3]float64{over.X, over.Y, over.Z})
				twice = append(twice, [3]float64{again.X, again.Y, again.Z})
			}
		}
		require.Greater(t, len(before), 20)
		for i := range before {
			require.InDelta(t, 0, dist(before[i], twice[i]), 1e-9)
			for j := range i {
				require.InDelta(t, dist(before[i], before[j]), dist(after[i], after[j]), 1e-9, lies)
			}
		}
	}
}

func near(t *testing.T, want [3]float64, got geom.Vec, name string) {
	t.Helper()
	require.InDelta(t, want[0], got.X, 1e-9, name)
	require.InDelta(t, want[1], got.Y, 1e-9, name)
	require.InDelta(t, want[2], got.Z, 1e-9, name)
}

// alike compares the turns of a matrix and of a frame by where they take the three axes.
func alike(t *testing.T, want *mat.Dense, got geom.Frame, name string) {
	t.Helper()
	for i := range 3 {
		for j := range 3 {
			require.InDelta(t, want.At(i, j), got.R[i][j], 1e-12, name)
		}
	}
}

func dist(a, b [3]float64) float64 {
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}
