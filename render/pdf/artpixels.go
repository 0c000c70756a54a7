package pdf

import (
	"bytes"
	"fmt"
	"image"
	"strconv"

	"github.com/klauspost/compress/zlib"

	"markout/layout/pixels"
)

// mostProfile is the greatest colour profile that is carried along.
const mostProfile = 4 << 20

// writePixels reads each picture made of pixels once, from the top down, and writes its parts as they come.
func (g *gallery) writePixels() error {
	for _, s := range g.sources.list {
		var err error
		if s.pixels.Format == pixels.JPEG {
			err = g.cut(s)
		} else {
			err = g.rows(s)
		}
		if err == nil {
			err = g.file.err
		} else {
			err = fmt.Errorf("pdf: a picture made of pixels: %w", err)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// profile attaches the colour profile of a picture where it speaks of the channels that are written.
func (g *gallery) profile(s *source) error {
	p := s.pixels
	if !p.Profile || p.Format == pixels.PNG && p.Colour.Inks() {
		return nil
	}
	icc, err := p.ICC()
	if err != nil || len(icc) < 128 || len(icc) > mostProfile {
		return nil // the colours are then the device's, as in a file without profile
	}
	kind, n := "RGB ", "/N 3/Alternate/DeviceRGB"
	switch {
	case p.Colour.Inks():
		kind, n = "CMYK", "/N 4/Alternate/DeviceCMYK"
	case p.PlainGrey():
		kind, n = "GRAY", "/N 1/Alternate/DeviceGray"
	}
	if string(icc[16:20]) != kind || string(icc[36:40]) != "acsp" {
		return nil
	}
	s.space = "[/ICCBased " + strconv.Itoa(int(g.stream(n, icc))) + " 0 R]"
	return nil
}

// cut writes the parts of a JPEG as JPEGs.
func (g *gallery) cut(s *source) error {
	p := s.pixels
	space, more := s.space, ""
	switch {
	case p.Colour.Inks():
		more = "/Decode[1 0 1 0 1 0 1 0]"
		if space == "" {
			space = "/DeviceCMYK"
		}
	case space != "":
	case p.Colour == pixels.Grey:
		space = "/DeviceGray"
	default:
		space = "/DeviceRGB"
	}
	rects := make([]image.Rectangle, len(s.list))
	for i := range s.list {
		rects[i] = s.list[i].rect
	}
	return p.Cut(rects, func(b pixels.Block, file []byte) error {
		w := s.list[b.Index]
		if b.Covers != w.rect {
			return fmt.Errorf("asked for %v and got %v", w.rect, b.Covers)
		}
		g.file.raw(w.object, imageDict(w.rect, space)+more+"/Filter/DCTDecode", file)
		return g.file.err
	})
}

// imageDict never asks for pixels to be smoothed. Poppler moves what it smooths by half a pixel, which is more than 0.1 mm on paper
// as soon as pixels are large enough for an eye to tell smooth ones from others; and the pixels are what the file has.
func imageDict(r image.Rectangle, space string) string {
	return fmt.Sprintf("/Type/XObject/Subtype/Image/Width %d/Height %d/BitsPerComponent 8/ColorSpace%s", r.Dx(), r.Dy(), space)
}

// rows writes the parts of a picture without loss. Parts that lie beside each other grow together.
func (g *gallery) rows(s *source) error {
	space, channels := "/DeviceRGB", 3
	if s.pixels.PlainGrey() {
		space, channels = "/DeviceGray", 1
	}
	if s.space != "" {
		space = s.space
	}
	type growing struct{ colour, alpha *packer }
	parts := make([]growing, len(s.list))
	rects := make([]image.Rectangle, len(s.list))
	for i := range s.list {
		rects[i] = s.list[i].rect
	}
	var free []*packer
	take := func(width, channels int) *packer {
		if n := len(free); n > 0 {
			p := free[n-1]
			free = free[:n-1]
			p.reset(width, channels)
			return p
		}
		p := newPacker()
		p.reset(width, channels)
		return p
	}
	return s.pixels.Rows(rects, func(r pixels.Row) error {
		w, p := s.list[r.Index], &parts[r.Index]
		if r.Y == w.rect.Min.Y {
			p.colour = take(w.rect.Dx(), channels)
			if w.mask != 0 {
				p.alpha = take(w.rect.Dx(), 1)
			}
		}
		p.colour.row(r.Colour)
		if p.alpha != nil {
			p.alpha.row(r.Alpha)
		}
		if r.Y != w.rect.Max.Y-1 {
			return nil
		}
		dict := imageDict(w.rect, space)
		if p.alpha != nil {
			dict += "/SMask " + strconv.Itoa(int(w.mask)) + " 0 R"
			g.file.stream(w.mask, imageDict(w.rect, "/DeviceGray")+p.alpha.parms(), p.alpha.end())
			free = append(free, p.alpha)
		}
		g.file.stream(w.object, dict+p.colour.parms(), p.colour.end())
		free = append(free, p.colour)
		parts[r.Index] = growing{}
		return g.file.err
	})
}

// packer deflates rows of pixels, each through the one of PNG's filters that leaves the least.
type packer struct {
	z               *zlib.Writer
	out             bytes.Buffer
	width, channels int
	above           []byte
	tried           [5][]byte
}

func newPacker() *packer {
	p := &packer{}
	p.z, _ = zlib.NewWriterLevel(&p.out, level) // fails only for a level that is none
	return p
}

func (p *packer) reset(width, channels int) {
	p.width, p.channels = width, channels
	p.out.Reset()
	p.z.Reset(&p.out)
	n := width * channels
	p.above = make([]byte, n)
	for i := range p.tried {
		p.tried[i] = make([]byte, n+1)
		p.tried[i][0] = byte(i)
	}
}

func (p *packer) parms() string {
	return fmt.Sprintf("/DecodeParms<</Predictor 15/Colors %d/Columns %d>>", p.channels, p.width)
}

// row appends a row. The filter is chosen as PNG's own text advises (ISO/IEC 15948, 12.8): the least sum of what is left, each
// byte taken as a signed one.
func (p *packer) row(row []byte) {
	var sums [5]int
	for i, v := range row {
		var left, corner byte
		if i >= p.channels {
			left, corner = row[i-p.channels], p.above[i-p.channels]
		}
		up := p.above[i]
		for f, d := range [5]byte{v, v - left, v - up, v - byte((int(left)+int(up))/2), v - paeth(left, up, corner)} {
			p.tried[f][i+1] = d
			if d > 127 {
				sums[f] += 256 - int(d)
			} else {
				sums[f] += int(d)
			}
		}
	}
	best := 0
	for f := range sums {
		if sums[f] < sums[best] {
			best = f
		}
	}
	p.z.Write(p.tried[best])
	copy(p.above, row)
}

// paeth is the filter's guess (ISO/IEC 15948, 9.4).
func paeth(left, up, corner byte) byte {
	a, b := int(up)-int(corner), int(left)-int(corner)
	c := a + b
	a, b, c = max(a, -a), max(b, -b), max(c, -c)
	switch {
	case a <= b && a <= c:
		return left
	case b <= c:
		return up
	}
	return corner
}

func (p *packer) end() []byte {
	p.z.Close()
	return p.out.Bytes()
}
