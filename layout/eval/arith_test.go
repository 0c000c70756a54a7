package eval

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/unit"
)

// evaluator reads lets and returns an evaluator that knows them.
func evaluator(t *testing.T, units unit.System, text string) (*Evaluator, func() string) {
	t.Helper()
	list := &diag.List{Sources: &diag.Sources{}}
	id := list.Sources.Add("m", []byte(text))
	ev := New(units, list)
	for _, st := range notation.Parse(id, "m", []byte(text), nil, list).Statements {
		ev.Let(st.Name, st.NameSpan, st.Args.Get("="))
	}
	return ev, func() string {
		var b strings.Builder
		list.Print(&b, 20)
		return b.String()
	}
}

func TestArithmetic(t *testing.T) {
	for text, want := range map[string]unit.Value{
		"2 + 3 * 4":         {Kind: unit.Number, X: 14},
		"(2 + 3) * 4":       {Kind: unit.Number, X: 20},
		"7 - 2 - 1":         {Kind: unit.Number, X: 4},
		"-3":                {Kind: unit.Number, X: -3},
		"2ft + 1":           {Kind: unit.Length, X: 635}, // in inches: 24 + 1
		"1 - 2ft":           {Kind: unit.Length, X: -584.2},
		"2 * 3mm":           {Kind: unit.Length, X: 6},
		"2m * 3m":           {Kind: unit.Area, X: 6e6},
		"6mm / 4":           {Kind: unit.Length, X: 1.5},
		"6mm / 4mm":         {Kind: unit.Number, X: 1.5},
		"2m * 3m / 1m":      {Kind: unit.Length, X: 6000},
		"1:12 * 2.4m":       {Kind: unit.Length, X: 200},
		"2.4m * 1:12":       {Kind: unit.Length, X: 200},
		"200mm / 1:12":      {Kind: unit.Length, X: 2400},
		"1:12 + 1:12":       {Kind: unit.Slope, X: 1.0 / 6},
		"90deg / 4":         {Kind: unit.Angle, X: 22.5},
		"90deg - 22.5°":     {Kind: unit.Angle, X: 67.5},
		"90deg / 45deg":     {Kind: unit.Number, X: 2},
		"38kg + 2kg":        {Kind: unit.Weight, X: 40},
		"38kg * 2":          {Kind: unit.Weight, X: 76},
		"1m * 1m + 1m * 1m": {Kind: unit.Area, X: 2e6},
		"7'-6 1/2\" - 6'":   {Kind: unit.Length, X: 469.9}, // 18 1/2 in
	} {
		t.Run(text, func(t *testing.T) {
			ev, said := evaluator(t, unit.Inch, "let v = "+text)
			v, ok := ev.AskLet("v", diag.Span{})
			require.True(t, ok, said())
			require.Equal(t, want.Kind, v.Kind)
			require.InDelta(t, want.X, v.X, 1e-9)
		})
	}
}

func TestKindsDoNotMix(t *testing.T) {
	for text, want := range map[string]string{
		"90deg + 3mm":       "an angle and a length cannot be added",
		"3mm - 90deg":       "a length and an angle cannot be subtracted",
		"3mm + 1:12":        "a length and a slope cannot be added",
		"1m * 1m + 1":       "an area and a plain number cannot be added",
		"90deg * 3mm":       "an angle times a length is nothing that can be measured",
		"3kg * 3mm":         "a weight times a length is nothing that can be measured",
		"3 / 90deg":         "a plain number cannot be divided by an angle",
		"3 / 150mm":         "a plain number cannot be divided by a length",
		"3mm / 0":           "this divides by zero",
		"3mm / (1 - 1)":     "this divides by zero",
		"3mm / 0mm":         "this divides by zero",
		"620kg/m3 * 2m":     "a density times a length is nothing that can be measured",
		"9000m + 2000m":     "this is more than 10 km, the limit",
		"10001m":            "this is more than 10 km, the limit",
		"3mm / 0.00000001m": "", // a small divisor is none of our business
	} {
		t.Run(text, func(t *testing.T) {
			ev, said := evaluator(t, unit.Millimetre, "let v = "+text)
			_, ok := ev.AskLet("v", diag.Span{})
			require.Equal(t, want == "", ok)
			require.Contains(t, said(), want)
		})
	}
}

func TestEachIsAskedOnce(t *testing.T) {
	ev, said := evaluator(t, unit.Millimetre, "let a = b + c\nlet b = c * 2\nlet c = 3")
	n := 0
	var c Cell[int]
	for range 3 {
		v, ok := Ask(ev, &c, Name{Owner: "x"}, diag.Span{}, func() (int, bool) { n++; return 7, true })
		require.True(t, ok)
		require.Equal(t, 7, v)
	}
	require.Equal(t, 1, n)
	v, ok := ev.AskLet("a", diag.Span{})
	require.True(t, ok)
	require.Equal(t, 9.0, v.X)
	require.Empty(t, said())
}

func TestRingIsSaidOnce(t *testing.T) {
	ev, said := evaluator(t, unit.Millimetre, "let d = a\nlet a = b\nlet b = c\nlet c = a\nlet e = c + b")
	for _, name := range []string{"d", "e", "c", "a"} {
		_, ok := ev.AskLet(name, diag.Span{})
		require.False(t, ok)
	}
	require.Equal(t, 1, strings.Count(said(), "error"))
	require.Contains(t, said(), "a → b → c → a")
}

func TestLongRingIsShortened(t *testing.T) {
	text := "let v0 = v1\n"
	for i := 1; i < 40; i++ {
		text += "let v" + strings.Repeat("x", i) + " = v" + strings.Repeat("x", i+1) + "\n"
	}
	text = strings.Replace(text, "v1", "vx", 1) + "let v" + strings.Repeat("x", 40) + " = v0\n"
	ev, said := evaluator(t, unit.Millimetre, text)
	ev.AskLet("v0", diag.Span{})
	require.Contains(t, said(), "v0 → vx → vxx")
	require.Contains(t, said(), "→ … →")
}
