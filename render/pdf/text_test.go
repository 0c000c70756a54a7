package pdf_test

import (
	"bytes"
	"image"
	"image/draw"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"markout/layout/drawing"
	"markout/layout/lettering"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/tiling"
)

// every returns all characters that the faces have.
func every() []rune {
	var all []rune
	for r := rune(0x20); r <= 0xffff; r++ {
		if _, _, missing := lettering.Lacks(string(r)); !missing && !(r >= 0xd800 && r < 0xe000) {
			all = append(all, r)
		}
	}
	return all
}

// The page has one character every 12 mm.
const (
	cell    = 12.0
	columns = 24
	size    = 4.0 // height of capitals
)

func characters(all []rune, bold bool) *tiling.Document {
	return one(func(p *tiling.Page) {
		for i, r := range all {
			p.Layers[drawing.Notes].Texts = append(p.Layers[drawing.Notes].Texts, tiling.Text{
				At: pt(4+float64(i%columns)*cell, 408-float64(i/columns)*cell), Height: size, Bold: bold, Text: string(r),
			})
		}
	})
}

// Every character of both faces is drawn as the face has it, beside a picture that the general font library
// golang.org/x/image/font/opentype makes of the whole font, and comes back as itself.
func TestEveryCharacter(t *testing.T) {
	all := every()
	require.Greater(t, len(all), 600)
	for isBold, data := range map[bool][]byte{false: goregular.TTF, true: gobold.TTF} {
		file := write(t, characters(all, isBold))
		reread.Check(t, file)
		var got []rune
		for _, line := range reread.Trace(t, file, "1")[0].Texts {
			got = append(got, []rune(line.Text)...)
		}
		require.Equal(t, string(all), string(got))

		const dpi = 254
		picture := reread.Raster(t, file, 1, dpi)
		face := opened(t, data, lettering.Em(size)*dpi/25.4)
		for i, r := range all {
			x, y := (4+float64(i%columns)*cell)*10, 4200-(408-float64(i/columns)*cell)*10
			box := image.Rect(int(x)-30, int(y)-90, int(x)+90, int(y)+30)
			want := image.NewGray(box)
			draw.Draw(want, box, image.White, image.Point{}, draw.Src)
			(&font.Drawer{Dst: want, Src: image.Black, Face: face, Dot: fixed.P(int(x), int(y))}).DrawString(string(r))
			require.Less(t, strangers(want, picture, box), 2, "bold %v: %c %U", isBold, r, r)
			require.Less(t, strangers(picture, want, box), 2, "bold %v: %c %U", isBold, r, r)
		}
	}
}

func opened(t *testing.T, data []byte, pixels float64) font.Face {
	f, err := opentype.Parse(data)
	require.NoError(t, err)
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: pixels, DPI: 72, Hinting: font.HintingNone})
	require.NoError(t, err)
	return face
}

// strangers counts dark pixels of a that have nothing dark of b within two pixels.
func strangers(a, b *image.Gray, box image.Rectangle) int {
	n := 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if a.GrayAt(x, y).Y < 64 && !inkNear(b, x, y) {
				n++
			}
		}
	}
	return n
}

func inkNear(img *image.Gray, x, y int) bool {
	for dy := -2; dy <= 2; dy++ {
		for dx := -2; dx <= 2; dx++ {
			if p := image.Pt(x+dx, y+dy); p.In(img.Bounds()) && img.GrayAt(p.X, p.Y).Y < 160 {
				return true
			}
		}
	}
	return false
}

// Poppler finds the words of people in the file, hidden ones too, whatever faces and code pages they need.
func TestTextIsFound(t *testing.T) {
	lines := []string{"Low Tide, quayside kiosk", "Größe façade Łódź", "Ωμέγα Якорь 1087 L", "½ × 7'-6 1/2\" – “front”", "(not) \\ checked"}
	file := write(t, one(func(p *tiling.Page) {
		for i, l := range lines {
			p.Layers[drawing.Notes].Texts = append(p.Layers[drawing.Notes].Texts, tiling.Text{At: pt(20, 300-float64(i)*20), Height: 3.5, Bold: i%2 == 1, Hidden: i == 2, Text: l})
		}
	}))
	text := reread.Text(t, file, 1)
	for _, l := range lines {
		require.Contains(t, strings.Join(strings.Fields(text), " "), l)
	}
	for _, w := range reread.Words(t, file) {
		if w.Text == "Tide," {
			require.InDelta(t, 20+lettering.Width("Low ", 3.5, false), w.Box.Min.X, 0.05)
			require.InDelta(t, 20+lettering.Width("Low Tide,", 3.5, false), w.Box.Max.X, 0.05)
		}
	}
}

// A character that the faces lack is a box, a byte that is no character the sign for one that is lost; both come back as
// that sign and are as wide as lettering says.
func TestMissingCharacters(t *testing.T) {
	const text = "a海\xff\n\x7fb"
	file := write(t, one(func(p *tiling.Page) {
		p.Layers[drawing.Notes].Texts = []tiling.Text{{At: pt(20, 100), Height: 10, Text: text}}
	}))
	reread.Check(t, file)
	lines := reread.Trace(t, file, "1")[0].Texts
	got := ""
	for _, l := range lines {
		got += l.Text
	}
	require.Equal(t, "a\ufffd\ufffd\ufffd\ufffdb", got)
	last := lines[len(lines)-1]
	require.InDelta(t, 20+lettering.Width(text, 10, false), last.At.X+last.Width, 0.02)
}

// A document that uses few letters carries few: one page with one word stays small.
func TestSmallDocumentsAreSmall(t *testing.T) {
	var b bytes.Buffer
	_, err := pdf.Write(&b, one(func(p *tiling.Page) {
		p.Layers[drawing.Notes].Texts = []tiling.Text{{At: pt(20, 100), Height: 10, Text: "3C"}}
	}), pdf.Options{})
	require.NoError(t, err)
	require.Less(t, b.Len(), 3000)
}
