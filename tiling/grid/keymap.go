package grid

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// keyMap is the grid's pages in small, seen as on the plan: every printed page outlined, blank where none is printed.
type keyMap struct {
	form  *tiling.Form
	scale float64    // paper millimetres a millimetre
	zero  geom.Point // where the view's 0,0 lies from the form's corner
	every int        // line drawn, of rows and columns
	inset *tiling.Form
}

const (
	mapSide    = 40.0
	mapSmall   = 22.0
	mapDense   = 40      // cells a side from which only every fifth or tenth line is drawn
	mostMapped = 250_000 // cells among which gaps are looked for
	insetSide  = 7       // cells of the neighbourhood, each way
	insetCell  = 2.2
	absent     = drawing.Tone(0.8)
)

// newKeyMaps makes the map in two sizes.
func newKeyMaps(g *grid) []keyMap {
	return []keyMap{newKeyMap(g, mapSide), newKeyMap(g, mapSmall)}
}

func newKeyMap(g *grid, side float64) keyMap {
	box := geom.EmptyRect()
	for i := range g.cells {
		box = box.Union(g.cells[i].win)
	}
	m := keyMap{scale: side / max(box.W(), box.H()), every: 1}
	m.zero = box.Min.Mul(-m.scale)
	m.form = &tiling.Form{W: box.W() * m.scale, H: box.H() * m.scale}
	if g.strips != nil {
		for i := range g.cells {
			r := g.cells[i].win
			m.form.Polyline(nil, tiling.Pen{Width: drawing.FineLine}, true, tiling.Box(m.place(r))...)
		}
		m.outline(g)
		return m
	}
	switch n := max(g.cols, g.rows); {
	case n > 4*mapDense:
		m.every = 10 * (1 + n/(10*mapDense)) // never more lines than cells of a map that is not dense
	case n > mapDense:
		m.every = 5
	}
	if m.every > 1 {
		m.sparse(g)
	} else {
		m.lines(g)
	}
	if m.every > 1 && side == mapSide {
		m.inset = newInset()
	}
	m.outline(g)
	return m
}

// place returns where a box of the view lies on the form.
func (m *keyMap) place(r geom.Rect) geom.Rect {
	return geom.Rect{Min: r.Min.Mul(m.scale).Add(m.zero), Max: r.Max.Mul(m.scale).Add(m.zero)}
}

// cellBox returns a cell on the form: a step wide, so that neighbours meet.
func (m *keyMap) cellBox(g *grid, c *cell) geom.Rect {
	if g.strips != nil {
		return m.place(c.win)
	}
	a := seamInset(g.lap)
	lo := c.win.Min.Add(geom.Point{X: a, Y: a})
	return m.place(geom.Rect{Min: lo, Max: lo.Add(g.step)})
}

// corner returns where the lower left corner of a cell lies on the form.
func (m *keyMap) corner(g *grid, c, r int) geom.Point {
	a := seamInset(g.lap)
	return g.corner(c, r).Add(geom.Point{X: a, Y: a}).Mul(m.scale).Add(m.zero)
}

// sparse draws a map of many cells: every so many lines from end to end of what is printed, and in grey the gaps that
// can be seen. Drawing the edges of each single gap would blacken the map and be most of what a reader draws of a page;
// which of a page's neighbours are printed is seen in the inset.
func (m *keyMap) sparse(g *grid) {
	lo, hi := [2]int{math.MaxInt, math.MaxInt}, [2]int{math.MinInt, math.MinInt}
	for i := range g.cells {
		for k, v := range [2]int{g.cells[i].c, g.cells[i].r} {
			lo[k], hi[k] = min(lo[k], v), max(hi[k], v+1)
		}
	}
	pen := tiling.Pen{Width: drawing.FineLine}
	for way := range 2 { // lines of one column edge, then of one row edge
		for at := lo[way]; ; at = min(at+m.every-((at%m.every)+m.every)%m.every, hi[way]) {
			from, to := math.MaxInt, math.MinInt
			for i := range g.cells {
				across, along := g.cells[i].c, g.cells[i].r
				if way == 1 {
					across, along = along, across
				}
				if across == at || across == at-1 {
					from, to = min(from, along), max(to, along+1)
				}
			}
			if from < to {
				p, q := m.corner(g, at, from), m.corner(g, at, to)
				if way == 1 {
					p, q = m.corner(g, from, at), m.corner(g, to, at)
				}
				m.form.Line(nil, pen, p.X, p.Y, q.X, q.Y)
			}
			if at == hi[way] {
				break
			}
		}
	}
	if (hi[0]-lo[0])*(hi[1]-lo[1]) > mostMapped {
		return // nothing of a gap's edge could be seen
	}
	var gaps [][]geom.Point
	for r := lo[1]; r < hi[1]; r++ {
		for c := lo[0]; c < hi[0]; {
			from := c
			for c < hi[0] && g.place.get(c, r) < 0 {
				c++
			}
			if c-from >= m.every {
				gaps = append(gaps, tiling.Box(geom.Rect{Min: m.corner(g, from, r), Max: m.corner(g, c, r+1)}))
			}
			c = max(c, from+1)
		}
	}
	if len(gaps) > 0 {
		m.form.Fills = append(m.form.Fills, tiling.Fill{Tone: absent, Rings: gaps})
	}
}

// lines draws the edges of printed cells.
func (m *keyMap) lines(g *grid) {
	pen := tiling.Pen{Width: drawing.FineLine}
	at := func(c, r int) geom.Point { return m.corner(g, c, r) }
	// edges lists, as across and along, the edges that lie before a printed cell, and behind one that has none after it.
	edges := func(dc, dr int) (out [][2]int) {
		for i := range g.cells {
			c := &g.cells[i]
			across, along := c.c*dc+c.r*dr, c.c*dr+c.r*dc
			out = append(out, [2]int{along, across})
			if g.place.get(c.c+dc, c.r+dr) < 0 {
				out = append(out, [2]int{along, across + 1})
			}
		}
		sortPlaces(out)
		return out
	}
	for _, way := range [2][2]int{{1, 0}, {0, 1}} {
		pairs := edges(way[0], way[1])
		for i := 0; i < len(pairs); {
			j := i + 1
			for j < len(pairs) && pairs[j][1] == pairs[i][1] && pairs[j][0] == pairs[j-1][0]+1 {
				j++
			}
			across, from, to := pairs[i][1], pairs[i][0], pairs[j-1][0]+1
			p, q := at(across, from), at(across, to)
			if way[1] == 1 {
				p, q = at(from, across), at(to, across)
			}
			m.form.Line(nil, pen, p.X, p.Y, q.X, q.Y)
			i = j
		}
	}
}

// outlinePoints is how many points the drawing may have on a page's map, and as many times more on a cover's as that is larger; a
// richer one would be black there.
const outlinePoints = 400

// outline draws the pieces' cut lines on the map in grey, thinned to what can be seen.
func (m *keyMap) outline(g *grid) {
	const least = 0.25
	var lines [][]geom.Point
	total, most := 0, int(outlinePoints*max(1, m.form.W/mapSide, m.form.H/mapSide))
	for i := range g.ink.tracks {
		t := &g.ink.tracks[i]
		if t.mark.Layer != drawing.Cut {
			continue
		}
		var line []geom.Point
		last := geom.Point{X: math.Inf(1)}
		n := t.to - t.from
		for j := range n {
			p := g.ink.at(t, j).Mul(m.scale).Add(m.zero)
			if p.Dist(last) >= least || j == n-1 && !t.closed {
				line, last = append(line, p), p
			}
		}
		if t.closed && len(line) > 1 {
			line = append(line, line[0])
		}
		if len(line) < 2 {
			continue
		}
		if total += len(line); total > most {
			return
		}
		lines = append(lines, line)
	}
	for _, l := range lines {
		m.form.Polyline(nil, tiling.Pen{Width: drawing.FineLine, Tone: drawing.Grey}, false, l...)
	}
}

// newInset draws the neighbourhood of a page, which lies in the middle.
func newInset() *tiling.Form {
	const side = insetSide * insetCell
	f := &tiling.Form{W: side, H: side}
	pen := tiling.Pen{Width: drawing.FineLine}
	for i := range insetSide + 1 {
		x := float64(i) * insetCell
		f.Line(nil, pen, x, 0, x, side)
		f.Line(nil, pen, 0, x, side, x)
	}
	const mid = insetSide / 2 * insetCell
	f.Fills = append(f.Fills, tiling.Fill{Rings: [][]geom.Point{tiling.Box(geom.Rect{Min: geom.Point{X: mid, Y: mid}, Max: geom.Point{X: mid + insetCell, Y: mid + insetCell}})}})
	return f
}

// size returns the room that a map needs, its inset below it.
func (m *keyMap) size() (w, h float64) {
	w, h = m.form.W, m.form.H
	if m.inset != nil {
		w, h = max(w, m.inset.W), h+m.inset.H+insetGap
	}
	return w, h
}

const insetGap = 2.0

// showMap shows a map whose room begins at at, and fills this page on it.
func (m *maker) showMap(k *keyMap, at geom.Point) {
	f := &m.page.Layers[drawing.Furniture]
	low := at
	if k.inset != nil {
		f.Uses = append(f.Uses, tiling.Use{Form: k.inset, At: at})
		m.showAbsent(at)
		low.Y += k.inset.H + insetGap
	}
	f.Uses = append(f.Uses, tiling.Use{Form: k.form, At: low})
	if len(m.g.cells) == 1 { // black would hide all that the map shows
		return
	}
	r := k.cellBox(m.g, m.cell)
	m.fill(geom.Rect{Min: low.Add(r.Min), Max: low.Add(r.Max)}, drawing.Black)
}

// showAbsent greys the cells of the neighbourhood that are not printed.
func (m *maker) showAbsent(at geom.Point) {
	const half = insetSide / 2
	for dr := -half; dr <= half; dr++ {
		from := -half
		flush := func(to int) {
			if to > from {
				m.fill(geom.Rect{
					Min: at.Add(geom.Point{X: float64(from+half) * insetCell, Y: float64(dr+half) * insetCell}),
					Max: at.Add(geom.Point{X: float64(to+half) * insetCell, Y: float64(dr+half+1) * insetCell}),
				}, absent)
			}
		}
		for dc := -half; dc <= half; dc++ {
			if m.g.place.get(m.cell.c+dc, m.cell.r+dr) >= 0 {
				flush(dc)
				from = dc + 1
			}
		}
		flush(half + 1)
	}
}

// fill fills a box on the page, in the furniture.
func (m *maker) fill(r geom.Rect, tone drawing.Tone) {
	ring := m.page.Arena(4)
	ring[0], ring[1], ring[2], ring[3] = r.Min, geom.Point{X: r.Max.X, Y: r.Min.Y}, r.Max, geom.Point{X: r.Min.X, Y: r.Max.Y}
	f := &m.page.Layers[drawing.Furniture]
	if n := len(f.Fills); n < cap(f.Fills) {
		// Keep the rings' memory from the page before.
		f.Fills = f.Fills[:n+1]
		f.Fills[n] = tiling.Fill{Tone: tone, Rings: append(f.Fills[n].Rings[:0], ring)}
		return
	}
	f.Fills = append(f.Fills, tiling.Fill{Tone: tone, Rings: [][]geom.Point{ring}})
}
