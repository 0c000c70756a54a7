package enlarge_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/enlarge"
)

func pixelsOf(t testing.TB, m image.Image) *artwork.Picture {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	p, _, err := artwork.ReadPixels(b.Bytes())
	require.NoError(t, err)
	return p
}

// shownOn is a frame that shows a picture so wide and high on paper.
func shownOn(p *artwork.Picture, w, h float64) artwork.Matrix {
	return artwork.Matrix{A: w / p.W, D: h / p.H}
}

func decoded(t testing.TB, p *artwork.Picture) image.Image {
	t.Helper()
	m, err := png.Decode(bytes.NewReader(p.Nodes[0].(*artwork.Image).Data))
	require.NoError(t, err)
	return m
}

// At 400 mm an eye parts 400 / 3437.7467 = 0.11636 mm: a sheet 11.636 mm wide has 100 pixels to show.
func TestSmallHasThePixelsThatAreSeen(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 1000, 500))
	for i := range m.Pix {
		m.Pix[i] = 200
	}
	p := pixelsOf(t, m)
	small, err := enlarge.Small(p, shownOn(p, 11.6, 5.8))
	require.NoError(t, err)
	img := small.Nodes[0].(*artwork.Image)
	require.Equal(t, 100, img.Width)
	require.Equal(t, 50, img.Height)
	require.Equal(t, p.Nodes[0].(*artwork.Image).Frame, img.Frame, "it stands where it stood")
	for _, at := range []image.Point{{0, 0}, {50, 20}, {99, 49}} {
		require.Equal(t, color.NRGBA{200, 200, 200, 200}, color.NRGBAModel.Convert(decoded(t, small).At(at.X, at.Y)), "one colour stays one colour")
	}
	same, err := enlarge.Small(p, shownOn(p, 100, 50))
	require.NoError(t, err)
	require.Same(t, p, same, "no more than are seen")
}

// Means by hand: a checker of 0 and 200 is 100 all over; of two pixels one of which is clear the other's colour is all there is.
func TestSmallIsTheMean(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 400, 400))
	for y := range 400 {
		for x := range 400 {
			if (x+y)%2 == 0 {
				g.SetGray(x, y, color.Gray{Y: 200})
			}
		}
	}
	p := pixelsOf(t, g)
	small, err := enlarge.Small(p, shownOn(p, 5.8, 5.8)) // 50 × 50
	require.NoError(t, err)
	require.IsType(t, &image.Gray{}, decoded(t, small))
	require.Equal(t, color.Gray{Y: 100}, decoded(t, small).At(7, 31))

	c := image.NewNRGBA(image.Rect(0, 0, 400, 400))
	for y := range 400 {
		for x := range 400 {
			if x%2 == 0 {
				c.SetNRGBA(x, y, color.NRGBA{R: 250, G: 10, B: 60, A: 255})
			} else {
				c.SetNRGBA(x, y, color.NRGBA{G: 255})
			}
		}
	}
	p = pixelsOf(t, c)
	small, err = enlarge.Small(p, shownOn(p, 5.8, 5.8))
	require.NoError(t, err)
	require.Equal(t, color.NRGBA{R: 250, G: 10, B: 60, A: 128}, decoded(t, small).At(20, 20))
}

// A picture that breaks off says so.
func TestSmallOfABrokenPicture(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 800, 800)), nil))
	p, _, err := artwork.ReadPixels(b.Bytes())
	require.NoError(t, err)
	img := p.Nodes[0].(*artwork.Image)
	p2, _, err := artwork.ReadPixels(append(b.Bytes()[:b.Len()-40:b.Len()-40], 0xff, 0xd9))
	if err == nil {
		_, err = enlarge.Small(p2, shownOn(p2, 5, 5))
	}
	require.Error(t, err)
	_, err = enlarge.Small(&artwork.Picture{W: p.W, H: p.H, Nodes: []artwork.Node{&artwork.Group{Opacity: 1, Nodes: []artwork.Node{img}}}}, shownOn(p, 5, 5))
	require.NoError(t, err)
}
