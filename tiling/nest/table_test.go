package nest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// With more outlines than it keeps polygons for, a table gives the same ones.
func TestTableThatKeepsNothing(t *testing.T) {
	var pieces []Piece
	for _, w := range []float64{40, 60} {
		pieces = append(pieces, Piece{Outline: geom.Region{Outer: geom.Rectangle(w, 30)}, Count: 1, Turns: []float64{0}})
	}
	s := newStock(pieces, 1)
	keeps := newTable(s)
	forgets := &table{n: mostKept + 1, outs: s.outlines, gap: s.gap, eps: s.eps}
	for i := range s.outlines {
		for _, moving := range s.outlines {
			require.Equal(t, keeps.at(i, moving), forgets.at(i, moving))
		}
	}
}
