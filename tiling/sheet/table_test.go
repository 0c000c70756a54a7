package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/lettering"
	"markout/layout/setout"
	"markout/layout/table"
	"markout/tiling"
)

// Every point of the kiosk stands on the pages once, in the order of the table, with letters and without a minus sign.
func TestTapeTableOnPaper(t *testing.T) {
	s := kiosk()
	tape := setout.Lay(s).Table()
	for _, paper := range []string{"A3", "A4", "Letter"} {
		frames, err := framesOf(filed(paper))
		require.NoError(t, err)
		l, err := layTable(tape, false, frames)
		require.NoError(t, err)
		next := 0
		for i, pg := range l.pages {
			require.Equal(t, next, pg.from)
			next = pg.to
			var p tiling.Page
			p.Reset()
			l.draw(&p, i)
			var ticks int
			for _, k := range p.Layers[drawing.Notes].Strokes {
				for _, r := range k.Runs {
					if r.Closed && len(r.Points) == 4 {
						ticks++
					}
				}
			}
			require.Equal(t, pg.to-pg.from, ticks, "a box to tick before each row")
			all := ""
			for _, x := range p.Layers[drawing.Notes].Texts {
				require.False(t, strings.HasPrefix(x.Text, "-") || strings.HasPrefix(x.Text, "−"), x.Text)
				all += strings.ReplaceAll(x.Text, "\u00a0", " ") + "\n"
			}
			for r := pg.from; r < pg.to; r++ {
				for _, c := range []int{2, 7, 9} { // distances and the place across, as the table has them
					f := tape.Figure(tape.Columns[c], tape.Rows[r][c])
					require.Contains(t, all, f.Whole+f.Part+"\n")
				}
			}
		}
		require.Equal(t, len(tape.Rows), next)
		require.GreaterOrEqual(t, l.height, 2.5, paper)
	}
}

func TestFiguresAreAlignedOnTheirUnit(t *testing.T) {
	tape := setout.Lay(kiosk()).Table()
	frames, err := framesOf(filed("A3"))
	require.NoError(t, err)
	l, err := layTable(tape, false, frames)
	require.NoError(t, err)
	require.InDelta(t, 3.5, l.height, 0, "figures are 3.5 mm high on A3")
	var p tiling.Page
	p.Reset()
	l.draw(&p, 0)
	c := tape.Columns[7]
	units := map[string]bool{}
	for r := l.pages[0].from; r < l.pages[0].to; r++ {
		f := tape.Figure(c, tape.Rows[r][7])
		for _, x := range p.Layers[drawing.Notes].Texts {
			if x.Text == f.Whole+f.Part && x.Height == l.height {
				units[fmt.Sprintf("%.3f", x.At.X+lettering.Width(f.Whole, x.Height, false))] = true
			}
		}
	}
	// The second distances repeat figures of the first: two columns, two units.
	require.LessOrEqual(t, len(units), 2)
}

// A table of long sentences takes the width that it has, and each row the height that it needs.
func TestSentencesWrap(t *testing.T) {
	long := strings.Repeat("a sentence of some length that goes on ", 20)
	tb := &table.Table{Name: "cautions", Title: "Cautions", Columns: []table.Column{{Name: "a", Heading: "A"}, {Name: "b", Heading: "B"}},
		Rows: [][]table.Value{{table.T("short"), table.T(long)}, {table.T("short"), table.T("x")}}}
	frames, err := framesOf(filed("A4"))
	require.NoError(t, err)
	l, err := layTable(tb, true, frames)
	require.NoError(t, err)
	require.Len(t, l.pages, 1)
	require.Greater(t, l.lines(0), 4)
	require.Equal(t, 1, l.lines(1))
}

// Twenty thousand rows are cut into pages without loss.
func TestLongTable(t *testing.T) {
	tb := &table.Table{Name: "floor", Title: "Points", Columns: []table.Column{{Name: "element", Heading: "Element"}, {Name: "x_mm", Heading: "From centre line", Kind: table.X, Decimals: 1}},
		Sides: table.Sides{Plus: "L", Minus: "R"}}
	for i := range 20000 {
		tb.Rows = append(tb.Rows, []table.Value{table.T(fmt.Sprintf("post.%d", i+1)), table.N(float64(i) - 1e4)})
	}
	frames, err := framesOf(filed("A4"))
	require.NoError(t, err)
	l, err := layTable(tb, false, frames)
	require.NoError(t, err)
	next := 0
	for _, p := range l.pages {
		require.Equal(t, next, p.from)
		next = p.to
	}
	require.Equal(t, 20000, next)
}
