package setout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

func find(t *testing.T, list []Clearance, from, to string) Clearance {
	t.Helper()
	for _, c := range list {
		if c.From == from && c.To == to || c.From == to && c.To == from {
			return c
		}
	}
	require.Fail(t, "no such pair", "%s, %s in %v", from, to, list)
	return Clearance{}
}

// Neighbouring bollards are 2174.1 apart from centre to centre, a chord of 30° in a circle of radius 4200: 60 less between
// their sides.
func TestNeighbours(t *testing.T) {
	s := kiosk(kioskDeck(), frontSteps(), backRamp(), posts(), bollards())
	list := Clearances(s)
	for _, c := range list {
		require.Equal(t, Neighbour, c.Asked)
		require.GreaterOrEqual(t, c.Clear, apart)
		require.InDelta(t, c.Clear, c.A.Dist(c.B), 0.01)
	}
	chord := 2 * 4200 * math.Sin(15*math.Pi/180)
	require.InDelta(t, 2174.1, chord, 0.05)
	require.InDelta(t, chord-60, find(t, list, "bollard.1", "bollard.2").Clear, 1e-6)
	// A bollard at 15° is 4200·cos(7.5°) from the line of the deck's flat at 22.5° … it stands off the flat at 0° by
	// 4200·cos(15°) − 2400 − 30 where its foot falls within the flat: 4200·sin(15°) = 1087 does not, so its corner is nearest.
	corner := pt(2400, 994.113)
	require.InDelta(t, pt(4200*math.Cos(15*math.Pi/180), 4200*math.Sin(15*math.Pi/180)).Dist(corner)-30, find(t, list, "deck", "bollard.1").Clear, 0.01)
	// The canopy posts stand on the deck: they share no height with it.
	for _, c := range list {
		require.False(t, c.From == "deck" && c.To[:2] == "ca" || c.To == "deck" && c.From[:2] == "ca")
	}
	require.LessOrEqual(t, len(list), 2*len(s.Elements))
}

func TestKeepAndDim(t *testing.T) {
	s := kiosk(kioskDeck(), bollards(), posts())
	s.Keeps = []set.Keep{{A: "deck", B: "bollard", AtLeast: 1800}, {A: "bollard.3", B: "bollard.4", AtLeast: 2000}, {A: "deck", B: "gone", AtLeast: 1}}
	whole := func(name string) set.Anchor { return set.Anchor{Words: name, Element: name, Whole: true} }
	s.Dims = []set.Dim{
		{A: set.Anchor{Words: "deck.front", Element: "deck", At: pt(0, 1200)}, B: set.Anchor{Words: "0, 0"}},
		{A: whole("deck"), B: set.Anchor{Words: "0, 0"}},
		{A: whole("bollard.3"), B: whole("bollard.4")},
		{A: whole("canopy"), B: whole("deck")},
	}
	list := Clearances(s)[:6]
	require.Equal(t, Keep, list[0].Asked)
	require.Equal(t, 1800.0, list[0].AtLeast)
	require.Equal(t, "deck", list[0].From)
	require.Equal(t, "bollard.1", list[0].To, "of equal ones the first")
	require.InDelta(t, 2114.1, list[1].Clear, 0.05)
	require.InDelta(t, 1200, list[2].Clear, 1e-9)
	require.Equal(t, "deck.front", list[2].From)
	require.InDelta(t, 1200, list[3].Clear, 1e-6)
	require.InDelta(t, 2114.1, list[4].Clear, 0.05)
	require.Equal(t, 0.0, list[5].Clear, "on the plan the posts stand on it")
}

// A cart that moves is measured in each of its positions with what is there then.
func TestPositions(t *testing.T) {
	cart := &set.Element{Name: "cart", Shape: &set.Platform{Outline: rect(1000, 1000), Height: 300}, Copies: at(0, 0, 0, 0)}
	cart.Copies[0].Places = append(cart.Copies[0].Places, set.Place{Position: "scene 2", Frame: geom.Upright(pt(5000, 0), 0, 0)})
	crate := &set.Element{Name: "crate", Shape: &set.Platform{Outline: rect(1000, 1000), Height: 300}, Copies: at(7000, 0, 0, 0)}
	crate.Copies[0].Places = append(crate.Copies[0].Places, set.Place{Position: "scene 2", Frame: geom.Upright(pt(9000, 0), 0, 0)})
	list := Clearances(&set.Set{Elements: []*set.Element{cart, crate}})
	require.Len(t, list, 1)
	require.Equal(t, "cart (scene 2)", list[0].From)
	require.Equal(t, "crate (scene 2)", list[0].To)
	require.InDelta(t, 3000, list[0].Clear, 1e-9, "the cart's scene 2 and the crate's first place are never there together")
}

// The tree finds what looking at every pair finds.
func TestNeighboursAgainstAll(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 3 {
		s := &set.Set{}
		for i := range 24 {
			e := &set.Element{Name: fmt.Sprintf("p%d", i), Shape: &set.Platform{Outline: rect(100+rnd.Float64()*2000, 100+rnd.Float64()*500), Height: 300}}
			if i%2 == 0 {
				e.Shape = &set.Post{Outline: circle(200), Diameter: 200, Height: 200}
			}
			e.Copies = at(rnd.Float64()*12000, rnd.Float64()*9000, float64(rnd.IntN(3))*150, rnd.Float64()*360)
			s.Elements = append(s.Elements, e)
		}
		list := bodies(s)
		got := Clearances(s)
		for i := range list {
			least, with := math.Inf(1), -1
			for k := range list {
				if i == k || !list[i].besides(&list[k]) {
					continue
				}
				if d, _, _ := geom.Distance(list[i].regions[0], list[k].regions[0]); d >= apart && d < least {
					least, with = d, k
				}
			}
			if with >= 0 {
				require.InDelta(t, least, find(t, got, list[i].name, list[with].name).Clear, 0.002)
			}
		}
	}
}

func TestMeasures(t *testing.T) {
	ring := &set.Element{Name: "kerb", Shape: &set.Ring{Outer: circle(900), Inner: func() *set.Outline { o := circle(600); return &o }(), Height: 450}, Copies: at(0, 0, 100, 0)}
	got := map[string]Measure{}
	for _, m := range Measures(kiosk(kioskDeck(), frontSteps(), bollards(), ring, pin(0, 0))) {
		got[m.Element] = m
	}
	require.NotContains(t, got, "pin")
	// Octagon of side s: area 4.828427 s², s = 0.414214 across flats (published polygon factors).
	side := 0.414214 * 4800
	require.InDelta(t, 4.828427*side*side, got["deck"].Area, 50)
	require.InDelta(t, 8*1988.2, got["deck"].Perimeter, 0.5)
	require.InDelta(t, 450, got["deck"].Top, 1e-9)
	require.InDelta(t, 600*1800, got["front"].Area, 1e-3)
	require.InDelta(t, 2*(600+1800), got["front"].Perimeter, 1e-3)
	require.InDelta(t, math.Pi/4*(900*900-600*600), got["kerb"].Area, 1e-3)
	require.InDelta(t, math.Pi*1500, got["kerb"].Perimeter, 1e-3)
	require.InDelta(t, 550, got["kerb"].Top, 1e-9)
	require.InDelta(t, 72e6, got["quay_hall"].Area, 1)
}

func BenchmarkClearances(b *testing.B) {
	for _, n := range []int{1000, 2000, 4000} {
		s := scattered(n, 50*math.Sqrt(float64(n)*180), 50*math.Sqrt(float64(n)*180), 0, 1)
		b.Run(fmt.Sprintf("%d pieces", n), func(b *testing.B) {
			for b.Loop() {
				Clearances(s)
			}
		})
	}
}
