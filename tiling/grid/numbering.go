package grid

import (
	"fmt"
	"math"
	"strconv"

	"markout/layout/geom"
	"markout/tiling"
)

// number gives each cell its window and its label: rows are numbered upwards from 1, columns lettered from the left, unless an
// earlier issue has named them. Sheets are in the order of their rows, strips of a roll as they come off it.
func (g *grid) number() {
	c0, r0 := math.MaxInt, math.MaxInt
	c1, r1 := math.MinInt, math.MinInt
	for _, c := range g.cells {
		c0, c1 = min(c0, c.c), max(c1, c.c)
		r0, r1 = min(r0, c.r), max(r1, c.r)
	}
	g.cols, g.rows = c1-c0+1, r1-r0+1
	g.first = [2]int{c0, r0}
	if g.was != nil {
		g.columns, g.lines = g.was.Columns, g.was.Rows
	}
	g.columns = g.columns.reach(c0, c1)
	if g.strips == nil {
		g.lines = g.lines.reach(r0, r1)
	}
	g.place = newPlane(0, 0, g.cols-1, g.rows-1)
	letters, numbers := map[int]string{}, map[int]int{}
	var b []byte
	for i := range g.cells {
		c := &g.cells[i]
		c.c, c.r = c.c-c0, c.r-r0
		g.place.set(c.c, c.r, int32(i))
		number := int(c.part)
		if g.strips == nil {
			at := g.corner(c.c, c.r)
			c.win = geom.Rect{Min: at, Max: at.Add(g.live)}
			if number = numbers[c.r]; number == 0 {
				number = g.rowName(c.r)
				numbers[c.r] = number
			}
		}
		l, ok := letters[c.c]
		if !ok {
			l = g.columnName(c.c)
			letters[c.c] = l
		}
		b = append(append(b[:0], g.prefix...), ' ')
		b = append(strconv.AppendInt(b, int64(number), 10), l...)
		c.label = string(b)
	}
	if g.strips != nil {
		g.stripNeighbours()
		return
	}
	g.empty = g.cols*g.rows - len(g.cells)
	for i := range g.cells {
		c := &g.cells[i]
		for k, d := range around {
			if g.place.get(c.c+d[0], c.r+d[1]) >= 0 {
				c.near |= 1 << k
			}
		}
	}
}

// corner returns where the window in a column and row that are printed begins, counted from the first. It is told from the grid's
// base, so that a window is the same to the last bit in every issue that has it.
func (g *grid) corner(c, r int) geom.Point {
	return geom.Point{X: g.base.X + float64(c+g.first[0])*g.step.X, Y: g.base.Y + float64(r+g.first[1])*g.step.Y}
}

// columnName and rowName name the columns and rows that are printed, counted from the first.
func (g *grid) columnName(c int) string { return tiling.Letters(g.columns.name(c+g.first[0]) - 1) }
func (g *grid) rowName(r int) int       { return g.lines.name(r + g.first[1]) }

// around lists the eight neighbours of a cell by the bits of cell.near.
var around = [8][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}, {-1, -1}, {1, -1}, {-1, 1}, {1, 1}}

const (
	nearLeft = 1 << iota
	nearRight
	nearBelow
	nearAbove
	nearLeftBelow
	nearRightBelow
	nearLeftAbove
	nearRightAbove
)

// labelsOf returns what labels of a view and a name can begin with, the shortest first.
func labelsOf(view, name string) []string {
	if name == "" {
		return []string{view}
	}
	return []string{name, name + " " + view}
}

// nameGrids gives each grid the words that its labels begin with, so that no two pages share a label: those that an earlier issue
// has given it, as long as its piece is called the same.
func (p *Plan) nameGrids() {
	views := map[string]int{}
	taken := map[string]bool{}
	for _, g := range p.grids {
		views[g.name]++
		if g.was != nil && g.was.Element == g.name && !taken[g.was.Label] {
			g.prefix = g.was.Label
			taken[g.prefix] = true
		}
	}
	for _, g := range p.grids {
		if g.prefix != "" {
			continue
		}
		can := labelsOf(g.view, g.name)
		full := can[len(can)-1]
		g.prefix = can[0]
		if g.view == "back" || g.view == "head" || g.view != "face" && g.view != "artwork" && views[g.name] > 1 {
			g.prefix = full
		}
		if taken[g.prefix] {
			g.prefix = full
		}
		for n := 2; taken[g.prefix]; n++ {
			g.prefix = fmt.Sprintf("%s (%d)", full, n)
		}
		taken[g.prefix] = true
	}
}
