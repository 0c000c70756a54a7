package pixels

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every kind of see-through: one colour of the picture named so, at every depth.
func TestSeeThroughColours(t *testing.T) {
	for name, key := range map[string][]byte{
		"grey-1.png": {0, 1}, "grey-2.png": {0, 2}, "grey-4.png": {0, 5}, "grey-16.png": nil, "interlaced-1bit.png": {0, 0},
		"rgb8.png": {0, 230, 0, 40, 0, 20}, "rgb16.png": nil, "interlaced.png": {0, 230, 0, 40, 0, 20},
	} {
		file := fixture(t, name)
		if key == nil { // the colour of a pixel of the picture
			switch c := decoded(t, file).At(3, 3).(type) {
			case color.Gray16:
				key = []byte{byte(c.Y >> 8), byte(c.Y)}
			case color.RGBA64:
				key = []byte{byte(c.R >> 8), byte(c.R), byte(c.G >> 8), byte(c.G), byte(c.B >> 8), byte(c.B)}
			}
		}
		at := bytes.Index(file, []byte("IDAT")) - 4
		file = splice(file, at, appendChunk(nil, "tRNS", key))
		p := openBytes(t, file)
		require.True(t, p.Alpha, name)
		want := decoded(t, file)
		sameAsDecode(t, p, want, 5)
		through := 0
		require.NoError(t, p.Rows([]image.Rectangle{p.Bounds()}, func(r Row) error {
			for x, a := range r.Alpha {
				_, _, _, w := want.At(x, r.Y).RGBA()
				require.Equal(t, byte(w), a)
				if a == 0 {
					through++
				}
			}
			return nil
		}))
		if name != "grey-1.png" {
			require.Positive(t, through, name)
		}
	}
}

// random fills a picture of any type that the standard library writes.
func random(rnd *rand.Rand, w, h, kind int) image.Image {
	r := image.Rect(0, 0, w, h)
	fill := func(b []byte, below int) {
		for i := range b {
			b[i] = byte(rnd.IntN(below))
		}
	}
	switch kind {
	case 0:
		m := image.NewGray(r)
		fill(m.Pix, 256)
		return m
	case 1:
		m := image.NewGray16(r)
		fill(m.Pix, 256)
		return m
	case 2:
		m := image.NewNRGBA(r)
		fill(m.Pix, 256)
		return m
	case 3:
		m := image.NewNRGBA64(r)
		fill(m.Pix, 256)
		return m
	case 4:
		m := image.NewRGBA(r)
		fill(m.Pix, 256)
		for i := 3; i < len(m.Pix); i += 4 {
			m.Pix[i] = 255
		}
		return m
	}
	n := []int{2, 3, 9, 200}[kind-5]
	var list color.Palette
	for range n {
		list = append(list, color.NRGBA{byte(rnd.IntN(256)), byte(rnd.IntN(256)), 7, byte(rnd.IntN(256))})
	}
	m := image.NewPaletted(r, list)
	fill(m.Pix, n)
	return m
}

func TestRandomPNGs(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for i := range 90 {
		m := random(rnd, 1+rnd.IntN(40), 1+rnd.IntN(40), i%9)
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, m))
		p := openBytes(t, b.Bytes())
		want := decoded(t, b.Bytes())
		sameAsDecode(t, p, want, 1+rnd.IntN(20))
		if _, ok := want.(*image.Paletted); ok {
			require.Equal(t, Palette, p.Colour)
			require.True(t, p.Alpha)
			require.Equal(t, 4, p.Channels)
		}
	}
}

func TestPlainGrey(t *testing.T) {
	list := func(c ...byte) []byte {
		return pngOf(header(2, 1, 1, 3, 0), appendChunk(nil, "PLTE", c), data("\x00\x40"))
	}
	require.True(t, openBytes(t, list(9, 9, 9, 200, 200, 200)).PlainGrey())
	require.False(t, openBytes(t, list(9, 9, 9, 200, 200, 201)).PlainGrey())
	var got []byte
	p := openBytes(t, list(9, 9, 9, 200, 200, 200))
	require.NoError(t, p.Rows([]image.Rectangle{p.Bounds()}, func(r Row) error { got = append(got, r.Colour...); return nil }))
	require.Equal(t, []byte{9, 200}, got)
}
