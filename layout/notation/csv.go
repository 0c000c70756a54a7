package notation

import (
	"bytes"
	"fmt"
	"strings"

	"markout/layout/diag"
)

// CSV reads a list of things from a text of comma-separated values (RFC 4180): the first row names the columns, every
// other row is one thing. UTF-8, with or without a byte order mark; line ends are LF or CR LF; a cell is quoted where it holds
// a comma, a quote or a line end, a quote in it then stands twice. Blanks around a cell are left out, and so are rows in which every
// cell is empty. A quote inside a cell that does not begin with one stands for itself, so that 7'-6" needs no others.
//
// Whatever is wrong is added to the list at its line and column, and reading goes on in the next row.
type CSV struct {
	p      *parser
	at     int // where the next row begins
	header []Cell
	row    []Cell
	Bad    bool // an error was added
}

// Cell is one cell of a row.
type Cell struct {
	Text // Value without quotes and the blanks around it; Span as typed, with its quotes

	plain bool // Value stands in the file as it is
}

// blanks are what is left out around a cell.
const blanks = " \t\r\n"

// At returns the place of the bytes [from, to) of the cell's value in the file.
func (c *Cell) At(from, to int) diag.Span {
	if !c.plain {
		return c.Text.At(from, to)
	}
	from = min(max(from, 0), len(c.Value))
	to = min(max(to, from), len(c.Value))
	return diag.Span{File: c.Span.File, From: c.Span.From + int32(from), To: c.Span.From + int32(to)}
}

// NewCSV begins to read a text, which is number id of list's sources, and reads its header. Bad is set where there is none.
func NewCSV(id diag.FileID, text []byte, list *diag.List) *CSV {
	c := &CSV{p: &parser{id: id, text: text, diags: list}}
	c.p.checkBytes()
	c.Bad = len(c.p.broken) > 0
	if bytes.HasPrefix(text, []byte("\ufeff")) {
		c.at = 3
	}
	first := text[c.at:]
	if i := bytes.IndexByte(first, '\n'); i >= 0 {
		first = first[:i]
	}
	if bytes.IndexByte(first, ';') >= 0 && bytes.IndexByte(first, ',') < 0 {
		c.fail(c.at, c.at+1, "the columns are parted by semicolons, and commas are wanted", "export it anew with commas (and decimal points)")
		c.at = len(text)
		return c
	}
	row, ok := c.next()
	if !ok {
		if !c.Bad {
			c.fail(c.at, c.at, "there is no header row", "the first row names the columns: name,of,length")
		}
		return c
	}
	c.header = append(c.header, row...)
	return c
}

// Header returns the cells of the first row.
func (c *CSV) Header() []Cell { return c.header }

// Row returns the cells of the next row, as many as the header has; they serve until the next call. It returns false
// at the end.
func (c *CSV) Row() ([]Cell, bool) {
	for len(c.header) > 0 {
		row, ok := c.next()
		if !ok {
			break
		}
		if len(row) == len(c.header) {
			return row, true
		}
		at := row[0].Span
		if len(row) > len(c.header) {
			at = row[len(c.header)].Span
		}
		c.fail(int(at.From), int(at.To), fmt.Sprintf("this row has %d cells, and the header has %d", len(row), len(c.header)),
			"a cell that holds a comma stands in double quotes")
	}
	return nil, false
}

func (c *CSV) fail(from, to int, message, hint string) {
	c.Bad = true
	if !c.p.isBroken(from, max(to, from+1)) {
		c.p.error(from, to, message, hint)
	}
}

// next reads one row that has something in it and in which nothing is wrong.
func (c *CSV) next() ([]Cell, bool) {
	for c.at < len(c.p.text) {
		c.row = c.row[:0]
		filled, right := false, true
		for more := true; more; {
			var cell Cell
			var ok bool
			cell, more, ok = c.cell()
			right = right && ok
			filled = filled || cell.Value != ""
			c.row = append(c.row, cell)
		}
		if filled && right {
			return c.row, true
		}
	}
	return nil, false
}

// cell reads one cell; more says that another follows in the row. A wrong one ends its row.
func (c *CSV) cell() (out Cell, more, ok bool) {
	t := c.p.text
	for c.at < len(t) && (t[c.at] == ' ' || t[c.at] == '\t') {
		c.at++
	}
	if c.at < len(t) && t[c.at] == '"' {
		return c.quoted()
	}
	from := c.at
	for c.at < len(t) && t[c.at] != ',' && t[c.at] != '\n' {
		c.at++
	}
	to := from + len(strings.TrimRight(string(t[from:c.at]), blanks))
	out = Cell{Text{Span: c.p.span(from, to), Value: string(t[from:to])}, true}
	return out, c.comma(), true
}

// comma goes past what ends a cell, and reports whether it was a comma.
func (c *CSV) comma() bool {
	if c.at < len(c.p.text) {
		c.at++
		return c.p.text[c.at-1] == ','
	}
	return false
}

// quoted reads a cell that begins with a quote.
func (c *CSV) quoted() (out Cell, more, ok bool) {
	t, open := c.p.text, c.at
	var value []byte
	var offsets []int32
	for c.at++; ; c.at++ {
		if c.at >= len(t) {
			c.fail(open, open+1, "this quote is not closed", "")
			return Cell{}, false, false
		}
		if t[c.at] == '"' {
			if c.at+1 >= len(t) || t[c.at+1] != '"' {
				break
			}
			c.at++
		}
		value, offsets = append(value, t[c.at]), append(offsets, int32(c.at-open))
	}
	c.at++
	end := c.at
	for c.at < len(t) && (t[c.at] == ' ' || t[c.at] == '\t' || t[c.at] == '\r') {
		c.at++
	}
	lead := len(value) - len(bytes.TrimLeft(value, blanks))
	trimmed := bytes.TrimRight(value[lead:], blanks)
	out = Cell{Text{Span: c.p.span(open, end), Value: string(trimmed), offsets: offsets[lead : lead+len(trimmed)]}, false}
	if c.at < len(t) && t[c.at] != ',' && t[c.at] != '\n' {
		from := c.at
		c.fail(from, from+1, "something stands after the cell's closing quote", "a quote inside a quoted cell stands twice")
		for c.at < len(t) && t[c.at] != '\n' {
			c.at++
		}
		c.comma()
		return out, false, false
	}
	return out, c.comma(), true
}
