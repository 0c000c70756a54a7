package sheet

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
)

// part is an element of a set that is edited at random.
type part struct {
	name string
	kind int
	size int
	at   int
}

func (p part) text() string {
	x, y := 300*(p.at%20)-3000, 400+600*(p.at/20)
	switch p.kind {
	case 0:
		return fmt.Sprintf("platform %s\n    outline rect %d x 700\n    at %d, %d\n    height 450\n", p.name, 600+50*p.size, x, y)
	case 1:
		return fmt.Sprintf("platform %s\n    outline rect 900 x 600\n    at %d, %d\n    height %d\n", p.name, x, y, 300+50*p.size)
	case 2:
		return fmt.Sprintf("steps %s\n    starts %d, %d heading 90deg\n    risers %d\n    rise 150\n    going 300\n    width 800\n", p.name, x, y, 2+p.size)
	case 3:
		return fmt.Sprintf("flat %s\n    from %d, %d to %d, %d\n    height %d\n    thickness 25\n", p.name, x, y, x+1500, y, 1200+100*p.size)
	}
	return fmt.Sprintf("post %s\n    diameter 60\n    at %d, %d\n    height %d\n", p.name, x, y, 400+100*p.size)
}

func textOf(parts []part) string {
	var texts []string
	for _, p := range parts {
		texts = append(texts, p.text())
	}
	return setOf("A", texts...)
}

// edit changes a set: it reorders, renames, moves, resizes, adds or removes. It returns what was renamed, and whether any outline may
// have changed or gone.
func edit(r *rand.Rand, parts []part, next *int) (now []part, renamed map[string]string, shapes bool) {
	now, renamed = append([]part{}, parts...), map[string]string{}
	i := r.IntN(len(now))
	fresh := func() string { *next++; return fmt.Sprintf("part%03d", *next) }
	switch r.IntN(6) {
	case 0:
		r.Shuffle(len(now), func(i, k int) { now[i], now[k] = now[k], now[i] })
	case 1:
		name := fresh()
		renamed[name] = now[i].name
		now[i].name = name
	case 2:
		now[i].at = r.IntN(200)
	case 3:
		now[i].size = r.IntN(5)
		return now, renamed, true
	case 4:
		now = append(now, part{fresh(), r.IntN(5), r.IntN(5), r.IntN(200)})
		return now, renamed, true
	case 5:
		if len(now) > 3 {
			now = append(now[:i:i], now[i+1:]...)
		}
		return now, renamed, true
	}
	return now, renamed, false
}

// Whatever is edited, pieces lie apart and inside their sheets, what has kept its shape has kept its place and its number, numbers are
// given once, and an edit of no shape draws no sheet of card anew.
func TestRandomEditsKeepWhatIsUnchanged(t *testing.T) {
	for seed := range uint64(3) {
		r := rand.New(rand.NewPCG(seed, 7))
		next := 0
		parts := []part{{"first", 0, 1, 5}, {"second", 1, 2, 25}, {"third", 2, 2, 60}, {"fourth", 3, 1, 120}, {"fifth", 1, 2, 90}, {"sixth", 4, 1, 150}}
		was := kept(t, textOf(parts), nil)
		for step := range 12 {
			now, renamed, shapes := edit(r, parts, &next)
			c := kept(t, textOf(now), was)
			at := fmt.Sprintf("seed %d, step %d", seed, step)
			apart(t, c)
			before := map[string]int{} // by the label it would have now and its shape
			for i := range was.Model.Pieces {
				p := &was.Model.Pieces[i]
				before[plain(p.Label())+shapeOf(p, was.bed)] = i
			}
			here, there := lies(c), lies(was)
			labels := map[string]bool{}
			for i := range c.Model.Pieces {
				p := &c.Model.Pieces[i]
				require.False(t, labels[p.Label()], "%s: %s twice", at, p.Label())
				labels[p.Label()] = true
				then := plain(p.Label())
				if name := renamed[p.Element]; name != "" {
					then = strings.Replace(then, p.Element, name, 1)
				}
				if _, ok := before[then+shapeOf(p, c.bed)]; ok {
					require.Equal(t, there[then], here[plain(p.Label())], "%s: %s", at, p.Label())
				}
			}
			joints := map[string]bool{}
			for _, j := range c.Model.Joints {
				require.False(t, joints[j.Element+j.Label()], "%s: %s of %s twice", at, j.Label(), j.Element)
				joints[j.Element+j.Label()] = true
			}
			if len(renamed) == 0 {
				sameInk(t, was, c, at)
			}
			if !shapes {
				require.Equal(t, cardDigests(was), cardDigests(c), at)
			}
			was, parts = c, now
		}
	}
}

// sameInk checks that sheets of card with the same digest are drawn alike, furniture aside.
func sameInk(t *testing.T, was, now *CardModel, at string) {
	t.Helper()
	a, b := bookOf(t, was), bookOf(t, now)
	before := map[string]int{}
	for i, e := range a.Entries {
		before[e.Label] = i
	}
	for k, e := range b.Entries {
		i, ok := before[e.Label]
		if !ok || a.Entries[i].Digest != e.Digest || e.View != "model" {
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

// cardDigests are the digests of the sheets of card by their numbers.
func cardDigests(c *CardModel) map[int][32]byte {
	out := map[int][32]byte{}
	for i := range c.Sheets {
		out[c.Sheets[i].Number] = c.digest(i)
	}
	return out
}

// A record that was edited by hand into nonsense is refused in words, or its pieces are laid anew: none lies over another, none is
// lost, nothing panics.
func TestEditedNestsAreRefusedOrLaidAnew(t *testing.T) {
	was := kept(t, setOf("A", blocksOf(blockNames...)...), nil)
	text, err := json.Marshal(was.Record())
	require.NoError(t, err)
	changed := func(change func(r *Nests)) (*Nests, error) {
		var r Nests
		require.NoError(t, json.Unmarshal(text, &r))
		change(&r)
		out, err := json.Marshal(&r)
		require.NoError(t, err)
		return ParseNests(out)
	}
	for words, change := range map[string]func(r *Nests){
		"lies on the sheets twice": func(r *Nests) { r.Sheets[0].Pieces[1].Piece = r.Sheets[0].Pieces[0].Piece },
		"is no piece's label":      func(r *Nests) { r.Sheets[0].Pieces[0].Piece = "hut-7/5" },
		"has no shape":             func(r *Nests) { r.Sheets[0].Pieces[0].Shape = "abc" },
		"lies nowhere":             func(r *Nests) { r.Sheets[0].Pieces[0].At[0] = 1e12 },
		"stands after sheet":       func(r *Nests) { r.Sheets[0].Number = 0 },
		"cannot be the last":       func(r *Nests) { r.Last = -1 },
		"size or card that cannot": func(r *Nests) { r.Sheets[0].Thick = 0 },
		"margins or gap cannot be": func(r *Nests) { r.Gap = -1 },
		"stands twice":             func(r *Nests) { r.Elements[1].Element = r.Elements[0].Element },
		"two joints J":             func(r *Nests) { r.Elements[0].Copies[0].Joints[1][0] = r.Elements[0].Copies[0].Joints[0][0] },
		"the number -1":            func(r *Nests) { r.Elements[0].Copies[0].Joints[1][2] = -1 },
		"stand twice or under":     func(r *Nests) { r.Elements[0].Copies[0].Copy = "other" },
		"stands twice or nowhere":  func(r *Nests) { r.People[0].At[1] = -1e12 },
	} {
		_, err := changed(change)
		require.ErrorContains(t, err, words)
	}
	s := openText(t, setOf("A", blocksOf(blockNames...)...))
	for name, change := range map[string]func(r *Nests){
		"over another":    func(r *Nests) { r.Sheets[0].Pieces[0].At = r.Sheets[0].Pieces[1].At },
		"beyond the edge": func(r *Nests) { r.Sheets[0].Pieces[0].At[0] += 5000 },
		"turned":          func(r *Nests) { r.Sheets[0].Pieces[0].Turn = 33 },
		"other card":      func(r *Nests) { r.Sheets[0].Thick = 3 },
	} {
		r, err := changed(change)
		require.NoError(t, err)
		opt := onPaper(t, s, "A4", 10)
		opt.Since = r
		c := laidOut(t, s, develop.Options{}, opt)
		apart(t, c)
		require.Less(t, c.Kept, len(c.Model.Pieces), name)
		bookOf(t, c)
	}
	for _, none := range []string{"", "null"} {
		r, err := ParseNests([]byte(none))
		require.NoError(t, err)
		require.Nil(t, r)
	}
}

// What ParseNests accepts leaves pieces on their sheets apart from each other, each once, or takes their places from them.
func FuzzNests(f *testing.F) {
	text := setOf("A", blocksOf("hut", "crate", "mast")...)
	was := kept(f, text, nil)
	seed, err := json.Marshal(was.Record())
	require.NoError(f, err)
	f.Add(seed)
	f.Add([]byte("null"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := ParseNests(data)
		if err != nil || r == nil {
			return
		}
		c := &CardModel{Model: was.Model, set: was.set, opt: was.opt, bed: was.bed, holding: map[string]bool{}}
		k := match(c.Model, r, c.bed)
		c.Model = k.renumbered()
		c.index()
		lie := c.keep(k)
		count := 0
		for i := range c.Sheets {
			var regions []geom.Region
			for _, l := range c.Sheets[i].Places {
				require.True(t, lie[l.Piece])
				outline := c.Model.Pieces[l.Piece].Outline.Transform(l.move())
				require.True(t, c.Sheets[i].open(outline, regions))
				regions = append(regions, outline)
				count++
			}
		}
		require.Equal(t, c.Kept, count)
		labels := map[string]bool{}
		for i := range c.Model.Pieces {
			labels[c.Model.Pieces[i].Label()] = true
		}
		require.Len(t, labels, len(c.Model.Pieces))
	})
}
