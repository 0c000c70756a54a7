package cut

// cell is a rectangle of a board in grains, kerf included: a piece, waste, or cut into two. It is Part before it
// is measured in millimetres; of a free layout only the pieces' cells are kept, under a root that is no cut.
type cell struct {
	x, y      int64
	size      rectangle
	item      int // -1: none
	turned    bool
	cut       Direction
	near, far *cell
	loose     []*cell // the pieces of a free layout
}

func waste(x, y int64, size rectangle) *cell { return &cell{x: x, y: y, size: size, item: -1} }

// part cuts c so that its near part is at long; the near part is returned.
func (c *cell) part(dir Direction, at int64) *cell {
	c.cut = dir
	if dir == Across {
		c.near = waste(c.x, c.y, rectangle{at, c.size.w})
		c.far = waste(c.x+at, c.y, rectangle{c.size.l - at, c.size.w})
	} else {
		c.near = waste(c.x, c.y, rectangle{c.size.l, at})
		c.far = waste(c.x, c.y+at, rectangle{c.size.l, c.size.w - at})
	}
	return c.near
}

// set cuts a piece out of c's corner, first in the direction given, and gives the cells that are left.
func (c *cell) set(t item, i int, way rectangle, first Direction, rest []*cell) []*cell {
	for range 2 {
		if first == Across && way.l < c.size.l {
			near := c.part(Across, way.l)
			rest = append(rest, c.far)
			c = near
		} else if first == Along && way.w < c.size.w {
			near := c.part(Along, way.w)
			rest = append(rest, c.far)
			c = near
		}
		first = Across + Along - first
	}
	c.item = i
	c.turned = way != t.rectangle
	return rest
}

// count adds up a layout's pieces by item.
func (c *cell) count(counts []int) {
	if c == nil {
		return
	}
	if c.item >= 0 {
		counts[c.item]++
	}
	c.near.count(counts)
	c.far.count(counts)
	for _, l := range c.loose {
		counts[l.item]++
	}
}
