package sheet

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/develop"
	"markout/layout/set"
	"markout/tiling/nest"
	"markout/tiling/paper"
)

// oneFile is a set of one text.
type oneFile string

func (f oneFile) Open(string) (io.ReadCloser, error) {
	return io.NopCloser(strings.NewReader(string(f))), nil
}

func openText(t testing.TB, text string) *set.Set {
	t.Helper()
	return opened(t, oneFile(text), "set.markout")
}

func opened(t testing.TB, files layout.Files, main string) *set.Set {
	t.Helper()
	s, list := layout.Open(files, main, layout.Options{})
	var b strings.Builder
	require.NoError(t, list.Print(&b, 20))
	require.Empty(t, b.String())
	return s
}

func sample(t testing.TB, name string) *set.Set {
	t.Helper()
	return opened(t, folder("../../samples/"+name), name+".markout")
}

// folder is files beside one another.
type folder string

func (f folder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), name))
}

// onPaper are the options of a model on a paper with a printer's own margins.
func onPaper(t testing.TB, s *set.Set, name string, margin float64) ModelOptions {
	t.Helper()
	p, err := paper.Parse(name)
	require.NoError(t, err)
	return ModelOptions{
		Options: Options{Paper: p, Margins: paper.Even(margin)}, OwnMargins: margin != 10,
		Gap: DefaultGap, Effort: nest.Quick, ScaleWords: s.ScaleText, People: PeopleCard(s.Cards),
		Stop: func() bool { return true }, // the first placement does for these tests
	}
}

// laidOut develops a set and lays its pieces.
func laidOut(t testing.TB, s *set.Set, dev develop.Options, opt ModelOptions) *CardModel {
	t.Helper()
	m, list := develop.Develop(s, dev)
	require.False(t, list.HasErrors())
	c, list, err := LayModel(context.Background(), s, m, opt)
	require.NoError(t, err)
	require.False(t, list.HasErrors())
	return c
}

// folded has card that folds and rolls, small and round pieces, rods, and a ring.
const folded = `set "Odd things"
    production "Low Tide"
    issue      A 2026-11-20
    units      mm
    scale      1:25
    card       wall 1.5 detail 0.3

platform box
    outline rect 1200 x 800
    at      1500, 1500
    height  600
    model   detail
    closed

ring kerb
    outer  circle 2400
    inner  circle 1800
    at     0, 4500
    height 300

post column
    repeat   3 by 900, 0
    diameter 400
    at       2500, 5000
    height   1500
    model    detail

post bollard
    repeat   4 by 400, 0
    diameter 60
    at       0, 7000
    height   700

flat wall
    from      -3000, 7000 to 1000, 7000
    height    2400
    thickness 25
    opening   door at 600 size 800 x 2000
    opening   arch at 2200 size 900 x 2000
        arch  300

shape cloud
    outline   ellipse 2400 x 1200
    at        -3000, 4000
    thickness 18
`
