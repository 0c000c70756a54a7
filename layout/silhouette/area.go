package silhouette

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// subrows is how many lines a row of pixels is looked at along. Along a line the coverage is exact.
const subrows = 16

// mostHeld is how many corners of areas are held from band to band; those of further ones are made anew for each.
const mostHeld = 4 << 20

// area is what paths cover, or a line along them.
type area struct {
	paths    []*geom.Path
	stroke   *artwork.Stroke // nil where it is the paths' inside
	evenOdd  bool
	dark     bool           // takes away instead
	polygons [][]geom.Point // in pixels, y down, once they are held
}

// corners returns the area's polygons in pixels.
func (c *canvas) corners(a *area) [][]geom.Point {
	if a.polygons != nil {
		return a.polygons
	}
	tolerance := 0.05 * c.back.A // a twentieth of a pixel
	var polygons [][]geom.Point
	if a.stroke != nil {
		polygons = a.stroke.Polygons(a.paths, tolerance)
	} else {
		for _, p := range a.paths {
			polygons = append(polygons, p.Flatten(tolerance, nil))
		}
	}
	n := 1
	for _, poly := range polygons {
		n += len(poly)
		for i, q := range poly {
			poly[i] = c.place.Apply(q)
		}
	}
	if c.held+n <= mostHeld {
		c.held += n
		a.polygons = append([][]geom.Point{}, polygons...)
	}
	return polygons
}

type crossing struct {
	x   float64
	dir int8
}

// fill returns what of the band an area covers.
func (c *canvas) fill(a *area) *cover {
	top := float64(c.y)
	low, high := len(c.lines), 0
	for _, poly := range c.corners(a) {
		for i, p := range poly {
			q := poly[(i+1)%len(poly)]
			dir := int8(1)
			if p.Y > q.Y {
				p, q, dir = q, p, -1
			}
			first := max(0, math.Ceil((p.Y-top)*subrows-0.5))
			last := min(float64(len(c.lines)), math.Ceil((q.Y-top)*subrows-0.5))
			if first >= last {
				continue
			}
			low, high = min(low, int(first)), max(high, int(last))
			for k := first; k < last; k++ {
				t := (top + (k+0.5)/subrows - p.Y) / (q.Y - p.Y)
				c.lines[int(k)] = append(c.lines[int(k)], crossing{p.X + t*(q.X-p.X), dir})
			}
		}
	}
	m := c.empty()
	for y := low / subrows; y*subrows < high; y++ {
		for k := range subrows {
			line := &c.lines[y*subrows+k]
			c.inside(*line, a.evenOdd)
			*line = (*line)[:0]
		}
		m.rows[y] = c.sum(m.rows[y])
	}
	return m
}

// inside adds what lies inside along one line as steps, whose running sum along the row is the coverage.
func (c *canvas) inside(line []crossing, evenOdd bool) {
	slices.SortFunc(line, func(a, b crossing) int { return cmp.Compare(a.x, b.x) })
	wind := 0
	for i := 0; i+1 < len(line); i++ {
		wind += int(line[i].dir)
		if evenOdd && i%2 == 0 || !evenOdd && wind != 0 {
			c.step(line[i].x, 1.0/subrows)
			c.step(line[i+1].x, -1.0/subrows)
		}
	}
}

func (c *canvas) step(x, by float64) {
	x = min(max(x, 0), float64(c.w))
	i := int(x)
	part := x - float64(i) // of pixel i that lies before x
	c.steps[i] += by * (1 - part)
	c.steps[i+1] += by * part
	c.marks[i>>6] |= 1 << (i & 63)
	c.marks[(i+1)>>6] |= 1 << ((i + 1) & 63)
}

// sum makes a row of the steps and takes them away.
func (c *canvas) sum(row []span) []span {
	at, v, sum := int32(0), uint16(0), 0.0
	for word := range c.marks {
		for m := c.marks[word]; m != 0; m &= m - 1 {
			i := word<<6 + bits.TrailingZeros64(m)
			row = add(row, at, min(int32(i), int32(c.w)), v)
			sum += c.steps[i]
			c.steps[i] = 0
			at, v = int32(i), uint16(min(max(sum, 0), 1)*full+0.5)
		}
		c.marks[word] = 0
	}
	return row
}
