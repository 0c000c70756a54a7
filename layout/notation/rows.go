package notation

import (
	"bytes"
	"fmt"
	"unicode/utf8"
)

// role is what a line of the text is.
type role uint8

const (
	roleBlank     role = iota // nothing, or a comment alone
	roleStatement             // begins in the first column
	roleAttribute             // indented under a statement
	roleSub                   // an attribute's own attribute
	roleMore                  // goes on with the line before it
	roleLost                  // belongs to nothing that is known
)

// row is one line of the text.
type row struct {
	role           role
	indent         int32 // characters before the content
	start          int32 // of the line
	from, to       int32 // content, without blanks and comment at its end; equal where there is none
	comment, until int32 // a comment from its #, without blanks at its end; −1 for none
	table          *table
	attr           *Attr // of roleAttribute and roleSub, nil where its word is not known
}

// splitRows splits the text into lines and reports tabs in indentation.
func (p *parser) splitRows() []row {
	begin := 0
	if bytes.HasPrefix(p.text, []byte("\ufeff")) {
		begin = 3
	}
	rows := make([]row, 0, bytes.Count(p.text, []byte{'\n'})+1)
	for begin < len(p.text) {
		end := bytes.IndexByte(p.text[begin:], '\n')
		next := begin + end + 1
		if end < 0 {
			end, next = len(p.text)-begin, len(p.text)
		}
		rows = append(rows, p.splitRow(begin, begin+end))
		begin = next
	}
	return rows
}

func (p *parser) splitRow(begin, end int) row {
	end = trimEnd(p.text, begin, end)
	r := row{start: int32(begin), comment: -1}
	from, tab := begin, -1
	for from < end && (p.text[from] == ' ' || p.text[from] == '\t') {
		if p.text[from] == '\t' && tab < 0 {
			tab = from
		}
		from++
	}
	to := end
	if c := commentStart(p.text, from, end); c >= 0 {
		r.comment, r.until = int32(c), int32(end)
		to = trimEnd(p.text, from, c)
	}
	r.indent, r.from, r.to = int32(from-begin), int32(from), int32(to)
	if tab >= 0 && to > from {
		p.error(tab, tab+1, "a tab stands in the indentation", "indent with spaces")
	}
	return r
}

// trimEnd returns the end of [from, to) without blanks at its end.
func trimEnd(text []byte, from, to int) int {
	for to > from && (text[to-1] == ' ' || text[to-1] == '\t' || text[to-1] == '\r') {
		to--
	}
	return to
}

// commentStart returns where a comment begins in [from, to) of one line, −1 for nowhere. A # in a text is no comment; a double
// quote straight after a digit is an inch mark and opens no text.
func commentStart(text []byte, from, to int) int {
	if bytes.IndexByte(text[from:to], '#') < 0 {
		return -1
	}
	for i := from; i < to; i++ {
		switch text[i] {
		case '#':
			return i
		case '"':
			if i > 0 && text[i-1]-'0' <= 9 {
				continue
			}
			for i++; i < to && text[i] != '"'; i++ {
				if text[i] == '\\' {
					i++
				}
			}
		}
	}
	return -1
}

// maxBroken is after how many places with broken characters a text is given up as no text.
const maxBroken = 50

// checkBytes reports control characters and bytes that are not UTF-8, each run of them once.
func (p *parser) checkBytes() {
	if utf8.Valid(p.text) && !hasControl(p.text) {
		return
	}
	last := -1
	reported := 0
	for i := 0; i < len(p.text); {
		r, n := utf8.DecodeRune(p.text[i:])
		message := ""
		switch {
		case r == utf8.RuneError && n <= 1:
			message = "this byte is not UTF-8"
		case r == '\r' && (i+1 == len(p.text) || p.text[i+1] == '\n'):
		case r < 0x20 && r != '\n' && r != '\t', r >= 0x7f && r < 0xa0:
			message = fmt.Sprintf("a control character (U+%04X) stands here", r)
		}
		if message == "" {
			i += n
			continue
		}
		p.broken = append(p.broken, int32(i))
		if i != last {
			if reported++; reported == maxBroken {
				p.error(i, i+n, "too many characters are broken: this is no text file", "save it as plain UTF-8 text")
				return
			}
			hint := "delete it"
			if r == utf8.RuneError {
				hint = "save the file as UTF-8"
			}
			p.error(i, i+n, message, hint)
		}
		i += n
		last = i
	}
}

// suspect are the bytes that may be control characters: those below space but tab and line feed, delete, and what a C1
// control character begins with.
var suspect = func() (s [256]bool) {
	for c := range 0x20 {
		s[c] = c != '\n' && c != '\t'
	}
	s[0x7f], s[0xc2] = true, true
	return s
}()

// hasControl reports whether text may hold a control character; a carriage return before a line feed is none.
func hasControl(text []byte) bool {
	for i, c := range text {
		if suspect[c] && !(c == '\r' && (i+1 == len(text) || text[i+1] == '\n')) {
			return true
		}
	}
	return false
}
