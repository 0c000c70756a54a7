package pixels

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Against the standard library: the mean of what image/jpeg decodes of a block of 8 × 8 is its pixel, to what rounding and cutting off at 0
// and 255 leave.
func TestEighthIsTheMeanOfBlocks(t *testing.T) {
	for _, size := range []image.Point{{8, 8}, {200, 120}, {203, 117}, {16, 9}} {
		grey := image.NewGray(image.Rectangle{Max: size})
		colour := image.NewNRGBA(image.Rectangle{Max: size})
		for y := range size.Y {
			for x := range size.X {
				v := 128 + 60*math.Sin(float64(x)/17)*math.Cos(float64(y)/11)
				grey.SetGray(x, y, color.Gray{Y: uint8(v)})
				colour.SetNRGBA(x, y, color.NRGBA{R: uint8(128 + 40*math.Sin(float64(x)/60)), G: uint8(100 + x/4), B: uint8(60 + y/2), A: 255})
			}
		}
		for i, m := range []image.Image{grey, colour} {
			slack := []float64{1, 6}[i] // thinned-out colour has one mean for four blocks
			var b bytes.Buffer
			require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}))
			p, err := Open(bytes.NewReader(b.Bytes()), int64(b.Len()))
			require.NoError(t, err)
			small, ok, err := p.Eighth()
			require.NoError(t, err)
			require.True(t, ok)
			require.Equal(t, image.Pt((size.X+7)/8, (size.Y+7)/8), small.Bounds().Size())
			whole, err := jpeg.Decode(bytes.NewReader(b.Bytes()))
			require.NoError(t, err)
			for y := range size.Y / 8 { // blocks that lie in the picture whole
				for x := range size.X / 8 {
					var sum [3]float64
					for k := range 64 {
						c := color.NRGBAModel.Convert(whole.At(8*x+k%8, 8*y+k/8)).(color.NRGBA)
						sum[0], sum[1], sum[2] = sum[0]+float64(c.R), sum[1]+float64(c.G), sum[2]+float64(c.B)
					}
					got := color.NRGBAModel.Convert(small.At(x, y)).(color.NRGBA)
					for i, v := range [3]uint8{got.R, got.G, got.B} {
						require.InDelta(t, sum[i]/64, float64(v), slack, "%v: %d, %d", size, x, y)
					}
				}
			}
		}
	}
}

func TestEighthOfWhatBreaksOff(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 400, 400)), nil))
	data := b.Bytes()[:b.Len()-30]
	p, err := Open(bytes.NewReader(data), int64(len(data)))
	if err == nil {
		_, _, err = p.Eighth()
	}
	require.Error(t, err)
}
