package sheet

import (
	"math"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/render/reread"
	"markout/tiling"
)

// bookOf makes the document of a model.
func bookOf(t testing.TB, c *CardModel) *Book {
	t.Helper()
	b, err := c.Book()
	require.NoError(t, err)
	return b
}

// cutLines are the lines of the layer cut on a page as MuPDF reads it, closed ones, with their boxes.
func cutLines(p reread.Page) []reread.Sub {
	var out []reread.Sub
	for _, path := range p.Paths {
		if path.Layer == "cut" && !path.Filled {
			out = append(out, path.Subs...)
		}
	}
	return out
}

func sideLengths(s reread.Sub) []float64 {
	out := make([]float64, len(s.Points))
	for i, p := range s.Points {
		q := s.Points[(i+1)%len(s.Points)]
		out[i] = math.Hypot(q.X-p.X, q.Y-p.Y)
	}
	return out
}

// Three nets measured again out of the PDF with another program: the deck's top is 4800/25 = 192.0 across flats, with sides of
// 1988.2/25; the ramp's slope is as long as its section says, √(3600² + 450²)/25; and a bollard's rod is Ø60/25 = 2.4, its hole on
// the base sheet as far from its neighbour's as the ring says, 2174.1/25.
func TestNetsMeasureTrueOnPaper(t *testing.T) {
	reread.Need(t, "mutool")
	s := sample(t, "kiosk")
	c := laidOut(t, s, develop.Options{}, onPaper(t, s, "A4", 4))
	book := bookOf(t, c)
	pages := reread.Trace(t, written(t, book), "1-N")
	const near = 0.05
	var deck, slope []reread.Sub
	var holes []geom.Point
	bars := 0
	for i, p := range pages {
		for _, sub := range cutLines(p) {
			l := sideLengths(sub)
			b := geom.EmptyRect()
			for _, q := range sub.Points {
				b = b.Include(geom.Point(q))
			}
			switch {
			case len(l) == 8 && math.Abs(l[0]-1988.2/25) < near:
				deck = append(deck, sub)
				require.InDelta(t, 192, b.W(), near)
				require.InDelta(t, 192, b.H(), near)
				for _, x := range l {
					require.InDelta(t, 79.529, x, near)
				}
			case len(l) == 4 && math.Abs(max(b.W(), b.H())-math.Hypot(3600, 450)/25) < near:
				slope = append(slope, sub)
				require.InDelta(t, 1200.0/25, min(b.W(), b.H()), near)
			case len(l) > 8 && math.Abs(b.W()-2.4) < near && math.Abs(b.H()-2.4) < near:
				holes = append(holes, b.Mid())
			}
		}
		if book.Entries[i].View != "model" {
			continue
		}
		for _, path := range p.Paths { // check bars: 100 mm, level and upright, on every sheet of card
			for _, sub := range path.Subs {
				if path.Layer == "registration" && len(sub.Points) == 2 {
					if l := sideLengths(sub)[0]; math.Abs(l-100) < 0.01 {
						bars++
					}
				}
			}
		}
	}
	require.Len(t, deck, 1)
	require.Len(t, slope, 1)
	require.Equal(t, 2*len(c.Sheets), bars)
	neighbours := 0
	for i, a := range holes {
		for _, b := range holes[:i] {
			if math.Abs(a.Dist(b)-2174.1/25) < near {
				neighbours++
			}
		}
	}
	require.Greater(t, neighbours, 3)

	rods := c.rodList()
	require.Len(t, rods.Rows, 2)
	require.Equal(t, "bollard", rods.Rows[1][0].Text)
	require.InDelta(t, 12, rods.Rows[1][1].X, 0)
	require.InDelta(t, 2.4, rods.Rows[1][3].X, 1e-9)
	require.InDelta(t, 28, rods.Rows[1][4].X, 1e-9) // 700/25
}

// Every page of a model says its scale and where it belongs, and the cover what it must.
func TestModelBookSaysWhatItMust(t *testing.T) {
	s := sample(t, "kiosk")
	c := laidOut(t, s, develop.Options{}, onPaper(t, s, "A4", 10))
	b := bookOf(t, c)
	require.Equal(t, "cover", b.Entries[0].View)
	views := map[string]int{}
	based, cover := "", ""
	for i, e := range b.Entries {
		require.Equal(t, i+1, e.Page)
		require.Len(t, e.Mark, 4)
		views[e.View]++
		var words []string
		for _, x := range inked(pageOf(b, i)) {
			words = append(words, x.Text)
		}
		said := strings.Join(words, " ")
		switch e.View {
		case "model":
			require.Equal(t, "1:25", e.Scale)
			for _, w := range []string{"SCALE 1:25", "CARD " + strings.TrimPrefix(e.Title, "Card model, "), "drawn opposite-handed", "issue B", e.Label, e.Mark, "check: 100 mm"} {
				require.Contains(t, said, w)
			}
		case "base":
			require.Equal(t, "1:25", e.Scale)
			require.Contains(t, said, "SCALE 1:25")
			based += said
		case "cover":
			cover += said + " "
		}
	}
	for _, w := range []string{"deck", "up 18 mm (450)", "bollard.12", "man 1755", "seated man 1348", "centre line", "setting line"} {
		require.Contains(t, based, w)
	}
	for _, w := range []string{"Card wall 1.5 mm: 2 sheets of A4 portrait.", "deck divided to fit the sheet (--paper A3 keeps all whole)",
		"Ø2.4 mm", "steel rule", "Blades cut hands", "licensed person"} {
		require.Contains(t, cover, w)
	}
	require.Equal(t, len(c.Sheets), views["model"])
	require.Positive(t, views["base"])
	require.Positive(t, views["table"])
}

// Mock-ups of board defer to who may saw, and say what is heavy or not weighed.
func TestMockUpCautions(t *testing.T) {
	c := models(t)["kiosk mock-up"]
	words := strings.Join(c.cautions(), " ")
	for _, w := range []string{"trained operators", "HSE L114", "not weighed", "25 kg", "licensed person"} {
		require.Contains(t, words, w)
	}
	require.Contains(t, strings.Join(c.inOrder(), " "), "markout floor")
}

// A sheet's digest is of what is drawn: the names of the set and its pieces are not in it, the card's thickness and the side
// that is printed on are. The same input gives the same bytes, whoever does the work.
func TestModelDigests(t *testing.T) {
	text := folded
	digests := func(text string, dev develop.Options) (out [][32]byte) {
		s := openText(t, text)
		b := bookOf(t, laidOut(t, s, dev, onPaper(t, s, "A4", 10)))
		for _, e := range b.Entries {
			if e.View == "model" {
				out = append(out, e.Digest)
			}
		}
		return out
	}
	was := digests(text, develop.Options{})
	require.Equal(t, was, digests(strings.ReplaceAll(strings.ReplaceAll(text, "Odd things", "Old things"), "Low Tide", "High Tide"), develop.Options{}))
	require.NotEqual(t, was, digests(strings.Replace(text, "wall 1.5", "wall 1.6", 1), develop.Options{}))
	require.NotEqual(t, was, digests(text, develop.Options{PrintOutside: true}))

	bytes := func() string {
		s := openText(t, text)
		data, err := os.ReadFile(written(t, bookOf(t, laidOut(t, s, develop.Options{}, onPaper(t, s, "A4", 10)))))
		require.NoError(t, err)
		return string(data)
	}
	first := bytes()
	procs := runtime.GOMAXPROCS(1)
	one := bytes()
	runtime.GOMAXPROCS(procs)
	require.True(t, first == one, "the bytes depend on the number of workers")
}

// Pages are the paper's, boards and lengths of a roll their own size.
func TestModelPageSizes(t *testing.T) {
	for name, c := range models(t) {
		for i := range c.Sheets {
			s := &c.Sheets[i]
			switch {
			case c.opt.Board.Roll:
				require.InDelta(t, 1000, s.Size.H, 1e-9, name)
				require.Less(t, s.Size.W, 5000.0, name)
				require.InDelta(t, s.Used, s.Size.W, 1e-9)
			case c.opt.Board.H > 0:
				require.Equal(t, tiling.Size{W: 2440, H: 1220}, s.Size, name)
			default:
				require.Equal(t, tiling.Size{W: c.opt.Paper.W, H: c.opt.Paper.H}, s.Size, name)
			}
		}
	}
}
