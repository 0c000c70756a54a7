package pixels

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// coefficients reads all coefficients of a JPEG file, whatever its scans.
func coefficients(t testing.TB, b []byte) (*jpegFile, []*plane) {
	t.Helper()
	p := openBytes(t, b)
	planes, err := p.jpeg.whole()
	require.NoError(t, err)
	return p.jpeg, planes
}

// sameBlocks holds a part's coefficients against the picture's, block by block.
func sameBlocks(t testing.TB, whole, part []byte, covers image.Rectangle) {
	t.Helper()
	f, all := coefficients(t, whole)
	g, some := coefficients(t, part)
	require.Equal(t, f.quant[f.comps[0].quant], g.quant[g.comps[0].quant])
	for i, c := range f.comps {
		x0, y0 := covers.Min.X/(8*f.comps[0].h)*c.h, covers.Min.Y/(8*f.comps[0].v)*c.v
		for y := range some[i].down {
			for x := range some[i].across {
				if x >= some[i].usedX || y >= some[i].usedY {
					continue // nothing of it shows
				}
				a, b := (y0+y)*all[i].across+x0+x, y*some[i].across+x
				require.Equal(t, all[i].dc[a], some[i].dc[b], "channel %d, block %d, %d", i, x, y)
				for k := 1; k < 64; k++ {
					require.Equal(t, all[i].at(a, k), some[i].at(b, k), "channel %d, block %d, %d, coefficient %d", i, x, y, k)
				}
			}
		}
	}
}

func TestPartsHoldTheSameCoefficients(t *testing.T) {
	for _, name := range fixtures(t, ".jpg") {
		t.Run(name, func(t *testing.T) {
			b := fixture(t, name)
			p := openBytes(t, b)
			want := decoded(t, sameCoefficients(t, name))
			parts := []image.Rectangle{
				p.Bounds(), image.Rect(0, 0, 1, 1), image.Rect(52, 36, 53, 37), image.Rect(20, 3, 40, 30),
				image.Rect(16, 16, 32, 32), image.Rect(15, 15, 33, 33), image.Rect(0, 30, 53, 37), image.Rect(40, 0, 53, 37),
			}
			seen, bottom := map[int]bool{}, 0
			err := p.Cut(parts, func(part Block, file []byte) error {
				seen[part.Index] = true
				require.GreaterOrEqual(t, part.Covers.Max.Y, bottom, "parts come from the top down")
				bottom = part.Covers.Max.Y
				require.Equal(t, parts[part.Index], part.Asked)
				require.True(t, part.Asked.In(part.Covers) && part.Covers.In(p.Bounds()))
				require.Zero(t, part.Covers.Min.X%p.Block.X)
				require.Zero(t, part.Covers.Min.Y%p.Block.Y)
				m, err := jpeg.Decode(bytes.NewReader(file))
				require.NoError(t, err)
				require.IsType(t, want, m)
				require.Equal(t, part.Covers.Size(), m.Bounds().Size())
				at, bad := differs(want, m, part.Covers, part.Covers.Min)
				require.False(t, bad, "part %v, pixel %v", part, at)
				sameBlocks(t, b, file, part.Covers)
				q := openBytes(t, file)
				require.False(t, q.Whole, "parts are plain files")
				require.Equal(t, p.Colour, q.Colour)
				require.Equal(t, p.Sampling, q.Sampling)
				require.InDelta(t, p.PerInchX, q.PerInchX, 1e-9)
				return nil
			})
			require.NoError(t, err)
			require.Len(t, seen, len(parts))
		})
	}
}

// cjpeg wrote these pairs from one picture at one quality, so their coefficients are the same.
func TestProgressiveScansGiveTheCoefficientsOfThePlainFile(t *testing.T) {
	for _, pair := range [][2]string{
		{"progressive-420.jpg", "plain-420.jpg"}, {"progressive-restart.jpg", "plain-422.jpg"},
		{"progressive-grey.jpg", "plain-grey.jpg"}, {"several-scans.jpg", "plain-420.jpg"}, {"restart-1.jpg", "plain-420.jpg"},
	} {
		b := fixture(t, pair[1])
		sameBlocks(t, fixture(t, pair[0]), b, image.Rect(0, 0, 53, 37))
	}
}

func TestPartsOfALargerPicture(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 700, 431))
	rnd := rand.New(rand.NewPCG(1, 2))
	for i := range m.Pix {
		m.Pix[i] = byte(i*i/977 + rnd.IntN(60))
	}
	var file bytes.Buffer
	require.NoError(t, jpeg.Encode(&file, m, &jpeg.Options{Quality: 97}))
	want := decoded(t, file.Bytes())
	p := openBytes(t, file.Bytes())
	var parts []image.Rectangle
	for range 60 {
		x, y := rnd.IntN(699), rnd.IntN(430)
		parts = append(parts, image.Rect(x, y, x+1+rnd.IntN(700-x), y+1+rnd.IntN(431-y)))
	}
	n := 0
	require.NoError(t, p.Cut(parts, func(part Block, file []byte) error {
		n++
		at, bad := differs(want, decoded(t, file), part.Covers, part.Covers.Min)
		require.False(t, bad, "part %v, pixel %v", part, at)
		return nil
	}))
	require.Equal(t, len(parts), n)
	sameAsDecode(t, p, want, 100)
}

func TestCutRefuses(t *testing.T) {
	p := openBytes(t, fixture(t, "plain-420.jpg"))
	never := func(Block, []byte) error { t.Fatal("no part"); return nil }
	require.NoError(t, p.Cut(nil, never))
	for _, r := range []image.Rectangle{{}, image.Rect(0, 0, 54, 37), image.Rect(-1, 0, 3, 3), image.Rect(60, 40, 70, 50)} {
		require.ErrorContains(t, p.Cut([]image.Rectangle{r}, never), "not inside the picture of 53 × 37 pixels")
	}
	require.ErrorContains(t, openBytes(t, fixture(t, "rgb8.png")).Cut([]image.Rectangle{image.Rect(0, 0, 1, 1)}, never), "only a JPEG")
	stop := errors.New("stop")
	require.Equal(t, stop, p.Cut([]image.Rectangle{p.Bounds()}, func(Block, []byte) error { return stop }))
}
