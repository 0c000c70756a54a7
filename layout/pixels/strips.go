package pixels

import (
	"bytes"
	"image"
	"image/jpeg"
)

// Strips decodes the picture from the top down. Each strip is as wide as the picture and lies in it where its bounds
// say; strips are height rows tall, the last one what is left. A JPEG's are rounded up to whole rows of its blocks,
// and a strip that would take more than some 64 MB is made lower. height under 1 leaves it to Strips.
//
// The pixels are those of image/png and image/jpeg, and so are the types: of a PNG *image.Gray, *image.Gray16,
// *image.RGBA, *image.RGBA64, *image.NRGBA, *image.NRGBA64 or *image.Paletted, of a JPEG *image.Gray, *image.YCbCr,
// *image.RGBA or *image.CMYK. A strip belongs to visit. An error of visit ends the work and comes back as it is.
//
// In memory is about one strip, unless Picture.Whole says that the picture has to be held whole.
func (p *Picture) Strips(height int, visit func(strip image.Image) error) error {
	if p.png != nil {
		return p.png.strips(stripHeight(height, 1, p.Width*p.png.pixelBytes(), p.Height), visit)
	}
	height = stripHeight(height, p.Block.Y, p.Width*4, p.Height)
	var strips []image.Rectangle
	for y := 0; y < p.Height; y += height {
		strips = append(strips, image.Rect(0, y, p.Width, min(y+height, p.Height)))
	}
	return p.Cut(strips, func(b Block, file []byte) error {
		// The strip as a picture of its own is what the standard library reads.
		m, err := jpeg.Decode(bytes.NewReader(file))
		if err != nil {
			return jpegError(0, "rows %d to %d cannot be decoded: %v", b.Covers.Min.Y, b.Covers.Max.Y, err).hint(saveAgain)
		}
		return visit(lower(m, b.Covers.Min.Y))
	})
}

// stripHeight is a multiple of unit rows between one unit and what the limit allows.
func stripHeight(asked, unit, rowBytes, all int) int {
	most := max(1, stripBytes/(rowBytes*unit))
	if asked < 1 {
		asked = 64
	}
	asked = min(asked, all)
	return unit * min(most, (asked+unit-1)/unit)
}

// lower moves a picture down by y rows, which are whole blocks.
func lower(m image.Image, y int) image.Image {
	by := image.Pt(0, y)
	switch m := m.(type) {
	case *image.Gray:
		m.Rect = m.Rect.Add(by)
	case *image.YCbCr:
		m.Rect = m.Rect.Add(by)
	case *image.RGBA:
		m.Rect = m.Rect.Add(by)
	case *image.CMYK:
		m.Rect = m.Rect.Add(by)
	}
	return m
}
