package pdf_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/tiling"
)

// exact is what a position on paper may be off by, millimetres.
const exact = 0.001

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// write writes a document into a file of the test's.
func write(t testing.TB, doc *tiling.Document) string {
	t.Helper()
	var b bytes.Buffer
	_, err := pdf.Write(&b, doc, pdf.Options{Workers: 2})
	require.NoError(t, err)
	return reread.Write(t, "pages.pdf", b.Bytes())
}

// one is a document of one A3 page that fill fills.
func one(fill func(p *tiling.Page)) *tiling.Document {
	return &tiling.Document{Pages: 1, Make: func(_ int, p *tiling.Page) {
		p.W, p.H = 297, 420
		fill(p)
	}}
}

// randomPage has lines, areas and lettering of every kind in every layer.
func randomPage(seed uint64, p *tiling.Page) {
	r := rand.New(rand.NewPCG(seed, 20261120))
	p.W, p.H = 297, 420
	p.Label = fmt.Sprintf("floor %d%c", seed+1, 'A'+seed%26)
	if r.IntN(3) > 0 {
		p.Clip = geom.Rect{Min: pt(7, 8.5), Max: pt(290, 410.25)}
	}
	anywhere := func() geom.Point { return pt(r.Float64()*340-20, r.Float64()*460-20) }
	words := []string{"3C", "1087 L", "450 U", "FULL SIZE 1:1", "Ø89 × 700", "(not) \\ checked", "½ brace – “front”", "Łódź Якорь", "7'-6 1/2\""}
	for l := range p.Layers {
		c := &p.Layers[l]
		for range r.IntN(3) {
			ring := make([]geom.Point, 3+r.IntN(4))
			for i := range ring {
				ring[i] = anywhere()
			}
			c.Fills = append(c.Fills, tiling.Fill{Tone: drawing.Tone(r.IntN(5)) / 4, Rings: [][]geom.Point{ring}, EvenOdd: r.IntN(2) == 0})
		}
		for _, pen := range []tiling.Pen{
			{Width: drawing.WideLine}, {Width: drawing.NarrowLine, Tone: drawing.Grey}, {Width: 0.5, Dash: []float64{6, 1.5}}, {Width: 0.35, Dash: []float64{8.4, 1.05, 0.175, 1.05}},
		} {
			if r.IntN(2) == 0 {
				continue
			}
			s := c.Stroke(pen)
			for range 1 + r.IntN(4) {
				run := tiling.Run{Points: p.Arena(2 + r.IntN(20)), Closed: r.IntN(4) == 0}
				for i := range run.Points {
					run.Points[i] = anywhere()
				}
				if pen.Dash != nil && r.IntN(2) == 0 {
					run.Phase = r.Float64()*40 - 10
				}
				s.Runs = append(s.Runs, run)
			}
		}
		for range r.IntN(6) {
			text := tiling.Text{
				At: pt(r.Float64()*250, r.Float64()*400), Height: []float64{1.8, 2.5, 3.5, 20}[r.IntN(4)], Bold: r.IntN(2) == 0,
				Tone: drawing.Tone(r.IntN(2)) * drawing.Grey, Text: words[r.IntN(len(words))], Hidden: r.IntN(5) == 0,
			}
			if r.IntN(2) == 0 {
				text.Turn = []float64{90, 180, 270, -90, 33.3, 360, -451.25}[r.IntN(7)]
			}
			c.Texts = append(c.Texts, text)
		}
	}
}

// Every line, area and text of many random pages is where the page has it, as it has it, in the layer that it is in, and
// nothing else is there.
func TestWhatIsWrittenIsRead(t *testing.T) {
	const pages = 40
	doc := &tiling.Document{Pages: pages, Make: func(i int, p *tiling.Page) { randomPage(uint64(i), p) }}
	file := write(t, doc)
	reread.Check(t, file)
	traced := reread.Trace(t, file, "1-N")
	require.Len(t, traced, pages)
	for i, got := range traced {
		var want tiling.Page
		want.Reset()
		randomPage(uint64(i), &want)
		c := &comparison{t: t, page: i, got: got}
		for l := int(drawing.Layers) - 1; l >= 0; l-- {
			c.layer(&want, drawing.Layer(l))
		}
		require.Empty(t, c.got.Paths, "page %d", i)
		require.Empty(t, c.got.Texts, "page %d", i)
	}
}

// comparison takes what is read of a page off, in order, as the page's own is gone through.
type comparison struct {
	t    *testing.T
	page int
	got  reread.Page
}

func (c *comparison) next() reread.Path {
	require.NotEmpty(c.t, c.got.Paths, "page %d ends early", c.page)
	p := c.got.Paths[0]
	c.got.Paths = c.got.Paths[1:]
	return p
}

func (c *comparison) layer(p *tiling.Page, l drawing.Layer) {
	content := &p.Layers[l]
	clip := !p.Clip.Empty() && l <= drawing.Notes
	common := func(got reread.Path, tone drawing.Tone) {
		require.Equal(c.t, l.String(), got.Layer)
		require.InDelta(c.t, float64(tone), got.Tone, 0.001)
		if !clip {
			require.Empty(c.t, got.Clips)
			return
		}
		require.Len(c.t, got.Clips, 1)
		near(c.t, p.Clip.Min, got.Clips[0].Min)
		near(c.t, p.Clip.Max, got.Clips[0].Max)
	}
	for _, f := range content.Fills {
		got := c.next()
		common(got, f.Tone)
		require.True(c.t, got.Filled)
		require.Equal(c.t, f.EvenOdd, got.Winding == "eofill")
		require.Len(c.t, got.Subs, len(f.Rings))
		for i, ring := range f.Rings {
			c.polyline(ring, got.Subs[i])
		}
	}
	for _, s := range content.Strokes {
		for rest := s.Runs; len(rest) > 0; {
			got := c.next()
			common(got, s.Pen.Tone)
			require.False(c.t, got.Filled)
			require.InDelta(c.t, s.Pen.Width, got.Width, exact/10)
			require.Len(c.t, got.Dash, len(s.Pen.Dash))
			period := 0.0
			for i, d := range s.Pen.Dash {
				require.InDelta(c.t, d, got.Dash[i], exact/10)
				period += d
			}
			for i, sub := range got.Subs {
				c.polyline(rest[i].Points, sub)
				require.Equal(c.t, rest[i].Closed, sub.Closed)
				if period > 0 {
					apart := math.Remainder(rest[i].Phase-got.Phase, period)
					require.InDelta(c.t, 0, apart, exact)
				}
			}
			rest = rest[len(got.Subs):]
		}
	}
	for _, text := range content.Texts {
		c.text(&text, l)
	}
}

// text takes a text off: MuPDF begins a new line of lettering where the font changes, so it may come in parts.
func (c *comparison) text(text *tiling.Text, l drawing.Layer) {
	at, drift := text.At, 0.0
	for rest := text.Text; rest != ""; {
		require.NotEmpty(c.t, c.got.Texts, "page %d ends early", c.page)
		got := c.got.Texts[0]
		c.got.Texts = c.got.Texts[1:]
		require.Equal(c.t, l.String(), got.Layer)
		require.Equal(c.t, text.Hidden, got.Hidden)
		require.InDelta(c.t, lettering.Em(text.Height), got.Em, exact, "the height of capitals")
		require.InDelta(c.t, 0, math.Remainder(text.Turn-got.Turn, 360), 1e-4)
		if !text.Hidden {
			require.InDelta(c.t, float64(text.Tone), got.Tone, 0.001)
		}
		require.True(c.t, len(got.Text) <= len(rest) && rest[:len(got.Text)] == got.Text, "page %d: %q begins with %q", c.page, rest, got.Text)
		require.InDelta(c.t, at.X, got.At.X, exact+drift)
		require.InDelta(c.t, at.Y, got.At.Y, exact+drift)
		width := lettering.Width(got.Text, text.Height, text.Bold)
		// MuPDF takes a letter's width in whole thousandths of the type's size; the size itself is in whole micrometres.
		drift += float64(utf8.RuneCountInString(got.Text))*0.0005*got.Em + width*3e-4
		require.InDelta(c.t, width, got.Width, exact+drift)
		at = at.Add(geom.Polar(width, text.Turn*math.Pi/180))
		rest = rest[len(got.Text):]
	}
}

func (c *comparison) polyline(want []geom.Point, got reread.Sub) {
	require.Len(c.t, got.Points, len(want))
	for i := range want {
		near(c.t, want[i], got.Points[i])
	}
}

func near(t *testing.T, want geom.Point, got reread.Point) {
	t.Helper()
	require.InDelta(t, want.X, got.X, exact)
	require.InDelta(t, want.Y, got.Y, exact)
}

// A form is drawn wherever it is shown, a form in it too, and what reaches a little out of its box.
func TestForms(t *testing.T) {
	inner := &tiling.Form{W: 2, H: 2}
	dot := inner.Stroke(tiling.Pen{Width: 0.25, Dash: []float64{1, 1}})
	dot.Runs = []tiling.Run{{Points: []geom.Point{pt(0, 0), pt(2, 2)}}}
	outer := &tiling.Form{W: 20, H: 10}
	outer.Uses = []tiling.Use{{Form: inner, At: pt(1, 1)}, {Form: inner, At: pt(15, 5)}}
	frame := outer.Stroke(tiling.Pen{Width: 0.7})
	frame.Runs = []tiling.Run{{Points: []geom.Point{pt(0, 0), pt(20, 0), pt(20, 10), pt(0, 10)}, Closed: true}}
	outer.Texts = []tiling.Text{{At: pt(4, 4), Height: 2.5, Text: "key"}}
	places := []geom.Point{pt(0, 0), pt(100, 50.5), pt(12.3456, 300)}
	doc := &tiling.Document{Pages: 3, Make: func(i int, p *tiling.Page) {
		p.W, p.H = 297, 420
		f := &p.Layers[drawing.Furniture]
		f.Uses = append(f.Uses, tiling.Use{Form: outer, At: places[i]})
		s := f.Stroke(tiling.Pen{Width: 0.25})
		s.Runs = append(s.Runs, tiling.Run{Points: []geom.Point{pt(1, 1), pt(2, 2)}})
	}}
	file := write(t, doc)
	reread.Check(t, file)
	for i, page := range reread.Trace(t, file, "1-N") {
		require.Len(t, page.Paths, 4)
		near(t, places[i].Add(pt(1, 1)), page.Paths[0].Subs[0].Points[0])
		near(t, places[i].Add(pt(15, 5)), page.Paths[1].Subs[0].Points[0])
		near(t, places[i].Add(pt(20, 10)), page.Paths[2].Subs[0].Points[2])
		require.Empty(t, page.Paths[2].Dash, "the form in it had dashes, it has none")
		require.Empty(t, page.Paths[3].Dash)
		require.Equal(t, "furniture", page.Paths[0].Layer)
		require.Equal(t, "key", page.Texts[0].Text)
		near(t, places[i].Add(pt(4, 4)), page.Texts[0].At)
	}
	// The outer half of the frame's line is not cut off: ink from 99.65 to 100.35.
	picture := reread.Raster(t, file, 2, 254)
	for _, x := range []int{998, 1001} {
		require.Less(t, picture.GrayAt(x, 4200-550).Y, uint8(64), "x = %d tenths of a millimetre", x)
	}
}

// Corners of wide lines are full, ends are where they are: a bar of 0.7 round a square covers its corners' outside and
// nothing beyond the ends of an open line.
func TestCornersAndEnds(t *testing.T) {
	file := write(t, one(func(p *tiling.Page) {
		s := p.Layers[drawing.Cut].Stroke(tiling.Pen{Width: 4})
		s.Runs = []tiling.Run{
			{Points: []geom.Point{pt(50, 50), pt(100, 50), pt(100, 100), pt(50, 100)}, Closed: true},
			{Points: []geom.Point{pt(150, 50), pt(200, 50)}},
		}
	}))
	picture := reread.Raster(t, file, 1, 254) // 10 pixels a millimetre
	ink := func(x, y float64) bool { return picture.GrayAt(int(x*10), 4200-1-int(y*10)).Y < 128 }
	for _, corner := range []geom.Point{pt(48.2, 48.2), pt(101.8, 48.2), pt(101.8, 101.8), pt(48.2, 101.8)} {
		require.True(t, ink(corner.X, corner.Y), "%v", corner)
	}
	require.True(t, ink(150.2, 50))
	require.False(t, ink(149.8, 50))
	require.True(t, ink(199.8, 50))
	require.False(t, ink(200.2, 50))
}

// Lines of no length, areas of two corners, empty texts and numbers that are none leave a file that is whole.
func TestDegenerate(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	file := write(t, one(func(p *tiling.Page) {
		for l := range p.Layers {
			c := &p.Layers[l]
			for _, pen := range []tiling.Pen{{}, {Width: -1}, {Width: nan}, {Width: 1, Dash: []float64{0, 0}}, {Width: 1, Dash: []float64{nan}}, {Width: 1, Dash: []float64{-1, 2}}, {Width: 1, Tone: -3}, {Width: 1, Tone: drawing.Tone(nan)}} {
				s := c.Stroke(pen)
				for _, phase := range []float64{0, nan, inf, -1e300, 5.9999999} {
					s.Runs = append(s.Runs, tiling.Run{}, tiling.Run{Points: []geom.Point{pt(1, 1)}, Phase: phase},
						tiling.Run{Points: []geom.Point{pt(1, 1), pt(1, 1), pt(1.0000001, 1)}, Closed: true, Phase: phase},
						tiling.Run{Points: []geom.Point{pt(nan, 1), pt(inf, -inf), pt(1e300, 2)}, Phase: phase})
				}
			}
			c.Fills = append(c.Fills, tiling.Fill{}, tiling.Fill{Rings: [][]geom.Point{{pt(1, 1), pt(2, 2)}, nil, {pt(1, 1), pt(1, 1), pt(1, 1)}}})
			c.Texts = append(c.Texts, tiling.Text{}, tiling.Text{Text: "x"}, tiling.Text{Height: nan, Text: "x"}, tiling.Text{Height: 5, Turn: nan, At: pt(nan, inf), Text: "x"}, tiling.Text{Height: 5})
			c.Uses = append(c.Uses, tiling.Use{})
		}
	}))
	reread.Check(t, file)
	reread.Opens(t, file, reread.Size{W: 297, H: 420})
}
