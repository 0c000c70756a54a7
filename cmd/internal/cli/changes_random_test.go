package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/drawing"
	"markout/render/issue"
	"markout/render/pdf"
	"markout/tiling"
)

// statement is one element of a random set, with the numbers that an edit changes.
type statement struct {
	name, kind string
	x, y       int
	w, d, h    int
	note       string
}

func (s statement) text() string {
	head := fmt.Sprintf("%s %s\n    at %d, %d\n", s.kind, s.name, s.x, s.y)
	body := ""
	switch s.kind {
	case "platform":
		body = fmt.Sprintf("    outline rect %d x %d\n    height %d\n    deck 18\n    of \"ply 18\"\n    full-size floor\n", s.w, s.d, s.h)
	case "post":
		body = fmt.Sprintf("    diameter %d\n    height %d\n    full-size floor\n", 60+s.w/20, s.h)
	case "ring":
		body = fmt.Sprintf("    outer %d\n    inner %d\n    height %d\n    full-size floor\n", s.w, s.w/2, s.h)
	case "shape":
		head = fmt.Sprintf("shape %s\n", s.name)
		body = fmt.Sprintf("    outline points 0,0 %d,0 %d,%d 0,%d\n    thickness 18\n    stands from %d, %d to %d, %d\n    of \"ply 18\"\n    full-size face\n",
			s.w, s.w, s.h, s.h/2, s.x, s.y, s.x+s.w, s.y)
	case "steps":
		head = fmt.Sprintf("steps %s\n", s.name)
		body = fmt.Sprintf("    starts %d, %d heading 90deg\n    risers 3\n    rise %d\n    going 300\n    width %d\n    built blocks\n    lid 18\n    full-size floor\n",
			s.x, s.y, 120+s.h/20, 700+s.w/4)
	}
	if s.note != "" {
		body += fmt.Sprintf("    note %q\n", s.note)
	}
	return head + body
}

// production is a random set.
type production struct {
	list    []statement
	letter  string
	comment string
	next    int
}

func (p *production) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%sset \"Random quay\"\n    production \"Low Tide\"\n    issue %s 2026-11-20\n    units mm\n    scale 1:25\n    card wall 1.5\n\n", p.comment, p.letter)
	b.WriteString("board \"ply 18\" 2440 x 1220 thick 18 density 620kg/m3 kerf 3 grain along\n\n")
	b.WriteString("hall quay_hall\n    outline rect 14000 x 12000\n    at 0, 3000\n    station A -6000, 400\n    station B 6000, 400\n\n")
	for _, s := range p.list {
		b.WriteString(s.text() + "\n")
	}
	return b.String()
}

var randomKinds = []string{"platform", "post", "ring", "shape", "steps"}

func (p *production) add(r *rand.Rand) {
	p.next++
	p.list = append(p.list, statement{
		name: fmt.Sprintf("piece_%d", p.next), kind: randomKinds[r.IntN(len(randomKinds))],
		x: 10 * (r.IntN(400) - 200), y: 10 * r.IntN(400), w: 400 + 10*r.IntN(60), d: 300 + 10*r.IntN(60), h: 200 + 10*r.IntN(60),
	})
}

// edit changes a set in one way, and says whether it may draw anything anew.
func (p *production) edit(r *rand.Rand) (what string, draws bool) {
	q := &p.list[r.IntN(len(p.list))]
	switch k := r.IntN(8); k {
	case 0:
		p.next++
		q.name = fmt.Sprintf("other_%d", p.next) // a longer name can take a list to another page, which is then printed
		return "rename", false
	case 1:
		r.Shuffle(len(p.list), func(i, j int) { p.list[i], p.list[j] = p.list[j], p.list[i] })
		return "reorder", false
	case 2:
		p.comment += "# Tried on the floor.\n"
		return "comment", false
	case 3:
		q.note = "tried " + q.note
		return "note", true // which stands on the piece's elevation
	case 4:
		q.x, q.y = q.x+10*(1+r.IntN(50)), q.y+10*r.IntN(50)
		return "move", true
	case 5:
		q.w, q.h = q.w+10*(1+r.IntN(20)), q.h+10*r.IntN(10)
		return "resize", true
	case 6:
		p.add(r)
		return "add", true
	default:
		if len(p.list) > 3 {
			p.list = slices.Delete(p.list, 0, 1)
		}
		return "remove", true
	}
}

// textFiles is one text as the core reads it.
type textFiles string

func (f textFiles) Open(name string) (io.ReadCloser, error) {
	if name != "quay.markout" {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(strings.NewReader(string(f))), nil
}

func assembleText(t testing.TB, text string, was *earlier) (*assembled, *issue.Record) {
	t.Helper()
	s, list := layout.Open(textFiles(text), "quay.markout", layout.Options{})
	if list.HasErrors() {
		var b bytes.Buffer
		list.Print(&b, 5)
		t.Fatalf("%s\n%s", b.String(), text)
	}
	a := &app{Streams: Streams{Out: io.Discard, Err: io.Discard}}
	o := &issueOptions{}
	all, err := o.assemble(context.Background(), a, s, "quay.markout", was)
	require.NoError(t, err)
	r, err := issue.NewRecord(all.in)
	require.NoError(t, err)
	return all, r
}

// pagesOf makes every page of an issue, by file and label.
func pagesOf(all *assembled) map[[2]string]*tiling.Page {
	out := map[[2]string]*tiling.Page{}
	for _, b := range all.in.Books {
		for _, e := range b.Entries {
			p := &tiling.Page{}
			p.Reset()
			b.Doc.Make(e.Page-1, p)
			out[[2]string{b.File, e.Label}] = p
		}
	}
	return out
}

// Random sets are edited in random ways: drawings that are as they were are never printed again, those that are not are never kept,
// and what draws nothing new prints nothing. Pages are compared by their lines, areas and words, without their digests.
func TestRandomChanges(t *testing.T) {
	r := rand.New(rand.NewPCG(2026, 11))
	rounds := 12
	if testing.Short() {
		rounds = 3
	}
	for range rounds {
		p := &production{letter: "A"}
		for range 4 + r.IntN(5) {
			p.add(r)
		}
		first := p.text()
		before, was := assembleText(t, first, nil)
		list := slices.Clone(p.list)
		p.letter = "B"
		what, draws := p.edit(r)
		old, err := newEarlier("A", was, before.in.Set)
		require.NoError(t, err)
		after, is := assembleText(t, p.text(), old)
		c := issue.Compare(was, is)
		if !draws {
			require.Empty(t, c.Reprint, "%s\n%s", what, p.text())
			require.Empty(t, c.Withdraw, what)
		}
		for _, k := range c.Reprint {
			require.True(t, what != "note" || k.File == "elevations.pdf", "%s: %s %s", what, k.File, k.Sheet)
		}
		a, b := pagesOf(before), pagesOf(after)
		namesAside := func(file string) bool { return file == "templates.pdf" } // where names are furniture
		for _, k := range c.Keep {
			label := k.Sheet
			if k.Was != "" {
				label = k.Was
			}
			if now := b[[2]string{k.File, k.Sheet}]; draws || namesAside(k.File) {
				require.Empty(t, tiling.Changed(a[[2]string{k.File, label}], now), "%s: %s %s is kept and has changed", what, k.File, k.Sheet)
				if namesAside(k.File) {
					require.Equal(t, len(a[[2]string{k.File, label}].Layers[drawing.Registration].Texts), len(now.Layers[drawing.Registration].Texts))
				}
			}
		}
		for _, k := range c.Reprint {
			if same := a[[2]string{k.File, k.Sheet}]; same != nil {
				now := b[[2]string{k.File, k.Sheet}]
				laidBy := reflect.DeepEqual(same.Layers[drawing.Registration], now.Layers[drawing.Registration])
				require.False(t, laidBy && len(tiling.Changed(same, now)) == 0, "%s: %s %s is printed again and has not changed", what, k.File, k.Sheet)
			}
		}

		// Undone, the digests are the first ones, and without the earlier issue the bytes are. After an issue of the change, what is cut
		// again lies on added sheets and boards; before one, all is as it was.
		p.list, p.comment, p.letter = list, "", "C"
		then, err := newEarlier("B", is, after.in.Set)
		require.NoError(t, err)
		_, back := assembleText(t, p.text(), then)
		require.Equal(t, digestsOf(was), digestsOf(back), what)
		_, back = assembleText(t, p.text(), old)
		undone := issue.Compare(was, back)
		require.Empty(t, undone.Reprint, what)
		require.Empty(t, undone.Withdraw, what)
		p.letter = "A"
		again, _ := assembleText(t, p.text(), nil)
		for i, k := range before.in.Books {
			require.Equal(t, bytesOf(t, k), bytesOf(t, again.in.Books[i]))
		}
	}
}

// digestsOf lists the digests of the pages that are laid on a kept grid or are sheets of their own, sorted.
func digestsOf(r *issue.Record) []string {
	var out []string
	for _, p := range r.Pages {
		if p.File != "model.pdf" && p.File != "cutting.pdf" {
			out = append(out, p.File+" "+p.Digest)
		}
	}
	slices.Sort(out)
	return out
}

func bytesOf(t testing.TB, b issue.Book) []byte {
	var out bytes.Buffer
	_, err := pdf.Write(&out, b.Doc, pdf.Options{})
	require.NoError(t, err)
	return out.Bytes()
}
