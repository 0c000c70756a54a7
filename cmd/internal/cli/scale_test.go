package cli

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/pdf"
	"markout/tiling"
)

// The number of cores changes the time on the clock and no byte of what is written.
func TestSameBytesOnOneCoreAndOnMany(t *testing.T) {
	rings := writeSet(t, ringFloor(8, 6, 30))
	mixed := writeSet(t, field(60, 3))
	cases := map[string]func(folder string){
		"template, rings":          func(f string) { bench(t, "template", rings, "--paper", "A3", "--yes", "-o", filepath.Join(f, "t.pdf")) },
		"template, mixed elements": func(f string) { bench(t, "template", mixed, "--yes", "-o", filepath.Join(f, "t.pdf")) },
		"template, roll": func(f string) {
			bench(t, "template", rings, "--paper", "roll 914", "--yes", "-o", filepath.Join(f, "t.pdf"))
		},
		"floor":              func(f string) { bench(t, "floor", mixed, "--yes", "-o", filepath.Join(f, "f.pdf")) },
		"issue of the kiosk": func(f string) { bench(t, "issue", kiosk, "--yes", "-o", filepath.Join(f, "issue")) },
	}
	for name, run := range cases {
		t.Run(name, func(t *testing.T) {
			var first map[string][]byte
			for _, cores := range []int{1, 2, 8} {
				folder := t.TempDir()
				onCores(cores, func() { run(folder) })
				got := contents(t, folder)
				require.NotEmpty(t, got)
				if first == nil {
					first = got
					continue
				}
				require.Len(t, got, len(first))
				for file, data := range first {
					require.True(t, bytes.Equal(data, got[file]), "%s is another on %d cores", file, cores)
				}
			}
		})
	}
}

func onCores(n int, run func()) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
	run()
}

// contents reads every file under a folder, by its name there.
func contents(t *testing.T, folder string) map[string][]byte {
	out := map[string][]byte{}
	require.NoError(t, filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(name)
		rel, _ := filepath.Rel(folder, name)
		out[rel] = data
		return err
	}))
	return out
}

// Pages are made and let go: what is alive while a document is written is a few pages for each worker and some
// bytes for each page written, which the file's tables need. Four times the pages must not hold more than that.
func TestMemoryDoesNotGrowWithThePages(t *testing.T) {
	const perPage = 256 // bytes held for a page that is written already: its place, its label, its resources
	small, large := ringDocument(t, 14, 9, 150), ringDocument(t, 28, 18, 600)
	require.Greater(t, large.Pages, 3*small.Pages)

	// The first writing brings in fonts and tables that stay.
	held(t, small)
	few, many := held(t, small), held(t, large)
	require.Less(t, many-few, int64(perPage*(large.Pages-small.Pages)),
		"%d pages hold %d bytes, %d pages hold %d", small.Pages, few, large.Pages, many)

	// A page more costs a page's allocations more, beside what every document needs once.
	more := (allocated(t, large) - allocated(t, small)) / int64(large.Pages-small.Pages)
	t.Logf("%d pages hold %d bytes, %d hold %d; %d bytes allocated for a page more", small.Pages, few, large.Pages, many, more)
	require.Less(t, more, int64(8*perPage))
}

// ringDocument lays a floor of fixed rings over A3.
func ringDocument(t *testing.T, width, depth, n int) *tiling.Document {
	o := &templateOptions{}
	o.paper = "A3"
	s, err := o.open(&app{}, writeSet(t, ringFloor(width, depth, n)))
	require.NoError(t, err)
	plan, err := o.plan(s, nil)
	require.NoError(t, err)
	return plan.Document()
}

// held writes a document and returns by how much the live heap has grown, at its most, over what it was before.
// The collector is run by hand, so that no garbage counts; this leaves nothing to its timing.
func held(t *testing.T, doc *tiling.Document) int64 {
	defer debug.SetGCPercent(debug.SetGCPercent(-1))
	before := live()
	most := int64(0)
	probe := &prober{every: 1 << 17, look: func() { most = max(most, live()-before) }}
	_, err := pdf.Write(probe, doc, pdf.Options{Workers: 2})
	require.NoError(t, err)
	require.Greater(t, probe.looks, 2)
	runtime.KeepAlive(doc)
	return most
}

func live() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

// allocated returns how many bytes are allocated while a document is written, whatever becomes of them.
func allocated(t *testing.T, doc *tiling.Document) int64 {
	var a, b runtime.MemStats
	runtime.ReadMemStats(&a)
	_, err := pdf.Write(&prober{}, doc, pdf.Options{Workers: 1})
	require.NoError(t, err)
	runtime.ReadMemStats(&b)
	return int64(b.TotalAlloc - a.TotalAlloc)
}

// prober takes what is written, keeps none of it, and looks each time so many bytes have come.
type prober struct {
	every, since, looks int
	look                func()
}

func (p *prober) Write(b []byte) (int, error) {
	if p.since += len(b); p.look != nil && p.since >= p.every {
		p.since = 0
		p.looks++
		p.look()
	}
	return len(b), nil
}
