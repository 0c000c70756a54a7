package reread

import (
	"bytes"
	"crypto/sha256"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"testing"
)

// WithoutLayer returns a copy of a PDF in which a layer is off from the beginning (ISO 32000-1, 8.11.4.3: OFF), made through qpdf.
func WithoutLayer(t testing.TB, pdf, layer string) string {
	t.Helper()
	Need(t, "qpdf", "fix-qdf")
	plain := filepath.Join(t.TempDir(), "plain.pdf")
	run(t, "qpdf", "--qdf", "--object-streams=disable", pdf, plain)
	data, err := os.ReadFile(plain)
	if err != nil {
		t.Fatal(err)
	}
	group := regexp.MustCompile(`(\d+) 0 obj\n<<\n  /Name \(` + regexp.QuoteMeta(layer) + `\)`).FindSubmatch(data)
	from := []byte("/OCProperties <<\n    /D <<\n")
	if group == nil || !bytes.Contains(data, from) {
		t.Fatalf("%s has no layer %s", pdf, layer)
	}
	data = bytes.Replace(data, from, append(append(bytes.Clone(from), "      /OFF [ "...), append(group[1], " 0 R ]\n"...)...), 1)
	edited := Write(t, "edited.pdf", data)
	return Write(t, "hidden.pdf", run(t, "fix-qdf", edited))
}

// PageSums paints every page at so many dots an inch with Poppler, and returns a sum of each one's pixels.
func PageSums(t testing.TB, pdf string, dpi float64) [][32]byte {
	t.Helper()
	folder := t.TempDir()
	run(t, "pdftoppm", "-r", strconv.FormatFloat(dpi, 'f', -1, 64), "-gray", pdf, filepath.Join(folder, "p"))
	names, err := filepath.Glob(filepath.Join(folder, "p-*.pgm"))
	if err != nil {
		t.Fatal(err)
	}
	sort.Strings(names)
	var out [][32]byte
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, sha256.Sum256(data))
	}
	return out
}
