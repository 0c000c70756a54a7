package pixels

import (
	"errors"
	"image"
	"image/color"
	"testing"

	"github.com/stretchr/testify/require"
)

// plainly is a pixel's colour, not multiplied by alpha, rounded from 16 bits as the PNG standard asks.
func plainly(m image.Image, x, y int) (r, g, b, a byte) {
	c := color.NRGBA64Model.Convert(m.At(x, y)).(color.NRGBA64)
	if n, ok := m.At(x, y).(color.NRGBA64); ok {
		c = n // the conversion goes through alpha and loses a little
	}
	if n, ok := m.At(x, y).(color.NRGBA); ok {
		return n.R, n.G, n.B, n.A
	}
	round := func(v uint16) byte { return byte((float64(v)/257 + 0.5)) }
	return round(c.R), round(c.G), round(c.B), round(c.A)
}

func TestRowsAreTheDecodedPixels(t *testing.T) {
	for _, ending := range []string{".png", ".jpg"} {
		for _, name := range fixtures(t, ending) {
			p := openBytes(t, fixture(t, name))
			want := decoded(t, sameCoefficients(t, name))
			w, h := p.Width, p.Height
			parts := []image.Rectangle{p.Bounds(), image.Rect(3, 2, w-1, h-2), image.Rect(w-1, h-1, w, h), image.Rect(0, 0, 5, 1)}
			rows := make([]int, len(parts))
			channels := 3
			if p.PlainGrey() {
				channels = 1
			}
			require.NoError(t, p.Rows(parts, func(row Row) error {
				r := parts[row.Index]
				require.Equal(t, r.Min.Y+rows[row.Index], row.Y)
				rows[row.Index]++
				require.Len(t, row.Colour, channels*r.Dx())
				require.Equal(t, p.Alpha, row.Alpha != nil)
				for x := range r.Dx() {
					red, green, blue, alpha := plainly(want, r.Min.X+x, row.Y)
					c := row.Colour[channels*x : channels*x+channels]
					off := 0.0
					if p.Colour.Inks() || p.Colour == YCbCr {
						off = 1 // the library's pixels reckon in 16 bits
					}
					for i, v := range []byte{red, green, blue}[:channels] {
						require.InDelta(t, v, c[i], off, "%s %d %d", name, x, row.Y)
					}
					if p.Alpha {
						require.Equal(t, alpha, row.Alpha[x])
					} else {
						require.Equal(t, byte(255), alpha)
					}
				}
				return nil
			}))
			for i, r := range parts {
				require.Equal(t, r.Dy(), rows[i], name)
			}
		}
	}
}

func TestRowsRefusesAndEnds(t *testing.T) {
	p := openBytes(t, fixture(t, "rgb8.png"))
	never := func(Row) error { t.Fatal("no row"); return nil }
	require.NoError(t, p.Rows(nil, never))
	require.ErrorContains(t, p.Rows([]image.Rectangle{image.Rect(50, 0, 54, 3)}, never), "not inside the picture")
	stop := errors.New("stop")
	require.Equal(t, stop, p.Rows([]image.Rectangle{p.Bounds()}, func(Row) error { return stop }))
}
