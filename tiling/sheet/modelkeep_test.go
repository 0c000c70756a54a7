package sheet

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
)

// recorded is a model's record as a later issue reads it.
func recorded(t testing.TB, c *CardModel) *Nests {
	t.Helper()
	text, err := json.Marshal(c.Record())
	require.NoError(t, err)
	r, err := ParseNests(text)
	require.NoError(t, err)
	return r
}

// kept lays the model of a text that keeps what an earlier one has.
func kept(t testing.TB, text string, was *CardModel) *CardModel {
	t.Helper()
	s := openText(t, text)
	opt := onPaper(t, s, "A4", 10)
	if was != nil {
		opt.Since = recorded(t, was)
		s.Called = map[string]string{} // as two sets compared have it
		for _, n := range blockNames {
			s.Called[turnedName(n)], s.Called[longName(n)] = n, n
		}
	}
	return laidOut(t, s, develop.Options{}, opt)
}

// lie is where a piece lies: sheet, place, turn.
type lie struct {
	sheet int
	at    geom.Point
	turn  float64
}

// lies are where all pieces lie, by element and number: deck-3.
func lies(c *CardModel) map[string]lie {
	out := map[string]lie{}
	for i := range c.Sheets {
		for _, l := range c.Sheets[i].Places {
			out[plain(c.Model.Pieces[l.Piece].Label())] = lie{c.Sheets[i].Number, l.At, l.Turn}
		}
	}
	return out
}

// plain is a label without how many there are.
func plain(label string) string {
	l, _, _ := strings.Cut(label, "/")
	return l
}

// digestsOf are the digests of a model's pages by their labels.
func digestsOf(t testing.TB, c *CardModel) map[string][32]byte {
	t.Helper()
	out := map[string][32]byte{}
	for _, e := range bookOf(t, c).Entries {
		require.NotContains(t, out, e.Label)
		out[e.Label] = e.Digest
	}
	return out
}

// apart checks that pieces lie on their sheets, inside them and over none of the others.
func apart(t testing.TB, c *CardModel) {
	t.Helper()
	seen := map[int]bool{}
	for i := range c.Sheets {
		s := &c.Sheets[i]
		var regions []geom.Region
		for _, l := range s.Places {
			require.False(t, seen[l.Piece])
			seen[l.Piece] = true
			r := c.Model.Pieces[l.Piece].Outline.Transform(l.move())
			require.True(t, s.open(r, regions), "%s on sheet %d", c.Model.Pieces[l.Piece].Label(), s.Number)
			regions = append(regions, r)
		}
	}
	require.Len(t, seen, len(c.Model.Pieces))
}

// blocks are elements one by one, so that a text can be put together in any order.
var blocks = map[string]string{
	"hut":    "platform hut\n    outline rect 1200 x 800\n    at 1500, 1500\n    height 600\n",
	"jetty":  "platform jetty\n    outline rect 2000 x 900\n    at -1500, 1500\n    height 400\n",
	"flight": "steps flight\n    starts 0, 4000 heading 90deg\n    risers 4\n    rise 150\n    going 300\n    width 1000\n",
	"wall":   "flat wall\n    from -3000, 7000 to 1000, 7000\n    height 2400\n    thickness 25\n    opening door at 600 size 800 x 2000\n",
	"cloud":  "shape cloud\n    outline ellipse 2400 x 1200\n    at -3000, 4000\n    thickness 18\n",
	"crate":  "platform crate\n    repeat 3 by 700, 0\n    outline rect 500 x 400\n    at 2500, 3500\n    height 300\n",
	"mast":   "post mast\n    repeat 2 by 400, 0\n    diameter 60\n    at 3000, 6000\n    height 700\n",
}

var blockNames = []string{"hut", "jetty", "flight", "wall", "cloud", "crate", "mast"}

func turnedName(n string) string { return n[1:] + n[:1] }
func longName(n string) string   { return "old_" + n + "_of_the_quay" }

func setOf(letter string, parts ...string) string {
	return fmt.Sprintf("set \"Quay\"\n    issue %s 2026-11-20\n    units mm\n    scale 1:25\n    card 1.5\n\n", letter) + strings.Join(parts, "\n")
}

func blocksOf(names ...string) []string {
	var out []string
	for _, n := range names {
		out = append(out, blocks[n])
	}
	return out
}

// What is not changed is not drawn anew: an unchanged set, its lines in another order, elements called otherwise, and another letter
// leave every page of the model as it was.
func TestUnchangedPiecesKeepTheirSheets(t *testing.T) {
	text := setOf("A", blocksOf(blockNames...)...)
	was := kept(t, text, nil)
	before := digestsOf(t, was)
	turned := setOf("B", blocksOf("mast", "crate", "cloud", "wall", "flight", "jetty", "hut")...)
	called, long := turned, turned
	for _, n := range blockNames {
		called = strings.ReplaceAll(called, " "+n+"\n", " "+turnedName(n)+"\n")
		long = strings.ReplaceAll(long, " "+n+"\n", " "+longName(n)+"\n")
	}
	for name, now := range map[string]string{"the same": text, "another order": turned, "other names": called, "long names": long} {
		c := kept(t, now, was)
		require.Equal(t, len(c.Model.Pieces), c.Kept, name)
		for label, d := range digestsOf(t, c) {
			if name == "long names" && strings.HasPrefix(label, "joints") {
				continue // its columns are as wide as the names ask for, and rows go over to the next page
			}
			require.Equal(t, before[label], d, "%s: %s", name, label)
		}
		apart(t, c)
		require.False(t, c.outOfOrder())
	}
	again := kept(t, called, kept(t, called, was))
	require.Equal(t, lies(kept(t, called, was)), lies(again))
}

// One element that changes leaves all others where they were, and its own pieces of the same shape too; what has changed lies on
// added sheets, and what is gone has left a hole.
func TestAChangedElementLeavesOthersWhereTheyWere(t *testing.T) {
	was := kept(t, setOf("A", blocksOf(blockNames...)...), nil)
	before := lies(was)
	higher := strings.Replace(setOf("B", blocksOf(blockNames...)...), "height 600", "height 700", 1)
	c := kept(t, higher, was)
	apart(t, c)
	for label, l := range lies(c) {
		if strings.HasPrefix(label, "hut-") && label != "hut-1" { // its top is as it was, its walls are higher
			require.Greater(t, l.sheet, was.last, label)
			continue
		}
		require.Equal(t, before[label], l, label)
	}
	require.Len(t, lies(c), len(before))

	var without []string
	for _, n := range blockNames {
		if n != "wall" {
			without = append(without, n)
		}
	}
	gone := kept(t, setOf("B", blocksOf(without...)...), was)
	apart(t, gone)
	for label, l := range lies(gone) {
		require.Equal(t, before[label], l, label)
	}
	require.Equal(t, len(before)-1, len(lies(gone)))
	// The place is not given to what comes later, which has the number after all that there have been.
	back := kept(t, setOf("C", blocksOf(blockNames...)...), gone)
	require.Greater(t, lies(back)["wall-1"].sheet, was.last)
}

// A joint between the same pieces keeps its number when others come; new pieces and joints have the next.
func TestJointsKeepTheirNumbers(t *testing.T) {
	text := setOf("A", blocks["flight"])
	was := kept(t, text, nil)
	numbers := func(c *CardModel) map[string]string {
		out := map[string]string{}
		for _, j := range c.Model.Joints {
			a, b := &c.Model.Pieces[j.A.Piece], &c.Model.Pieces[j.B.Piece]
			key := plain(a.Label()) + " " + a.Name + " to " + plain(b.Label()) + " " + b.Name
			out[j.Element+" "+j.Label()] = key
		}
		require.Len(t, out, len(c.Model.Joints), "numbers are given once")
		return out
	}
	before := numbers(was)
	c := kept(t, strings.Replace(text, "risers 4", "risers 5", 1), was)
	after := numbers(c)
	same := 0
	for label, key := range after {
		if before[label] == key {
			same++
		}
	}
	require.Positive(t, c.Kept)
	require.Greater(t, same, len(before)/2)
	labels := map[string]bool{}
	for i := range c.Model.Pieces {
		p := &c.Model.Pieces[i]
		require.False(t, labels[p.Label()], p.Label())
		require.LessOrEqual(t, p.Number, p.Of)
		labels[p.Label()] = true
		for _, tab := range p.Tabs {
			if tab.Joint != 0 {
				require.Contains(t, after, fmt.Sprintf("%s J%d", p.Element, tab.Joint))
			}
		}
	}
}

// Another scale, paper, margin, gap or card nests anew; what is too different to be kept is not.
func TestOtherPaperNestsAnew(t *testing.T) {
	text := setOf("A", blocksOf(blockNames...)...)
	was := kept(t, text, nil)
	for name, change := range map[string]func(o *ModelOptions, d *develop.Options){
		"scale":   func(_ *ModelOptions, d *develop.Options) { d.Scale = 50 },
		"paper":   func(o *ModelOptions, _ *develop.Options) { o.Paper.W, o.Paper.H = 297, 420 },
		"margins": func(o *ModelOptions, _ *develop.Options) { o.Margins.Left += 3 },
		"gap":     func(o *ModelOptions, _ *develop.Options) { o.Gap = 3 },
		"card":    func(_ *ModelOptions, d *develop.Options) { d.Card = 2 },
		"board":   func(o *ModelOptions, _ *develop.Options) { o.Board = Board{Name: "600x400", W: 600, H: 400} },
		"turns":   func(o *ModelOptions, _ *develop.Options) { o.Turns = []float64{0} },
	} {
		s := openText(t, text)
		opt := onPaper(t, s, "A4", 10)
		opt.Since = recorded(t, was)
		dev := develop.Options{}
		change(&opt, &dev)
		c := laidOut(t, s, dev, opt)
		require.Zero(t, c.Kept, name)
		apart(t, c)
	}
}

// A roll keeps its lengths.
func TestARollKeepsItsLengths(t *testing.T) {
	s := sample(t, "crates")
	opt := onPaper(t, s, "A4", 10)
	opt.Board = Board{Name: "roll 1000", H: 1000, Roll: true}
	dev := develop.Options{Scale: 5, Card: 3}
	was := laidOut(t, s, dev, opt)
	opt.Since = recorded(t, was)
	c := laidOut(t, s, dev, opt)
	require.Equal(t, len(c.Model.Pieces), c.Kept)
	require.Equal(t, digestsOf(t, was), digestsOf(t, c))
}

// A page carries the letter and date at which its drawing last changed; a trial says TRIAL.
func TestCardSheetsCarryTheirLetter(t *testing.T) {
	large := func(letter string) string {
		return strings.Replace(setOf(letter, blocksOf(blockNames...)...), "1:25", "1:10", 1)
	}
	was := kept(t, large("A"), nil)
	before := digestsOf(t, was)
	stamps := func(label string, digest [32]byte) (string, string, bool) {
		return "A", "2026-11-20", before[label] == digest
	}
	text := strings.Replace(large("B"), "height 600", "height 700", 1)
	text = strings.Replace(text, "2026-11-20", "2026-12-01", 1)
	said := func(b *Book, i int) string {
		var words []string
		for _, x := range inked(pageOf(b, i)) {
			words = append(words, x.Text)
		}
		return strings.Join(words, " ")
	}
	for _, trial := range []bool{false, true} {
		s := openText(t, text)
		s.Trial = trial
		opt := onPaper(t, s, "A4", 10)
		opt.Since, opt.Stamps = recorded(t, was), stamps
		b := bookOf(t, laidOut(t, s, develop.Options{}, opt))
		letters := map[string]int{}
		for i, e := range b.Entries {
			if e.View != "model" {
				continue
			}
			letters[e.Letter]++
			switch {
			case trial:
				require.Empty(t, e.Letter)
				require.Contains(t, said(b, i), "TRIAL")
			case e.Letter == "A":
				require.Equal(t, before[e.Label], e.Digest)
				require.Contains(t, said(b, i), "issue A  2026-11-20")
			default:
				require.Contains(t, said(b, i), "issue B  2026-12-01")
			}
		}
		if !trial {
			require.Positive(t, letters["A"])
			require.Positive(t, letters[""])
		}
	}
}
