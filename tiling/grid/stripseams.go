package grid

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// bits returns the sides of a strip as bits of cell.near.
func (s *strips) bits() (before, after, left, right uint8) {
	if s.along == 0 {
		return nearLeft, nearRight, nearBelow, nearAbove
	}
	return nearBelow, nearAbove, nearLeft, nearRight
}

// stripSeams returns where a strip's seams lie, in the view's millimetres: across, both; along, those of its joins, or its
// ends where it has none.
func (g *grid) stripSeams(c *cell) (u0, u1, v0, v1 float64) {
	a := seamInset(g.lap)
	before, after, _, _ := g.strips.bits()
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

// showStripSeams draws a strip's seams: crosses at round places along its long edges and at its joins, lines to trim and to lay
// on, pairs of letters.
func (m *maker) showStripSeams() {
	g, c := m.g, m.cell
	s := g.strips
	arm := crossArm(g.lap)
	reg := &m.page.Layers[drawing.Registration]
	before, after, _, _ := s.bits()
	u0, u1, v0, v1 := g.stripSeams(c)
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
		u      float64
		pen    tiling.Pen
		seam   int
		beside [][2]float64
	}{{u0, tiling.Thin, c.c + g.first[0] - 1, s.sides[m.ci].left}, {u1, pen, c.c + g.first[0], s.sides[m.ci].right}} {
		for _, common := range e.beside {
			n0, n1 := common[0], common[1]
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
	}{{v0, before, tiling.Thin}, {v1, after, pen}} {
		if c.near&e.near == 0 {
			continue
		}
		line(e.pen, e.v, lowest, e.v, highest)
		for _, u := range [3]float64{u0, (u0 + u1) / 2, u1} {
			cross(e.v, u)
		}
		m.showPair(2*int(math.Round(e.v/crossEvery))+1, s.along == 0, s.point(e.v, u0+0.3*(u1-u0)))
	}
}
