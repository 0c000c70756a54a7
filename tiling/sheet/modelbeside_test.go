package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
)

// Names of posts that stand near the edge of the deck, or by the centre line, cross no line of the base sheet.
func TestNamesOnTheBaseSheetCrossNoLine(t *testing.T) {
	s := sample(t, "kiosk")
	c := laidOut(t, s, develop.Options{}, onPaper(t, s, "A3", 10))
	lines := c.footLines()
	names := 0
	for _, x := range c.base().Texts {
		if x.Role != drawing.Word || x.Align != drawing.AlignLeft || x.Owner < 0 {
			continue
		}
		names++
		w := lettering.Width(x.Text, x.Height, false)
		require.False(t, crossed(geom.Rect{Min: x.At, Max: x.At.Add(geom.Point{X: w, Y: x.Height})}, lines), x.Text)
	}
	require.Equal(t, 25, names)
}
