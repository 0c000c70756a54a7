// Package lettering measures text in the two faces that everything is lettered with, Go Regular and Go Bold:
// widths and heights in millimetres, what characters the faces have, and where a line breaks. It knows nothing
// of how text is written into a file.
//
// A text's height is that of its capitals, as in ISO 3098; Em gives the size of type that has it.
package lettering

import (
	"math"
	"unicode/utf8"
)

// The faces' own measures in units of the em, the same in Regular and Bold; a test reads them in the fonts.
const (
	UnitsPerEm = 2048
	capHeight  = 1480 // OS/2 sCapHeight
	ascent     = 1935 // hhea ascender
	descent    = 432  // hhea descender
)

// Ratios of the height of capitals: how far the tallest characters reach above the base line and the deepest
// below it, and the distance between base lines that keeps them apart.
const (
	Ascent  = float64(ascent) / capHeight
	Descent = float64(descent) / capHeight
	Leading = Ascent + Descent
)

// Em returns the size of type in millimetres whose capitals are height millimetres tall.
func Em(height float64) float64 { return height * UnitsPerEm / capHeight }

// Width returns how far text runs along its base line, in millimetres, where its capitals are height
// millimetres tall. A character that the face lacks is as wide as the box drawn for it. Control
// characters count like any other: text is one line.
func Width(text string, height float64, bold bool) float64 {
	return float64(Of(bold).width(text)) * height / capHeight
}

// Ink returns the box of a text's ink in millimetres, from the base line's left end, where its capitals are height millimetres
// tall; ok is false of a text without ink.
func Ink(text string, height float64, bold bool) (x0, y0, x1, y1 float64, ok bool) {
	f, pen := Of(bold), 0
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, r := range text {
		g := f.Glyph(r)
		if b := f.boxes[g]; b != [4]int16{} {
			x0, x1 = min(x0, float64(pen+int(b[0]))), max(x1, float64(pen+int(b[2])))
			y0, y1 = min(y0, float64(b[1])), max(y1, float64(b[3]))
		}
		pen += f.Advance(g)
	}
	if x0 > x1 {
		return 0, 0, 0, 0, false
	}
	k := height / capHeight
	return x0 * k, y0 * k, x1 * k, y1 * k, true
}

// width is that of text in units of the em.
func (f *Face) width(text string) int {
	w := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		if c >= utf8.RuneSelf {
			for _, r := range text[i:] {
				w += f.Advance(f.Glyph(r))
			}
			return w
		}
		w += int(f.ascii[c])
	}
	return w
}

// Lacks finds the first character of text that the faces have no glyph for: its byte index, the character
// (utf8.RuneError for a byte that is not UTF-8), and whether there is one. Control characters have no glyph.
func Lacks(text string) (index int, r rune, missing bool) {
	regular, bold := Of(false), Of(true)
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && n == 1 || regular.Glyph(r) == 0 || bold.Glyph(r) == 0 {
			return i, r, true
		}
		i += n
	}
	return 0, 0, false
}
