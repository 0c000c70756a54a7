package grid

import (
	"math"
	"math/bits"

	"markout/layout/geom"
)

// room knows which parts of a page are taken: by what is drawn there, by what was placed before. It is a field of small
// squares over the live area, a bit each. Everything is taken generously, so that a box it calls free is free.
type room struct {
	min    geom.Point // lower left corner of the live area, on the page
	each   float64    // side of a square
	w, h   int        // squares
	stride int        // words a row
	rows   []uint64
	sums   []uint64 // scratch: rows joined
}

// Clearance is how far furniture keeps from a line, beyond half the line's width.
const clearance = 1.5

// reset clears the field for a live area.
func (f *room) reset(live geom.Rect) {
	f.min = live.Min
	f.each = max(2.5, max(live.W(), live.H())/400)
	f.w, f.h = int(live.W()/f.each), int(live.H()/f.each)
	f.stride = (f.w + 63) / 64
	n := f.stride * f.h
	if cap(f.rows) < n {
		f.rows = make([]uint64, n)
		f.sums = make([]uint64, n)
	}
	f.rows = f.rows[:n]
	clear(f.rows)
}

// takeLine takes a line and so much to every side of it.
func (f *room) takeLine(a, b geom.Point, beside float64) {
	if a.Y > b.Y {
		a, b = b, a
	}
	k := 1 / f.each
	ax, ay := (a.X-f.min.X)*k, (a.Y-f.min.Y)*k
	bx, by := (b.X-f.min.X)*k, (b.Y-f.min.Y)*k
	d := beside * k
	r0, r1 := max(int(math.Floor(ay-d)), 0), min(int(math.Floor(by+d)), f.h-1)
	if r0 > r1 {
		return
	}
	slope := 0.0
	if by > ay {
		slope = (bx - ax) / (by - ay)
	}
	lo, hi := min(ax, bx), max(ax, bx)
	for r := r0; r <= r1; r++ {
		x0, x1 := lo, hi
		if slope != 0 {
			// The part of the line at this row, and d above and below it.
			from := ax + (max(float64(r)-d, ay)-ay)*slope
			to := ax + (min(float64(r)+1+d, by)-ay)*slope
			x0, x1 = min(from, to), max(from, to)
		} else if by > ay {
			x0, x1 = ax, ax
		}
		f.takeRow(r, int(math.Floor(x0-d)), int(math.Floor(x1+d)))
	}
}

// takeRow takes squares c0 to c1 of a row.
func (f *room) takeRow(r, c0, c1 int) {
	c0, c1 = max(c0, 0), min(c1, f.w-1)
	if c0 > c1 {
		return
	}
	row := f.rows[r*f.stride : (r+1)*f.stride]
	w0, w1 := c0>>6, c1>>6
	if w0 == w1 {
		row[w0] |= ^uint64(0) >> (63 - (c1 - c0)) << (c0 & 63)
		return
	}
	row[w0] |= ^uint64(0) << (c0 & 63)
	for w := w0 + 1; w < w1; w++ {
		row[w] = ^uint64(0)
	}
	row[w1] |= ^uint64(0) >> (63 - c1&63)
}

// take takes a box.
func (f *room) take(b geom.Rect) {
	c0, r0, c1, r1 := f.squares(b)
	for r := max(r0, 0); r <= min(r1, f.h-1); r++ {
		f.takeRow(r, c0, c1)
	}
}

// takeAll takes the squares of another field of the same size.
func (f *room) takeAll(squares []uint64) {
	for i, b := range squares {
		f.rows[i] |= b
	}
}

// takeOutside takes what lies outside a box of the live area, and so near to its edges that it would touch them.
func (f *room) takeOutside(live, box geom.Rect) {
	in := box.Grow(-clearance)
	f.take(geom.Rect{Min: live.Min, Max: geom.Point{X: in.Min.X, Y: live.Max.Y}})
	f.take(geom.Rect{Min: geom.Point{X: in.Max.X, Y: live.Min.Y}, Max: live.Max})
	f.take(geom.Rect{Min: live.Min, Max: geom.Point{X: live.Max.X, Y: in.Min.Y}})
	f.take(geom.Rect{Min: geom.Point{X: live.Min.X, Y: in.Max.Y}, Max: live.Max})
}

// squares returns the first and last column and row that a box touches.
func (f *room) squares(b geom.Rect) (c0, r0, c1, r1 int) {
	const touch = 1e-6 // boxes that only touch a square do not take it
	return int(math.Floor((b.Min.X-f.min.X)/f.each + touch)), int(math.Floor((b.Min.Y-f.min.Y)/f.each + touch)),
		int(math.Ceil((b.Max.X-f.min.X)/f.each-touch)) - 1, int(math.Ceil((b.Max.Y-f.min.Y)/f.each-touch)) - 1
}

// free reports whether a box lies within the live area and nothing of it is taken.
func (f *room) free(b geom.Rect) bool {
	c0, r0, c1, r1 := f.squares(b)
	if c0 < 0 || r0 < 0 || c1 >= f.w || r1 >= f.h {
		return false
	}
	for r := r0; r <= r1; r++ {
		if f.taken(f.rows[r*f.stride:(r+1)*f.stride], c0, c1) {
			return false
		}
	}
	return true
}

func (f *room) taken(row []uint64, c0, c1 int) bool {
	w0, w1 := c0>>6, c1>>6
	if w0 == w1 {
		return row[w0]&(^uint64(0)>>(63-(c1-c0))<<(c0&63)) != 0
	}
	if row[w0]&(^uint64(0)<<(c0&63)) != 0 || row[w1]&(^uint64(0)>>(63-c1&63)) != 0 {
		return true
	}
	for w := w0 + 1; w < w1; w++ {
		if row[w] != 0 {
			return true
		}
	}
	return false
}

// find returns where a box of w × h is free: the lower left corner of the first such place, going down from the top and from
// left to right in each row. ok is false where there is none.
func (f *room) find(w, h float64) (geom.Point, bool) {
	cw, ch := int(math.Ceil(w/f.each-1e-6)), int(math.Ceil(h/f.each-1e-6))
	if !f.join(cw, ch) {
		return geom.Point{}, false
	}
	for r := f.h - ch; r >= 0; r-- {
		if c := f.gap(f.sums[r*f.stride:(r+1)*f.stride], cw); c >= 0 {
			return geom.Point{X: f.min.X + float64(c)*f.each, Y: f.min.Y + float64(r)*f.each}, true
		}
	}
	return geom.Point{}, false
}

// findLow is find going up from the bottom.
func (f *room) findLow(w, h float64) (geom.Point, bool) {
	cw, ch := int(math.Ceil(w/f.each-1e-6)), int(math.Ceil(h/f.each-1e-6))
	if !f.join(cw, ch) {
		return geom.Point{}, false
	}
	for r := 0; r+ch <= f.h; r++ {
		if c := f.gap(f.sums[r*f.stride:(r+1)*f.stride], cw); c >= 0 {
			return geom.Point{X: f.min.X + float64(c)*f.each, Y: f.min.Y + float64(r)*f.each}, true
		}
	}
	return geom.Point{}, false
}

// join sums up, for each row from which so many rows go up, what is taken in any of them. It returns false where a box of so
// many squares cannot fit at all.
func (f *room) join(cw, ch int) bool {
	if cw > f.w || ch > f.h || cw < 1 || ch < 1 {
		return false
	}
	s := f.sums[:len(f.rows)]
	copy(s, f.rows)
	have := 1
	for have < ch {
		// Twice as many rows, or as many as are wanting.
		on := min(have, ch-have)
		up := s[on*f.stride:]
		for i, b := range up[:(f.h-have-on+1)*f.stride] {
			s[i] |= b
		}
		have += on
	}
	return true
}

// gap returns where n clear squares stand side by side in a row; −1 where they do not.
func (f *room) gap(row []uint64, n int) int {
	from := 0
	for from+n <= f.w {
		// The last taken square among the next n tells where to go on.
		at := f.lastTaken(row, from, from+n-1)
		if at < 0 {
			return from
		}
		from = at + 1
	}
	return -1
}

// lastTaken returns the last taken square from c0 to c1, −1 where none is.
func (f *room) lastTaken(row []uint64, c0, c1 int) int {
	for w := c1 >> 6; w >= c0>>6; w-- {
		b := row[w]
		if w == c1>>6 {
			b &= ^uint64(0) >> (63 - c1&63)
		}
		if w == c0>>6 {
			b &= ^uint64(0) << (c0 & 63)
		}
		if b != 0 {
			return w<<6 + 63 - bits.LeadingZeros64(b)
		}
	}
	return -1
}
