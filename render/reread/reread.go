// Package reread reads files back with programs that have nothing to do with this one, so that tests measure what a
// ruler would find on the paper: Poppler, MuPDF, qpdf, Ghostscript, librsvg, and through Node PDFium and pdf.js.
// Only tests import it. Places are millimetres from a page's lower left corner.
//
// A test whose program is not installed says so and skips; with CI set it fails.
package reread

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// millimetres is one point of PDF, 1/72 inch.
const millimetres = 25.4 / 72

// Need skips a test on a machine without one of the programs, and fails it where CI is set.
func Need(t testing.TB, programs ...string) {
	t.Helper()
	for _, p := range programs {
		if _, err := exec.LookPath(p); err != nil {
			missing(t, p)
		}
	}
}

func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not installed", what)
	}
	t.Skipf("%s is not installed", what)
}

// Write puts bytes into a file of the test's own folder and returns its path.
func Write(t testing.TB, name string, data []byte) string {
	t.Helper()
	p := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(p, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return p
}

// run runs a program and returns what it wrote. It fails the test where the program fails or complains.
func run(t testing.TB, program string, args ...string) []byte {
	t.Helper()
	Need(t, program)
	var out, complaints bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout, cmd.Stderr = &out, &complaints
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %s: %v\n%s", program, strings.Join(args, " "), err, complaints.String())
	}
	if complaints.Len() > 0 {
		t.Fatalf("%s %s complains:\n%s", program, strings.Join(args, " "), complaints.String())
	}
	return out.Bytes()
}

// Point is a place in millimetres.
type Point struct{ X, Y float64 }

// Size is a page's width and height in millimetres.
type Size struct{ W, H float64 }

// Box is an upright box, Min its lower left corner.
type Box struct{ Min, Max Point }
