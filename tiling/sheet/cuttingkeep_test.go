package sheet

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/tiling/cut"
	"markout/tiling/paper"
)

// recordedCuts is a plan's record as a later issue reads it.
func recordedCuts(t testing.TB, c *Cutting) *Cuts {
	t.Helper()
	text, err := json.Marshal(c.Record())
	require.NoError(t, err)
	r, err := ParseCuts(text)
	require.NoError(t, err)
	return r
}

// keptCuts lays a set that keeps what an earlier plan has.
func keptCuts(t testing.TB, s *set.Set, was *Cutting) *Cutting {
	t.Helper()
	opt := CuttingOptions{Effort: cut.Quick}
	if was != nil {
		opt.Since, opt.Free = recordedCuts(t, was), was.opt.Free
	}
	c := laid(t, s, opt)
	sound(t, c)
	return c
}

func onA3(t testing.TB) Options {
	t.Helper()
	a3, err := paper.Parse("A3")
	require.NoError(t, err)
	return Options{Paper: a3, Margins: paper.Margins{Left: 20, Right: 10, Bottom: 10, Top: 10}}
}

func a3Frames(t testing.TB) []frame {
	t.Helper()
	frames, err := framesOf(onA3(t))
	require.NoError(t, err)
	return frames
}

// cutDigests are the digests of the sheets of boards and bars by their labels.
func cutDigests(t testing.TB, c *Cutting) map[string][32]byte {
	t.Helper()
	book, err := c.Book(nil, onA3(t))
	require.NoError(t, err)
	out := map[string][32]byte{}
	for _, e := range book.Entries {
		if e.View == "cutting" {
			require.NotContains(t, out, e.Label)
			out[e.Label] = e.Digest
		}
	}
	return out
}

// holding are the labels of the sheets on which pieces of an element lie.
func holding(t testing.TB, c *Cutting, element string) map[string]bool {
	t.Helper()
	book, err := c.Book(nil, onA3(t))
	require.NoError(t, err)
	out := map[string]bool{}
	for _, e := range book.Entries {
		if e.View == "cutting" && slices.Contains(strings.Split(e.Element, ","), element) {
			label, _, _ := strings.Cut(e.Label, " list")
			out[label] = true
		}
	}
	return out
}

// carpentry are parts that are edited at random, and a ground row.
type carpentry struct {
	parts []set.Part
	row   float64
	next  int
}

func (k *carpentry) set() *set.Set {
	s := joinery(slices.Clone(k.parts)...)
	s.Boards[0].Count, s.Lengths[0].Count = 0, 0 // what is in hand would be others where a board is gone
	if k.row > 0 {
		s.Elements = []*set.Element{{Name: "row", Kind: "shape", Copies: at(0, 0, 0, 0), Material: "ply 18", Shape: &set.Panel{
			Outline: outline(geom.Polygon([]geom.Point{{}, {X: k.row}, {X: 900, Y: 600}, {Y: 200}}), "points")}}}
	}
	return s
}

func (k *carpentry) fresh(r *rand.Rand) set.Part {
	k.next++
	p := set.Part{Name: fmt.Sprintf("p%d", k.next), Count: 1 + r.IntN(4)}
	size := func(n int) float64 { return float64(100 + 50*r.IntN(n)) }
	switch r.IntN(5) {
	case 0, 1:
		p.Of, p.Length = "batten 44", size(60)
	case 2:
		p.Of, p.Length, p.Width = "foam", size(20), size(20)
	default:
		p.Of, p.Length, p.Width = "ply 18", size(20), size(20)
		p.Grain = [...]set.Grain{set.GrainFree, set.GrainAlong, set.GrainAcross}[r.IntN(3)]
	}
	return p
}

// edit changes one thing. It returns whose pieces may have gone or come, empty for none.
func (k *carpentry) edit(r *rand.Rand) (touched string) {
	i := r.IntN(len(k.parts))
	p := &k.parts[i]
	switch r.IntN(8) {
	case 0:
		r.Shuffle(len(k.parts), func(i, j int) { k.parts[i], k.parts[j] = k.parts[j], k.parts[i] })
	case 1:
		k.next++
		p.Name = fmt.Sprintf("p%d", k.next)
	case 2:
		p.Length += 30
		return p.Name
	case 3:
		p.Count++
		return p.Name
	case 4:
		p.Count = max(1, p.Count-1)
		return p.Name
	case 5:
		k.parts = append(k.parts, k.fresh(r))
		return k.parts[len(k.parts)-1].Name
	case 6:
		if name := p.Name; len(k.parts) > 4 {
			k.parts = slices.Delete(k.parts, i, i+1)
			return name
		}
	case 7:
		if k.row > 0 {
			k.row = float64(1000 + 100*r.IntN(12))
			return "row"
		}
	}
	return ""
}

// Whatever is edited, every piece is laid once, on its board, the saw's width from its neighbours; sheets on which no piece has changed
// are as they were; numbers of items, boards and bars are never given again.
func TestRandomEditsKeepBoardsAndBars(t *testing.T) {
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(seed, 21))
		k := &carpentry{row: 2000 * float64(seed%2)}
		for range 14 {
			k.parts = append(k.parts, k.fresh(r))
		}
		was := keptCuts(t, k.set(), nil)
		shapes := map[int]string{}
		for step := range 14 {
			at := fmt.Sprintf("seed %d, step %d", seed, step)
			before := cutDigests(t, was)
			touched := k.edit(r)
			c := keptCuts(t, k.set(), was)
			now := cutDigests(t, c)
			if touched == "" {
				require.Equal(t, before, now, at)
			}
			gone := holding(t, was, touched)
			come := holding(t, c, touched)
			for _, s := range c.layBars(a3Frames(t)) { // a bar cut otherwise than those it was shown with stands in the next free place
				for _, k := range s.strips {
					if k.bar.strip >= was.strips {
						come[fmt.Sprintf("bars %d", s.number)] = true
					}
				}
			}
			for label, d := range before {
				board, _, _ := strings.Cut(label, " list")
				if !gone[board] && !come[board] {
					require.Equal(t, d, now[label], "%s, %s edited: %s", at, touched, label)
				}
			}
			for i := range was.Taken.Pieces {
				p := &was.Taken.Pieces[i]
				shapes[p.Item] = was.material(p) + cutShape(p)
			}
			if touched != "" { // names are not in a digest
				sameCutInk(t, was, c, at)
			}
			lists := c.pages()
			for n, l := range was.pages() {
				if l != nil && n < len(lists)-1 && lists[n] != nil && !mentions(l, touched) && !mentions(lists[n], touched) && touched != "" {
					require.Equal(t, l.Rows, lists[n].Rows, "%s: list %d", at, n+1)
				}
			}
			items := map[int]bool{}
			for i := range c.Taken.Pieces {
				p := &c.Taken.Pieces[i]
				require.False(t, items[p.Item], at)
				items[p.Item] = true
				if shape, ok := shapes[p.Item]; ok {
					require.Equal(t, shape, c.material(p)+cutShape(p), "%s: item %d", at, p.Item)
				}
			}
			numbers := func(c *Cutting) map[string]bool {
				out := map[string]bool{}
				for _, b := range c.Boards {
					out[from(c.set.Boards[b.Board].Name, b.Number)] = true
				}
				for _, b := range c.Bars {
					out[from(c.set.Lengths[b.Bar].Name, b.Number)] = true
				}
				require.Len(t, out, len(c.Boards)+len(c.Bars), at)
				return out
			}
			had := numbers(was)
			for i := range c.Boards {
				if b := &c.Boards[i]; !had[from(c.set.Boards[b.Board].Name, b.Number)] {
					require.Greater(t, b.Number, was.boards[b.Board].last, at)
				}
			}
			for i := range c.Bars {
				if b := &c.Bars[i]; !had[from(c.set.Lengths[b.Bar].Name, b.Number)] {
					require.Greater(t, b.Number, was.bars[b.Bar].last, at)
				}
			}
			was = c
		}
	}
}

// mentions reports whether a list has a row of an element.
func mentions(l *table.Table, element string) bool {
	return slices.ContainsFunc(l.Rows, func(r []table.Value) bool { return r[1].Text == element })
}

// sameCutInk checks that sheets of boards and bars with the same digest are drawn alike, furniture aside.
func sameCutInk(t *testing.T, was, now *Cutting, at string) {
	t.Helper()
	a, err := was.Book(nil, onA3(t))
	require.NoError(t, err)
	b, err := now.Book(nil, onA3(t))
	require.NoError(t, err)
	before := map[string]int{}
	for i, e := range a.Entries {
		before[e.Label] = i
	}
	for k, e := range b.Entries {
		i, ok := before[e.Label]
		if !ok || a.Entries[i].Digest != e.Digest {
			continue
		}
		p, q := pageOf(a, i), pageOf(b, k)
		for l := range p.Layers {
			if drawing.Layer(l) != drawing.Furniture {
				require.Equal(t, p.Layers[l], q.Layers[l], "%s: %s, layer %d", at, e.Label, l)
			}
		}
	}
}
