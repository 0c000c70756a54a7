package rules

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// row is n pieces of 300 in a room, each so far to the right of the one before and so much higher.
func row(n int, right, up float64) *set.Set {
	room := &set.Room{Outline: rect(1e5, 3000), Turned: set.Lengthways, Overhead: 90_000}
	over := &set.Overhead{Room: "hold", Turn: room.Turn()}
	elements := []*set.Element{element("hold", room, place(0, 0, 0, 0))}
	for i := range n {
		f := geom.Upright(geom.Point{X: float64(i) * right}, float64(i)*up, 0).Then(over.Turn)
		sh := &set.Dressing{Outline: rect(300, 300), Height: 300}
		elements = append(elements, element("p"+strconv.Itoa(i), sh, set.Place{Frame: f, In: "hold", Over: over, Below: 300}))
	}
	return of(elements...)
}

func TestPiecesInOneAnother(t *testing.T) {
	c := only(t, row(3, 299, 0), "OVER-THROUGH")
	require.Equal(t, "2 pairs", c.Figure)
	require.Equal(t, "pieces of hold stand in one another: p0 and p1; p1 and p2", c.Message)
	require.False(t, has(row(3, 300, 0), "OVER-THROUGH"))
	require.False(t, has(row(3, 0, 300), "OVER-THROUGH"))

	// A list whose places are all one makes some two million pairs.
	c = only(t, row(2000, 0, 0), "OVER-THROUGH")
	require.Equal(t, "more than 100 pairs", c.Figure)
	require.Equal(t, "pieces of hold stand in one another: p0 and p1; p0 and p2; p0 and p3; and many more", c.Message)
}
