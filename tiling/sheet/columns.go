package sheet

import (
	"slices"
	"strings"

	"markout/layout/drawing"
	"markout/layout/lettering"
	"markout/layout/table"
)

// column is one column of a table on paper. Figures are aligned on their unit: whole figures end where the parts begin, and
// the letters of the sides stand under one another.
type column struct {
	of    table.Column
	index int
	width float64 // without the room at its sides
	text  bool    // lettering that may go on below itself; otherwise figures
	whole float64 // width of the widest whole figure
	part  float64 // and of the widest part behind the point
	side  float64 // and of the widest side
	head  []string
}

// aside is the room at each side of a column, as a share of the lettering height.
const aside = 0.5

// sideGap is the distance from a figure to its letter, as a share of the lettering height.
const sideGap = 0.35

// mostHead is the most lines a heading takes.
const mostHead = 4

// columnsOf measures the columns that say anything at a lettering height, head that of their headings.
func columnsOf(t *table.Table, height, head float64) []column {
	var out []column
	for i, c := range t.Columns {
		k := column{of: c, index: i, text: c.Kind == table.Text || c.Kind == table.Flag}
		said := false
		for _, row := range t.Rows {
			f := t.Figure(c, row[i])
			if f == (table.Figure{}) {
				continue
			}
			said = true
			k.whole = max(k.whole, lettering.Width(f.Whole, height, false))
			k.part = max(k.part, lettering.Width(f.Part, height, false))
			k.side = max(k.side, lettering.Width(f.Side, height, false))
		}
		if !said {
			continue
		}
		k.width = k.wants(t, height, head)
		out = append(out, k)
	}
	return out
}

func (k *column) content(height float64) float64 {
	w := k.whole + k.part
	if k.side > 0 {
		w += sideGap*height + k.side
	}
	return w
}

// wants is the width that a column takes where there is room.
func (k *column) wants(t *table.Table, height, head float64) float64 {
	return max(k.content(height), longestWord(t.Heading(k.of), head, true))
}

// headHeight is the lettering of headings over a table: a size smaller, so that a long word over short figures does not take
// their room.
func headHeight(height float64) float64 {
	for _, h := range letterings {
		if h < height {
			return h
		}
	}
	return height
}

// glued keeps a name's number and a figure's unit on the line of the word before: `deck corner 3`, `white 25 mm` break
// before `corner` and `25`.
func glued(text string) string {
	const noBreak = "\u00a0"
	if i := strings.LastIndexByte(text, ' '); i > 0 && i+1 < len(text) {
		last := text[i+1:]
		if last == "mm" || strings.Trim(last, "0123456789") == "" {
			return text[:i] + noBreak + last
		}
	}
	return text
}

// longestWord is the width of the widest run without a space.
func longestWord(text string, height float64, bold bool) float64 {
	w := 0.0
	for word := range strings.SplitSeq(text, " ") {
		w = max(w, lettering.Width(word, height, bold))
	}
	return w
}

// sharing is how columns of lettering share what room the table leaves them over their longest words.
type sharing uint8

const (
	wholeRows sharing = iota // where it keeps most rows on one line: for names
	evenly                   // by how much each lacks: for sentences
)

// fit narrows columns of lettering until all stand within width, and reports whether they do. None becomes narrower than
// its longest word.
func fit(t *table.Table, cols []column, height, head, width float64, how sharing) bool {
	room := width
	wanted := make([][]float64, len(cols)) // widths of the cells that are wider than their column, the narrowest first
	for i := range cols {
		k := &cols[i]
		room -= 2 * aside * height
		if k.text {
			least := longestWord(t.Heading(k.of), head, true)
			for _, row := range t.Rows {
				least = max(least, longestWord(glued(row[k.index].Text), height, false))
			}
			k.width = min(k.width, least)
			for _, row := range t.Rows {
				if w := lettering.Width(row[k.index].Text, height, false); w > k.width {
					wanted[i] = append(wanted[i], w)
				}
			}
			slices.Sort(wanted[i])
		}
		room -= k.width
	}
	if room < 0 {
		return false
	}
	if how == evenly {
		shareEvenly(cols, wanted, room)
	} else {
		shareWhole(cols, wanted, room)
	}
	for i := range cols {
		cols[i].head = lettering.Wrap(t.Heading(cols[i].of), head, true, cols[i].width+1e-6)
		if len(cols[i].head) > mostHead && height > drawing.Lettering1_8 {
			return false
		}
	}
	return true
}

// shareWhole widens column by column, each time the one in which a millimetre more keeps most cells on one line.
func shareWhole(cols []column, wanted [][]float64, room float64) {
	for {
		col, upTo, most := -1, 0, 0.0
		for i, ws := range wanted {
			for n, w := range ws {
				if n+1 < len(ws) && ws[n+1] == w {
					continue
				}
				more := w - cols[i].width
				if gain := float64(n+1) / more; more <= room && gain > most {
					col, upTo, most = i, n, gain
				}
			}
		}
		if col < 0 {
			return
		}
		w := wanted[col][upTo] + 1e-9
		room -= w - cols[col].width
		cols[col].width = w
		wanted[col] = wanted[col][upTo+1:]
	}
}

// shareEvenly widens each column by its share of the room, as its widest cell lacks it.
func shareEvenly(cols []column, wanted [][]float64, room float64) {
	lacks := make([]float64, len(cols))
	total := 0.0
	for i, ws := range wanted {
		if n := len(ws); n > 0 {
			lacks[i] = ws[n-1] - cols[i].width
			total += lacks[i]
		}
	}
	if total == 0 {
		return
	}
	for i := range cols {
		cols[i].width += lacks[i] * min(1, room/total)
	}
}
