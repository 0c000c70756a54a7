package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// overheads is a mirrored room in which all is wrong that can be, with someone walking in it.
func overheads() *set.Set {
	room := &set.Room{Outline: rect(4000, 3000), Turned: set.Mirrored, Overhead: 4900, Stand: 600, Headroom: 2400}
	room.Outline.Path = rectAt(0, 1500, 4000, 3000)
	room.Panels = []set.Section{{Name: "left", Outline: set.Outline{Path: rectAt(-1000, 1500, 2000, 3000)}}, {Name: "right", Outline: set.Outline{Path: rectAt(1000, 1500, 2000, 3000)}}}
	over := &set.Overhead{Room: "galley", Mirrored: true, Turn: room.Turn()}
	hung := func(name string, sh *set.Dressing, x, y, w float64) *set.Element {
		f := geom.Upright(geom.Point{X: x, Y: y}, w, 0).Then(over.Turn)
		return element(name, sh, set.Place{Frame: f, In: "galley", Over: over, Below: sh.Height})
	}
	piece := func(w, d, h, kg float64) *set.Dressing {
		is := set.Measured
		if kg == 0 {
			is = set.Unknown
		}
		return &set.Dressing{Outline: rect(w, d), Height: h, Weight: kg, WeightIs: is}
	}
	loose := piece(300, 300, 200, 2)
	loose.Loose = true
	path := geom.NewPath(geom.Point{X: -1500, Y: 100})
	path.LineTo(geom.Point{X: -1500, Y: 2900})
	return of(
		element("galley", room, place(0, 0, 0, 0)),
		hung("locker", piece(600, 400, 2600, 38), -1500, 2700, 0),
		hung("bench", piece(900, 350, 980, 22), 0, 1500, 0),
		hung("stool", piece(300, 300, 450, 0), 200, 1500, 0),
		hung("pan", loose, 1990, 500, 0),
		hung("shelf", piece(800, 300, 40, 3), 1200, 2500, 1400),
		element("way", &set.Walk{Path: path, Tall: 1880, Wide: 600}, set.Place{Frame: geom.Identity(), In: "galley"}),
		element("climb", &set.Walk{Over: []set.Foothold{{Element: "shelf", Copy: 1}, {Element: "bench", Copy: 1}}}, set.Place{Frame: geom.Identity(), In: "galley"}),
	)
}

// The locker is 2600 high under a floor at 4900: 2300 above the set's 0, 1700 above a walking floor at 600.
func TestWhatHangsOverhead(t *testing.T) {
	s := overheads()
	require.Equal(t, "1700 mm", only(t, s, "OVER-LOW").Figure)
	require.Contains(t, only(t, s, "OVER-LOW").Message, "700 mm short")
	require.Equal(t, "at least 65 kg", only(t, s, "OVER-HUNG").Figure)
	require.Contains(t, only(t, s, "OVER-HUNG").Message, "1 not weighed: stool")
	require.Equal(t, "pan", only(t, s, "OVER-LOOSE").Element)
	require.Equal(t, "pan", only(t, s, "OVER-OUT").Element)
	require.Contains(t, only(t, s, "OVER-THROUGH").Message, "bench and stool")
	require.Equal(t, "bench", only(t, s, "OVER-SEAM").Element)
	require.Equal(t, "1700 mm", only(t, s, "WALK-HEAD").Figure)
	require.Equal(t, "bench", only(t, s, "FOOTHOLD-NONE").Element)
	require.Equal(t, "2900 mm to fall", only(t, s, "FOOTHOLD").Figure, "4900 − 1400 − 600")
	for _, e := range s.Elements { // nothing that hangs tips, has edges to fall from, or hangs low over itself
		for _, code := range []string{"TALL", "EDGE-OPEN", "HEADROOM"} {
			for _, c := range Check(s) {
				require.False(t, c.Element == e.Name && c.Code == code, "%s %s", e.Name, code)
			}
		}
	}
}
