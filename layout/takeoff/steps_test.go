package takeoff_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A tread of a half circle of radius 2000, 1000 wide, 15 goings of 12°: from its riser it reaches 2500·sin 12° = 519.8 ahead, and across
// from 1500·cos 12° to 2500: 1032.8. Its area is that of the ring's sector: (2500² − 1500²)·π·12/360 = 418 879. The strings lie flat as
// long as their half circles are, 2500π and 1500π, and as high as the last tread is, 15·150, less the tread.
func TestTaperedTreads(t *testing.T) {
	_, q := take(t, boards+`steps stair
    along path 0,0 arc to 4000,0 radius 2000 right centre
    risers 16
    rise 150
    width 1000
    tread 17.6
    of "ply 18"
`)
	require.Len(t, q.Pieces, 15)
	for k, p := range q.Pieces {
		require.Equal(t, fmt.Sprintf("tread %d", k+1), p.Name)
		require.InDelta(t, 1032.8, p.Length, 0.05)
		require.InDelta(t, 519.8, p.Width, 0.05)
		require.InDelta(t, 418879, p.Area(), 1)
	}
	require.Empty(t, q.Missing)
	require.Len(t, q.Loose, 2)
	for i, radius := range []float64{2500, 1500} {
		require.Equal(t, []string{"left string", "right string"}[i], q.Loose[i].Name)
		require.InDelta(t, radius*math.Pi, q.Loose[i].Length, 0.01)
		require.InDelta(t, 15*150-17.6, q.Loose[i].Width, 1e-6)
		require.Contains(t, q.Loose[i].Note, "turns with its line")
	}
}

// A flight along a straight line is cut as a flight that is straight of itself: four rises of 150, three goings of 500. A tread
// reaches 9 behind the next riser, the last to where the flight ends.
func TestFlightAlongAStraightLine(t *testing.T) {
	const rest = "    width 900\n    tread 17.6\n    riser_board 9\n    of \"ply 18\"\n"
	_, along := take(t, boards+"steps s\n    along path 0,0 line 0,1500 centre\n    risers 4\n    rise 150\n"+rest)
	_, straight := take(t, boards+"steps s\n    starts 0,0 heading 90deg\n    risers 4\n    rise 150\n    going 500\n"+rest)
	require.Equal(t, []string{
		"s tread 1 900 x 509 x 17.6, 1", "s riser board 1 900 x 132.4 x 9, 1",
		"s tread 2 900 x 509 x 17.6, 1", "s riser board 2 900 x 132.4 x 9, 1",
		"s tread 3 900 x 500 x 17.6, 1", "s riser board 3 900 x 132.4 x 9, 1",
	}, lines(straight)[:6])
	require.Equal(t, lines(straight)[:6], lines(along)[:6])
	require.Equal(t, []string{"s left string 1491 x 432.4 x 17.6, 1 outline", "s right string 1491 x 432.4 x 17.6, 1 outline"}, lines(along)[6:])
	require.Equal(t, []string{"s string 1491 x 432.4 x 17.6, 2 outline"}, lines(straight)[6:])
}

// Blocks round a quarter circle of radius 2000, 900 wide, three of 30°: the lid is as the tread, the front as long as the width; the
// bent walls are said with their arcs, 2450π/6 = 1282.8 and 1550π/6 = 811.6.
func TestBlocksAlongALine(t *testing.T) {
	const blocks = `steps b
    along path 0,0 arc to 2000,2000 radius 2000 right centre
    risers 4
    rise 150
    width 900
    built blocks
    lid 9
    of "ply 9"
`
	_, q := take(t, boards+blocks)
	got := lines(q)
	require.Len(t, got, 9)
	require.Equal(t, []string{"b block 1 wall 1 of 4 900 x 141 x 9, 1", "b block 1 wall 3 of 4 900 x 141 x 9, 1"}, got[1:3])
	require.InDelta(t, (2450*2450-1550*1550)*math.Pi/12, q.Pieces[0].Area(), 1)
	require.Len(t, q.Missing, 6)
	why := q.Missing[0].Why + q.Missing[1].Why
	require.Contains(t, why, "it is bent: 811.6 mm long, 141 mm high")
	require.Contains(t, why, "it is bent: 1282.8 mm long, 141 mm high")

	_, q = take(t, boards+"stock box 600 x 400 x 150\n"+blocks)
	require.Len(t, q.Pieces, 3, "the lids")
	require.Empty(t, q.Tops)
	require.Equal(t, "boxes under the blocks", q.Missing[0].What)
}

// Of the boards of the file the one that is nearest to a flight's thickness is taken, of a shape the one that it is of alone.
func TestBoardByThickness(t *testing.T) {
	const more = "board \"ply 10\" 2440 x 1220 thick 10\n"
	const flight = "steps s\n starts 0,0 heading 90deg\n risers 2\n rise 150\n going 300\n width 900\n tread 18\n riser_board %s\n of \"ply 18\"\n"
	for _, c := range []struct {
		said, want string
	}{{"9", "ply 9"}, {"9.4", "ply 9"}, {"9.6", "ply 10"}, {"18", "ply 18"}} {
		s, q := take(t, boards+more+fmt.Sprintf(flight, c.said))
		require.Equal(t, c.want, s.Boards[q.Pieces[1].Board].Name, c.said)
		require.Empty(t, q.Loose)
	}
	_, q := take(t, boards+fmt.Sprintf(flight, "5"))
	require.Equal(t, `5 mm thick, and "ply 18" is 17.6 mm; a `+"`board`"+` of that thickness in the file would serve`, q.Loose[0].Note)
	_, q = take(t, boards+"shape s\n outline rect 300 x 200\n thickness 9\n of \"ply 18\"\n")
	require.Len(t, q.Loose, 1)
}
