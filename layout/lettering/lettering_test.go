package lettering_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"markout/layout/lettering"
)

// parsed are the two fonts as the general font library golang.org/x/image/font/sfnt reads them.
func parsed(t *testing.T) map[bool]*sfnt.Font {
	fonts := map[bool]*sfnt.Font{}
	for isBold, data := range map[bool][]byte{false: goregular.TTF, true: gobold.TTF} {
		f, err := sfnt.Parse(data)
		require.NoError(t, err)
		fonts[isBold] = f
	}
	return fonts
}

func TestEveryCharacterAndWidthIsTheFonts(t *testing.T) {
	for isBold, want := range parsed(t) {
		face := lettering.Of(isBold)
		require.Equal(t, want.NumGlyphs(), face.Glyphs())
		require.EqualValues(t, lettering.UnitsPerEm, want.UnitsPerEm())
		var buf sfnt.Buffer
		found := 0
		for r := rune(0); r <= 0x10ffff; r++ {
			glyph, err := want.GlyphIndex(&buf, r)
			require.NoError(t, err)
			if uint16(glyph) != face.Glyph(r) {
				require.Equal(t, uint16(glyph), face.Glyph(r), "%U", r)
			}
			if glyph == 0 {
				continue
			}
			found++
			advance, err := want.GlyphAdvance(&buf, glyph, fixed.I(lettering.UnitsPerEm), font.HintingNone)
			require.NoError(t, err)
			require.Equal(t, advance.Round(), face.Advance(uint16(glyph)), "%U", r)
		}
		require.Greater(t, found, 600)
	}
}

func TestCapitalsAreAsTallAsAsked(t *testing.T) {
	for isBold, f := range parsed(t) {
		var buf sfnt.Buffer
		glyph, err := f.GlyphIndex(&buf, 'H')
		require.NoError(t, err)
		box, _, err := f.GlyphBounds(&buf, glyph, fixed.I(lettering.UnitsPerEm), font.HintingNone)
		require.NoError(t, err)
		em := lettering.Em(20)
		require.InDelta(t, 20, float64(-box.Min.Y.Round())*em/lettering.UnitsPerEm, 1e-9, "bold %v", isBold)

		m, err := f.Metrics(&buf, fixed.I(lettering.UnitsPerEm), font.HintingNone)
		require.NoError(t, err)
		require.InDelta(t, float64(m.Ascent.Round())/1480, lettering.Ascent, 1e-12)
		require.InDelta(t, float64(m.Descent.Round())/1480, lettering.Descent, 1e-12)
	}
}

// A column of figures stays aligned on the unit without tabulation, and so does a sign that stands for a figure.
func TestFiguresAreOfEqualWidth(t *testing.T) {
	for _, isBold := range []bool{false, true} {
		zero := lettering.Width("0", 3.5, isBold)
		require.Positive(t, zero)
		for _, figure := range "0123456789" {
			require.Equal(t, zero, lettering.Width(string(figure), 3.5, isBold), "%c", figure)
		}
		require.InDelta(t, 4*zero, lettering.Width("1087", 3.5, isBold), 1e-12)
	}
}

func TestWidth(t *testing.T) {
	require.Zero(t, lettering.Width("", 5, false))
	require.InDelta(t, lettering.Width("A", 1, false)+lettering.Width("é", 1, false)+lettering.Width("V", 1, false), lettering.Width("AéV", 1, false), 1e-12)
	require.InDelta(t, 2*lettering.Width("floor 3C", 10, true), lettering.Width("floor 3C", 20, true), 1e-9)
	require.Greater(t, lettering.Width("floor", 10, true), lettering.Width("floor", 10, false))
	require.Zero(t, testing.AllocsPerRun(100, func() { lettering.Width("centre line −1087 to 450, Ø89 · façade", 3.5, false) }))
}

func TestLacks(t *testing.T) {
	for text, want := range map[string]struct {
		index int
		r     rune
	}{
		"Kai 海":            {4, '海'},
		"a\tb":             {1, '\t'},
		"\xff":             {0, utf8.RuneError},
		"Ø89\x80":          {4, utf8.RuneError},
		"two\nlines":       {3, '\n'},
		"shell \U0001f41a": {6, '\U0001f41a'},
	} {
		index, r, missing := lettering.Lacks(text)
		require.True(t, missing, "%q", text)
		require.Equal(t, want.index, index, "%q", text)
		require.Equal(t, want.r, r, "%q", text)
	}
	for _, text := range []string{"", "floor 3C", "7'-6 1/2\"", "Ø89 × 700 at 22.5° – ½ ′ ″ ’ ”", "Größe façade Łódź Ωμέγα Якорь"} {
		_, r, missing := lettering.Lacks(text)
		require.False(t, missing, "%q: %U", text, r)
	}
}

func TestWrap(t *testing.T) {
	w := func(s string) float64 { return lettering.Width(s, 3.5, false) }
	for name, c := range map[string]struct {
		text  string
		width float64
		want  []string
	}{
		"empty":           {"", 50, []string{""}},
		"one line":        {"lay this page face up", 500, []string{"lay this page face up"}},
		"exactly":         {"lay this", w("lay this"), []string{"lay this"}},
		"a hair too wide": {"lay this", w("lay this") - 0.01, []string{"lay", "this"}},
		"spaces go":       {"  lay   this ", w("this") + 0.01, []string{"lay", "this"}},
		"spaces kept":     {"lay   this", 100, []string{"lay   this"}},
		"line breaks":     {"one\n\ntwo", 100, []string{"one", "", "two"}},
		"long word":       {"WWWWW a", w("WW") + 0.01, []string{"WW", "WW", "W a"}},
		"no room":         {"Wé", 0, []string{"W", "é"}},
		"a date is whole": {"B 2026-11-20", w("2026-11-20"), []string{"B", "2026-11-20"}},
		"no-break stays":  {"at 2.4\u00a0m now", w("2.4\u00a0m"), []string{"at", "2.4\u00a0m", "now"}},
	} {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, c.want, lettering.Wrap(c.text, 3.5, false, c.width))
		})
	}
}

// Whatever the text, every line fits or is one character, and no character but spaces at line ends is lost.
func FuzzWrap(f *testing.F) {
	f.Add("check with local codes and a competent, licensed person", 40.0)
	f.Add("WWWWWW \n\t\xff海", 3.0)
	f.Add("   ", 0.0)
	f.Fuzz(func(t *testing.T, text string, width float64) {
		bare := func(s string) string {
			return strings.NewReplacer(" ", "", "\t", "", "\n", "").Replace(s)
		}
		lines := lettering.Wrap(text, 2.5, true, width)
		for _, line := range lines {
			if utf8.RuneCountInString(line) > 1 {
				require.LessOrEqual(t, lettering.Width(line, 2.5, true), max(width, 0)+1e-3, "%q", line)
			}
		}
		require.Equal(t, bare(text), bare(strings.Join(lines, "")))
	})
}

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		lettering.Width("centre line 1087 to 1467", 3.5, false)
	}
}

func BenchmarkLacks(b *testing.B) {
	for b.Loop() {
		lettering.Lacks("centre line 1087 to 1467")
	}
}
