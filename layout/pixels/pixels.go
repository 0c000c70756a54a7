// Package pixels reads pictures made of pixels, PNG and JPEG, without ever holding a large one whole.
//
// Open reads the headers only. Strips decodes from the top down, a band of rows at a time. Cut takes a JPEG apart on
// the borders of its own blocks without decoding it to pixels, so that an enlargement carries the pixels it was given
// and each page only its part of them. Rows gives the rows of rectangles as plain bytes, for what has to be stored
// anew without loss.
//
// Places are whole pixels of the picture as it is stored: x to the right from the left edge, y down from the top
// edge; rectangles are half open, as image.Rectangle is. A picture may ask to be turned when it is shown: see
// Orientation; nothing here turns pixels.
//
// A Picture may be used again and again, and by several goroutines where the io.ReaderAt allows it.
//
// Formats: PNG as ISO/IEC 15948 and the W3C recommendation of 2003 (with the chunk eXIf of its extensions 1.5.0);
// JPEG as ITU-T T.81, Huffman coded, 8 bits, sequential or progressive, with the markers of JFIF 1.02 and Adobe's
// APP14; Exif 2.3 for the orientation.
package pixels

import (
	"fmt"
	"image"
	"io"
)

// Format is the kind of file.
type Format uint8

const (
	PNG Format = iota + 1
	JPEG
)

func (f Format) String() string {
	switch f {
	case PNG:
		return "PNG"
	case JPEG:
		return "JPEG"
	}
	return "picture"
}

// Colour is how a file says its colours.
type Colour uint8

const (
	Grey    Colour = iota + 1 // one channel of lightness
	RGB                       // red, green, blue
	Palette                   // numbers into a list of colours
	YCbCr                     // lightness and two channels of colour, as most JPEG files
	CMYK                      // four inks, 255 meaning none (as Adobe's programs write them)
	YCCK                      // four inks, the first three as lightness and colour
)

func (c Colour) String() string {
	return [...]string{"", "grey", "RGB", "palette", "YCbCr", "CMYK", "YCCK"}[c]
}

// Inks reports whether the colours are printing inks. Strips then gives *image.CMYK, and Rows and the colour model
// turn them into red, green and blue by the plain formula, without the file's profile.
func (c Colour) Inks() bool { return c == CMYK || c == YCCK }

const (
	// WholePixels is the most pixels of a picture that has to be held whole: a progressive JPEG, a JPEG in several
	// scans, an interlaced PNG: 100 megapixels, each of 2^20.
	WholePixels = 100 << 20
	// wholeBytes is the most memory that such a picture may take while it is held.
	wholeBytes = 400 << 20
	// stripBytes is about the most memory that one strip takes; strips get lower where it would be more.
	stripBytes = 64 << 20
	// profileBytes is the longest colour profile that is read.
	profileBytes = 16 << 20
)

// Picture is what the headers of a file say. Width and Height are pixels as stored, before any turn.
type Picture struct {
	Format        Format
	Width, Height int
	Bits          int         // of one channel: 1, 2, 4, 8, 16; of a palette's numbers
	Channels      int         // colour and alpha together; of a palette's colours
	Alpha         bool        // has an alpha channel, or colours that are see-through
	Colour        Colour      // how the file says colours
	Orientation   Orientation // how it asks to be turned to be upright; Upright when it says nothing
	PerInchX      float64     // pixels per inch across that the file says of itself, 0 when it does not
	PerInchY      float64     // and down
	Whole         bool        // has to be held whole to be read: interlaced, progressive or in several scans
	Progressive   bool        // a progressive JPEG
	Interlaced    bool        // an interlaced PNG
	Sampling      string      // of a JPEG with colour: "4:4:4", "4:2:2", "4:2:0", "4:4:0", "4:1:1", "4:1:0"
	Block         image.Point // size of the smallest piece that Cut can cut off, pixels; zero for PNG
	Profile       bool        // carries an ICC colour profile
	Notes         []string    // what a person should know about how it is read, whole sentences

	png  *pngFile
	jpeg *jpegFile
}

// Open reads the headers of a PNG or JPEG file of size bytes. What is wrong comes back as an *Error that says the
// byte and, where it is known, what would mend it; an error of r itself comes back as it is. Nothing is allocated on
// a header's word before the size of the file makes that word plausible.
func Open(r io.ReaderAt, size int64) (*Picture, error) {
	head := make([]byte, min(max(size, 0), 32))
	if len(head) == 0 {
		return nil, &Error{What: "the file is empty"}
	}
	if err := newSource(r, size, 0).full(head, "its first bytes"); err != nil {
		return nil, err
	}
	switch {
	case string(head[:min(len(head), len(pngSignature))]) == pngSignature:
		return openPNG(r, size)
	case len(head) >= 3 && head[0] == 0xff && head[1] == 0xd8 && head[2] == 0xff:
		return openJPEG(r, size)
	}
	return nil, otherFormat(head)
}

// Bounds is the rectangle of the whole picture as stored, from 0,0.
func (p *Picture) Bounds() image.Rectangle { return image.Rect(0, 0, p.Width, p.Height) }

// holds says what is wrong with a part that is not inside the picture.
func (p *Picture) holds(r image.Rectangle) error {
	if r.Empty() || !r.In(p.Bounds()) {
		return fmt.Errorf("the part %v is not inside the picture of %d × %d pixels", r, p.Width, p.Height)
	}
	return nil
}

// Upright is the size of the picture in pixels once it is turned as it asks.
func (p *Picture) Upright() (width, height int) { return p.Orientation.Size(p.Width, p.Height) }

// ICC returns the bytes of the colour profile, nil when there is none.
func (p *Picture) ICC() ([]byte, error) {
	switch {
	case !p.Profile:
		return nil, nil
	case p.png != nil:
		return p.png.profile()
	}
	return p.jpeg.profile()
}
