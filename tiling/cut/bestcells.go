package cut

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
)

// The best filling of one board with edge-to-edge cuts and pieces of limited number is found by building up
// (Wang 1983) best first (Viswanathan and Bagchi 1993): two blocks side by side or one above the other make a
// block, and the block that could come to most with what still fits around it is built on next. Once none
// could come to more than what has been built, that is the best. Of blocks with the same pieces only those
// are kept than which none is smaller both ways (Cung, Hifi and Le Cun 2000).

// block is a built rectangle.
type block struct {
	size   rectangle
	counts []uint16
	worth  float64
	bound  float64 // no filling that grows out of it is worth more
	way    int     // of a single piece, -1 of a built block
	dir    Direction
	a, b   int32
}

// mostBlocks is how many blocks one filling may build before it is given out unproved.
const mostBlocks = 40_000

type cells struct {
	*bestBoard
	board  rectangle
	ways   []way
	most   []int
	values *values
	dense  []int // items by worth per area, the greatest first
	per    []float64
	blocks []block
	open   []int32
	done   []int32
	same   map[string][]int32
	best   float64
}

func (c *cells) Len() int { return len(c.open) }
func (c *cells) Less(i, j int) bool {
	a, b := &c.blocks[c.open[i]], &c.blocks[c.open[j]]
	if a.bound != b.bound {
		return a.bound > b.bound
	}
	if a.worth != b.worth {
		return a.worth > b.worth
	}
	return c.open[i] < c.open[j]
}
func (c *cells) Swap(i, j int) { c.open[i], c.open[j] = c.open[j], c.open[i] }
func (c *cells) Push(x any)    { c.open = append(c.open, x.(int32)) }
func (c *cells) Pop() any {
	n := len(c.open) - 1
	x := c.open[n]
	c.open = c.open[:n]
	return x
}

// exact looks for a filling worth more than l, which is kept where there is none. upper is what no filling
// that is not barred is worth more than, but for l.
func (f *bestBoard) exact(board rectangle, worth []float64, most []int, l laid, barred func([]int) bool) (laid, float64) {
	c := &cells{bestBoard: f, board: board, most: make([]int, len(most)), best: l.worth}
	countable := true
	for i, t := range f.items {
		if most[i] == 0 || worth[i] <= 1e-12 {
			continue
		}
		c.most[i] = int(min(float64(most[i]), board.area()/t.area()))
		countable = countable && c.most[i] < math.MaxUint16/2
		for _, w := range t.ways() {
			if board.holds(w) {
				c.ways = append(c.ways, way{w, i, worth[i]})
			}
		}
	}
	c.byDensity(worth)
	upper := c.poured(board.area(), nil)
	slack := 1e-12 * (1 + math.Abs(l.worth))
	if f.free || upper <= c.best+slack || len(c.ways) == 0 {
		return l, max(l.worth, upper)
	}
	c.values = newValues(board, c.ways, c.most, f.work)
	if c.values != nil {
		upper = min(upper, c.values.whole())
		if upper <= c.best+slack {
			return l, max(l.worth, upper)
		}
		if c.values.exact() {
			root := waste(0, 0, board)
			c.values.layout(root, len(c.values.x.places)-1, len(c.values.y.places)-1, f.items)
			counts := make([]int, len(f.items))
			if root.count(counts); fits(counts, most) && (barred == nil || !barred(counts)) {
				return laid{root, counts, c.values.whole()}, upper
			}
		}
		c.values.around(f.work)
	}
	if !countable {
		return l, max(l.worth, upper)
	}
	found, bound := c.search(barred)
	if found >= 0 {
		root := waste(0, 0, board)
		c.lay(root, found)
		counts := make([]int, len(f.items))
		root.count(counts)
		l = laid{root, counts, c.best}
	}
	return l, max(l.worth, min(upper, bound))
}

func (c *cells) byDensity(worth []float64) {
	c.per = make([]float64, len(c.items))
	for _, w := range c.ways {
		if c.per[w.item] == 0 {
			c.dense = append(c.dense, w.item)
			c.per[w.item] = worth[w.item] / w.area()
		}
	}
	slices.SortStableFunc(c.dense, func(a, b int) int { return cmp.Compare(c.per[b], c.per[a]) })
}

// poured is what an area is worth at most if pieces could be poured into it, as many of each as are left
// beside counts.
func (c *cells) poured(area float64, counts []uint16) float64 {
	sum := 0.0
	for _, i := range c.dense {
		n := c.most[i]
		if counts != nil {
			n -= int(counts[i])
		}
		takes := float64(n) * c.items[i].area()
		if takes >= area {
			return sum + area*c.per[i]
		}
		sum += takes * c.per[i]
		area -= takes
	}
	return sum
}

func (c *cells) bound(size rectangle, counts []uint16, worth float64) float64 {
	more := c.poured(c.board.area()-size.area(), counts)
	if c.values != nil {
		v := c.values
		more = min(more, v.beside[v.x.at(size.l)*len(v.y.places)+v.y.at(size.w)])
	}
	return worth + more
}

// offer opens a block if it could come to more than the best and no block of the same pieces is as small.
func (c *cells) offer(b block) {
	b.bound = c.bound(b.size, b.counts, b.worth)
	*c.work += int64(80 + 2*len(c.dense))
	if b.bound <= c.best+1e-12*(1+c.best) {
		return
	}
	k := countsKey(b.counts)
	for _, o := range c.same[k] {
		if b.size.holds(c.blocks[o].size) {
			return
		}
	}
	*c.work += 300
	b.counts = slices.Clone(b.counts)
	n := int32(len(c.blocks))
	c.blocks = append(c.blocks, b)
	c.same[k] = append(c.same[k], n)
	heap.Push(c, n)
}

func countsKey(counts []uint16) string {
	k := make([]byte, 0, 2*len(counts))
	for _, n := range counts {
		k = append(k, byte(n), byte(n>>8))
	}
	return string(k)
}

// search gives the block that is worth the most and more than best, -1 where there is none, and a bound on
// what any filling that is not barred is worth.
func (c *cells) search(barred func([]int) bool) (found int32, bound float64) {
	c.same = map[string][]int32{}
	found = -1
	counts := make([]uint16, len(c.items))
	for k, w := range c.ways {
		counts[w.item] = 1
		c.offer(block{size: w.rectangle, counts: counts, worth: w.worth, way: k})
		counts[w.item] = 0
	}
	whole := make([]int, len(c.items))
	for len(c.open) > 0 {
		n := heap.Pop(c).(int32)
		b := c.blocks[n]
		if b.bound <= c.best+1e-12*(1+c.best) {
			return found, c.best
		}
		if len(c.blocks) > mostBlocks {
			return found, max(c.best, b.bound)
		}
		if b.worth > c.best {
			for i, k := range b.counts {
				whole[i] = int(k)
			}
			if barred == nil || !barred(whole) {
				c.best, found = b.worth, n
			}
		}
		c.done = append(c.done, n)
		for _, d := range c.done {
			o := &c.blocks[d]
			size := rectangle{b.size.l + o.size.l, b.size.w + o.size.w}
			*c.work += int64(6 + len(counts)/2)
			if size.l > c.board.l && size.w > c.board.w || !c.join(counts, b.counts, o.counts) {
				continue
			}
			if size.l <= c.board.l {
				c.offer(block{size: rectangle{size.l, max(b.size.w, o.size.w)}, counts: counts, worth: b.worth + o.worth, way: -1, dir: Across, a: n, b: d})
			}
			if size.w <= c.board.w {
				c.offer(block{size: rectangle{max(b.size.l, c.blocks[d].size.l), size.w}, counts: counts, worth: b.worth + c.blocks[d].worth, way: -1, dir: Along, a: n, b: d})
			}
		}
		clear(counts)
	}
	return found, c.best
}

// join adds two blocks' counts; false where that is more than there may be.
func (c *cells) join(sum, a, b []uint16) bool {
	for i := range sum {
		if sum[i] = a[i] + b[i]; int(sum[i]) > c.most[i] {
			return false
		}
	}
	return true
}

// lay cuts a cell into block n.
func (c *cells) lay(at *cell, n int32) {
	b := &c.blocks[n]
	if b.way >= 0 {
		w := c.ways[b.way]
		at.set(c.items[w.item], w.item, w.rectangle, Across, nil)
		return
	}
	size := c.blocks[b.a].size
	to := size.l
	if b.dir == Along {
		to = size.w
	}
	near := at.part(b.dir, to)
	c.lay(near, b.a)
	c.lay(at.far, b.b)
}
