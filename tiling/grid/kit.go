package grid

import (
	"slices"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/unit"
	"markout/tiling"
)

// kit is the furniture that the pages of a grid share, each piece written once.
type kit struct {
	frames    [256]*tiling.Form // seams of a sheet by its neighbours
	crosses   []uint64          // room of the crosses on a sheet's seams
	bands     []uint64          // room of what is trimmed off a sheet, or covered
	letter    [24][2]*tiling.Form
	xBars     []bar // longest first
	yBars     []bar
	xTicks    [][]tick // by column of sheets, or by strip
	yTicks    [][]tick // by row
	tickWidth float64  // room of the figures along the left edge, the same on every page

	info      [][]plate // by a page's stamp: the same words in less and less room
	maps      []keyMap
	cautions  [][2]plate // distinct lines, each for eyes at arm's length and in less room
	lines     []string   // of kit.cautions, as they are
	cautionOf []int8     // by owner, −1 for none; in the order of kit.cautions
}

// bar is a check bar.
type bar struct {
	length float64
	words  string
	width  float64 // of the words
	form   *tiling.Form
}

// plate is constant lettering and the box that it needs, its lower left corner at 0,0.
type plate struct {
	w, h float64
	form *tiling.Form
}

func newKit(g *grid, p *Plan) *kit {
	k := &kit{}
	k.makeBars(g)
	k.makeTicks(g)
	if g.strips == nil {
		for i := range g.cells {
			if near := g.cells[i].near; near != 0 && k.frames[near] == nil {
				k.frames[near] = g.frame(near)
			}
		}
		k.takeSeams(g)
	}
	for i := range k.letter {
		k.letter[i] = [2]*tiling.Form{pair(tiling.Letter(i), false), pair(tiling.Letter(i), true)}
	}
	if len(g.ink.pictures) > 0 {
		k.setOff()
	}
	for _, st := range g.stamps {
		k.info = append(k.info, k.makeInfo(g, st))
	}
	k.makeCautions(g)
	k.maps = newKeyMaps(g)
	return k
}

// takeSeams works out once what room the seams of every sheet take.
func (k *kit) takeSeams(g *grid) {
	live := geom.Rect{Max: g.live}
	lo := geom.Point{X: seamInset(g.lap), Y: seamInset(g.lap)}
	inner := geom.Rect{Min: lo, Max: lo.Add(g.step)}
	var f room
	f.reset(live)
	cross := func(x, y float64) {
		at := geom.Point{X: x, Y: y}
		f.take(geom.Rect{Min: at, Max: at}.Grow(crossArm(g.lap) + 0.5))
	}
	for _, x := range [2]float64{inner.Min.X, inner.Max.X} {
		for _, y := range append(between(inner.Min.Y, inner.Max.Y), inner.Min.Y, inner.Max.Y) {
			cross(x, y)
		}
	}
	for _, y := range [2]float64{inner.Min.Y, inner.Max.Y} {
		for _, x := range between(inner.Min.X, inner.Max.X) {
			cross(x, y)
		}
	}
	k.crosses = slices.Clone(f.rows)
	f.reset(live)
	f.takeOutside(live, inner)
	k.bands = slices.Clone(f.rows)
}

// pairs returns the form of a pair of letters.
func (k *kit) pairs(letter int, upright bool) *tiling.Form {
	n := len(k.letter)
	letter = (letter%n + n) % n
	if upright {
		return k.letter[letter][1]
	}
	return k.letter[letter][0]
}

// smallRoom is up to what breadth a page may have half the least bar.
const smallRoom = 150.0

// makeBars makes the check bars that fit a page: 250, 200, 150, 100 mm, or 10, 8, 6, 4 in; half the least on small paper.
func (k *kit) makeBars(g *grid) {
	lengths := [...]float64{250, 200, 150, 100, 50}
	each, words := 1.0, " mm"
	if g.info.Units.Imperial() {
		lengths, each, words = [...]float64{10, 8, 6, 4, 2}, 25.4, " in"
	}
	make := func(room float64, upright bool) (bars []bar) {
		for i, l := range lengths {
			if l*each+2 > room || i == len(lengths)-1 && room > smallRoom {
				continue
			}
			b := bar{length: l * each, words: "check: " + unit.FormatNumber(l, 1) + words}
			b.width = lettering.Width(b.words, drawing.Lettering2_5, false)
			b.form = &tiling.Form{W: b.length, H: tiling.BarBreadth}
			if upright {
				b.form.W, b.form.H = b.form.H, b.form.W
			}
			tiling.CheckBar(&b.form.Content, b.length, upright, b.words)
			bars = append(bars, b)
		}
		return bars
	}
	x, y := g.step.X, g.step.Y
	if g.strips != nil {
		x, y = g.strips.point(1e4, g.live.X).X, g.strips.point(1e4, g.live.X).Y
	}
	k.xBars, k.yBars = make(x, false), make(y, true)
}

// makeTicks lists the ticks of every column and row, or of every strip, that is printed.
func (k *kit) makeTicks(g *grid) {
	d := &g.datum
	const near = 2.0 // from a seam
	xs := func(zero, from, to float64) []tick { return g.ticks(zero, from+near, to-near, d.XPlus, d.XMinus) }
	ys := func(zero, from, to float64) []tick { return g.ticks(zero, from+near, to-near, d.YPlus, d.YMinus) }
	if g.strips != nil {
		for i := range g.cells {
			c := &g.cells[i]
			u0, u1, v0, v1 := g.stripSeams(c)
			lo, hi := g.strips.point(v0, u0), g.strips.point(v1, u1)
			k.xTicks = append(k.xTicks, xs(c.win.Min.X, lo.X, hi.X))
			k.yTicks = append(k.yTicks, ys(c.win.Min.Y, lo.Y, hi.Y))
		}
	} else {
		k.xTicks, k.yTicks = make([][]tick, g.cols), make([][]tick, g.rows)
		a := seamInset(g.lap)
		for i := range g.cells {
			c := &g.cells[i]
			if x := c.win.Min.X; k.xTicks[c.c] == nil {
				k.xTicks[c.c] = xs(x, x+a, x+a+g.step.X)
			}
			if y := c.win.Min.Y; k.yTicks[c.r] == nil {
				k.yTicks[c.r] = ys(y, y+a, y+a+g.step.Y)
			}
		}
	}
	// Of a long figure, whatever figures there are: check bars stand beside them, and what is added elsewhere moves none.
	if len(k.yTicks) > 0 && g.datum != (drawing.Datum{}) {
		widest := "00000 X"
		if g.info.Units.Imperial() {
			widest = `00'-00" X`
		}
		k.tickWidth = tickLong + tickGap + lettering.Width(widest, tickText, false)
	}
}

// makeInfo writes what every page of one stamp says, in three shapes: for eyes at arm's length, and in less room.
func (k *kit) makeInfo(g *grid, st stamp) []plate {
	in := *g.info
	if st.letter != "" {
		in.Letter, in.Date = st.letter, st.date
	}
	set := joined(" / ", in.Production, in.Set)
	issue := "no issue"
	if in.Letter != "" {
		issue = "issue " + in.Letter
	}
	issue = joined("   ", issue, in.Date)
	if in.Trial {
		issue = joined("   ", "TRIAL: not for building", in.Date)
	}
	ticks := "ticks: mm " + g.datum.Says
	if in.Units.Imperial() {
		ticks = "ticks: feet and inches " + g.datum.Says
	}
	if g.datum.Says == "" {
		ticks = ""
	}
	seams := "trim at the thin line left and below, lay it on the dashed line"
	if g.lap == 0 {
		seams = "trim at the thin lines, edges butt"
	}
	if len(g.cells) == 1 {
		seams = ""
	}
	shape := func(height, small, width float64) plate {
		f := &tiling.Form{}
		var heads, lines, notes []string
		for _, s := range []string{set, issue, g.hold} {
			if s != "" {
				lines = append(lines, lettering.Wrap(s, height, false, width)...)
			}
		}
		for _, s := range []string{ticks, seams} {
			if s != "" {
				notes = append(notes, lettering.Wrap(s, small, false, width)...)
			}
		}
		head := min(height*1.43, drawing.Lettering5)
		if in.Trial {
			heads = append(heads, "TRIAL   "+in.size())
		} else {
			heads = append(heads, in.size())
		}
		heads = lettering.Wrap(heads[0], head, true, width)
		tall := func(n int, h float64) float64 { return float64(n) * h * lettering.Leading }
		f.H = tall(len(heads), head) + tall(len(lines), height) + tall(len(notes), small)
		f.W = max(tiling.Widest(head, true, heads...), tiling.Widest(height, false, lines...), tiling.Widest(small, false, notes...))
		y := f.H
		put := func(ls []string, h float64, bold bool) {
			f.WriteLines(0, y-(lettering.Ascent-1)*h*0.6, h, bold, ls)
			y -= tall(len(ls), h)
		}
		put(heads, head, true)
		if len(heads) == 1 {
			// Which way is up, for a sheet that lies among many.
			x := tiling.Widest(head, true, heads...) + head
			f.Arrow(nil, tiling.Pen{Width: drawing.MediumLine}, geom.Point{X: x, Y: y + 0.2*head}, geom.Point{X: x, Y: y + 1.4*head}, 0.6*head)
			f.Write(geom.Point{X: x + 0.5*head, Y: y + 0.5*head}, drawing.Lettering1_8, false, "up")
			f.W = max(f.W, x+0.5*head+lettering.Width("up", drawing.Lettering1_8, false))
		}
		put(lines, height, false)
		put(notes, small, false)
		return plate{w: f.W, h: f.H, form: f}
	}
	wide := min(95, g.step.X*0.5)
	if g.strips != nil {
		wide = 95
	}
	return []plate{
		shape(drawing.Lettering3_5, drawing.Lettering2_5, wide),
		shape(drawing.Lettering2_5, drawing.Lettering2_5, 130),
		shape(drawing.Lettering2_5, drawing.Lettering2_5, 60),
		shape(drawing.Lettering1_8, drawing.Lettering1_8, 32),
	}
}

// joined puts a separator between texts that are not empty.
func joined(separator string, texts ...string) string {
	var kept []string
	for _, t := range texts {
		if t != "" {
			kept = append(kept, t)
		}
	}
	return strings.Join(kept, separator)
}

// mostCautions is how many different lines of caution a grid can have; what goes beyond stands on the cover.
const mostCautions = 100

// makeCautions writes the lines that stand on the pages which show some elements.
func (k *kit) makeCautions(g *grid) {
	if len(g.info.Cautions) == 0 {
		return
	}
	k.cautionOf = make([]int8, len(g.owners))
	for i, o := range g.owners {
		k.cautionOf[i] = -1
		line := g.info.Cautions[o]
		if line == "" {
			continue
		}
		for j, have := range k.lines {
			if have == line {
				k.cautionOf[i] = int8(j)
			}
		}
		if k.cautionOf[i] < 0 && len(k.lines) < mostCautions {
			k.cautionOf[i] = int8(len(k.lines))
			k.lines = append(k.lines, line)
		}
	}
	shape := func(l string, h, width float64) plate {
		parts := lettering.Wrap("CAUTION  "+l, h, true, width)
		f := &tiling.Form{W: tiling.Widest(h, true, parts...), H: float64(len(parts)) * h * lettering.Leading}
		f.WriteLines(0, f.H-(lettering.Ascent-1)*h*0.6, h, true, parts)
		return plate{f.W, f.H, f}
	}
	for _, l := range k.lines {
		k.cautions = append(k.cautions, [2]plate{shape(l, drawing.Lettering2_5, 90), shape(l, drawing.Lettering1_8, 40)})
	}
}
