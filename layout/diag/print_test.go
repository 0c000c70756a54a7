package diag

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// listOf returns a list over one text named kiosk.markout.
func listOf(text string) (*List, FileID) {
	l := &List{Sources: &Sources{}}
	return l, l.Sources.Add("kiosk.markout", []byte(text))
}

func spanOf(id FileID, text, words string) Span {
	i := strings.Index(text, words)
	return Span{id, int32(i), int32(i + len(words))}
}

func printed(l *List, limit int) string {
	var out bytes.Buffer
	_ = l.Print(&out, limit)
	return out.String()
}

func TestPrint(t *testing.T) {
	for name, c := range map[string]struct{ text, words, want string }{
		"exact words": {"steps front\n    meets    dekc.front\n", "dekc",
			"kiosk.markout:2:14: error: wrong\n      meets    dekc.front\n               ^^^^\n"},
		"tab kept": {"a\n\tmeets dekc\n", "dekc",
			"kiosk.markout:2:8: error: wrong\n  \tmeets dekc\n  \t      ^^^^\n"},
		"byte order mark": {"\ufeffplatfrom deck\r\n", "platfrom",
			"kiosk.markout:1:1: error: wrong\n  platfrom deck\n  ^^^^^^^^\n"},
		"columns are characters": {"note \"Höhe\" 5\n", "5",
			"kiosk.markout:1:13: error: wrong\n  note \"Höhe\" 5\n              ^\n"},
		"wide letters": {"note \"高さ\" 5\n", "5",
			"kiosk.markout:1:11: error: wrong\n  note \"高さ\" 5\n        \u3000\u3000  ^\n"},
		"control character": {"rise\x01 5\n", "\x01",
			"kiosk.markout:1:5: error: wrong\n  rise· 5\n      ^\n"},
		"not UTF-8": {"rise\xff 5\n", "5",
			"kiosk.markout:1:7: error: wrong\n  rise· 5\n        ^\n"},
		"over the line's end": {"path 0,0\n  line 5\n", "0,0\n  line",
			"kiosk.markout:1:6: error: wrong\n  path 0,0\n       ^^^\n"},
		"end of the line": {"height\n", "\n",
			"kiosk.markout:1:7: error: wrong\n  height\n        ^\n"},
		"no last line end": {"height 5", "5",
			"kiosk.markout:1:8: error: wrong\n  height 5\n         ^\n"},
	} {
		l, id := listOf(c.text)
		l.Errorf(spanOf(id, c.text, c.words), "wrong")
		require.Equal(t, c.want, printed(l, 20), name)
	}
}

func TestPrintHintCautionAndNoPlace(t *testing.T) {
	text := "steps front\n    rise 230\n"
	l, id := listOf(text)
	l.Add(Diagnostic{Span: spanOf(id, text, "230"), Severity: Caution, Code: "STEP-RISE", Message: "high rise"})
	l.Hintf(spanOf(id, text, "rise"), "wrong\x1b[2J", "write `%s`", "total")
	l.Errorf(Span{}, "no such file")
	require.Equal(t, `error: no such file
kiosk.markout:2:5: error: wrong·[2J
      rise 230
      ^^^^
  hint: write `+"`total`"+`
kiosk.markout:2:10: caution: high rise [STEP-RISE]
      rise 230
           ^^^
`, printed(l, 20))
}

func TestPrintCountsWhatIsLeft(t *testing.T) {
	text := strings.Repeat("x\n", 30)
	l, id := listOf(text)
	for i := range 23 {
		l.Errorf(Span{id, int32(2 * i), int32(2*i + 1)}, "wrong")
	}
	l.Add(Diagnostic{Span: Span{id, 58, 59}, Severity: Caution, Code: "C", Message: "careful"})
	got := printed(l, 20)
	require.Equal(t, 20, strings.Count(got, "error: wrong"))
	require.Contains(t, got, "caution: careful [C]")
	require.True(t, strings.HasSuffix(got, "… and 3 more errors\n"), got)
	require.Equal(t, 23, strings.Count(printed(l, 0), "error: wrong"))
	require.True(t, strings.HasSuffix(printed(l, 22), "… and 1 more error\n"))
}

func TestPrintCutsWideLines(t *testing.T) {
	text := "points " + strings.Repeat("100,200 ", 200) + "dekc " + strings.Repeat("300,400 ", 200)
	l, id := listOf(text)
	l.Errorf(spanOf(id, text, "dekc"), "wrong")
	lines := strings.Split(printed(l, 20), "\n")
	require.LessOrEqual(t, utf8.RuneCountInString(lines[1]), excerptColumns+4)
	require.True(t, strings.HasPrefix(lines[1], "  …"))
	require.True(t, strings.HasSuffix(lines[1], "…"))
	at := strings.Index(lines[2], "^^^^")
	require.Equal(t, "dekc", string([]rune(lines[1])[at:at+4]))
}

func TestSortedIsByPlaceAndKeepsOneOfEqual(t *testing.T) {
	text := "a\nb\nc\n"
	l, id := listOf(text)
	for _, i := range []int32{4, 0, 2, 0} {
		l.Errorf(Span{id, i, i + 1}, "wrong")
	}
	var at []int32
	for _, d := range l.Sorted() {
		at = append(at, d.Span.From)
	}
	require.Equal(t, []int32{0, 2, 4}, at)
}

func FuzzPrint(f *testing.F) {
	f.Add([]byte("steps front\n\tmeets 高さ\x01\xff\r\n"), int32(3), int32(9))
	f.Add([]byte("\ufeff"), int32(0), int32(3))
	f.Fuzz(func(t *testing.T, text []byte, from, to int32) {
		l := &List{Sources: &Sources{}}
		id := l.Sources.Add("a", text)
		l.Errorf(Span{id, from, to}, "wrong")
		got := printed(l, 20)
		require.True(t, utf8.ValidString(got), fmt.Sprintf("%q", got))
		lines := strings.Split(got, "\n")
		require.Len(t, lines, 4, "%q", got)
		require.Contains(t, lines[2], "^")
		require.Empty(t, strings.Trim(strings.TrimRight(lines[2], "^"), " \t\u3000"))
	})
}
