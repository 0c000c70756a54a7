package pixels

import (
	"errors"
	"image"
)

// Row is one row of a rectangle as plain bytes. The slices are good until visit returns.
type Row struct {
	Index  int    // of the rectangle that it belongs to
	Y      int    // row of the picture
	Colour []byte // one byte a pixel of a grey picture (Picture.PlainGrey), else three: red, green, blue
	Alpha  []byte // one byte a pixel, 255 where nothing shows through; nil for a picture without alpha
}

// PlainGrey reports whether rows have one byte a pixel and not three: grey pictures, and palettes of nothing but greys.
func (p *Picture) PlainGrey() bool {
	if p.Colour == Palette {
		for i := 0; i < len(p.png.palette); i += 4 {
			if c := p.png.palette[i:]; c[0] != c[1] || c[1] != c[2] {
				return false
			}
		}
		return true
	}
	return p.Colour == Grey
}

// Rows decodes the picture from the top down and gives, of each row, the pixels of every rectangle that it crosses,
// the rectangles in their order: what has to be stored anew without loss. Rectangles are in stored pixels inside the
// picture, and may overlap. 16 bits are rounded to 8; alpha is not multiplied into the colours; inks become red,
// green and blue by the plain formula. Pictures that say their colours as lightness and colour are turned by the
// formula of JFIF. An error of visit ends the work and comes back as it is.
func (p *Picture) Rows(rectangles []image.Rectangle, visit func(Row) error) error {
	bottom := 0
	for _, r := range rectangles {
		if err := p.holds(r); err != nil {
			return err
		}
		bottom = max(bottom, r.Max.Y)
	}
	if bottom == 0 {
		return nil
	}
	channels := 3
	if p.PlainGrey() {
		channels = 1
	}
	plain := plainRow{colour: make([]byte, channels*p.Width)}
	if p.Alpha {
		plain.alpha = make([]byte, p.Width)
	}
	err := p.Strips(16, func(strip image.Image) error {
		for y := strip.Bounds().Min.Y; y < strip.Bounds().Max.Y; y++ {
			if y == bottom {
				return errEnough
			}
			plain.read(strip, y)
			for i, r := range rectangles {
				if y < r.Min.Y || y >= r.Max.Y {
					continue
				}
				row := Row{Index: i, Y: y, Colour: plain.colour[channels*r.Min.X : channels*r.Max.X]}
				if p.Alpha {
					row.Alpha = plain.alpha[r.Min.X:r.Max.X]
				}
				if err := visit(row); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err == errEnough {
		return nil
	}
	return err
}

// errEnough ends the decoding below the lowest rectangle.
var errEnough = errors.New("enough rows")
