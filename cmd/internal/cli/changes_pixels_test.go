package cli

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

// Two issues are painted by another program with the layer `furniture` off: the pages whose pixels differ are exactly those that are
// listed to be printed again.
func TestChangedPagesAreThosePainted(t *testing.T) {
	reread.Need(t, "qpdf", "fix-qdf", "pdftoppm")
	for _, c := range []struct {
		sample string
		edit   *strings.Replacer
	}{
		{"crates/crates", strings.NewReplacer("issue      A", "issue      B", "150 190 120", "150 175 135", "-90 50 0", "30 50 0")},
		{"galley/galley", strings.NewReplacer("issue      A", "issue      B", "at       1500, 3350", "at       1420, 3350")},
	} {
		t.Run(filepath.Base(c.sample), func(t *testing.T) {
			text, err := os.ReadFile("../../../samples/" + c.sample + ".markout")
			require.NoError(t, err)
			folder := t.TempDir()
			file := func(name, text string) string {
				name = filepath.Join(folder, name)
				require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
				return name
			}
			old, new := file("old.markout", string(text)), file("new.markout", c.edit.Replace(string(text)))
			a, b := filepath.Join(folder, "a"), filepath.Join(folder, "b")
			runMain(t, exitOK, "issue", old, "--yes", "-o", a)
			runMain(t, exitOK, "issue", new, "--since", a, "--yes", "-o", b)
			var listed struct {
				Pages struct{ Keep, Reprint, Withdraw []pageJSON }
			}
			out, _ := runMain(t, exitOK, "changes", a, new, "--format", "json")
			require.NoError(t, json.Unmarshal([]byte(out), &listed))
			require.NotEmpty(t, listed.Pages.Reprint)
			again := map[string]bool{}
			for _, p := range listed.Pages.Reprint {
				again[p.File+" "+p.Sheet] = true
			}
			before := paintedPages(t, a)
			for sheet, sum := range paintedPages(t, b) {
				require.Equal(t, before[sheet] != sum, again[sheet], sheet)
			}
		})
	}
}

// paintedPages paints every page of an issue without its furniture, by file and sheet.
func paintedPages(t *testing.T, folder string) map[string][32]byte {
	out := map[string][32]byte{}
	sums := map[string][][32]byte{}
	for _, row := range readCSV(t, filepath.Join(folder, "register.csv")) {
		file := row["file"]
		if sums[file] == nil {
			sums[file] = reread.PageSums(t, reread.WithoutLayer(t, filepath.Join(folder, file), "furniture"), 40)
		}
		page, err := strconv.Atoi(row["page"])
		require.NoError(t, err)
		out[file+" "+row["sheet"]] = sums[file][page-1]
	}
	return out
}
