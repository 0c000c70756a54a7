package layout_test

import (
	"io"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
)

// counted counts how often each file is opened.
type counted struct {
	folder string
	opened map[string]int
}

func (c counted) Open(name string) (io.ReadCloser, error) {
	c.opened[name]++
	return os.Open(c.folder + "/" + name)
}

// A set that is opened again with a memory is the same set, from files that were read once.
func TestMemory(t *testing.T) {
	for _, name := range []string{"kiosk", "backing", "crates"} {
		files := counted{"../samples/" + name, map[string]int{}}
		plain, list := layout.Open(files, name+".markout", layout.Options{})
		require.False(t, list.HasErrors())
		files.opened = map[string]int{}
		m := &layout.Memory{}
		for range 3 {
			s, list := layout.Open(files, name+".markout", layout.Options{Memory: m})
			require.False(t, list.HasErrors())
			require.Equal(t, len(plain.Elements), len(s.Elements))
			for i, e := range s.Elements {
				require.Equal(t, plain.Elements[i].Shape, e.Shape, e.Name)
				require.Equal(t, plain.Elements[i].Copies, e.Copies, e.Name)
			}
			require.Equal(t, plain.Files, s.Files)
			require.Equal(t, plain.Said, s.Said)
		}
		for file, n := range files.opened {
			require.Equal(t, 1, n, file)
		}
	}
}
