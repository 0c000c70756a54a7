package layout_test

import (
	"bytes"
	"io"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/set"
)

// texts are files held in memory.
type texts map[string]string

func (t texts) Open(name string) (io.ReadCloser, error) {
	s, ok := t[name]
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return io.NopCloser(bytes.NewReader([]byte(s))), nil
}

// open works out a text that has to be right.
func open(t testing.TB, text string, with ...string) *set.Set {
	t.Helper()
	s, list := layout.Open(texts{"main.markout": text}, "main.markout", layout.Options{With: with})
	require.Empty(t, printed(list))
	return s
}

// printed is what a list says, one line a diagnostic.
func printed(list *diag.List) string {
	var b bytes.Buffer
	list.Print(&b, 1000)
	return b.String()
}

func TestIncludes(t *testing.T) {
	files := texts{
		"main.markout":       "set \"Quay\"\ninclude \"parts/deck.markout\"\ninclude \"parts/deck.markout\"\nlet rise = 150\n",
		"parts/deck.markout": "include \"../more.markout\"\nplatform deck\n    outline rect 100 x 100\n    height 2 * rise\n",
		"more.markout":       "include \"main.markout\"\npost mast\n    diameter 60\n    height 700\n    at deck.corner(1)\n",
	}
	s, list := layout.Open(files, "main.markout", layout.Options{})
	require.Empty(t, printed(list))
	require.Len(t, s.Files, 3, "each file once, though they include one another in a circle")
	require.Equal(t, "mast", s.Elements[0].Name, "an included file's pieces come where the include stands")
	require.Equal(t, 300.0, s.Find("deck").Shape.(*set.Platform).Height)
	require.Equal(t, "Quay", s.Name)
	require.True(t, s.Trial, "no issue line")
}
