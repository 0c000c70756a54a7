package view

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// pilotOutline is a standing figure that is not the same left and right, 1780 high and 700 wide: its left arm (as seen from the front) is held out
// at the height of its shoulders, and its feet stand apart. Its box is from −350 to 350, from 0 to 1780.
func pilotOutline() *geom.Path {
	return geom.Polygon([]geom.Point{{X: -80}, {X: 40}, {X: 60, Y: 700}, {X: 80, Y: 700}, {X: 160}, {X: 300},
		{X: 300, Y: 900}, {X: 350, Y: 1450}, {X: 180, Y: 1500}, {X: 200, Y: 1560}, {X: 200, Y: 1780}, {X: 20, Y: 1780}, {X: 20, Y: 1560},
		{X: 40, Y: 1500}, {X: -350, Y: 1500}, {X: -350, Y: 1420}, {X: -60, Y: 1380}})
}

// pilot is the harbour pilot of Low Tide, its picture 890 high in its file and 350 wide, with a frame of 40 about it.
func pilot(change func(f *set.Figure)) (*set.Set, *set.Element) {
	f := &set.Figure{Height: 1780, Width: 700, Thickness: 18, Eye: 1650, Facing: "left", Tolerance: 1}
	f.Art = &set.Artwork{File: "pilot.svg", Drawn: true, Picture: &artwork.Picture{W: 430, H: 970}}
	change(f)
	lay(f, pilotOutline())
	e := &set.Element{Name: "pilot", Kind: "figure", Shape: f, Copies: at(0, 3600, 450, 0), FullSize: []string{"face"}}
	e.Copies[0].Places[0].On = "deck"
	return &set.Set{Name: "Quayside kiosk", Sides: "stage", Elements: []*set.Element{e}}, e
}

// lay puts the outline of a figure that is drawn upright and unturned onto its face, and its picture with it.
func lay(f *set.Figure, outline *geom.Path) {
	m := artwork.Matrix{A: 2, D: 2, E: -430, F: -80}
	own := artwork.Identity()
	if f.Flipped {
		own = own.Then(artwork.Matrix{A: -1, D: 1})
	}
	if f.Hung {
		own = own.Then(artwork.Matrix{A: -1, D: -1, F: f.Height})
	}
	own = own.Then(artwork.Matrix{A: 1, D: 1, F: f.Ground})
	f.Frame = m.Then(own)
	p := own.Path(outline)
	if p.Area() < 0 {
		p = p.Reverse()
	}
	f.Bodies = []geom.Region{{Outer: p}}
	f.Drawn = f.Bodies
}

func cutBox(d *drawing.Drawing) geom.Rect {
	b := geom.EmptyRect()
	for _, s := range d.Strokes {
		if s.Layer == drawing.Cut {
			b = b.Union(s.Path.Bounds())
		}
	}
	return b
}

func says(d *drawing.Drawing) string {
	var out []string
	for _, t := range d.Texts {
		out = append(out, t.Text)
	}
	return strings.Join(out, "\n")
}

func cutPath(t *testing.T, d *drawing.Drawing) *geom.Path {
	t.Helper()
	for _, s := range d.Strokes {
		if s.Layer == drawing.Cut {
			require.Equal(t, drawing.WideLine, s.Width)
			return s.Path
		}
	}
	t.Fatal("nothing is cut")
	return nil
}

// The cut is as high as the figure is said to be, its artwork lies under it, and the eye line stands where it is said.
func TestFigureFace(t *testing.T) {
	s, e := pilot(func(f *set.Figure) { f.Ground = 40 })
	d := Face(s, e)
	b := cutBox(d)
	require.InDelta(t, 1780, b.H(), 1e-6)
	require.InDelta(t, 40, b.Min.Y, 1e-6)
	require.Len(t, d.Pictures, 1)
	require.Equal(t, drawing.Notes, d.Pictures[0].Layer)
	require.Equal(t, b, d.Pictures[0].Shown)
	// What of the artwork matters is what is cut: its boxes hold the outline and little else, within the box of what is shown.
	area := 0.0
	for _, r := range d.Pictures[0].Over {
		area += r.W() * r.H()
		require.True(t, b.Grow(1e-6).Contains(r.Min) && b.Grow(1e-6).Contains(r.Max))
	}
	for _, q := range cutPath(t, d).Flatten(1, nil) {
		require.True(t, slices.ContainsFunc(d.Pictures[0].Over, func(r geom.Rect) bool { return r.Contains(q) }), "%v", q)
	}
	whole := cutPath(t, d).Area()
	require.True(t, area > whole && area < 1.25*whole, "%g of %g", area, whole)
	require.InDelta(t, 0, d.Pictures[0].Frame.Apply(geom.Point{X: 215, Y: 40}).X, 1e-9)
	require.InDelta(t, 40, d.Pictures[0].Frame.Apply(geom.Point{X: 215, Y: 40}).Y, 1e-9)
	require.Contains(t, says(d), "eye line 1650, 1690 above the floor")
	require.Contains(t, says(d), "floor, 40 under it")
	require.Contains(t, says(d), "faces left")
	require.Contains(t, says(d), "1780 high\n700 wide")
	require.InDelta(t, 0, d.Bounds().Min.Y, 1e-9, "down to the floor")
	var eye *geom.Path
	for _, p := range d.Strokes {
		if p.Layer == drawing.Notes && p.Path.Start().Y == 1690 {
			eye = p.Path
		}
	}
	require.NotNil(t, eye)
	require.Equal(t, -40.0, eye.Start().X, "60 beyond the head, 20 to 200")
	require.GreaterOrEqual(t, eye.End().X, 260.0)
}

// A hung figure is turned half round: whoever goes round it anticlockwise still does, its arm has changed sides and its feet
// are above. A flipped one is mirrored. From behind everything is seen on the other side.
func TestFigureTurnsAndMirrors(t *testing.T) {
	arm := func(p *geom.Path) geom.Point { // the corner farthest from the figure's middle line
		out := geom.Point{}
		for _, v := range p.Vertices() {
			if v.X*v.X+1e-6*v.Y*v.Y > out.X*out.X+1e-6*out.Y*out.Y {
				out = v
			}
		}
		return out
	}
	for _, c := range []struct {
		name   string
		change func(f *set.Figure)
		behind bool
		arm    geom.Point // of the drawn −350, 1500
		says   string
		left   bool // the inside of what is cut lies to the left of it as it stands in the set
	}{
		{"as drawn", func(f *set.Figure) {}, false, geom.Point{X: -350, Y: 1500}, "faces left", true},
		{"flipped", func(f *set.Figure) { f.Flipped = true }, false, geom.Point{X: 350, Y: 1500}, "faces right, flipped", true},
		{"hung", func(f *set.Figure) { f.Hung = true }, false, geom.Point{X: 350, Y: 280}, "HUNG:\nthis edge up", true},
		{"hung and flipped", func(f *set.Figure) { f.Hung, f.Flipped = true, true }, false, geom.Point{X: -350, Y: 280}, "faces left, flipped", true},
		{"back", func(f *set.Figure) { f.BothSides = true }, true, geom.Point{X: 350, Y: 1500}, "seen from behind\n1780 high\n700 wide\nfaces right", false},
	} {
		s, e := pilot(c.change)
		ds := FigureFaces(s, e)
		d := ds[len(ds)-1]
		require.Equal(t, c.behind, d.View == "back", c.name)
		p := cutPath(t, d)
		got := arm(p)
		require.InDelta(t, c.arm.X, got.X, 1e-6, c.name)
		require.InDelta(t, c.arm.Y, got.Y, 81, c.name)
		require.Contains(t, says(d), c.says, c.name)
		if d.Pictures[0].Frame.Det() < 0 != (e.Shape.(*set.Figure).Flipped != c.behind) {
			t.Errorf("%s: the picture is mirrored where the cut is not, or not where it is", c.name)
		}
	}
	// The back is the front's mirror image, vertex for vertex, and so is its picture.
	s, e := pilot(func(f *set.Figure) { f.BothSides = true })
	ds := FigureFaces(s, e)
	require.Len(t, ds, 2)
	front, back := cutPath(t, ds[0]).Vertices(), cutPath(t, ds[1]).Vertices()
	for i := range front {
		require.InDelta(t, front[i].X, -back[i].X, 1e-9)
		require.InDelta(t, front[i].Y, back[i].Y, 1e-9)
	}
	q := geom.Point{X: 17, Y: 600}
	require.InDelta(t, ds[0].Pictures[0].Frame.Apply(q).X, -ds[1].Pictures[0].Frame.Apply(q).X, 1e-9)
}

// A head alone: 280 of 1780 below the crown, as 1500 above the floor; the arm is as high as the cut and no more.
func TestFigureHeadAlone(t *testing.T) {
	s, e := pilot(func(f *set.Figure) { f.Head = 280 })
	e.FullSize = nil
	ds := FigureFaces(s, e)
	require.Len(t, ds, 1, "only the head")
	d := ds[0]
	require.Equal(t, "head", d.View)
	b := cutBox(d)
	require.InDelta(t, 1500, b.Min.Y, 0.01)
	require.InDelta(t, 1780, b.Max.Y, 0.01)
	require.InDelta(t, 20, b.Min.X, 0.01)
	require.InDelta(t, 200, b.Max.X, 0.01)
	require.Contains(t, says(d), "pole 1650 from the floor to the eye line,\n150 of it behind the head")
	require.InDelta(t, b.Min.Y, d.Pictures[0].Shown.Min.Y, 0.01)
	var middle *drawing.Stroke
	for i := range d.Strokes {
		if d.Strokes[i].Type == drawing.LongDashDot {
			middle = &d.Strokes[i]
		}
	}
	require.NotNil(t, middle)
	require.InDelta(t, 1410, middle.Path.Start().Y, 0.01, "below the cut too, with the words beside it")
	require.InDelta(t, 1650, middle.Path.End().Y, 0.01)

	// Hung, the crown is below at 0: the head reaches to 280, the eye line is at 130.
	s, e = pilot(func(f *set.Figure) { f.Head, f.Hung, f.Ground = 280, true, 900 })
	e.FullSize = nil
	d = FigureFaces(s, e)[0]
	b = cutBox(d)
	require.InDelta(t, 900, b.Min.Y, 0.01)
	require.InDelta(t, 1180, b.Max.Y, 0.01)
	require.Contains(t, says(d), "pole 1030 from the floor to the eye line,\n130 of it behind the head")
	require.Contains(t, says(d), "cut straight 280 above the crown, which is below")
	require.Contains(t, says(d), "HUNG: the straight cut is up")

	// Hung 2600 over the floor on nothing, its pole is as much longer.
	s, e = pilot(func(f *set.Figure) { f.Head, f.Hung = 280, true })
	e.Copies = at(0, 3600, 2600, 0)
	e.FullSize = nil
	require.Contains(t, says(FigureFaces(s, e)[0]), "pole 2730 from the floor to the eye line,\n130 of it behind the head")
}

// Words stand beside the figure, not on it.
func TestFigureWordsKeepOff(t *testing.T) {
	for _, hung := range []bool{false, true} {
		s, e := pilot(func(f *set.Figure) { f.Hung = hung })
		d := Face(s, e)
		p := cutPath(t, d)
		for _, w := range d.Texts {
			if strings.HasPrefix(w.Text, "eye line") || strings.HasPrefix(w.Text, "floor") {
				continue
			}
			require.False(t, p.Contains(w.At.Add(w.Offset)), w.Text)
			require.True(t, d.Bounds().Contains(w.At.Add(w.Offset)), w.Text)
		}
	}
}

// The brace of the pilot: two thirds of 1780 high, its foot four tenths of it deep; what is cut closes to three timbers.
func TestFigureBraceSide(t *testing.T) {
	s, e := pilot(func(f *set.Figure) {})
	require.Nil(t, Sides(s, e), "no brace, no side")
	s, e = pilot(func(f *set.Figure) { f.Brace = true })
	d := Sides(s, e)[0]
	b := cutBox(d)
	require.InDelta(t, 1190, b.Max.Y, 1e-6, "two thirds of 1780 in whole centimetres")
	require.InDelta(t, 720, b.Max.X, 1e-6, "four tenths of it")
	require.Contains(t, says(d), "common practice, no source")
	require.Contains(t, says(d), "WEIGHT")
	require.Contains(t, says(d), "who decides")
	require.NotContains(t, strings.ToLower(says(d)), "sa"+"fe")
	cuts := 0
	for _, p := range d.Strokes {
		if p.Layer == drawing.Cut {
			cuts++
			require.True(t, p.Path.Closed())
			require.Positive(t, p.Path.Area())
		}
	}
	require.Equal(t, 3, cuts)
}

// On the floor and the plan: the strip of its width, an arrow the way its face looks, downstage, and the brace's foot dashed
// behind it.
func TestFigureOnTheFloor(t *testing.T) {
	s, e := pilot(func(f *set.Figure) { f.Brace = true })
	e.FullSize = []string{"floor"}
	d := Floor(s)
	require.Contains(t, says(d), "FACE")
	strip := d.Strokes[0].Path.Bounds()
	require.Equal(t, geom.Rect{Min: geom.Point{X: -350, Y: 3600}, Max: geom.Point{X: 350, Y: 3618}}, strip)
	way := d.Strokes[1].Path
	require.Less(t, way.Bounds().Min.Y, way.Start().Y-100)
	require.Equal(t, drawing.Dashed, d.Strokes[2].Type)
	require.InDelta(t, 3618+720, d.Strokes[2].Path.Bounds().Max.Y, 1e-6)

	plan := Plan(s)
	require.Contains(t, says(plan), "pilot")
	// Hung 2300 over nothing, it is overhead, and its own height is written.
	s, e = pilot(func(f *set.Figure) { f.Hung, f.Ground = true, 2300 })
	e.Copies = at(0, 3600, 0, 0)
	require.Contains(t, says(Plan(s)), "OVERHEAD 2300")
	require.False(t, math.IsNaN(cutBox(Plan(s)).W()))
}
