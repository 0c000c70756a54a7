package reread

import (
	_ "embed"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Opens lets Poppler, MuPDF and Ghostscript draw every page, small, and fails the test where one of them complains, or where the
// first two read another size than the one given for each page, or one for all.
func Opens(t testing.TB, pdf string, sizes ...Size) {
	t.Helper()
	Need(t, "pdfinfo", "pdftoppm", "mutool", "gs")
	info := ReadInfo(t, pdf)
	for i, got := range info.Sizes {
		SameSize(t, "poppler", i+1, got, sizes)
	}
	run(t, "pdftoppm", "-r", "9", "-gray", pdf, filepath.Join(t.TempDir(), "page"))
	pages := Trace(t, pdf, "1-N")
	if len(pages) != len(info.Sizes) {
		t.Fatalf("poppler sees %d pages, mupdf %d", len(info.Sizes), len(pages))
	}
	for _, p := range pages {
		SameSize(t, "mupdf", p.Number, p.Size, sizes)
	}
	if out := run(t, "gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=nullpage", pdf); len(out) > 0 {
		t.Fatalf("gs says of %s:\n%s", pdf, out)
	}
}

// SameSize fails the test where a page, from 1, is not of its size in sizes, or of the one for all, within 0.01 mm.
func SameSize(t testing.TB, reader string, page int, got Size, sizes []Size) {
	t.Helper()
	if len(sizes) == 0 {
		return
	}
	want := sizes[min(page, len(sizes))-1]
	if math.Abs(got.W-want.W) > 0.01 || math.Abs(got.H-want.H) > 0.01 {
		t.Fatalf("%s reads page %d as %v mm, not %v", reader, page, got, want)
	}
}

// Browser is what a browser's reader makes of a file.
type Browser struct {
	Sizes        []Size   // of pages
	Ink          []bool   // whether anything is drawn on a page; PDFium only
	Labels       []string // pdf.js only, as are the following
	PrintScaling string
	Layers       []string
	Titles       []string // of the bookmarks
}

//go:embed browsers.mjs
var browsersScript []byte

// Browsers opens a file in PDFium and in pdf.js. Both are packages for Node in the repository's .ci/readers.
func Browsers(t testing.TB, pdf string) (pdfium, pdfjs Browser) {
	t.Helper()
	Need(t, "node")
	modules := modulesWith(t, "pdfjs-dist")
	absolute, err := filepath.Abs(pdf)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", Write(t, "browsers.mjs", browsersScript), modules, absolute)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("node: %v\n%s", err, out)
	}
	var both struct{ PDFium, PDFjs Browser }
	if err := json.Unmarshal(out, &both); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return both.PDFium, both.PDFjs
}

// modulesWith finds the packages for Node that .ci/run installs, from the test's folder upwards; the one named is among
// them.
func modulesWith(t testing.TB, name string) string {
	t.Helper()
	folder, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for range strings.Count(folder, string(filepath.Separator)) + 1 {
		modules := filepath.Join(folder, ".ci", "readers", "node_modules")
		if _, err := os.Stat(filepath.Join(modules, filepath.FromSlash(name))); err == nil {
			return modules
		}
		folder = filepath.Dir(folder)
	}
	missing(t, "the package "+name+" (.ci/run)")
	return ""
}

// RasterSVG draws an SVG with librsvg at so many pixels a millimetre.
func RasterSVG(t testing.TB, svg string, perMillimetre float64) []byte {
	t.Helper()
	dpi := strconv.FormatFloat(perMillimetre*25.4, 'f', -1, 64)
	return run(t, "rsvg-convert", "--dpi-x", dpi, "--dpi-y", dpi, "--background-color", "white", "--format", "png", svg)
}
