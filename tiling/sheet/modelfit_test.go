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
