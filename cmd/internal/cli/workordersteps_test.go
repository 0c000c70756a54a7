package cli

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/tiling/sheet"
)

const deckOnTheMove = `set "Deck"
    units mm
    scale 1:25
    card  wall 1.5
hall h
    outline rect 9000 x 8000
    at      0, 3600
    station A -4000, 400
    station B 4000, 400
platform deck
    outline   rect 1200 x 900
    at        0, 3000
    height    300
    full-size floor
`

// A deck that moves: whoever lays the floor has the footprint's paper, and the model maker is told that it moves, though no piece of
// card is made again.
func TestWorkOrdersOfADeckThatMoves(t *testing.T) {
	folder := t.TempDir()
	old, new := filepath.Join(folder, "a.markout"), filepath.Join(folder, "b.markout")
	require.NoError(t, os.WriteFile(old, []byte(deckOnTheMove), 0o600))
	require.NoError(t, os.WriteFile(new, []byte(strings.Replace(deckOnTheMove, "0, 3000", "150, 3000", 1)), 0o600))
	a := &app{}
	a = a.quiet()
	o := &changesOptions{}
	d, err := o.compare(context.Background(), a, old, new)
	require.NoError(t, err)
	d.footprints = d.footprintsOf()

	floor := strings.Join(linesOf(d.order("Floor")), "\n")
	require.Contains(t, floor, "templates.pdf: floor ")
	require.Contains(t, floor, "deck moves 150 stage left")
	require.NotContains(t, strings.Join(linesOf(d.order("Carpenter")), "\n"), "templates.pdf")
	require.Contains(t, linesOf(d.order("Model maker")), "deck moves 150 stage left")
}

func linesOf(k sheet.WorkOrder) []string {
	var out []string
	for _, s := range k.Steps {
		out = append(out, s.Lines...)
	}
	return out
}

func TestRodsAlikeShareALine(t *testing.T) {
	rod := changes.Piece{Piece: "rod Ø2.4, 28 long", Name: "rod", Change: changes.Scrap}
	wall := changes.Piece{Piece: "deck-2/5", Name: "front wall", Change: changes.Remake, Was: "deck-2/6", Glued: []string{"deck-1/6 is glued to it along J4"}}
	require.Equal(t, []string{"scrap  2 × rod Ø2.4, 28 long", "remake  deck-2/5, front wall, in place of deck-2/6; deck-1/6 is glued to it along J4"},
		pieceLines([]changes.Piece{rod, rod, wall}))
}

// What is taken down comes first, and under the number that hangs on it.
func TestTakenDownHasItsOldTag(t *testing.T) {
	lines := hungLines([]changes.Hang{
		{Piece: "bench", Tag: 15, Change: changes.Retag, Words: "tag 17 → 15"},
		{Piece: "plate.13", Tag: 15, Change: changes.TakeDown, Words: "take down, 0.25 kg"},
	}, nil)
	require.Equal(t, []string{"old tag 15, plate.13: take down, 0.25 kg", "tag 15, bench: tag 17 → 15"}, lines[:2])
}
