package layout_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// statements cuts a text before every line that starts in the first column with a word.
func statements(text string) []string {
	var out []string
	for _, l := range strings.SplitAfter(text, "\n") {
		if l == "" || strings.HasPrefix(l, "#") {
			continue
		}
		if l[0] != ' ' && l[0] != '\n' || len(out) == 0 {
			out = append(out, l)
			continue
		}
		out[len(out)-1] += l
	}
	return out
}

// bare takes the places in the text out of elements, which differ where only the order does.
func bare(s *set.Set) map[string]set.Element {
	out := map[string]set.Element{}
	for _, e := range s.Elements {
		c := *e
		c.Span, c.NameSpan, c.Spans = diag.Span{}, diag.Span{}, nil
		out[e.Name] = c
	}
	return out
}

func TestOrderDoesNotMatter(t *testing.T) {
	for _, name := range []string{"kiosk", "crates", "backing"} {
		files := sampleFiles(t, name)
		parts := statements(files["main.markout"])
		resolve := func() map[string]set.Element {
			files["main.markout"] = strings.Join(parts, "")
			s, list := layout.Open(files, "main.markout", layout.Options{})
			require.Empty(t, printed(list))
			for _, e := range s.Elements { // artwork stands where it is named, too
				switch sh := e.Shape.(type) {
				case *set.Figure:
					sh.Art = nil
				case *set.Cloth:
					sh.Art = nil
				}
			}
			return bare(s)
		}
		want := resolve()
		r := rand.New(rand.NewPCG(1, 2))
		for range 5 {
			r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
			require.Equal(t, want, resolve())
		}
	}
}

func TestCopiesAroundAreEvenlyApart(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		count, radius, from, own := 1+r.IntN(40), 1+r.Float64()*5000, r.Float64()*720-360, r.Float64()*360
		centre := geom.Point{X: r.Float64()*2000 - 1000, Y: r.Float64() * 2000}
		e := open(t, lines("post p", "diameter 60", "height 700", fmt.Sprintf("turn %.6fdeg", own),
			fmt.Sprintf("repeat %d around %.6f, %.6f radius %.6f from %.6fdeg", count, centre.X, centre.Y, radius, from))).Find("p")
		require.Len(t, e.Copies, count)
		for i, c := range e.Copies {
			f := c.Places[0].Frame
			d := f.T.Plan().Sub(centre)
			require.InDelta(t, radius, d.Len(), 2e-6)
			bearing := from + 360*float64(i)/float64(count)
			require.InDelta(t, 0, math.Remainder(d.Angle()*180/math.Pi-bearing, 360), 1e-4/radius*60)
			require.InDelta(t, 0, math.Remainder(f.TurnDeg()-bearing-90-own, 360), 2e-6, "its front looks away from the centre, its own turn added")
		}
	}
}

// What is placed in a hall is the same piece placed in the set's axes, moved as the hall is.
func TestHallsCompose(t *testing.T) {
	pieces := func(in string) string {
		return lines("platform deck", in, "outline rect 3600 x 2400", "height 450", "at 100, 3600", "turn 12.5deg") +
			lines("steps front", in, "starts -900, 400 heading 70deg", "risers 3", "rise 150", "going 300", "width 900") +
			lines("flat wall", in, "from 0,0 to 900, 1200", "height 2400") +
			lines("post mast", in, "diameter 60", "height 700", "repeat 5 around 0, 3000 radius 900 from 15deg", "shift 2 by 10, 20") +
			lines("post pole", in, "diameter 60", "height 700", "at 30, 40", "repeat 3 by 100, 50", "turn 5deg") +
			lines("mark pin", in, "point 10,20 30,50") +
			lines("post row", in, "diameter 60", "height 700", "repeat 4 along path 0,0 line 900,100 1200,900") +
			lines("shape roofs", in, "outline rect 900 x 300", "stands from 100, 100 to 900, 500")
	}
	plain := open(t, pieces("level 0"))
	r := rand.New(rand.NewPCG(5, 6))
	for range 20 {
		at, turn := geom.Point{X: r.Float64()*9000 - 4500, Y: r.Float64() * 9000}, r.Float64()*720-360
		s := open(t, lines("hall room", "outline points -1000,500 8000,500 8000,7000 -1000,7000", fmt.Sprintf("at %.12f, %.12f", at.X, at.Y), fmt.Sprintf("turn %.12fdeg", turn))+pieces("in room"))
		room := geom.Move(at, turn)
		room.T = room.Apply(geom.Point{X: 3500, Y: 500}) // x from the middle, y from the front of its box
		for _, e := range plain.Elements {
			moved := s.Find(e.Name)
			if e.Kind == "platform" || e.Kind == "steps" || e.Kind == "post" { // others take their size from places
				require.Equal(t, e.Shape, moved.Shape, e.Name)
			}
			for i, c := range e.Copies {
				want, got := c.Places[0].Frame.Plan().Then(room), moved.Copies[i].Places[0].Frame.Plan()
				for _, p := range []geom.Point{{}, {X: 1000}, {Y: 1000}} {
					require.InDelta(t, 0, want.Apply(p).Dist(got.Apply(p)), 1e-5, "%s %d", e.Name, i)
				}
				require.Equal(t, "room", moved.Copies[i].Places[0].In)
			}
		}
	}
}

// Where a deck is turned, all that is placed by its anchors turns with it.
func TestAnchorsTurnWithThePiece(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, outline := range []string{"rect 3600 x 2400", "polygon 7 corners 3000", "circle 2000", "points 0,0 900,100 1200,900 -300,700", "path 0,0 line 900,0 arc to 0,900 radius 900 left close"} {
		anchors := []string{"centre", "front", "back", "left", "right", "edge(2)", "corner(3)"}
		if strings.HasPrefix(outline, "circle") {
			anchors = anchors[:5]
		}
		text := func(turn float64) string {
			s := lines("platform deck", "outline "+outline, "height 450", fmt.Sprintf("turn %.12fdeg", turn))
			for i, a := range anchors {
				s += lines(fmt.Sprintf("mark m%d", i), "point deck."+a)
				if i > 0 && i < 5 {
					s += lines(fmt.Sprintf("steps s%d", i), "meets deck."+a, "risers 3", "going 300", "width 900")
				}
			}
			return s
		}
		still := open(t, text(0))
		turn := r.Float64() * 360
		turned := open(t, text(turn))
		m := geom.Move(geom.Point{}, turn)
		for i, e := range still.Elements {
			a, b := e.Copies[0].Places[0].Frame.Plan(), turned.Elements[i].Copies[0].Places[0].Frame.Plan()
			require.InDelta(t, 0, a.Then(m).T.Dist(b.T), 1e-4, "%s of %s", e.Name, outline)
			if e.Kind == "steps" {
				require.InDelta(t, 0, a.Then(m).Vector(geom.Point{Y: 1}).Dist(b.Vector(geom.Point{Y: 1})), 1e-7)
				require.InDelta(t, 450, set.Top(e, e.Copies[0].Places[0]), 1e-9)
			}
		}
	}
}

// Any bytes at all: an answer, the same twice, with every place inside its text.
func FuzzOpen(f *testing.F) {
	for _, name := range []string{"kiosk", "crates", "backing"} {
		text, err := os.ReadFile("../samples/" + name + "/" + name + ".markout")
		require.NoError(f, err)
		f.Add(string(text), "deck.height=3")
		for _, s := range statements(string(text)) {
			f.Add(s, "x=1")
		}
	}
	f.Add(lines("platform a", "outline rect 1 x 1", "height b.top", "on b")+lines("post b", "diameter a.height", "height 3", "repeat 3 along a every 2", "stack 9", "except 2"), "b.stack=a.top")
	f.Add(lines("shape s", `outline svg "M0 0h9v9z"`, "hole points 1,1 2,1 1,2 at 2,2", "stands from 0,0 to s.start"), "s.turn=3")
	f.Fuzz(func(t *testing.T, text, with string) {
		run := func() (string, *set.Set) {
			s, list := layout.Open(texts{"m": text}, "m", layout.Options{With: []string{with}})
			for _, d := range list.Sorted() {
				n := int32(len(list.Sources.Text(d.Span.File)))
				if d.Span.From < 0 || d.Span.From > d.Span.To || d.Span.To > n {
					t.Fatalf("%v lies outside its text of %d bytes: %s", d.Span, n, d.Message)
				}
				if d.Message == "" {
					t.Fatal("an error without words")
				}
			}
			return printed(list), s
		}
		said, s := run()
		again, _ := run()
		if said != again {
			t.Fatalf("two runs differ:\n%s\n%s", said, again)
		}
		for _, e := range s.Elements {
			if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 {
				t.Fatalf("%s has no place", e.Name)
			}
			for _, c := range e.Copies {
				for _, p := range c.Places {
					if v := p.Frame.T; math.IsNaN(v.X+v.Y+v.Z) || max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z)) > 1e7+1 {
						t.Fatalf("%s stands at %v", e.Name, v)
					}
				}
			}
			if h := set.Height(e.Shape); math.IsNaN(h) || h < 0 {
				t.Fatalf("%s is %v high", e.Name, h)
			}
			set.Footprints(e.Shape)
			set.Surfaces(e, e.Copies[0].Places[0])
		}
		names := map[string]bool{}
		for _, e := range s.Elements {
			if names[e.Name] {
				t.Fatalf("%s stands twice", e.Name)
			}
			names[e.Name] = true
		}
	})
}
