package grid

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// labelHeights and nameHeights are tried from the largest: to be read standing, if there is room.
var (
	labelHeights = [...]float64{drawing.Lettering20, lettering14, drawing.Lettering10, drawing.Lettering7, drawing.Lettering5}
	nameHeights  = [...]float64{drawing.Lettering20, lettering14, drawing.Lettering10, drawing.Lettering7, drawing.Lettering5, drawing.Lettering3_5}
)

// lettering14 is a height of ISO 3098 between the two largest that drawings use.
const lettering14 = 14.0

const plateGap = 3.0

// countOf returns the words that tell a page from the others: its number and content mark.
func (m *maker) countOf(n int, mark string) string {
	m.text = append(m.text[:0], "sheet "...)
	if m.g.strips != nil {
		m.text = append(m.text[:0], "strip "...)
	}
	m.text = strconv.AppendInt(m.text, int64(n), 10)
	m.text = append(m.text, " of "...)
	m.text = strconv.AppendInt(m.text, int64(len(m.plan.pages)), 10)
	m.text = append(append(m.text, "   content "...), mark...)
	return string(m.text)
}

// showFurniture writes what a page says: its label, its set and issue, how to hold it, its content mark, where it lies, the
// names of its pieces, and what to be careful of. It keeps off everything that was drawn before.
func (m *maker) showFurniture(count string) {
	if m.onArt || !m.showPlate(count) {
		m.showParts(count)
	}
	m.showCautions()
	m.showNames()
}

// info is what the page says of its set and issue.
func (m *maker) info() []plate { return m.g.kit.info[m.cell.stamp] }

// plateSize returns the size of label, words and map together.
func (m *maker) plateSize(count string) (w, tall, below float64) {
	info, mp := &m.info()[0], &m.g.kit.maps[0]
	mw, mh := mp.size()
	left := max(info.w, lettering.Width(count, drawing.Lettering3_5, false))
	w = max(lettering.Width(m.page.Label, drawing.Lettering20, true), left+2*plateGap+mw)
	below = max(info.h+drawing.Lettering3_5*lettering.Leading, mh)
	return w, drawing.Lettering20 + 2*plateGap + below, below
}

// showPlate shows label, words and map together, at the upper left if that is free, else where they find room.
func (m *maker) showPlate(count string) bool {
	k := m.g.kit
	info, mp := &m.info()[0], &k.maps[0]
	const h = drawing.Lettering20
	const text = drawing.Lettering3_5
	mw, mh := mp.size()
	w, tall, below := m.plateSize(count)
	at := geom.Point{X: m.inner.Min.X + k.tickWidth + tiling.BarBreadth + 5, Y: m.inner.Max.Y - tickLong - 2 - tall}
	box := func() geom.Rect { return geom.Rect{Min: at, Max: geom.Point{X: at.X + w, Y: at.Y + tall}}.Grow(1) }
	if !m.room.free(box()) {
		found, ok := m.room.find(w+2, tall+2)
		if !ok {
			return false
		}
		at = found.Add(geom.Point{X: 1, Y: 1})
	}
	m.room.take(box())
	f := &m.page.Layers[drawing.Furniture]
	f.Write(geom.Point{X: at.X, Y: at.Y + tall - h}, h, true, m.page.Label)
	top := at.Y + below
	f.Uses = append(f.Uses, tiling.Use{Form: info.form, At: geom.Point{X: at.X, Y: top - info.h}})
	f.Write(geom.Point{X: at.X, Y: top - info.h - text*1.3}, text, false, count)
	m.showMap(mp, geom.Point{X: at.X + w - mw, Y: top - mh})
	return true
}

// showParts shows label, words and map each where it finds room, smaller where there is little.
func (m *maker) showParts(count string) {
	f := &m.page.Layers[drawing.Furniture]
	k := m.g.kit
	placed := false
	for _, h := range m.heightsOf() {
		if placed = m.write(m.page.Label, h, true); placed {
			break
		}
	}
	if !placed {
		m.writeInMargin(m.page.Label)
	}
	placed = false
	info := m.info()
	for i := range info {
		if m.onArt && i == 0 {
			continue
		}
		if at, ok := m.place(info[i].w, info[i].h); ok {
			f.Uses = append(f.Uses, tiling.Use{Form: info[i].form, At: at})
			placed = true
			break
		}
	}
	if !placed {
		m.writeInMargin(m.g.info.size())
	}
	if !m.write(count, drawing.Lettering3_5, false) && !m.write(count, drawing.Lettering2_5, false) {
		m.writeInMargin(count)
	}
	for i := range k.maps {
		w, h := k.maps[i].size()
		if at, ok := m.place(w, h); ok {
			m.showMap(&k.maps[i], at)
			break
		}
	}
}

// heightsOf returns the heights to try for the page's label: over artwork those that cover little of it.
func (m *maker) heightsOf() []float64 {
	if m.onArt {
		return labelHeights[2:]
	}
	return labelHeights[:]
}

// place finds room for a box, a millimetre about it, and takes it.
func (m *maker) place(w, h float64) (geom.Point, bool) {
	at, ok := m.room.find(w+2, h+2)
	if !ok && m.onArt {
		at, ok = m.findOnArt(w+2, h+2)
	}
	if !ok {
		return at, false
	}
	m.take(geom.Rect{Min: at, Max: at.Add(geom.Point{X: w + 2, Y: h + 2})})
	return at.Add(geom.Point{X: 1, Y: 1}), true
}

// write writes a line where it finds room.
func (m *maker) write(text string, height float64, bold bool) bool {
	at, ok := m.place(lettering.Width(text, height, bold), height*(1+lettering.Descent))
	if ok {
		m.page.Layers[drawing.Furniture].Write(at.Add(geom.Point{Y: height * lettering.Descent}), height, bold, text)
	}
	return ok
}

// writeInMargin writes words below the live area, and then above it: on a page so full of lines that it has no room for them, in
// the margin, where most printers still print.
func (m *maker) writeInMargin(text string) {
	const h, pitch = drawing.Lettering1_8, 1.5 * drawing.Lettering1_8
	below := max(int(m.live.Min.Y/pitch), 1) // lines in the lower margin
	for _, line := range lettering.Wrap(text, h, false, m.live.W()) {
		w := lettering.Width(line, h, false)
		if m.marginAt > 0 && m.marginAt+w > m.live.W() {
			m.marginAt = 0
			m.marginLine++
		}
		y := m.live.Min.Y - float64(m.marginLine+1)*pitch
		if m.marginLine >= below {
			y = m.live.Max.Y + float64(m.marginLine-below)*pitch + 0.5*h
		}
		m.page.Layers[drawing.Furniture].Write(geom.Point{X: m.live.Min.X + m.marginAt, Y: max(y, 0.3*h)}, h, false, line)
		m.marginAt += w + 2*h
	}
}

// showCautions writes what to be careful of about the pieces on the page.
func (m *maker) showCautions() {
	k := m.g.kit
	if len(k.cautions) == 0 {
		return
	}
	var shown [mostCautions]bool
	m.g.ownersOf(m.ci, func(o int32) {
		if c := k.cautionOf[o]; c >= 0 {
			shown[c] = true
		}
	})
	f := &m.page.Layers[drawing.Furniture]
next:
	for i := range k.cautions {
		if !shown[i] {
			continue
		}
		for j := range k.cautions[i] {
			c := &k.cautions[i][j]
			if at, ok := m.place(c.w, c.h); ok {
				f.Uses = append(f.Uses, tiling.Use{Form: c.form, At: at})
				continue next
			}
		}
		m.writeInMargin(k.lines[i])
	}
}

// mostNames is how many pieces are named on a page beside their lines.
const mostNames = 12

// showNames writes each piece's name beside its longest line, as large as there is room: the one that the drawing gives it on
// this page, where it gives just one, or the element's.
func (m *maker) showNames() {
	f := &m.page.Layers[drawing.Furniture]
	for i := range m.pieces {
		pc := &m.pieces[i]
		name, least := m.g.owners[pc.owner], 0.0
		if pc.names == 1 {
			name, least = pc.name.Text, pc.name.Height
		}
		if i < mostNames && len(pc.line) > 1 && m.showName(name, pc, least) {
			continue
		}
		if pc.names == 1 {
			f.Texts = append(f.Texts, pc.name)
		}
	}
}

// nameShares are where along a line a name is tried.
var nameShares = [...]float64{0.5, 0.3, 0.7, 0.15, 0.85}

// showName writes a name beside a piece's line, larger than least.
func (m *maker) showName(name string, pc *piece, least float64) bool {
	one := lettering.Width(name, 1, true)
	for _, h := range nameHeights {
		if h <= least {
			break
		}
		w, tall := one*h, h*(1+lettering.Descent)
		if w > m.inner.W() || tall > m.inner.H() {
			continue
		}
		for _, share := range nameShares {
			at, along := pointAlong(pc.line, share*pc.length)
			beside := along.Left()
			// So far from the line that the box clears it, whichever way it runs.
			off := abs(beside.X)*w/2 + abs(beside.Y)*tall/2 + 4*clearance
			for _, side := range [2]float64{1, -1} {
				mid := at.Add(beside.Mul(side * off))
				box := geom.Rect{Min: geom.Point{X: mid.X - w/2, Y: mid.Y - tall/2}, Max: geom.Point{X: mid.X + w/2, Y: mid.Y + tall/2}}
				if m.room.free(box) {
					m.room.take(box)
					m.page.Layers[drawing.Furniture].Write(geom.Point{X: box.Min.X, Y: box.Min.Y + h*lettering.Descent}, h, true, name)
					return true
				}
			}
		}
	}
	return false
}

// pointAlong returns the place at so much along a polyline, and its direction there.
func pointAlong(line []geom.Point, d float64) (at, along geom.Point) {
	for i := 1; i < len(line); i++ {
		l := line[i-1].Dist(line[i])
		if d <= l || i == len(line)-1 {
			u := line[i].Sub(line[i-1]).Unit()
			return line[i-1].Add(u.Mul(min(d, l))), u
		}
		d -= l
	}
	return line[0], geom.Point{X: 1}
}

func abs(x float64) float64 { return max(x, -x) }
