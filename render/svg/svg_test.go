package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/png"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/render/svg"
	"markout/tiling"
)

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// sheet is an A4 page with something of everything.
func sheet() *tiling.Page {
	p := &tiling.Page{}
	p.Reset()
	p.W, p.H, p.Label = 210, 297, "floor <3C> & co"
	p.Clip = geom.Rect{Min: pt(10, 10), Max: pt(200, 287)}
	cut := p.Layers[drawing.Cut].Stroke(tiling.Pen{Width: 0.7})
	cut.Runs = append(cut.Runs, tiling.Run{Points: []geom.Point{pt(-20, 50.5), pt(100, 50.5), pt(100, 120), pt(40.1234, 200.9876)}})
	cut.Runs = append(cut.Runs, tiling.Run{Points: []geom.Point{pt(120, 120), pt(180, 120), pt(180, 180)}, Closed: true})
	fold := p.Layers[drawing.Fold].Stroke(tiling.Pen{Width: 0.5, Dash: []float64{6, 1.5}})
	fold.Runs = append(fold.Runs,
		tiling.Run{Points: []geom.Point{pt(20, 220), pt(190, 220)}, Phase: 2},
		tiling.Run{Points: []geom.Point{pt(20, 230), pt(190, 230)}, Phase: 2},
		tiling.Run{Points: []geom.Point{pt(20, 240), pt(190, 240)}, Phase: 9.5})
	p.Layers[drawing.Notes].Fills = append(p.Layers[drawing.Notes].Fills,
		tiling.Fill{Tone: 0.8, Rings: [][]geom.Point{{pt(130, 20), pt(190, 20), pt(190, 60), pt(130, 60)}, {pt(150, 30), pt(170, 30), pt(170, 50), pt(150, 50)}}, EvenOdd: true},
		tiling.Fill{Tone: 1, Rings: [][]geom.Point{{pt(131, 21), pt(140, 21), pt(140, 30)}}})
	p.Layers[drawing.Notes].Texts = append(p.Layers[drawing.Notes].Texts,
		tiling.Text{At: pt(30, 30), Height: 20, Bold: true, Text: "3C"},
		tiling.Text{At: pt(30, 70), Height: 3.5, Turn: 90, Text: `a < b & "c"  d`},
		tiling.Text{At: pt(60, 20), Height: 3.5, Text: "found", Hidden: true})
	white := p.Layers[drawing.Notes].Stroke(tiling.Pen{Width: 1.25, Tone: 1}) // what keeps a line off a picture
	white.Runs = append(white.Runs, tiling.Run{Points: []geom.Point{pt(130, 40), pt(190, 40)}})
	form := &tiling.Form{W: 10, H: 10}
	cross := form.Stroke(tiling.Pen{Width: 0.25})
	cross.Runs = append(cross.Runs, tiling.Run{Points: []geom.Point{pt(0, 5), pt(10, 5)}}, tiling.Run{Points: []geom.Point{pt(5, 0), pt(5, 10)}})
	for _, at := range []geom.Point{pt(5, 5), pt(195, 282)} {
		p.Layers[drawing.Registration].Uses = append(p.Layers[drawing.Registration].Uses, tiling.Use{Form: form, At: at})
	}
	p.Layers[drawing.Furniture].Texts = append(p.Layers[drawing.Furniture].Texts, tiling.Text{At: pt(12, 4), Height: 2.5, Text: "Low Tide", Tone: drawing.Grey})
	return p
}

func write(t testing.TB, p *tiling.Page) string {
	var b bytes.Buffer
	require.NoError(t, svg.Write(&b, p))
	return b.String()
}

// groups returns the ids of groups in order, and fails on XML that is not well formed.
func groups(t testing.TB, text string) []string {
	var ids []string
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return ids
		}
		require.NoError(t, err, "%s", text)
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "g" {
			for _, a := range e.Attr {
				if a.Name.Local == "id" {
					ids = append(ids, a.Value)
				}
			}
		}
	}
}

func TestPage(t *testing.T) {
	text := write(t, sheet())
	require.Equal(t, text, write(t, sheet()), "same page, same bytes")
	require.Equal(t, []string{"furniture", "registration", "notes", "fold", "cut"}, groups(t, text))
	require.Contains(t, text, `width="210mm" height="297mm" viewBox="0 0 210 297"`)
	require.Contains(t, text, "<title>floor &lt;3C&gt; &amp; co</title>")
	require.Contains(t, text, `d="M-20 246.5L100 246.5 100 177 40.123 96.012M120 177L180 177 180 117Z"`)
	require.Contains(t, text, `stroke-dasharray="6 1.5" stroke-dashoffset="2" d="M20 77L190 77M20 67L190 67"`)
	require.Contains(t, text, `stroke-dashoffset="2" d="M20 57L190 57"`, "9.5 is 2 into the second round")
	require.Contains(t, text, `>a &lt; b &amp; "c"  d</text>`)
	require.Contains(t, text, `transform="translate(30 227) rotate(-90)"`)
	for _, colour := range regexp.MustCompile(`#[0-9a-f]+"`).FindAllString(text, -1) {
		require.Contains(t, []string{`#000"`, `#fff"`}, colour)
	}
}

// What an ISO 3098 height says is the height of capitals; the type is larger, and a text is as long as the faces have it.
func TestLetteringKeepsItsWidth(t *testing.T) {
	text := write(t, sheet())
	m := regexp.MustCompile(`font-size="([0-9.]+)" textLength="([0-9.]+)" lengthAdjust="spacingAndGlyphs" font-weight="bold">3C`).FindStringSubmatch(text)
	require.NotNil(t, m, text)
	size, _ := strconv.ParseFloat(m[1], 64)
	length, _ := strconv.ParseFloat(m[2], 64)
	require.InDelta(t, lettering.Em(20), size, 0.0005)
	require.InDelta(t, lettering.Width("3C", 20, true), length, 0.0005)
}

// The same page through the PDF and Poppler and through the SVG and librsvg is the same picture. Lettering is left
// out: librsvg has its own fonts.
func TestSamePictureAsThePDF(t *testing.T) {
	reread.Need(t, "pdftoppm", "rsvg-convert")
	p := sheet()
	for l := range p.Layers {
		p.Layers[l].Texts = nil
	}
	const perMillimetre = 4
	drawn, err := png.Decode(bytes.NewReader(reread.RasterSVG(t, reread.Write(t, "page.svg", []byte(write(t, p))), perMillimetre)))
	require.NoError(t, err)

	var file bytes.Buffer
	doc := &tiling.Document{Pages: 1, Make: func(_ int, q *tiling.Page) {
		q.W, q.H, q.Clip, q.Layers = p.W, p.H, p.Clip, p.Layers
	}}
	_, err = pdf.Write(&file, doc, pdf.Options{})
	require.NoError(t, err)
	want := reread.Raster(t, reread.Write(t, "page.pdf", file.Bytes()), 1, perMillimetre*25.4)

	require.InDelta(t, want.Bounds().Dx(), drawn.Bounds().Dx(), 1) // Poppler rounds up
	require.InDelta(t, want.Bounds().Dy(), drawn.Bounds().Dy(), 1)
	both := want.Bounds().Intersect(drawn.Bounds())
	far, ink := 0, 0
	for y := range both.Dy() {
		for x := range both.Dx() {
			r, _, _, _ := drawn.At(x, y).RGBA()
			a, b := meanAround(want, x, y), int(r>>8)
			if b < 128 {
				ink++
			}
			if b < 64 && a > 220 || b > 250 && want.GrayAt(x, y).Y < 64 && lightAround(drawn, x, y) {
				far++
			}
		}
	}
	require.Greater(t, ink, 3000)
	require.Zero(t, far, "pixels of ink that the other picture has not")
}

// meanAround is the darkest value within a pixel's distance.
func meanAround(img *image.Gray, x, y int) int {
	least := 255
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if image.Pt(x+dx, y+dy).In(img.Bounds()) {
				least = min(least, int(img.GrayAt(x+dx, y+dy).Y))
			}
		}
	}
	return least
}

// lightAround reports whether nothing within a pixel's distance is dark.
func lightAround(img image.Image, x, y int) bool {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if r, _, _, _ := img.At(x+dx, y+dy).RGBA(); r>>8 < 220 {
				return false
			}
		}
	}
	return true
}

func TestThumbnail(t *testing.T) {
	p := sheet()
	// A plan's worth of detail: 4000 short segments.
	wave := make([]geom.Point, 4001)
	for i := range wave {
		wave[i] = pt(15+float64(i)*0.045, 150+20*math.Sin(float64(i)/20))
	}
	notes := p.Layers[drawing.Notes].Stroke(tiling.Pen{Width: 0.13})
	notes.Runs = append(notes.Runs, tiling.Run{Points: wave})
	text, err := svg.Thumbnail(p)
	require.NoError(t, err)
	require.Empty(t, groups(t, text))
	require.NotContains(t, text, "id=", "many stand in one HTML page")
	require.NotContains(t, text, "Low Tide")
	require.Contains(t, text, ">3C<")
	require.NotContains(t, text, "a &lt; b", "too small to read")
	require.Less(t, len(text), 16<<10)
	require.Less(t, len(text), len(write(t, p))/2)
}

func TestErrors(t *testing.T) {
	loop := &tiling.Form{W: 1, H: 1}
	loop.Uses = []tiling.Use{{Form: loop}}
	p := &tiling.Page{W: 10, H: 10}
	p.Layers[drawing.Cut].Uses = []tiling.Use{{Form: loop}}
	require.ErrorContains(t, svg.Write(io.Discard, p), "a form shows itself")
	_, err := svg.Thumbnail(p)
	require.ErrorContains(t, err, "a form shows itself")
	full := errors.New("no space left")
	require.ErrorIs(t, svg.Write(failing{full}, sheet()), full)
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

// Whatever the words and numbers, the file stays XML and says the words.
func FuzzWrite(f *testing.F) {
	f.Add("pilot & heron", 10.0, 3.5, 45.0)
	f.Add("\x00\xff]]><![CDATA[", math.NaN(), math.Inf(1), math.MaxFloat64)
	f.Add("\ufffe\U0010ffff", -1e300, 1e-9, -0.0)
	f.Fuzz(func(t *testing.T, words string, x, height, turn float64) {
		p := &tiling.Page{W: 210, H: 297, Label: words}
		p.Clip = geom.EmptyRect()
		c := &p.Layers[drawing.Notes]
		c.Texts = []tiling.Text{{At: pt(x, x), Height: height, Turn: turn, Text: words, Tone: drawing.Tone(turn)}}
		c.Strokes = []tiling.Stroke{{Pen: tiling.Pen{Width: height, Dash: []float64{x, turn}}, Runs: []tiling.Run{{Points: []geom.Point{pt(x, height), pt(turn, x)}, Phase: turn}}}}
		text := write(t, p)
		require.True(t, utf8.ValidString(text))
		groups(t, text)
		require.NotContains(t, text, "NaN")
		small, err := svg.Thumbnail(p)
		require.NoError(t, err)
		groups(t, small)
	})
}
