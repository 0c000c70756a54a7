package overhead_test

import (
	"errors"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
)

type one string

func (o one) Open(name string) (io.ReadCloser, error) {
	if name != "x.markout" {
		return nil, errors.New("there is no such file")
	}
	return io.NopCloser(strings.NewReader(string(o))), nil
}

func rooms(t testing.TB, text string) []*overhead.Room {
	t.Helper()
	s, list := layout.Open(one(text), "x.markout", layout.Options{})
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	return overhead.Rooms(s)
}

// A decorator's list of one room, its sums worked by hand: 192.5 kg, centre of gravity (−67 375, 524 520) / 192.5 = (−350, 2724.8).
const galley = `set "Capsized galley"
room galley
    outline  rect 4200 x 3600
    at       0, 1800
    overhead 4900 turned lengthways
    stand    600
dressing mat
    in galley
    at 0, 2100
    size 1200 x 800
    height 20
    weight 6kg
    soft
dressing mess_table
    in galley
    at -650, 1900
    outline circle 900
    height 740
    weight 18kg
    fixings -300,-200 300,-200 0,300
dressing plate
    stack 14
    on mess_table
    at -650, 1900
    outline circle 240
    height 160 / 14
    weight all 3.5kg
    loose
dressing bench_left
    in galley
    at -1450, 1750
    size 350 x 900
    height 980
    weight 22kg
dressing bench_right
    in galley
    at 350, 1500
    size 350 x 900
    height 980
    weight 22kg
dressing locker
    in galley
    at 1500, 3350
    size 600 x 400
    height 2050
    weight 38kg
dressing dresser
    in galley
    at -1300, 3350
    size 1200 x 450
    height 1800
    weight 41kg
dressing crockery
    on dresser
    at -1300, 3350
    size 1000 x 300
    height 1
    weight 32kg
    loose
dressing stove_pipe
    in galley
    at 1450, 2300
    outline circle 150
    height 1600
    weight 6kg
dressing chart
    in galley
    at 0, 3480
    size 800 x 20
    level 1050
    height 500
    weight 4kg
`

func TestGalley(t *testing.T) {
	r := rooms(t, galley)[0]
	require.InDelta(t, 192.5, r.All.Weight, 1e-9)
	require.False(t, r.All.AtLeast())
	require.InDelta(t, 350, r.All.Centre.X, 1)
	require.InDelta(t, 2725, r.All.Centre.Y, 1)
	across := rooms(t, strings.Replace(galley, "lengthways", "crossways", 1))[0]
	require.InDelta(t, -350, across.All.Centre.X, 1)
	require.InDelta(t, 875, across.All.Centre.Y, 1)
	mirrored := rooms(t, strings.Replace(galley, "turned lengthways", "mirrored", 1))[0]
	require.InDelta(t, -350, mirrored.All.Centre.X, 1)
	for _, p := range mirrored.Pieces {
		require.True(t, p.Opposite)
	}

	by := map[string]*overhead.Piece{}
	for i := range r.Pieces {
		by[r.Pieces[i].Name] = &r.Pieces[i]
	}
	require.InDelta(t, -1500, by["locker"].Overhead.T.X, 1e-9)
	require.InDelta(t, 2850, by["locker"].Lowest, 1e-9)
	require.InDelta(t, 2250, by["locker"].Headroom, 1e-9)
	require.InDelta(t, 3350, by["chart"].Lowest, 1e-9)
	require.InDelta(t, 21.5, by["mess_table"].Load, 1e-9, "the table and 14 plates")
	require.InDelta(t, 73, by["dresser"].Load, 1e-9, "the dresser and its crockery")
	require.InDelta(t, 0.25*13, by["plate.2"].Load, 1e-9, "a plate carries those that stood on it")
	share, ok := by["mess_table"].Shared()
	require.True(t, ok)
	require.InDelta(t, 21.5/3, share, 1e-9)
	_, ok = by["locker"].Shared()
	require.False(t, ok, "no places of its fixings are known")
	require.Equal(t, 2, by["mess_table"].Tag)
	require.Equal(t, 3, by["plate.1"].Tag)
	require.Equal(t, 17, by["bench_left"].Tag)

	unweighed := rooms(t, strings.Replace(galley, "    weight 38kg\n", "", 1))[0]
	require.True(t, unweighed.All.AtLeast())
	require.Equal(t, []string{"locker"}, unweighed.All.NotKnown)
	require.InDelta(t, 154.5, unweighed.All.Weight, 1e-9)
}

// Facings by the formula: in a room at turn τ a facing θ becomes 180° − θ + 2τ lengthways, −θ + 2τ crossways, θ mirrored.
func TestFacings(t *testing.T) {
	for how, want := range map[string]func(theta, tau float64) float64{
		"turned lengthways": func(theta, tau float64) float64 { return 180 - theta + 2*tau },
		"turned crossways":  func(theta, tau float64) float64 { return -theta + 2*tau },
		"mirrored":          func(theta, _ float64) float64 { return theta },
	} {
		text := "set \"x\"\nroom r\n    outline rect 4000 x 3000\n    at 900, -700\n    turn 20deg\n    overhead 5000 " + how +
			"\ndressing d\n    in r\n    at 700, 400\n    turn 35deg\n    size 500 x 300\n    height 800\n"
		p := rooms(t, text)[0].Pieces[0]
		theta := overhead.Facing(p.Upright)
		require.InDelta(t, 325, theta, 1e-9) // downstage 270, turned 35 in a room turned 20
		got := overhead.Facing(p.Overhead)
		diff := got - want(theta, 20)
		for diff < -180 {
			diff += 360
		}
		for diff > 180 {
			diff -= 360
		}
		require.InDelta(t, 0, diff, 1e-9, how)
	}
}

// The load is withheld where its centre lies outside its fixings.
func TestSharedLoads(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		p := overhead.Piece{Load: 12, LoadKnown: true, Is: set.Measured, LoadCentre: geom.Point{X: rng.Float64() * 100, Y: rng.Float64() * 100}}
		for range 3 {
			p.Fixings = append(p.Fixings, geom.Point{X: rng.Float64() * 100, Y: rng.Float64() * 100})
		}
		_, ok := p.Shared()
		require.Equal(t, inTriangle(p.LoadCentre, p.Fixings), ok)
	}
}

// What stands on one end of a piece moves the centre of gravity of its load: by hand (10·0 + 90·800)/100 = 720 from the middle, outside
// fixings at ±500, where the piece's own middle lies between them.
func TestLoadCentreIsThatOfAllThatIsCarried(t *testing.T) {
	const shelf = "set \"x\"\nroom r\n    outline rect 4000 x 3000\n    at 0, 1500\n    overhead 5000 turned lengthways\n" +
		"dressing shelf\n    in r\n    at 0, 1000\n    size 1800 x 400\n    height 40\n    weight 10kg\n    fixings -500,-100 500,-100 500,100 -500,100\n" +
		"dressing anvil\n    on shelf\n    at 800, 1000\n    size 200 x 200\n    height 200\n"
	r := rooms(t, shelf+"    weight 90kg\n")[0]
	p := &r.Pieces[0]
	require.InDelta(t, 100, p.Load, 1e-9)
	require.InDelta(t, -720, p.LoadCentre.X, 1e-9, "turned lengthways")
	require.InDelta(t, 1000, p.LoadCentre.Y, 1e-9)
	_, ok := p.Shared()
	require.False(t, ok, "its own middle is between its fixings, that of its load is not")

	light := rooms(t, shelf+"    weight 5kg\n")[0]
	each, ok := light.Pieces[0].Shared()
	require.True(t, ok)
	require.InDelta(t, 15.0/4, each, 1e-9)
}

// inTriangle tells by the signs of the three areas.
func inTriangle(q geom.Point, c []geom.Point) bool {
	side := func(a, b geom.Point) bool { return b.Sub(a).Cross(q.Sub(a)) >= 0 }
	one, two, three := side(c[0], c[1]), side(c[1], c[2]), side(c[2], c[0])
	return one == two && two == three
}
