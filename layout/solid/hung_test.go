package solid

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// A wall with a door hangs with its head down: beneath what was the floor stands a gap as wide and high as the door, and a ramp's
// slope looks down.
func TestWhatHangsUpsideDown(t *testing.T) {
	over := &set.Overhead{Room: "r"}
	hung := func(sh set.Shape) *Scene {
		f := geom.Identity()
		f.R[0][0], f.R[2][2], f.T.Z = -1, -1, 4900
		pl := set.Place{Frame: f, Over: over, Below: set.Height(sh)}
		return NewScene(&set.Set{Elements: []*set.Element{{Name: "x", Shape: sh, Copies: []set.Copy{{Number: 1, Places: []set.Place{pl}}}}}})
	}
	wall := hung(&set.Flat{Length: 3000, Height: 2400, Thickness: 40, Openings: []set.Opening{{Word: "door", At: 1000, Width: 800, Height: 2000}}})
	require.Len(t, wall.Solids, 3)
	lintel := wall.Solids[1]
	require.InDelta(t, 2500, lintel.Under, 1e-9, "4900 − 2400")
	require.InDelta(t, 2900, lintel.A, 1e-9, "4900 − 2000")
	require.InDelta(t, -1800, lintel.Box.Min.X, 1e-9)
	require.InDelta(t, -1000, lintel.Box.Max.X, 1e-9)

	ramp := hung(&set.Ramp{Length: 1000, Rise: 500, Width: 800}).Solids[0]
	require.InDelta(t, 4400, ramp.Under, 1e-9)
	require.InDelta(t, 4900, ramp.Bottom(geom.Point{}), 1e-9)
	require.InDelta(t, 4650, ramp.Bottom(geom.Point{Y: 500}), 1e-9)
	require.InDelta(t, 4900, ramp.Top(geom.Point{Y: 500}), 1e-9)
	require.True(t, ramp.Sloped())
}
