package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// openEdges returns what the named element leaves open.
func openEdges(t testing.TB, s *set.Set, name string) fall {
	t.Helper()
	sc := solid.NewScene(s)
	look := &edgeLook{scene: sc, book: &english}
	if s.Units.Imperial() {
		look.book = &american
	}
	var f fall
	for i := range sc.Pieces {
		if p := &sc.Pieces[i]; p.Element.Name == name && p.Position == "" {
			f.join(look.piece(p, ""))
		}
	}
	return f
}

func requireFall(t testing.TB, drop, length float64, got fall, what string) {
	t.Helper()
	require.InDelta(t, drop, got.drop, 0.1, what)
	require.InDelta(t, length, got.length, 0.1, what)
}

func deckOf(w, d, height float64) *set.Platform {
	return &set.Platform{Outline: rect(w, d), Height: height}
}

// The kiosk's deck: eight edges of 1988.2 less the steps' 1800 and the ramp's 1200.
func TestKioskEdges(t *testing.T) {
	s := kiosk(t)
	edge := 4800 * math.Tan(math.Pi/8)
	require.InDelta(t, 1988.2, edge, 0.05)
	requireFall(t, 450, 8*edge-1800-1200, openEdges(t, s, "deck"), "deck")
	// The sides of the two treads, 300 deep each.
	requireFall(t, 300, 4*300, openEdges(t, s, "front"), "steps")
	// The sides of the ramp where it is over 380: from 380/450 of its length on.
	requireFall(t, 450, 2*3600*(1-380.0/450), openEdges(t, s, "back"), "ramp")
	c := only(t, of(s.Elements[0]), "EDGE-OPEN")
	require.Contains(t, c.Message, "over the 380 mm of floors of other buildings than dwellings, within what dwellings allow")
	require.Contains(t, c.Source, adkFloor)
}

func TestWhatClosesAnEdge(t *testing.T) {
	deck := element("deck", deckOf(4000, 2000, 900), place(0, 1000, 0, 0))
	all := 2*4000.0 + 2*2000
	wall := func(height float64, openings ...set.Opening) *set.Flat {
		return &set.Flat{Length: 4000, Height: height, Thickness: 45, Openings: openings}
	}
	door := set.Opening{Word: "door", At: 600, Width: 800, Height: 2000}
	window := set.Opening{Word: "window", At: 600, Width: 800, Height: 600, Sill: 1100}
	behind := place(-2000, 2000, 0, 0)
	for _, tc := range []struct {
		what   string
		beside *set.Element
		open   float64
		drop   float64
	}{
		{"nothing", nil, all, 900},
		{"a wall on the floor behind the back edge, as high as a guard over the deck", element("wall", wall(2000), behind), all - 4000, 900},
		{"one that is not as high: 1100 over 900", element("wall", wall(1990), behind), all, 900},
		{"a wall on the deck along its back edge", element("wall", wall(1100), place(-2000, 1955, 900, 0)), all - 4000 - 2*45, 900},
		{"a wall 200 in from the edge", element("wall", wall(1100), place(-2000, 1755, 900, 0)), all - 4000 - 2*45, 900},
		{"a wall in the middle of the deck keeps nobody from the edges beyond its ends", element("wall", wall(1100), place(-2000, 1000, 900, 0)), all - 2*45, 900},
		{"a wall 150 behind the edge", element("wall", wall(2400), place(-2000, 2150, 0, 0)), all, 900},
		{"a door in the wall", element("wall", wall(3000, door), place(-2000, 1955, 900, 0)), all - 4000 + 800 - 2*45, 900},
		{"a window with a sill as high as a guard", element("wall", wall(2400, window), place(-2000, 1955, 900, 0)), all - 4000 - 2*45, 900},
		{"a wall that hangs 1000 over the deck", element("wall", wall(1200), place(-2000, 1955, 1900, 0)), all, 900},
		{"a deck of the same height", element("next", deckOf(4000, 2000, 900), place(0, 3000, 0, 0)), all - 4000, 900},
		{"one with a gap of 80", element("next", deckOf(4000, 2000, 900), place(0, 3080, 0, 0)), all - 4000, 900},
		{"one with a gap of 120", element("next", deckOf(4000, 2000, 900), place(0, 3120, 0, 0)), all, 900},
		{"one 300 lower", element("next", deckOf(4000, 2000, 600), place(0, 3000, 0, 0)), all - 4000, 900},
		{"one 400 lower", element("next", deckOf(4000, 2000, 500), place(0, 3000, 0, 0)), all, 900},
		{"one 300 higher", element("next", deckOf(4000, 2000, 1200), place(0, 3000, 0, 0)), all - 4000, 900},
		{"one overhead", element("next", deckOf(4000, 2000, 300), place(0, 3000, 3000, 0)), all, 900},
		{"half as wide", element("next", deckOf(1500, 2000, 900), place(0, 3000, 0, 0)), all - 1500, 900},
		{"turned by 90°", element("next", deckOf(2000, 1500, 900), place(0, 3000, 0, 90)), all - 1500, 900},
		{"a post", element("post", &set.Post{Outline: circle(200), Diameter: 200, Height: 900}, place(0, 2100, 0, 0)), all, 900},
		{"a ring kerb beside it", element("kerb", &set.Ring{Outer: rect(4000, 300), Height: 900}, place(0, 2150, 0, 0)), all - 4000, 900},
		{"another deck on it, flush with three edges", element("upper", deckOf(1000, 2000, 300), place(-1500, 1000, 900, 0)), all - 2*1000 - 2000, 900},
		{"a ramp up to it", element("ramp", &set.Ramp{Length: 9000, Rise: 900, Width: 1200}, place(0, 11000, 0, 180)), all - 1200, 900},
	} {
		s := of(deck)
		if tc.beside != nil {
			s.Elements = append(s.Elements, tc.beside)
		}
		requireFall(t, tc.drop, tc.open, openEdges(t, s, "deck"), tc.what)
	}
}

// A ramp beside a deck closes its edge as far as it is less than 380 below.
func TestARampBesideAnEdge(t *testing.T) {
	deck := element("deck", deckOf(4000, 2000, 900), place(2000, 1000, 0, 0))
	// Along the front edge, rising from 0 at x 0 to 900 at x 4000.
	beside := element("ramp", &set.Ramp{Length: 4000, Rise: 900, Width: 1000}, place(0, -500, 0, -90))
	got := openEdges(t, of(deck, beside), "deck")
	requireFall(t, 900, 2*2000+4000+4000*520.0/900, got, "deck")
}

// The rim of a hole is an edge; what lies in the hole closes it.
func TestHolesHaveEdges(t *testing.T) {
	// A ring is not walked; a platform has no hole, so that the rim is made by four decks about a well.
	var decks []*set.Element
	for i, p := range []geom.Point{{X: 0, Y: -1500}, {X: 0, Y: 1500}, {X: -1500, Y: 0}, {X: 1500, Y: 0}} {
		w, d := 4000.0, 1000.0
		if i > 1 {
			w, d = 1000, 2000
		}
		decks = append(decks, element("deck"+string(rune('a'+i)), deckOf(w, d, 800), place(p.X, p.Y, 0, 0)))
	}
	s := of(decks...)
	total := fall{}
	for _, d := range decks {
		total.join(openEdges(t, s, d.Name))
	}
	requireFall(t, 800, 4*4000+4*2000, total, "outside and well")
}

// The length of an open edge does not depend on where the set stands and how it is turned.
func TestEdgesTurnWithTheSet(t *testing.T) {
	for _, turn := range []float64{0, 17, 45, 90, 133, 251} {
		m := geom.Upright(geom.Point{X: 321, Y: -77}, 0, turn)
		s := kiosk(t)
		want := map[string]fall{}
		for _, e := range s.Elements {
			want[e.Name] = openEdges(t, s, e.Name)
		}
		for _, e := range s.Elements {
			for i := range e.Copies {
				f := &e.Copies[i].Places[0].Frame
				*f = f.Then(m)
			}
		}
		for _, e := range s.Elements {
			got := openEdges(t, s, e.Name)
			requireFall(t, want[e.Name].drop, want[e.Name].length, got, e.Name)
		}
	}
}

// One caution an element and position; a position that changes nothing at an edge says nothing.
func TestPositions(t *testing.T) {
	deck := element("deck", deckOf(4000, 2000, 900), place(0, 1000, 0, 0))
	far := element("far", deckOf(500, 500, 900), place(9000, 0, 0, 0))
	cart := element("cart", deckOf(4000, 2000, 900), place(0, 3000, 0, 0))
	away := place(0, 8000, 0, 0)
	away.Position = "scene 2"
	cart.Copies[0].Places = append(cart.Copies[0].Places, away)
	var got []string
	for _, c := range Check(of(deck, far, cart)) {
		got = append(got, c.Element+" "+c.Code+" "+c.Figure)
	}
	require.Equal(t, []string{
		"deck EDGE-OPEN 900 mm of drop, 8000 mm of open edge",
		"deck (scene 2) EDGE-OPEN 900 mm of drop, 12000 mm of open edge",
		"far EDGE-OPEN 900 mm of drop, 2000 mm of open edge",
		"cart EDGE-OPEN 900 mm of drop, 8000 mm of open edge",
		"cart (scene 2) EDGE-OPEN 900 mm of drop, 12000 mm of open edge",
	}, got)
}

// 29 CFR 1910.28(b)(11) 4 ft, model code 30 in.
func TestAmericanDrop(t *testing.T) {
	require.False(t, has(inFeet(of(element("deck", deckOf(4000, 2000, 30*inch), place(0, 0, 0, 0)))), "EDGE-OPEN"))
	c := only(t, inFeet(of(element("deck", deckOf(8*foot, 4*foot, 40*inch), place(0, 0, 0, 0)))), "EDGE-OPEN")
	require.Equal(t, `3'-4" of drop, 24'-0" of open edge`, c.Figure)
	require.Contains(t, c.Message, `over the 2'-6" of floors and landings of buildings, within what landings at work allow`)
}

// The climb of crates: every block's sides, and what stands out beside the block below.
func TestCratesEdges(t *testing.T) {
	s := crates()
	require.Equal(t, 1305.0, openEdges(t, s, "climb").drop)
	requireFall(t, 1460, 2440+2*1220+2440-1050, openEdges(t, s, "deck"), "deck")
}
