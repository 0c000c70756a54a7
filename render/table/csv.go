// Package table writes tables: CSV and JSON for programs, whose names and signed figures are contracts, and text for
// people, who get letters instead of signs, their own units, and columns that fit a terminal.
package table

import (
	"bufio"
	"io"
	"strings"

	"markout/layout/table"
)

// CSV writes t by RFC 4180, but with line feeds alone: a header row of contract names, then the rows, numbers signed and with the
// column's decimals, trailing zeros dropped. A field is quoted where it holds a comma, a quote or a line end.
// An empty cell is an empty field; in a table of one column it is "", so that no reader takes it for a blank line.
func CSV(w io.Writer, t *table.Table) error {
	out := bufio.NewWriter(w)
	cols := t.ForPrograms()
	var line []byte
	for i, k := range cols {
		line = appendField(line, i, t.Columns[k].Name, len(cols))
	}
	out.Write(append(line, '\n'))
	for _, row := range t.Rows {
		line = line[:0]
		for i, k := range cols {
			if isNumber(t.Columns[k], row[k]) {
				if i > 0 {
					line = append(line, ',')
				}
				line = t.Columns[k].AppendNumber(line, row[k].X)
				continue
			}
			line = appendField(line, i, text(t.Columns[k], row[k]), len(cols))
		}
		out.Write(append(line, '\n'))
	}
	return out.Flush()
}

// isNumber reports whether the cell holds a number that can be written.
func isNumber(c table.Column, v table.Value) bool {
	return v.Set && v.Text == "" && c.Kind != table.Text && c.Kind != table.Flag && len(c.AppendNumber(nil, v.X)) > 0
}

// text returns what programs read in a cell that is no number.
func text(c table.Column, v table.Value) string {
	if c.Kind == table.Flag && v.Set && v.Text == "" && v.X != 0 {
		return "yes"
	}
	return v.Text
}

func appendField(line []byte, i int, s string, columns int) []byte {
	if i > 0 {
		line = append(line, ',')
	}
	if !strings.ContainsAny(s, ",\"\r\n") && !(s == "" && columns == 1) {
		return append(line, s...)
	}
	line = append(line, '"')
	for k := range len(s) {
		if s[k] == '"' {
			line = append(line, '"')
		}
		line = append(line, s[k])
	}
	return append(line, '"')
}
