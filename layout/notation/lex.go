package notation

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"markout/layout/diag"
	"markout/layout/unit"
)

type tokenKind uint8

const (
	tokEnd tokenKind = iota
	tokName
	tokNumber
	tokText
	tokSign // one of + - * / ( ) , . = :
	tokBad  // reported already
)

// token is one piece of a line's text, [from, to).
type token struct {
	kind     tokenKind
	sign     byte
	space    bool // something blank stands before it
	bare     bool // a number without a unit
	from, to int
	value    unit.Value
}

// next moves to the next token.
func (p *parser) next() {
	p.prev = p.tok
	p.tok = p.scan()
}

// enter starts on the text [from, to); its first token is then p.tok.
func (p *parser) enter(from, to int) {
	p.pos, p.end, p.start = from, to, from
	p.failed = false
	p.depth, p.signs = 0, 0
	p.prev = token{kind: tokEnd, from: from, to: from}
	p.tok = p.scan()
}

// scan reads the token at p.pos. Line ends and comments inside the text are blanks: they are where a line goes on.
func (p *parser) scan() token {
	start := p.pos
	p.skipBlanks()
	t := token{from: p.pos, to: p.pos, space: p.pos > start || p.pos == p.start}
	if p.pos >= p.end {
		return t
	}
	text := p.text[p.pos:p.end]
	switch c := text[0]; {
	case c-'0' <= 9 || c == '.' && len(text) > 1 && text[1]-'0' <= 9:
		p.scanNumber(&t, text)
	case c == '"' && !p.afterDigit(p.pos):
		p.scanText(&t, text)
	case strings.IndexByte("+-*/(),.=:", c) >= 0:
		t.kind, t.sign, t.to = tokSign, c, p.pos+1
	default:
		n := nameLength(text)
		if n == 0 {
			t.kind = tokBad
			t.to = p.strange(text)
			break
		}
		t.kind, t.to = tokName, p.pos+n
	}
	p.pos = t.to
	return t
}

func (p *parser) skipBlanks() {
	for p.pos < p.end {
		switch c := p.text[p.pos]; c {
		case ' ', '\t', '\n', '\r':
			p.pos++
		case '#':
			for p.pos < p.end && p.text[p.pos] != '\n' {
				p.pos++
			}
		default:
			return
		}
	}
}

// afterDigit reports whether a digit stands just before i, so that a double quote at i is an inch mark.
func (p *parser) afterDigit(i int) bool { return i > 0 && p.text[i-1]-'0' <= 9 }

func (p *parser) scanNumber(t *token, text []byte) {
	v, bare, n, err := unit.ScanQuantity(text)
	t.to = p.pos + max(n, 1)
	if err != nil {
		t.kind = tokBad
		e := err.(*unit.ScanError)
		p.fail(p.pos+e.Offset, p.pos+e.Offset+e.Length, e.Message, e.Hint)
		return
	}
	t.kind, t.value, t.bare = tokNumber, v, bare
}

// scanText reads a quoted text up to its closing quote, which stands on the same line.
func (p *parser) scanText(t *token, text []byte) {
	t.kind = tokText
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '"':
			t.to = p.pos + i + 1
			return
		case '\\':
			if i+1 < len(text) && (text[i+1] == '"' || text[i+1] == '\\') {
				i++
				continue
			}
			t.kind, t.to = tokBad, p.pos+i+1
			p.fail(p.pos+i, p.pos+i+1, "a text knows `\\\"` and `\\\\`, no other escape", "write `\\\\` for a backslash")
			return
		case '\n':
			p.unclosed(t, i)
			return
		}
	}
	p.unclosed(t, len(text))
}

func (p *parser) unclosed(t *token, n int) {
	for n > 1 && (p.text[p.pos+n-1] == '\r' || p.text[p.pos+n-1] == ' ') {
		n--
	}
	t.kind, t.to = tokBad, p.pos+n
	p.fail(t.from, t.to, "the text is not closed on its line", "end it with a double quote")
}

// strange reports a character that begins nothing and returns where it ends.
func (p *parser) strange(text []byte) int {
	r, n := utf8.DecodeRune(text)
	message, hint := fmt.Sprintf("`%c` has no meaning here", r), ""
	switch r {
	case '−', '–', '—', '‐', '‑':
		hint = "write `-`, the hyphen of the keyboard"
	case '×':
		hint = "write `x` between sizes, `*` to multiply"
	case '÷':
		hint = "write `/` to divide"
	case '“', '”', '„', '«', '»', '‘', '‚':
		hint = "a text stands in straight double quotes"
	case '"', '″':
		message, hint = "an inch mark touches a number", "write `18\"`"
	case '\'', '’', '′':
		message, hint = "a foot mark touches a number", "write `6'`; a text stands in double quotes"
	case '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞', '⅓', '⅔':
		hint = "write `1/2\"`"
	case '[', ']', '{', '}':
		hint = "write round brackets"
	case ';':
		hint = "one statement or attribute stands on a line"
	default:
		if unicode.IsSpace(r) || r == '\ufeff' || r == '\u200b' {
			message, hint = "this is no plain space", "delete it and type a space"
		}
	}
	p.fail(p.pos, p.pos+n, message, hint)
	return p.pos + n
}

// sign reports whether the next token is the given sign.
func (p *parser) sign(c byte) bool { return p.tok.kind == tokSign && p.tok.sign == c }

// atWord reports whether the given word, which may have hyphens, stands next.
func (p *parser) atWord(word string) bool {
	if p.tok.kind == tokSign {
		return len(word) == 1 && p.tok.sign == word[0]
	}
	if p.tok.kind != tokName {
		return false
	}
	rest := p.text[p.tok.from:p.end]
	return len(rest) >= len(word) && string(rest[:len(word)]) == word && wordLength(rest) == len(word)
}

// takeWord moves past a word that atWord has seen and returns its place.
func (p *parser) takeWord(word string) diag.Span {
	p.tok.to = p.tok.from + len(word)
	p.pos = p.tok.to
	sp := p.span(p.tok.from, p.tok.to)
	p.next()
	return sp
}

func (p *parser) span(from, to int) diag.Span {
	return diag.Span{File: p.id, From: int32(from), To: int32(to)}
}

// words returns the text of a token as it was typed.
func (p *parser) words(t token) string { return string(p.text[t.from:t.to]) }
