package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// A soffit at 3300 over the eighth crate, whose top is at 1305, leaves 1995: 5 less than the 2000 of Approved Document K.
func TestCratesUnderASoffit(t *testing.T) {
	s := crates()
	// The eighth tread runs from y 1200 + 2200 to 1200 + 2510.
	soffit := element("soffit", &set.Panel{Outline: rect(3000, 900), Thickness: 50}, place(0, 1200+2200+450+200, 3300, 0))
	s.Elements = append(s.Elements, soffit)
	c := only(t, s, "HEADROOM")
	require.Equal(t, "climb", c.Element)
	require.Equal(t, "1995 mm", c.Figure)
	require.Equal(t, "at least 2000 mm (stairs and ramps)", c.Limit)
	require.Contains(t, c.Message, "over tread 8 the underside of soffit leaves 1995 mm")
	// 5 higher is enough; beside the treads there is nothing to say.
	soffit.Copies[0].Places[0] = place(0, 1200+2200+450+200, 3305, 0)
	require.False(t, has(s, "HEADROOM"))
	soffit.Copies[0].Places[0] = place(5000, 1200+2200+450+200, 3000, 0)
	require.False(t, has(s, "HEADROOM"))
	// Where it only touches the line between tread 8 and the deck, nothing is under it but the deck.
	soffit.Copies[0].Places[0] = place(0, 1200+2510+450, 3300, 0)
	require.False(t, has(s, "HEADROOM"))
}

// 29 CFR 1910.25(c): 6 ft 8 in over any tread.
func TestAmericanHeadroom(t *testing.T) {
	at := func(under float64) *set.Set {
		return inFeet(of(element("stair", even(4, 7*inch, 11*inch), place(0, 0, 0, 0)),
			element("beam", deckOf(60*inch, 11*inch, 100), place(0, 27.5*inch, under, 0))))
	}
	require.False(t, has(at(21*inch+80*inch), "HEADROOM"))
	c := only(t, at(21*inch+79*inch), "HEADROOM")
	require.Equal(t, `6'-7"`, c.Figure)
	require.Equal(t, `at least 6'-8" (fixed stairs at work)`, c.Limit)
}

func TestHeadroomOverARamp(t *testing.T) {
	// 1:10; the beam lies over x from 3000 to 3200 along it, where the ramp is at 300 to 320.
	r := element("ramp", &set.Ramp{Length: 5000, Rise: 500, Width: 1200}, place(0, 0, 0, 0))
	beam := func(z float64) *set.Element { return element("beam", deckOf(3000, 200, 100), place(0, 3100, z, 0)) }
	require.Equal(t, "1980 mm", only(t, of(r, beam(2300)), "HEADROOM").Figure, "least at the upper end of the beam")
	require.False(t, has(of(r, beam(2320)), "HEADROOM"))
	require.False(t, has(of(r, beam(320)), "HEADROOM"), "a box that stands on the ramp is no head")
	require.False(t, has(of(r, beam(310)), "HEADROOM"), "nor is one that stands through it")
}

func TestHeadroomInAnOpening(t *testing.T) {
	stair := element("stair", even(6, 160, 280), place(0, 0, 0, 0))
	wall := func(head float64) *set.Element {
		f := &set.Flat{Length: 4000, Height: 4000, Thickness: 45, Openings: []set.Opening{{Word: "door", At: 1000, Width: 2000, Height: head}}}
		return element("wall", f, place(-2000, 900, 0, 0))
	}
	c := only(t, of(stair, wall(2600)), "HEADROOM")
	require.Equal(t, "1960 mm", c.Figure, "2600 less the top of tread 4")
	require.Contains(t, c.Message, "over tread 4 the underside of wall")
	require.False(t, has(of(stair, wall(2640)), "HEADROOM"))
}

func TestHeadroomInAPosition(t *testing.T) {
	beam := element("beam", deckOf(3000, 200, 100), place(9000, 0, 1900, 0))
	low := place(0, 400, 2100, 0)
	low.Position = "scene 2"
	beam.Copies[0].Places = append(beam.Copies[0].Places, low)
	c := only(t, of(element("stair", even(3, 160, 280), place(0, 0, 0, 0)), beam), "HEADROOM")
	require.Contains(t, c.Message, "over tread 2 the underside of beam (scene 2) leaves 1780 mm")
}

func TestCeiling(t *testing.T) {
	hall := element("room", &set.Hall{Outline: rect(9000, 8000), Ceiling: 3000}, place(0, 0, 0, 0))
	mast := element("mast", &set.Post{Outline: circle(100), Diameter: 100, Height: 2800}, place(0, 0, 0, 0), place(1000, 0, 300, 0))
	c := only(t, of(hall, mast), "CEILING")
	require.Equal(t, "mast.2", c.Element)
	require.Equal(t, "3100 mm", c.Figure)
	require.Contains(t, c.Message, "100 mm higher than the ceiling of room")
	mast.Copies = mast.Copies[:1]
	require.False(t, has(of(hall, mast), "CEILING"))
}

func TestReserve(t *testing.T) {
	turning := element("turning", &set.Reserve{Outline: circle(1500), Height: 2100}, place(0, 0, 0, 0))
	at := func(x, z float64) *set.Element {
		return element("box", deckOf(500, 500, 400), place(x, 0, z, 0))
	}
	require.True(t, has(of(turning, at(900, 0)), "RESERVE"))
	require.False(t, has(of(turning, at(1000, 0)), "RESERVE"), "it touches the circle")
	require.False(t, has(of(turning, at(0, 2100)), "RESERVE"), "it hangs over it")
	require.False(t, has(of(turning, at(0, -400)), "RESERVE"), "it is the floor of it")
	c := only(t, of(turning, element("box", deckOf(500, 500, 400), place(-500, 0, 0, 0), place(500, 0, 0, 0))), "RESERVE")
	require.Equal(t, "turning", c.Element)
	require.Contains(t, c.Message, "box.1 and box.2 reach into")
}

func TestKeep(t *testing.T) {
	s := of(element("a", deckOf(1000, 1000, 400), place(0, 0, 0, 0)),
		element("b", &set.Post{Outline: circle(200), Diameter: 200, Height: 400}, place(1800, 0, 0, 0), place(0, 2000, 0, 0)))
	s.Keeps = []set.Keep{{A: "a", B: "b", AtLeast: 1300}}
	c := only(t, s, "KEEP")
	require.Equal(t, "1200 mm", c.Figure, "1800 less half the deck and the post's radius")
	require.Contains(t, c.Message, "a and b.1 stand 1200 mm apart on the plan, 100 mm less")
	s.Keeps[0].B = "b.2"
	require.False(t, has(s, "KEEP"), "1400 mm")
	s.Keeps[0] = set.Keep{A: "b", B: "b", AtLeast: 3000}
	require.True(t, has(s, "KEEP"), "between copies of one element")
}

func TestTall(t *testing.T) {
	c := only(t, kiosk(t), "TALL")
	require.Equal(t, "bollard", c.Element)
	require.Contains(t, c.Message, "fix or weight it; 12 of them")
	require.Equal(t, "11.7 times", c.Figure)
	post := element("post", &set.Post{Outline: circle(89), Diameter: 89, Height: 2400}, place(0, 0, 450, 0))
	canopy := element("canopy", &set.Panel{Outline: rect(3000, 3000), Thickness: 50}, place(0, 0, 2850, 0))
	require.True(t, has(of(post), "TALL"))
	require.False(t, has(of(post, canopy), "TALL"), "the canopy rests on its head")
	wall := func(name string, x, turn float64) *set.Element {
		return element(name, &set.Flat{Length: 2000, Height: 2400, Thickness: 45}, place(x, 0, 0, turn))
	}
	require.True(t, has(of(wall("a", 0, 0)), "TALL"))
	require.True(t, has(of(wall("a", 0, 0), wall("b", 2000, 0)), "TALL"), "a longer straight run is no steadier")
	require.False(t, has(of(wall("a", 0, 0), wall("b", 2000, 90)), "TALL"), "a return")
	row := &set.Panel{Outline: rect(2000, 600), Thickness: 18, Stands: true}
	require.True(t, has(of(element("row", row, place(0, 0, 0, 0))), "TALL"))
	row.Brace = true
	require.False(t, has(of(element("row", row, place(0, 0, 0, 0))), "TALL"))
	require.False(t, has(of(element("plinth", deckOf(500, 400, 1200), place(0, 0, 0, 0))), "TALL"), "three times is not more than three")
	require.True(t, has(of(element("plinth", deckOf(500, 400, 1230), place(0, 0, 0, 0))), "TALL"))
}

// A pile counts as one piece.
func TestTallPiles(t *testing.T) {
	crates := func(n int) *set.Set {
		var at []set.Place
		for i := range n {
			at = append(at, place(0, 0, 150*float64(i), 0), place(900, 0, 150*float64(i), 0))
		}
		return of(element("crate", deckOf(600, 250, 150), at...))
	}
	require.False(t, has(crates(5), "TALL"), "750 on 250 is three times, not more")
	c := only(t, crates(6), "TALL")
	require.Equal(t, "3.6 times", c.Figure)
	require.Contains(t, c.Message, "6 on top of one another are 900 mm high on a base of 250 mm")
	require.Contains(t, c.Message, "; 2 of them")
}

// The least width of an outline against figures of plane geometry.
func TestLeastWidth(t *testing.T) {
	octagon, err := geom.RegularPolygon(8, 4800, false)
	require.NoError(t, err)
	require.InDelta(t, 4800, leastWidth(set.Outline{Form: "polygon", Path: octagon}, math.Inf(1)), 1e-6)
	triangle := geom.Polygon([]geom.Point{{}, {X: 300}, {X: 0, Y: 400}})
	require.InDelta(t, 240, leastWidth(set.Outline{Form: "points", Path: triangle}, math.Inf(1)), 1e-9, "3-4-5: the height over the longest side")
	require.InDelta(t, 1200, leastWidth(set.Outline{Form: "ellipse", Path: geom.EllipsePath(2400, 1200)}, math.Inf(1)), 0.2)
	turned := geom.Rectangle(900, 250).Transform(geom.Move(geom.Point{X: 40, Y: 7}, 33))
	require.InDelta(t, 250, leastWidth(set.Outline{Form: "points", Path: turned}, math.Inf(1)), 1e-9)
}
