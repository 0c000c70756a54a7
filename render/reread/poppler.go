package reread

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"image"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Info is what Poppler's pdfinfo says of a file.
type Info struct {
	Fields map[string]string // "Title", "CreationDate", "Pages" …
	Sizes  []Size            // of every page, as printed: to about 0.002 mm
}

var pageSize = regexp.MustCompile(`^Page +\d+ size: +([0-9.]+) x ([0-9.]+) pts`)

// ReadInfo runs pdfinfo over all pages.
func ReadInfo(t testing.TB, pdf string) Info {
	t.Helper()
	info := Info{Fields: map[string]string{}}
	for line := range strings.Lines(string(run(t, "pdfinfo", "-l", "-1", pdf))) {
		if m := pageSize.FindStringSubmatch(line); m != nil {
			info.Sizes = append(info.Sizes, Size{number(t, m[1]) * millimetres, number(t, m[2]) * millimetres})
			continue
		}
		if name, value, ok := strings.Cut(line, ":"); ok {
			info.Fields[name] = strings.TrimSpace(value)
		}
	}
	return info
}

// Word is one word that Poppler's pdftotext finds on a page, and the box of its line height.
type Word struct {
	Page int // from 1
	Text string
	Box  Box
}

// Words runs pdftotext over all pages.
func Words(t testing.TB, pdf string) []Word {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(run(t, "pdftotext", "-bbox", pdf, "-")))
	d.Strict = false
	d.Entity = xml.HTMLEntity
	var words []Word
	page, height := 0, 0.0
	for {
		token, err := d.Token()
		if err == io.EOF {
			return words
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch e.Name.Local {
		case "page":
			page++
			height = attribute(t, e, "height")
		case "word":
			var text string
			if err := d.DecodeElement(&text, &e); err != nil {
				t.Fatal(err)
			}
			words = append(words, Word{page, text, Box{
				Point{attribute(t, e, "xMin") * millimetres, (height - attribute(t, e, "yMax")) * millimetres},
				Point{attribute(t, e, "xMax") * millimetres, (height - attribute(t, e, "yMin")) * millimetres},
			}})
		}
	}
}

// Text returns what pdftotext finds on one page, from 1, line by line.
func Text(t testing.TB, pdf string, page int) string {
	t.Helper()
	n := strconv.Itoa(page)
	return string(run(t, "pdftotext", "-f", n, "-l", n, "-layout", pdf, "-"))
}

// Raster draws one page, from 1, with Poppler's pdftoppm in shades of grey, 0 black.
func Raster(t testing.TB, pdf string, page int, dpi float64) *image.Gray {
	t.Helper()
	n := strconv.Itoa(page)
	return greymap(t, run(t, "pdftoppm", "-f", n, "-l", n, "-r", strconv.FormatFloat(dpi, 'f', -1, 64), "-gray", pdf))
}

// greymap reads a binary greymap of 8 bits (PGM, P5).
func greymap(t testing.TB, data []byte) *image.Gray {
	t.Helper()
	r := bufio.NewReader(bytes.NewReader(data))
	header := make([]string, 0, 4)
	for len(header) < 4 {
		line, err := r.ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(line, "#") {
			header = append(header, strings.Fields(line)...)
		}
	}
	if header[0] != "P5" || header[3] != "255" {
		t.Fatalf("no greymap of 8 bits: %v", header)
	}
	img := image.NewGray(image.Rect(0, 0, int(number(t, header[1])), int(number(t, header[2]))))
	if _, err := io.ReadFull(r, img.Pix); err != nil {
		t.Fatal(err)
	}
	return img
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// attribute returns an element's attribute as a number, 0 where it has none.
func attribute(t testing.TB, e xml.StartElement, name string) float64 {
	t.Helper()
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return number(t, a.Value)
		}
	}
	return 0
}
