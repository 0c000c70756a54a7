package sheet

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// group is lines of lettering that move together: those of one owner that follow one another at one place.
type group struct {
	at    geom.Point // on paper
	texts []*drawing.Text
}

// groups gathers the movable labels of a drawing, in their order.
func (j projection) groups(d *drawing.Drawing) []group {
	var out []group
	for i := range d.Texts {
		t := &d.Texts[i]
		if !movable(t) {
			continue
		}
		if i > 0 && len(out) > 0 {
			if q := &d.Texts[i-1]; movable(q) && q.At == t.At && q.Owner == t.Owner {
				g := &out[len(out)-1]
				g.texts = append(g.texts, t)
				continue
			}
		}
		out = append(out, group{at: j.to(t.At), texts: []*drawing.Text{t}})
	}
	return out
}

// sizes to which labels shrink where there is no room, as shares of their height.
var shrink = [...]float64{1, 0.72, 0.52}

// gaps are the distances in millimetres from a label to its place that are tried, the nearest first.
var gaps = [...]float64{1.2, 3, 5.5, 9, 13, 18, 24}

const (
	leaderFrom = 4.0 // a label further off than this has a leader
	lineCost   = 4   // what a square of line under a label weighs against the distances of gapCost
	gapCost    = 3   // what a millimetre of distance weighs
)

// put places the label where it covers least, nearest first, and draws it; false where there is no room without covering
// other lettering.
func (g *group) put(p *tiling.Page, f *field) bool {
	for _, share := range shrink {
		lines, w, h := g.lines(share)
		at, gap, ok := best(f, g.at, w, h)
		if !ok {
			continue
		}
		c := &p.Layers[drawing.Notes]
		for _, l := range lines {
			t := tiling.Text{
				At:     geom.Point{X: at.X - l.width/2, Y: at.Y + l.y},
				Height: l.height, Bold: l.bold, Text: l.text,
			}
			c.Texts = append(c.Texts, t)
		}
		box := boxAbout(at, w, h)
		f.fill(box, taken)
		if gap > leaderFrom {
			end := geom.Point{X: clamp(g.at.X, box.Min.X, box.Max.X), Y: clamp(g.at.Y, box.Min.Y, box.Max.Y)}
			c.Line(p, tiling.Thin, end.X, end.Y, g.at.X, g.at.Y)
			f.line(end, g.at, 3)
		}
		return true
	}
	return false
}

// labelLine is one line of a label, y its base line from the label's middle.
type labelLine struct {
	text             string
	height, width, y float64
	bold             bool
}

// lines lays the label's lines under one another about its middle; no line is under the least height in use.
func (g *group) lines(share float64) (lines []labelLine, w, h float64) {
	const between = 0.45 // of a line's height
	for i, t := range g.texts {
		height := max(t.Height*share, drawing.Lettering1_8)
		l := labelLine{t.Text, height, lettering.Width(t.Text, height, t.Bold), 0, t.Bold}
		w = max(w, l.width)
		if i > 0 {
			h += height * between
		}
		h += height
		lines = append(lines, l)
	}
	y := h / 2
	for i := range lines {
		if i > 0 {
			y -= lines[i].height * between
		}
		y -= lines[i].height
		lines[i].y = y
	}
	return lines, w + 1.2, h + 1.4
}

// best finds the middle of the place for a box of w × h about or beside a place, and how far off it is. The cost is what
// it covers and its distance; of equals the first tried.
func best(f *field, at geom.Point, w, h float64) (mid geom.Point, gap float64, ok bool) {
	least := math.MaxInt
	try := func(m geom.Point, g float64) {
		sum, free := f.weigh(boxAbout(m, w, h))
		if !free {
			return
		}
		if cost := sum*lineCost + int(g*gapCost); cost < least {
			least, mid, gap, ok = cost, m, g, true
		}
	}
	try(at, 0)
	for _, g := range gaps {
		if ok && float64(least) <= g*gapCost {
			break // further off is never better
		}
		for _, d := range directions {
			try(geom.Point{X: at.X + d.X*(w/2+g), Y: at.Y + d.Y*(h/2+g)}, g)
		}
	}
	return mid, gap, ok
}

// directions in which a label is tried, as shares of its half size: the upper right first, as the eye looks for it.
var directions = [...]geom.Point{
	{X: 1, Y: 1}, {X: 1, Y: 0}, {X: -1, Y: 1}, {X: -1, Y: 0}, {X: 0, Y: 1}, {X: 0, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: -1},
	{X: 1, Y: 0.5}, {X: -1, Y: 0.5}, {X: 1, Y: -0.5}, {X: -1, Y: -0.5},
	{X: 0.5, Y: 1}, {X: -0.5, Y: 1}, {X: 0.5, Y: -1}, {X: -0.5, Y: -1},
}

func boxAbout(mid geom.Point, w, h float64) geom.Rect {
	half := geom.Point{X: w / 2, Y: h / 2}
	return geom.Rect{Min: mid.Sub(half), Max: mid.Add(half)}
}

func clamp(x, lo, hi float64) float64 { return min(max(x, lo), hi) }
