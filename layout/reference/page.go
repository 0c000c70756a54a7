package reference

import (
	"strings"
	"unicode/utf8"
)

// width is the most columns that a line of text has.
const width = 100

// page is one topic, made of blocks that stand below one another.
type page struct {
	topic  string // the word it is found under
	title  string
	blocks []block
}

// block is one part of a page; one of its fields is set.
type block struct {
	words   string // a paragraph
	heading string
	form    string // of a statement or an attribute
	example string // lines of a geometry file that work in the set of Surroundings
	wrong   string // lines that are an error there
	line    string // an attribute's line, which works in its kind's example
	rows    []row  // terms and what they mean
	head    row    // of the rows; empty for none
}

type row struct{ term, means string }

func say(words string) block       { return block{words: words} }
func example(lines string) block   { return block{example: lines} }
func wrong(lines string) block     { return block{wrong: lines} }
func terms(rows ...row) block      { return block{rows: rows} }
func section(heading string) block { return block{heading: heading} }

// text writes the page for a terminal.
func (p page) text(b *strings.Builder) {
	b.WriteString(wrap(p.title, "", ""))
	for i, bl := range p.blocks {
		switch {
		case bl.form != "" && i > 0 && p.blocks[i-1].heading != "":
		default:
			b.WriteByte('\n')
		}
		bl.text(b)
	}
}

func (bl block) text(b *strings.Builder) {
	switch {
	case bl.heading != "":
		b.WriteString(bl.heading + "\n")
	case bl.form != "":
		b.WriteString(wrap(bl.form, "  ", "      "))
	case bl.example != "":
		b.WriteString(indent(bl.example, "    "))
	case bl.line != "":
		b.WriteString(indent(bl.line, "    "))
	case bl.wrong != "":
		b.WriteString("  An error:\n" + indent(bl.wrong, "    "))
	case len(bl.rows) > 0:
		widest := 0
		for _, r := range bl.rows {
			if n := utf8.RuneCountInString(r.term); n <= 28 {
				widest = max(widest, n)
			}
		}
		for _, r := range bl.rows {
			hang := strings.Repeat(" ", widest+4)
			n := utf8.RuneCountInString(r.term)
			if n > widest {
				b.WriteString("  " + r.term + "\n" + wrap(r.means, hang, hang))
				continue
			}
			b.WriteString(wrap(r.means, "  "+r.term+strings.Repeat(" ", widest-n+2), hang))
		}
	default:
		b.WriteString(wrap(bl.words, "", ""))
	}
}

// wrap breaks words into lines of at most width columns; the first line begins with first, the others with next.
func wrap(words, first, next string) string {
	var b strings.Builder
	line, empty := first, true
	for _, w := range strings.Fields(words) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > width {
			b.WriteString(line + "\n")
			line, empty = next, true
		}
		if !empty {
			line += " "
		}
		line += w
		empty = false
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
	return b.String()
}

func indent(lines, by string) string {
	var b strings.Builder
	for l := range strings.Lines(strings.TrimRight(lines, "\n") + "\n") {
		if l != "\n" {
			b.WriteString(by)
		}
		b.WriteString(l)
	}
	return b.String()
}

// markdown writes the page under a heading of the given depth.
func (p page) markdown(b *strings.Builder, depth int) {
	b.WriteString("\n" + strings.Repeat("#", depth) + " " + p.title + "\n")
	for _, bl := range p.blocks {
		b.WriteByte('\n')
		switch {
		case bl.heading != "":
			b.WriteString(strings.Repeat("#", depth+1) + " " + bl.heading + "\n")
		case bl.form != "":
			b.WriteString("`" + bl.form + "`\n")
		case bl.example != "":
			b.WriteString(fence(bl.example))
		case bl.line != "":
			b.WriteString(fence(bl.line))
		case bl.wrong != "":
			b.WriteString("An error:\n\n" + fence(bl.wrong))
		case len(bl.rows) > 0:
			head := bl.head
			b.WriteString("| " + cell(head.term) + " | " + cell(head.means) + " |\n|---|---|\n")
			for _, r := range bl.rows {
				b.WriteString("| `" + cell(r.term) + "` | " + cell(r.means) + " |\n")
			}
		default:
			b.WriteString(bl.words + "\n")
		}
	}
}

func fence(lines string) string { return "```\n" + strings.TrimRight(lines, "\n") + "\n```\n" }

// cell keeps the bars of a form from ending the cell of a table.
func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }
