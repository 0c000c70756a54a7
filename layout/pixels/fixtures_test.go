package pixels

import (
	"bytes"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// The files in testdata were made once from a picture of 53 × 37 pixels that a few lines of Go drew: the JPEG files
// with libjpeg-turbo's cjpeg 2.1.5 and ImageMagick 6.9 (inks), the PNG files with ImageMagick over libpng 1.6.39.

func fixture(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	return b
}

// fixtures are the names of the files that are read, by ending; those that are not stand in testdata/refused.
func fixtures(t testing.TB, ending string) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("testdata", "*"+ending))
	require.NoError(t, err)
	var names []string
	for _, p := range paths {
		names = append(names, filepath.Base(p))
	}
	require.NotEmpty(t, names)
	return names
}

func openBytes(t testing.TB, b []byte) *Picture {
	t.Helper()
	p, err := Open(bytes.NewReader(b), int64(len(b)))
	require.NoError(t, err)
	return p
}

func decoded(t testing.TB, b []byte) image.Image {
	t.Helper()
	m, _, err := image.Decode(bytes.NewReader(b))
	require.NoError(t, err)
	return m
}

// differs is the first pixel of r where two pictures differ, the second lying shifted by off.
func differs(a, b image.Image, r image.Rectangle, off image.Point) (image.Point, bool) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			r1, g1, b1, a1 := a.At(x, y).RGBA()
			r2, g2, b2, a2 := b.At(x-off.X, y-off.Y).RGBA()
			if r1 != r2 || g1 != g2 || b1 != b2 || a1 != a2 {
				return image.Pt(x, y), true
			}
		}
	}
	return image.Point{}, false
}
