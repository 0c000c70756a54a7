package pixels

import (
	"bytes"
	"errors"
	"image"
	"testing"

	"github.com/stretchr/testify/require"
)

// sameAsDecode holds the strips of a picture against the standard library's decode of the whole.
func sameAsDecode(t testing.TB, p *Picture, want image.Image, height int) {
	t.Helper()
	next := 0
	err := p.Strips(height, func(strip image.Image) error {
		b := strip.Bounds()
		require.Equal(t, next, b.Min.Y, "strips follow one another")
		require.Equal(t, 0, b.Min.X)
		require.Equal(t, p.Width, b.Max.X)
		require.IsType(t, want, strip)
		at, bad := differs(want, strip, b, image.Point{})
		require.False(t, bad, "pixel %v", at)
		next = b.Max.Y
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, p.Height, next)
}

// sameCoefficients is the file itself, or one of the same coefficients that image/jpeg reads: it counts restart
// intervals wrongly in scans of one channel.
func sameCoefficients(t testing.TB, name string) []byte {
	if name == "progressive-restart.jpg" {
		name = "plain-422.jpg"
	}
	return fixture(t, name)
}

func TestStripsAreWhatTheStandardLibraryDecodes(t *testing.T) {
	for _, ending := range []string{".jpg", ".png"} {
		for _, name := range fixtures(t, ending) {
			t.Run(name, func(t *testing.T) {
				b := fixture(t, name)
				want := decoded(t, sameCoefficients(t, name))
				for _, height := range []int{0, 1, 7, 16, 1000} {
					sameAsDecode(t, openBytes(t, b), want, height)
				}
			})
		}
	}
}

func TestStripsEndWhereTheVisitorSays(t *testing.T) {
	stop := errors.New("stop")
	for _, name := range []string{"plain-420.jpg", "rgb8.png"} {
		n := 0
		err := openBytes(t, fixture(t, name)).Strips(16, func(image.Image) error { n++; return stop })
		require.Equal(t, stop, err)
		require.Equal(t, 1, n)
	}
}

func TestStripHeight(t *testing.T) {
	require.Equal(t, 64, stripHeight(0, 1, 100, 1000))
	require.Equal(t, 16, stripHeight(1, 16, 100, 1000))
	require.Equal(t, 32, stripHeight(17, 16, 100, 1000))
	require.Equal(t, 64, stripHeight(1000, 1, 1<<20, 1000), "a strip takes 64 MB at most")
	require.Equal(t, 1, stripHeight(1000, 1, 1<<30, 1000))
}

// The same file with Adobe's transform 0: its four channels are inks as they stand, two of them thinned out.
func TestPlainInks(t *testing.T) {
	b := bytes.Clone(fixture(t, "ycck.jpg"))
	at := bytes.Index(b, []byte("Adobe"))
	require.Equal(t, byte(2), b[at+11])
	b[at+11] = 0
	p := openBytes(t, b)
	require.Equal(t, CMYK, p.Colour)
	require.Contains(t, p.Notes[0], "printing inks (CMYK)")
	sameAsDecode(t, p, decoded(t, b), 16)
}
