package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// What would be said of it on a floor is not said of what hangs in a room overhead: nobody climbs it, and it tips over nothing.
func TestNothingAloftIsClimbedOrTips(t *testing.T) {
	room := &set.Room{Outline: rect(4000, 3000), Turned: set.Crossways, Overhead: 4900}
	room.Outline.Path = rectAt(0, 1500, 4000, 3000)
	over := &set.Overhead{Room: "hold", Turn: room.Turn()}
	blocks := even(3, 220, 200)
	blocks.Blocks = true
	figure := &set.Figure{Height: 1700, Bodies: []geom.Region{{Outer: rectAt(0, 850, 600, 1700)}}}
	hung := *figure
	hung.Hung = true
	shapes := map[string]set.Shape{
		"ladder": even(4, 240, 150), "blocks": blocks, "gang": &set.Ramp{Length: 900, Rise: 300, Width: 500},
		"mast": &set.Post{Outline: circle(60), Diameter: 60, Height: 1900}, "cook": figure, "gull": &hung,
	}
	for name, sh := range shapes {
		floor := of(element(name, sh, place(0, 0, 0, 0)))
		require.NotEmpty(t, Check(floor), name)
		f := geom.Upright(geom.Point{Y: 1500}, 0, 0).Then(over.Turn)
		aloft := of(element("hold", room, place(0, 0, 0, 0)), element(name, sh, set.Place{Frame: f, In: "hold", Over: over, Below: set.Height(sh)}))
		want := []string{"hold OVER-HUNG"}
		if name == "gull" {
			want = append(want, "gull FIG-HUNG")
			require.Equal(t, "head up", only(t, aloft, "FIG-HUNG").Figure)
		}
		require.Equal(t, want, codesOf(aloft), name)
	}
}
