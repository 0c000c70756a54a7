package geom

import "math"

// boxTree holds boxes over runs of neighbouring things of an outline, as a binary tree: node 1 is the root, 2k and
// 2k+1 are the children of k, thing i is node leaves+i. Things that follow one another along an outline
// lie near each other, so that their order is a good tree as it is.
type boxTree struct {
	boxes  []Rect
	leaves int
}

// newBoxTree returns the tree over n things, of which thing i lies in box(i).
func newBoxTree(n int, box func(i int) Rect) boxTree {
	t := boxTree{leaves: 1}
	for t.leaves < n {
		t.leaves *= 2
	}
	t.boxes = make([]Rect, 2*t.leaves)
	for i := range t.leaves {
		t.boxes[t.leaves+i] = EmptyRect()
		if i < n {
			t.boxes[t.leaves+i] = box(i)
		}
	}
	for k := t.leaves - 1; k >= 1; k-- {
		t.boxes[k] = t.boxes[2*k].Union(t.boxes[2*k+1])
	}
	return t
}

// after calls visit for the things with an index greater than i whose boxes meet r, in order, until it
// returns true; it reports whether it did.
func (t *boxTree) after(i int, r Rect, visit func(j int) bool) bool {
	var walk func(k, first, width int) bool
	walk = func(k, first, width int) bool {
		if first+width-1 <= i || !t.boxes[k].Overlaps(r) {
			return false
		}
		if width == 1 {
			return visit(first)
		}
		half := width / 2
		return walk(2*k, first, half) || walk(2*k+1, first+half, half)
	}
	return walk(1, 0, t.leaves)
}

// least returns the least of distance(i) over all things, each of which is at least as far from q as its box.
func (t *boxTree) least(q Point, distance func(i int) float64) float64 {
	at := Rect{q, q}
	best := math.Inf(1)
	var walk func(k int)
	walk = func(k int) {
		if boxDistance(t.boxes[k], at) >= best {
			return
		}
		if k >= t.leaves {
			best = min(best, distance(k-t.leaves))
			return
		}
		a, b := 2*k, 2*k+1
		if boxDistance(t.boxes[b], at) < boxDistance(t.boxes[a], at) {
			a, b = b, a
		}
		walk(a)
		walk(b)
	}
	walk(1)
	return best
}

// boxDistance returns the least distance between places of two boxes, infinite where one is empty.
func boxDistance(r, s Rect) float64 {
	if r.Empty() || s.Empty() {
		return math.Inf(1)
	}
	dx := max(0, s.Min.X-r.Max.X, r.Min.X-s.Max.X)
	dy := max(0, s.Min.Y-r.Max.Y, r.Min.Y-s.Max.Y)
	return math.Hypot(dx, dy)
}
