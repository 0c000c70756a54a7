package setout

import (
	"cmp"
	"math"

	"markout/layout/geom"
)

// directions and nearest bound the laid points that are looked at for one point: the nearest three in each of eight
// directions, the sectors of 45° about plan-right, upstage and so on.
const (
	directions = 8
	nearest    = 3
)

var sectorEdge = math.Tan(math.Pi / 8)

// sector returns the direction of d, 0 about plan-right and on anticlockwise.
func sector(d geom.Point) int {
	ax, ay := math.Abs(d.X), math.Abs(d.Y)
	switch {
	case ay <= sectorEdge*ax:
		if d.X >= 0 {
			return 0
		}
		return 4
	case ax <= sectorEdge*ay:
		if d.Y >= 0 {
			return 2
		}
		return 6
	case d.Y > 0:
		if d.X > 0 {
			return 1
		}
		return 3
	case d.X < 0:
		return 5
	}
	return 7
}

// sectorsOf returns, a bit a direction, where points of the box r may lie as seen from p.
func sectorsOf(r geom.Rect, p geom.Point) uint8 {
	x0, x1, y0, y1 := r.Min.X-p.X, r.Max.X-p.X, r.Min.Y-p.Y, r.Max.Y-p.Y
	if x0 <= 0 && x1 >= 0 && y0 <= 0 && y1 >= 0 {
		return 0xff
	}
	least := func(a, b float64) float64 { return max(a, -b, 0) } // least absolute value between a and b
	straight := func(out, side float64) bool { return out > 0 && side <= sectorEdge*out }
	slant := func(out, other, in, otherIn float64) bool {
		return out > 0 && other > 0 && other >= sectorEdge*max(in, 0) && out >= sectorEdge*max(otherIn, 0)
	}
	lx, ly := least(x0, x1), least(y0, y1)
	var m uint8
	for k, has := range [directions]bool{
		straight(x1, ly), slant(x1, y1, x0, y0), straight(y1, lx), slant(-x0, y1, -x1, y0),
		straight(-x0, ly), slant(-x0, -y0, -x1, -y1), straight(-y0, lx), slant(x1, -y0, x0, -y1),
	} {
		if has {
			m |= 1 << k
		}
	}
	return m
}

const (
	leafSize = 8
	maxDepth = 48 // halves 20 km, the widest set, down to less than the tolerance
)

// field keeps laid points so that the nearest ones in each direction are found quickly, however many there are and
// however far on one side of the place they lie: a quadtree whose nodes know the tight box of their points.
type field struct {
	starts []start
	nodes  []node
}

type node struct {
	cell  geom.Rect // the quarter of the floor it stands for
	box   geom.Rect // of the points in it
	kids  int32     // index of the first of four, 0 for a leaf
	depth int8
	items []int32 // of a leaf
}

func newField(bounds geom.Rect) *field {
	return &field{nodes: []node{{cell: bounds, box: geom.EmptyRect()}}}
}

// add keeps s; no other start may lie at the same place.
func (f *field) add(s start) {
	f.starts = append(f.starts, s)
	f.insert(0, int32(len(f.starts)-1))
}

func (f *field) insert(n, item int32) {
	at := f.starts[item].at
	for {
		nd := &f.nodes[n]
		nd.box = nd.box.Include(at)
		if nd.kids == 0 {
			break
		}
		n = nd.kids + quarter(nd.cell, at)
	}
	nd := &f.nodes[n]
	nd.items = append(nd.items, item)
	if len(nd.items) <= leafSize || nd.depth >= maxDepth {
		return
	}
	items, mid, c, depth := nd.items, nd.cell.Mid(), nd.cell, nd.depth+1
	nd.items, nd.kids = nil, int32(len(f.nodes))
	for _, cell := range [4]geom.Rect{
		{Min: c.Min, Max: mid}, {Min: geom.Point{X: mid.X, Y: c.Min.Y}, Max: geom.Point{X: c.Max.X, Y: mid.Y}},
		{Min: geom.Point{X: c.Min.X, Y: mid.Y}, Max: geom.Point{X: mid.X, Y: c.Max.Y}}, {Min: mid, Max: c.Max},
	} {
		f.nodes = append(f.nodes, node{cell: cell, box: geom.EmptyRect(), depth: depth})
	}
	for _, i := range items {
		f.insert(n, i)
	}
}

func quarter(cell geom.Rect, p geom.Point) int32 {
	mid, k := cell.Mid(), int32(0)
	if p.X >= mid.X {
		k++
	}
	if p.Y >= mid.Y {
		k += 2
	}
	return k
}

// found holds the nearest starts seen so far in each direction, nearest first.
type found struct {
	p      geom.Point
	within float64
	near   [directions][nearest]hit
	n      [directions]int
}

type hit struct {
	start int32
	dist  float64
}

// around looks for the nearest starts about p that lie no further than within.
func (f *field) around(p geom.Point, within float64) found {
	q := found{p: p, within: within}
	f.visit(0, &q)
	return q
}

func (f *field) visit(n int32, q *found) {
	nd := &f.nodes[n]
	if nd.box.Empty() || !q.wants(nd.box) {
		return
	}
	if nd.kids == 0 {
		for _, i := range nd.items {
			q.offer(f, i)
		}
		return
	}
	first := quarter(nd.cell, q.p)
	for _, k := range [4]int32{first, first ^ 1, first ^ 2, first ^ 3} {
		f.visit(nd.kids+k, q)
	}
}

// wants reports whether a point in the box could be among the nearest.
func (q *found) wants(box geom.Rect) bool {
	d := math.Hypot(max(box.Min.X-q.p.X, q.p.X-box.Max.X, 0), max(box.Min.Y-q.p.Y, q.p.Y-box.Max.Y, 0))
	if d > q.within {
		return false
	}
	m := sectorsOf(box, q.p)
	for k := range directions {
		if m&(1<<k) != 0 && (q.n[k] < nearest || d <= q.near[k][nearest-1].dist+geom.Tolerance) {
			return true
		}
	}
	return false
}

func (q *found) offer(f *field, i int32) {
	s := &f.starts[i]
	d := s.at.Sub(q.p)
	h := hit{i, d.Len()}
	if h.dist > q.within || h.dist <= geom.Tolerance {
		return
	}
	k := sector(d)
	list := &q.near[k]
	at := q.n[k]
	for at > 0 && f.before(h, list[at-1]) {
		at--
	}
	if at == nearest {
		return
	}
	copy(list[at+1:], list[at:])
	list[at] = h
	q.n[k] = min(q.n[k]+1, nearest)
}

// before orders by distance, equal ones (within the tolerance) by name.
func (f *field) before(a, b hit) bool {
	return cmp.Or(cmp.Compare(steps(a.dist), steps(b.dist)), cmp.Compare(f.starts[a.start].name, f.starts[b.start].name)) < 0
}

// steps counts x in tolerances, so that figures that differ only by rounding compare as equal.
func steps(x float64) float64 { return math.Round(x / geom.Tolerance) }
