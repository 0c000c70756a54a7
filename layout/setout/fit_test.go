package setout

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

func fitSet(h *set.Element, elements ...*set.Element) *set.Set {
	return &set.Set{Name: "fit", Hall: h, Elements: append([]*set.Element{h}, elements...)}
}

// hallOf is a hall whose axes are the set's.
func hallOf(o set.Outline, pillars ...set.Outline) *set.Element {
	h := &set.Hall{Outline: o}
	for _, p := range pillars {
		h.Pillars = append(h.Pillars, set.Pillar{Outline: p})
	}
	return &set.Element{Name: "hall", Kind: "hall", Shape: h, Copies: at(0, 0, 0, 0)}
}

func deckOf(o set.Outline, x, y, turn float64) *set.Element {
	name := fmt.Sprintf("deck%g", x)
	return &set.Element{Name: name, Kind: "platform", Shape: &set.Platform{Outline: o, Height: 300}, Copies: at(x, y, 0, turn)}
}

func ringAbout(outer, inner float64) *set.Element {
	in := circle(inner)
	return &set.Element{Name: "ring", Kind: "ring", Shape: &set.Ring{Outer: circle(outer), Inner: &in, Height: 200}, Copies: at(0, 0, 0, 0)}
}

func polygon(xy ...float64) set.Outline {
	var pts []geom.Point
	for i := 0; i < len(xy); i += 2 {
		pts = append(pts, pt(xy[i], xy[i+1]))
	}
	return set.Outline{Form: "points", Path: geom.Polygon(pts)}
}

func moved(o set.Outline, x, y float64) set.Outline {
	o.Path = o.Path.Transform(geom.Move(pt(x, y), 0))
	return o
}

// corner is an L of two arms, along x and along y from 0,0.
func corner(long, wide float64) set.Outline {
	return polygon(0, 0, long, 0, long, wide, wide, wide, wide, long, 0, long)
}

// The figures are by hand.
func TestFitHall(t *testing.T) {
	triangle := polygon(0, 0, 4000, 0, 2000, 2000*math.Sqrt(3))
	for name, c := range map[string]struct {
		set    *set.Set
		margin float64
		want   Fit
	}{
		"stands in the middle": {fitSet(hallOf(rect(8000, 10000)), deckOf(rect(5000, 9000), 0, 0, 0)), 100,
			Fit{Fits: true, Clear: 500, Stands: 500}},
		"shifted": {fitSet(hallOf(rect(8000, 10000)), deckOf(rect(5000, 9000), 1450, -250, 0)), 100,
			Fit{Fits: true, Shift: pt(-50, 0), Clear: 100, Stands: 50}},
		// Turned by t it is 9000 sin t + 5000 cos t deep, which is 9800 at t = atan 9/5 + acos(9800/10295.6) = 60.945° + 17.847°.
		"turned": {fitSet(hallOf(rect(8000, 10000)), deckOf(rect(9000, 5000), 0, 0, 0)), 100,
			Fit{Fits: true, Turn: 78.8, Clear: 100, Stands: -500}},
		// 9000 cos t is 7800 at t = 29.93°.
		"long and thin": {fitSet(hallOf(rect(8000, 9200)), deckOf(rect(9000, 1), 0, 0, 0)), 100,
			Fit{Fits: true, Turn: 30, Clear: 100, Stands: -500}},
		"margin of 50": {fitSet(hallOf(rect(6100, 4100)), deckOf(rect(6000, 4000), 0, 0, 0)), 50,
			Fit{Fits: true, Clear: 50, Stands: 50}},
		"no margin of 100": {fitSet(hallOf(rect(6100, 4100)), deckOf(rect(6000, 4000), 10, 0, 0)), 100,
			Fit{Shift: pt(-10, 0), Clear: 50, Stands: 40, NoTurn: true, Wide: "deck10", Needs: 4000, Width: 4100}},
		// The disc's middle goes 1000 + 200 + 100 from the pillar's.
		"pillar": {fitSet(hallOf(rect(5000, 5000), circle(400)), deckOf(circle(2000), 0, -1200, 0)), 100,
			Fit{Fits: true, Shift: pt(0, -100), Clear: 100, Stands: 0}},
		"square pillar under a deck": {fitSet(hallOf(rect(6000, 6000), moved(rect(400, 400), 1000, 0)), deckOf(rect(2000, 2000), 500, 0, 0)), 100,
			Fit{Fits: true, Shift: pt(-800, 0), Clear: 100, Stands: -200}},
		"pillar within a ring": {fitSet(hallOf(rect(5000, 5000), circle(400)), ringAbout(3000, 2000)), 100,
			Fit{Fits: true, Clear: 800, Stands: 800}},
		// An L in an L, its arms to the other sides. Each arm, 9000 by 3500 in 3800, may be askew by t with 9000 sin t + 3500 cos t = 3800,
		// which is 1.92°: 178.1° is the first tenth. Its far corner stands 5100 upstage of the arm along x.
		"L turned": {fitSet(hallOf(corner(10000, 4000)), deckOf(corner(9000, 3500), 9100, 9100, 180)), 100,
			Fit{Fits: true, Turn: 178.1, Clear: 100, Stands: -5100}},
		"L as it stands": {fitSet(hallOf(corner(10000, 4000)), deckOf(corner(9000, 3000), 300, 400, 0)), 100,
			Fit{Fits: true, Clear: 300, Stands: 300}},
		// Its hull would lie over the corner at 4000, 4000.
		"L shifted": {fitSet(hallOf(corner(10000, 4000)), deckOf(corner(9000, 3000), 300, 950, 0)), 100,
			Fit{Fits: true, Shift: pt(0, -50), Clear: 100, Stands: 50}},
		"pillar in the way": {fitSet(hallOf(rect(5000, 5000), circle(400)), deckOf(circle(4000), 0, 0, 0)), 100,
			Fit{Clear: -200, Stands: -200, NoTurn: true}},
		// Neither is too wide for 4000, and together they are.
		"wide together": {fitSet(hallOf(rect(9000, 4000)), deckOf(rect(3000, 3000), 0, 0, 0), deckOf(rect(3000, 3000), 1500, 1500, 0)), 0,
			Fit{NoTurn: true, Stands: -1000, Needs: 3000 * math.Sqrt2}},
		// An equilateral triangle of 4000 stands in a square of 4000 cos 15° = 3863.703 and in no smaller one.
		"triangle": {fitSet(hallOf(rect(3864, 3864)), deckOf(triangle, 0, 0, 0)), 0,
			Fit{Fits: true, Turn: 15, Shift: pt(-1932, -1932), Clear: 0, Stands: -2068}},
		"triangle too large": {fitSet(hallOf(rect(3863, 3863)), deckOf(triangle, 0, 0, 0)), 0,
			Fit{NoTurn: true, Stands: -2068.5}},
		"nothing to fit": {fitSet(hallOf(rect(3000, 3000)), pin(9000, 0)), 100,
			Fit{Fits: true, Clear: math.Inf(1), Stands: math.Inf(1)}},
	} {
		t.Run(name, func(t *testing.T) {
			got, want := FitHall(c.set, c.margin), c.want
			t.Logf("%+v", *got)
			require.Equal(t, want.Fits, got.Fits)
			require.InDelta(t, want.Stands, got.Stands, 0.05)
			require.Equal(t, want.NoTurn, got.NoTurn)
			require.Equal(t, want.Wide, got.Wide)
			require.InDelta(t, want.Needs, got.Needs, 1e-6)
			if want.Fits {
				require.InDelta(t, want.Turn, got.Turn, 1e-9)
				require.GreaterOrEqual(t, got.Clear, c.margin-fitExact)
				require.Empty(t, got.Outside)
			}
			if want.Turn == 0 && !want.NoTurn {
				require.Less(t, got.Shift.Dist(want.Shift), 1e-9, got.Shift)
				require.InDelta(t, want.Clear, got.Clear, 0.05)
			}
		})
	}
	require.Nil(t, FitHall(&set.Set{}, 100))
}

// The bollards stand on a ring of 4200, the nearest to an axis 15° off it: 8400 cos 15° + 60 is the least width of their ring too.
func TestFitKiosk(t *testing.T) {
	got := FitHall(fitSet(hall(0), kioskDeck(), frontSteps(), bollards()), 100)
	require.False(t, got.Fits)
	require.True(t, got.NoTurn)
	require.Equal(t, "bollard", got.Wide)
	require.InDelta(t, 8400*math.Cos(math.Pi/12)+60, got.Needs, 1e-6)
	require.InDelta(t, 8173.8, got.Needs, 0.05)
	require.InDelta(t, 8000, got.Width, 1e-6)
	require.InDelta(t, -86.9, got.Clear, 0.05)
	require.Len(t, got.Outside, 4)
}
