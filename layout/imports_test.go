package layout_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rooms lists the packages of the house from the street inwards, a group a line: a package imports only
// what stands in an earlier group. DEVELOPERS.md draws the same picture.
var rooms = [][]string{
	{"layout/unit", "layout/diag", "render/reread", "render/whole"},
	{"layout/geom", "layout/caution", "layout/pixels"},
	{"layout/table", "layout/lettering", "layout/artwork", "layout/trace"},
	{"layout/drawing", "layout/silhouette"},
	{"layout/notation"},
	{"layout/eval"},
	{"layout/set"},
	{"layout/element"},
	{"layout"},
	{"layout/setout", "layout/figures", "layout/solid"},
	{"layout/overhead", "layout/develop", "layout/takeoff", "layout/enlarge"},
	{"layout/rules", "layout/changes"},
	{"layout/view", "layout/trial"},
	{"layout/reference"},
	{"tiling/paper"},
	{"tiling"},
	{"tiling/grid", "tiling/nest", "tiling/cut"},
	{"tiling/sheet"},
	{"render/pdf", "render/svg", "render/table"},
	{"render/issue"},
	{"cmd/internal/desk"},
	{"cmd/internal/cli"},
	{"cmd/markout"},
}

// forbidden lists what whole parts of the house must not know.
var forbidden = []struct{ under, pkg, why string }{
	{"layout", "os", "the core reads through the Files interface"},
	{"layout", "time", "outputs know no clock but the issue's date"},
	{"layout", "github.com/spf13/cobra", "the core knows no command line"},
	{"layout", "github.com/pdfcpu/", "the core knows no PDF"},
	{"tiling", "os", "pages are made without files"},
	{"tiling", "time", "outputs know no clock but the issue's date"},
	{"tiling", "github.com/pdfcpu/", "pages know no PDF"},
	{"tiling", "github.com/spf13/cobra", "pages know no command line"},
	{"render", "github.com/spf13/cobra", "writers know no command line"},
}

func TestImportsRunOneWay(t *testing.T) {
	rank := map[string]int{}
	for i, group := range rooms {
		for _, p := range group {
			rank[p] = i
		}
	}
	root := ".."
	fset := token.NewFileSet()
	seen := 0
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if base := d.Name(); name != root && (strings.HasPrefix(base, ".") || base == "testdata") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		rel, err := filepath.Rel(root, name)
		require.NoError(t, err)
		pkg := path.Dir(filepath.ToSlash(rel))
		from, ok := rank[pkg]
		if !ok {
			t.Errorf("%s: package %s has no place in the house; give it one in rooms and in DEVELOPERS.md", rel, pkg)
			return nil
		}
		seen++
		f, err := parser.ParseFile(fset, name, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, imp := range f.Imports {
			what, err := strconv.Unquote(imp.Path.Value)
			require.NoError(t, err)
			for _, b := range forbidden {
				if (pkg == b.under || strings.HasPrefix(pkg, b.under+"/")) && (what == b.pkg || strings.HasSuffix(b.pkg, "/") && strings.HasPrefix(what, b.pkg)) {
					t.Errorf("%s imports %s: %s", rel, what, b.why)
				}
			}
			own, ok := strings.CutPrefix(what, "markout/")
			if !ok {
				continue
			}
			to, ok := rank[own]
			switch {
			case !ok:
				t.Errorf("%s imports %s, which has no place in the house", rel, own)
			case to >= from:
				t.Errorf("%s imports %s: the way runs from it, not to it", rel, own)
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, seen, 10, "the walk found the house")
}
