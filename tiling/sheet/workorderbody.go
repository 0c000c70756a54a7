package sheet

import (
	"regexp"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/table"
	"markout/tiling"
)

// workBody is the steps of a work order, measured in one lettering. They stand under one another over the whole width, each list or
// table of a step in as many columns of its own as serve it.
type workBody struct {
	box    geom.Rect
	height float64 // of the lettering
	rest   string  // where all is listed
	blocks []workBlock
	steps  int
}

// workBlock is a list or a table of a step.
type workBlock struct {
	step  int                     // the number of its step, from 0
	head  []workPart              // the step's heading, over its first block; the sentences over a table
	ways  [workColumns][]workPart // the things to do, measured for one column, two, three; nil where they do not stand in those
	foot  []workPart              // the notes of a table
	all   int                     // things to do; no more of them are measured than any page holds
	thing string
}

// Room of a work order's body, as shares of the lettering height.
const (
	stepAbove  = 1.6 // over a step's heading
	noteAbove  = 0.8 // over what stands under a list
	wordsBelow = 0.6 // under a paragraph
)

// measureSteps measures steps in a lettering height for a box.
func measureSteps(steps []WorkStep, rest string, height float64, box geom.Rect) *workBody {
	b := &workBody{box: box, height: height, rest: rest, steps: len(steps)}
	for i := range steps {
		s := &steps[i]
		head := workWords(strconv.Itoa(i+1)+"  "+s.Does, max(height, drawing.Lettering3_5), true, box.W())
		if i > 0 {
			head.above = stepAbove * height
		}
		list := b.list(s.Lines)
		list.head = []workPart{head}
		add := []workBlock{list}
		if s.Table != nil && len(s.Table.Rows) > 0 {
			figures := b.table(s.Table)
			if len(s.Lines) == 0 {
				add, figures.head = nil, append([]workPart{head}, figures.head...)
			}
			add = append(add, figures)
		}
		for k := range add {
			add[k].step, add[k].thing = i, s.Thing
			if s.Thing == "" {
				add[k].thing = "line"
			}
		}
		b.blocks = append(b.blocks, add...)
	}
	return b
}

// figure is where a figure stands before its side or unit, which stay on one line.
var figure = regexp.MustCompile(`([0-9"]) ([A-Z]|mm|m|kg|lb)\b`)

// most is how many rows find room at the most.
func (b *workBody) most() int {
	row := (&tableSheets{height: b.height}).rowHeight(1)
	return workColumns * (1 + int(max(0, b.box.H())/row))
}

// list measures lines, each a thing to do.
func (b *workBody) list(lines []string) workBlock {
	k := workBlock{all: len(lines)}
	t := &table.Table{Columns: []table.Column{{Name: "does"}}}
	for _, l := range lines[:min(len(lines), b.most())] {
		t.Rows = append(t.Rows, []table.Value{{Text: figure.ReplaceAllString(l, "$1\u00a0$2"), Set: true}})
	}
	for n := range k.ways {
		s := b.sheet(t, n+1)
		s.cols = []column{{of: t.Columns[0], text: true, width: s.width() - 2*aside*b.height}} // as wide as there is
		k.ways[n] = rowParts(s, nil)
	}
	return k
}

// table measures the rows of a table, each a thing to do. One whose columns do not stand side by side on the page becomes a list.
func (b *workBody) table(t *table.Table) workBlock {
	all := len(t.Rows)
	shown := *t
	shown.Rows = t.Rows[:min(all, b.most())]
	t = &shown
	var k workBlock
	wide := b.columns(t, 1) == nil
	if wide {
		k = b.list(rowSentences(t))
	}
	k.all = all
	for _, l := range t.Head {
		k.head = append(k.head, b.words(l, false))
	}
	for n := range k.ways {
		if s := b.columns(t, n+1); s != nil && !wide {
			k.ways[n] = rowParts(s, &workPart{tall: s.headHeight(), draw: func(p *tiling.Page, left, top float64) { s.drawHead(p, left, top) }})
		}
	}
	for i, l := range t.Notes {
		p := b.words(l, false)
		if i == 0 {
			p.above = noteAbove * b.height
		}
		k.foot = append(k.foot, p)
	}
	return k
}

// rowSentences says each row of a table in words: its first cell, then the others with their headings.
func rowSentences(t *table.Table) []string {
	out := make([]string, len(t.Rows))
	for r, row := range t.Rows {
		var says []string
		for i, c := range t.Columns {
			cell := t.ForPeople(c, row[i])
			switch {
			case cell == "":
			case len(says) == 0:
				says = append(says, cell)
			default:
				says = append(says, t.Heading(c)+" "+cell)
			}
		}
		out[r] = strings.Join(says, "; ")
	}
	return out
}

// columns lays a table out in one of n columns of the body; nil where it does not stand there.
func (b *workBody) columns(t *table.Table, n int) (best *tableSheets) {
	heads := []float64{max(headHeight(b.height), workLeast)}
	if small := headHeight(b.height); n == 1 && small < workLeast {
		heads = append(heads, small) // smaller headings rather than no table
	}
	for _, head := range heads {
		for _, how := range [2]sharing{wholeRows, evenly} {
			s := b.sheet(t, n)
			s.head, s.cols = head, columnsOf(t, s.height, head)
			if !fit(t, s.cols, s.height, head, s.width(), how) {
				continue
			}
			s.spread()
			for i := range s.cols { // in a wider column a heading takes fewer lines
				k := &s.cols[i]
				k.head = lettering.Wrap(t.Heading(k.of), head, true, k.width+1e-6)
			}
			for r := range t.Rows {
				s.tall += s.rowHeight(s.lines(r))
			}
			if best == nil || s.tall < best.tall {
				best = s
			}
		}
		if best != nil {
			break
		}
	}
	return best
}

// sheet is a table in one of n columns of the body, with a box to tick before each row.
func (b *workBody) sheet(t *table.Table, n int) *tableSheets {
	w := columnsIn(b.box, n, workApart)[0].W()
	column := geom.Rect{Max: geom.Point{X: w + 2*gap}} // a table keeps away from its frame
	return &tableSheets{frame: &frame{live: column}, t: t, height: b.height, ticks: true}
}

// rowParts are a table's rows, each a part.
func rowParts(s *tableSheets, over *workPart) []workPart {
	out := make([]workPart, len(s.t.Rows))
	for r := range out {
		out[r] = workPart{tall: s.rowHeight(s.lines(r)), over: over, draw: func(p *tiling.Page, left, top float64) {
			s.drawRow(p, r, r, left, top)
		}}
	}
	return out
}

func (b *workBody) words(text string, bold bool) workPart {
	return workWords(text, b.height, bold, b.box.W())
}

// workWords is a paragraph in a lettering, broken to a width.
func workWords(text string, height float64, bold bool, width float64) workPart {
	lines := lettering.Wrap(text, height, bold, width)
	return workPart{tall: height * (1 + lettering.Leading*float64(len(lines)-1) + wordsBelow), draw: func(p *tiling.Page, left, top float64) {
		p.Layers[drawing.Notes].WriteLines(left, top, height, bold, lines)
	}}
}

// more counts what found no room, and says where it stands.
func (b *workBody) more(hidden int, thing string) workPart {
	p := b.words(moreWords(hidden, thing, b.rest), true)
	p.above = noteAbove * b.height
	return p
}

func moreWords(hidden int, thing, rest string) string {
	return strings.TrimSuffix("… and "+counted(hidden, "more "+thing)+": "+rest, ": ")
}
