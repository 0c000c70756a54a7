package grid_test

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/reread"
	"markout/tiling"
	"markout/tiling/grid"
)

// earlier is a plan as an issue remembers it: its record, by way of JSON, and the letter of each of its pages.
func earlier(t testing.TB, opt grid.Options, p *grid.Plan, letter string) grid.Options {
	text, err := json.Marshal(p.Grids())
	require.NoError(t, err)
	opt.Since = nil
	require.NoError(t, json.Unmarshal(text, &opt.Since))
	letters := map[[32]byte]string{}
	for _, e := range p.Entries() {
		letters[e.Digest] = letter
		if e.Letter != "" {
			letters[e.Digest] = e.Letter
		}
	}
	opt.Stamps = func(_ string, sum [32]byte) (string, string, bool) {
		l, ok := letters[sum]
		return l, "2026-11-20", ok
	}
	return opt
}

// boxes is a floor with a box at each of some places.
func boxes(at ...geom.Point) *drawing.Drawing {
	s := newFloor()
	for i, p := range at {
		o := s.own("box" + strconv.Itoa(i+1))
		s.cut(o, geom.Rectangle(300, 200).Transform(geom.Move(p, 0)))
		s.word(o, drawing.Name, p, "box"+strconv.Itoa(i+1))
	}
	return s.Drawing
}

// drawn is all that pages draw but their furniture, by label.
func drawn(t testing.TB, p *grid.Plan) map[string]*tiling.Page {
	doc := p.Document()
	out := map[string]*tiling.Page{}
	first := doc.Pages - p.Count()
	for i := range p.Count() {
		page := &tiling.Page{}
		page.Reset()
		doc.Make(first+i, page)
		page.Layers[drawing.Furniture] = tiling.Content{}
		out[page.Label] = page
	}
	return out
}

// held requires that a page of the later plan is one of the earlier one wherever digests are equal, to the last line of what it is
// laid by, and that its label is the same.
func held(t testing.TB, was, is *grid.Plan) (kept int) {
	before := map[[32]byte]string{}
	for _, e := range was.Entries() {
		before[e.Digest] = e.Label
	}
	a, b := drawn(t, was), drawn(t, is)
	labels := map[string]bool{}
	for _, e := range is.Entries() {
		require.False(t, labels[e.Label], e.Label)
		labels[e.Label] = true
		old, ok := before[e.Digest]
		if !ok {
			continue
		}
		kept++
		require.Equal(t, old, e.Label)
		for l := range a[old].Layers {
			require.Equal(t, strip(a[old].Layers[l]), strip(b[e.Label].Layers[l]), "%s, layer %d", e.Label, l)
		}
	}
	return kept
}

// strip gives a layer's content without the memory that it was made in, shared forms by what they hold.
func strip(c tiling.Content) string {
	text, err := json.Marshal(c)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

func TestKeptGrid(t *testing.T) {
	at := []geom.Point{pt(0, 0), pt(500, 0), pt(0, 600), pt(900, 900)}
	for _, name := range []string{"A4", "A3", "roll 610"} {
		for _, lap := range []float64{10, 0} {
			opt := options(t, name)
			opt.Lap = lap
			a := build(t, info, opt, boxes(at...))
			same := build(t, info, earlier(t, opt, a, "A"), boxes(at...))
			require.Equal(t, a.Count(), held(t, a, same), name)
			for _, e := range same.Entries() {
				require.Equal(t, [2]string{"A", "2026-11-20"}, [2]string{e.Letter, e.Date})
			}
			require.Equal(t, a.Grids(), same.Grids())
			// More to the left, below, to the right and above; the untouched pages are as they were.
			for _, more := range []geom.Point{pt(-1500, 0), pt(0, -1700), pt(2600, 300), pt(400, 2700), pt(-4000, -4000)} {
				b := build(t, info, earlier(t, opt, a, "A"), boxes(append(at, more)...))
				require.Equal(t, a.Count(), held(t, a, b), "%s %v", name, more)
				require.Greater(t, b.Count(), a.Count())
				back := build(t, info, earlier(t, opt, b, "B"), boxes(at...))
				require.Equal(t, a.Count(), held(t, a, back))
			}
		}
	}
}

// A column whose pages are withdrawn keeps its letter: another one to its left or right never has it.
func TestNamesAreNotUsedAgain(t *testing.T) {
	opt := options(t, "A4")
	a := build(t, info, opt, boxes(pt(0, 0), pt(600, 0)))
	b := build(t, info, earlier(t, opt, a, "A"), boxes(pt(0, 0)))
	c := build(t, info, earlier(t, opt, b, "B"), boxes(pt(0, 0), pt(-700, 0)))
	d := build(t, info, earlier(t, opt, c, "C"), boxes(pt(0, 0), pt(-700, 0), pt(600, 0)))
	labels := func(p *grid.Plan) (out []string) {
		for _, e := range p.Entries() {
			out = append(out, strings.TrimPrefix(e.Label, "floor "))
		}
		return out
	}
	gone := map[string]bool{}
	for _, l := range labels(a) {
		gone[l] = true
	}
	for _, l := range labels(b) {
		delete(gone, l)
	}
	for _, l := range labels(c) {
		require.False(t, gone[l], "%s was withdrawn and is another page now", l)
	}
	require.Equal(t, held(t, a, d), a.Count()) // what comes back where it was is the page that it was
}

// A face whose piece has another name keeps its grid; other paper is laid anew.
func TestRenamedFaceKeepsItsGrid(t *testing.T) {
	opt := options(t, "A4")
	a := build(t, info, opt, wall(0.5), boxes(pt(0, 0)))
	other := wall(0.5)
	other.Name, other.Title, other.Owners[0] = "partition", "partition, face", "partition"
	b := build(t, info, earlier(t, opt, a, "A"), other, boxes(pt(0, 0)))
	require.Equal(t, a.Grids()[0].Origin, b.Grids()[0].Origin)
	for _, e := range b.Entries() {
		require.Equal(t, "A", e.Letter, e.Label)
	}
	a3 := earlier(t, options(t, "A3"), a, "A")
	require.Equal(t, build(t, info, options(t, "A3"), wall(0.5)).Grids(), build(t, info, a3, wall(0.5)).Grids())
}

// One ring moved: pages whose windows neither its old nor its new line comes near are as they were, all others are not.
func TestOneRingMoved(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 11))
	for i := range 16 {
		d := rings(6, 4, 24)
		opt := options(t, []string{"A4", "A3", "A3", "roll 914"}[i%4])
		opt.Lap = []float64{10, 0, 3, 10, 25}[i%5]
		a := build(t, info, opt, d)
		n := rng.IntN(len(d.Strokes))
		moved := *d
		moved.Strokes = append([]drawing.Stroke{}, d.Strokes...)
		by := pt(float64(rng.IntN(4000)-2000), float64(rng.IntN(4000)-2000))
		moved.Strokes[n].Path = d.Strokes[n].Path.Transform(geom.Move(by, 0))
		b := build(t, info, earlier(t, opt, a, "A"), &moved)
		require.Positive(t, held(t, a, b))
		touched := func(win geom.Rect) bool {
			for _, s := range []drawing.Stroke{d.Strokes[n], moved.Strokes[n]} {
				for _, g := range s.Path.Segments() {
					if _, _, ok := tiling.ClipSegment(g.From, g.To, win); ok {
						return true
					}
				}
			}
			return false
		}
		before := map[[32]byte]bool{}
		for _, e := range a.Entries() {
			before[e.Digest] = true
		}
		for _, e := range b.Entries() {
			win := geom.Rect{Min: pt(e.Origin[0], e.Origin[1]), Max: pt(e.Origin[0]+e.Size[0], e.Origin[1]+e.Size[1])}
			if near, on := touched(win.Grow(drawing.WideLine)), touched(win.Grow(-drawing.WideLine)); near == on {
				require.Equal(t, !near, before[e.Digest], e.Label)
			}
		}
	}
}

// Two pieces that change names with one another, and one that is renamed beside them, print nothing anew; nor does a longer name move
// anything that a page is laid by.
func TestNamesPrintNothing(t *testing.T) {
	face := func(name string, k float64) *drawing.Drawing {
		d := wall(k)
		d.Name, d.Title, d.Owners[0] = name, name+", face", name
		d.Texts = append(d.Texts, drawing.Text{Mark: drawing.Mark{Layer: drawing.Notes, Role: drawing.Name}, At: pt(700*k, 300*k), Height: 7, Text: name})
		return d
	}
	for _, name := range []string{"A4", "roll 610"} {
		opt := options(t, name)
		a := build(t, info, opt, face("port", 0.5), face("starboard", 0.4), face("stern", 0.3))
		b := build(t, info, earlier(t, opt, a, "A"), face("starboard", 0.5), face("port", 0.4), face("a_very_long_name_of_a_stern", 0.3))
		require.Equal(t, a.Count(), b.Count())
		before := map[[32]byte]string{}
		for _, e := range a.Entries() {
			before[e.Digest] = e.Label
		}
		was, is := drawn(t, a), drawn(t, b)
		for _, e := range b.Entries() {
			require.Equal(t, "A", e.Letter)
			require.Contains(t, before, e.Digest)
			old := was[before[e.Digest]]
			for l := range old.Layers {
				require.Equal(t, strip(old.Layers[l]), strip(is[e.Label].Layers[l]), "%s, layer %d", e.Label, l)
			}
		}
	}
}

// A grid keeps what its labels begin with when another view of its piece comes.
func TestLabelsStay(t *testing.T) {
	side := wall(0.3)
	side.View, side.Title = "side", "wall, side"
	opt := options(t, "A4")
	a := build(t, info, opt, side)
	require.Equal(t, "wall 1A", a.Entries()[0].Label)
	b := build(t, info, earlier(t, opt, a, "A"), wall(0.4), side)
	require.Equal(t, a.Count(), held(t, a, b))
	require.Equal(t, []string{"wall face", "wall"}, []string{b.Grids()[0].Label, b.Grids()[1].Label})
}

// The same set again, with the letter and date of the issue before, is the same to the last byte.
func TestSameSetSameBytes(t *testing.T) {
	for _, name := range []string{"A4", "A3", "roll 914"} {
		for _, lap := range []float64{10, 0} {
			opt := options(t, name)
			opt.Lap = lap
			a := build(t, careful(), opt, quay(t, 0.4), wall(0.3))
			b := build(t, careful(), earlier(t, opt, a, info.Letter), quay(t, 0.4), wall(0.3))
			require.Equal(t, a.Grids(), b.Grids())
			require.True(t, bytes.Equal(write(t, a), write(t, b)), "%s %v", name, lap)
		}
	}
}

// The cover says in which order columns lie, and that pages which are kept have no marks for neighbours they did not have.
func TestCoverOfKeptGrid(t *testing.T) {
	reread.Need(t, "pdftotext")
	opt := options(t, "A4")
	a := build(t, info, opt, slabs(slab(0, 0, 500, 500)))
	in := info
	in.Letter, in.Date = "C", "2026-12-01"
	b := build(t, in, earlier(t, opt, a, "A"), slabs(slab(0, 0, 500, 500), slab(-500, 0, -60, 300)))
	file := reread.Write(t, "kept.pdf", write(t, b))
	cover := strings.Join(strings.Fields(reread.Text(t, file, 1)), " ")
	require.Contains(t, cover, "columns F to D, A to C")
	require.Contains(t, cover, "A page that is kept from an earlier")
	for _, e := range b.Entries() {
		text := reread.Text(t, file, e.Page)
		if e.Letter == "A" {
			require.Contains(t, text, "issue A")
			require.NotContains(t, text, "issue C")
		} else {
			require.Contains(t, text, "issue C")
		}
	}
	in.Trial = true
	for _, e := range build(t, in, earlier(t, opt, a, "A"), slabs(slab(0, 0, 500, 500))).Entries() {
		require.Empty(t, e.Letter+e.Date)
	}
}
