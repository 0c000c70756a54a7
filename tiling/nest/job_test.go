package nest_test

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling/nest"
)

// at returns an outline moved to x, y.
func at(p *geom.Path, x, y float64) *geom.Path {
	return p.Transform(geom.Move(geom.Point{X: x, Y: y}, 0))
}

func plain(p *geom.Path, count int, turns ...float64) nest.Piece {
	return nest.Piece{Outline: geom.Region{Outer: p}, Count: count, Turns: turns}
}

// card returns the pieces of a card model: walls with openings, decks, treads and risers, a ring, discs, gussets, and A4 sheets.
func card() ([]nest.Piece, []nest.Sheet) {
	rnd := rand.New(rand.NewPCG(7, 7))
	var pieces []nest.Piece
	for range 12 {
		w, h := 30+90*rnd.Float64(), 20+60*rnd.Float64()
		pieces = append(pieces, plain(geom.Rectangle(w, h), 1+rnd.IntN(2)))
	}
	wall := geom.Region{Outer: geom.Rectangle(150, 90), Holes: []*geom.Path{at(geom.Rectangle(40, 60), -20, -10), at(geom.Circle(20), 40, 10)}}
	pieces = append(pieces, nest.Piece{Outline: wall, Count: 2}, plain(geom.Rectangle(80, 9), 12), plain(geom.Rectangle(80, 6), 12))
	ring := geom.Region{Outer: geom.Circle(70), Holes: []*geom.Path{geom.Circle(50)}}
	pieces = append(pieces, nest.Piece{Outline: ring, Count: 2}, plain(geom.Circle(25), 3),
		plain(geom.Polygon([]geom.Point{{}, {X: 40}, {Y: 25}}), 6),
		plain(geom.Polygon([]geom.Point{{}, {X: 60}, {X: 60, Y: 15}, {X: 15, Y: 15}, {X: 15, Y: 45}, {Y: 45}}), 4))
	return pieces, []nest.Sheet{{Name: "A4", Width: 287, Height: 200}}
}

func TestEffortSavesSheetsAndLength(t *testing.T) {
	pieces, sheets := card()
	var before *nest.Plan
	for _, trials := range []int{1, 2000} {
		opt := nest.Options{Gap: 2, Trials: trials}
		plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
		require.NoError(t, err)
		requireSound(t, pieces, sheets, opt, plan)
		if before != nil {
			require.LessOrEqual(t, len(plan.Sheets), len(before.Sheets))
			if len(plan.Sheets) == len(before.Sheets) {
				require.Less(t, plan.Sheets[len(plan.Sheets)-1].Length, before.Sheets[len(before.Sheets)-1].Length)
			}
		}
		before = plan
	}
}

func TestPlanDependsOnNothingButTheInput(t *testing.T) {
	pieces, sheets := card()
	var first *nest.Plan
	for _, workers := range []int{1, 2, 1} {
		plan, err := nest.Nest(context.Background(), pieces, sheets, nest.Options{Gap: 2, Trials: 600, Workers: workers})
		require.NoError(t, err)
		if first == nil {
			first = plan
		}
		require.True(t, reflect.DeepEqual(first, plan), "%d workers", workers)
	}
}

func TestSmallPiecesLieInOpenings(t *testing.T) {
	frame := geom.Region{Outer: geom.Rectangle(100, 100), Holes: []*geom.Path{geom.Rectangle(80, 80)}}
	pieces := []nest.Piece{{Outline: frame, Count: 1, Turns: []float64{0}}, plain(geom.Rectangle(36, 76), 2, 0)}
	sheets := []nest.Sheet{{Width: 104, Height: 104, Count: 1}}
	opt := nest.Options{Gap: 2}
	plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
	require.NoError(t, err)
	requireSound(t, pieces, sheets, opt, plan)
}

func TestExactFit(t *testing.T) {
	// Four quarters fill the sheet to its edges and touch each other; a wedge and its counterpart make a square only when one is turned.
	half := geom.Polygon([]geom.Point{{}, {X: 50}, {Y: 50}})
	pieces := []nest.Piece{plain(geom.Rectangle(50, 50), 3, 0, 90), plain(half, 2, 0, 180)}
	sheets := []nest.Sheet{{Width: 100, Height: 100, Count: 1}}
	plan, err := nest.Nest(context.Background(), pieces, sheets, nest.Options{})
	require.NoError(t, err)
	requireSound(t, pieces, sheets, nest.Options{}, plan)
	require.InDelta(t, 100, plan.Sheets[0].Length, 1e-9)
}

func TestLargestSheetsFirst(t *testing.T) {
	pieces := []nest.Piece{plain(geom.Rectangle(90, 90), 3), plain(geom.Rectangle(40, 40), 1)}
	sheets := []nest.Sheet{{Name: "small", Width: 50, Height: 50}, {Name: "large", Width: 100, Height: 100, Count: 2}, {Name: "middle", Width: 95, Height: 95}}
	plan, err := nest.Nest(context.Background(), pieces, sheets, nest.Options{Gap: 1})
	require.NoError(t, err)
	requireSound(t, pieces, sheets, nest.Options{Gap: 1}, plan)
	kinds := []int{}
	for _, u := range plan.Sheets {
		kinds = append(kinds, u.Sheet)
	}
	require.Equal(t, []int{1, 1, 2, 2}, kinds)
}

func TestKeptPiecesStay(t *testing.T) {
	pieces, sheets := card()
	opt := nest.Options{Gap: 2, Trials: 200}
	old, err := nest.Nest(context.Background(), pieces, sheets, opt)
	require.NoError(t, err)
	// The first kind of piece is changed, the second removed; all else stays.
	opt.KeptUsed = old.Sheets
	for _, p := range old.Places {
		if p.Piece > 1 {
			opt.Kept = append(opt.Kept, p)
		}
	}
	changed := append([]nest.Piece(nil), pieces...)
	changed[0] = plain(geom.Rectangle(66, 44), 2)
	changed[1].Count = 1
	plan, err := nest.Nest(context.Background(), changed, sheets, opt)
	require.NoError(t, err)
	requireSound(t, changed, sheets, opt, plan)
	for _, p := range plan.Places {
		if p.Piece > 1 {
			require.Contains(t, old.Places, p)
		} else {
			require.GreaterOrEqual(t, p.Sheet, len(old.Sheets))
		}
	}
}

func TestEverythingKept(t *testing.T) {
	pieces, sheets := card()
	opt := nest.Options{Gap: 2, Trials: 50}
	old, err := nest.Nest(context.Background(), pieces, sheets, opt)
	require.NoError(t, err)
	opt.Kept, opt.KeptUsed = old.Places, old.Sheets
	plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
	require.NoError(t, err)
	require.Equal(t, old.Places, plan.Places)
	for i, u := range plan.Sheets {
		require.InDelta(t, old.Sheets[i].Length, u.Length, 0.2) // of round pieces the fill counts the polygon about them
	}
}

func TestStopEndsWithTheBestSoFar(t *testing.T) {
	pieces, sheets := card()
	asked, told := 0, 0
	opt := nest.Options{Gap: 2, Trials: 100_000, Workers: 1,
		Stop:     func() bool { asked++; return asked > 5 },
		Progress: func(done, total int) { told++; require.LessOrEqual(t, done, total); require.Equal(t, 100_000, total) },
	}
	plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
	require.NoError(t, err)
	require.True(t, plan.Stopped)
	require.Less(t, plan.Trials, 100_000)
	requireSound(t, pieces, sheets, opt, plan)
}

func TestContextEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	pieces, sheets := card()
	_, err := nest.Nest(ctx, pieces, sheets, nest.Options{})
	require.ErrorIs(t, err, context.Canceled)
}

func TestFaults(t *testing.T) {
	box := geom.Rectangle(10, 10)
	bow := geom.Polygon([]geom.Point{{}, {X: 10, Y: 10}, {X: 10}, {Y: 10}})
	sheet := []nest.Sheet{{Width: 287, Height: 200}}
	for name, c := range map[string]struct {
		piece  nest.Piece
		sheets []nest.Sheet
		gap    float64
		kept   []nest.Place
		words  string
	}{
		"too large":      {piece: plain(geom.Rectangle(412, 300), 1), sheets: sheet, gap: 5, words: "the piece is 412 x 300; the largest sheet takes 277 x 190 inside its gap"},
		"by its turns":   {piece: plain(geom.Rectangle(150, 250), 1, 0), sheets: sheet, words: "the piece is 150 x 250 as it may be turned; the largest sheet takes 287 x 200 inside its gap"},
		"roll":           {piece: plain(geom.Rectangle(412, 300), 1), sheets: []nest.Sheet{{Height: 200, Roll: true}}, words: "the piece is 412 x 300; the roll takes 200 across inside its gap"},
		"too few sheets": {piece: plain(geom.Rectangle(200, 150), 3), sheets: []nest.Sheet{{Width: 287, Height: 200, Count: 2}}, words: "1 of the piece find no place; the sheets given are full"},
		"none wanted":    {piece: plain(box, 0), sheets: sheet, words: "the piece is wanted 0 times; at least 1"},
		"no outline":     {piece: plain(nil, 1), sheets: sheet, words: "the outline is empty"},
		"crossing":       {piece: plain(bow, 1), sheets: sheet, words: "the outline crosses itself at 5, 5"},
		"not a number":   {piece: plain(geom.Polygon([]geom.Point{{}, {X: math.NaN()}, {Y: 3}}), 1), sheets: sheet, words: "the outline is empty"},
		"infinite turn":  {piece: plain(box, 1, math.Inf(1)), sheets: sheet, words: "a turn of the piece is not a number of degrees"},
		"hole outside": {piece: nest.Piece{Outline: geom.Region{Outer: box, Holes: []*geom.Path{at(box, 40, 0)}}, Count: 1}, sheets: sheet,
			words: "opening 1 lies outside the outline"},
		"no sheet":      {piece: plain(box, 1), words: "there is no sheet to lay pieces on"},
		"sheet of none": {piece: plain(box, 1), sheets: []nest.Sheet{{Width: math.NaN(), Height: 3}}, words: "a sheet of NaN x 3; both are more than 0"},
		"gap":           {piece: plain(box, 1), sheets: sheet, gap: -1, words: "a gap of -1 between pieces; it is 0 or more"},
		"kept of none":  {piece: plain(box, 1), sheets: sheet, kept: []nest.Place{{Copy: 3}}, words: "number 4 of the piece is kept; there are 1"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := nest.Nest(context.Background(), []nest.Piece{c.piece}, c.sheets, nest.Options{Gap: c.gap, Kept: c.kept})
			require.IsType(t, nest.Faults{}, err)
			require.Equal(t, c.words, err.Error())
		})
	}
}
