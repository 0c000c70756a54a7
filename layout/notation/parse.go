package notation

import (
	"fmt"
	"strings"

	"markout/layout/diag"
)

// maxText is the size of the largest text that is read, in bytes.
const maxText = 1 << 30

// Parse reads a text by the tables of its statements. kinds are the caller's: set, board, the elements; let, include, keep
// and dim are known without (Shared). Whatever is wrong is added to list at its place, and reading goes on after it: the tree
// holds all that could be understood. Statements and attributes that an error stands against are marked Bad. name is the
// file's as the user typed it, and id its number in list's sources.
//
// In a text whose bytes are right every error lies in it, and one mistake makes one error.
func Parse(id diag.FileID, name string, text []byte, kinds []Kind, list *diag.List) *File {
	p := &parser{id: id, text: text, diags: list}
	f := &File{ID: id, Name: name}
	if len(text) > maxText {
		p.text = nil
		p.error(0, 0, fmt.Sprintf("a file has at most %d MB", maxText>>20), "")
		return f
	}
	p.checkBytes()
	rows := p.splitRows()
	p.classify(rows, newTables(kinds), true)
	for i := range rows {
		if c := rows[i].comment; c >= 0 {
			f.Comments = append(f.Comments, Comment{
				Span: p.span(int(c), int(rows[i].until)), Text: string(text[c:rows[i].until]), Own: rows[i].from == rows[i].to,
			})
		}
	}
	for i := 0; i < len(rows); {
		if rows[i].role == roleStatement {
			var s *Statement
			if s, i = p.statement(rows, i); s != nil {
				f.Statements = append(f.Statements, s)
			}
			continue
		}
		i++
	}
	return f
}

// extent returns where the content of row i ends with the rows that go on with it, and the row after those.
func extent(rows []row, i int) (to, next int) {
	to = int(rows[i].to)
	for next = i + 1; next < len(rows) && (rows[next].role == roleMore || rows[next].role == roleBlank); next++ {
		if rows[next].role == roleMore {
			to = int(rows[next].to)
		}
	}
	return to, next
}

// statement reads the statement that opens in row i, with its attributes; next is the row after them.
func (p *parser) statement(rows []row, i int) (s *Statement, next int) {
	r := &rows[i]
	word := r.word(p.text)
	s = &Statement{Word: string(word), WordSpan: p.span(int(r.from), int(r.from)+len(word))}
	end, next := extent(rows, i)
	if r.table == nil {
		for next < len(rows) && rows[next].role != roleStatement {
			next++
		}
		return p.unknown(s, r, end), next
	}
	if s.Word != r.table.kind.Word {
		s.Word, s.Bad = r.table.kind.Word, true
	}
	p.attr, p.beneath = &r.table.line, nil
	p.head(s, r.table, int(r.from)+len(word), end)
	to := end
	for next < len(rows) && rows[next].role != roleStatement {
		if rows[next].role != roleAttribute {
			next++
			continue
		}
		var a *Attribute
		if a, next = p.attribute(rows, next); a == nil {
			continue
		}
		to = int(a.Span.To)
		s.Attributes = p.join(s.Attributes, a, r.table.attrs[a.Word])
	}
	s.Span = p.span(int(r.from), to)
	return s, next
}

// unknown is what is left of a statement whose word means nothing: its name, if it has one, so that what refers to it is no
// second error. Without a word there is no statement.
func (p *parser) unknown(s *Statement, r *row, end int) *Statement {
	if s.Word == "" {
		return nil
	}
	s.Bad, s.Span = true, p.span(int(r.from), end)
	at := skipBlankIn(p.text, int(s.WordSpan.To), end)
	if n := nameLength(p.text[at:end]); n > 0 && !isJoining(p.text[at:at+n]) {
		s.Name, s.NameSpan = string(p.text[at:at+n]), p.span(at, at+n)
	}
	return s
}

// headExample is the line that shows how a statement is written, for statements of one line: the first of its kind in the example.
func headExample(k *Kind) string {
	if len(k.Attributes) > 0 {
		return ""
	}
	for line := range strings.Lines(k.Example) {
		if strings.HasPrefix(line, k.Word+" ") {
			return strings.TrimSuffix(line, "\n")
		}
	}
	return ""
}

// noForm stands while a name is read.
var noForm = &Form{root: &choice{branches: []sequence{nil}}}

// head reads what follows a statement's word: the name of a named one, then its form.
func (p *parser) head(s *Statement, t *table, from, end int) {
	p.enter(from, end)
	p.form = noForm
	p.prev = token{kind: tokName, from: int(s.WordSpan.From), to: int(s.WordSpan.To)}
	ok := true
	form, err := t.head, t.err
	switch {
	case t.kind.Listed && p.atWord("from"):
		form, err = formOf(ListedForm)
	case t.kind.Named:
		if ok = p.name(s); ok {
			s.Name = string(p.text[s.NameSpan.From:s.NameSpan.To])
		}
	}
	if ok && err != nil {
		p.fail(int(s.WordSpan.From), int(s.WordSpan.To), formFailure(err), "")
		ok = false
	}
	if ok {
		s.Args, ok = p.match(form)
		p.hintAtHead(s, t)
	}
	if !ok {
		s.Bad = true
		p.report(int(s.WordSpan.From), end)
	}
}

// name reads the new name of a statement.
func (p *parser) name(s *Statement) bool {
	if p.tok.kind == tokEnd && !p.failed {
		p.fail(int(s.WordSpan.From), int(s.WordSpan.To), fmt.Sprintf("`%s` needs a name after it", s.Word), fmt.Sprintf("write `%s main`, or what you call it", s.Word))
		return false
	}
	sp, ok := p.nameHere()
	s.NameSpan = sp
	return ok
}

// hintAtHead says, where attributes were typed behind a statement, that they have lines of their own.
func (p *parser) hintAtHead(s *Statement, t *table) {
	if !p.failed || len(t.kind.Attributes) == 0 || p.failure.hint != "" || p.failure.from >= p.end {
		return
	}
	n := wordLength(p.text[p.failure.from:p.end])
	if word := string(p.text[p.failure.from : p.failure.from+n]); t.attrs[word] != nil {
		p.failure.hint = fmt.Sprintf("`%s` stands on a line of its own, indented", word)
	}
}

// attribute reads the attribute in row i with its own attributes; it is nil where its word is not known.
func (p *parser) attribute(rows []row, i int) (a *Attribute, next int) {
	r := &rows[i]
	end, next := extent(rows, i)
	if r.attr != nil {
		a = p.oneAttribute(r, end)
	}
	for next < len(rows) && (rows[next].role == roleSub || rows[next].role == roleBlank || rows[next].role == roleMore) {
		if rows[next].role != roleSub {
			next++
			continue
		}
		sub := &rows[next]
		end, next = extent(rows, next)
		if a == nil || sub.attr == nil {
			continue
		}
		b := p.oneAttribute(sub, end)
		a.Sub = p.join(a.Sub, b, sub.attr)
		a.Span.To = max(a.Span.To, b.Span.To)
	}
	return a, next
}

// oneAttribute reads the word in row r and what follows it up to end.
func (p *parser) oneAttribute(r *row, end int) *Attribute {
	n := len(r.word(p.text))
	a := p.attributes.take()
	*a = Attribute{
		Word: r.attr.Word, WordSpan: p.span(int(r.from), int(r.from)+n), Span: p.span(int(r.from), end),
		Bad: string(r.word(p.text)) != r.attr.Word,
	}
	if a.Bad {
		return a // its word is reported; what follows may mean anything
	}
	p.read(a, r.attr, int(r.from)+n, end)
	return a
}

// read reads the value of an attribute from the text [from, to).
func (p *parser) read(a *Attribute, row *Attr, from, to int) {
	form, err := formOf(row.Form)
	if err != nil {
		p.error(int(a.WordSpan.From), int(a.WordSpan.To), formFailure(err), "")
		a.Bad = true
		return
	}
	p.attr, p.beneath = row, row.subWords()
	p.enter(from, to)
	p.prev = token{kind: tokName, from: int(a.WordSpan.From), to: int(a.WordSpan.To)}
	if p.tok.kind == tokSign && (p.tok.sign == '=' || p.tok.sign == ':') {
		p.fail(p.tok.from, p.tok.to, fmt.Sprintf("no `%c` stands between an attribute and its value", p.tok.sign), "")
		p.failure.hint = fmt.Sprintf("write `%s %s`", a.Word, short(string(p.text[skipBlankIn(p.text, p.tok.to, to):to])))
	}
	var ok bool
	if a.Args, ok = p.match(form); !ok {
		a.Bad = true
		p.report(int(a.Span.From), to)
	}
}

func skipBlankIn(text []byte, i, end int) int { return min(i+skipBlank(text[i:end], 0), end) }

// join adds an attribute to those before it, unless it stands there already and may stand once only.
func (p *parser) join(all []*Attribute, a *Attribute, row *Attr) []*Attribute {
	if row != nil && !row.Several {
		for i, b := range all {
			if b.Word != a.Word {
				continue
			}
			switch {
			case p.guessed(a):
			case p.guessed(b):
				all[i] = a
			default:
				p.error(int(a.WordSpan.From), int(a.WordSpan.To), fmt.Sprintf("`%s` stands twice; the first is in line %d", a.Word, p.diags.Sources.Position(b.WordSpan).Line), "")
			}
			return all
		}
	}
	return append(all, a)
}

// guessed reports whether an attribute was typed with another word than the one it was taken for.
func (p *parser) guessed(a *Attribute) bool {
	return string(p.text[a.WordSpan.From:a.WordSpan.To]) != a.Word
}
