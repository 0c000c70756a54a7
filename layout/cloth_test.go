package layout_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// harbourArt is a drawing of 300 by 200 mm.
var harbourArt = svg(300, 200, `<rect width="300" height="200"/>`)

func clothOf(t *testing.T, more ...string) *set.Cloth {
	t.Helper()
	s := openArt(t, lines("cloth c", append([]string{`artwork "harbour.svg"`}, more...)...), texts{"harbour.svg": harbourArt})
	return s.Find("c").Shape.(*set.Cloth)
}

func box(x0, y0, x1, y1 float64) geom.Rect {
	return geom.Rect{Min: geom.Point{X: x0, Y: y0}, Max: geom.Point{X: x1, Y: y1}}
}

func requireRect(t *testing.T, want, got geom.Rect) {
	t.Helper()
	require.InDelta(t, want.Min.X, got.Min.X, 1e-6)
	require.InDelta(t, want.Min.Y, got.Min.Y, 1e-6)
	require.InDelta(t, want.Max.X, got.Max.X, 1e-6)
	require.InDelta(t, want.Max.Y, got.Max.Y, 1e-6)
}

// Widths and heights by hand: the artwork is half as wide again as it is high.
func TestClothSize(t *testing.T) {
	for _, c := range []struct {
		more        []string
		w, h        float64
		shown, crop geom.Rect // on the face; in the artwork
	}{
		{[]string{"width 9000"}, 9000, 6000, box(-4500, 0, 4500, 6000), box(0, 0, 300, 200)},
		{[]string{"height 6000"}, 9000, 6000, box(-4500, 0, 4500, 6000), box(0, 0, 300, 200)},
		{[]string{"within 9000 x 5000"}, 7500, 5000, box(-3750, 0, 3750, 5000), box(0, 0, 300, 200)},
		{[]string{"within 6000 x 5000"}, 6000, 4000, box(-3000, 0, 3000, 4000), box(0, 0, 300, 200)},
		{[]string{"width 9000", "height 6000.5"}, 9000, 6000.5, box(-4500, 0, 4500, 6000.5), box(0, 0, 300, 200)},
		// Twice as wide as high: margins left and right; a strip off top and bottom; drawn out.
		{[]string{"width 8000", "height 4000", "fit whole"}, 8000, 4000, box(-3000, 0, 3000, 4000), box(0, 0, 300, 200)},
		{[]string{"width 8000", "height 4000", "fit fill"}, 8000, 4000, box(-4000, 0, 4000, 4000), box(0, 25, 300, 175)},
		{[]string{"width 8000", "height 4000", "fit stretch"}, 8000, 4000, box(-4000, 0, 4000, 4000), box(0, 0, 300, 200)},
		// Higher than wide: margins above and below.
		{[]string{"width 3000", "height 4000", "fit whole"}, 3000, 4000, box(-1500, 1000, 1500, 3000), box(0, 0, 300, 200)},
		// From a corner, so much as the cloth's proportions take: 200 by 100 of what is left, 200 by 150.
		{[]string{"width 8000", "height 4000", "crop from 100, 50"}, 8000, 4000, box(-4000, 0, 4000, 4000), box(100, 50, 300, 150)},
		{[]string{"width 8000", "height 4000", "crop from 100, 50", "fit fill"}, 8000, 4000, box(-4000, 0, 4000, 4000), box(100, 50, 300, 150)},
		{[]string{"width 8000", "height 4000", "crop from 100, 50", "fit stretch"}, 8000, 4000, box(-4000, 0, 4000, 4000), box(100, 50, 300, 200)},
		{[]string{"width 8000", "height 4000", "crop from 100, 50", "fit whole"}, 8000, 4000, box(-8000/3.0, 0, 8000/3.0, 4000), box(100, 50, 300, 200)},
		{[]string{"width 8000", "crop from 100, 50"}, 8000, 6000, box(-4000, 0, 4000, 6000), box(100, 50, 300, 200)},
		{[]string{"width 8000", "crop from 10, 20 size 160 x 80"}, 8000, 4000, box(-4000, 0, 4000, 4000), box(10, 20, 170, 100)},
		{[]string{"width 8000", "height 2000", "crop from 10, 20 size 160 x 80", "fit fill"}, 8000, 2000, box(-4000, 0, 4000, 2000), box(10, 40, 170, 80)},
	} {
		got := clothOf(t, c.more...)
		require.InDelta(t, c.w, got.Width, 1e-9, c.more)
		require.InDelta(t, c.h, got.Height, 1e-9, c.more)
		requireRect(t, c.shown, got.Shown)
		requireRect(t, c.crop, got.Crop)
		// What is used of the artwork comes to lie where it is shown.
		requireRect(t, got.Shown, geom.Rect{Min: got.Frame.Apply(got.Crop.Min), Max: got.Frame.Apply(got.Crop.Max)})
		require.Zero(t, got.Frame.B)
		require.Zero(t, got.Frame.C)
	}
}

// Over the allowance the artwork goes on as far as there is any, and where it comes to the cloth's edge at all.
func TestClothAllowance(t *testing.T) {
	c := clothOf(t, "width 9000", "allow top 100 bottom 200 sides 50")
	require.Equal(t, set.Allowance{Top: 100, Bottom: 200, Left: 50, Right: 50}, c.Allow)
	requireRect(t, box(-4550, -200, 4550, 6100), c.Whole())
	requireRect(t, box(-4500, 0, 4500, 6000), c.Shown)
	c = clothOf(t, "width 8000", "height 4000", "fit fill", "allow top 100 bottom 900 sides 50 right 75")
	require.Equal(t, set.Allowance{Top: 100, Bottom: 900, Left: 50, Right: 75}, c.Allow)
	requireRect(t, box(-4000, -8000.0/300*25, 4000, 4100), c.Shown) // 25 mm of artwork are left below, 666.7 at full size
	c = clothOf(t, "width 8000", "height 4000", "fit whole", "crop from 100, 50 size 100 x 100", "allow sides 500 top 40 bottom 40")
	requireRect(t, box(-2000, -40, 2000, 4040), c.Shown)
}

func TestClothGridAndDots(t *testing.T) {
	c := clothOf(t, "width 9000", "grid 500 fine 100 in -400, 900 size 800 x 600 fine 50 in 2000, 0 size 1000 x 500", "pounce 20")
	require.Equal(t, 500.0, c.Grid)
	require.Equal(t, 20.0, c.Pounce)
	require.Len(t, c.Fine, 2)
	require.Equal(t, set.FineGrid{Step: 100, Over: box(-800, 900, 0, 1500)}, c.Fine[0])
	require.Equal(t, set.FineGrid{Step: 50, Over: box(1500, 0, 2500, 500)}, c.Fine[1])
}

// A cloth stands about the middle of its lower edge, and its measures follow from its artwork.
func TestClothStands(t *testing.T) {
	s := openArt(t, lines("cloth c", `artwork "harbour.svg"`, "width 30'", "at 0, 5500", "turn 10deg", "level 100")+
		lines("post p", "diameter 60", "height c.height / 2", "at c.end")+lines("mark m", "point c.centre"), texts{"harbour.svg": harbourArt})
	require.InDelta(t, 20*12*unit.Inch.Factor()/2, s.Find("p").Shape.(*set.Post).Height, 1e-9)
	at := s.Find("c").Copies[0].Places[0]
	require.Equal(t, geom.Vec{Y: 5500, Z: 100}, at.Frame.T)
	require.InDelta(t, 100+20*304.8, set.Top(s.Find("c"), at), 1e-9)
	require.InDelta(t, 15*304.8, s.Find("p").Copies[0].Places[0].Frame.T.Plan().Dist(geom.Point{Y: 5500}), 1e-9)
	points := set.FloorPoints(s.Find("c"), at)
	require.Len(t, points, 2)
	require.InDelta(t, 30*304.8, points[0].At.Dist(points[1].At), 1e-9)
	require.InDelta(t, 30*304.8, points[0].Run, 1e-9)
}

// Of a picture made of pixels a pixel is the measure.
func TestClothOfPixels(t *testing.T) {
	s := openArt(t, lines("cloth c", `artwork "bar.png"`, "width 1000", "crop from 20, 40 size 50 x 100px"), nil)
	c := s.Find("c").Shape.(*set.Cloth)
	require.Equal(t, 2000.0, c.Height)
	requireRect(t, box(20, 40, 70, 140), c.Crop)
	require.InDelta(t, 20, c.Frame.A, 1e-9)
}

// Whatever is asked for: what is shown lies on the cloth with its allowance and on the artwork; a cloth that is filled or drawn out
// is covered, and of one that is to show all nothing that was asked for lies outside.
func TestClothsAreCovered(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	const slack = 1e-6
	holds := func(outer, inner geom.Rect) bool {
		return outer.Min.X <= inner.Min.X+slack && outer.Min.Y <= inner.Min.Y+slack && outer.Max.X >= inner.Max.X-slack && outer.Max.Y >= inner.Max.Y-slack
	}
	for range 300 {
		fit := []string{"whole", "fill", "stretch"}[r.IntN(3)]
		more := []string{"fit " + fit, fmt.Sprintf("width %d", 100+r.IntN(9000)), fmt.Sprintf("height %d", 100+r.IntN(9000)),
			fmt.Sprintf("allow top %d bottom %d left %d right %d", r.IntN(500), r.IntN(500), r.IntN(500), r.IntN(500))}
		if r.IntN(2) == 0 {
			x, y := r.IntN(250), r.IntN(150)
			crop := fmt.Sprintf("crop from %d, %d", x, y)
			if r.IntN(2) == 0 {
				crop += fmt.Sprintf(" size %d x %d", 1+r.IntN(300-x), 1+r.IntN(200-y))
			}
			more = append(more, crop)
		}
		c := clothOf(t, more...)
		onFace := func(r geom.Rect) geom.Rect {
			return geom.Rect{Min: c.Frame.Apply(r.Min), Max: c.Frame.Apply(r.Max)}
		}
		require.True(t, holds(c.Whole(), c.Shown), more)
		require.True(t, holds(onFace(box(0, 0, 300, 200)), c.Shown), more)
		require.True(t, holds(box(0, 0, 300, 200), c.Crop), more)
		require.True(t, holds(c.Shown, onFace(c.Crop)), more)
		if fit == "whole" {
			require.True(t, holds(c.Finished(), onFace(c.Crop)), more)
			require.InDelta(t, c.Frame.A, c.Frame.D, 1e-9*c.Frame.A)
		} else {
			require.True(t, holds(c.Shown, c.Finished()), more)
		}
	}
}
