package notation

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
)

// said lists the errors as line:column: message.
func said(list *diag.List) []string {
	var out []string
	for _, d := range list.Sorted() {
		at := list.Sources.Position(d.Span)
		at.File = "f"
		out = append(out, strings.TrimPrefix(at.String(), "f:")+": "+d.Message)
	}
	return out
}

func TestBytes(t *testing.T) {
	for text, want := range map[string][]string{
		"\ufeffplatform deck\r\n    height 450\r\n":                nil,
		"platform deck\r\n    outline points 0,0\r\n      5,5\r\n": nil,
		"platform\tdeck\n    height\t450 \t\n":                     nil,
		"platform de\x01ck\n":                                      {"1:12: a control character (U+0001) stands here"},
		"platform deck\n    height 4\x00\x0050 mm\n":               {"2:13: a control character (U+0000) stands here"},
		"platform deck\n    note \"a\xffb\"\n    at 5\n":           {"2:12: this byte is not UTF-8", "3:8: `,` and the second value of a point is missing after `5`"},
		"platform deck\r    height 450\n":                          {"1:14: a control character (U+000D) stands here"},
		"platform deck\u0085\n":                                    {"1:14: a control character (U+0085) stands here"},
		"# caf\xe9\nplatform deck\n":                               {"1:6: this byte is not UTF-8"},
		"platform deck\n    note \"\ufeff\"\n":                     nil,
		"platform deck\n\u00a0   height 450\n":                     {"2:1: this is no plain space"},
		"platform deck\n\theight 450\n":                            {"2:1: a tab stands in the indentation"},
		"platform deck\n    height 450\n  \tclosed\n":              {"3:3: a tab stands in the indentation"},
		"platform deck\n\t# a comment\n\t\n    height 450\n":       nil,
	} {
		_, list := parseText(t, text)
		require.Equal(t, want, said(list), "%q", text)
	}
}

func TestNoTextFile(t *testing.T) {
	_, list := parseText(t, strings.Repeat("\x00\x01 ", 10_000))
	got := said(list)
	require.Len(t, got, maxBroken)
	require.Contains(t, got[maxBroken-1], "this is no text file")
}

func TestLimitsAreNamed(t *testing.T) {
	for text, want := range map[string]string{
		"let a = " + strings.Repeat("(", 10_000) + "5" + strings.Repeat(")", 10_000): "1:1009: brackets stand at most 1000 deep",
		"let a = " + strings.Repeat("b.c(", 2000) + "5" + strings.Repeat(")", 2000):  "1:4012: brackets stand at most 1000 deep",
		"let a = 1" + strings.Repeat(" + 1", 20_000):                                 "1:40011: a line has at most 10000 signs of arithmetic",
		"let a = " + strings.Repeat("7", 300):                                        "1:9: a number has at most 40 digits, this one has 300",
		"let a = " + strings.Repeat("-", 300) + "5":                                  "1:10: two signs stand in a row",
	} {
		_, list := parseText(t, text)
		require.Equal(t, []string{want}, said(list))
	}
	_, list := parseText(t, "let a = "+strings.Repeat("(", 1000)+"5"+strings.Repeat(")", 1000))
	require.Empty(t, said(list))
}

func TestBadPartsAreMarked(t *testing.T) {
	f, _ := parseText(t, "rostrum deck\n    heigth 450\n    at 5\nzebra z\n    a 5\nlet a 5\nplatform at\n")
	require.Len(t, f.Statements, 4)
	deck := f.Statements[0]
	require.Equal(t, []any{"platform", "deck", true}, []any{deck.Word, deck.Name, deck.Bad})
	require.Len(t, deck.Attributes, 2)
	require.Equal(t, []any{"height", true}, []any{deck.Attributes[0].Word, deck.Attributes[0].Bad})
	require.Equal(t, []any{"at", true}, []any{deck.Attributes[1].Word, deck.Attributes[1].Bad})
	z := f.Statements[1]
	require.Equal(t, []any{"zebra", "z", true}, []any{z.Word, z.Name, z.Bad})
	a := f.Statements[2]
	require.Equal(t, []any{"let", "a", true}, []any{a.Word, a.Name, a.Bad})
	require.Equal(t, []any{"platform", "", true}, []any{f.Statements[3].Word, f.Statements[3].Name, f.Statements[3].Bad})
}

func TestSpans(t *testing.T) {
	text := "# top\nplatform deck  # a\n    outline points 0,0 5,5\n        6,6  # b\n    height 450\n\npost p\n"
	f, list := parseText(t, text)
	require.False(t, list.HasErrors())
	words := func(sp diag.Span) string { return text[sp.From:sp.To] }
	deck := f.Statements[0]
	require.Equal(t, "platform deck  # a\n    outline points 0,0 5,5\n        6,6  # b\n    height 450", words(deck.Span))
	require.Equal(t, "outline points 0,0 5,5\n        6,6", words(deck.Attributes[0].Span))
	require.Equal(t, "points 0,0 5,5\n        6,6", words(deck.Attributes[0].Args[0].Value.Pos()))
	require.Equal(t, "post p", words(f.Statements[1].Span))
	require.Equal(t, []string{"true# top", "false# a", "false# b"}, comments(f))
}

func TestPlacesInsideValues(t *testing.T) {
	text := "platform deck\n    outline points 0,0 1,0  # first\n        -2, 0 3,0 4,0 5,0 6,-6.5 7,0\n    note \"a \\\"b\\\" c\"\n"
	f, _ := parseText(t, text)
	flat := f.Statements[0].Attributes[0].Args[0].Value.(*Outline).Args[0].Value.(*Floats)
	for i, want := range []string{"0", "0", "1", "0", "-2", "0", "3", "0", "4", "0", "5", "0", "6", "-6.5", "7", "0"} {
		sp := flat.At([]byte(text), i)
		require.Equal(t, want, text[sp.From:sp.To], i)
	}
	require.Equal(t, flat.Span, flat.At([]byte(text), 99))
	note := f.Statements[0].Attributes[1].Args[0].Value.(*Text)
	require.Equal(t, `a "b" c`, note.Value)
	at := func(from, to int) string { sp := note.At(from, to); return text[sp.From:sp.To] }
	require.Equal(t, "b", at(3, 4))
	require.Equal(t, `c`, at(6, 7))
	require.Equal(t, `a \"b\" c`, at(0, 7))
}

func TestParseAttribute(t *testing.T) {
	var steps Kind
	for _, k := range sampleKinds {
		if k.Word == "steps" {
			steps = k
		}
	}
	parse := func(text string, from int, word string) (*Attribute, []string) {
		list := &diag.List{Sources: &diag.Sources{}}
		id := list.Sources.Add("--with", []byte(text))
		return ParseAttribute(id, []byte(text), from, steps, word, list), said(list)
	}
	a, errs := parse("front.risers=8", 13, "risers")
	require.Empty(t, errs)
	require.Equal(t, "8", dumpArgs(a.Args))
	require.Equal(t, int32(6), a.WordSpan.From)
	a, errs = parse("front.meets=deck.front + (20, 0)", 12, "meets")
	require.Empty(t, errs)
	require.Equal(t, "{deck.front+(20,0)}", dumpArgs(a.Args))
	a, errs = parse("front.risers=8 mm", 13, "risers")
	require.True(t, a.Bad)
	require.Equal(t, []string{"1:14: a unit touches its number"}, errs)
	a, errs = parse("front.risers=", 13, "risers")
	require.True(t, a.Bad)
	require.Equal(t, []string{"1:7: a value is missing after `risers`"}, errs)
	a, errs = parse("front.risres=8", 13, "risres")
	require.True(t, a.Bad)
	require.Equal(t, []string{"1:7: `steps` takes no `risres`"}, errs)

	list := &diag.List{Sources: &diag.Sources{}}
	id := list.Sources.Add("--with", []byte("rise=160"))
	args, ok := ParseForm(id, []byte("rise=160"), 5, "VALUE", list)
	require.True(t, ok)
	require.Equal(t, "160", dumpArgs(args))
	_, ok = ParseForm(id, []byte("rise=160,"), 5, "VALUE", list)
	require.False(t, ok)
}

func TestCompileForm(t *testing.T) {
	for form, want := range map[string]string{
		"VALUE (":         "`)` is missing",
		"VALUE )":         "`)` closes nothing",
		"[ VALUE )":       "`)` closes nothing",
		"HEIGHT":          "`HEIGHT` is no value",
		"a||b":            "a word is missing in `a||b`",
		"( a | )":         "a branch is empty",
		"[VALUE] } VALUE": "`}` closes nothing",
	} {
		_, err := CompileForm(form)
		require.ErrorContains(t, err, want, form)
	}
	f, err := CompileForm("VALUE [class I|II|III]")
	require.NoError(t, err)
	require.Equal(t, []string{"class", "I", "II", "III"}, f.Words())
	require.Equal(t, "VALUE [class I|II|III]", f.String())
}

// A table that is broken is the program's slip: it is said, and nothing panics.
func TestBrokenTable(t *testing.T) {
	list := &diag.List{Sources: &diag.Sources{}}
	text := []byte("thing a\n    b 5\n")
	id := list.Sources.Add("a", text)
	Parse(id, "a", text, []Kind{{Word: "thing", Named: true, Head: "(", Attributes: []Attr{{Word: "b", Form: "FOO"}}}}, list)
	require.Len(t, list.Sorted(), 2)
	require.Error(t, CheckKinds([]Kind{{Word: "thing", Attributes: []Attr{{Word: "b", Sub: []Attr{{Word: "c", Form: "["}}}}}}))
}

func TestSuggest(t *testing.T) {
	among := []string{"platform", "steps", "flat", "post", "height", "risers", "centre", "at", "by"}
	for word, want := range map[string]string{
		"platfrom": "platform", "Platform": "platform", "rostrum": "platform", "rostrums": "platform", "stairs": "steps", "wall": "flat", "column": "post",
		"center": "centre", "heigth": "height", "hieght": "height", "treads": "risers", "zebra": "", "height": "", "x": "", "bt": "", "stps": "steps",
		strings.Repeat("a", 10_000): "",
	} {
		require.Equal(t, want, Suggest(word, among), short(word))
	}
}

func TestIsName(t *testing.T) {
	for word, want := range map[string]bool{"deck": true, "_a1": true, "größe": true, "1a": false, "": false, "at": false, "x": false, "a-b": false, "At": true} {
		require.Equal(t, want, IsName(word), word)
	}
	// The words that join values, as the notation lists them.
	for _, w := range strings.Fields("x at by to from in on of line arc curve close radius through handles long around along every facing least") {
		require.True(t, IsJoining(w), w)
	}
	require.Len(t, joining, 21)
}
