package layout_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// galley is a room with the figures of a transfer worked by hand: overhead places and weights from a decorator's own table
// (invented; the sums are checked by arithmetic alone).
const galley = `set "Capsized galley"
    units mm

room galley
    outline  rect 4200 x 3600
    at       0, 1800
    overhead 4900 turned lengthways
    stand    600
    headroom 2400

dressing locker
    in       galley
    at       1500, 3350
    size     600 x 400
    height   2050
    weight   38kg

dressing table
    in       galley
    at       -650, 1900
    outline  circle 900
    height   740
    weight   18kg
    fixings  -300,0 300,0

dressing plates
    stack    14
    on       table
    at       -650, 1900
    outline  circle 240
    height   160 / 14
    weight   all 3.5kg
    loose
`

func TestRoomOverhead(t *testing.T) {
	// The locker goes to x −1500, its lowest point at 4900 − 2050 = 2850; crossways it would stay at 1500 and go to y 3600 − 3350.
	for how, at := range map[string]geom.Point{
		"turned lengthways": {X: -1500, Y: 3350}, "turned crossways": {X: 1500, Y: 250}, "mirrored": {X: 1500, Y: 3350},
	} {
		s := open(t, strings.Replace(galley, "turned lengthways", how, 1))
		pl := s.Find("locker").Copies[0].Places[0]
		require.InDelta(t, at.X, pl.Frame.T.X, 1e-9, how)
		require.InDelta(t, at.Y, pl.Frame.T.Y, 1e-9, how)
		require.InDelta(t, 2850, pl.Level(), 1e-9, how)
		require.InDelta(t, 4900, set.Top(s.Find("locker"), pl), 1e-9, how)
		require.Equal(t, how == "mirrored", pl.Over.Mirrored)
		up := pl.Upright()
		require.InDelta(t, 1500, up.T.X, 1e-9)
		require.InDelta(t, 3350, up.T.Y, 1e-9)
		require.InDelta(t, 0, up.T.Z, 1e-9)
	}
	s := open(t, galley)
	plates := s.Find("plates")
	require.Len(t, plates.Copies, 14)
	require.InDelta(t, 0.25, plates.Shape.(*set.Dressing).Weight, 1e-12)
	require.InDelta(t, 4000, plates.Copies[13].Places[0].Level(), 1e-9, "the stack reaches 900 above the floor that hangs at 4900")
}

// The turn of a room anywhere on the plan is an isometry of space, a reflection only where it is mirrored, and made twice it gives
// the start.
func TestRoomTurnIsAnIsometry(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		r := &set.Room{Turned: set.Turned(1 + rng.IntN(3)), Overhead: 3000 + rng.Float64()*4000}
		r.Outline.Path = geom.Rectangle(1000+rng.Float64()*5000, 1000+rng.Float64()*5000)
		f := r.Turn()
		at := func() geom.Vec {
			return geom.Vec{X: rng.Float64()*1e4 - 5e3, Y: rng.Float64()*1e4 - 5e3, Z: rng.Float64() * 3000}
		}
		p, q := at(), at()
		require.InDelta(t, apart(p, q), apart(f.Apply(p), f.Apply(q)), 1e-9)
		require.InDelta(t, 0, apart(p, f.Apply(f.Apply(p))), 1e-9)
		det := f.R[0][0] * f.R[1][1] * f.R[2][2]
		require.Equal(t, r.Turned == set.Mirrored, det < 0)
	}
}

func apart(p, q geom.Vec) float64 {
	d := geom.Vec{X: p.X - q.X, Y: p.Y - q.Y, Z: p.Z - q.Z}
	return geom.Point{X: geom.Point{X: d.X, Y: d.Y}.Len(), Y: d.Z}.Len()
}
