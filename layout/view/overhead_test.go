package view

import (
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/drawing"
	"markout/layout/geom"
	transfer "markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
)

type only string

func (o only) Open(name string) (io.ReadCloser, error) {
	if name != "x.markout" {
		return nil, errors.New("there is no such file")
	}
	return io.NopCloser(strings.NewReader(string(o))), nil
}

// A box that hangs in a room 4000 x 3000 with its floor at 5000 over a walking floor at 600: upright its 0,0 is 1000 to the left of the
// middle line and 800 from the front wall.
func hungBox(t *testing.T, turned, turn string) (*set.Set, *transfer.Room) {
	t.Helper()
	s, list := layout.Open(only(`set "Hung"
room hold
    outline rect 4000 x 3000
    at 0, 1500
    turn `+turn+`
    overhead 5000 `+turned+`
    stand 600
dressing crate
    in hold
    at -1000, 800
    size 600 x 400
    height 900
    weight 10kg
    fixings -200,-100 250,50
dressing far
    in hold
    at -1000, 2000
    size 400 x 400
    height 1500
`), "x.markout", layout.Options{})
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	return s, transfer.Rooms(s)[0]
}

func boxOf(d *drawing.Drawing, owner string) geom.Rect {
	b := geom.EmptyRect()
	for _, k := range d.Strokes {
		if k.Owner >= 0 && d.Owners[k.Owner] == owner && k.Layer == drawing.Cut {
			b = b.Union(k.Path.Bounds())
		}
	}
	return b
}

// Worked by hand from u → −u lengthways, v → D − v crossways. The plan is not mirrored: what comes to plan-right is at its right.
func TestReflectedPlanKeepsLeftAndRight(t *testing.T) {
	for _, k := range []struct {
		turned string
		at     geom.Point
	}{{"turned lengthways", geom.Point{X: 1000, Y: 800}}, {"turned crossways", geom.Point{X: -1000, Y: 2200}}, {"mirrored", geom.Point{X: -1000, Y: 800}}} {
		s, r := hungBox(t, k.turned, "0deg")
		d := Reflected(s, r)
		b := boxOf(d, "crate")
		require.InDelta(t, k.at.X, b.Mid().X, 1e-6, k.turned)
		require.InDelta(t, k.at.Y, b.Mid().Y, 1e-6, k.turned)
		require.NotContains(t, d.Title+d.Hold, "below")
		_, _, ok := TurnLine(r)
		require.Equal(t, k.turned != "mirrored", ok)
	}
}

func TestTurnLineOfATurnedRoom(t *testing.T) {
	_, r := hungBox(t, "turned lengthways", "90deg")
	a, b, ok := TurnLine(r)
	require.True(t, ok)
	// The room's front wall is then at plan-right of its back wall, and its middle line level on the plan.
	require.InDelta(t, a.Y, b.Y, 1e-9)
	require.InDelta(t, 3000, a.X-b.X, 1e-9)
}

// The section shows levels as they are: 5000 − 900 and 5000 − 1500, and dashes what is behind.
func TestSectionHangs(t *testing.T) {
	s, r := hungBox(t, "turned lengthways", "0deg")
	v := Section(s, r, solid.NewScene(s), false)
	crate, far := boxOf(v.Drawing, "crate"), boxOf(v.Drawing, "far")
	require.InDelta(t, 4100, crate.Min.Y, 1e-6)
	require.InDelta(t, 3500, far.Min.Y, 1e-6)
	require.InDelta(t, 1000, crate.Mid().X, 1e-6)
	var dashed float64
	for _, k := range v.Strokes {
		if k.Owner >= 0 && v.Owners[k.Owner] == "far" && k.Type == drawing.Dashed {
			dashed += k.Path.Length()
		}
	}
	require.InDelta(t, 2*900, dashed, 1) // its sides behind the crate; its upper edge is the floor
}

// From below is the mirror image of from above, and from above no fixing changes its place to the others.
func TestTemplatesAreEachOthersMirrorImage(t *testing.T) {
	for _, turn := range []string{"0deg", "20deg", "130deg"} {
		s, r := hungBox(t, "turned crossways", turn)
		q := &r.Pieces[0]
		above, up := Fixing(s, q, false)
		below, upBelow := Fixing(s, q, true)
		require.InDelta(t, up.Y, upBelow.Y, 1e-9)
		require.InDelta(t, up.X, -upBelow.X, 1e-9)
		require.GreaterOrEqual(t, up.Y, 0.7)
		number := func(d *drawing.Drawing, n string) geom.Point {
			for _, t := range d.Texts {
				if t.Text == n {
					return t.At
				}
			}
			return geom.Point{}
		}
		one, two := number(above, "1"), number(above, "2")
		b1, b2 := number(below, "1"), number(below, "2")
		require.InDelta(t, q.Fixings[0].Dist(q.Fixings[1]), one.Dist(two), 1e-9)
		require.InDelta(t, -one.X, b1.X, 1e-9)
		require.InDelta(t, two.Y, b2.Y, 1e-9)
		// As on the plan: the same turn from one fixing to the other about upstage.
		d := q.Fixings[1].Sub(q.Fixings[0])
		require.InDelta(t, d.Y, two.Sub(one).Dot(up), 1e-9)
		require.InDelta(t, -d.X, up.Cross(two.Sub(one)), 1e-9)
	}
	s, r := hungBox(t, "mirrored", "0deg")
	d, _ := Fixing(s, &r.Pieces[1], true)
	require.Nil(t, d)
}

// Copies that hang over one another have one label on the plan, with the lowest underside: plates 10 high, the lowest at 5000 − 3 × 10.
func TestAStackOverheadIsNamedOnce(t *testing.T) {
	s, list := layout.Open(only("set \"Hung\"\nroom hold\n    outline rect 4000 x 3000\n    at 0, 1500\n    overhead 5000 turned lengthways\n"+
		"dressing plate\n    in hold\n    stack 3\n    at 0, 1000\n    outline circle 300\n    height 10\n"+
		"dressing hook\n    in hold\n    repeat 2 by 500, 0\n    at 500, 2000\n    outline circle 100\n    height 200\n"), "x.markout", layout.Options{})
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	var said []string
	for _, x := range Plan(s).Texts {
		if strings.HasPrefix(x.Text, "plate") || strings.HasPrefix(x.Text, "hook") || strings.HasPrefix(x.Text, "OVERHEAD") {
			said = append(said, x.Text)
		}
	}
	require.Equal(t, []string{"plate.1 to plate.3", "OVERHEAD 4970", "hook.1", "OVERHEAD 4800", "hook.2", "OVERHEAD 4800"}, said)
}
