package silhouette_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/silhouette"
)

func drawn(t testing.TB, body string) *artwork.Picture {
	t.Helper()
	list := &diag.List{Sources: &diag.Sources{}}
	p, ok := artwork.ReadSVG(list, list.Sources.Add("x.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">`+body+`</svg>`)))
	require.True(t, ok, "%v", list.Sorted())
	return p
}

func areaOf(o *silhouette.Outline) float64 {
	a := 0.0
	for _, r := range o.Bodies {
		a += r.Area()
	}
	return a
}

func boxOf(o *silhouette.Outline) geom.Rect {
	b := geom.EmptyRect()
	for _, r := range o.Bodies {
		b = b.Union(r.Bounds())
	}
	return b
}

// The areas are those of the plain figures, by their formulas: within 0.1 %.
func TestDrawn(t *testing.T) {
	for name, c := range map[string]struct {
		body         string
		area         float64
		holes, other int
		box          geom.Rect
	}{
		"two that overlap": {`<rect x="20" y="20" width="100" height="60"/><rect x="80" y="50" width="60" height="100"/>`,
			6000 + 6000 - 40*30, 0, 0, geom.Rect{Min: geom.Point{X: 20, Y: 50}, Max: geom.Point{X: 140, Y: 180}}},
		"a ring by its line": {`<circle cx="100" cy="100" r="50" fill="none" stroke="#000" stroke-width="20"/>`,
			math.Pi * (3600 - 1600), 1, 0, geom.Rect{Min: geom.Point{X: 40, Y: 40}, Max: geom.Point{X: 160, Y: 160}}},
		"even-odd": {`<path fill-rule="evenodd" d="M20 20h100v100h-100zM40 40h60v60h-60z"/>`,
			10000 - 3600, 1, 0, geom.Rect{Min: geom.Point{X: 20, Y: 80}, Max: geom.Point{X: 120, Y: 180}}},
		"clipped": {`<clipPath id="c"><circle cx="100" cy="100" r="40"/></clipPath><rect width="200" height="200" clip-path="url(#c)"/>`,
			math.Pi * 1600, 0, 0, geom.Rect{Min: geom.Point{X: 60, Y: 60}, Max: geom.Point{X: 140, Y: 140}}},
		"masked by light": {`<mask id="m" maskUnits="userSpaceOnUse" width="200" height="200"><rect x="20" y="20" width="100" height="100" fill="#fff"/><rect x="40" y="40" width="60" height="60"/></mask><rect width="200" height="200" mask="url(#m)"/>`,
			10000 - 3600, 1, 0, geom.Rect{Min: geom.Point{X: 20, Y: 80}, Max: geom.Point{X: 120, Y: 180}}},
		"the largest, see-through": {`<rect x="10" y="10" width="100" height="100" opacity="0.1"/><circle cx="160" cy="160" r="20"/>`,
			10000, 0, 1, geom.Rect{Min: geom.Point{X: 10, Y: 90}, Max: geom.Point{X: 110, Y: 190}}},
		"beyond the frame": {`<rect x="-100" y="50" width="200" height="50"/>`, 5000, 0, 0, geom.Rect{Min: geom.Point{Y: 100}, Max: geom.Point{X: 100, Y: 150}}},
	} {
		o, err := silhouette.Of(drawn(t, c.body), silhouette.Options{})
		require.NoError(t, err, name)
		require.Len(t, o.Bodies, 1, name)
		require.Len(t, o.Bodies[0].Holes, c.holes, name)
		require.Equal(t, c.other, o.Others, name)
		require.InEpsilon(t, c.area, areaOf(o), 0.001, name)
		b := boxOf(o)
		for i, d := range [4]float64{b.Min.X - c.box.Min.X, b.Min.Y - c.box.Min.Y, b.Max.X - c.box.Max.X, b.Max.Y - c.box.Max.Y} {
			require.InDelta(t, 0, d, 0.03, "%s %d", name, i)
		}
		require.Positive(t, o.Bodies[0].Outer.Area(), name)
	}
	_, err := silhouette.Of(drawn(t, `<g/>`), silhouette.Options{})
	require.ErrorIs(t, err, silhouette.ErrNothing)
	all, err := silhouette.Of(drawn(t, `<rect x="10" y="10" width="100" height="100"/><circle cx="160" cy="160" r="20"/>`), silhouette.Options{All: true})
	require.NoError(t, err)
	require.Len(t, all.Bodies, 2)
}

// Corners stay corners: a star's points are where they are drawn.
func TestDrawnCorners(t *testing.T) {
	o, err := silhouette.Of(drawn(t, `<path d="M100 10 130 80 190 90 140 130 160 190 100 150 40 190 60 130 10 90 70 80z"/>`), silhouette.Options{})
	require.NoError(t, err)
	for _, want := range [][2]float64{{100, 10}, {190, 90}, {160, 190}, {40, 190}, {10, 90}, {130, 80}, {70, 80}} {
		near := math.Inf(1)
		for _, s := range o.Bodies[0].Outer.Segments() {
			near = min(near, s.From.Dist(geom.Point{X: want[0], Y: 200 - want[1]}))
		}
		require.Less(t, near, 0.12, "%v", want) // two and a half of the pixels it is traced from: a sharp point is a little blunt
	}
	n := 0
	for range o.Bodies[0].Outer.Segments() {
		n++
	}
	require.LessOrEqual(t, n, 24)
}

// pixelPicture is a disc on a ground, by coverage of its pixels.
func pixelPicture(t testing.TB, w, h int, r float64, ink, ground color.NRGBA) *artwork.Picture {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			d := math.Hypot(float64(x)+0.5-float64(w)/2, float64(y)+0.5-float64(h)/2)
			k := min(max(r-d+0.5, 0), 1)
			mix := func(a, b uint8) uint8 { return uint8(float64(a)*k + float64(b)*(1-k) + 0.5) }
			img.SetNRGBA(x, y, color.NRGBA{R: mix(ink.R, ground.R), G: mix(ink.G, ground.G), B: mix(ink.B, ground.B), A: mix(ink.A, ground.A)})
		}
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	p, _, err := artwork.ReadPixels(b.Bytes())
	require.NoError(t, err)
	return p
}

func TestPixels(t *testing.T) {
	black, white, clear := color.NRGBA{A: 255}, color.NRGBA{R: 255, G: 255, B: 255, A: 255}, color.NRGBA{}
	for name, c := range map[string]struct {
		ink, ground color.NRGBA
		background  silhouette.Background
	}{
		"alpha found": {black, clear, silhouette.Auto}, "border found": {black, white, silhouette.Auto},
		"light": {black, white, silhouette.Light}, "dark": {white, black, silhouette.Dark},
	} {
		o, err := silhouette.Of(pixelPicture(t, 300, 400, 100, c.ink, c.ground), silhouette.Options{Background: c.background})
		require.NoError(t, err, name)
		require.InEpsilon(t, math.Pi*1e4, areaOf(o), 0.001, name)
		b := boxOf(o)
		require.InDelta(t, 50, b.Min.X, 0.5, name)
		require.InDelta(t, 300, b.Max.Y, 0.5, name)
	}
	_, err := silhouette.Of(pixelPicture(t, 30, 40, 0, clear, clear), silhouette.Options{Background: silhouette.Alpha})
	require.ErrorIs(t, err, silhouette.ErrNothing)
}

func TestLines(t *testing.T) {
	p, err := silhouette.Lines(drawn(t, `<g clip-path="url(#c)"><rect width="50" height="50" fill="red"/></g><clipPath id="c"><circle r="30"/></clipPath><path d="M0 0L9 9" stroke="#000"/>`), 0.5)
	require.NoError(t, err)
	require.Len(t, p.Nodes, 2)
	for _, n := range p.Nodes {
		if s, ok := n.(*artwork.Shape); ok {
			require.Nil(t, s.Fill)
			require.InDelta(t, 0.5, s.Stroke.Width, 0)
		}
	}
}
