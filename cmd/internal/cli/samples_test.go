package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

// Every sample is issued; what comes out is opened by every reader there is, and the register is held against it.
func TestSamplesAreIssued(t *testing.T) {
	for _, file := range samples(t) {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".markout"), func(t *testing.T) {
			folder := filepath.Join(t.TempDir(), "issue")
			runMain(t, exitOK, "issue", file, "--yes", "-o", folder)

			sheets := readCSV(t, filepath.Join(folder, "register.csv"))
			pages := map[string][]map[string]string{}
			for _, s := range sheets {
				pages[s["file"]] = append(pages[s["file"]], s)
			}
			require.Contains(t, pages, "floor.pdf")
			for name, listed := range pages {
				registerHolds(t, filepath.Join(folder, name), listed)
			}
			var record struct {
				Outputs []string
				Pages   []struct{ Digest, Mark string }
			}
			data, err := os.ReadFile(filepath.Join(folder, "issue.json"))
			require.NoError(t, err)
			require.NoError(t, json.Unmarshal(data, &record))
			require.Len(t, record.Pages, len(sheets))
			nothingCertifies(t, folder, record.Outputs)
		})
	}
}

// registerHolds checks a document against its rows of the register: as many pages, labels in order, one size in every
// reader, printing without scaling.
func registerHolds(t *testing.T, pdf string, rows []map[string]string) {
	reread.Check(t, pdf)
	info := reread.ReadInfo(t, pdf)
	reread.Opens(t, pdf, info.Sizes...)
	pdfium, pdfjs := reread.Browsers(t, pdf)
	require.Len(t, pdfium.Sizes, len(info.Sizes))
	require.Len(t, pdfjs.Sizes, len(info.Sizes))
	for i := range info.Sizes {
		reread.SameSize(t, "PDFium", i+1, pdfium.Sizes[i], info.Sizes)
		reread.SameSize(t, "pdf.js", i+1, pdfjs.Sizes[i], info.Sizes)
		require.True(t, pdfium.Ink[i], "page %d of %s is blank", i+1, pdf)
	}
	require.Equal(t, "None", pdfjs.PrintScaling)
	require.Subset(t, []string{"cut", "fold", "notes", "registration", "furniture"}, pdfjs.Layers)
	require.NotEmpty(t, pdfjs.Titles)
	for i, r := range rows {
		page, err := strconv.Atoi(r["page"])
		require.NoError(t, err)
		require.LessOrEqual(t, page, len(info.Sizes))
		require.Equal(t, r["sheet"], pdfjs.Labels[page-1])
		require.NotEmpty(t, r["mark"], "row %d", i)
	}
}

var certifying = regexp.MustCompile(`(?i)\bsafe`)

// nothingCertifies searches every output for the word that would promise what no program can.
func nothingCertifies(t *testing.T, folder string, outputs []string) {
	for _, name := range outputs {
		full := filepath.Join(folder, filepath.FromSlash(name))
		var text []byte
		if strings.HasSuffix(name, ".pdf") {
			var words []string
			for _, w := range reread.Words(t, full) {
				words = append(words, w.Text)
			}
			text = []byte(strings.Join(words, " "))
		} else {
			var err error
			text, err = os.ReadFile(full)
			require.NoError(t, err)
		}
		require.False(t, certifying.Match(text), "%s says %q", name, certifying.Find(text))
	}
}

// samples lists every geometry file that people read first.
func samples(t *testing.T) []string {
	files, err := filepath.Glob("../../../samples/*/*.markout")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

func TestSamplesAreTidy(t *testing.T) {
	for _, file := range samples(t) {
		runMain(t, exitOK, "tidy", "--check", file)
	}
}

// runMain runs a command in the test's own process and returns what it printed.
func runMain(t *testing.T, code int, args ...string) (out, complaints string) {
	t.Helper()
	var o, e bytes.Buffer
	got := Main(args, Streams{In: strings.NewReader(""), Out: &o, Err: &e})
	require.Equal(t, code, got, "markout %s\n%s%s", strings.Join(args, " "), o.String(), e.String())
	return o.String(), e.String()
}

func readCSV(t *testing.T, name string) []map[string]string {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	return parseCSV(t, data)
}

func parseCSV(t *testing.T, data []byte) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		out = append(out, m)
	}
	return out
}
