package sheet

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/tiling"
)

// book makes the floor document of a set on a paper.
func book(t *testing.T, s *set.Set, paper string) *Book {
	t.Helper()
	b, err := Floor(s, view.Plan(s), setout.Lay(s).Table(), rules.Check(s), filed(paper))
	require.NoError(t, err)
	return b
}

func pageOf(b *Book, i int) *tiling.Page {
	p := &tiling.Page{}
	p.Reset()
	b.Document.Make(i, p)
	return p
}

func written(t *testing.T, b *Book) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "floor.pdf")
	f, err := os.Create(name)
	require.NoError(t, err)
	_, err = pdf.Write(f, b.Document, pdf.Options{Workers: 2})
	require.NoError(t, err)
	require.NoError(t, f.Close())
	return name
}

// centres returns the middles of the closed round lines of a diameter on a page as MuPDF reads it, in its own millimetres.
func centres(p reread.Page, diameter float64) []reread.Point {
	var out []reread.Point
	for _, path := range p.Paths {
		if path.Layer != "cut" {
			continue
		}
		for _, s := range path.Subs {
			if len(s.Points) < 8 {
				continue
			}
			lo, hi := s.Points[0], s.Points[0]
			for _, q := range s.Points {
				lo.X, lo.Y = min(lo.X, q.X), min(lo.Y, q.Y)
				hi.X, hi.Y = max(hi.X, q.X), max(hi.Y, q.Y)
			}
			if math.Abs(hi.X-lo.X-diameter) < 0.02 && math.Abs(hi.Y-lo.Y-diameter) < 0.02 {
				out = append(out, reread.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2})
			}
		}
	}
	return out
}

// On the paper, measured by another program: neighbouring bollards of the kiosk are 2174.1 apart, all twelve 4200 from the
// pin, and the plan is at the scale it says.
func TestPlanMeasuresTrueOnPaper(t *testing.T) {
	b := book(t, kiosk(), "A3")
	name := written(t, b)
	reread.Check(t, name)
	var sizes []reread.Size
	for _, z := range b.Document.Sizes {
		sizes = append(sizes, reread.Size{W: z.W, H: z.H})
	}
	reread.Opens(t, name, sizes...)
	pages := reread.Trace(t, name, "1-N")
	require.Len(t, pages, b.Document.Pages)
	require.Equal(t, "1:50", b.Entries[1].Scale)
	posts := centres(pages[1], 60.0/50)
	require.Len(t, posts, 12)
	var least float64 = math.Inf(1)
	mid := reread.Point{}
	for i, p := range posts {
		mid.X, mid.Y = mid.X+p.X/12, mid.Y+p.Y/12
		for _, q := range posts[:i] {
			least = min(least, math.Hypot(p.X-q.X, p.Y-q.Y))
		}
	}
	require.InDelta(t, 2174.1, least*50, 0.5)
	for _, p := range posts {
		require.InDelta(t, 4200, math.Hypot(p.X-mid.X, p.Y-mid.Y)*50, 0.5)
	}
}

// The check bars are 100 mm long in both directions within 0.01 mm.
func TestCheckBarsOnThePlan(t *testing.T) {
	b := book(t, kiosk(), "A3")
	for _, p := range reread.Trace(t, written(t, b), "2") {
		var flat, upright int
		for _, path := range p.Paths {
			for _, s := range path.Subs {
				if len(s.Points) != 2 {
					continue
				}
				dx, dy := math.Abs(s.Points[1].X-s.Points[0].X), math.Abs(s.Points[1].Y-s.Points[0].Y)
				if path.Layer == "registration" && math.Abs(dx-100) < 0.01 && dy < 0.001 {
					flat++
				}
				if path.Layer == "registration" && math.Abs(dy-100) < 0.01 && dx < 0.001 {
					upright++
				}
			}
		}
		require.Equal(t, 1, flat)
		require.Equal(t, 1, upright)
	}
}

// Scales of ISO 5455 and 1:25; in feet 1", 1/2", 1/4", 1/8", 1/16" to the foot, which are 1:12 … 1:192 (architectural scale
// tables). A rectangle that only just fits at one scale does not at the next larger.
func TestScaleIsTheLargestThatFits(t *testing.T) {
	square := func(w, h float64, u unit.System) *set.Set {
		return &set.Set{Name: "Mat", Sides: "stage", Letter: "A", Units: u, Elements: []*set.Element{
			{Name: "mat", Copies: at(0, h/2, 0, 0), Shape: &set.Platform{Outline: outline(geom.Rectangle(w, h), "rect"), Height: 10}}}}
	}
	last := ""
	for _, want := range []struct {
		w    float64
		text string
	}{{1000, "1:5"}, {2000, "1:10"}, {4000, "1:20"}, {7000, "1:25"}, {9000, "1:50"}, {18000, "1:100"}, {40000, "1:200"}, {90000, "1:500"}} {
		b, err := Floor(square(want.w, want.w/2, unit.Millimetre), view.Plan(square(want.w, want.w/2, unit.Millimetre)), nil, nil, filed("A3"))
		require.NoError(t, err)
		require.Equal(t, want.text, b.Entries[1].Scale, "%g", want.w)
		require.NotEqual(t, last, want.text)
		last = want.text
	}
	for feet, want := range map[float64]string{8: `1" = 1'-0"`, 18: `1/2" = 1'-0"`, 36: `1/4" = 1'-0"`, 70: `1/8" = 1'-0"`, 140: `1/16" = 1'-0"`} {
		s := square(feet*304.8, feet*304.8/2, unit.Foot)
		b, err := Floor(s, view.Plan(s), nil, nil, filed("Tabloid"))
		require.NoError(t, err)
		require.Equal(t, want, b.Entries[1].Scale, "%g feet", feet)
	}
	for _, sc := range footScales[:5] {
		inches, err := unit.ParseLength(sc.text[:len(sc.text)-len(` = 1'-0"`)], unit.Inch)
		require.NoError(t, err)
		require.InDelta(t, 304.8/inches, sc.n, 1e-9, sc.text)
	}
}

// inked returns every text of a page, those of its forms too.
func inked(p *tiling.Page) []tiling.Text {
	var out []tiling.Text
	for l := range p.Layers {
		out = append(out, p.Layers[l].Texts...)
		for _, u := range p.Layers[l].Uses {
			for _, t := range u.Form.Texts {
				t.At = t.At.Add(u.At)
				out = append(out, t)
			}
		}
	}
	return out
}

// shrunk is the box of a text's capitals: what must not be crossed by other lettering.
func shrunk(t *tiling.Text) geom.Rect {
	r := include(geom.EmptyRect(), t.Corners())
	turned := math.Mod(t.Turn+360, 180) == 90
	in := 0.3 * t.Height
	if turned {
		r.Min.X, r.Max.X = r.Min.X+in, r.Max.X-in
	} else {
		r.Min.Y, r.Max.Y = r.Min.Y+in, r.Max.Y-in
	}
	return r
}

// Every page can be read: all lettering inside the frame, none under 1.8 mm (the least of ISO 3098), none over other
// lettering.
func TestLetteringCanBeRead(t *testing.T) {
	imperial := kiosk()
	imperial.Units, imperial.Trial, imperial.With = unit.Foot, true, []string{"front.risers=4"}
	for _, c := range []struct {
		s     *set.Set
		paper string
	}{{kiosk(), "A3"}, {kiosk(), "A4"}, {crates(), "A3"}, {crates(), "A4"}, {loft(), "A3"}, {loft(), "A2"}, {imperial, "Tabloid"}, {imperial, "Letter"}} {
		b := book(t, c.s, c.paper)
		for i := range b.Document.Pages {
			p := pageOf(b, i)
			lying := p.W > p.H
			m := filed(c.paper).Margins
			if lying {
				m = turned(m)
			}
			live := geom.Rect{Min: geom.Point{X: m.Left, Y: m.Bottom}, Max: geom.Point{X: p.W - m.Right, Y: p.H - m.Top}}
			texts := inked(p)
			for k := range texts {
				require.GreaterOrEqual(t, texts[k].Height, 1.8, texts[k].Text)
				box := shrunk(&texts[k])
				require.True(t, live.Contains(box.Min) && live.Contains(box.Max), "%s %s page %d: %q leaves the frame", c.s.Name, c.paper, i+1, texts[k].Text)
				for n := range k {
					require.False(t, box.Overlaps(shrunk(&texts[n])), "%s %s page %d: %q over %q, %v %v", c.s.Name, c.paper, i+1, texts[k].Text, texts[n].Text, box, shrunk(&texts[n]))
				}
			}
		}
	}
}

func TestPlanSaysWhatItMust(t *testing.T) {
	s := kiosk()
	name := written(t, book(t, s, "A3"))
	text := reread.Text(t, name, 2)
	for _, say := range []string{"SCALE 1:50", "Low Tide art department", "LT-104", "M. Reed", "2026-11-20", "Quayside kiosk", "plan, 2 / 5", "Mark-out plan",
		"STAGE LEFT", "STAGE RIGHT", "AUDIENCE", "CENTRE LINE", "STATION A", "UP 3 risers", "UP 1:8", "+450", "bollard.12", "8174", "10087",
		"centre line, setting line", "RAMP-SLOPE", "100 mm on this paper"} {
		require.Contains(t, text, say)
	}
	flat := ""
	for _, x := range inked(pageOf(book(t, s, "A3"), 1)) {
		flat += x.Text + " "
	}
	require.Contains(t, flat, "The outside edge of the tape lies on the line")
	require.Contains(t, flat, "For information only: check with local codes and")
	s.Trial, s.With = true, []string{"front.risers=4"}
	text = reread.Text(t, written(t, book(t, s, "A3")), 2)
	require.Contains(t, text, "TRIAL")
	require.Contains(t, text, "front.risers=4")
}

// Names, their places on the sheet and the title block are in no digest; what is drawn is.
func TestPlanDigest(t *testing.T) {
	mark := func(change func(*set.Set)) [32]byte {
		s := kiosk()
		change(s)
		b, err := Floor(s, view.Plan(s), nil, nil, filed("A3"))
		require.NoError(t, err)
		return b.Entries[1].Digest
	}
	same := mark(func(*set.Set) {})
	require.Equal(t, same, mark(func(s *set.Set) { s.Elements[1].Name = "quay_deck" }))
	require.Equal(t, same, mark(func(s *set.Set) { s.Letter, s.Date, s.Title.Drawn = "C", "2026-12-01", "K. Lund" }))
	require.NotEqual(t, same, mark(func(s *set.Set) { s.Elements[1].Shape.(*set.Platform).Height = 600 }), "the level is a word")
	require.NotEqual(t, same, mark(func(s *set.Set) { s.Elements[6].Copies[0].Places[0].Frame.T.X = 1 }))
}

// The same set makes the same bytes, whoever writes the pages.
func TestSameBytes(t *testing.T) {
	var first []byte
	for _, workers := range []int{1, 2, 3} {
		var out bytes.Buffer
		_, err := pdf.Write(&out, book(t, loft(), "A3").Document, pdf.Options{Workers: workers})
		require.NoError(t, err)
		if first == nil {
			first = out.Bytes()
		}
		require.True(t, bytes.Equal(first, out.Bytes()))
	}
}

func TestAFilingEdgeStaysAtTheLeft(t *testing.T) {
	frames, err := framesOf(filed("A3"))
	require.NoError(t, err)
	require.Len(t, frames, 2)
	// Drawing spaces of ISO 5457: A3 277 × 390.
	require.InDelta(t, 390, frames[0].live.W(), 1e-9)
	require.InDelta(t, 277, frames[0].live.H(), 1e-9)
	require.InDelta(t, 20, frames[0].live.Min.X, 1e-9)
	require.InDelta(t, 267, frames[1].live.W(), 1e-9)
	require.Equal(t, "A3 landscape", frames[0].paper)
}

func TestPaperTooSmall(t *testing.T) {
	s := kiosk()
	_, err := Floor(s, view.Plan(s), nil, nil, filed("A6"))
	require.ErrorContains(t, err, "too small")
	b, err := Floor(s, view.Plan(s), nil, nil, filed("roll 610"))
	require.NoError(t, err)
	require.Equal(t, "1:20", b.Entries[1].Scale)
}

func TestManyPiecesStillHaveAPlan(t *testing.T) {
	s := &set.Set{Name: "Rings", Sides: "stage", Letter: "A"}
	for i := range 400 {
		s.Elements = append(s.Elements, &set.Element{Name: "ring_" + string(rune('a'+i%26)), Copies: at(float64(i*7919%20000)-10000, float64(i*104729%12000), 0, 0),
			Shape: &set.Ring{Outer: outline(geom.Circle(600+float64(i*31%1200)), "circle"), Height: 100}})
	}
	b, err := Floor(s, view.Plan(s), nil, []caution.Caution{}, filed("A3"))
	require.NoError(t, err)
	all := ""
	for _, x := range inked(pageOf(b, 1)) {
		all += x.Text + " "
	}
	require.Contains(t, all, "found no room", "what is left out is said")
}

func BenchmarkFloorBook(b *testing.B) {
	s := kiosk()
	plan, tape, cautions := view.Plan(s), setout.Lay(s).Table(), rules.Check(s)
	frames := filed("A3")
	b.ReportAllocs()
	for b.Loop() {
		book, err := Floor(s, plan, tape, cautions, frames)
		if err != nil {
			b.Fatal(err)
		}
		var p tiling.Page
		for i := range book.Document.Pages {
			p.Reset()
			book.Document.Make(i, &p)
		}
	}
}

func BenchmarkPlanSheet(b *testing.B) {
	for _, n := range []int{400, 20000} {
		s := &set.Set{Name: "Rings", Sides: "stage", Letter: "A"}
		for i := range n {
			s.Elements = append(s.Elements, &set.Element{Name: "ring_" + string(rune('a'+i%26)), Copies: at(float64(i%200)*1500, float64(i/200)*1500, 0, 0),
				Shape: &set.Ring{Outer: outline(geom.Circle(1200), "circle"), Height: 100}})
		}
		plan := view.Plan(s)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Floor(s, plan, nil, nil, filed("A3")); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
