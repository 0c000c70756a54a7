package reread

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Embedded is one picture made of pixels as Poppler's pdfimages lists it, once for every page that uses it.
type Embedded struct {
	Page     int    // from 1
	Kind     string // image, mask, smask, stencil
	W, H     int    // pixels
	Colour   string // gray, rgb, cmyk, icc, index
	Bits     int
	Coding   string // jpeg for bytes that stay JPEG, image for what is packed without loss
	Object   int    // number in the file; the same for a picture that several pages share
	PerInchX float64
	PerInchY float64
}

// ReadImages runs pdfimages -list over all pages.
func ReadImages(t testing.TB, pdf string) []Embedded {
	t.Helper()
	var all []Embedded
	for line := range strings.Lines(string(run(t, "pdfimages", "-list", pdf))) {
		f := strings.Fields(strings.Replace(line, "[inline]", "0 0", 1)) // one that stands in the page's content is no object
		if len(f) < 14 {
			continue
		}
		page, err := strconv.Atoi(f[0])
		if err != nil { // a heading
			continue
		}
		all = append(all, Embedded{
			Page: page, Kind: f[2], W: int(number(t, f[3])), H: int(number(t, f[4])), Colour: f[5], Bits: int(number(t, f[7])), Coding: f[8],
			Object: int(number(t, f[10])), PerInchX: number(t, f[12]), PerInchY: number(t, f[13]),
		})
	}
	return all
}

// Extracted is one picture taken out of a PDF, as a file: the bytes of a JPEG as they stand in it, other pixels as PNG.
type Extracted struct {
	Name string // in the order in which pages show them
	Data []byte
}

// ExtractImages runs pdfimages -all over pages first to last, from 1.
func ExtractImages(t testing.TB, pdf string, first, last int) []Extracted {
	t.Helper()
	folder := t.TempDir()
	run(t, "pdfimages", "-all", "-f", strconv.Itoa(first), "-l", strconv.Itoa(last), pdf, filepath.Join(folder, "p"))
	list, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var all []Extracted
	for _, e := range list { // in the order of their names, which are numbers
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, Extracted{e.Name(), data})
	}
	return all
}

// RasterColour draws one page, from 1, with Poppler's pdftoppm in colours on white.
func RasterColour(t testing.TB, pdf string, page int, dpi float64) *image.RGBA {
	t.Helper()
	n := strconv.Itoa(page)
	img, err := png.Decode(bytes.NewReader(run(t, "pdftoppm", "-f", n, "-l", n, "-r", strconv.FormatFloat(dpi, 'f', -1, 64), "-png", pdf)))
	if err != nil {
		t.Fatal(err)
	}
	flat := image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
	draw.Draw(flat, flat.Bounds(), img, img.Bounds().Min, draw.Src)
	return flat
}
