package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// Bands of a card sheet of paper in millimetres: at the left the upright check bar, along the foot the level one, what lines
// and letters mean, and the title.
const (
	bandLeft = 5.5
	bandFoot = 18.0
)

// footing is where a card sheet says what it is: in the bands of paper, or on a board where room was found.
type footing struct {
	paper  bool
	unsaid bool       // some joints stand neither on the pieces nor beside them
	lo     geom.Point // of the bands; of a board's plate its lower left corner
	right  float64    // end of the foot band
	size   plateSize
	none   bool // no room was found on the board
}

// plateSize is the lettering of a board's plate. Without text it is one line: which sheet, which card, which scale.
type plateSize struct{ head, text float64 }

var plateSizes = [...]plateSize{
	{drawing.Lettering20, drawing.Lettering10}, {drawing.Lettering10, drawing.Lettering5}, {drawing.Lettering5, drawing.Lettering3_5},
	{drawing.Lettering3_5, drawing.Lettering1_8}, {drawing.Lettering1_8, 0},
}

// sheetWords is what a card sheet says of itself.
type sheetWords struct {
	label, card, scale, set, issue, count string
	face, codes                           string
}

// words are what sheet i says of itself; of its entry the content mark counts, and the letter and date at which its drawing last
// changed where it has them.
func (c *CardModel) words(i int, f *footing, e *tiling.Entry, n, of int) sheetWords {
	s := c.set
	letter, date := s.Letter, s.Date
	if e.Letter != "" {
		letter, date = e.Letter, e.Date
	}
	w := sheetWords{
		label: c.Sheets[i].label(), card: "CARD " + cardWords(c.Sheets[i].Card, c.Sheets[i].Thickness, s.Units), scale: "SCALE " + c.opt.ScaleWords,
		set: s.Name, issue: "TRIAL", face: faceOf(c.Model), codes: c.codes(),
	}
	if f.paper && f.unsaid {
		w.codes = "More joints: see their list.   " + w.codes
	}
	if s.Production != "" {
		w.set += " / " + s.Production
	}
	if issueOf(s) != "TRIAL" {
		w.issue = "issue " + letter
	}
	if date != "" {
		w.issue += "  " + date
	}
	w.count = "content " + e.Mark
	if of > 0 {
		w.count = fmt.Sprintf("page %d of %d  %s", n, of, w.count)
	}
	return w
}

// faceOf says on which side of the card the lines are.
func faceOf(m *develop.Model) string {
	if len(m.Pieces) > 0 && !m.Pieces[0].Hidden {
		return "Printed on the face that is seen."
	}
	return "Printed on the hidden face, drawn opposite-handed."
}

// codes lists the letters that stand for ways to join, those that the model has.
func (c *CardModel) codes() string {
	var out []string
	for _, k := range treatments {
		if c.has(func(p *develop.Piece) bool { return hasTreatment(p, k.of) }) || c.laid(k.of) {
			out = append(out, k.code+" "+k.words)
		}
	}
	return strings.Join(append(out, faceCode+" "+faceWords, "22.5° is the bevel off square"), "   ")
}

// laid reports whether pieces are laid on one another, if that is what is asked for.
func (c *CardModel) laid(t develop.Treatment) bool {
	return t == develop.Laid && slices.ContainsFunc(c.Model.Joints, func(j develop.Joint) bool { return j.Treatment == t })
}

func hasTreatment(p *develop.Piece, t develop.Treatment) bool {
	if t == develop.Tabbed && len(p.Tabs) > 0 {
		return true
	}
	for _, e := range p.Edges {
		if e.Treatment == t {
			return true
		}
	}
	return false
}

// lineKinds are the lines of card sheets and what they mean.
var lineKinds = [...]struct {
	pen   tiling.Pen
	words string
}{
	{tiling.CutPen, "cut"}, {foldFront, "half-cut front"}, {gluePen, "glue line"}, {foldBack, "half-cut back"},
}

// bars are the lengths that a check bar may have, and how each is called.
func (c *CardModel) bars() (lengths []float64, words func(l float64) string) {
	if c.set.Units.Imperial() {
		return []float64{10 * 25.4, 4 * 25.4, 2 * 25.4, 25.4}, func(l float64) string { return fmt.Sprintf("check: %g in", l/25.4) }
	}
	return []float64{250, 100, 50, 20}, func(l float64) string { return fmt.Sprintf("check: %g mm", l) }
}

// barFor is the longest check bar up to a wish that leaves room.
func (c *CardModel) barFor(wish, room float64) (float64, string) {
	lengths, words := c.bars()
	for i, l := range lengths {
		if l <= wish*1.05 && l <= room || i == len(lengths)-1 {
			return l, words(l)
		}
	}
	return 0, ""
}

// mount puts on a sheet what is on it besides its pieces: check bars and the list of what found no room, and finds where the
// sheet says what it is.
func (c *CardModel) mount(out *tiling.CutSheet, g *ground, i int, unsaid []string) (f footing) {
	s := &c.Sheets[i]
	if c.opt.Board.H == 0 {
		c.mountPaper(out, &f, s)
	} else {
		c.mountBoard(out, &f, g, i)
	}
	if len(unsaid) > 0 && !c.listUnsaid(out, g, s, unsaid) {
		f.unsaid = true
	}
	return f
}

func (c *CardModel) mountPaper(out *tiling.CutSheet, f *footing, s *CardSheet) {
	f.paper, f.lo, f.right = true, s.lo, s.Area.Max.X
	reg := &out.Registration
	length, words := c.barFor(100, min(f.right-f.lo.X-70, 110))
	y := f.lo.Y + bandFoot - 3
	x := f.lo.X + bandLeft
	thinBar(reg, geom.Point{X: x, Y: y}, length, false)
	reg.Write(geom.Point{X: x + length + 2, Y: y - drawing.Lettering1_8/2}, drawing.Lettering1_8, false, words)
	length, words = c.barFor(100, s.Area.H())
	at := geom.Point{X: f.lo.X + 3.7, Y: s.Area.Min.Y}
	thinBar(reg, at, length, true)
	w := lettering.Width(words, drawing.Lettering1_8, false)
	reg.Texts = append(reg.Texts, tiling.Text{At: at.Add(geom.Point{X: -1.8, Y: (length - w) / 2}), Turn: 90, Height: drawing.Lettering1_8, Text: words})
}

// thinBar draws a check bar that takes little room across.
func thinBar(c *tiling.Content, at geom.Point, length float64, upright bool) {
	const half = 1.4
	u := geom.Point{X: 1}
	if upright {
		u = geom.Point{Y: 1}
	}
	end, v := at.Add(u.Mul(length)), u.Left().Mul(half)
	c.Polyline(nil, tiling.Thin, false, at, end)
	c.Polyline(nil, tiling.Thin, false, at.Sub(v), at.Add(v))
	c.Polyline(nil, tiling.Thin, false, end.Sub(v), end.Add(v))
}

// legend shows the kinds of lines side by side, their middle at at.Y.
func legend(c *tiling.Content, at geom.Point, height, sample float64) {
	x := at.X
	for _, k := range lineKinds {
		c.Polyline(nil, k.pen, false, geom.Point{X: x, Y: at.Y}, geom.Point{X: x + sample, Y: at.Y})
		x += sample + height/2
		c.Write(geom.Point{X: x, Y: at.Y - height/2}, height, false, k.words)
		x += lettering.Width(k.words, height, false) + 1.5*height
	}
}

// draw writes what a card sheet says of itself.
func (f *footing) draw(c *tiling.Content, w sheetWords) {
	if f.none {
		return
	}
	if !f.paper {
		w.plate(c, f.lo, f.size)
		return
	}
	x, y := f.lo.X+bandLeft, f.lo.Y
	width := f.right - x
	// The legend in two rows at the right of the level bar.
	const sample, small = 8.0, drawing.Lettering1_8
	for i, k := range lineKinds {
		cx := f.right - 58 + float64(i/2)*30
		cy := y + bandFoot - 1.6 - 2.9*float64(i%2)
		c.Polyline(nil, k.pen, false, geom.Point{X: cx, Y: cy}, geom.Point{X: cx + sample, Y: cy})
		c.Write(geom.Point{X: cx + sample + 1, Y: cy - small/2}, small, false, k.words)
	}
	put := func(at geom.Point, height float64, bold bool, text string, room float64) {
		h, t := fitted(text, height, bold, room)
		c.Write(at, h, bold, t)
	}
	put(geom.Point{X: x, Y: y + 9.6}, drawing.Lettering2_5, true, w.face+" "+w.card+", "+w.scale+".", width)
	put(geom.Point{X: x, Y: y + 6.4}, small, false, w.codes, width)
	c.Line(nil, tiling.Thin, x, y+5, f.right, y+5)
	for _, cell := range []struct {
		text        string
		height      float64
		bold        bool
		from, share float64
	}{
		{w.label, drawing.Lettering3_5, true, 0, 0.15},
		{w.set, drawing.Lettering2_5, false, 0.15, 0.39},
		{w.issue, drawing.Lettering2_5, true, 0.54, 0.2},
		{w.count, drawing.Lettering2_5, false, 0.74, 0.26},
	} {
		put(geom.Point{X: x + cell.from*width, Y: y + 1}, cell.height, cell.bold, cell.text, cell.share*width-2)
	}
}

// listUnsaid writes beside the pieces what could not be written on them; false where there is no room either and only the list
// of joints says it.
func (c *CardModel) listUnsaid(out *tiling.CutSheet, g *ground, s *CardSheet, unsaid []string) bool {
	if c.opt.Board.H == 0 {
		g.block(s.Area)
	}
	letters := c.lettersOn(s).joints
	for _, who := range c.order(s) {
		for _, h := range [2]float64{letters[0], letters[len(letters)-1]} {
			for _, width := range [...]float64{60 * h, 35 * h, 22 * h} {
				var lines []string
				for _, l := range append([]string{"No room on the pieces:"}, unsaid...) {
					lines = append(lines, lettering.Wrap(l, h, false, width)...)
				}
				w, tall := tiling.Widest(h, false, lines...)+1, float64(len(lines))*h*lettering.Leading+1
				mid, ok := g.room(w, tall, who)
				if !ok {
					continue
				}
				out.Notes.WriteLines(mid.X-w/2+0.5, mid.Y+tall/2-0.5-0.3*h, h, false, lines)
				g.take(tilted{mid, w, tall, 0})
				return true
			}
		}
	}
	return false
}

// order is where words that belong to no piece find room: on the open card, otherwise in a large piece that is not half-cut
// all over, clear of its lines.
func (c *CardModel) order(s *CardSheet) []int32 {
	type flat struct {
		who  int32
		area float64
	}
	var pieces []flat
	for k, l := range s.Places {
		if p := &c.Model.Pieces[l.Piece]; len(p.Folds)+len(p.Relief) == 0 {
			pieces = append(pieces, flat{int32(k + 1), p.Outline.Area()})
		}
	}
	slices.SortStableFunc(pieces, func(a, b flat) int { return cmp.Compare(b.area, a.area) })
	order := []int32{openCard}
	for _, p := range pieces[:min(len(pieces), mostTried)] {
		order = append(order, p.who)
	}
	return order
}

// mostTried is how many pieces are searched for room.
const mostTried = 4

// block takes everything outside a box.
func (g *ground) block(keep geom.Rect) {
	for k := range g.h {
		for i := range g.w {
			if !keep.Contains(g.mid(i, k)) {
				g.who[k*g.w+i] = takenCard
			}
		}
	}
}
