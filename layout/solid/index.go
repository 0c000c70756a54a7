package solid

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// index finds the boxes that overlap a given one: a packed tree of boxes, filled once, in which neighbours on the
// plan are neighbours in the tree, so that a set of many pieces is looked through in proportion to its size.
type index struct {
	boxes []geom.Rect // leaves in packed order, then each level above, the root last
	items []int32     // the number of each leaf as it was given
	ends  []int       // where each level ends in boxes
}

const fan = 8

// newIndex packs boxes: strips across the plan, each strip sorted up the plan.
func newIndex(boxes []geom.Rect) *index {
	n := len(boxes)
	ix := &index{items: make([]int32, n)}
	if n == 0 {
		return ix
	}
	for i := range ix.items {
		ix.items[i] = int32(i)
	}
	x := func(i int32) float64 { return boxes[i].Min.X + boxes[i].Max.X }
	y := func(i int32) float64 { return boxes[i].Min.Y + boxes[i].Max.Y }
	slices.SortFunc(ix.items, func(a, b int32) int { return cmp.Or(cmp.Compare(x(a), x(b)), cmp.Compare(a, b)) })
	strip := fan * int(math.Ceil(math.Sqrt(float64(n)/fan)))
	for i := 0; i < n; i += strip {
		slices.SortFunc(ix.items[i:min(i+strip, n)], func(a, b int32) int {
			return cmp.Or(cmp.Compare(y(a), y(b)), cmp.Compare(a, b))
		})
	}
	for _, i := range ix.items {
		ix.boxes = append(ix.boxes, boxes[i])
	}
	ix.ends = []int{n}
	for from, to := 0, n; to-from > 1; {
		for i := from; i < to; i += fan {
			r := geom.EmptyRect()
			for _, b := range ix.boxes[i:min(i+fan, to)] {
				r = r.Union(b)
			}
			ix.boxes = append(ix.boxes, r)
		}
		from, to = to, len(ix.boxes)
		ix.ends = append(ix.ends, to)
	}
	return ix
}

// find appends to out the numbers of the boxes that overlap r, in rising order.
func (ix *index) Find(r geom.Rect, out []int32) []int32 {
	if len(ix.items) == 0 {
		return out
	}
	start := len(out)
	out = ix.descend(len(ix.ends)-1, len(ix.boxes)-1, r, out)
	slices.Sort(out[start:])
	return out
}

// descend looks at one box of a level, counted from the leaves; ends[level−1] is where the level starts.
func (ix *index) descend(level, node int, r geom.Rect, out []int32) []int32 {
	if !ix.boxes[node].Overlaps(r) {
		return out
	}
	if level == 0 {
		return append(out, ix.items[node])
	}
	below, start := 0, ix.ends[level-1]
	if level > 1 {
		below = ix.ends[level-2]
	}
	first := below + (node-start)*fan
	for i := first; i < min(first+fan, start); i++ {
		out = ix.descend(level-1, i, r, out)
	}
	return out
}
