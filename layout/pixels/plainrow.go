package pixels

import (
	"encoding/binary"
	"image"
	"image/color"
)

// plainRow is a row of the whole picture as plain bytes: one of grey or three of colour a pixel, and alpha or nil.
type plainRow struct{ colour, alpha []byte }

func (r *plainRow) read(strip image.Image, y int) {
	b := strip.Bounds()
	switch m := strip.(type) {
	case *image.Gray:
		copy(r.colour, m.Pix[m.PixOffset(0, y):][:b.Dx()])
	case *image.Gray16:
		pix := m.Pix[m.PixOffset(0, y):][:2*b.Dx()]
		for x := range b.Dx() {
			r.colour[x] = rounded(pix[2*x:])
		}
	case *image.RGBA:
		r.eight(m.Pix[m.PixOffset(0, y):][:4*b.Dx()])
	case *image.NRGBA:
		r.eight(m.Pix[m.PixOffset(0, y):][:4*b.Dx()])
	case *image.RGBA64:
		r.sixteen(m.Pix[m.PixOffset(0, y):][:8*b.Dx()])
	case *image.NRGBA64:
		r.sixteen(m.Pix[m.PixOffset(0, y):][:8*b.Dx()])
	case *image.Paletted:
		r.palette(m.Pix[m.PixOffset(0, y):][:b.Dx()], m.Palette)
	case *image.YCbCr:
		at := m.YOffset(0, y)
		for x := range b.Dx() {
			c := m.COffset(x, y)
			r.colour[3*x], r.colour[3*x+1], r.colour[3*x+2] = color.YCbCrToRGB(m.Y[at+x], m.Cb[c], m.Cr[c])
		}
	case *image.CMYK:
		pix := m.Pix[m.PixOffset(0, y):][:4*b.Dx()]
		for x := range b.Dx() {
			r.colour[3*x], r.colour[3*x+1], r.colour[3*x+2] = color.CMYKToRGB(pix[4*x], pix[4*x+1], pix[4*x+2], pix[4*x+3])
		}
	}
}

// grey reports whether a pixel has one byte of colour.
func (r *plainRow) grey(width int) bool { return len(r.colour) == width }

// eight takes red, green, blue, alpha of a byte each.
func (r *plainRow) eight(pix []byte) {
	width := len(pix) / 4
	grey := r.grey(width)
	for x := range width {
		p := pix[4*x : 4*x+4]
		if grey {
			r.colour[x] = p[0]
		} else {
			copy(r.colour[3*x:3*x+3], p)
		}
		if r.alpha != nil {
			r.alpha[x] = p[3]
		}
	}
}

// sixteen takes red, green, blue, alpha of two bytes each, the higher first.
func (r *plainRow) sixteen(pix []byte) {
	width := len(pix) / 8
	grey := r.grey(width)
	for x := range width {
		p := pix[8*x : 8*x+8]
		if grey {
			r.colour[x] = rounded(p)
		} else {
			r.colour[3*x], r.colour[3*x+1], r.colour[3*x+2] = rounded(p), rounded(p[2:]), rounded(p[4:])
		}
		if r.alpha != nil {
			r.alpha[x] = rounded(p[6:])
		}
	}
}

// rounded is the nearest 8 bits to 16 (ISO/IEC 15948, 13.12).
func rounded(p []byte) byte {
	return byte((uint32(binary.BigEndian.Uint16(p))*255 + 32767) / 65535)
}

func (r *plainRow) palette(pix []byte, list color.Palette) {
	var flat [256][4]byte
	for i, c := range list {
		n := color.NRGBAModel.Convert(c).(color.NRGBA)
		flat[i] = [4]byte{n.R, n.G, n.B, n.A}
	}
	grey := r.grey(len(pix))
	for x, v := range pix {
		c := &flat[v]
		if grey {
			r.colour[x] = c[0]
		} else {
			copy(r.colour[3*x:3*x+3], c[:])
		}
		if r.alpha != nil {
			r.alpha[x] = c[3]
		}
	}
}
