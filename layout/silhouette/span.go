package silhouette

// full is the coverage of a pixel that lies wholly in.
const full = 1<<16 - 1

// span is a run of pixels of a row that are covered alike, and not by nothing.
type span struct {
	from, to int32
	v        uint16
}

// add appends a run to a row, which it follows; of nothing, nothing.
func add(row []span, from, to int32, v uint16) []span {
	if v == 0 || from >= to {
		return row
	}
	if n := len(row); n > 0 && row[n-1].to == from && row[n-1].v == v {
		row[n-1].to = to
		return row
	}
	return append(row, span{from, to, v})
}

// over is the coverage by two things, the one painted over the other.
func over(a, b uint16) uint16 {
	return full - uint16((uint32(full-a)*uint32(full-b)+full/2)/full)
}

// within is the coverage by one thing cut down to another.
func within(a, b uint16) uint16 { return uint16((uint32(a)*uint32(b) + full/2) / full) }

// without is the coverage by one thing with another taken away.
func without(a, b uint16) uint16 { return within(a, full-b) }

// merge appends to dst what two rows make together.
func merge(dst, a, b []span, both func(a, b uint16) uint16) []span {
	const end = 1<<31 - 1
	i, j := 0, 0
	for x := int32(0); i < len(a) || j < len(b); {
		next := int32(end)
		look := func(row []span, k int) uint16 {
			switch {
			case k == len(row):
				return 0
			case x < row[k].from:
				next = min(next, row[k].from)
				return 0
			}
			next = min(next, row[k].to)
			return row[k].v
		}
		va, vb := look(a, i), look(b, j)
		dst = add(dst, x, next, both(va, vb))
		x = next
		if i < len(a) && a[i].to <= x {
			i++
		}
		if j < len(b) && b[j].to <= x {
			j++
		}
	}
	return dst
}

// cover is how much of each pixel of a band is covered, row by row from the top.
type cover struct {
	rows [band][]span
}

// put paints what m covers over on.
func (c *canvas) put(on, m *cover) {
	for y := range on.rows {
		switch {
		case len(m.rows[y]) == 0:
		case len(on.rows[y]) == 0:
			on.rows[y] = append(on.rows[y], m.rows[y]...)
		default:
			c.row = merge(c.row[:0], on.rows[y], m.rows[y], over)
			on.rows[y] = append(on.rows[y][:0], c.row...)
		}
	}
}

// cut cuts what of covers down to what m covers, or to what it does not.
func (c *canvas) cut(of, m *cover, to func(a, b uint16) uint16) {
	for y := range of.rows {
		if len(of.rows[y]) > 0 {
			c.row = merge(c.row[:0], of.rows[y], m.rows[y], to)
			of.rows[y] = append(of.rows[y][:0], c.row...)
		}
	}
}

// mostFree is how many covers' memory is kept for the next.
const mostFree = 32

// empty returns a cover of nothing.
func (c *canvas) empty() *cover {
	n := len(c.free)
	if n == 0 {
		return &cover{}
	}
	m := c.free[n-1]
	c.free = c.free[:n-1]
	for y := range m.rows {
		m.rows[y] = m.rows[y][:0]
	}
	return m
}

// release gives back a cover that nothing asks for any more.
func (c *canvas) release(m *cover) {
	if len(c.free) < mostFree {
		c.free = append(c.free, m)
	}
}
