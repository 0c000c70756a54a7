package notation

import (
	"encoding/csv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
)

func readCSV(text string) (header []string, rows [][]string, cells []Cell, list *diag.List) {
	list = &diag.List{Sources: &diag.Sources{}}
	c := NewCSV(list.Sources.Add("parts.csv", []byte(text)), []byte(text), list)
	values := func(row []Cell) []string {
		var out []string
		for _, cell := range row {
			out = append(out, cell.Value)
			cells = append(cells, cell)
		}
		return out
	}
	header = values(c.Header())
	for {
		row, ok := c.Row()
		if !ok {
			return header, rows, cells, list
		}
		rows = append(rows, values(row))
	}
}

func TestCSV(t *testing.T) {
	for _, c := range []struct {
		text string
		rows [][]string
		said string // place and message of the first error
	}{
		{"name,of\nrail,ply\n", [][]string{{"name", "of"}, {"rail", "ply"}}, ""},
		{"\ufeffname , of\r\n rail ,\"ply, 18\"\r\n,\r\n\r\n", [][]string{{"name", "of"}, {"rail", "ply, 18"}}, ""},
		{"length\n7'-6 1/2\"\n\"7'-6\"\"\"", [][]string{{"length"}, {`7'-6 1/2"`}, {`7'-6"`}}, ""},
		{"name;of\nrail;ply\n", nil, "parts.csv:1:1: the columns are parted by semicolons, and commas are wanted"},
		{"\ufeffname;of\n", nil, "parts.csv:1:1: the columns are parted by semicolons, and commas are wanted"},
		{"", nil, "parts.csv:1:1: there is no header row"},
		{"a,b\n1,2,3\nx,y\n", [][]string{{"a", "b"}, {"x", "y"}}, "parts.csv:2:5: this row has 3 cells, and the header has 2"},
		{"a,b\n1\n", [][]string{{"a", "b"}}, "parts.csv:2:1: this row has 1 cells, and the header has 2"},
		{"a,b\n\"1\" 2,3\nx,y", [][]string{{"a", "b"}, {"x", "y"}}, "parts.csv:2:5: something stands after the cell's closing quote"},
		{"a\n\"1\n", [][]string{{"a"}}, "parts.csv:2:1: this quote is not closed"},
		{"é,b\nx\x01,2\n", [][]string{{"é", "b"}, {"x\x01", "2"}}, "parts.csv:2:2: a control character (U+0001) stands here"},
	} {
		header, rows, _, list := readCSV(c.text)
		var got [][]string
		if header != nil {
			got = append([][]string{header}, rows...)
		}
		require.Equal(t, c.rows, got, "%q", c.text)
		said := ""
		if ds := list.Sorted(); len(ds) > 0 {
			said = list.Sources.Position(ds[0].Span).String() + ": " + ds[0].Message
		}
		require.Equal(t, c.said, said, "%q", c.text)
	}
}

// Every place lies in the text, every character of a cell is found where its place says, what was read comes back from what the
// standard library writes of it, and is what the standard library reads where it reads the text.
func FuzzCSV(f *testing.F) {
	f.Add("name,of,length\nrail,\"ply, 18\",\"7'-6\"\"\"\n")
	f.Add("\ufeffa;b\n\"\n")
	f.Add("a,b\r\n\" x \"\"\",\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		header, rows, cells, list := readCSV(text)
		for _, d := range list.Sorted() {
			require.True(t, d.Span.From >= 0 && d.Span.From <= d.Span.To && int(d.Span.To) <= len(text))
		}
		for _, c := range cells {
			require.True(t, c.Span.From >= 0 && c.Span.From <= c.Span.To && int(c.Span.To) <= len(text))
			for i := range len(c.Value) {
				at := c.At(i, i+1)
				require.Equal(t, c.Value[i:i+1], text[at.From:at.To])
			}
		}
		wide := func(r rune) bool { return r >= 0x80 && unicode.IsSpace(r) } // the standard library leaves those out too
		if list.HasErrors() || strings.Contains(text, "\r") || strings.ContainsFunc(text, wide) {
			return
		}
		got := append([][]string{header}, rows...)
		var again strings.Builder
		w := csv.NewWriter(&again)
		require.NoError(t, w.WriteAll(got))
		header, rows, _, list = readCSV(again.String())
		require.False(t, list.HasErrors(), again.String())
		require.Equal(t, got, append([][]string{header}, rows...))

		r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
		r.TrimLeadingSpace, r.FieldsPerRecord = true, -1
		all, err := r.ReadAll()
		if err != nil {
			return // it refuses quotes inside a cell, and blanks after a closing one
		}
		var want [][]string
		for _, row := range all {
			filled := false
			for i := range row {
				row[i] = strings.Trim(row[i], blanks)
				filled = filled || row[i] != ""
			}
			if filled {
				want = append(want, row)
			}
		}
		require.Equal(t, want, got)
	})
}
