package setout

import (
	"container/heap"
	"math"

	"markout/layout/geom"
)

// Precision of the search for a shift.
const (
	fitExact    = 0.05 // millimetres by which a margin may be missed where something stands in the room
	fitCells    = 3000 // squares of shifts looked at for one turn
	fitShortest = 1.0  // millimetres by which a shift past obstacles may be longer than the shortest
)

// fitter looks for places of a set in a room. A place is a turn about the pivot, the middle of the set, and then a shift.
type fitter struct {
	room  *fitRoom
	tree  *fitTree
	spots []fitSpot
	pivot geom.Point
	long  float64 // farthest that anything of the set is from the pivot
	cut   bool    // a search ended before it was through
	limit fitLimit
}

// pose is the movement: turned about the pivot, then shifted by t.
func (f *fitter) pose(turn float64, t geom.Point) geom.Isometry {
	m := geom.Move(geom.Point{}, turn)
	m.T = f.pivot.Sub(m.Vector(f.pivot)).Add(t)
	return m
}

// still is the shift that with a turn about the pivot makes a turn about the set's own 0,0.
func (f *fitter) still(turn float64) geom.Point {
	return geom.Move(geom.Point{}, turn).Vector(f.pivot).Sub(f.pivot)
}

// between returns the shifts, a convex polygon, at which the turned set stays within the hull's walls by margin: a wall with the
// unit normal u at the distance d leaves those with u·t ≤ d − margin − h(u), where h is how far the set reaches in that direction.
func (f *fitter) between(turn, margin float64) []geom.Point {
	const far = 1e8
	poly := []geom.Point{{X: -far, Y: -far}, {X: far, Y: -far}, {X: far, Y: far}, {X: -far, Y: far}}
	limits := f.limits(turn)
	for i, w := range f.room.planes {
		poly = halfOf(poly, w.out, limits[i]-margin)
		if len(poly) == 0 {
			return nil
		}
	}
	return poly
}

// fitLimit is how far the set turned by turn may be shifted towards each wall.
type fitLimit struct {
	turn float64
	by   []float64
}

// limits returns d − h(u) of each wall, which is the same for all margins of a turn.
func (f *fitter) limits(turn float64) []float64 {
	if f.limit.by != nil && f.limit.turn == turn {
		return f.limit.by
	}
	back := geom.Move(geom.Point{}, -turn)
	f.limit = fitLimit{turn, make([]float64, len(f.room.planes))}
	for i, w := range f.room.planes {
		u := back.Vector(w.out)
		f.limit.by[i] = w.d - (reach(f.spots, u) - u.Dot(f.pivot) + w.out.Dot(f.pivot))
	}
	return f.limit.by
}

// halfOf returns the part of a convex polygon where u·p ≤ d, within Tolerance.
func halfOf(poly []geom.Point, u geom.Point, d float64) []geom.Point {
	out := poly[:0:0]
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		da, db := u.Dot(a)-d, u.Dot(b)-d
		if da <= geom.Tolerance {
			out = append(out, a)
		}
		if (da <= geom.Tolerance) != (db <= geom.Tolerance) {
			out = append(out, a.Lerp(b, min(max(da/(da-db), 0), 1)))
		}
	}
	return out
}

// nearestIn returns the place of a convex polygon that is nearest to p.
func nearestIn(poly []geom.Point, p geom.Point) geom.Point {
	best, least, inside := p, math.Inf(1), len(poly) > 2
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if b.Sub(a).Cross(p.Sub(a)) < 0 {
			inside = false
		}
		if q := nearestOn(a, b, p); q.Dist(p) < least {
			best, least = q, q.Dist(p)
		}
	}
	if inside {
		return p
	}
	return best
}

// fitCell is a square of shifts.
type fitCell struct {
	mid  geom.Point
	half float64
	rank float64
}

// quarters are the middles of a square's four, from its middle.
var quarters = [4]geom.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}}

// fitHeap has the cell of least rank first.
type fitHeap []fitCell

func (h fitHeap) Len() int           { return len(h) }
func (h fitHeap) Less(i, j int) bool { return h[i].rank < h[j].rank }
func (h fitHeap) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *fitHeap) Push(x any)        { *h = append(*h, x.(fitCell)) }
func (h *fitHeap) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// shift returns the shift, of those that keep margin at a turn, that moves the set's own 0,0 least; ok is false where there is none.
// Without obstacles it is exact. With them squares of shifts are halved, those nearest first: how far the set stays clear changes by
// no more than the set moves, so that a square is out as a whole where its middle is short by more than its corners are away. With
// any the first shift is taken that keeps the margin within loose.
func (f *fitter) shift(turn, margin float64, anyOne bool, loose float64) (t geom.Point, ok bool) {
	poly := f.between(turn, margin)
	if len(poly) == 0 {
		return t, false
	}
	still := f.still(turn)
	t = nearestIn(poly, still)
	if len(f.room.obstacles) == 0 {
		return t, true
	}
	if f.clear(turn, t, margin, margin) >= margin-geom.Tolerance {
		return t, true
	}
	return f.search(turn, margin, poly, still, anyOne, max(loose, fitExact))
}

// clear is how far the set stays clear at a place; see fitTree.clear.
func (f *fitter) clear(turn float64, t geom.Point, most, enough float64) float64 {
	return f.tree.clear(f.room, f.pose(turn, t), most, enough)
}

func (f *fitter) search(turn, margin float64, poly []geom.Point, still geom.Point, anyOne bool, loose float64) (t geom.Point, ok bool) {
	box := geom.EmptyRect()
	for _, p := range poly {
		box = box.Include(p)
	}
	rank := func(mid geom.Point, half float64) float64 {
		return math.Hypot(max(math.Abs(mid.X-still.X)-half, 0), max(math.Abs(mid.Y-still.Y)-half, 0))
	}
	half := max(box.W(), box.H())/2 + geom.Tolerance
	cells := &fitHeap{{box.Mid(), half, rank(box.Mid(), half)}}
	least := math.Inf(1)
	for n := 0; cells.Len() > 0; n++ {
		c := heap.Pop(cells).(fitCell)
		if c.rank >= least-fitShortest {
			break
		}
		if n == fitCells {
			f.cut = true
			break
		}
		r := c.half * math.Sqrt2
		d := f.clear(turn, c.mid, margin, margin-r)
		if d < margin-r {
			continue
		}
		if d >= margin-geom.Tolerance || r <= loose {
			if at := c.mid.Dist(still); at < least {
				t, ok, least = c.mid, true, at
			}
			if anyOne {
				return t, true
			}
			if r <= loose {
				continue
			}
		}
		h := c.half / 2
		for _, v := range quarters {
			mid := c.mid.Add(v.Mul(h))
			heap.Push(cells, fitCell{mid, h, rank(mid, h)})
		}
	}
	return t, ok
}
