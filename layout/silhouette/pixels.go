package silhouette

import (
	"errors"
	"fmt"
	"image"
	"image/draw"

	"markout/layout/artwork"
	"markout/layout/pixels"
	"markout/layout/trace"
)

// mostPixels is the greatest picture whose outline is traced: it is held whole, at four bytes a pixel.
const mostPixels = 64 << 20

// field returns how much of each pixel the figure covers.
func field(img *artwork.Image, opt Options) (*trace.Field, error) {
	if img.Pixels == nil {
		return nil, errors.New("the picture's pixels cannot be read")
	}
	pic, err := whole(img.Pixels)
	if err != nil {
		return nil, err
	}
	background := opt.Background
	if background == Auto {
		background = Border
		if img.Pixels.Alpha && !pic.Opaque() {
			background = Alpha
		}
	}
	var f *trace.Field
	switch background {
	case Alpha:
		f, err = trace.FromAlpha(pic)
	case Light:
		f, err = trace.FromBrightness(pic, trace.Light, opt.Threshold)
	case Dark:
		f, err = trace.FromBrightness(pic, trace.Dark, opt.Threshold)
	case Border:
		f, err = trace.FromBackground(pic, opt.Threshold)
	default:
		return nil, fmt.Errorf("there is no background %q", background)
	}
	return f, err
}

// whole decodes a picture strip by strip into one.
func whole(p *pixels.Picture) (*image.NRGBA, error) {
	if int64(p.Width)*int64(p.Height) > mostPixels {
		return nil, fmt.Errorf("an outline is traced from at most %d megapixels, and this picture has %d: make it smaller", mostPixels>>20, int64(p.Width)*int64(p.Height)>>20)
	}
	out := image.NewNRGBA(p.Bounds())
	err := p.Strips(0, func(strip image.Image) error {
		b := strip.Bounds()
		if s, ok := strip.(*image.NRGBA); ok {
			for y := b.Min.Y; y < b.Max.Y; y++ {
				copy(out.Pix[out.PixOffset(b.Min.X, y):], s.Pix[s.PixOffset(b.Min.X, y):][:4*b.Dx()])
			}
			return nil
		}
		draw.Draw(out, b, strip, b.Min, draw.Src)
		return nil
	})
	return out, err
}
