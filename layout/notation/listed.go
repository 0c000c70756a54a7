package notation

import (
	"slices"
	"strings"

	"markout/layout/diag"
)

// MostRows is how many rows a list has at most, as many as a set has elements.
const MostRows = 200_000

// ListedForm is what stands after the word of a kind that may be Listed, in place of a name.
const ListedForm = "from TEXT"

// Listed reads a list of pieces of one kind from a text of comma-separated values, which is number id of list's sources: a
// statement a row, as if each were typed. The header names attributes; its first column is `name`. A cell holds what
// would stand after its attribute's word:
//
//   - of an attribute that is a single text (artwork, note) the text itself, without quotes;
//   - of one that has no value, `yes`; `both sides` may be named so in the header, or `both`;
//   - nothing where the piece has no such attribute.
//
// Attributes under st, the statement that names the list, are those of every row that has no such attribute itself.
// Whatever is wrong is added to list at its cell. All places in the statements lie in the list. A column that is misspelt is
// said once, in the header, and rows have the attribute that must be meant as a Bad one.
func Listed(id diag.FileID, text []byte, kind *Kind, st *Statement, list *diag.List) []*Statement {
	c := NewCSV(id, text, list)
	l := &listed{csv: c, table: newTable(kind), list: list}
	l.p = &parser{id: id, text: text, diags: list, broken: c.p.broken}
	sound := l.header()
	var out []*Statement
	for {
		row, ok := c.Row()
		if !ok {
			return out
		}
		if len(out) == MostRows {
			list.Errorf(row[0].Span, "a list has at most %d rows, the limit", MostRows)
			return out
		}
		switch s := l.statement(row, sound); {
		case s == nil:
		case sound:
			out = append(out, s.with(st.Attributes))
		default:
			out = append(out, s)
		}
	}
}

// listed reads the rows of one list.
type listed struct {
	csv     *CSV
	p       *parser
	single  *parser // of a copy of the text in which quotes that stand twice are being made single; nil until one is met
	table   *table
	list    *diag.List
	columns []column // after the first
}

// column is what a column's cells are of: no attribute, where its name is none and like none.
type column struct {
	*Attr
	bad bool // its name is wrong, and that is said
}

// header finds the attribute of each column; false where the rows have no names to be known by.
func (l *listed) header() bool {
	cells := l.csv.Header()
	if len(cells) == 0 {
		return false
	}
	ok := true
	if cells[0].Value != "name" {
		l.list.Hintf(cells[0].Span, "the first column of a list of pieces is `name`", "begin the header with `name,`")
		ok = false
	}
	for i := range cells[1:] {
		cell := &cells[i+1]
		c := column{Attr: l.attribute(cell.Value)}
		switch {
		case c.Attr == nil:
			c = column{l.unknown(cell), true}
		case !c.Several && slices.Contains(l.columns, c):
			l.list.Errorf(cell.Span, "`%s` is a column already", c.Word)
			c.bad = true
		}
		l.columns = append(l.columns, c)
	}
	return ok
}

// attribute finds the attribute of a column's name: its word, of one without values also all its words.
func (l *listed) attribute(name string) *Attr {
	word, rest, more := strings.Cut(name, " ")
	a := l.table.attrs[word]
	if more && (a == nil || !a.flag() || strings.Join(strings.Fields(rest), " ") != a.Form) {
		return nil
	}
	return a
}

// unknown reports a column that is no attribute, and returns the one that must be meant, nil where none is like it.
func (l *listed) unknown(cell *Cell) *Attr {
	message := "`" + l.table.kind.Word + "` takes no `" + short(cell.Value) + "`"
	near := Suggest(cell.Value, append([]string{"name"}, l.table.words...))
	switch {
	case cell.Value == "":
		l.list.Hintf(cell.Span, "this column has no name", "name it by the attribute that its cells hold")
	case cell.Value == "name":
		l.list.Errorf(cell.Span, "`name` is a column already")
	case near != "":
		l.list.Hintf(cell.Span, message, "did you mean `%s`?", near)
	default:
		l.list.Errorf(cell.Span, "%s", message)
	}
	return l.table.attrs[near]
}

// flag reports whether an attribute has no values: nothing stands after its word, or always one and the same word.
func (a *Attr) flag() bool {
	return a.Form == strings.ToLower(a.Form) && !strings.ContainsAny(a.Form, " |[]{}()")
}

// statement makes a statement of a row; nil where the row has no name to be known by. Under a header that does not begin with names it has
// nothing but its first cell, and no word, so that what refers to it is no second error.
func (l *listed) statement(row []Cell, sound bool) *Statement {
	at := row[0].Span
	for i := range row {
		at = at.Join(row[i].Span)
	}
	s := &Statement{Span: at, Word: l.table.kind.Word, WordSpan: row[0].Span, NameSpan: row[0].Span}
	if !sound {
		s.Word, s.Bad, s.Name = "", true, row[0].Value
		if s.Name == "" {
			return nil
		}
		return s
	}
	if row[0].Value == "" {
		l.list.Errorf(at, "this %s needs its `name`", s.Word)
		return nil
	}
	ok := false
	if s.Name, ok = row[0].Name(l.list); !ok {
		return nil
	}
	for i, c := range l.columns {
		if c.Attr != nil && (row[i+1].Value != "" || c.bad) {
			s.Attributes = append(s.Attributes, l.cell(&row[i+1], c))
		}
	}
	return s
}

// Listed reports whether a statement is a row of a list: no word of its kind stands in it.
func (s *Statement) Listed() bool { return s.WordSpan == s.NameSpan }

// Name returns a cell's value as the new name of a piece, and reports what is none.
func (c *Cell) Name(list *diag.List) (string, bool) {
	switch {
	case IsJoining(c.Value):
		list.Hintf(c.Span, "`"+c.Value+"` joins values and cannot be a name", "take another word")
	case !IsName(c.Value):
		list.Hintf(c.Span, "\""+short(c.Value)+"\" is no name", "names are letters, digits and _, and begin with a letter")
	default:
		return c.Value, true
	}
	return "", false
}

// Formula reports a cell that holds a spreadsheet's formula in place of a value.
func (c *Cell) Formula(list *diag.List) bool {
	if c.Value == "" || c.Value[0] != '=' && c.Value[0] != '@' {
		return false
	}
	list.Hintf(c.Span, "a cell holds a value, and this is a formula", "write what it comes to")
	return true
}

// cell makes an attribute of a cell.
func (l *listed) cell(c *Cell, col column) *Attribute {
	a := col.Attr
	out := &Attribute{Span: c.Span, Word: a.Word, WordSpan: diag.Span{File: c.Span.File, From: c.Span.From, To: c.Span.From}}
	switch {
	case col.bad:
		out.Bad = true
	case a.flag():
		out.Bad = !strings.EqualFold(c.Value, "yes") && (a.Form == "" || c.Value != a.Form)
		if out.Bad {
			l.list.Hintf(c.Span, "`"+a.Word+"` is there or not", "write yes, or leave the cell empty")
		} else if a.Form != "" {
			out.Args = Args{{Key: a.Form, Value: &Word{c.Span, a.Form}}}
		}
	case a.Form == valueForms[formText].word && c.Value[0] != '"':
		out.Args = Args{{Value: c.bare()}}
	default:
		if out.Bad = c.Formula(l.list); !out.Bad {
			l.read(out, a, c)
		}
	}
	return out
}

// bare returns the cell's value as a text without quotes of its own.
func (c *Cell) bare() *Text {
	t := c.Text
	if c.plain {
		t.offsets = make([]int32, len(c.Value))
		for i := range t.offsets {
			t.offsets[i] = int32(i)
		}
	}
	return &t
}

// read reads a cell's value by its attribute's form, where it stands in the list.
func (l *listed) read(out *Attribute, a *Attr, c *Cell) {
	at := c.At(0, len(c.Value))
	from, to := int(at.From), int(at.To)
	if to-from == len(c.Value) {
		l.p.read(out, a, from, to)
		return
	}
	if l.single == nil {
		l.single = &parser{id: l.p.id, text: slices.Clone(l.p.text), diags: l.list, broken: l.p.broken}
	}
	c.unquote(l.single.text)
	l.single.read(out, a, from, trimEnd(l.single.text, from, to))
}

// unquote puts one quote and a blank in place of every two in the cell, in a copy of the list's text, so that what is read of it
// stays where it was typed: the blank before a quote that opens a text, and after any other.
func (c *Cell) unquote(text []byte) {
	open := false
	for i, offset := range c.offsets {
		if c.Value[i] != '"' {
			continue
		}
		if inches := !open && i > 0 && c.Value[i-1]-'0' <= 9; !inches {
			open = !open
		}
		at := int(c.Span.From + offset) // the second of the two
		text[at-1], text[at] = '"', ' '
		if open {
			text[at-1], text[at] = ' ', '"'
		}
	}
}

// with adds attributes that all rows have to those of one, but for words that it has itself.
func (s *Statement) with(shared []*Attribute) *Statement {
	own := len(s.Attributes)
	for _, a := range shared {
		if slices.ContainsFunc(s.Attributes[:own], func(b *Attribute) bool { return b.Word == a.Word }) {
			continue
		}
		one := *a // its values are let go of when a piece is done with them
		s.Attributes = append(s.Attributes, &one)
	}
	return s
}
