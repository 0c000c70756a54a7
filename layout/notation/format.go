package notation

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"markout/layout/diag"
)

// Widths of the layout, in characters.
const (
	attributeIndent = 4
	subIndent       = 8
	leastWord       = 8 // short words leave the values of different statements in one column
)

// Format rewrites the layout of a text and nothing else: attributes are indented by 4 and their own attributes by 8, the
// values of a statement stand in one column, and so do the = of lets in neighbouring lines; a line that goes on begins
// under the values; one blank line stands between statements of several lines, and of several blank lines one is kept;
// comments keep their place, those on lines of their own with the indentation of what follows, but an indented one at
// a statement's end stays with it; those behind something stand two spaces after it. Values stay as they are typed but
// for the spaces between their parts. Lines end with LF, and a byte order mark is left out.
//
// Formatting what it returns changes nothing. A text with errors is returned as it is, with the errors, whose file is called
// name.
func Format(name string, text []byte, kinds []Kind) ([]byte, *diag.List) {
	list := &diag.List{Sources: &diag.Sources{}}
	id := list.Sources.Add(name, text)
	Parse(id, name, text, kinds, list)
	if list.HasErrors() {
		return text, list
	}
	p := &parser{id: id, text: text, diags: list}
	f := formatter{text: text, rows: p.splitRows()}
	p.classify(f.rows, newTables(kinds), false)
	f.link()
	return f.format(), list
}

// formatter writes rows anew.
type formatter struct {
	text []byte
	rows []row
	out  bytes.Buffer

	before, after []int32 // of each row, the rows with content next to it; −1 and len(rows) for none

	column    int // where the values of the open statement's attributes stand
	subColumn int // where those of the open attribute's own attributes stand
	goesOn    int // where a row that goes on begins
	raw       bool
	names     int // width of the names in the open run of lets
}

func (f *formatter) format() []byte {
	blank := false
	for i := range f.rows {
		r := &f.rows[i]
		if r.from == r.to && r.comment < 0 {
			blank = true
			continue
		}
		if f.out.Len() > 0 && (blank || f.parts(i)) {
			f.out.WriteByte('\n')
		}
		blank = false
		if r.from == r.to {
			f.spaces(f.commentIndent(i))
		} else {
			f.content(i)
		}
		if r.comment >= 0 {
			if r.from < r.to {
				f.out.WriteString("  ")
			}
			f.out.Write(f.text[r.comment:r.until])
		}
		f.out.WriteByte('\n')
	}
	return f.out.Bytes()
}

func (f *formatter) spaces(n int) {
	for range n {
		f.out.WriteByte(' ')
	}
}

// link finds for each row its neighbours with content.
func (f *formatter) link() {
	f.before, f.after = make([]int32, len(f.rows)), make([]int32, len(f.rows))
	last := int32(-1)
	for i := range f.rows {
		f.before[i] = last
		if f.rows[i].from < f.rows[i].to {
			last = int32(i)
		}
	}
	last = int32(len(f.rows))
	for i := len(f.rows) - 1; i >= 0; i-- {
		f.after[i] = last
		if f.rows[i].from < f.rows[i].to {
			last = int32(i)
		}
	}
}

// long reports whether the statement in row i has more rows.
func (f *formatter) long(i int) bool {
	n := int(f.after[i])
	return n < len(f.rows) && f.rows[n].role != roleStatement
}

// parts reports whether a blank line must stand before row i, because a statement of several rows ends before it or one
// begins with it; comments right above a statement belong to it.
func (f *formatter) parts(i int) bool {
	r := &f.rows[i]
	if r.from == r.to {
		if f.indented(i) || i > 0 && f.lone(i-1) {
			return false
		}
		for f.lone(i) {
			if i++; i == len(f.rows) {
				return false
			}
		}
		r = &f.rows[i]
	} else if i > 0 && f.lone(i-1) && !f.indented(i-1) {
		return false
	}
	if r.role != roleStatement {
		return false
	}
	if f.long(i) {
		return true
	}
	last := f.before[i]
	return last >= 0 && f.rows[last].role != roleStatement
}

// lone reports whether row i is a comment alone.
func (f *formatter) lone(i int) bool {
	r := &f.rows[i]
	return r.from == r.to && r.comment >= 0
}

// indented reports whether the comment alone in row i is indented and stands at the end of a statement.
func (f *formatter) indented(i int) bool {
	n := int(f.after[i])
	return f.rows[i].indent > 0 && f.before[i] >= 0 && (n == len(f.rows) || f.rows[n].role == roleStatement)
}

// commentIndent returns the indentation of the comment alone in row i.
func (f *formatter) commentIndent(i int) int {
	if f.indented(i) {
		return attributeIndent
	}
	n := int(f.after[i])
	if n == len(f.rows) {
		return 0
	}
	switch f.rows[n].role {
	case roleAttribute:
		return attributeIndent
	case roleSub:
		return subIndent
	case roleMore:
		return f.goesOn
	}
	return 0
}

// content writes what stands in row i before its comment.
func (f *formatter) content(i int) {
	r := &f.rows[i]
	word := r.word(f.text)
	rest := f.text[int(r.from)+len(word) : r.to]
	switch r.role {
	case roleStatement:
		f.column = attributeIndent + f.wordWidth(i, roleAttribute, leastWord) + 1
		f.goesOn = attributeIndent
		f.raw = isRaw(r.table.kind.Head)
		if r.table.kind.Word == "let" && f.let(i, rest) {
			return
		}
		f.out.Write(word)
		f.value(rest, 0)
	case roleAttribute:
		f.subColumn = subIndent + f.wordWidth(i, roleSub, 0) + 1
		f.line(attributeIndent, f.column, word, rest, r.attr)
	case roleSub:
		f.line(subIndent, f.subColumn, word, rest, r.attr)
	default:
		f.spaces(f.goesOn)
		f.spaced(f.text[r.from:r.to])
	}
}

// line writes an attribute's word and its value in the given column.
func (f *formatter) line(indent, column int, word, rest []byte, a *Attr) {
	f.goesOn = column
	f.raw = isRaw(a.Form)
	f.spaces(indent)
	f.out.Write(word)
	f.value(rest, column-indent-utf8.RuneCount(word))
}

// value writes what follows a word after the given spaces, at least one.
func (f *formatter) value(rest []byte, spaces int) {
	if rest = bytes.TrimLeft(rest, " \t"); len(rest) > 0 {
		f.spaces(max(spaces, 1))
		f.spaced(rest)
	}
}

func isRaw(form string) bool { return strings.Contains(form, valueForms[formRaw].word) }

// wordWidth returns the width of the longest word that has a value among the rows of the given role under row i. A word
// with a hyphen may run over the column: full-size would move all the others.
func (f *formatter) wordWidth(i int, of role, least int) int {
	under := f.rows[i].role
	for i++; i < len(f.rows); i++ {
		r := &f.rows[i]
		if r.from < r.to && r.role <= under {
			break
		}
		if word := r.word(f.text); r.role == of && int(r.from)+len(word) < int(r.to) && !bytes.ContainsRune(word, '-') {
			least = max(least, utf8.RuneCount(word))
		}
	}
	return least
}

// let writes a let with its = in one column with those of its neighbours; it has written nothing where the = does not stand
// in the row.
func (f *formatter) let(i int, rest []byte) bool {
	name, value, ok := letParts(rest)
	if !ok {
		return false
	}
	if i == 0 || !f.isLet(i-1) {
		f.names = 0
		for j := i; j < len(f.rows) && f.isLet(j); j++ {
			r := &f.rows[j]
			other, _, _ := letParts(f.text[int(r.from)+len(r.word(f.text)) : r.to])
			f.names = max(f.names, utf8.RuneCount(other))
		}
	}
	f.out.WriteString("let ")
	f.out.Write(name)
	f.spaces(f.names - utf8.RuneCount(name))
	f.out.WriteString(" =")
	f.value(value, 1)
	return true
}

// isLet reports whether row i is a let with its = in the row.
func (f *formatter) isLet(i int) bool {
	r := &f.rows[i]
	if r.role != roleStatement || r.table.kind.Word != "let" {
		return false
	}
	_, _, ok := letParts(f.text[int(r.from)+len(r.word(f.text)) : r.to])
	return ok
}

// letParts splits what follows the word let at its =.
func letParts(rest []byte) (name, value []byte, ok bool) {
	name, value, ok = bytes.Cut(rest, []byte("="))
	return bytes.TrimSpace(name), value, ok
}

// spaced writes a value with one space where any were, and none before a comma. Texts, and what is read raw, stay as typed.
func (f *formatter) spaced(value []byte) {
	if f.raw {
		f.out.Write(value)
		return
	}
	for i := 0; i < len(value); {
		switch c := value[i]; {
		case c == ' ' || c == '\t':
			i += len(value[i:]) - len(bytes.TrimLeft(value[i:], " \t"))
			if i < len(value) && value[i] != ',' {
				f.out.WriteByte(' ')
			}
		case c == '"' && (i == 0 || value[i-1]-'0' > 9):
			end := textEnd(value, i)
			f.out.Write(value[i:end])
			i = end
		default:
			f.out.WriteByte(c)
			i++
		}
	}
}

// textEnd returns where the text that opens at i ends.
func textEnd(value []byte, i int) int {
	for i++; i < len(value); i++ {
		switch value[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return len(value)
}
