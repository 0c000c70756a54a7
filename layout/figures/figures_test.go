package figures

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"markout/layout/geom"
	"markout/layout/set"
)

func board(w, h float64) *set.Figure {
	f := &set.Figure{Width: w, Height: h, Bodies: []geom.Region{{Outer: geom.Rectangle(w, h).Transform(geom.Move(geom.Point{Y: h / 2}, 0))}}}
	f.Drawn = f.Bodies
	return f
}

func looking(frame geom.Frame, eye float64, at geom.Vec) *set.Set {
	f := board(400, 2000)
	f.Eye, f.LookAt = eye, &set.Look{Words: "lamp", At: at}
	return &set.Set{Name: "Quayside kiosk", Sides: "stage", Elements: []*set.Element{
		{Name: "heron", Shape: f, Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: frame}}}}}}}
}

// Triangles of 3, 4, 5 by hand. The figure stands at 0,0 and its face looks downstage, so that its left is plan-right.
func TestSightsByHand(t *testing.T) {
	up := math.Atan2(3, 4) * 180 / math.Pi // 36.8699
	for _, c := range []struct {
		turn            float64
		at              geom.Vec
		dist, up, round float64
	}{
		{0, geom.Vec{Y: -4000, Z: 4500}, 5000, up, 0},
		{0, geom.Vec{X: 4000, Z: 4500}, 5000, up, 90},
		{0, geom.Vec{X: -4000, Z: -1500}, 5000, -up, -90},
		{0, geom.Vec{Y: 4000, Z: 1500}, 4000, 0, 180},
		{90, geom.Vec{X: 4000, Z: 1500}, 4000, 0, 0}, // turned anticlockwise, its face looks plan-right
		{90, geom.Vec{X: 3000, Y: 3000, Z: 1500}, 3000 * math.Sqrt2, 0, 45},
		{90, geom.Vec{X: 3000, Y: -3000, Z: 1500}, 3000 * math.Sqrt2, 0, -45},
		{0, geom.Vec{Z: 2500}, 1000, 90, 0},
		{0, geom.Vec{Z: 1500}, 0, 0, 0},
	} {
		got := Sights(looking(geom.Upright(geom.Point{}, 0, c.turn), 1500, c.at))
		require.Len(t, got, 1)
		require.InDelta(t, c.dist, got[0].Distance, 1e-9)
		require.InDelta(t, c.up, got[0].Up, 1e-9, "%v", c)
		require.InDelta(t, c.round, got[0].Round, 1e-9, "%v", c)
	}
}

// Against gonum's vectors, by scalar and vector products in space instead of arc tangents on the plan.
func TestSightsAgainstVectors(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 2000 {
		turn, x, y, z := 360*r.Float64(), 8000*(r.Float64()-0.5), 8000*(r.Float64()-0.5), 1000*r.Float64()
		at := geom.Vec{X: 8000 * (r.Float64() - 0.5), Y: 8000 * (r.Float64() - 0.5), Z: 4000 * r.Float64()}
		got := Sights(looking(geom.Upright(geom.Point{X: x, Y: y}, z, turn), 1600, at))[0]
		eyes := r3.Vec{X: x, Y: y, Z: z + 1600}
		to := r3.Sub(r3.Vec{X: at.X, Y: at.Y, Z: at.Z}, eyes)
		require.InDelta(t, r3.Norm(to), got.Distance, 1e-6)
		require.InDelta(t, 90-math.Acos(r3.Cos(to, r3.Vec{Z: 1}))*180/math.Pi, got.Up, 1e-6)
		ahead := r3.Rotate(r3.Vec{Y: -1}, turn*math.Pi/180, r3.Vec{Z: 1})
		level := r3.Vec{X: to.X, Y: to.Y}
		require.InDelta(t, math.Acos(r3.Cos(ahead, level))*180/math.Pi, math.Abs(got.Round), 1e-5)
		if math.Abs(got.Round) > 1e-3 && math.Abs(got.Round) < 179.999 {
			require.Equal(t, r3.Cross(ahead, level).Z > 0, got.Round > 0, "anticlockwise is to its left")
		}
	}
}

func TestEyeLinesTable(t *testing.T) {
	s := looking(geom.Upright(geom.Point{X: -1000, Y: 2000}, 450, 0), 1500, geom.Vec{X: -5000, Y: 2000, Z: 4950})
	tab := EyeLines(s)
	require.Len(t, tab.Rows, 1)
	var names, cells []string
	for i, c := range tab.Columns {
		names = append(names, c.Name)
		cells = append(cells, tab.ForPeople(c, tab.Rows[0][i]))
	}
	require.Equal(t, []string{"figure", "eye_x_mm", "eye_y_mm", "eye_z_mm", "looks_at", "distance_mm", "up_deg", "round_deg"}, names)
	require.Equal(t, []string{"heron", "1000 R", "2000 U", "1950", "lamp", "5000", "37 up", "90 to its right"}, cells)
	require.InDelta(t, -90, tab.Rows[0][7].X, 1e-9, "signed for programs")
	require.Nil(t, EyeLines(&set.Set{}))
}

// Eyes of one with an arm held out at their height stand over the head.
func TestEyesOverTheHead(t *testing.T) {
	f := board(400, 1800)
	f.Eye = 1650
	f.Bodies = append(f.Bodies, geom.Region{Outer: geom.Rectangle(100, 1000).Transform(geom.Move(geom.Point{X: 700, Y: 1200}, 0))})
	f.Drawn = f.Bodies
	at, ok := f.Eyes()
	require.True(t, ok)
	require.Equal(t, geom.Point{Y: 1650}, at)
	f.Hung = true
	at, _ = f.Eyes()
	require.Equal(t, 150.0, at.Y, "hung, so far above its lowest point")
}

// The brace of a figure 1800 high: 1200 up, 720 out, of 38 x 63; the strut from 900 up the upright to 540 along the foot.
func TestBrace(t *testing.T) {
	f := board(500, 1800)
	require.Nil(t, BraceOf(f, nil, false))
	f.Brace = true
	b := BraceOf(f, nil, false)
	require.Equal(t, [4]float64{1200, 720, 38, 63}, [4]float64{b.Upright, b.Foot, b.Thick, b.Deep})
	require.InDelta(t, math.Atan2(900-63, 540-63)*180/math.Pi, b.Slope, 1e-9)
	along := geom.Point{X: 540 - 63, Y: 63 - 900}.Unit()
	for i := range 4 { // its edges are parallel, 63 apart, and end on the upright's back and on the foot
		d := b.Strut[i].Sub(geom.Point{X: 63, Y: 900}).Cross(along)
		require.InDelta(t, 31.5, math.Abs(d), 1e-9)
	}
	require.InDelta(t, 63, b.Strut[0].X, 1e-9)
	require.InDelta(t, 63, b.Strut[3].X, 1e-9)
	require.InDelta(t, 63, b.Strut[1].Y, 1e-9)
	require.InDelta(t, 63, b.Strut[2].Y, 1e-9)
	require.Len(t, b.Places(), 1)
	require.InDelta(t, 0, b.Places()[0], 1e-9)
	ts := b.Timbers()
	require.Equal(t, 1137.0, ts[0].Length, "stands on the foot")

	// A timber of the file that is thick and deep enough, the thinner of two.
	b = BraceOf(f, []set.Length{{Width: 20, Depth: 100}, {Width: 97, Depth: 47}, {Width: 44, Depth: 69}}, false)
	require.Equal(t, 2, b.Length)
	require.Equal(t, [2]float64{44, 69}, [2]float64{b.Thick, b.Deep})

	// Two for one 2000 wide, and one beside the gap where its legs stand apart.
	wide := board(2000, 1500)
	wide.Brace = true
	require.Len(t, BraceOf(wide, nil, false).Places(), 2)
	legs := board(600, 1800)
	legs.Brace = true
	legs.Bodies[0].Outer = geom.Polygon([]geom.Point{{X: -300}, {X: -60}, {X: -60, Y: 800}, {X: 60, Y: 800}, {X: 60}, {X: 300}, {X: 300, Y: 1800}, {X: -300, Y: 1800}})
	require.Greater(t, math.Abs(BraceOf(legs, nil, false).Places()[0]), 60.0)

	// In feet, 6'-0" high: 4 ft up, 2'-5" out (28.8 in), of 1 1/2 x 2 1/2.
	tall := board(500, 72*25.4)
	tall.Brace = true
	b = BraceOf(tall, nil, true)
	require.InDeltaSlice(t, []float64{48 * 25.4, 29 * 25.4, 38.1, 63.5}, []float64{b.Upright, b.Foot, b.Thick, b.Deep}, 1e-9)

	low := board(900, 400)
	low.Brace = true
	b = BraceOf(low, nil, false)
	require.Equal(t, [2]float64{360, 450}, [2]float64{b.Upright, b.Foot})
	tiny := board(30, 12)
	tiny.Brace = true
	require.NotPanics(t, func() { b = BraceOf(tiny, nil, false) })
	for _, p := range b.Strut {
		require.True(t, p.Finite())
	}
}

// A head of a figure whose hand is raised beside it: the head is the part with the eyes.
func TestHeadBesideAHand(t *testing.T) {
	f := board(300, 1800)
	f.Eye, f.Head = 1680, 250
	f.Bodies[0].Outer = geom.Polygon([]geom.Point{{X: -150}, {X: 150}, {X: 150, Y: 1400}, {X: 400, Y: 1400}, {X: 400, Y: 1750}, {X: 330, Y: 1750}, {X: 330, Y: 1470},
		{X: 90, Y: 1470}, {X: 90, Y: 1800}, {X: -90, Y: 1800}, {X: -150, Y: 1400}})
	f.Drawn = f.Bodies
	h, err := HeadOf(f, 0)
	require.NoError(t, err)
	require.Equal(t, 1, h.Others)
	b := h.Region.Bounds()
	require.InDelta(t, 1550, b.Min.Y, 0.02)
	require.InDelta(t, 90, b.Max.X, 0.02)
	require.InDelta(t, 1680, h.Pole.Length, 1e-9)
	require.InDelta(t, 130, h.Pole.Behind, 0.02)
	require.InDelta(t, 0, h.Pole.X, 30)
	raised, err := HeadOf(f, 450)
	require.NoError(t, err)
	require.InDelta(t, 450+1680, raised.Pole.Length, 1e-9)
	require.InDelta(t, 1680, raised.Pole.Top, 1e-9)
	f.Head = 0
	h, err = HeadOf(f, 450)
	require.NoError(t, err)
	require.Nil(t, h)
}
