package view

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// clearing knows where within the box of some outlines there is room for words: a field of squares over it.
type clearing struct {
	box   geom.Rect
	each  float64 // side of a square
	w, h  int
	taken []bool  // by an outline, its inside or words
	sums  []int32 // of squares taken to the lower left of each corner, (w+1) × (h+1)
}

// keepOff is how far words keep from a line, millimetres.
const keepOff = 4.0

func newClearing(bodies []geom.Region) *clearing {
	c := &clearing{box: geom.EmptyRect()}
	var rings [][]geom.Point
	for _, r := range bodies {
		c.box = c.box.Union(r.Bounds())
	}
	if c.box.Empty() {
		return c
	}
	c.each = max(5, max(c.box.W(), c.box.H())/250)
	for _, r := range bodies {
		for _, path := range append([]*geom.Path{r.Outer}, r.Holes...) {
			rings = append(rings, path.Flatten(c.each/4, nil))
		}
	}
	c.w, c.h = int(math.Ceil(c.box.W()/c.each)), int(math.Ceil(c.box.H()/c.each))
	c.taken = make([]bool, c.w*c.h)
	for _, r := range rings {
		c.line(r)
	}
	c.inside(rings)
	c.sum()
	return c
}

// line takes the squares along a ring.
func (c *clearing) line(ring []geom.Point) {
	for k := range ring {
		a, b := ring[k], ring[(k+1)%len(ring)]
		n := 1 + int(a.Dist(b)/c.each*2)
		for s := range n + 1 {
			q := a.Lerp(b, float64(s)/float64(n))
			c.take(geom.Rect{Min: q, Max: q}.Grow(keepOff))
		}
	}
}

// take takes the squares that a box touches.
func (c *clearing) take(b geom.Rect) {
	at := func(x float64) int { return int(math.Floor(x / c.each)) }
	for j := max(at(b.Min.Y-c.box.Min.Y), 0); j <= min(at(b.Max.Y-c.box.Min.Y), c.h-1); j++ {
		for i := max(at(b.Min.X-c.box.Min.X), 0); i <= min(at(b.Max.X-c.box.Min.X), c.w-1); i++ {
			c.taken[j*c.w+i] = true
		}
	}
}

// inside takes the squares whose middles lie in the outlines, row by row.
func (c *clearing) inside(rings [][]geom.Point) {
	var xs []float64
	for j := range c.h {
		y := c.box.Min.Y + (float64(j)+0.5)*c.each
		xs = xs[:0]
		for _, r := range rings {
			for k := range r {
				a, b := r[k], r[(k+1)%len(r)]
				if a.Y > y != (b.Y > y) {
					xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y)-c.box.Min.X)
				}
			}
		}
		slices.Sort(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			for i := max(int(xs[k]/c.each), 0); i <= min(int(xs[k+1]/c.each), c.w-1); i++ {
				c.taken[j*c.w+i] = true
			}
		}
	}
}

func (c *clearing) sum() {
	k := c.w + 1
	c.sums = make([]int32, k*(c.h+1))
	for j := range c.h {
		row := int32(0)
		for i := range c.w {
			if c.taken[j*c.w+i] {
				row++
			}
			c.sums[(j+1)*k+i+1] = c.sums[j*k+i+1] + row
		}
	}
}

// bandRows is how many rows of squares share a box.
const bandRows = 4

// boxes returns boxes that hold the outlines, a band of rows after another.
func (c *clearing) boxes() []geom.Rect {
	var out []geom.Rect
	for j := 0; j < c.h; j += bandRows {
		low, high := c.box.Min.Y+float64(j)*c.each, min(c.box.Min.Y+float64(j+bandRows)*c.each, c.box.Max.Y)
		taken := func(i int) bool {
			for k := j; k < min(j+bandRows, c.h); k++ {
				if i < c.w && c.taken[k*c.w+i] {
					return true
				}
			}
			return false
		}
		for i := 0; i < c.w; i++ {
			if !taken(i) {
				continue
			}
			from := i
			for taken(i) {
				i++
			}
			out = append(out, geom.Rect{
				Min: geom.Point{X: c.box.Min.X + float64(from)*c.each, Y: low},
				Max: geom.Point{X: min(c.box.Min.X+float64(i)*c.each, c.box.Max.X), Y: high},
			})
		}
	}
	return out
}

// place returns the middle of a free block w × h, the nearest to a place, and takes it. Where there is none the block lies over
// the outlines at that place, moved to within their box.
func (c *clearing) place(near geom.Point, w, h float64) geom.Point {
	if c == nil || c.each == 0 {
		return near
	}
	nw, nh := int(math.Ceil(w/c.each))+1, int(math.Ceil(h/c.each))+1
	best, at := math.Inf(1), geom.Point{
		X: min(max(near.X, c.box.Min.X+w/2), max(c.box.Max.X-w/2, c.box.Mid().X)),
		Y: min(max(near.Y, c.box.Min.Y+h/2+keepOff), c.box.Max.Y-h/2-keepOff),
	}
	k := c.w + 1
	for j := 0; j+nh <= c.h; j++ {
		for i := 0; i+nw <= c.w; i++ {
			if c.sums[(j+nh)*k+i+nw]-c.sums[j*k+i+nw]-c.sums[(j+nh)*k+i]+c.sums[j*k+i] != 0 {
				continue
			}
			mid := c.box.Min.Add(geom.Point{X: (float64(i) + float64(nw)/2) * c.each, Y: (float64(j) + float64(nh)/2) * c.each})
			if d := mid.Dist(near); d < best-geom.Tolerance {
				best, at = d, mid
			}
		}
	}
	half := geom.Point{X: w / 2, Y: h / 2}
	c.take(geom.Rect{Min: at.Sub(half), Max: at.Add(half)})
	c.sum()
	return at
}
