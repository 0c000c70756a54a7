package sheet

import (
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
const aside = 0.45

// sideGap is the distance from a figure to its letter, as a share of the lettering height.
const sideGap = 0.35

// mostHead is the most lines a heading takes.
const mostHead = 4

// columnsOf measures the columns that say anything at a lettering height.
func columnsOf(t *table.Table, height float64) []column {
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
		k.width = k.content(height)
		k.width = max(k.width, longestWord(t.Heading(c), height, true))
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

// longestWord is the width of the widest run without a space.
func longestWord(text string, height float64, bold bool) float64 {
	w := 0.0
	for word := range strings.FieldsSeq(text) {
		w = max(w, lettering.Width(word, height, bold))
	}
	return w
}

// fit narrows columns of lettering until all stand within width, and reports whether they do. None becomes narrower than
// its longest word. The widest are narrowed first.
func fit(t *table.Table, cols []column, height, width float64) bool {
	room := width
	least := make([]float64, len(cols))
	for i, k := range cols {
		room -= 2 * aside * height
		least[i] = k.width
		if k.text {
			least[i] = longestWord(t.Heading(k.of), height, true)
			for _, row := range t.Rows {
				least[i] = max(least[i], longestWord(row[k.index].Text, height, false))
			}
			least[i] = min(least[i], k.width)
		}
	}
	total, floor := 0.0, 0.0
	for i := range cols {
		total += cols[i].width
		floor += least[i]
	}
	if floor > room {
		return false
	}
	for total > room {
		widest := -1
		for i := range cols {
			if cols[i].width > least[i] && (widest < 0 || cols[i].width > cols[widest].width) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		cut := min(total-room, cols[widest].width-least[widest], max(1, cols[widest].width/8))
		cols[widest].width -= cut
		total -= cut
	}
	for i := range cols {
		cols[i].head = lettering.Wrap(t.Heading(cols[i].of), height, true, cols[i].width+1e-6)
		if len(cols[i].head) > mostHead && height > drawing.Lettering1_8 {
			return false
		}
	}
	return true
}
