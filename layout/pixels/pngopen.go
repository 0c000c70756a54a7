package pixels

import (
	"encoding/binary"

	"hash/crc32"
	"io"
	"math"
)

const pngSignature = "\x89PNG\r\n\x1a\n"

// Colour types of the header chunk, ISO/IEC 15948 table 11.1.
const (
	pngGrey      = 0
	pngTrue      = 2
	pngPalette   = 3
	pngGreyAlpha = 4
	pngTrueAlpha = 6
)

// pngFile is what is needed to read the pixels of a PNG.
type pngFile struct {
	r             io.ReaderAt
	size          int64
	width, height int
	depth, kind   int // bits of a channel, colour type
	interlaced    bool
	palette       []byte // red, green, blue, alpha for each entry
	seeThrough    bool   // palette has alpha, or key is set
	key           []byte // the colour that is see-through, two bytes a channel; nil when there is none
	data          int64  // where the first chunk of pixels starts
	icc           int64  // where the profile's chunk starts, 0 when there is none
}

// chunk is one chunk's place: its type, where its contents start and how long they are.
type chunk struct {
	name   string
	at     int64
	length int64
}

// nextChunk reads the eight bytes that start a chunk and holds it against the file's end.
func nextChunk(s *source) (chunk, error) {
	start := s.offset()
	var h [8]byte
	if err := s.full(h[:], "a chunk's head"); err != nil {
		return chunk{}, asPNG(err)
	}
	c := chunk{string(h[4:]), start + 8, int64(binary.BigEndian.Uint32(h[:4]))}
	for _, b := range h[4:] {
		if b|0x20 < 'a' || b|0x20 > 'z' {
			return c, pngError(start+4, "here should be a chunk's name of four letters").hint(saveAgain)
		}
	}
	if c.length > math.MaxInt32 {
		return c, pngError(start, "chunk %s claims %d bytes, more than a PNG may have", c.name, c.length).hint(saveAgain)
	}
	if c.at+c.length+4 > s.size {
		return c, pngError(s.size, "the file ends in the middle of chunk %s, which starts at byte %d and claims %d bytes", c.name, start, c.length).hint(saveAgain)
	}
	return c, nil
}

// asPNG says of an error of the reading layer that it was a PNG.
func asPNG(err error) error {
	if e, ok := err.(*Error); ok {
		e.Format = PNG
	}
	return err
}

// contents reads a chunk whole and checks its sum.
func (c chunk) contents(s *source) ([]byte, error) {
	b := make([]byte, c.length+4)
	s.seek(c.at)
	if err := s.full(b, "chunk "+c.name); err != nil {
		return nil, asPNG(err)
	}
	b, sum := b[:c.length], binary.BigEndian.Uint32(b[c.length:])
	if crc32.Update(crc32.ChecksumIEEE([]byte(c.name)), crc32.IEEETable, b) != sum {
		return nil, c.badSum()
	}
	return b, nil
}

func (c chunk) badSum() error {
	return pngError(c.at-8, "chunk %s does not agree with its check sum: it is damaged", c.name).hint(saveAgain)
}

func openPNG(r io.ReaderAt, size int64) (*Picture, error) {
	s := newSource(r, size, int64(len(pngSignature)))
	f := &pngFile{r: r, size: size}
	p := &Picture{Format: PNG, Orientation: Upright, png: f}
	c, err := nextChunk(s)
	if err != nil {
		return nil, err
	}
	if c.name != "IHDR" || c.length != 13 {
		return nil, pngError(c.at-8, "the first chunk should be IHDR with 13 bytes, and is %s with %d", c.name, c.length).hint(saveAgain)
	}
	head, err := c.contents(s)
	if err != nil {
		return nil, err
	}
	if err := f.header(p, head, c.at); err != nil {
		return nil, err
	}
	for {
		if c, err = nextChunk(s); err != nil {
			return nil, err
		}
		if err := f.chunk(p, s, c); err != nil {
			return nil, err
		}
		if c.name == "IEND" {
			break
		}
		s.seek(c.at + c.length + 4)
	}
	if f.data == 0 {
		return nil, pngError(c.at-8, "the file has no pixels (no chunk IDAT)").hint(saveAgain)
	}
	f.describe(p)
	return p, nil
}

// header reads the chunk IHDR and holds the size that it claims against the file's.
func (f *pngFile) header(p *Picture, h []byte, at int64) error {
	w, hgt := binary.BigEndian.Uint32(h), binary.BigEndian.Uint32(h[4:])
	if w == 0 || hgt == 0 {
		return pngError(at, "the picture is %d × %d pixels: nothing", w, hgt).hint(saveAgain)
	}
	if w > math.MaxInt32 || hgt > math.MaxInt32 {
		return pngError(at, "the picture claims %d × %d pixels, more than a PNG may have", w, hgt).hint(saveAgain)
	}
	f.width, f.height, f.depth, f.kind = int(w), int(hgt), int(h[8]), int(h[9])
	if !validDepth(f.kind, f.depth) {
		return pngError(at+8, "colour type %d with %d bits is none that a PNG may have", f.kind, f.depth).hint(saveAgain)
	}
	if h[10] != 0 || h[11] != 0 || h[12] > 1 {
		return pngError(at+10, "its compression %d, filter %d or interlacing %d is none that a PNG may have", h[10], h[11], h[12]).hint(saveAgain)
	}
	f.interlaced = h[12] == 1
	p.Width, p.Height, p.Interlaced, p.Whole = f.width, f.height, f.interlaced, f.interlaced

	// Deflate makes at most 1032 bytes of one (RFC 1951: 258 bytes by two one-bit codes).
	const mostOfOne = 1032
	row := f.rowBytes(f.width)
	raw := float64(row) * float64(f.height)
	if raw > mostOfOne*float64(f.size) {
		return pngError(at, "the picture claims %d × %d pixels, which cannot be in a file of %d bytes", w, hgt, f.size).hint(saveAgain)
	}
	if row > stripBytes {
		return pngError(at, "a row of %d pixels is too long to be read (%d MB; the limit is %d MB)", w, row>>20, stripBytes>>20).hint("cut the picture into narrower ones")
	}
	if f.interlaced {
		if pixels := float64(w) * float64(hgt); pixels > WholePixels {
			return pngError(at, "an interlaced picture has to be held whole, and %d × %d pixels are over the limit of %d megapixels", w, hgt, WholePixels>>20).hint(savePlainPNG)
		}
		if raw > wholeBytes {
			return pngError(at, "an interlaced picture has to be held whole, and this one would take %.0f MB (the limit is %d MB)", raw/(1<<20), wholeBytes>>20).hint(savePlainPNG)
		}
	}
	return nil
}

func validDepth(kind, depth int) bool {
	switch kind {
	case pngGrey:
		return depth == 1 || depth == 2 || depth == 4 || depth == 8 || depth == 16
	case pngPalette:
		return depth == 1 || depth == 2 || depth == 4 || depth == 8
	case pngTrue, pngGreyAlpha, pngTrueAlpha:
		return depth == 8 || depth == 16
	}
	return false
}

// channels is how many numbers a pixel has in the file.
func (f *pngFile) channels() int {
	return [...]int{pngGrey: 1, pngTrue: 3, pngPalette: 1, pngGreyAlpha: 2, pngTrueAlpha: 4}[f.kind]
}

// rowBytes is the length of a row of so many pixels, without the byte for its filter.
func (f *pngFile) rowBytes(width int) int { return (width*f.channels()*f.depth + 7) / 8 }

// chunk takes what is wanted of one chunk after the header.
func (f *pngFile) chunk(p *Picture, s *source, c chunk) error {
	early := func() error {
		if f.data != 0 {
			return pngError(c.at-8, "chunk %s stands after the pixels, and belongs before them", c.name).hint(saveAgain)
		}
		return nil
	}
	switch c.name {
	case "IHDR":
		return pngError(c.at-8, "a second header").hint(saveAgain)
	case "PLTE":
		if err := early(); err != nil {
			return err
		}
		return f.colours(s, c)
	case "tRNS":
		if err := early(); err != nil {
			return err
		}
		return f.transparency(s, c)
	case "IDAT":
		if f.data == 0 {
			f.data = c.at - 8
			if f.kind == pngPalette && f.palette == nil {
				return pngError(c.at-8, "the pixels are numbers into a list of colours, and the list (PLTE) is missing").hint(saveAgain)
			}
		}
	case "iCCP":
		f.icc, p.Profile = c.at-8, true
	case "pHYs":
		if c.length != 9 {
			return pngError(c.at-8, "chunk pHYs should have 9 bytes and has %d", c.length).hint(saveAgain)
		}
		b, err := c.contents(s)
		if err != nil {
			return err
		}
		if x, y := binary.BigEndian.Uint32(b), binary.BigEndian.Uint32(b[4:]); b[8] == 1 && x > 0 && y > 0 {
			p.PerInchX, p.PerInchY = float64(x)*0.0254, float64(y)*0.0254 // pixels per metre
		}
	case "eXIf":
		if c.length > 1<<20 {
			p.Notes = append(p.Notes, "Its Exif block is over 1 MB and is not read, so it is taken to be upright as stored.")
			return nil
		}
		b, err := c.contents(s)
		if err != nil {
			return err
		}
		p.orient(b)
	case "acTL":
		p.Notes = append(p.Notes, "It is an animation, of which only the still picture is used.")
	default:
		if c.name[0]&0x20 == 0 && c.name != "IEND" {
			return pngError(c.at-8, "chunk %s must be understood to read this picture, and is not", c.name).hint(saveReadable)
		}
	}
	return nil
}

// describe fills in what the header and the chunks said together.
func (f *pngFile) describe(p *Picture) {
	p.Bits = f.depth
	p.Alpha = f.seeThrough || f.kind == pngGreyAlpha || f.kind == pngTrueAlpha
	switch f.kind {
	case pngGrey, pngGreyAlpha:
		p.Colour, p.Channels = Grey, 1
	case pngTrue, pngTrueAlpha:
		p.Colour, p.Channels = RGB, 3
	case pngPalette:
		p.Colour, p.Channels = Palette, 3
	}
	if p.Alpha {
		p.Channels++
	}
}
