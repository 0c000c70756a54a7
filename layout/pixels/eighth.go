package pixels

import (
	"fmt"
	"image"
	"image/color"
)

// Eighth returns a JPEG at an eighth of its size each way, rounded up: every pixel is the mean of a block of 8 × 8, which its
// first coefficient says (ITU-T T.81, A.3.3: the mean is an eighth of it), so that nothing is decoded. It is *image.Gray or
// *image.NRGBA, as stored, before any turn. ok is false of a picture whose colours are inks, and of what is no JPEG.
func (p *Picture) Eighth() (small image.Image, ok bool, err error) {
	f := p.jpeg
	if f == nil || p.Colour.Inks() || len(f.comps) != 1 && len(f.comps) != 3 {
		return nil, false, nil
	}
	rows, err := p.bands()
	if err != nil {
		return nil, false, err
	}
	e := eighth{f: f, box: image.Rect(0, 0, (p.Width+7)/8, (p.Height+7)/8), inRGB: p.Colour == RGB}
	for _, c := range f.comps {
		e.h, e.v = max(e.h, c.h), max(e.v, c.v)
		if f.quant[c.quant] == nil {
			return nil, false, fmt.Errorf("a table of this JPEG is missing")
		}
	}
	if len(f.comps) == 1 {
		e.h, e.v = f.comps[0].h, f.comps[0].v
		e.grey = image.NewGray(e.box)
	} else {
		e.colour = image.NewNRGBA(e.box)
	}
	for y := range f.down {
		b, err := rows.next()
		if err != nil {
			return nil, false, err
		}
		e.take(b, y)
	}
	if err := rows.end(); err != nil {
		return nil, false, err
	}
	if e.grey != nil {
		return e.grey, true, nil
	}
	return e.colour, true, nil
}

type eighth struct {
	f      *jpegFile
	box    image.Rectangle
	h, v   int // blocks in an MCU across and down, of the component that has most
	grey   *image.Gray
	colour *image.NRGBA
	inRGB  bool
}

// take puts down the pixels of a row of MCUs.
func (e *eighth) take(b *band, row int) {
	for v := range e.v {
		y := row*e.v + v
		if y >= e.box.Max.Y {
			return
		}
		for x := range e.box.Max.X {
			if e.grey != nil {
				e.grey.Pix[y*e.grey.Stride+x] = e.mean(b, 0, x, v)
				continue
			}
			r, g, bl := e.mean(b, 0, x, v), e.mean(b, 1, x, v), e.mean(b, 2, x, v)
			if !e.inRGB {
				r, g, bl = color.YCbCrToRGB(r, g, bl)
			}
			q := e.colour.Pix[y*e.colour.Stride+4*x:]
			q[0], q[1], q[2], q[3] = r, g, bl, 255
		}
	}
}

// mean is that of the block of component i that lies under pixel x of the row's vth line.
func (e *eighth) mean(b *band, i, x, v int) uint8 {
	c := &e.f.comps[i]
	at := (v*c.v/e.v)*e.f.across*c.h + x*c.h/e.h
	// 8 bits: the mean of what was shifted down by 128.
	m := (int(b.comps[i][at].dc)*int(e.f.quant[c.quant][0]) + 4) >> 3
	return uint8(min(max(m+128, 0), 255))
}
