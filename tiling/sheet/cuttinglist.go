package sheet

import (
	"fmt"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/layout/unit"
	"markout/tiling"
	"slices"
	"strconv"
	"strings"
)

// columns are the box beside the board and those under it.
func (s *boardSheet) columns() []geom.Rect {
	live := s.frame.live
	foot := live.Min.Y + stripHeight + cautionTall + gap
	out := []geom.Rect{{Min: geom.Point{X: live.Max.X - gap - cuttingColumn, Y: foot + barLong + 2*gap}, Max: live.Max.Sub(geom.Point{X: gap, Y: gap + 2})}}
	under := geom.Rect{Min: geom.Point{X: live.Min.X + gap, Y: foot}, Max: geom.Point{X: out[0].Min.X - 2*gap, Y: s.at.to(geom.Point{}).Y - cuttingFoot - gap}}
	if under.H() < 3*drawing.Lettering5 {
		return out
	}
	n := max(1, int((under.W()+gap)/(cuttingColumn+gap)))
	w := (under.W()+2*gap)/float64(n) - 2*gap
	for i := range n {
		x := under.Min.X + float64(i)*(w+2*gap)
		out = append(out, geom.Rect{Min: geom.Point{X: x, Y: under.Min.Y}, Max: geom.Point{X: x + w, Y: under.Max.Y}})
	}
	return out
}

// list makes the lines beside the board and under it, and finds the lettering in which they fit.
func (s *boardSheet) list() {
	if len(s.cuts) > 0 {
		s.lines = append(s.lines, "*Cut in this order")
		for _, k := range s.cuts {
			s.lines = append(s.lines, strconv.Itoa(k.number)+".  "+k.words)
		}
	}
	s.lines = append(s.lines, "*Pieces")
	s.lines = append(s.lines, s.pieces()...)
	for i := range s.lines { // a size stays on one line
		s.lines[i] = strings.ReplaceAll(s.lines[i], " x ", "\u00a0x\u00a0")
	}
	for _, h := range [...]float64{drawing.Lettering5, drawing.Lettering3_5, drawing.Lettering2_5} {
		s.letter = h
		if s.fits = fittingAll(s.lines, h, s.columns()); s.fits == len(s.lines) {
			return
		}
	}
}

// pieces says each piece of the board; those that are said alike are one line, with their count.
func (s *boardSheet) pieces() []string {
	var lines []string
	times := map[string]int{}
	for _, k := range s.board.Cuts {
		l := s.words(k)
		if times[l]++; times[l] == 1 {
			lines = append(lines, l)
		}
	}
	for i, l := range lines {
		if n := times[l]; n > 1 {
			lines[i] = fmt.Sprintf("%s; %d of them", l, n)
		}
	}
	return lines
}

// words says of a piece what it is, how large, and of an outline where it lies.
func (s *boardSheet) words(k BoardCut) string {
	p := &s.c.Taken.Pieces[k.Piece]
	line := fmt.Sprintf("%d  %s: %s", p.Item, pieceTitle(p), s.c.size(p.Length, p.Width))
	if p.Outline != nil {
		r := s.region(k)
		low := r.Outer.Bounds().Min
		line += fmt.Sprintf(" over all; its box begins %s along, %s up", s.c.figure(low.X), s.c.figure(low.Y))
		if k.Turn != 0 {
			line += ", turned " + unit.FormatAngle(k.Turn, 0.1)
		}
		line += "; " + s.corners(r, p)
	}
	return joinedWords(line, p.Note)
}

// mostCorners is up to how many corners an outline is set out on the board by measures.
const mostCorners = 24

// corners says how an outline is set out: its corners from the board's corner, or by full-size paper where it has curves or many.
func (s *boardSheet) corners(r geom.Region, p *takeoff.Piece) string {
	n := r.Outer.Len()
	for _, h := range r.Holes {
		n += h.Len()
	}
	if !r.Outer.Straight() || n > mostCorners || slices.ContainsFunc(r.Holes, func(h *geom.Path) bool { return !h.Straight() }) {
		return "set it out from full-size paper (" + s.c.fullSize(p) + ")"
	}
	ring := func(p *geom.Path) string {
		var out []string
		for _, v := range p.Vertices() {
			out = append(out, s.c.figure(v.X)+"/"+s.c.figure(v.Y))
		}
		return strings.Join(out, ", ")
	}
	words := "corners along/up " + ring(r.Outer)
	for _, h := range r.Holes {
		words += "; hole " + ring(h)
	}
	return words
}

// fullSize says which full-size paper shows a piece that has curves or many corners.
func (c *Cutting) fullSize(p *takeoff.Piece) string {
	e := c.set.Find(p.Element)
	if e == nil {
		return "`full-size`"
	}
	switch e.Shape.(type) {
	case *set.Flat, *set.Panel:
		return "`full-size face`"
	case *set.Figure:
		if p.Name == takeoff.HeadName {
			return "`show head`"
		}
		return "`full-size face`"
	case *set.Steps:
		switch {
		case strings.Contains(p.Name, "string"):
			return "`full-size side`"
		case strings.HasPrefix(p.Name, "tread"):
			return "`full-size floor` shows it from riser to riser; add the nosing, and what goes under the riser board behind"
		}
	}
	return "`full-size floor`"
}

// fittingAll returns how many of some lines find room in boxes, one after another.
func fittingAll(lines []string, h float64, boxes []geom.Rect) int {
	n := 0
	for _, r := range boxes {
		n += fitting(lines[n:], h, r)
	}
	return n
}

// fitting returns how many of some lines find room in a box.
func fitting(lines []string, h float64, box geom.Rect) int {
	y := box.Max.Y
	for i, l := range lines {
		n := len(lettering.Wrap(strings.TrimPrefix(l, "*"), h, l[0] == '*', box.W()))
		y -= lineTall(n, h)
		if y < box.Min.Y {
			return i
		}
	}
	return len(lines)
}

// lineTall is how much room an entry of so many lines takes.
func lineTall(n int, h float64) float64 { return h*lettering.Leading*float64(n) + 0.4*h }

// writeList writes lines into a box; those that begin with a star are headings.
func writeList(c *tiling.Content, lines []string, h float64, box geom.Rect) {
	y := box.Max.Y
	for _, l := range lines {
		text := lettering.Wrap(strings.TrimPrefix(l, "*"), h, l[0] == '*', box.W())
		c.WriteLines(box.Min.X, y, h, l[0] == '*', text)
		y -= lineTall(len(text), h)
	}
}

// writeLists writes lines into boxes, one after another.
func writeLists(c *tiling.Content, lines []string, h float64, boxes []geom.Rect) {
	for _, r := range boxes {
		n := fitting(lines, h, r)
		writeList(c, lines[:n], h, r)
		lines = lines[n:]
	}
}
