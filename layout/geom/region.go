package geom

import (
	"math"
	"slices"
)

// Region is an area: one closed outer path and the holes in it, whose orientation does not matter.
// The boundary belongs to it, that of its holes too.
type Region struct {
	Outer *Path
	Holes []*Path
}

// Bounds returns the exact box of the area.
func (r Region) Bounds() Rect { return r.Outer.Bounds() }

// Area returns the area, its holes taken off, never negative.
func (r Region) Area() float64 {
	a := math.Abs(r.Outer.Area())
	for _, h := range r.Holes {
		a -= math.Abs(h.Area())
	}
	return max(a, 0)
}

// Transform returns the area's image under m.
func (r Region) Transform(m Isometry) Region {
	t := Region{Outer: r.Outer.Transform(m)}
	for _, h := range r.Holes {
		t.Holes = append(t.Holes, h.Transform(m))
	}
	return t
}

// Contains reports whether q lies in the area or on its boundary.
func (r Region) Contains(q Point) bool {
	n, on := r.Outer.winding(q)
	if on || n == 0 {
		return on
	}
	for _, h := range r.Holes {
		switch n, on := h.winding(q); {
		case on:
			return true
		case n != 0:
			return false
		}
	}
	return true
}

// paths yields the outer path and the holes.
func (r Region) paths() []*Path { return append([]*Path{r.Outer}, r.Holes...) }

// curved reports whether any boundary has a segment that is no line.
func (r Region) curved() bool {
	return slices.ContainsFunc(r.paths(), func(p *Path) bool { return !p.Straight() })
}
