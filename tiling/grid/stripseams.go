package grid

import (
	"iter"
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// sides of a strip, as bits of cell.near.
func (s *strips) sides() (before, after, left, right uint8) {
	if s.along == 0 {
		return nearLeft, nearRight, nearBelow, nearAbove
	}
	return nearBelow, nearAbove, nearLeft, nearRight
}

// stripSeams returns where a strip's seams lie, in the view's millimetres: across, both; along, those of its joins, or its
// ends where it has none.
func (g *grid) stripSeams(c *cell) (u0, u1, v0, v1 float64) {
	a := seamInset(g.lap)
	before, after, _, _ := g.strips.sides()
	v0, u0 = g.strips.alongOf(c.win.Min)
	v1, _ = g.strips.alongOf(c.win.Max)
	_, step := g.strips.alongOf(g.step)
	u0 += a
	u1 = u0 + step
	if c.near&before != 0 {
		v0 += a
	}
	if c.near&after != 0 {
		v1 += a - g.lap
	}
	return u0, u1, v0, v1
}

// beside yields the strips across that lie a step from a strip's own.
func (g *grid) beside(c *cell, step int) iter.Seq[*cell] {
	return func(yield func(*cell) bool) {
		n := c.c + step
		if n < 0 || n >= g.cols {
			return
		}
		for i := g.strips.first[n]; i < g.strips.first[n+1]; i++ {
			if g.cells[i].win.Overlaps(c.win) && !yield(&g.cells[i]) {
				return
			}
		}
	}
}

// showStripSeams draws a strip's seams: crosses at round places along its long edges and at its joins, lines to trim and to lay
// on, pairs of letters.
func (m *maker) showStripSeams() {
	g, c := m.g, m.cell
	s := g.strips
	arm := crossArm(g.lap)
	reg := &m.page.Layers[drawing.Registration]
	before, after, left, right := s.sides()
	u0, u1, v0, v1 := g.stripSeams(c)
	from, _ := s.alongOf(c.win.Min)
	to, _ := s.alongOf(c.win.Max)
	_, lowest := s.alongOf(c.win.Min)
	_, highest := s.alongOf(c.win.Max)
	cross := func(v, u float64) {
		at := s.point(v, u).Add(m.shift)
		reg.Cross(m.page, at, arm)
		m.room.take(geom.Rect{Min: at, Max: at}.Grow(arm + 0.5))
	}
	line := func(pen tiling.Pen, v0, u0, v1, u1 float64) {
		reg.Polyline(m.page, pen, false, s.point(v0, u0).Add(m.shift), s.point(v1, u1).Add(m.shift))
	}
	pen := lapPen
	if g.lap == 0 {
		pen = tiling.Thin
	}
	for _, e := range [2]struct {
		u    float64
		near uint8
		pen  tiling.Pen
		seam int
		step int
	}{{u0, left, tiling.Thin, c.c - 1, -1}, {u1, right, pen, c.c, 1}} {
		if c.near&e.near == 0 {
			continue
		}
		for i := range g.beside(c, e.step) {
			n0, _ := s.alongOf(i.win.Min)
			n1, _ := s.alongOf(i.win.Max)
			n0, n1 = max(n0, from), min(n1, to)
			if n0 >= n1 {
				continue
			}
			line(e.pen, n0, e.u, n1, e.u)
			for k := math.Ceil((n0 + arm) / crossEvery); k*crossEvery <= n1-arm; k++ {
				cross(k*crossEvery, e.u)
			}
			for k := math.Ceil((n0+letterRoom)/crossEvery - 0.5); (k+0.5)*crossEvery <= n1-letterRoom; k++ {
				m.showPair(7*e.seam+2*int(k), s.along == 1, s.point((k+0.5)*crossEvery, e.u))
			}
			// An edge's ends have crosses too, unless a round place is near.
			first, last := math.Ceil(n0+2*arm), math.Floor(n1-2*arm)
			for _, v := range [2]float64{first, last} {
				if math.Abs(v-math.Round(v/crossEvery)*crossEvery) > 8*arm && first <= last && (v == first || last > first+8*arm) {
					cross(v, e.u)
				}
			}
		}
	}
	for _, e := range [2]struct {
		v    float64
		near uint8
		pen  tiling.Pen
		join int
	}{{v0, before, tiling.Thin, c.r - 1}, {v1, after, pen, c.r}} {
		if c.near&e.near == 0 {
			continue
		}
		line(e.pen, e.v, lowest, e.v, highest)
		for _, u := range [3]float64{u0, (u0 + u1) / 2, u1} {
			cross(e.v, u)
		}
		m.showPair(2*e.join+1, s.along == 0, s.point(e.v, u0+0.3*(u1-u0)))
	}
}
