package pixels

import (
	"fmt"
	"image"
	"io"
)

// Markers, ITU-T T.81 table B.1.
const (
	markSOF0 = 0xc0 // baseline
	markSOF1 = 0xc1 // extended sequential
	markSOF2 = 0xc2 // progressive
	markDHT  = 0xc4
	markRST0 = 0xd0
	markRST7 = 0xd7
	markSOI  = 0xd8
	markEOI  = 0xd9
	markSOS  = 0xda
	markDQT  = 0xdb
	markDRI  = 0xdd
	markAPP0 = 0xe0
	markAPPF = 0xef
	markCOM  = 0xfe
)

// component is one channel of a JPEG.
type component struct {
	id    byte
	h, v  int // sampling factors: blocks in an MCU across and down
	quant byte
}

// mcu is the number of blocks that the component has in one MCU.
func (c component) mcu() int { return c.h * c.v }

// jpegFile is what the markers said up to the first scan. Scans change a copy of it.
type jpegFile struct {
	r             io.ReaderAt
	size          int64
	frame         byte
	width, height int
	comps         []component
	across, down  int // MCUs
	quant         [4]*[64]uint16
	dc, ac        [4]*huffman
	restart       int // MCUs between restart markers, 0 for none
	colour        Colour
	density       [5]byte // JFIF's unit and two densities, to be said again in blocks
	jfif, adobe   bool
	transform     byte
	first         scan  // header of the first scan
	data          int64 // where its coded data starts
}

func openJPEG(r io.ReaderAt, size int64) (*Picture, error) {
	f := &jpegFile{r: r, size: size}
	p := &Picture{Format: JPEG, Orientation: Upright, jpeg: f}
	s := newSource(r, size, 2)
	for {
		seg, err := nextSegment(s)
		if err != nil {
			return nil, err
		}
		switch {
		case seg.mark == markSOS:
			if f.comps == nil {
				return nil, jpegError(seg.at, "pixels come before the frame's header").hint(saveAgain)
			}
			if f.first, err = f.scanHeader(s, seg); err != nil {
				return nil, err
			}
			f.data = s.offset()
			return p, f.describe(p)
		case seg.mark == markEOI:
			return nil, jpegError(seg.at, "the file ends before any pixels").hint(saveAgain)
		case seg.mark >= markSOF0 && seg.mark <= 0xcf && seg.mark != markDHT && seg.mark != 0xc8 && seg.mark != 0xcc:
			err = f.frameHeader(s, seg)
		case seg.mark >= markAPP0 && seg.mark <= markAPPF:
			err = f.application(p, s, seg)
		default:
			err = f.table(s, seg)
		}
		if err != nil {
			return nil, err
		}
	}
}

// frameHeader reads the size and the channels and holds them against the file's size.
func (f *jpegFile) frameHeader(s *source, seg segment) error {
	if f.comps != nil {
		return jpegError(seg.at, "a second frame header").hint(saveAgain)
	}
	switch seg.mark {
	case markSOF0, markSOF1, markSOF2:
	case 0xc3, 0xc7, 0xcb, 0xcf:
		return jpegError(seg.at, "this is a lossless JPEG, a kind that is not read").hint(saveJPEGPlain)
	case 0xc5, 0xc6, 0xcd, 0xce:
		return jpegError(seg.at, "this is a hierarchical JPEG, a kind that is not read").hint(saveJPEGPlain)
	default:
		return jpegError(seg.at, "this is an arithmetically coded JPEG, a kind that is not read").hint(saveJPEGPlain)
	}
	b, err := seg.contents(s)
	if err != nil {
		return err
	}
	if len(b) < 6 || len(b) != 6+3*int(b[5]) {
		return jpegError(seg.at, "the frame's header has the wrong length").hint(saveAgain)
	}
	if b[0] != 8 {
		return jpegError(seg.at+4, "its channels have %d bits, and only 8 are read", b[0]).hint(saveJPEGPlain)
	}
	f.frame, f.height, f.width = seg.mark, int(b[1])<<8|int(b[2]), int(b[3])<<8|int(b[4])
	if f.width == 0 || f.height == 0 {
		return jpegError(seg.at+5, "the picture is %d × %d pixels: nothing", f.width, f.height).hint(saveAgain)
	}
	n := int(b[5])
	if n != 1 && n != 3 && n != 4 {
		return jpegError(seg.at+9, "it has %d channels, and only 1, 3 or 4 are read", n).hint(saveJPEGPlain)
	}
	for i := range n {
		c := component{id: b[6+3*i], h: int(b[7+3*i] >> 4), v: int(b[7+3*i] & 15), quant: b[8+3*i]}
		for _, o := range f.comps {
			if o.id == c.id {
				return jpegError(seg.at+10, "two channels have the number %d", c.id).hint(saveAgain)
			}
		}
		if c.quant > 3 {
			return jpegError(seg.at+10, "a channel asks for quantisation table %d, and there are only 0 to 3", c.quant).hint(saveAgain)
		}
		f.comps = append(f.comps, c)
	}
	if n == 1 {
		// A single channel is never interleaved, whatever its factors say (T.81, A.2.2).
		f.comps[0].h, f.comps[0].v = 1, 1
	}
	if !f.samplingKnown() {
		return jpegError(seg.at+10, "its channels are thinned out (sampled) in a way that is not read: %s", f.factors()).hint(saveJPEGPlain)
	}
	h, v := f.comps[0].h, f.comps[0].v
	f.across, f.down = (f.width+8*h-1)/(8*h), (f.height+8*v-1)/(8*v)
	return f.plausible(seg.at + 5)
}

// samplingKnown reports whether the first channel has the most samples and the others a whole fraction of them, as
// readers in use agree to support.
func (f *jpegFile) samplingKnown() bool {
	c := f.comps
	for _, c := range c {
		if c.h < 1 || c.v < 1 || c.h > 4 || c.v > 4 || c.h == 3 || c.v == 3 {
			return false
		}
	}
	switch len(c) {
	case 1:
		return true
	case 3:
		return c[0].v < 4 && c[0].h%c[1].h == 0 && c[0].v%c[1].v == 0 && c[1].h == c[2].h && c[1].v == c[2].v &&
			c[0].mcu()+2*c[1].mcu() <= 10
	}
	one := func(c component) bool { return c.h == 1 && c.v == 1 }
	return one(c[1]) && one(c[2]) && c[0].h == c[0].v && c[0].h <= 2 && c[3].h == c[0].h && c[3].v == c[0].v
}

func (f *jpegFile) factors() string {
	s := ""
	for _, c := range f.comps {
		s += fmt.Sprintf(" %d×%d", c.h, c.v)
	}
	return s[1:]
}

// blocks is how many blocks of 8 × 8 the frame has in all.
func (f *jpegFile) blocks() int64 {
	n := 0
	for _, c := range f.comps {
		n += c.mcu()
	}
	return int64(n) * int64(f.across) * int64(f.down)
}

// plausible holds the claimed size against the file's: a block takes two codes of at least a bit each in a
// sequential picture, and one in the first scan of a progressive one.
func (f *jpegFile) plausible(at int64) error {
	least := f.blocks() / 8
	if f.frame != markSOF2 {
		least *= 2
	}
	if least > f.size {
		return jpegError(at, "the picture claims %d × %d pixels, which cannot be in a file of %d bytes", f.width, f.height, f.size).hint(saveAgain)
	}
	return nil
}

// sampling is the sampling as a person names it.
func (f *jpegFile) sampling() string {
	if len(f.comps) < 3 {
		return ""
	}
	y, c := f.comps[0], f.comps[1]
	names := map[[2]int]string{{1, 1}: "4:4:4", {2, 1}: "4:2:2", {2, 2}: "4:2:0", {1, 2}: "4:4:0", {4, 1}: "4:1:1", {4, 2}: "4:1:0"}
	return names[[2]int{y.h / c.h, y.v / c.v}]
}

// describe fills in what the markers said together, and refuses what would have to be held whole and is too large.
func (f *jpegFile) describe(p *Picture) error {
	p.Width, p.Height, p.Bits, p.Channels = f.width, f.height, 8, len(f.comps)
	p.Progressive = f.frame == markSOF2
	p.Whole = p.Progressive || len(f.first.comps) < len(f.comps)
	p.Sampling = f.sampling()
	p.Block = image.Pt(8*f.comps[0].h, 8*f.comps[0].v)
	switch {
	case len(f.comps) == 1:
		f.colour = Grey
	case len(f.comps) == 4 && !f.adobe:
		return jpegError(2, "it has four channels and does not say which inks they are").hint("save it as RGB")
	case len(f.comps) == 4 && f.transform != 0:
		f.colour = YCCK
	case len(f.comps) == 4:
		f.colour = CMYK
	case !f.jfif && (f.adobe && f.transform == 0 || f.comps[0].id == 'R' && f.comps[1].id == 'G' && f.comps[2].id == 'B'):
		f.colour = RGB
	default:
		f.colour = YCbCr
	}
	p.Colour = f.colour
	if f.colour.Inks() {
		p.Notes = append(p.Notes, "Its colours are printing inks (CMYK). Where it has to be decoded they are turned into red, green and blue by the plain formula, without its profile, so they may differ from a proof.")
	}
	if !p.Whole {
		return nil
	}
	kind, hint := "a progressive picture", saveBaseline
	if !p.Progressive {
		kind, hint = "a picture in several scans", "save it as a plain JPEG in one scan"
	}
	if int64(f.width)*int64(f.height) > WholePixels {
		return jpegError(f.data, "%s has to be held whole, and %d × %d pixels are over the limit of %d megapixels", kind, f.width, f.height, WholePixels>>20).hint(hint)
	}
	if need := f.blocks() * coefficientBytes; need > wholeBytes {
		return jpegError(f.data, "%s has to be held whole, and this one would take %d MB (the limit is %d MB)", kind, need>>20, wholeBytes>>20).hint(hint)
	}
	return nil
}
