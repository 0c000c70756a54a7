package setout

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// fitTree holds pieces so that those near a wall are found quickly, however they are turned: circles within circles.
type fitTree struct {
	pieces []fitPiece
	nodes  []fitNode
	seen   int // pieces and nodes looked at, a measure of the work done
}

// fitNode is a circle that holds pieces from to to, and two nodes below it unless it is a leaf.
type fitNode struct {
	centre   geom.Point
	radius   float64
	from, to int
	below    int
}

func newFitTree(pieces []fitPiece) *fitTree {
	t := &fitTree{pieces: slices.Clone(pieces)}
	if len(pieces) > 0 {
		t.nodes = []fitNode{{to: len(pieces)}}
		t.grow(0)
	}
	return t
}

func (t *fitTree) grow(k int) {
	n := t.nodes[k]
	list := t.pieces[n.from:n.to]
	box := geom.EmptyRect()
	for _, p := range list {
		box = box.Union(geom.Rect{Min: p.centre, Max: p.centre}.Grow(p.radius))
	}
	n.centre = box.Mid()
	for _, p := range list {
		n.radius = max(n.radius, n.centre.Dist(p.centre)+p.radius)
	}
	if len(list) > leafBodies {
		slices.SortStableFunc(list, func(a, b fitPiece) int {
			if box.W() > box.H() {
				return cmp.Compare(a.centre.X, b.centre.X)
			}
			return cmp.Compare(a.centre.Y, b.centre.Y)
		})
		mid := (n.from + n.to) / 2
		n.below = len(t.nodes)
		t.nodes = append(t.nodes, fitNode{from: n.from, to: mid}, fitNode{from: mid, to: n.to})
	}
	t.nodes[k] = n
	if n.below > 0 {
		t.grow(n.below)
		t.grow(n.below + 1)
	}
}

// clear returns how far the pieces, moved by m, stay from walls and obstacles; less than 0 where they lie outside. What is not less
// than most is given as most, and the search ends at the first place found that is less than enough.
func (t *fitTree) clear(r *fitRoom, m geom.Isometry, most, enough float64) float64 {
	if len(t.nodes) == 0 {
		return most
	}
	type seen struct {
		k     int
		bound float64
	}
	bound := func(k int) seen { return seen{k, r.free(m.Apply(t.nodes[k].centre)) - t.nodes[k].radius} }
	least := most
	stack := make([]seen, 1, 48)
	stack[0] = bound(0)
	back := m.Inverse()
	for len(stack) > 0 && least >= enough {
		s := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if s.bound >= least {
			continue
		}
		n := &t.nodes[s.k]
		if n.below > 0 {
			a, b := bound(n.below), bound(n.below+1)
			if a.bound < b.bound {
				a, b = b, a
			}
			stack = append(stack, a, b)
			t.seen += 2
			continue
		}
		for i := n.from; i < n.to; i++ {
			least = t.pieces[i].clear(r, m, back, least)
		}
		t.seen += n.to - n.from
	}
	return least
}

// clear is that of one piece; back undoes m. Within walls that make a convex room the least is at a corner.
func (p *fitPiece) clear(r *fitRoom, m, back geom.Isometry, least float64) float64 {
	c := m.Apply(p.centre)
	if r.free(c)-p.radius >= least {
		return least
	}
	if p.rings == nil {
		least = min(least, r.walls(c)-p.radius)
		for i := range r.obstacles {
			o := &r.obstacles[i]
			least = min(least, max(o.away(c)-p.radius, o.away(o.centre)))
		}
		return least
	}
	for i := range r.obstacles {
		o := &r.obstacles[i]
		if holds(p.rings, back.Apply(o.centre)) {
			least = min(least, o.away(o.centre))
		}
	}
	for _, ring := range p.rings {
		a := m.Apply(ring[len(ring)-1])
		for _, q := range ring {
			b := m.Apply(q)
			least = min(least, r.walls(b))
			for i := range r.obstacles {
				least = r.obstacles[i].beside(a, b, least)
			}
			a = b
		}
	}
	return least
}

// over returns how far the piece, moved by m, reaches outside the room's outline or into a pillar; 0 where it does not.
func (p *fitPiece) over(r *fitRoom, m geom.Isometry) float64 {
	back := m.Inverse()
	out := max(-p.clear(r, m, back, 0), 0)
	if out <= 0 {
		return 0
	}
	if p.rings == nil {
		return max(out, p.radius-r.within(m.Apply(p.centre)))
	}
	for _, ring := range p.rings {
		a := m.Apply(ring[len(ring)-1])
		for _, q := range ring {
			b := m.Apply(q)
			out = max(out, r.over(b))
			if r.hollow {
				out = max(out, r.overAlong(a, b))
			}
			a = b
		}
	}
	return out
}

// overAlong is the greatest `over` between two places, looked for in steps of at most a hundredth of the way and then about the
// best of them.
func (r *fitRoom) overAlong(a, b geom.Point) float64 {
	const steps = 100
	best, at := 0.0, 0
	for k := range steps + 1 {
		if d := r.over(a.Lerp(b, float64(k)/steps)); d > best {
			best, at = d, k
		}
	}
	if best == 0 {
		return 0
	}
	from, to := (float64(at)-1)/steps, (float64(at)+1)/steps
	for range 40 {
		s, t := from+(to-from)/3, to-(to-from)/3
		if r.over(a.Lerp(b, max(s, 0))) >= r.over(a.Lerp(b, min(t, 1))) {
			to = t
		} else {
			from = s
		}
	}
	return max(best, r.over(a.Lerp(b, min(max((from+to)/2, 0), 1))))
}

// hullCircle returns a circle that holds spots.
func hullCircle(spots []fitSpot) (centre geom.Point, radius float64) {
	box := geom.EmptyRect()
	for _, s := range spots {
		box = box.Union(geom.Rect{Min: s.centre, Max: s.centre}.Grow(s.radius))
	}
	centre = box.Mid()
	for _, s := range spots {
		radius = max(radius, centre.Dist(s.centre)+s.radius)
	}
	if math.IsInf(radius, 0) {
		return geom.Point{}, 0
	}
	return centre, radius
}
