package view

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// lightstair is half a turn about 0,0 to the right, from 2000,0 to −2000,0 round the front, 1000 wide, in 12 treads.
func lightstair(left bool) (*set.Set, *set.Element, *set.Steps) {
	sweep := -math.Pi
	if left {
		sweep = math.Pi
	}
	p := geom.NewPath(geom.Point{X: 2000})
	p.ArcTo(geom.Point{}, sweep, geom.Point{X: -2000})
	st := &set.Steps{Line: p, LineIs: "centre", Widths: []float64{1000}, Shifts: []float64{0}, Tread: 18, RiserBoard: 9, Nosing: 20, FootOn: "floor"}
	for range 12 {
		st.Rises, st.Goings = append(st.Rises, 150), append(st.Goings, math.Pi*2000/12)
	}
	st.Rises = append(st.Rises, 150)
	e := &set.Element{Name: "stair", Kind: "steps", Copies: at(0, 0, 0, 0), FullSize: []string{"floor", "side"}, Shape: st}
	return &set.Set{Name: "Lighthouse stair", Sides: "stage", Elements: []*set.Element{e}}, e, st
}

// The strings of half a turn are half circles laid flat, π·1500 and π·2500 long; the first notch is short by the tread.
func TestSidesOfATurningFlight(t *testing.T) {
	for _, left := range []bool{true, false} {
		s, e, st := lightstair(left)
		sides := Sides(s, e)
		require.Len(t, sides, 2)
		require.Equal(t, "inner side", sides[0].View)
		require.Equal(t, "outer side", sides[1].View)
		inner := "on the right as one climbs"
		if left {
			inner = "on the left as one climbs"
		}
		require.Contains(t, words(sides[0]), "inner side, "+inner)
		require.Contains(t, words(sides[0]), "bent to a radius of 1500, 4712.4 long")
		require.Contains(t, words(sides[1]), "bent to a radius of 2500, 7854 long")
		for i, r := range []float64{1500, 2500} {
			require.Equal(t, "stair", sides[i].Name)
			require.InDelta(t, math.Pi*r, sides[i].Bounds().Max.X, 1e-6)
			profile := st.StringerUnder(left == (i == 1))
			heights := climbs(profile)
			require.InDelta(t, 132, heights[0], 1e-9, "150 less the tread of 18")
			require.InDelta(t, 150, heights[5], 1e-9)
			n := st.Notches(left == (i == 1))
			for k := range n {
				require.InDelta(t, math.Pi*r/12*float64(k), n[k].Riser, 1e-6)
				if k < 12 { // beyond its end the line is straight
					require.InDelta(t, r*math.Asin(9/r), n[k].Back-n[k].Riser, 1e-6, "9 square off the riser, along the arc")
				}
				if k > 0 {
					require.InDelta(t, r*math.Asin(20/r), n[k].Riser-n[k].Front, 1e-6)
				}
			}
			require.InDelta(t, 20, n[0].Riser-n[0].Front, 1e-9, "before its start the line is straight")
		}
	}
}

// A line that turns both ways has a left and a right side; a line without a turn one side, as a straight flight.
func TestSidesOfOtherLines(t *testing.T) {
	s, e, st := lightstair(true)
	p := geom.NewPath(geom.Point{})
	p.ArcTo(geom.Point{X: -2000}, 1, geom.Point{X: -2000}.Add(geom.Polar(2000, 1)))
	turn := geom.Point{X: -2000}.Add(geom.Polar(4000, 1))
	p.ArcTo(turn, -1, turn.Sub(geom.Point{X: 2000}))
	st.Line, st.Goings = p, []float64{2000, 2000}
	st.Rises = st.Rises[:3]
	sides := Sides(s, e)
	require.Equal(t, "left side", sides[0].View)
	require.Equal(t, "right side", sides[1].View)
	require.InDelta(t, 1500+2500, sides[0].Bounds().Max.X, 1e-6)
	require.Contains(t, words(sides[0]), "bent to a radius of 2500, 2500 long")
	line := geom.NewPath(geom.Point{})
	line.LineTo(geom.Point{X: 4000})
	st.Line = line
	require.Len(t, Sides(s, e), 1)
}

// On the plan: half an annulus, eleven risers between its ends that point to the middle, and the way up along the line.
func TestPlanOfATurningFlight(t *testing.T) {
	s, e, st := lightstair(false)
	own := fullSize.traces(st)
	require.Equal(t, edge, own[0].kind)
	require.InEpsilon(t, math.Pi/2*(2500*2500-1500*1500), own[0].path.Area(), 1e-12)
	require.Equal(t, 4, own[0].path.Len())
	risers := 0
	for _, tr := range own {
		switch tr.kind {
		case riser:
			risers++
			a, b := tr.path.Start(), tr.path.End()
			require.InDelta(t, 0, a.Cross(b), 1e-3, "in line with 0,0")
			require.InDelta(t, 2500, a.Len(), 1e-6, "the left one is outside")
			require.InDelta(t, 1500, b.Len(), 1e-6)
		case covered:
			require.InDelta(t, 1000, tr.path.Length(), 5)
		case arrow:
			require.InDelta(t, 0, tr.path.Start().Dist(geom.Point{X: 2000}), 1e-9)
			require.Equal(t, geom.Point{X: -2000}, tr.path.Segment(tr.path.Len()-1).From)
		}
	}
	require.Equal(t, 11, risers)
	for _, d := range []*drawing.Drawing{Floor(s), Plan(s)} {
		require.Contains(t, words(d), "UP 13 risers")
	}
	require.Contains(t, words(Floor(s)), "riser 12")
	for _, p := range samples(e.Shape, own, geom.Move(geom.Point{}, 0)) {
		require.InDelta(t, 2000, p.Len(), 1e-6, "on the flight, and not in its well")
	}
}

// Blocks along a line have their own outlines and sides.
func TestBlocksAlongALine(t *testing.T) {
	s, e, st := lightstair(true)
	st.Blocks, st.Nosing, st.RiserBoard, st.Tread = true, 0, 0, 0
	own := fullSize.traces(st)
	require.Len(t, own, 13)
	require.InEpsilon(t, math.Pi/24*(2500*2500-1500*1500), own[3].path.Area(), 1e-12)
	points := set.FloorPoints(e, e.Copies[0].Places[0])
	require.Len(t, points, 48)
	require.Equal(t, "block 2 corner 3", points[6].Name)
	require.InDelta(t, 0, points[6].At.Dist(geom.Polar(2500, math.Pi/6)), 1e-6)
	require.InDelta(t, math.Pi/12*2500, points[5].Run, 1e-6, "taped along the arc")
	require.InDelta(t, math.Pi*1500, Sides(s, e)[0].Bounds().Max.X, 1e-6)
}
