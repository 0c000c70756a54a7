package table

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"

	"markout/layout/table"
)

// JSON writes t as an array of objects, one a row on a line of its own, keys by contract name in the columns' order:
// numbers as numbers with the column's decimals, flags as true and false, an empty cell as null. What is not UTF-8 in a
// text becomes the replacement character.
func JSON(w io.Writer, t *table.Table) error {
	out := bufio.NewWriter(w)
	cols := t.ForPrograms()
	keys := make([][]byte, len(cols))
	for i, k := range cols {
		keys[i] = append(quoted(t.Columns[k].Name), ": "...)
	}
	out.WriteByte('[')
	var line []byte
	for r, row := range t.Rows {
		line = append(line[:0], "\n  {"...)
		if r > 0 {
			line = append(line[:0], ",\n  {"...)
		}
		for i, k := range cols {
			if i > 0 {
				line = append(line, ", "...)
			}
			line = append(line, keys[i]...)
			line = appendJSON(line, t.Columns[k], row[k])
		}
		out.Write(append(line, '}'))
	}
	if len(t.Rows) > 0 {
		out.WriteByte('\n')
	}
	out.WriteString("]\n")
	return out.Flush()
}

func appendJSON(line []byte, c table.Column, v table.Value) []byte {
	switch {
	case c.Kind == table.Flag:
		if text(c, v) == "" {
			return append(line, "false"...)
		}
		return append(line, "true"...)
	case isNumber(c, v):
		return c.AppendNumber(line, v.X)
	case text(c, v) == "":
		return append(line, "null"...)
	}
	return append(line, quoted(text(c, v))...)
}

// quoted returns s as a JSON string; a string always has one. Nothing reads it as HTML, so that & and < stand as they are.
func quoted(s string) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(s)
	return bytes.TrimSuffix(b.Bytes(), []byte{'\n'})
}
