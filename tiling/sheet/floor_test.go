package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/setout"
	"markout/layout/view"
	"markout/tiling"
	"markout/tiling/paper"
)

func filed(name string) Options {
	p, err := paper.Parse(name)
	if err != nil {
		panic(err)
	}
	return Options{Paper: p, Margins: paper.Margins{Left: 20, Right: 10, Bottom: 10, Top: 10}}
}

func TestFloorBook(t *testing.T) {
	s := kiosk()
	b, err := Floor(s, view.Plan(s), setout.Lay(s).Table(), nil, filed("A3"))
	require.NoError(t, err)
	require.Equal(t, len(b.Entries), b.Document.Pages)
	require.Equal(t, "cover", b.Entries[0].Label)
	require.Equal(t, "plan", b.Entries[1].Label)
	require.Equal(t, "1:50", b.Entries[1].Scale)
	for i, e := range b.Entries {
		require.Equal(t, i+1, e.Page)
		require.Len(t, e.Mark, 4)
		var p tiling.Page
		p.Reset()
		b.Document.Make(i, &p)
		require.Equal(t, b.Document.Sizes[i], tiling.Size{W: p.W, H: p.H})
	}
}
