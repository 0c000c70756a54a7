package issue_test

import (
	"context"
	"encoding/json"
	"image"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/set"
	"markout/render/issue"
)

// kiosk is an issue made from a text, a drawing and a photograph.
func kiosk() issue.Input {
	return issue.Input{Main: "kiosk/kiosk.markout", Program: "markout test", Set: &set.Set{
		Name: "Quayside kiosk", Production: "Low Tide", Letter: "B", Date: "2026-11-20", Sources: &diag.Sources{},
		Files: []set.SourceFile{
			{Name: "kiosk/kiosk.markout", SHA256: [32]byte{1}, Text: []byte("set \"Quayside kiosk\"\n"), Bytes: 21},
			{Name: "kiosk/pilot.svg", SHA256: [32]byte{2}, Text: []byte("<svg/>"), Bytes: 6},
			{Name: "kiosk/harbour.jpg", SHA256: [32]byte{3}, Pixels: image.Pt(9000, 5000), Bytes: 4_000_000},
		},
	}}
}

func writeFolder(in issue.Input, folder string) (issue.Result, error) {
	return issue.Write(context.Background(), folder, in, issue.Options{Workers: 1})
}

// Texts stand in the folder; of a picture made of pixels what tells it from any other.
func TestPicturesOfPixelsAreNamedAndNotCopied(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kiosk-B")
	_, err := writeFolder(kiosk(), folder)
	require.NoError(t, err)
	require.FileExists(t, filepath.Join(folder, "source/kiosk.markout"))
	require.FileExists(t, filepath.Join(folder, "source/pilot.svg"))
	require.NoFileExists(t, filepath.Join(folder, "source/harbour.jpg"))
	text, err := os.ReadFile(filepath.Join(folder, "issue.json"))
	require.NoError(t, err)
	var is struct {
		Files   []map[string]any
		Outputs []string
	}
	require.NoError(t, json.Unmarshal(text, &is))
	sum := "03" + "00000000000000000000000000000000000000000000000000000000000000"
	require.Equal(t, map[string]any{"name": "harbour.jpg", "pixels": []any{9000.0, 5000.0}, "bytes": 4e6, "sha256": sum}, is.Files[2])
	require.Equal(t, "pilot.svg", is.Files[1]["stored"])
	require.NotContains(t, is.Files[1], "pixels")
	require.NotContains(t, is.Outputs, "source/harbour.jpg")
}

// The same letter with the same picture writes nothing; with another picture by the same name it is refused, and the folder stays as
// it was.
func TestChangedPictureIsRefused(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kiosk-B")
	_, err := writeFolder(kiosk(), folder)
	require.NoError(t, err)
	res, err := writeFolder(kiosk(), folder)
	require.NoError(t, err)
	require.False(t, res.Written)
	before, err := os.ReadFile(filepath.Join(folder, "issue.json"))
	require.NoError(t, err)
	other := kiosk()
	other.Set.Files[2].SHA256 = [32]byte{9}
	_, err = writeFolder(other, folder)
	var refused *issue.Refused
	require.ErrorAs(t, err, &refused)
	require.ErrorContains(t, err, "harbour.jpg is another picture")
	after, err := os.ReadFile(filepath.Join(folder, "issue.json"))
	require.NoError(t, err)
	require.Equal(t, before, after)
	other.Set.Letter = "C"
	_, err = writeFolder(other, folder+"-C")
	require.NoError(t, err)
}

// A picture that is nowhere as it was is named once it has been asked for; the one that stands beside the folder is not.
func TestPicturesThatAreNotAtHandAreNamed(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kiosk-B")
	_, err := writeFolder(kiosk(), folder)
	require.NoError(t, err)
	r, err := issue.Read(folder)
	require.NoError(t, err)
	files, err := r.Source(folder)
	require.NoError(t, err)
	defer files.Close()
	require.Empty(t, files.Missing())
	f, err := files.Open(filepath.ToSlash(filepath.Join(folder, "source/harbour.jpg")))
	require.NoError(t, err)
	require.NoError(t, f.Close())
	require.Equal(t, []string{"harbour.jpg"}, files.Missing())
}
