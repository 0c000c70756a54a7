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

// traceable returns an error where a picture has too many pixels.
func traceable(p *pixels.Picture) error {
	if n := int64(p.Width) * int64(p.Height); n > mostPixels {
		return fmt.Errorf("an outline is traced from at most %d megapixels, and this picture has %d: make it smaller", mostPixels>>20, n>>20)
	}
	return nil
}

// whole decodes a picture strip by strip into one.
func whole(p *pixels.Picture) (*image.NRGBA, error) {
	if err := traceable(p); err != nil {
		return nil, err
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
