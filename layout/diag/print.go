package diag

import (
	"bufio"
	"fmt"
	"io"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"
)

// excerptColumns is how many columns of a source line are shown; a longer line is cut around the words meant.
const excerptColumns = 100

// Print writes the list as people read it: of each diagnostic its place, severity and message, then the source line,
// carets under the exact words, and the hint.
//
//	kiosk.markout:14:14: error: nothing is named `dekc`
//	      meets    dekc.front
//	               ^^^^
//	  hint: did you mean `deck`?
//
// At most limit errors and as many cautions are printed, then how many more there are; limit 0 prints all. Words
// that run over a line's end are marked to its end.
func (l *List) Print(w io.Writer, limit int) error {
	out := bufio.NewWriter(w)
	var shown, left [2]int
	for _, d := range l.Sorted() {
		if limit > 0 && shown[d.Severity] == limit {
			left[d.Severity]++
			continue
		}
		shown[d.Severity]++
		l.printOne(out, d)
	}
	for s, n := range left {
		if n > 0 {
			fmt.Fprintf(out, "… and %d more %s%s\n", n, Severity(s), plural(n))
		}
	}
	return out.Flush()
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}

func (l *List) printOne(out *bufio.Writer, d Diagnostic) {
	if at := l.position(d.Span); at.File != "" {
		fmt.Fprintf(out, "%s: ", at)
	}
	fmt.Fprintf(out, "%s: ", d.Severity)
	writePlain(out, d.Message)
	if d.Code != "" {
		fmt.Fprintf(out, " [%s]", d.Code)
	}
	out.WriteByte('\n')
	if l.has(d.Span) {
		line, start := l.Sources.line(d.Span)
		e := excerpt{line: line, from: int(d.Span.From) - start, to: int(d.Span.To) - start}
		e.print(out)
	}
	if d.Hint != "" {
		out.WriteString("  hint: ")
		writePlain(out, d.Hint)
		out.WriteByte('\n')
	}
}

func (l *List) has(sp Span) bool {
	return l.Sources != nil && sp.File >= 1 && int(sp.File) <= len(l.Sources.files)
}

func (l *List) position(sp Span) Position {
	if !l.has(sp) {
		return Position{}
	}
	return l.Sources.Position(sp)
}

// writePlain writes s without the control characters that words quoted from a file may hold.
func writePlain(out *bufio.Writer, s string) {
	for _, r := range s {
		if shown, _ := visible(r, 0); r != '\t' {
			out.WriteRune(shown)
		} else {
			out.WriteByte(' ')
		}
	}
}

// excerpt is one source line with the words meant, in bytes of the line.
type excerpt struct {
	line     []byte
	from, to int
}

func (e excerpt) print(out *bufio.Writer) {
	e.from = min(max(e.from, 0), len(e.line))
	e.to = min(max(e.to, e.from), len(e.line))
	first, last := e.window()
	indent := "  "
	out.WriteString(indent)
	if first > 0 {
		out.WriteString("…")
	}
	for i := first; i < last; {
		r, n := utf8.DecodeRune(e.line[i:])
		shown, _ := visible(r, n)
		out.WriteRune(shown)
		i += n
	}
	if last < len(e.line) {
		out.WriteString("…")
	}
	out.WriteByte('\n')
	out.WriteString(indent)
	if first > 0 {
		out.WriteByte(' ')
	}
	// A tab stays a tab, so that the carets line up whatever a tab is taken for.
	for i := first; i < e.from; {
		r, n := utf8.DecodeRune(e.line[i:])
		_, columns := visible(r, n)
		switch {
		case r == '\t':
			out.WriteByte('\t')
		case columns == 2:
			out.WriteString("\u3000")
		case columns == 1:
			out.WriteByte(' ')
		}
		i += n
	}
	carets := 0
	for i := e.from; i < min(e.to, last); {
		r, n := utf8.DecodeRune(e.line[i:])
		_, columns := visible(r, n)
		carets += columns
		i += n
	}
	for range max(carets, 1) {
		out.WriteByte('^')
	}
	out.WriteByte('\n')
}

// window returns which bytes of the line are shown: all of it, or a part around the words with more of what stands
// before them than after.
func (e excerpt) window() (first, last int) {
	if columnsOf(e.line) <= excerptColumns {
		return 0, len(e.line)
	}
	words := min(columnsOf(e.line[e.from:e.to]), excerptColumns)
	lead := (excerptColumns - words) * 2 / 3
	first = e.from
	for first > 0 && lead > 0 {
		_, n := utf8.DecodeLastRune(e.line[:first])
		first -= n
		lead--
	}
	last = first
	for columns := 0; last < len(e.line) && columns < excerptColumns; columns++ {
		_, n := utf8.DecodeRune(e.line[last:])
		last += n
	}
	return first, last
}

func columnsOf(text []byte) int {
	columns := 0
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		_, c := visible(r, n)
		columns += c
		i += n
	}
	return columns
}

// visible returns the rune to show for r, which took n bytes, and how many columns a terminal gives it.
func visible(r rune, n int) (shown rune, columns int) {
	switch {
	case r == '\t', ' ' <= r && r < 0x7f:
		return r, 1
	case r == utf8.RuneError && n == 1, unicode.Is(unicode.C, r), r == '\u2028', r == '\u2029':
		return '·', 1
	case unicode.Is(unicode.Mn, r), unicode.Is(unicode.Me, r):
		return r, 0
	}
	if k := width.LookupRune(r).Kind(); k == width.EastAsianWide || k == width.EastAsianFullwidth {
		return r, 2
	}
	return r, 1
}
