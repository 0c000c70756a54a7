package set

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// quarter is a flat along a quarter of a circle of radius r about 0, 0, from r, 0 to 0, r, so that it turns to its left.
func quarter(r, thick float64, left bool) *Flat {
	line := geom.NewPath(geom.Point{X: r})
	line.ArcTo(geom.Point{}, math.Pi/2, geom.Point{Y: r})
	return &Flat{Line: line, Length: line.Length(), Height: 2400, Thickness: thick, FaceLeft: left}
}

// An annulus sector between radii r and R over the angle a has the area (R² − r²)·a/2 and the arcs r·a and R·a
// (elementary geometry, as in any handbook of mensuration).
func TestCurvedFlatIsAnAnnulusSector(t *testing.T) {
	for _, r := range []float64{400, 2000, 25000} {
		for _, thick := range []float64{18, 60, 399} {
			for _, left := range []bool{false, true} {
				f := quarter(r, thick, left)
				inner, outer := r-thick, r // the thickness goes to the left, which is inside
				if left {
					inner, outer = r, r+thick
				}
				require.InDelta(t, r*math.Pi/2, f.Length, 1e-9*r)
				foot := Footprints(f)
				require.Len(t, foot, 1)
				require.InEpsilon(t, (outer*outer-inner*inner)*math.Pi/4, foot[0].Area(), 1e-12)
				require.InEpsilon(t, (outer+inner)*math.Pi/2+2*thick, foot[0].Outer.Length(), 1e-12)
				require.Positive(t, foot[0].Outer.Area(), "anticlockwise")
				arcs := 0
				for _, s := range foot[0].Outer.Segments() {
					if s.Kind == geom.Arc {
						arcs++
						require.Contains(t, []float64{math.Round(inner), math.Round(outer)}, math.Round(s.RX))
					}
				}
				require.Equal(t, 2, arcs)
				// Cut in parts, the parts make the whole.
				one, err := f.Strip(0, f.Length/3)
				require.NoError(t, err)
				two, err := f.Strip(f.Length/3, f.Length)
				require.NoError(t, err)
				require.InEpsilon(t, foot[0].Area(), one.Area()+two.Area(), 1e-12)
			}
		}
	}
}

// The strip of mitred pieces has the area of the mean line times the thickness: a bay of three at right angles.
func TestMitredFlat(t *testing.T) {
	line := geom.NewPath(geom.Point{})
	for _, p := range []geom.Point{{X: 1000}, {X: 1000, Y: 2000}, {X: 0, Y: 2000}} {
		line.LineTo(p)
	}
	f := &Flat{Line: line, Length: 4000, Height: 2400, Thickness: 60}
	area := Footprints(f)[0].Area()
	require.InDelta(t, 60*(970+1940+970), area, 1e-6, "the mean line is 30 inside")
	f.FaceLeft = true
	require.InDelta(t, 60*(1030+2060+1030), Footprints(f)[0].Area(), 1e-6)
	require.Equal(t, []float64{1000, 3000}, f.Joints())
	at, ahead := f.Along(1000)
	require.Equal(t, geom.Point{X: 1000}, at)
	require.Equal(t, geom.Point{Y: 1}, ahead, "at a corner the way it leaves it")
}

// A flat along an ellipse has a back of arcs within 0.0005 mm: its strip's area is that between the ellipse and its
// parallel curve, ∫(d − d²κ/2) ds = d·L − d²·φ/2, φ the angle turned (Steiner's formula).
func TestFlatAlongAnEllipse(t *testing.T) {
	line := geom.NewPath(geom.Point{X: 3000})
	line.EllipseTo(geom.Point{}, 3000, 2000, 0, 0, math.Pi, geom.Point{X: -3000})
	f := &Flat{Line: line, Length: line.Length(), Height: 2400, Thickness: 60}
	foot := Footprints(f)
	require.Len(t, foot, 1)
	require.InDelta(t, 60*f.Length-60*60*math.Pi/2, foot[0].Area(), 0.001*f.Length)
}

func TestStraightFlatHasTheSameAlong(t *testing.T) {
	f := &Flat{Length: 3000, Height: 2400}
	at, ahead := f.Along(1200)
	require.Equal(t, geom.Point{X: 1200}, at)
	require.Equal(t, geom.Point{X: 1}, ahead)
	require.Empty(t, f.Joints())
	require.Equal(t, 1.0, f.Behind(), "at least 1 mm")
	require.Equal(t, 1, f.FaceLine().Len())
}

// A flat along one straight line is the flat from P to Q.
func TestFlatAlongAStraightLine(t *testing.T) {
	line := geom.NewPath(geom.Point{})
	line.LineTo(geom.Point{X: 3000})
	openings := []Opening{{Word: "door", At: 600, Width: 800, Height: 2000}}
	for _, left := range []bool{false, true} {
		straight := &Flat{Length: 3000, Height: 2400, Thickness: 60, FaceLeft: left, Openings: openings}
		along := &Flat{Line: line, Length: 3000, Height: 2400, Thickness: 60, FaceLeft: left, Openings: openings}
		a, b := Footprints(straight)[0].Outer, Footprints(along)[0].Outer
		require.ElementsMatch(t, a.Vertices(), b.Vertices())
		require.Equal(t, a.Area(), b.Area())
		require.Equal(t, FloorPoints(&Element{Shape: straight}, place(1, 2, 3, 4)), FloorPoints(&Element{Shape: along}, place(1, 2, 3, 4)))
	}
}

func TestCurvedFlatPoints(t *testing.T) {
	line := geom.NewPath(geom.Point{X: -1000})
	line.LineTo(geom.Point{X: -1000, Y: 1000})
	line.ArcTo(geom.Point{Y: 1000}, -math.Pi, geom.Point{X: 1000, Y: 1000})
	f := &Flat{Line: line, Length: line.Length(), Height: 2400, Thickness: 60, Openings: []Opening{
		{Word: "door", At: 100, Width: 800, Height: 2000}, {Word: "window", At: 1000 + 500*math.Pi, Sill: 900, Width: 300, Height: 900},
	}}
	e := &Element{Shape: f}
	requirePoints(t, e, place(0, 0, 0, 0),
		listedPoint{"P", -1000, 0, 0}, listedPoint{"end 1", -1000, 1000, 0}, listedPoint{"middle 2", 0, 2000, 0}, listedPoint{"Q", 1000, 1000, 0},
		listedPoint{"door 1 near", -1000, 100, 0}, listedPoint{"door 1 far", -1000, 900, 0})
	points := FloorPoints(e, place(0, 0, 0, 0))
	sum := 0.0
	for _, p := range points {
		sum += p.Run
	}
	require.InDelta(t, f.Length, sum, 1e-9, "the tape along it")
}

func TestCone(t *testing.T) {
	spire := &Cone{Lower: 900, Height: 1800}
	planter := &Cone{Lower: 300, Upper: 450, Height: 420, Sides: 4}
	tri := &Cone{Lower: 300, Upper: 100, Height: 50, Sides: 3}
	require.InEpsilon(t, math.Pi*450*450, Footprints(spire)[0].Area(), 1e-12)
	require.InEpsilon(t, 450*450, Footprints(planter)[0].Area(), 1e-12, "the wider end")
	// A regular triangle about a circle of radius r has the area 3√3·r².
	require.InEpsilon(t, 3*math.Sqrt(3)*150*150, Footprints(tri)[0].Area(), 1e-12)
	require.Equal(t, 420.0, Height(planter))
	require.Empty(t, Surfaces(&Element{Shape: spire}, place(0, 0, 0, 0)), "nobody stands on a point")
	top := Surfaces(&Element{Name: "planter", Shape: planter}, place(1000, 0, 50, 0))
	require.Len(t, top, 1)
	require.Equal(t, 470.0, top[0].A)
	require.InEpsilon(t, 450*450, top[0].Region.Area(), 1e-12)

	requirePoints(t, &Element{Shape: spire}, place(1, 2, 0, 0), listedPoint{"centre", 1, 2, 0})
	requirePoints(t, &Element{Shape: planter}, place(0, 0, 0, 0), listedPoint{"corner 1", -150, -150, 0}, listedPoint{"corner 2", 150, -150, 0},
		listedPoint{"corner 3", 150, 150, 0}, listedPoint{"corner 4", -150, 150, 0})
	requirePoints(t, &Element{Shape: &Cone{Upper: 400, Height: 9, Sides: 4}}, place(0, 0, 3, 0), listedPoint{"corner 1", -200, -200, 3},
		listedPoint{"corner 2", 200, -200, 3}, listedPoint{"corner 3", 200, 200, 3}, listedPoint{"corner 4", -200, 200, 3})
	require.True(t, spire.Rim(0).Path.Empty())
	require.True(t, planter.Rim(0).Path.Empty())
}
