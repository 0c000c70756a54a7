package setout

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// grow boxes a branch's bodies and halves them across its longer side until few are left.
func (sc *scene) grow(n int32) {
	t := sc.tree[n]
	t.box = geom.EmptyRect()
	own := sc.order[t.from:t.to]
	for _, i := range own {
		t.box = t.box.Union(sc.bodies[i].box)
	}
	if len(own) > leafBodies {
		wide := t.box.W() >= t.box.H()
		middle := func(i int32) float64 {
			if m := sc.bodies[i].box.Mid(); wide {
				return m.X
			} else {
				return m.Y
			}
		}
		slices.SortFunc(own, func(a, b int32) int { return cmp.Or(cmp.Compare(middle(a), middle(b)), cmp.Compare(a, b)) })
		t.below = int32(len(sc.tree))
		mid := t.from + int32(len(own))/2
		sc.tree = append(sc.tree, branch{from: t.from, to: mid}, branch{from: mid, to: t.to})
	}
	sc.tree[n] = t
	if t.below > 0 {
		sc.grow(t.below)
		sc.grow(t.below + 1)
	}
}

// between is the clear distance between two bodies.
type between struct {
	from, to int32 // bodies; to is −1 while none is found
	clear    float64
	a, b     geom.Point
}

func nothing() between { return between{to: -1, clear: math.Inf(1)} }

// nearest looks for the body nearest to body i of those that may count, nearer than what is found already, and reports it in
// found. Of equals (within the tolerance) the first of the file stays.
func (sc *scene) nearest(i int32, may func(a, b *body) bool, least float64, found *between) {
	if len(sc.tree) > 0 {
		sc.look(0, i, may, least, found)
	}
}

func (sc *scene) look(n, i int32, may func(a, b *body) bool, least float64, found *between) {
	a, t := &sc.bodies[i], &sc.tree[n]
	if gap(a.box, t.box) > found.clear+geom.Tolerance {
		return
	}
	if t.below > 0 {
		first, second := t.below, t.below+1
		if gap(a.box, sc.tree[second].box) < gap(a.box, sc.tree[first].box) {
			first, second = second, first
		}
		sc.look(first, i, may, least, found)
		sc.look(second, i, may, least, found)
		return
	}
	for _, j := range sc.order[t.from:t.to] {
		b := &sc.bodies[j]
		if j == i || gap(a.box, b.box) > found.clear+geom.Tolerance || !sc.together(a, b) || !may(a, b) {
			continue
		}
		d, pa, pb := clear(a, b, found.clear+geom.Tolerance)
		if d < least {
			continue
		}
		if k := cmp.Compare(steps(d), steps(found.clear)); found.to < 0 && !math.IsInf(d, 1) || k < 0 || k == 0 && i == found.from && j < found.to {
			*found = between{i, j, d, pa, pb}
		}
	}
}
