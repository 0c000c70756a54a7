package sheet

import (
	"fmt"
	"slices"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/table"
	"markout/tiling"
)

// tableSheets is a table laid out on pages of one frame.
type tableSheets struct {
	frame   *frame
	t       *table.Table
	height  float64 // of the lettering
	head    float64 // of that of the headings
	cols    []column
	ticks   bool // a box to tick before each row
	defers  bool // the line that defers to who decides
	grouped bool // a rule where the first column changes
	pages   []tablePage
	tall    float64 // of all rows together
}

// tablePage is the rows [from, to) and whether the notes follow them.
type tablePage struct {
	from, to int
	notes    bool
}

// Measures of a table's page in millimetres.
const (
	tableTitle = drawing.Lettering7
	tickBox    = 4.0
	bandTone   = drawing.Tone(0.93)
	ruleWidth  = drawing.MediumLine
)

// tableLetters are the heights a table may have, the best first.
var tableLetters = [...]float64{drawing.Lettering3_5, drawing.Lettering2_5, drawing.Lettering1_8}

// layTable lays a table in the tallest lettering in which its columns stand side by side, lying or upright, whichever takes
// fewer pages.
func layTable(t *table.Table, defers bool, frames []frame) (*tableSheets, error) {
	for _, h := range tableLetters {
		var best *tableSheets
		head := headHeight(h)
		measured := columnsOf(t, h, head)
		for i := range frames {
			for _, how := range [2]sharing{wholeRows, evenly} {
				s := &tableSheets{frame: &frames[i], t: t, height: h, head: head, cols: slices.Clone(measured), defers: defers}
				s.ticks = t.Name == "floor"
				s.grouped = s.ticks
				if !fit(t, s.cols, h, head, s.width(), how) {
					continue
				}
				s.spread()
				s.paginate()
				if best == nil || len(s.pages) < len(best.pages) || len(s.pages) == len(best.pages) && s.tall < best.tall {
					best = s
				}
			}
		}
		if best != nil {
			return best, nil
		}
	}
	return nil, fmt.Errorf("the table %s does not fit %s, even in the smallest lettering", t.Title, frames[0].paper)
}

// width is what the columns may take.
func (s *tableSheets) width() float64 {
	w := s.frame.live.W() - 2*gap
	if s.ticks {
		w -= s.tickWidth()
	}
	return w
}

// tick is the side of the box to tick.
func (s *tableSheets) tick() float64 { return min(tickBox, s.rowHeight(1)-1.2) }

func (s *tableSheets) tickWidth() float64 { return tickBox + 2*aside*s.height }

// spread shares out what width is left, so that rows are not crowded at the left; never more than the figures' own size.
func (s *tableSheets) spread() {
	used := 0.0
	for _, k := range s.cols {
		used += k.width + 2*aside*s.height
	}
	if len(s.cols) == 0 {
		return
	}
	each := min((s.width()-used)/float64(len(s.cols)), 1.5*s.height)
	for i := range s.cols {
		s.cols[i].width += max(0, each)
	}
}

// rowHeight is that of a row of so many lines.
func (s *tableSheets) rowHeight(lines int) float64 {
	return s.height*(1.9+lettering.Leading*float64(lines-1)) + 0.2
}

func (s *tableSheets) lines(row int) int {
	n := 1
	for _, k := range s.cols {
		if k.text {
			n = max(n, len(s.wrapped(row, &k)))
		}
	}
	return n
}

func (s *tableSheets) wrapped(row int, k *column) []string {
	return lettering.Wrap(glued(s.t.Figure(k.of, s.t.Rows[row][k.index]).Whole), s.height, false, k.width+1e-6)
}

// top is where the rows begin, foot where they end at the latest.
func (s *tableSheets) top() float64 { return s.headTop() - s.headHeight() }

func (s *tableSheets) headTop() float64 {
	y := s.frame.live.Max.Y - gap - tableTitle - 2
	for _, l := range s.intro() {
		y -= float64(len(lettering.Wrap(l, introHeight, false, s.frame.live.W()-2*gap))) * introHeight * lettering.Leading
	}
	return y - 1.5
}

const introHeight = drawing.Lettering3_5

func (s *tableSheets) headHeight() float64 {
	n := 1
	for _, k := range s.cols {
		n = max(n, len(k.head))
	}
	return s.head * (0.9 + lettering.Leading*float64(n))
}

func (s *tableSheets) foot() float64 { return s.frame.live.Min.Y + stripHeight + gap }

// intro is what stands above every page's table.
func (s *tableSheets) intro() []string {
	out := slices.Clone(s.t.Head)
	if s.ticks {
		sides := s.t.Sides
		out = append(out, fmt.Sprintf("%s: to the side of the centre line that is %s; %s: %s; U: upstage of the setting line; D: downstage. Tick what is laid.",
			sides.Plus, sides.PlusWord, sides.Minus, sides.MinusWord))
	}
	if s.defers {
		out = append(out, caution.Defer)
	}
	return out
}

// paginate cuts the rows into pages. The notes follow the last row, on a page of their own where they do not fit.
func (s *tableSheets) paginate() {
	s.pages, s.tall = s.pages[:0], 0
	y := s.top()
	from := 0
	for i := range s.t.Rows {
		h := s.rowHeight(s.lines(i))
		if y-h < s.foot() && i > from {
			s.pages = append(s.pages, tablePage{from: from, to: i})
			from, y = i, s.top()
		}
		y -= h
		s.tall += h
	}
	if notes := s.notes(); len(s.t.Notes) > 0 && y-notes.height(s.noteWidth())-gap < s.foot() && len(s.t.Rows) > from {
		s.pages = append(s.pages, tablePage{from: from, to: len(s.t.Rows)})
		from = len(s.t.Rows)
	}
	s.pages = append(s.pages, tablePage{from: from, to: len(s.t.Rows), notes: len(s.t.Notes) > 0})
}

func (s *tableSheets) notes() block { return notesBlock(s.t.Notes, drawing.Lettering3_5) }

// noteWidth keeps notes to a width that reads easily.
func (s *tableSheets) noteWidth() float64 { return min(s.frame.live.W()-2*gap, 220) }

// draw draws page i but for the frame and the title strip.
func (s *tableSheets) draw(p *tiling.Page, i int) {
	pg := s.pages[i]
	c := &p.Layers[drawing.Notes]
	left := s.frame.live.Min.X + gap
	y := s.frame.live.Max.Y - gap - tableTitle
	c.Write(geom.Point{X: left, Y: y}, tableTitle, true, s.t.Title)
	y -= 2
	for _, l := range s.intro() {
		lines := lettering.Wrap(l, introHeight, false, s.frame.live.W()-2*gap)
		c.WriteLines(left, y-introHeight*(lettering.Leading-1), introHeight, false, lines)
		y -= float64(len(lines)) * introHeight * lettering.Leading
	}
	y = s.top()
	if pg.to > pg.from {
		s.drawHead(p, left, s.headTop())
		for r := pg.from; r < pg.to; r++ {
			y = s.drawRow(p, r, r-pg.from, left, y)
		}
		c.Line(p, tiling.Pen{Width: ruleWidth}, left, y, s.right(left), y)
	} else {
		y = s.headTop()
	}
	if pg.notes {
		n := s.notes()
		n.draw(p, left, y-gap, s.noteWidth())
	}
}

// right is the right end of the rows.
func (s *tableSheets) right(left float64) float64 {
	x := left
	if s.ticks {
		x += s.tickWidth()
	}
	for _, k := range s.cols {
		x += k.width + 2*aside*s.height
	}
	return x
}

// drawHead draws the headings, their upper rule at top.
func (s *tableSheets) drawHead(p *tiling.Page, left, top float64) {
	c := &p.Layers[drawing.Notes]
	bottom, height := top-s.headHeight(), s.head
	c.Line(p, tiling.Pen{Width: ruleWidth}, left, top, s.right(left), top)
	c.Line(p, tiling.Pen{Width: ruleWidth}, left, bottom, s.right(left), bottom)
	x := left
	if s.ticks {
		x += s.tickWidth()
	}
	for i := range s.cols {
		k := &s.cols[i]
		x += aside * s.height
		for n, l := range k.head {
			at := x
			if !k.text { // over the figures, which stand at the right of their column
				at = x + k.width - lettering.Width(l, height, true)
			}
			base := bottom + height*0.6 + float64(len(k.head)-1-n)*height*lettering.Leading
			c.Write(geom.Point{X: at, Y: base}, height, true, l)
		}
		x += k.width + aside*s.height
	}
}

// drawRow draws row r, the nth of its page, its top at y, and returns its foot.
func (s *tableSheets) drawRow(p *tiling.Page, r, nth int, left, y float64) float64 {
	c := &p.Layers[drawing.Notes]
	h := s.rowHeight(s.lines(r))
	box := geom.Rect{Min: geom.Point{X: left, Y: y - h}, Max: geom.Point{X: s.right(left), Y: y}}
	if nth%2 == 1 {
		c.Fills = append(c.Fills, tiling.Fill{Tone: bandTone, Rings: [][]geom.Point{tiling.Box(box)}})
	}
	if s.grouped && nth > 0 && r > 0 && s.t.Rows[r][0].Text != s.t.Rows[r-1][0].Text {
		c.Line(p, tiling.Thin, left, y, box.Max.X, y)
	}
	base := y - s.rowHeight(1)/2 - s.height/2
	x := left
	if s.ticks {
		mid := geom.Point{X: x + s.tickWidth()/2, Y: base + s.height/2}
		c.Polyline(p, tiling.Thin, true, tiling.Box(boxAbout(mid, s.tick(), s.tick()))...)
		x += s.tickWidth()
	}
	for i := range s.cols {
		k := &s.cols[i]
		x += aside * s.height
		f := s.t.Figure(k.of, s.t.Rows[r][k.index])
		switch {
		case k.text:
			for n, l := range s.wrapped(r, k) {
				if l != "" {
					c.Write(geom.Point{X: x, Y: base - float64(n)*s.height*lettering.Leading}, s.height, false, l)
				}
			}
		case f.Whole != "":
			unit := x + k.width - k.content(s.height) + k.whole
			c.Write(geom.Point{X: unit - lettering.Width(f.Whole, s.height, false), Y: base}, s.height, false, f.Whole+f.Part)
			if f.Side != "" {
				c.Write(geom.Point{X: unit + k.part + sideGap*s.height, Y: base}, s.height, false, f.Side)
			}
		}
		x += k.width + aside*s.height
	}
	return y - h
}

// cautionTable lists cautions for people.
func cautionTable(list []caution.Caution) *table.Table {
	t := &table.Table{Name: "cautions", Title: "Cautions", Columns: []table.Column{
		{Name: "code", Heading: "Code"}, {Name: "element", Heading: "Piece"}, {Name: "message", Heading: "What was found"},
		{Name: "figure", Heading: "Figure"}, {Name: "limit", Heading: "Published"}, {Name: "source", Heading: "Where"},
	}}
	for _, c := range list {
		t.Rows = append(t.Rows, []table.Value{table.T(c.Code), table.T(c.Element), table.T(c.Message), table.T(c.Figure), table.T(c.Limit), table.T(c.Source)})
	}
	return t
}
