package grid

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// maker makes pages, one after the other. Several makers work at the same time, each with its own memory.
type maker struct {
	plan *Plan
	g    *grid
	ci   int32
	cell *cell
	page *tiling.Page

	live  geom.Rect  // on the page
	inner geom.Rect  // what of it is left when the page is trimmed and its neighbours are laid
	shift geom.Point // from the view to the page

	xTicks, yTicks []tick
	room           room
	bare           []uint64 // the room as it was before artwork took its own
	laid           []uint64 // what of the room is taken by what the page is laid by, and by nothing drawn
	onArt          bool     // there is no room beside the artwork: what the page says that finds none stands on white
	pieces         []piece
	buf            []geom.Point
	digester       tiling.Digester
	text           []byte
	marginAt       float64 // how far the margin is written
	marginLine     int
}

// make fills page number n of all (both from 1, covers aside), which is ref.
func (m *maker) make(ref pageRef, n int, p *tiling.Page) {
	g := m.plan.grids[ref.grid]
	m.g, m.ci, m.cell, m.page = g, ref.cell, &g.cells[ref.cell], p
	c := m.cell
	size := g.sizeOf(c)
	p.W, p.H = size.W, size.H
	p.Label = c.label
	at := geom.Point{X: g.margins.Left, Y: g.margins.Bottom}
	m.shift = g.shiftOf(c)
	m.live = geom.Rect{Min: at, Max: at.Add(g.liveOf(c))}
	p.Clip = m.live
	if g.strips != nil {
		u0, u1, v0, v1 := g.stripSeams(c)
		m.inner = geom.Rect{Min: g.strips.point(v0, u0).Add(m.shift), Max: g.strips.point(v1, u1).Add(m.shift)}
		m.xTicks, m.yTicks = g.kit.xTicks[m.ci], g.kit.yTicks[m.ci]
	} else {
		a := seamInset(g.lap)
		lo := at.Add(geom.Point{X: a, Y: a})
		m.inner = geom.Rect{Min: lo, Max: lo.Add(g.step)}
		m.xTicks, m.yTicks = g.kit.xTicks[c.c], g.kit.yTicks[c.r]
	}
	m.room.reset(m.live)
	m.pieces, m.marginAt, m.marginLine, m.onArt = m.pieces[:0], 0, 0, false

	// What is drawn comes first, then what the page is laid by, then what it says: each keeps clear of what came before. Names are
	// of what it says, so that another name moves no tick and no bar.
	shows := m.plan.shows[n-1]
	m.showPictures(shows)
	m.showInk()
	m.laid = append(m.laid[:0], m.room.rows...)
	m.showRegistration()
	m.showGivenNames()
	var digest [32]byte
	digest, m.buf = g.sumOf(m.ci, &m.digester, m.buf)
	count := m.countOf(n, tiling.ContentMark(digest))
	m.keepOff(shows, count)
	m.showFurniture(count)
	if len(shows) > 0 {
		m.setOff()
	}
}

// showRegistration draws what the page is laid by. It depends on the drawing and the grid alone.
func (m *maker) showRegistration() {
	reg := &m.page.Layers[drawing.Registration]
	if m.g.strips != nil {
		m.showStripSeams()
	} else {
		if f := m.g.kit.frames[m.cell.near]; f != nil {
			reg.Uses = append(reg.Uses, tiling.Use{Form: f, At: m.live.Min})
			m.room.takeAll(m.g.kit.crosses)
		}
		m.showLetters()
	}
	m.showTicks()
	for i, row := range m.room.rows {
		m.laid[i] = row &^ m.laid[i]
	}
	// What is trimmed off or covered says nothing.
	if m.g.strips != nil {
		m.room.takeOutside(m.live, m.inner)
	} else {
		m.room.takeAll(m.g.kit.bands)
	}
	m.showBars()
}

// showBars draws the check bars, each the longest that has room without crossing a line; where none has, the longest of
// all, broken where lines cross it.
func (m *maker) showBars() {
	k := m.g.kit
	inner := m.inner
	lay := func(bars []bar, upright bool) {
		first := -1
		for i := range bars {
			w, h := bars[i].length+1, tiling.BarBreadth+1
			if upright {
				w, h = h, w
			}
			if w > inner.W() || h > inner.H() {
				continue
			}
			if first < 0 {
				first = i
			}
			// The bar's place on every sheet: along the left and the lower edge, beyond the ticks' figures.
			at := geom.Point{X: inner.Min.X + (inner.W()-w)/2, Y: inner.Min.Y + tickLong + 2}
			if upright {
				at = geom.Point{X: inner.Min.X + m.g.kit.tickWidth + 2, Y: inner.Min.Y + (inner.H()-h)/2}
				if above := inner.Min.Y + tickLong + tiling.BarBreadth + 5; at.Y < above && above+h < inner.Max.Y {
					at.Y = above
				}
			}
			free := m.room.free(geom.Rect{Min: at, Max: geom.Point{X: at.X + w, Y: at.Y + h}})
			if !free {
				at, free = m.room.findLow(w, h)
			}
			if free {
				m.showBar(&bars[i], at)
				m.room.take(geom.Rect{Min: at, Max: geom.Point{X: at.X + w, Y: at.Y + h}})
				return
			}
		}
		if first >= 0 {
			m.showBrokenBar(&bars[first], upright)
		}
	}
	// The way that has less room chooses first.
	if inner.H() < inner.W() {
		lay(k.yBars, true)
		lay(k.xBars, false)
		return
	}
	lay(k.xBars, false)
	lay(k.yBars, true)
}

// keep notes that a box belongs to what the page is laid by.
func (m *maker) keep(box geom.Rect) {
	m.room.rows, m.laid = m.laid, m.room.rows
	m.room.take(box)
	m.room.rows, m.laid = m.laid, m.room.rows
}

// kept reports whether a box meets what the page is laid by.
func (m *maker) kept(box geom.Rect) bool {
	m.room.rows, m.laid = m.laid, m.room.rows
	box = box.Common(geom.Rect{Min: m.room.min, Max: m.room.min.Add(geom.Point{X: float64(m.room.w) * m.room.each, Y: float64(m.room.h) * m.room.each})})
	free := box.Empty() || m.room.free(box)
	m.room.rows, m.laid = m.laid, m.room.rows
	return !free
}

// showBar shows a bar whose box, with half a millimetre around it, begins at at.
func (m *maker) showBar(b *bar, at geom.Point) {
	m.keep(geom.Rect{Min: at, Max: at.Add(geom.Point{X: b.form.W + 1, Y: b.form.H + 1})})
	reg := &m.page.Layers[drawing.Registration]
	reg.Uses = append(reg.Uses, tiling.Use{Form: b.form, At: at.Add(geom.Point{X: 0.5, Y: 0.5})})
}

// showBrokenBar draws a bar where lines cross it: its ends are true, between them it is drawn where it is clear.
func (m *maker) showBrokenBar(b *bar, upright bool) {
	reg := &m.page.Layers[drawing.Registration]
	long, wide := m.inner.W(), m.inner.H()
	if upright {
		long, wide = wide, long
	}
	place := func(along, across float64) geom.Point {
		if upright {
			return m.inner.Min.Add(geom.Point{X: across, Y: along})
		}
		return m.inner.Min.Add(geom.Point{X: along, Y: across})
	}
	clear := func(along, across, half float64) bool {
		p := place(along, across)
		return m.room.free(geom.Rect{Min: p, Max: p}.Grow(half))
	}
	// Where both ends are clear, and then as much as can be between them.
	each := m.room.each
	bestAlong, bestAcross, most := (long-b.length)/2, wide/3, -1
	for across := tickLong + each; across < wide-each; across += 2 * each {
		for along := 1.0; along+b.length < long-1; along += 2 * each {
			if !clear(along, across, tiling.BarHalf) || !clear(along+b.length, across, tiling.BarHalf) {
				continue
			}
			n := 0
			for x := along; x < along+b.length; x += each {
				if clear(x, across, 0.1) {
					n++
				}
			}
			if n > most {
				bestAlong, bestAcross, most = along, across, n
			}
		}
	}
	line := func(x0, y0, x1, y1 float64) {
		reg.Polyline(m.page, tiling.Thin, false, place(x0, y0), place(x1, y1))
	}
	end := bestAlong + b.length
	for _, x := range [2]float64{bestAlong, end} {
		line(x, bestAcross-tiling.BarHalf, x, bestAcross+tiling.BarHalf)
	}
	from := bestAlong
	for x := bestAlong; x < end; x += each {
		to := min(x+each, end)
		if !clear((x+to)/2, bestAcross, each/2) {
			if x > from {
				line(from, bestAcross, x, bestAcross)
			}
			from = to
		}
	}
	if end > from {
		line(from, bestAcross, end, bestAcross)
	}
	whole := geom.EmptyRect().Include(place(bestAlong, bestAcross-tiling.BarHalf)).Include(place(end, bestAcross+tiling.BarHalf)).Grow(1)
	m.room.take(whole)
	m.keep(whole)
	if at, ok := m.room.findLow(b.width+1, drawing.Lettering3_5+1); ok {
		reg.Write(at.Add(geom.Point{X: 0.5, Y: 0.5}), drawing.Lettering2_5, false, b.words)
		m.room.take(geom.Rect{Min: at, Max: at.Add(geom.Point{X: b.width + 1, Y: drawing.Lettering3_5 + 1})})
	}
}
