package sheet

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// mountBoard finds room for the plate and for the bars on the open card, otherwise within a piece, clear of its lines.
func (c *CardModel) mountBoard(out *tiling.CutSheet, f *footing, g *ground, i int) {
	s := &c.Sheets[i]
	find := func(w, h float64) (geom.Point, bool) {
		for _, who := range c.order(s) {
			if mid, ok := g.room(w, h, who); ok {
				g.take(tilted{mid, w, h, 0})
				return mid, true
			}
		}
		return geom.Point{}, false
	}
	f.none = true
	worst := c.words(i, f, &tiling.Entry{Mark: "MMMM"}, 888, 888)
plate:
	for _, who := range c.order(s) {
		for k, size := range plateSizes {
			if k < len(plateSizes)-2 && size.head > min(s.Size.W, s.Size.H)/40 {
				continue
			}
			w, h := worst.plate(nil, geom.Point{}, size)
			if mid, ok := g.room(w+4, h+4, who); ok {
				g.take(tilted{mid, w + 4, h + 4, 0})
				f.lo, f.size, f.none = geom.Point{X: mid.X - w/2, Y: mid.Y - h/2}, size, false
				break plate
			}
		}
	}
	lengths, words := c.bars()
	for _, upright := range [2]bool{false, true} {
		for _, l := range lengths {
			text := max(f.size.text, drawing.Lettering1_8)
			breadth := 2*tiling.BarHalf + 1 + text*lettering.Leading
			w, h := l+4, breadth+3
			if upright {
				w, h = h, w
			}
			if l > max(s.Size.W, s.Size.H)/3 && l > lengths[len(lengths)-1] {
				continue
			}
			mid, ok := find(w, h)
			if !ok {
				continue
			}
			boardBar(&out.Registration, mid, l, breadth, text, upright, words(l))
			break
		}
	}
}

// boardBar draws a check bar and its words in the middle of a box.
func boardBar(c *tiling.Content, mid geom.Point, length, breadth, text float64, upright bool, words string) {
	t := tilted{mid: mid, w: length, h: breadth}
	if upright {
		t.turn = 90
	}
	s, co := geom.SincosDeg(t.turn)
	at := func(x, y float64) geom.Point { return geom.Point{X: mid.X + x*co - y*s, Y: mid.Y + x*s + y*co} }
	y := -breadth/2 + tiling.BarHalf
	for _, l := range [3][4]float64{
		{-length / 2, y, length / 2, y},
		{-length / 2, y - tiling.BarHalf, -length / 2, y + tiling.BarHalf},
		{length / 2, y - tiling.BarHalf, length / 2, y + tiling.BarHalf},
	} {
		c.Polyline(nil, tiling.Thin, false, at(l[0], l[1]), at(l[2], l[3]))
	}
	w := lettering.Width(words, text, false)
	c.Texts = append(c.Texts, tiling.Text{At: at(-w/2, y+1+text*lettering.Descent), Turn: t.turn, Height: text, Text: words})
}

// plate writes a board's words, its lower left corner at at, and returns their size.
func (w sheetWords) plate(c *tiling.Content, at geom.Point, size plateSize) (width, height float64) {
	lines := []plaqueLine{
		{w.label + "   " + w.card + "   " + w.scale, size.head, true},
		{w.set, size.text, false}, {w.issue + "   " + w.count, size.text, false},
		{w.face, size.text, true}, {w.codes, size.text, false},
	}
	if size.text == 0 {
		lines = lines[:1]
	}
	for _, l := range lines {
		width = max(width, lettering.Width(l.text, l.height, l.bold))
		height += l.height * lettering.Leading
	}
	height += size.text * lettering.Leading
	if c == nil {
		return width, height
	}
	y := at.Y + height
	for _, l := range lines {
		y -= l.height * lettering.Leading
		c.Write(geom.Point{X: at.X, Y: y + lettering.Descent*l.height}, l.height, l.bold, l.text)
	}
	if size.text == 0 {
		return width, height
	}
	legend(c, geom.Point{X: at.X, Y: at.Y + size.text*lettering.Leading/2}, size.text, 4*size.text)
	return width, height
}

type plaqueLine struct {
	text   string
	height float64
	bold   bool
}
