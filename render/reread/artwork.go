package reread

import (
	"bytes"
	"fmt"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// SVGPixels draws an SVG with librsvg on white, stretched to so many pixels, and returns a PNG. It fails where librsvg
// draws nothing of the file.
func SVGPixels(svg []byte, w, h int) ([]byte, error) {
	var out, complaints bytes.Buffer
	cmd := exec.Command("rsvg-convert", "--background-color", "white", "--format", "png", "-w", strconv.Itoa(w), "-h", strconv.Itoa(h))
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(svg), &out, &complaints
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("rsvg-convert: %w: %s", err, complaints.String())
	}
	return out.Bytes(), nil
}

// ArtworkFolder finds the folder of a package of openly licensed artwork that .ci/run installs. It skips the test where
// it is not there, and fails it where CI is set.
func ArtworkFolder(t testing.TB, name string) string {
	t.Helper()
	return filepath.Join(modulesWith(t, name), filepath.FromSlash(name))
}
