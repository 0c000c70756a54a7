package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
)

// A wall that is rolled lies with the card's grain: 201 mm of it do not fit an A4's 190 however the sheet is held, and fit an A3.
func TestKeepsAllWholeWithTheGrain(t *testing.T) {
	s := openText(t, "set \"Try\"\n    units mm\n    scale 1:25\n    card 1.5\n\nring kerb\n    outer 1600\n    inner 1000\n    height 300\n")
	c := laidOut(t, s, develop.Options{}, onPaper(t, s, "A4", 10))
	require.Equal(t, "kerb divided to fit the sheet (--paper A3 keeps all whole)", c.dividedWords())
	require.Empty(t, laidOut(t, s, develop.Options{}, onPaper(t, s, "A3", 10)).dividedWords())

	stair := sample(t, "lightstair")
	require.NotEmpty(t, laidOut(t, stair, develop.Options{}, onPaper(t, stair, "A3", 10)).dividedWords())
	c = laidOut(t, stair, develop.Options{}, onPaper(t, stair, "A4", 10))
	require.Equal(t, "stair divided to fit the sheet (--paper A2 keeps all whole)", c.dividedWords())
}

// A post on a deck stands in a hole of the deck's top, and the list of rods says of which piece.
func TestRodsSayWhereTheyStand(t *testing.T) {
	s := sample(t, "kiosk")
	c := laidOut(t, s, develop.Options{}, onPaper(t, s, "A3", 10))
	feet := map[string]string{}
	for _, r := range c.rodList().Rows {
		feet[r[0].Text] = r[len(r)-1].Text
	}
	require.Equal(t, "in a hole of deck-1/9; length without what is in it", feet["canopy"])
	require.Equal(t, "in a hole of the base sheet; length without what is in it", feet["bollard"])
}

// The sides of a flight stand under treads and risers that run through: their cut edges are glued, not their faces.
func TestSidesOfAFlightAreCaptive(t *testing.T) {
	for _, outside := range []bool{false, true} {
		s := sample(t, "kiosk")
		c := laidOut(t, s, develop.Options{PrintOutside: outside}, onPaper(t, s, "A3", 10))
		sides := 0
		for i := range c.Model.Pieces {
			p := &c.Model.Pieces[i]
			if p.Name != "left side" && p.Name != "right side" {
				continue
			}
			sides++
			require.Empty(t, c.glueLines(i), p.Label())
			for _, m := range c.marksOf(i) {
				require.Contains(t, m.forms[0], "captive", p.Label())
			}
		}
		require.Equal(t, 4, sides)
	}
}

// At 1:50 the tops of the crates are too small for a number between their glue lines: it stands beside them, and no piece is
// without one.
func TestEverySmallPieceHasItsNumber(t *testing.T) {
	s := sample(t, "crates")
	s.ScaleText = "1:50"
	c := laidOut(t, s, develop.Options{Scale: 50}, onPaper(t, s, "A4", 10))
	for i := range c.Sheets {
		said, _ := c.cutSheet(i)
		for _, x := range said.Notes.Texts {
			require.NotContains(t, x.Text, "its number")
		}
	}
}
