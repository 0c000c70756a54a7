package setout

import (
	"container/heap"
	"math"

	"markout/layout/geom"
)

// most returns the greatest margin that the set can keep at a turn, less than 0 by the least worst overhang, to within step; what is not
// more than atLeast is given as atLeast.
func (f *fitter) most(turn, atLeast, step float64) float64 {
	low, high := atLeast, atLeast
	for by := max(f.long, 1); len(f.between(turn, high)) > 0; by *= 2 {
		low, high = high, high+by
	}
	for high-low > step {
		if mid := (low + high) / 2; len(f.between(turn, mid)) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	if len(f.room.obstacles) == 0 || low == atLeast {
		return low
	}
	return f.mostPast(turn, atLeast, high, step)
}

// mostPast is `most` past obstacles, where walls alone leave less than high: squares of shifts are halved, those first that may keep the most.
func (f *fitter) mostPast(turn, atLeast, high, step float64) float64 {
	box := geom.EmptyRect()
	for _, p := range f.between(turn, atLeast) {
		box = box.Include(p)
	}
	if box.Empty() {
		return atLeast
	}
	best := atLeast
	cells := &fitHeap{{box.Mid(), max(box.W(), box.H())/2 + geom.Tolerance, -high}}
	for n := 0; cells.Len() > 0; n++ {
		c := heap.Pop(cells).(fitCell)
		if -c.rank <= best+step {
			break
		}
		if n == fitCells {
			f.cut = true
			break
		}
		r := c.half * math.Sqrt2
		d := f.clear(turn, c.mid, high, best+step-r)
		best = max(best, d)
		if d+r <= best+step {
			continue
		}
		h := c.half / 2
		for _, v := range quarters {
			heap.Push(cells, fitCell{c.mid.Add(v.Mul(h)), h, -min(d+r, high)})
		}
	}
	return best
}
