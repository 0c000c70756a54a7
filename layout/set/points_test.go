package set

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

func place(x, y, z, turn float64) Place {
	return Place{Frame: geom.Upright(geom.Point{X: x, Y: y}, z, turn)}
}

type listedPoint struct {
	name        string
	x, y, level float64
}

func requirePoints(t *testing.T, e *Element, pl Place, want ...listedPoint) {
	t.Helper()
	got := FloorPoints(e, pl)
	names := make([]string, len(got))
	for i := range got {
		names[i] = got[i].Name
	}
	require.Len(t, got, len(want), "%v", names)
	for i, w := range want {
		require.Equal(t, w.name, got[i].Name)
		require.InDelta(t, w.x, got[i].At.X, 1e-9, w.name)
		require.InDelta(t, w.y, got[i].At.Y, 1e-9, w.name)
		require.InDelta(t, w.level, got[i].Level, 1e-9, w.name)
	}
}

func TestCorners(t *testing.T) {
	deck := &Element{Name: "deck", Shape: &Platform{Outline: Outline{Form: "rect", Path: geom.Rectangle(3600, 2400)}}}
	requirePoints(t, deck, place(1000, 2000, 300, 0),
		listedPoint{"corner 1", -800, 800, 300}, listedPoint{"corner 2", 2800, 800, 300},
		listedPoint{"corner 3", 2800, 3200, 300}, listedPoint{"corner 4", -800, 3200, 300})
	got := FloorPoints(deck, place(0, 0, 0, 0))
	require.Equal(t, 3600.0, got[0].Run)
	require.Equal(t, 2400.0, got[1].Run)
	requirePoints(t, &Element{Shape: &Ramp{Length: 3600, Rise: 450, Width: 1200}}, place(0, 9600, 0, 180),
		listedPoint{"corner 1", 600, 9600, 0}, listedPoint{"corner 2", -600, 9600, 0},
		listedPoint{"corner 3", -600, 6000, 0}, listedPoint{"corner 4", 600, 6000, 0})
}

// The octagon of the kiosk's deck, 4800 across flats: its side is 4800·tan(22.5°) = 1988.2.
func TestOctagon(t *testing.T) {
	p, err := geom.RegularPolygon(8, 4800, false)
	require.NoError(t, err)
	got := FloorPoints(&Element{Shape: &Platform{Outline: Outline{Form: "polygon", Path: p}}}, place(0, 3600, 0, 0))
	require.Len(t, got, 8)
	for _, f := range got {
		require.InDelta(t, 1988.2, f.Run, 0.05)
	}
	require.InDelta(t, -994.1, got[0].At.X, 0.05)
	require.InDelta(t, 1200, got[0].At.Y, 1e-9)
}

func TestRound(t *testing.T) {
	circle := func(d float64) Outline { return Outline{Form: "circle", Path: geom.Circle(d)} }
	inner := circle(600)
	requirePoints(t, &Element{Shape: &Post{Outline: circle(60), Diameter: 60}}, place(1, 2, 0, 0), listedPoint{"centre", 1, 2, 0})
	requirePoints(t, &Element{Shape: &Ring{Outer: circle(900), Inner: &inner}}, place(1, 2, 0, 0), listedPoint{"centre", 1, 2, 0})
	square := Outline{Form: "rect", Path: geom.Rectangle(100, 100)}
	requirePoints(t, &Element{Shape: &Ring{Outer: circle(900), Inner: &square}}, place(0, 0, 0, 0), listedPoint{"centre", 0, 0, 0},
		listedPoint{"inner corner 1", -50, -50, 0}, listedPoint{"inner corner 2", 50, -50, 0},
		listedPoint{"inner corner 3", 50, 50, 0}, listedPoint{"inner corner 4", -50, 50, 0})
	requirePoints(t, &Element{Shape: &Panel{Outline: Outline{Form: "ellipse", Path: geom.EllipsePath(2400, 1200)}}}, place(0, 0, 0, 90),
		listedPoint{"centre", 0, 0, 0}, listedPoint{"end 1", 600, 0, 0}, listedPoint{"end 2", 0, 1200, 0},
		listedPoint{"end 3", -600, 0, 0}, listedPoint{"end 4", 0, -1200, 0})
}

func drawnPath(closed bool, points ...geom.Point) *geom.Path {
	p := geom.NewPath(points[0])
	for _, q := range points[1:] {
		p.LineTo(q)
	}
	if closed {
		p.Close()
	}
	return p
}

// A drawn outline has its ends as typed, whichever way round it is kept.
func TestDrawn(t *testing.T) {
	a, b, c, d := geom.Point{}, geom.Point{X: 1200}, geom.Point{X: 1200, Y: 900}, geom.Point{Y: 600}
	want := []listedPoint{{"end 1", 1200, 0, 0}, {"end 2", 1200, 900, 0}, {"end 3", 0, 600, 0}, {"end 4", 0, 0, 0}}
	e := &Element{Shape: &Panel{Outline: Outline{Form: "path", Path: drawnPath(true, a, b, c, d)}}}
	requirePoints(t, e, place(0, 0, 0, 0), want...)
	require.InDelta(t, 900, FloorPoints(e, place(0, 0, 0, 0))[0].Run, 1e-9)
	// Typed clockwise: a, d, c, b.
	e = &Element{Shape: &Panel{Outline: Outline{Form: "path", Path: drawnPath(true, a, d, c, b).Reverse(), Reversed: true}}}
	requirePoints(t, e, place(0, 0, 0, 0), listedPoint{"end 1", 0, 600, 0}, listedPoint{"end 2", 1200, 900, 0},
		listedPoint{"end 3", 1200, 0, 0}, listedPoint{"end 4", 0, 0, 0})
	require.InDelta(t, d.Dist(c), FloorPoints(e, place(0, 0, 0, 0))[0].Run, 1e-9)
	hole := Outline{Form: "circle", Path: geom.Circle(100).Transform(geom.Move(geom.Point{X: 600, Y: 300}, 0)), Centre: geom.Point{X: 600, Y: 300}}
	e = &Element{Shape: &Panel{Outline: Outline{Form: "path", Path: drawnPath(true, a, b, c)}, Holes: []Outline{hole}}}
	requirePoints(t, e, place(0, 0, 0, 0), listedPoint{"end 1", 1200, 0, 0}, listedPoint{"end 2", 1200, 900, 0}, listedPoint{"end 3", 0, 0, 0},
		listedPoint{"hole 1 centre", 600, 300, 0})
}

// A riser line has the level of the tread below it and the width and shift of the tread on it; the last riser those of the last tread.
func TestSteps(t *testing.T) {
	s := &Steps{Rises: []float64{140, 165, 150}, Goings: []float64{300, 320}, Widths: []float64{1400, 1300}, Shifts: []float64{0, 60}}
	requirePoints(t, &Element{Shape: s}, place(0, 1200, 100, 0),
		listedPoint{"riser 1 left", -700, 1200, 100}, listedPoint{"riser 1 right", 700, 1200, 100},
		listedPoint{"riser 2 left", -590, 1500, 240}, listedPoint{"riser 2 right", 710, 1500, 240},
		listedPoint{"riser 3 left", -590, 1820, 405}, listedPoint{"riser 3 right", 710, 1820, 405})
	// Climbing downstage, left as one climbs is plan-right.
	got := FloorPoints(&Element{Shape: s}, place(0, 0, 0, 180))
	require.InDelta(t, 700, got[0].At.X, 1e-9)
	s.Blocks = true
	requirePoints(t, &Element{Shape: s}, place(0, 1200, 0, 0),
		listedPoint{"block 1 corner 1", -700, 1200, 0}, listedPoint{"block 1 corner 2", 700, 1200, 0},
		listedPoint{"block 1 corner 3", 700, 1500, 0}, listedPoint{"block 1 corner 4", -700, 1500, 0},
		listedPoint{"block 2 corner 1", -590, 1500, 0}, listedPoint{"block 2 corner 2", 710, 1500, 0},
		listedPoint{"block 2 corner 3", 710, 1820, 0}, listedPoint{"block 2 corner 4", -590, 1820, 0})
	one := &Steps{Rises: []float64{180}, Widths: []float64{900}}
	requirePoints(t, &Element{Shape: one}, place(0, 0, 0, 0), listedPoint{"riser 1 left", -450, 0, 0}, listedPoint{"riser 1 right", 450, 0, 0})
}

func TestFlat(t *testing.T) {
	f := &Flat{Length: 5000, Height: 3000, Openings: []Opening{
		{Word: "window", At: 300, Sill: 900, Width: 600, Height: 900},
		{Word: "door", At: 1200, Width: 800, Height: 2000},
		{Word: "arch", At: 3000, Width: 1000, Height: 2000},
		{Word: "door", Name: "hatch", At: 4200, Width: 600, Height: 1200},
	}}
	requirePoints(t, &Element{Shape: f}, place(0, 0, 0, 0), listedPoint{"P", 0, 0, 0}, listedPoint{"Q", 5000, 0, 0},
		listedPoint{"door 1 near", 1200, 0, 0}, listedPoint{"door 1 far", 2000, 0, 0},
		listedPoint{"arch 1 near", 3000, 0, 0}, listedPoint{"arch 1 far", 4000, 0, 0},
		listedPoint{"door 2 near", 4200, 0, 0}, listedPoint{"door 2 far", 4800, 0, 0})
	row := &Panel{Outline: Outline{Form: "rect", Path: geom.Rectangle(100, 100)}, Stands: true, Run: 3000}
	requirePoints(t, &Element{Shape: row}, place(0, 500, 0, 90), listedPoint{"P", 0, 500, 0}, listedPoint{"Q", 0, 3500, 0})
}

func TestMarks(t *testing.T) {
	pin := &Element{Shape: &Mark{Points: []geom.Point{{}}}}
	requirePoints(t, pin, place(0, 3600, 0, 0), listedPoint{"point", 0, 3600, 0})
	require.True(t, FloorPoints(pin, place(0, 0, 0, 0))[0].First)
	line := &Element{Shape: &Mark{Paths: []*geom.Path{drawnPath(false, geom.Point{}, geom.Point{X: 800}, geom.Point{X: 800, Y: 500})}}}
	requirePoints(t, line, place(0, 0, 0, 0), listedPoint{"start", 0, 0, 0}, listedPoint{"end 1", 800, 0, 0}, listedPoint{"end 2", 800, 500, 0})
	got := FloorPoints(line, place(0, 0, 0, 0))
	require.Equal(t, []float64{800, 500, 0}, []float64{got[0].Run, got[1].Run, got[2].Run})
	require.False(t, got[0].First)
}

func TestNoMarks(t *testing.T) {
	o := Outline{Form: "rect", Path: geom.Rectangle(100, 100)}
	requirePoints(t, &Element{Shape: &Hall{Outline: o}}, place(0, 0, 0, 0))
	requirePoints(t, &Element{Shape: &Reserve{Outline: o, Height: 2000}}, place(0, 0, 0, 0))
	requirePoints(t, &Element{Shape: &Platform{}}, place(0, 0, 0, 0))
}

func TestPlaceName(t *testing.T) {
	cart := &Element{Name: "cart", Copies: []Copy{{Number: 1}}}
	require.Equal(t, "cart", cart.PlaceName(cart.Copies[0], Place{}))
	require.Equal(t, "cart (scene 2)", cart.PlaceName(cart.Copies[0], Place{Position: "scene 2"}))
	post := &Element{Name: "bollard", Copies: []Copy{{Number: 3}}, Numbered: true}
	require.Equal(t, "bollard.3", post.PlaceName(post.Copies[0], Place{}))
}

// The places along a taped line are those of the outline between its two points, whichever way it was typed.
func TestLinesRunFromPointToPoint(t *testing.T) {
	corner := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	p := geom.NewPath(corner(0, 0))
	p.LineTo(corner(1200, 0))
	p.CubicTo(corner(1500, 0), corner(1500, 600), corner(1200, 900))
	p.ArcTo(corner(600, 900), math.Pi, corner(0, 900))
	p.Close()
	turned := geom.Upright(corner(300, 4000), 450, 30)
	for _, reversed := range []bool{false, true} {
		e := &Element{Name: "d", Shape: &Platform{Outline: Outline{Form: "path", Path: p, Reversed: reversed}, Height: 450}}
		points := FloorPoints(e, Place{Frame: turned})
		require.Len(t, points, 4)
		placed := p.Transform(turned.Plan())
		for i, f := range points {
			require.True(t, f.Along[2].Near(points[(i+1)%4].At), "a line ends at the next point")
			for _, q := range f.Along {
				require.Less(t, offPath(placed, q), 1e-3)
			}
			require.GreaterOrEqual(t, f.Run+1e-6, f.At.Dist(f.Along[0])+f.Along[0].Dist(f.Along[1])+f.Along[1].Dist(f.Along[2]))
		}
	}
}

// offPath is how far q lies from a path of chords 0.1 µm from the curve.
func offPath(p *geom.Path, q geom.Point) float64 {
	least, chords := math.Inf(1), p.Flatten(1e-4, nil)
	for i, b := range chords {
		a := chords[(i+len(chords)-1)%len(chords)]
		d := b.Sub(a)
		t := 0.0
		if n := d.Dot(d); n > 0 {
			t = min(max(q.Sub(a).Dot(d)/n, 0), 1)
		}
		least = min(least, q.Dist(a.Add(d.Mul(t))))
	}
	return least
}
