package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

func TestTallCones(t *testing.T) {
	spire := &set.Cone{Lower: 500, Height: 1500}
	require.False(t, has(of(element("spire", spire, place(0, 0, 0, 0))), "TALL"), "three times")
	spire.Height = 1600
	require.Equal(t, "3.2 times", only(t, of(element("spire", spire, place(0, 0, 0, 0))), "TALL").Figure)
	// A regular triangle about a circle of diameter d has the height 3d/2.
	three := &set.Cone{Lower: 300, Upper: 100, Height: 1500, Sides: 3}
	require.Equal(t, "3.3 times", only(t, of(element("three", three, place(0, 0, 0, 0))), "TALL").Figure)
	funnel := &set.Cone{Upper: 900, Height: 600}
	c := only(t, of(element("funnel", funnel, place(0, 0, 0, 0))), "TALL")
	require.Contains(t, c.Message, "it stands on its point")
	require.False(t, has(of(element("funnel", funnel, place(0, 0, 2000, 0))), "TALL"), "it hangs")
}

// A curve stands by its depth: a half circle of radius 1000 is 1060 deep.
func TestTallCurvedFlats(t *testing.T) {
	line := geom.NewPath(geom.Point{X: -1000})
	line.ArcTo(geom.Point{}, -math.Pi, geom.Point{X: 1000})
	wall := &set.Flat{Line: line, Length: line.Length(), Height: 2400, Thickness: 60}
	require.False(t, has(of(element("bay", wall, place(0, 0, 0, 0))), "TALL"))
	wall.Height = 4000
	require.Equal(t, "3.8 times", only(t, of(element("bay", wall, place(0, 0, 0, 0))), "TALL").Figure)
	beside := element("side", &set.Flat{Length: 2000, Height: 2400, Thickness: 60}, place(1060, 0, 0, 0))
	require.NotContains(t, codesOf(of(element("bay", wall, place(0, 0, 0, 0)), beside)), "bay TALL", "a return at its end")
}

func TestNothingThatHangsOnAWallIsTall(t *testing.T) {
	wall := element("wall", &set.Flat{Length: 2000, Height: 2400, Thickness: 900}, place(0, 0, 0, 0))
	sign := element("sign", &set.Panel{Outline: rect(400, 300), Thickness: 12, Stands: true}, place(500, -12, 1400, 0))
	require.True(t, has(of(wall, sign), "TALL"))
	sign.Copies[0].Places[0].On = "wall"
	require.False(t, has(of(wall, sign), "TALL"))
	sign.Copies[0].Places[0].Frame.T.Z = 2400
	require.True(t, has(of(wall, sign), "TALL"), "on top of it")
}

// Under a cone that hangs point down the head is measured from its point, beside its axis from where it is as wide; in
// eighths, so that what is said is never more than there is.
func TestHeadroomUnderATaper(t *testing.T) {
	climb := element("climb", even(4, 150, 300), place(0, 0, 0, 0)) // treads from y 0 to 900, the last 450 up
	over := func(sh *set.Cone, z float64) *set.Set { return of(climb, element("hopper", sh, place(0, 750, z, 0))) }
	require.Equal(t, "1550 mm", only(t, over(&set.Cone{Upper: 800, Height: 800}, 2000), "HEADROOM").Figure)
	require.Equal(t, "1550 mm", only(t, over(&set.Cone{Lower: 800, Height: 800}, 2000), "HEADROOM").Figure)
	// Its axis 300 beside the last tread's end: the cone is 600 across where it reaches the tread, 600 of 800 up.
	beside := of(climb, element("hopper", &set.Cone{Upper: 800, Height: 800}, place(0, 1200, 1000, 0)))
	require.Equal(t, "1150 mm", only(t, beside, "HEADROOM").Figure, "1000 + 600 − 450")
	require.False(t, has(over(&set.Cone{Upper: 800, Height: 800}, 2500), "HEADROOM"))
}
