package table

import (
	"bufio"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"markout/layout/table"
)

// width is how many characters wide a text table may be before its rows are broken into several lines.
const width = 100

const (
	gap    = "  "
	indent = "    " // of a row's further lines
)

// Text writes t for people: title, headings with their units, columns aligned on the unit, letters instead of signs, and
// the notes below. A column that is empty in every row is left out. A table wider than 100 characters gets rows of
// several lines, the further ones indented, broken before the columns that say so and wherever else it must be.
func Text(w io.Writer, t *table.Table) error {
	out := bufio.NewWriter(w)
	if t.Title != "" {
		out.WriteString(clean(t.Title) + "\n\n")
	}
	bands := inBands(columns(t))
	if len(t.Rows) == 0 {
		out.WriteString("nothing to list\n")
	} else if len(bands) > 0 {
		for i, band := range bands {
			writeHead(out, band, i)
		}
		for r := range t.Rows {
			if len(bands) > 1 {
				out.WriteByte('\n')
			}
			for i, band := range bands {
				writeRow(out, band, r, i)
			}
		}
	}
	for i, n := range t.Notes {
		if i == 0 {
			out.WriteByte('\n')
		}
		for _, line := range wrapped(clean(n), width) {
			out.WriteString(line + "\n")
		}
	}
	return out.Flush()
}

// column is one column laid out.
type column struct {
	head    []string // lines of the heading
	cells   []table.Figure
	words   bool // a text, which starts at the left
	breaks  bool
	whole   int // widths of the three parts of a figure, of a text the first
	part    int
	side    int
	width   int
	leftPad int // a heading wider than its figures pushes them to the right
}

// columns lays out every column that says something.
func columns(t *table.Table) []column {
	var out []column
	carry := false // a break before a column that is left out belongs to the next one
	for k, c := range t.Columns {
		col := column{words: c.Kind == table.Text || c.Kind == table.Flag, breaks: c.Break || carry}
		col.cells = make([]table.Figure, len(t.Rows))
		for r, row := range t.Rows {
			f := t.Figure(c, row[k])
			f.Whole = clean(f.Whole)
			col.cells[r] = f
			col.whole = max(col.whole, utf8.RuneCountInString(f.Whole))
			col.part = max(col.part, len(f.Part))
			col.side = max(col.side, utf8.RuneCountInString(f.Side))
		}
		col.width = col.whole + col.part + col.side
		if col.side > 0 {
			col.width++
		}
		if carry = col.width == 0 && col.breaks; col.width == 0 {
			continue
		}
		col.head = wrapped(clean(t.Heading(c)), max(col.width, 8))
		for _, h := range col.head {
			if n := utf8.RuneCountInString(h); n > col.width {
				col.leftPad += n - col.width
				col.width = n
			}
		}
		out = append(out, col)
	}
	return out
}

// inBands deals the columns out over the lines of a row.
func inBands(cols []column) [][]column {
	total := 0
	for _, c := range cols {
		total += c.width + len(gap)
	}
	if total-len(gap) <= width {
		if len(cols) == 0 {
			return nil
		}
		return [][]column{cols}
	}
	var bands [][]column
	at, used := 0, 0
	for i, c := range cols {
		if i > at && (c.breaks || used+len(gap)+c.width > width) {
			bands = append(bands, cols[at:i])
			at, used = i, len(indent)
		} else if i > at {
			used += len(gap)
		}
		used += c.width
	}
	return append(bands, cols[at:])
}

func writeHead(out *bufio.Writer, band []column, n int) {
	lines := 0
	for _, c := range band {
		lines = max(lines, len(c.head))
	}
	for i := range lines {
		var line strings.Builder
		if n > 0 {
			line.WriteString(indent)
		}
		for k, c := range band {
			if k > 0 {
				line.WriteString(gap)
			}
			h := ""
			if at := i - (lines - len(c.head)); at >= 0 {
				h = c.head[at]
			}
			fill := strings.Repeat(" ", c.width-utf8.RuneCountInString(h))
			if c.words {
				line.WriteString(h + fill)
			} else {
				line.WriteString(fill + h)
			}
		}
		out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}

func writeRow(out *bufio.Writer, band []column, r, n int) {
	var line strings.Builder
	if n > 0 {
		line.WriteString(indent)
	}
	pad := func(n int) {
		for range n {
			line.WriteByte(' ')
		}
	}
	for k, c := range band {
		if k > 0 {
			line.WriteString(gap)
		}
		f := c.cells[r]
		lack := c.whole - utf8.RuneCountInString(f.Whole)
		if c.words {
			line.WriteString(f.Whole)
			pad(c.width - c.whole + lack)
			continue
		}
		pad(c.leftPad + lack)
		line.WriteString(f.Whole)
		line.WriteString(f.Part)
		pad(c.part - len(f.Part))
		if c.side > 0 {
			line.WriteByte(' ')
			line.WriteString(f.Side)
			pad(c.side - utf8.RuneCountInString(f.Side))
		}
	}
	if s := strings.TrimRight(line.String(), " "); s != "" {
		out.WriteString(s + "\n")
	} else if n == 0 {
		out.WriteByte('\n')
	}
}

// clean keeps a text on its line: what is not printed becomes a space, what is not UTF-8 the replacement character.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return ' '
	}, strings.ToValidUTF8(s, "\ufffd"))
}

// wrapped breaks s between words into lines of at most n characters; a longer word stands alone.
func wrapped(s string, n int) []string {
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(s) {
		w := utf8.RuneCountInString(word)
		if line != "" && used+1+w > n {
			lines, line, used = append(lines, line), "", 0
		}
		if line != "" {
			line, used = line+" ", used+1
		}
		line, used = line+word, used+w
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
