package pixels

import (
	"bytes"
	"image"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzOpen holds, for any bytes: whoever is opened has a size and is decoded to its end or gives an *Error that lies
// inside the file; strips that come through are the standard library's pixels wherever it reads the file too; and
// the parts of a JPEG are JPEG files of the same pixels.
func FuzzOpen(f *testing.F) {
	for _, ending := range []string{".png", ".jpg"} {
		for _, name := range fixtures(f, ending) {
			f.Add(fixture(f, name))
		}
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		inside := func(err error) {
			t.Helper()
			e, ok := err.(*Error)
			require.True(t, ok, "%v", err)
			require.True(t, e.At >= 0 && e.At <= int64(len(b)), "%v", err)
			require.NotEmpty(t, e.What)
		}
		p, err := Open(bytes.NewReader(b), int64(len(b)))
		if err != nil {
			inside(err)
			return
		}
		require.True(t, p.Width > 0 && p.Height > 0 && p.Orientation >= Upright && p.Orientation <= TurnLeft)
		if p.Width*p.Height > 1<<14 {
			return
		}
		var got []image.Image
		if err := p.Strips(16, func(m image.Image) error { got = append(got, m); return nil }); err != nil {
			inside(err)
			return
		}
		want, _, err := image.Decode(bytes.NewReader(b))
		if err != nil {
			return // the library is stricter here and there
		}
		require.Equal(t, p.Bounds(), want.Bounds())
		for _, m := range got {
			at, bad := differs(want, m, m.Bounds(), image.Point{})
			require.False(t, bad, "pixel %v", at)
		}
		if p.Format != JPEG {
			return
		}
		part := image.Rect(p.Width/3, p.Height/3, p.Width, p.Height)
		require.NoError(t, p.Cut([]image.Rectangle{part}, func(c Block, file []byte) error {
			m, _, err := image.Decode(bytes.NewReader(file))
			require.NoError(t, err)
			at, bad := differs(want, m, c.Covers, c.Covers.Min)
			require.False(t, bad, "pixel %v", at)
			return nil
		}))
	})
}
