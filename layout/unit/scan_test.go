package unit

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestScanQuantity(t *testing.T) {
	// Inch and foot: 25.4 mm and 304.8 mm exactly (international yard and pound agreement, 1959).
	// Pound: 0.45359237 kg exactly (NIST SP 811, appendix B.8); lb/ft3: 16.01846 kg/m3 (the same table).
	for _, c := range []struct {
		text string
		kind Kind
		x    float64
		n    int
	}{
		{"2400", Number, 2400, 4},
		{"0.5", Number, 0.5, 3},
		{"0", Number, 0, 1},
		{"123456789012345678", Number, 123456789012345678, 18},
		{"0.3333333333333333333", Number, 1.0 / 3, 21},
		{"2400mm", Length, 2400, 6},
		{"240cm", Length, 2400, 5},
		{"2.4m", Length, 2400, 4},
		{`18"`, Length, 457.2, 3},
		{"6'", Length, 1828.8, 2},
		{`7'6"`, Length, 2286, 4},
		{`7'-6"`, Length, 2286, 5},
		{`7'-6 1/2"`, Length, 2298.7, 9},
		{`7'6 1/2"`, Length, 2298.7, 8},
		{`7'-1/2"`, Length, 2146.3, 7},
		{`7'-6.5"`, Length, 2298.7, 7},
		{`1'-0"`, Length, 304.8, 5},
		{`3/4"`, Length, 19.05, 4},
		{`6 1/2"`, Length, 165.1, 6},
		{`6   1/2"`, Length, 165.1, 8},
		{`6 1/2in`, Length, 165.1, 7},
		{"18in", Length, 457.2, 4},
		{"6ft", Length, 1828.8, 3},
		{"7′6″", Length, 2286, 8},
		{"7’-6”", Length, 2286, 9},
		{"22.5deg", Angle, 22.5, 7},
		{"22.5°", Angle, 22.5, 6},
		{"1:12", Slope, 1.0 / 12, 4},
		{"1:7.5", Slope, 1 / 7.5, 5},
		{"38kg", Weight, 38, 4},
		{"85lb", Weight, 38.55535145, 4},
		{"620kg/m3", Density, 620, 8},
		{"620kg/m³", Density, 620, 9},
		{"1lb/ft3", Density, 16.018463373960142, 7},
		{"1px", Pixels, 1, 3},
		// What follows does not belong to them.
		{`7' 6"`, Length, 2133.6, 2},
		{`7' - 6"`, Length, 2133.6, 2},
		{`7'-rise`, Length, 2133.6, 2},
		{`6 - 1/2"`, Number, 6, 1},
		{`6" 1/2"`, Length, 152.4, 2},
		{`6.5 1/2"`, Number, 6.5, 3},
		{"6 1/2", Number, 6, 1},
		{"3/4", Number, 3, 1},
		{"38kg/2", Weight, 38, 4},
		{"38kg/m30", Weight, 38, 4},
		{"1,5m", Number, 1, 1},
		{"0,0 1200,0", Number, 0, 1},
		{"12 13", Number, 12, 2},
		{"7..10", Number, 7, 1},
		{"1 : 12", Number, 1, 1},
		{"140-50", Number, 140, 3},
		{"140)", Number, 140, 3},
		{"140 mm", Number, 140, 3},
	} {
		v, bare, n, err := ScanQuantity([]byte(c.text))
		require.NoError(t, err, c.text)
		require.Equal(t, c.kind, v.Kind, c.text)
		require.InDelta(t, c.x, v.X, math.Abs(c.x)*1e-12, c.text)
		require.Equal(t, c.n, n, c.text)
		require.Equal(t, c.kind == Number, bare, c.text)
	}
}

// What people write in two ways is one value to the last bit.
func TestScanQuantityExact(t *testing.T) {
	for a, b := range map[string]string{
		`18"`: "457.2mm", `6"`: "152.4mm", `7'-6 1/2"`: "2298.7mm", "6ft": "1828.8mm", `1/16"`: "1.5875mm", "1.005m": "1005mm", "240.7cm": "2407mm",
		"18in": "457.2mm", `7'6"`: `90"`,
	} {
		x, _, _, err := ScanQuantity([]byte(a))
		require.NoError(t, err)
		y, _, _, err := ScanQuantity([]byte(b))
		require.NoError(t, err)
		require.Equal(t, y.X, x.X, a)
	}
}

func TestScanQuantityErrors(t *testing.T) {
	// The caret line marks the words the error points at; ~ stands for one byte before them.
	long := strings.Repeat("7", 300)
	for _, c := range []struct {
		text, words, message, hint string
	}{
		{"6'-3", "3", "the inch mark is missing after the inches", "write `6'-3\"` for feet and inches, `6' - 3` for a subtraction"},
		{"6'3", "3", "the inch mark is missing after the inches", "write `6'-3\"` for feet and inches, `6' - 3` for a subtraction"},
		{"6'-3mm", "3", "the inch mark is missing after the inches", "write `6'-3\"` for feet and inches, `6' - 3` for a subtraction"},
		{"7'-6 1/2", "6", "the inch mark is missing after the inches", "write `7'-6\"` for feet and inches, `7' - 6` for a subtraction"},
		{`6'-18"`, `18"`, "inches after feet are less than 12", "write `7'-6\"` if they are to be added, `6' - 18\"` for a subtraction"},
		{"18''", "18''", "inches are written with an inch mark, not with two foot marks", "write `18\"`"},
		{`7.5'6"`, `7.5'6"`, "feet that inches follow are whole feet", ""},
		{`6-1/2"`, `6-1/2"`, "whole inches and a fraction have a space between them", "write `6 1/2\"`, or `6 - 1/2\"` for a subtraction"},
		{`6 3/2"`, `3/2"`, "the fraction after whole inches or feet is less than 1", ""},
		{`3/0"`, `3/0"`, "a fraction's lower number is more than 0", ""},
		{long, long, "a number has at most 40 digits, this one has 300", ""},
		{"1.2.3", "1.2.3", "a number has one decimal point", ""},
		{"2.", "2.", "a digit is missing after the decimal point", "write `2` or `2.0`"},
		{".5m", ".5", "a digit stands before the decimal point", "write `0.5`"},
		{"1e5", "e5", "a number has no exponent", "write its digits out"},
		{"1E-5", "E-5", "a number has no exponent", "write its digits out"},
		{"1:0", "0", "the run of a slope is more than 0", ""},
		{"1:12mm", "1:12", "a slope is two plain numbers", "write `1:12`"},
		{"2400MM", "MM", "`MM` is not a unit", "write `2400mm`"},
		{"30degrees", "degrees", "`degrees` is not a unit", "write `30deg`"},
		{"30º", "º", "`º` is not a unit", "write `30deg`"},
		{"500g", "g", "`g` is not a unit", "write `0.5kg`"},
		{"2yd", "yd", "`yd` is not a unit", "write `6ft`"},
		{"5furlongs", "furlongs", "`furlongs` is not a unit", unitsKnown},
		{"1200x2400", "x2400", "a size has spaces around its `x`", "write `1200 x 2400`"},
		{"9mx8m", "mx8m", "a size has spaces around its `x`", "write `1200 x 2400`"},
		{"6½", "½", "fractions are written with digits", "write `6 1/2\"`"},
		{"", "", "a number is wanted here", ""},
		{"rise", "", "a number is wanted here", ""},
	} {
		_, _, n, err := ScanQuantity([]byte(c.text))
		var e *ScanError
		require.ErrorAs(t, err, &e, c.text)
		require.Equal(t, c.message, e.Message, c.text)
		require.Equal(t, c.hint, e.Hint, c.text)
		require.Equal(t, c.words, c.text[e.Offset:e.Offset+e.Length], c.text)
		require.LessOrEqual(t, e.Offset+e.Length, n, c.text)
	}
}

func TestParse(t *testing.T) {
	v, bare, err := Parse(` -7'-6" `)
	require.NoError(t, err)
	require.False(t, bare)
	require.InDelta(t, -2286, v.X, 1e-9)

	mm, err := ParseLength("1.8m", Inch)
	require.NoError(t, err)
	require.Equal(t, 1800.0, mm)
	mm, err = ParseLength("18", Inch)
	require.NoError(t, err)
	require.InDelta(t, 457.2, mm, 1e-9)

	for text, want := range map[string]string{
		"1,5m":     "a number has a decimal point, not a comma; write `1.5m`",
		"1,200":    "a number has a decimal point, not a comma; write `1200` for thousands, `1.200` for a decimal",
		"2400 mm":  "a unit touches its number; write `2400mm`",
		"30deg":    "a length is wanted, not an angle",
		"38kg":     "a length is wanted, not a weight",
		"12 13":    "` 13` is not part of a quantity",
		"":         "a number is wanted here",
		"--5":      "a number is wanted here",
		"2400inch": "`inch` is not a unit; write `2400in`",
	} {
		_, err := ParseLength(text, Millimetre)
		require.EqualError(t, err, want, text)
	}
}

func FuzzScanQuantity(f *testing.F) {
	for _, s := range []string{"2400mm", `7'-6 1/2"`, "1:12", "620kg/m3", "6'-3", "1e5", "6½", ".5", "7..10", `6-1/2"`, "9mx8m", "7’6”", "22.5°"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		v, bare, n, err := ScanQuantity(text)
		require.GreaterOrEqual(t, n, 0)
		require.LessOrEqual(t, n, len(text))
		if err != nil {
			e := err.(*ScanError)
			require.GreaterOrEqual(t, e.Offset, 0)
			require.LessOrEqual(t, e.Offset+e.Length, n)
			require.NotEmpty(t, e.Message)
			return
		}
		require.Positive(t, n)
		require.Equal(t, v.Kind == Number, bare)
		require.False(t, math.IsNaN(v.X) || math.IsInf(v.X, 0))
		// A quantity depends on nothing but its own bytes.
		again, _, m, err := ScanQuantity(text[:n:n])
		require.NoError(t, err)
		require.Equal(t, n, m)
		require.Equal(t, v, again)
		if v.Kind == Length && v.X < 1e9 {
			printed := AppendLength(nil, v.X, Foot, 0)
			back, _, m, err := ScanQuantity(printed)
			require.NoError(t, err, string(printed))
			require.Equal(t, len(printed), m, string(printed))
			require.InDelta(t, v.X, back.X, Sixteenth/2+1e-6, string(printed))
			printed = append(AppendLength(nil, v.X, Metre, 0), 'm')
			back, _, _, err = ScanQuantity(printed)
			if digits := len(printed); digits < MaxDigits {
				require.NoError(t, err, string(printed))
				require.InEpsilon(t, v.X+1, back.X+1, 1e-12, string(printed))
			}
		}
	})
}

// The short way through plain numbers gives strconv's answer to the last bit.
func FuzzPlainNumber(f *testing.F) {
	f.Add(uint64(848528137), uint8(3))
	f.Add(uint64(999999999999999), uint8(14))
	f.Fuzz(func(t *testing.T, mantissa uint64, places uint8) {
		digits := strconv.FormatUint(mantissa, 10)
		if p := int(places) % 16; p > 0 && p < len(digits) {
			digits = digits[:len(digits)-p] + "." + digits[len(digits)-p:]
		}
		want, err := strconv.ParseFloat(digits, 64)
		require.NoError(t, err)
		v, bare, n, err := ScanQuantity([]byte(digits + " "))
		require.NoError(t, err)
		require.True(t, bare)
		require.Equal(t, len(digits), n)
		require.Equal(t, want, v.X)
	})
}

func BenchmarkScanPlain(b *testing.B) {
	text := []byte("848.528,")
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		ScanQuantity(text)
	}
}
