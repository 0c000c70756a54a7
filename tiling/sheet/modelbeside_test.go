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
	for _, x := range c.base(windows(c.basePlan, 0)).Texts {
		if x.Align != drawing.AlignLeft || x.Text == "centre line" || x.Text == "setting line" {
			continue
		}
		names++
		w := lettering.Width(x.Text, x.Height, false)
		require.False(t, crossed(geom.Rect{Min: x.At, Max: x.At.Add(geom.Point{X: w, Y: x.Height})}, lines), x.Text)
	}
	require.Equal(t, 37, names) // of 25 posts, 12 of them on the deck with their level
}
