package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParseScale(t *testing.T) {
	for _, c := range []struct {
		text        string
		denominator float64
		words       string
	}{
		{"1:25", 25, "1:25"},
		{" 1 : 25 ", 25, "1:25"},
		{"1:33.3", 33.3, "1:33.3"},
		{"1:33 1/3", 100.0 / 3, "1:33 1/3"},
		{"2:1", 0.5, "2:1"}, // an enlargement of ISO 5455:1979
		// Architectural scales, inches to the foot, as handbooks list them: 3" is 1:4 … 1/32" is 1:384.
		{`3" = 1'-0"`, 4, `3" = 1'-0"`},
		{`1 1/2" = 1'-0"`, 8, `1 1/2" = 1'-0"`},
		{`1"=1'`, 12, `1" = 1'-0"`},
		{`3/4" = 1'-0"`, 16, `3/4" = 1'-0"`},
		{`1/2" = 1'-0"`, 24, `1/2" = 1'-0"`},
		{`3/8" = 1'-0"`, 32, `3/8" = 1'-0"`},
		{`1/4" = 1'-0"`, 48, `1/4" = 1'-0"`},
		{`3/16" = 1'-0"`, 64, `3/16" = 1'-0"`},
		{`1/8" = 1'-0"`, 96, `1/8" = 1'-0"`},
		{`3/32" = 1'-0"`, 128, `3/32" = 1'-0"`},
		{`1/16" = 1'-0"`, 192, `1/16" = 1'-0"`},
		{`1/32" = 1'-0"`, 384, `1/32" = 1'-0"`},
		{`1" = 20'`, 240, `1" = 20'`}, // the engineer's scale
		{`1cm = 1m`, 100, `1cm = 1m`},
	} {
		s, err := ParseScale(c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.denominator, s.Denominator, 1e-12*c.denominator, c.text)
		require.Equal(t, c.words, s.Words, c.text)
		again, err := ParseScale(s.Words)
		require.NoError(t, err, c.text)
		require.Equal(t, s, again)
	}
	// 24 ft at 1:48 is 6 in; 1 m at 1:25 is 40 mm.
	s, _ := ParseScale(`1/4" = 1'-0"`)
	require.InDelta(t, 6*25.4, 24*304.8/s.Denominator, 1e-9)
}

func TestParseScaleErrors(t *testing.T) {
	for text, want := range map[string]struct{ words, message string }{
		"25":       {"25", "a scale is a ratio or two lengths"},
		"":         {"", "a scale is a ratio or two lengths"},
		"1:0":      {"0", "a ratio is two plain numbers above 0"},
		"1:25mm":   {"25mm", "a ratio is two plain numbers above 0"},
		"1:33 5/3": {"33 5/3", "a ratio is two plain numbers above 0"},
		"1:x":      {"", "a number is wanted here"},
		`1/4" = 1`: {`1/4" = 1`, "a scale is a length on paper for a length of the thing"},
		`1" = 6'3`: {"3", "the inch mark is missing after the inches"},
		`1" = 0'`:  {`1" = 0'`, "a scale is a length on paper for a length of the thing"},
	} {
		_, err := ParseScale(text)
		var e *ScanError
		require.ErrorAs(t, err, &e, text)
		require.Equal(t, want.message, e.Message, text)
		require.Equal(t, want.words, text[e.Offset:min(len(text), e.Offset+e.Length)], text)
	}
}

func TestFormatScale(t *testing.T) {
	require.Equal(t, "1:25", FormatScale(25, Millimetre))
	require.Equal(t, "1:48", FormatScale(48, Millimetre))
	require.Equal(t, `1/4" = 1'-0"`, FormatScale(48, Foot))
	require.Equal(t, `1 1/2" = 1'-0"`, FormatScale(8, Inch))
	require.Equal(t, "1:25", FormatScale(25, Foot))
	require.Equal(t, "2:1", FormatScale(0.5, Millimetre))
}

func FuzzParseScale(f *testing.F) {
	f.Add("1:25")
	f.Add(`1/4" = 1'-0"`)
	f.Add("1:33 1/3")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseScale(text)
		if err != nil {
			e := err.(*ScanError)
			require.GreaterOrEqual(t, e.Offset, 0)
			require.LessOrEqual(t, e.Offset, len(text))
			return
		}
		require.Positive(t, s.Denominator)
		again, err := ParseScale(s.Words)
		require.NoError(t, err, s.Words)
		require.InEpsilon(t, s.Denominator, again.Denominator, 1e-9)
	})
}
