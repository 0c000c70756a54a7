package sheet

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// group is lines of lettering that move together: those of one owner that follow one another at one place.
type group struct {
	at    geom.Point // on paper
	texts []*drawing.Text
	about []int // the plots about that place
	home  *plot // the piece's own among them, nil where it is a point or a line
	hall  bool  // it names the room worked in
	part  bool  // it says something of that place alone, as a landing's height, and does not name the piece
}

// groups gathers the movable labels of a drawing: those with the least room of their own first, as they must stand nearest
// to what they name, otherwise in the drawing's order.
func (j projection) groups(d *drawing.Drawing, plots *plots) []group {
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
				g.part = g.part && t.Role != drawing.Name
				continue
			}
		}
		g := group{at: j.to(t.At), texts: []*drawing.Text{t}, part: t.Role != drawing.Name}
		g.about = plots.under(g.at, nil)
		g.home = plots.home(g.about, t.Owner)
		g.hall = t.Role == drawing.Name && t.Owner >= 0 && d.Owners[t.Owner] == plots.hall
		out = append(out, g)
	}
	slices.SortStableFunc(out, func(a, b group) int { return cmp.Compare(a.room(), b.room()) })
	return out
}

// room is how much paper the group's own piece has. The hall's name may stand anywhere and comes last.
func (g *group) room() float64 {
	switch {
	case g.hall:
		return math.Inf(1)
	case g.home == nil:
		return 0
	}
	return g.home.box.W() * g.home.box.H()
}

// sizes to which labels shrink where there is no room for more, and what that weighs.
var shrink = [...]struct{ share, cost float64 }{{1, 0}, {0.72, 40}, {0.52, 120}}

// gaps are the distances in millimetres from a label to its place that are tried, the nearest first.
var gaps = [...]float64{1, 2.5, 5, 8, 12, 17, 23, 30}

// What a place for a label weighs.
const (
	lineCost    = 0.5 // a square under it, by what it holds
	gapCost     = 3.0 // a millimetre from the piece
	insideCost  = 0.4 // a millimetre from the middle within its own piece
	strangeCost = 60  // standing in a piece that it does not name
	leaderCost  = 12  // a line to what it names
	leaderFrom  = 3.5 // a label further off than this from a small piece has one
	smallPiece  = 5.0 // a piece narrower than this on paper is named beside it
)

// spot is a place found for a label.
type spot struct {
	mid    geom.Point
	w, h   float64
	lines  []labelLine
	leader bool
	cost   float64
	ok     bool
}

// put places the label where it weighs least, draws it and returns what it covers; false where there is no room without covering other
// lettering.
func (g *group) put(p *tiling.Page, f *field, plots *plots) (geom.Rect, bool) {
	var best spot
	best.cost = math.Inf(1)
	for _, s := range shrink {
		if best.cost <= s.cost {
			break
		}
		lines, w, h := g.lines(s.share)
		g.search(f, w, h, s.cost, func(q spot) {
			if q.cost >= best.cost {
				return
			}
			if q.cost += float64(strangeCost * plots.strange(q.mid, g.about)); q.cost < best.cost {
				q.lines, q.w, q.h, q.ok = lines, w, h, true
				best = q
			}
		})
	}
	if !best.ok {
		return geom.Rect{}, false
	}
	c := &p.Layers[drawing.Notes]
	for _, l := range best.lines {
		c.Texts = append(c.Texts, tiling.Text{
			At:     geom.Point{X: best.mid.X - l.width/2, Y: best.mid.Y + l.y},
			Height: l.height, Bold: l.bold, Text: l.text,
		})
	}
	box := boxAbout(best.mid, best.w, best.h)
	f.fill(box, taken)
	if best.leader {
		a, b := g.leader(box)
		c.Line(p, tiling.Thin, a.X, a.Y, b.X, b.Y)
		f.line(a, b, thinLine)
		if g.home != nil && !g.home.small() {
			const dot = 0.5
			c.Fills = append(c.Fills, tiling.Fill{Tone: drawing.Black, Rings: [][]geom.Point{disc(b, dot)}})
		}
	}
	return box, true
}

// search offers every place that leaves other lettering free, with what it covers and how far off it is.
func (g *group) search(f *field, w, h, from float64, offer func(spot)) {
	large := g.home != nil && !g.home.small()
	switch {
	case large && g.part:
		box := boxAbout(g.at, w, h)
		if sum, free := f.weigh(box); free && g.home.holds(box) {
			offer(spot{mid: g.at, cost: from + float64(sum)*lineCost})
		}
	case large:
		const steps = 8
		b := g.home.box
		for i := 0; i <= 2*steps; i++ {
			for k := 0; k <= 2*steps; k++ {
				m := g.at
				if i > 0 || k > 0 {
					m = geom.Point{X: b.Min.X + b.W()*float64(i)/(2*steps), Y: b.Min.Y + b.H()*float64(k)/(2*steps)}
				}
				box := boxAbout(m, w, h)
				sum, free := f.weigh(box)
				if !free || !g.home.holds(box) {
					continue
				}
				offer(spot{mid: m, cost: from + float64(sum)*lineCost + m.Dist(g.at)*insideCost})
			}
		}
	}
	large = large && !g.part // whose place is where it is, and nowhere else on the piece
	reach := geom.Point{}
	if g.home != nil && g.home.small() {
		reach = geom.Point{X: g.home.box.W() / 2, Y: g.home.box.H() / 2}
	}
	for _, gap := range gaps {
		for _, d := range directions {
			m := geom.Point{X: g.at.X + d.X*(w/2+gap+reach.X), Y: g.at.Y + d.Y*(h/2+gap+reach.Y)}
			box := boxAbout(m, w, h)
			if large {
				m = g.beyond(d, gap, w, h)
				box = boxAbout(m, w, h)
			}
			sum, free := f.weigh(box)
			if !free {
				continue
			}
			q := spot{mid: m, cost: from + float64(sum)*lineCost + gap*gapCost}
			if q.leader = large || gap > leaderFrom; q.leader {
				a, b := g.leader(box)
				over, covers := f.along(a, b)
				if covers {
					continue
				}
				q.cost += leaderCost + float64(over)*lineCost
			}
			offer(q)
		}
	}
}

// beyond is the middle of a box outside the group's own piece, in a direction from it.
func (g *group) beyond(d geom.Point, gap, w, h float64) geom.Point {
	b := g.home.box
	mid := b.Mid()
	return geom.Point{X: mid.X + d.X*(b.W()/2+w/2+gap), Y: mid.Y + d.Y*(b.H()/2+h/2+gap)}
}

// leader runs from the label's box to what it names: into a large piece, up to the edge of a small one.
func (g *group) leader(box geom.Rect) (from, to geom.Point) {
	from = geom.Point{X: clamp(g.at.X, box.Min.X, box.Max.X), Y: clamp(g.at.Y, box.Min.Y, box.Max.Y)}
	stop := 0.8
	switch {
	case g.home == nil:
	case g.part && !g.home.small():
		stop = 0
	case g.home.small():
		stop += max(g.home.box.W(), g.home.box.H()) / 2
	default:
		// Only a little way in: a line to its middle would cross what stands there.
		b := g.home.box
		in := min(3, b.W()/3, b.H()/3)
		to = geom.Point{X: clamp(from.X, b.Min.X+in, b.Max.X-in), Y: clamp(from.Y, b.Min.Y+in, b.Max.Y-in)}
		for i := 0; i < 8 && !g.home.contains(to); i++ {
			to = to.Lerp(g.at, 0.25)
		}
		from = geom.Point{X: clamp(to.X, box.Min.X, box.Max.X), Y: clamp(to.Y, box.Min.Y, box.Max.Y)}
		return from, to
	}
	d := g.at.Sub(from)
	if far := d.Len(); far > stop {
		return from, from.Add(d.Mul((far - stop) / far))
	}
	return from, g.at
}

// labelLine is one line of a label, y its base line from the label's middle.
type labelLine struct {
	text             string
	height, width, y float64
	bold             bool
}

// lines lays the label's lines under one another about its middle; no line is under the least height in use.
func (g *group) lines(share float64) (lines []labelLine, w, h float64) {
	const between = 0.55 // of the taller of two lines
	for i, t := range g.texts {
		height := max(t.Height*share, drawing.Lettering1_8)
		l := labelLine{t.Text, height, lettering.Width(t.Text, height, t.Bold), 0, t.Bold}
		w = max(w, l.width)
		if i > 0 {
			h += max(height, lines[i-1].height) * between
		}
		h += height
		lines = append(lines, l)
	}
	y := h / 2
	for i := range lines {
		if i > 0 {
			y -= max(lines[i].height, lines[i-1].height) * between
		}
		y -= lines[i].height
		lines[i].y = y
	}
	return lines, w + 1.2, h + 1.6
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

// disc is a small round spot.
func disc(at geom.Point, r float64) []geom.Point {
	out := make([]geom.Point, 12)
	for i := range out {
		out[i] = at.Add(geom.Polar(r, 2*math.Pi*float64(i)/float64(len(out))))
	}
	return out
}
