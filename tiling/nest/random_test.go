package nest_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling/nest"
)

// randomRegion returns a star-shaped outline of many concavities, a notched box, a ring, a disc or a frame with an opening.
func randomRegion(rnd *rand.Rand) geom.Region {
	w, h := 5+60*rnd.Float64(), 5+60*rnd.Float64()
	switch rnd.IntN(7) {
	case 0:
		return geom.Region{Outer: geom.Rectangle(w, h)}
	case 1:
		return geom.Region{Outer: geom.Circle(w)}
	case 2:
		return geom.Region{Outer: geom.Circle(w), Holes: []*geom.Path{geom.Circle(w * 0.7)}}
	case 3:
		return geom.Region{Outer: geom.Rectangle(w, h), Holes: []*geom.Path{geom.Rectangle(w*0.8, h*0.7)}}
	case 4:
		return geom.Region{Outer: geom.Polygon([]geom.Point{{}, {X: w}, {X: w, Y: h / 3}, {X: w / 3, Y: h / 3}, {X: w / 3, Y: h}, {Y: h}})}
	case 5:
		p := geom.NewPath(geom.Point{})
		p.LineTo(geom.Point{X: w})
		p.CubicTo(geom.Point{X: w, Y: h}, geom.Point{X: w / 2, Y: h / 4}, geom.Point{Y: h})
		p.Close()
		return geom.Region{Outer: p}
	}
	n := 4 + rnd.IntN(12)
	pts := make([]geom.Point, n)
	for i := range pts {
		pts[i] = geom.Polar(w/2*(0.3+0.7*rnd.Float64()), 2*math.Pi*float64(i)/float64(n))
	}
	return geom.Region{Outer: geom.Polygon(pts)}
}

func randomJob(rnd *rand.Rand) ([]nest.Piece, []nest.Sheet, nest.Options) {
	var pieces []nest.Piece
	for range 1 + rnd.IntN(8) {
		p := nest.Piece{Outline: randomRegion(rnd), Count: 1 + rnd.IntN(3)}
		if rnd.IntN(2) == 0 {
			p.Turns = [][]float64{{0}, {0, 180}, {0, 90, 180, 270}, {0, 33.3}}[rnd.IntN(4)]
		}
		pieces = append(pieces, p)
	}
	sheets := []nest.Sheet{{Width: 60 + 100*rnd.Float64(), Height: 60 + 60*rnd.Float64()}}
	switch rnd.IntN(3) {
	case 0:
		sheets = append(sheets, nest.Sheet{Width: 150, Height: 150, Count: 1 + rnd.IntN(2)})
	case 1:
		sheets[0].Roll = true
		sheets[0].Width = 0
	}
	return pieces, sheets, nest.Options{Gap: float64(rnd.IntN(3)) * 1.5, Trials: 1 + rnd.IntN(60), Workers: 1}
}

func holdRandom(t testing.TB, seed uint64) {
	pieces, sheets, opt := randomJob(rand.New(rand.NewPCG(seed, 1)))
	plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
	if err != nil {
		var faults nest.Faults
		require.True(t, errors.As(err, &faults), "%v", err)
		for _, f := range faults {
			require.NotEmpty(t, f.Words)
		}
		return
	}
	requireSound(t, pieces, sheets, opt, plan)
}

func TestPlansOfRandomPiecesAreSound(t *testing.T) {
	for seed := range uint64(12) {
		holdRandom(t, seed)
	}
}

func FuzzNest(f *testing.F) {
	f.Add(uint64(1))
	f.Fuzz(func(t *testing.T, seed uint64) { holdRandom(t, seed) })
}
