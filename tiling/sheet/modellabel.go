package sheet

import (
	"math"
	"slices"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// lettersOf are the heights of lettering on card sheets, the best first.
type lettersOf struct {
	names  []float64 // a piece's number
	joints []float64 // what stands along edges
}

var paperLetters = lettersOf{
	names:  []float64{drawing.Lettering3_5, drawing.Lettering2_5, drawing.Lettering1_8},
	joints: []float64{drawing.Lettering2_5, drawing.Lettering1_8},
}

var boardLetters = lettersOf{
	names: []float64{drawing.Lettering20, drawing.Lettering10, drawing.Lettering7, drawing.Lettering5,
		drawing.Lettering3_5, drawing.Lettering2_5, drawing.Lettering1_8},
	joints: []float64{drawing.Lettering10, drawing.Lettering7, drawing.Lettering5, drawing.Lettering3_5, drawing.Lettering2_5, drawing.Lettering1_8},
}

// largeBoard is from what lesser side in millimetres a board is read standing.
const largeBoard = 500

func lettersFor(b Board) lettersOf {
	if b.H >= largeBoard {
		return boardLetters
	}
	return paperLetters
}

// around is the room about a line of lettering, as a share of its height, and millimetres of air.
const textAir = 0.2

// textBox is the box that lettering of a height keeps, its air about it.
func textBox(width, height float64) (w, h float64) {
	return width + 2*textAir*height, height * (1 + lettering.Descent + textAir)
}

// writeTilted writes a line of lettering into a box.
func writeTilted(c *tiling.Content, t tilted, width, height float64, bold bool, text string) {
	s, co := geom.SincosDeg(t.turn)
	x, y := -width/2, -t.h/2+height*(lettering.Descent+textAir/2)
	at := geom.Point{X: t.mid.X + x*co - y*s, Y: t.mid.Y + x*s + y*co}
	c.Texts = append(c.Texts, tiling.Text{At: at, Turn: t.turn, Height: height, Bold: bold, Text: text})
}

// readable turns a direction in degrees so that lettering along it is read from below or from the right.
func readable(deg float64) float64 {
	deg = math.Mod(deg, 360)
	if deg < 0 {
		deg += 360
	}
	if deg > 90+1e-6 && deg <= 270+1e-6 {
		deg -= 180
	}
	if deg > 180 {
		deg -= 360
	}
	if math.Abs(deg-math.Round(deg)) < 1e-9 {
		deg = math.Round(deg)
	}
	return deg
}

// plaque is lines of lettering that stand under one another in the middle of a piece: its number bold, then what it is.
type plaque struct {
	lines  []string
	height float64 // of the first line
	small  float64 // of the others
}

func (q *plaque) size() (w, h float64) {
	for i, l := range q.lines {
		lw, lh := textBox(lettering.Width(l, q.heightOf(i), i == 0), q.heightOf(i))
		w, h = max(w, lw), h+lh
	}
	return w, h
}

func (q *plaque) heightOf(line int) float64 {
	if line == 0 {
		return q.height
	}
	return q.small
}

// write puts the plaque into a box of its size.
func (q *plaque) write(c *tiling.Content, t tilted) {
	s, co := geom.SincosDeg(t.turn)
	top := t.h / 2
	for i, l := range q.lines {
		h := q.heightOf(i)
		width := lettering.Width(l, h, i == 0)
		lw, lh := textBox(width, h)
		y := top - lh/2
		writeTilted(c, tilted{geom.Point{X: t.mid.X - y*s, Y: t.mid.Y + y*co}, lw, lh, t.turn}, width, h, i == 0, l)
		top -= lh
	}
}

// plaques returns what a piece may bear, the best first: large before whole, but never less than its number.
func plaques(p *develop.Piece, l lettersOf, lesser float64) []plaque {
	var out []plaque
	number := p.Label()
	for i, h := range l.names {
		small := h
		if i+1 < len(l.names) {
			small = l.names[i+1]
		}
		// So tall that what is said of the edges still finds room beside it.
		if h <= lesser/7 {
			out = append(out, plaque{[]string{number, p.Name}, h, small})
		}
		if h <= lesser/5.5 {
			out = append(out, plaque{[]string{number + " " + p.Name}, h, small})
		}
	}
	for _, h := range l.names {
		if h <= lesser/3 || h == l.names[len(l.names)-1] {
			out = append(out, plaque{[]string{number}, h, h})
		}
	}
	return out
}

// putPlaque puts a piece's number where there is room, nearest to its middle.
func (g *ground) putPlaque(c *tiling.Content, p *develop.Piece, who int32, box geom.Rect, l lettersOf) bool {
	lesser := min(box.W(), box.H())
	turns := [2]float64{0, 90}
	if box.H() > 1.2*box.W() {
		turns = [2]float64{90, 0}
	}
	at := g.places(box, who)
	for _, q := range plaques(p, l, lesser) {
		w, h := q.size()
		for _, turn := range turns {
			if bw, bh := box.W(), box.H(); turn == 0 && (w > bw || h > bh) || turn == 90 && (h > bw || w > bh) {
				continue
			}
			for _, m := range at {
				t := tilted{m, w, h, turn}
				if g.free(t, who) {
					q.write(c, t)
					g.take(t)
					return true
				}
			}
		}
	}
	return false
}

// places are where lettering is tried in a piece, the nearest to the middle of its box first.
func (g *ground) places(box geom.Rect, who int32) []geom.Point {
	step := max(g.cell, min(box.W(), box.H())/16, math.Sqrt(box.W()*box.H())/40)
	mid := box.Mid()
	nx, ny := int(box.W()/step/2), int(box.H()/step/2)
	var out []geom.Point
	for k := -ny; k <= ny; k++ {
		for i := -nx; i <= nx; i++ {
			p := mid.Add(geom.Point{X: float64(i) * step, Y: float64(k) * step})
			a, b := int(math.Floor((p.X-g.box.Min.X)/g.cell)), int(math.Floor((p.Y-g.box.Min.Y)/g.cell))
			if a >= 0 && b >= 0 && a < g.w && b < g.h && g.who[b*g.w+a] == who {
				out = append(out, p)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b geom.Point) int {
		// In whole squares, so that rounding does not choose between places as near as one another.
		return int(math.Round(a.Dist(mid)/g.cell)) - int(math.Round(b.Dist(mid)/g.cell))
	})
	return out
}

// edgeShares are where along a line what is said of it is tried, edgeOffs how far from it in heights of the lettering; the finer
// ones for the shortest form, which is to find room wherever there is any.
var (
	edgeShares = []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9}
	edgeOffs   = []float64{0, 0.5, 1, 2, 3}
	fineShares = []float64{0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.15, 0.85, 0.1, 0.9, 0.05, 0.95}
	fineOffs   = []float64{0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6}
)

// putEdge says something along a line of a piece; false where there is no room for any form of it.
func (g *ground) putEdge(c *tiling.Content, line []geom.Point, forms []string, who int32, heights []float64) bool {
	for _, form := range forms {
		for _, h := range heights {
			if g.putForm(c, line, form, h, who, edgeOffs, edgeShares) {
				return true
			}
		}
	}
	return g.putForm(c, line, forms[len(forms)-1], heights[len(heights)-1], who, fineOffs, fineShares)
}

// putForm says something beside a line, along it or else square to it, in lettering of a height.
func (g *ground) putForm(c *tiling.Content, line []geom.Point, form string, height float64, who int32, offs, shares []float64) bool {
	width := lettering.Width(form, height, false)
	w, h := textBox(width, height)
	long := polyLength(line)
	least := lineClear + 1.5*g.cell
	for _, across := range [2]bool{false, true} {
		for _, far := range offs {
			off := least + far*height
			for _, share := range shares {
				if !across && long*min(share, 1-share)*2 < w*0.7 || across && long < h*0.6 {
					continue
				}
				at, dir := placeOn(line, share*long)
				for _, hand := range [2]float64{1, -1} {
					n := dir.Left().Mul(hand)
					t := tilted{w: w, h: h, turn: readable(dir.Angle() * 180 / math.Pi)}
					depth := h
					if across {
						t.turn, depth = readable(n.Angle()*180/math.Pi), w
					}
					t.mid = at.Add(n.Mul(off + depth/2))
					if !g.free(t, who) {
						continue
					}
					near := at.Add(n.Mul(off + 0.1*height))
					if off > least && !g.clear(near, at, who, lineClear+2.5*g.cell) {
						continue
					}
					writeTilted(c, t, width, height, false, form)
					c.Polyline(nil, tickPen, false, at.Add(n.Mul(0.2)), near)
					g.take(t)
					return true
				}
			}
		}
	}
	return false
}

// tickPen ties what is said to the line of which it is said.
var tickPen = tiling.Pen{Width: drawing.FineLine}

func polyLength(line []geom.Point) float64 {
	l := 0.0
	for i := 1; i < len(line); i++ {
		l += line[i-1].Dist(line[i])
	}
	return l
}

// placeOn returns the place at so much along a line, and its direction there.
func placeOn(line []geom.Point, d float64) (at, dir geom.Point) {
	for i := 1; i < len(line); i++ {
		l := line[i-1].Dist(line[i])
		if d <= l || i == len(line)-1 {
			dir = line[i].Sub(line[i-1]).Unit()
			return line[i-1].Add(dir.Mul(min(d, l))), dir
		}
		d -= l
	}
	return line[0], geom.Point{X: 1}
}

// region gives an area to a piece and takes its edges.
func (g *ground) region(who int32, r geom.Region) {
	rings := [][]geom.Point{r.Outer.Flatten(tiling.Flatness, nil)}
	for _, h := range r.Holes {
		rings = append(rings, h.Flatten(tiling.Flatness, nil))
	}
	g.fill(who, rings)
	for _, ring := range rings {
		g.line(ring, true)
	}
}
