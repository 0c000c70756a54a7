package pixels

import (
	"image"
	"image/color"
)

// strips decodes the picture in strips of so many rows.
func (f *pngFile) strips(height int, visit func(image.Image) error) error {
	next, end, err := f.rowSource()
	if err != nil {
		return err
	}
	for y := 0; y < f.height; {
		bottom := min(y+height, f.height)
		strip := f.newStrip(image.Rect(0, y, f.width, bottom))
		for ; y < bottom; y++ {
			row, err := next()
			if err != nil {
				return err
			}
			f.paint(strip, y, row)
		}
		if bottom == f.height {
			if err := end(); err != nil {
				return err
			}
		}
		if err := visit(strip); err != nil {
			return err
		}
	}
	return nil
}

// rowSource gives rows from the top down, and what to call after the last of them.
func (f *pngFile) rowSource() (next func() ([]byte, error), end func() error, err error) {
	if !f.interlaced {
		rows, err := f.rows()
		if err != nil {
			return nil, nil, err
		}
		return rows.next, rows.end, nil
	}
	whole, err := f.interleave()
	if err != nil {
		return nil, nil, err
	}
	stride := f.rowBytes(f.width)
	next = func() ([]byte, error) {
		row := whole[:stride]
		whole = whole[stride:]
		return row, nil
	}
	return next, func() error { return nil }, nil
}

// pixelBytes is how much a pixel of a strip takes.
func (f *pngFile) pixelBytes() int {
	switch {
	case f.kind == pngPalette, f.kind == pngGrey && f.key == nil:
		return max(1, f.depth/8)
	case f.depth == 16:
		return 8
	}
	return 4
}

// newStrip makes a strip of the type that image/png decodes such a picture to.
func (f *pngFile) newStrip(r image.Rectangle) image.Image {
	alpha := f.key != nil || f.kind == pngGreyAlpha || f.kind == pngTrueAlpha
	switch {
	case f.kind == pngPalette:
		return image.NewPaletted(r, f.colorPalette())
	case f.depth == 16 && alpha:
		return image.NewNRGBA64(r)
	case f.depth == 16 && f.kind == pngGrey:
		return image.NewGray16(r)
	case f.depth == 16:
		return image.NewRGBA64(r)
	case alpha:
		return image.NewNRGBA(r)
	case f.kind == pngGrey:
		return image.NewGray(r)
	}
	return image.NewRGBA(r)
}

// colorPalette is the list of colours, filled up with opaque black for numbers that have none: libpng and image/png
// show such pixels so.
func (f *pngFile) colorPalette() color.Palette {
	pal := make(color.Palette, 1<<f.depth)
	for i := range pal {
		if 4*i >= len(f.palette) {
			pal[i] = color.RGBA{0, 0, 0, 255}
			continue
		}
		c := f.palette[4*i : 4*i+4]
		if c[3] == 255 {
			pal[i] = color.RGBA{c[0], c[1], c[2], 255}
		} else {
			pal[i] = color.NRGBA{c[0], c[1], c[2], c[3]}
		}
	}
	return pal
}

// paint puts a row into a strip.
func (f *pngFile) paint(strip image.Image, y int, row []byte) {
	switch m := strip.(type) {
	case *image.Paletted:
		unpack(m.Pix[(y-m.Rect.Min.Y)*m.Stride:][:f.width], row, f.depth, 1)
	case *image.Gray:
		unpack(m.Pix[(y-m.Rect.Min.Y)*m.Stride:][:f.width], row, f.depth, greyStep(f.depth))
	case *image.Gray16:
		copy(m.Pix[(y-m.Rect.Min.Y)*m.Stride:][:2*f.width], row)
	case *image.RGBA:
		f.paint8(m.Pix[(y-m.Rect.Min.Y)*m.Stride:], row)
	case *image.NRGBA:
		f.paint8(m.Pix[(y-m.Rect.Min.Y)*m.Stride:], row)
	case *image.RGBA64:
		f.paint16(m.Pix[(y-m.Rect.Min.Y)*m.Stride:], row)
	case *image.NRGBA64:
		f.paint16(m.Pix[(y-m.Rect.Min.Y)*m.Stride:], row)
	}
}

// greyStep spreads the values of so many bits over 0 to 255.
func greyStep(depth int) byte { return byte(255 / (1<<min(depth, 8) - 1)) }

// unpack takes pixels of 1, 2, 4 or 8 bits apart, the first in a byte's highest bits, and multiplies each by step.
func unpack(to, row []byte, bits int, step byte) {
	if bits == 8 {
		copy(to, row)
		return
	}
	mask := byte(1<<bits - 1)
	for i := range to {
		at := i * bits
		to[i] = row[at/8] >> (8 - bits - at%8) & mask * step
	}
}

// paint8 makes red, green, blue, alpha of a row of up to 8 bits.
func (f *pngFile) paint8(to, row []byte) {
	to = to[:4*f.width]
	switch f.kind {
	case pngTrueAlpha:
		copy(to, row)
	case pngTrue:
		for i, j := 0, 0; j+3 <= len(row); i, j = i+4, j+3 {
			r, g, b := row[j], row[j+1], row[j+2]
			to[i], to[i+1], to[i+2], to[i+3] = r, g, b, 255
			if f.key != nil && r == f.key[1] && g == f.key[3] && b == f.key[5] {
				to[i+3] = 0
			}
		}
	case pngGreyAlpha:
		for i, j := 0, 0; j+2 <= len(row); i, j = i+4, j+2 {
			to[i], to[i+1], to[i+2], to[i+3] = row[j], row[j], row[j], row[j+1]
		}
	case pngGrey:
		grey := make([]byte, f.width)
		step := greyStep(f.depth)
		unpack(grey, row, f.depth, step)
		for i, v := range grey {
			to[4*i], to[4*i+1], to[4*i+2], to[4*i+3] = v, v, v, 255
			if v == f.key[1]*step {
				to[4*i+3] = 0
			}
		}
	}
}

// paint16 makes red, green, blue, alpha of a row of 16 bits, each number two bytes, the higher first.
func (f *pngFile) paint16(to, row []byte) {
	to = to[:8*f.width]
	size := 2 * f.channels()
	for i, j := 0, 0; j+size <= len(row); i, j = i+8, j+size {
		px, p := to[i:i+8:i+8], row[j:j+size]
		px[6], px[7] = 255, 255
		switch f.kind {
		case pngTrueAlpha:
			copy(px, p)
		case pngTrue:
			copy(px, p)
		case pngGreyAlpha:
			copy(px, p[:2])
			copy(px[2:], p[:2])
			copy(px[4:], p)
		case pngGrey:
			copy(px, p)
			copy(px[2:], p)
			copy(px[4:], p)
		}
		if f.key != nil && string(p) == string(f.key) {
			px[6], px[7] = 0, 0
		}
	}
}
