package cut

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// bestBoard fills a board with the rectangles that are worth the most: quickly by laying them one after the
// other in several orders, exactly by the search of bestcells.go.
type bestBoard struct {
	items  []item
	boards []rectangle // by kind
	free   bool
	work   *int64
}

func (f *bestBoard) countIn(work *int64) { f.work = work }

// laid is a layout and what it holds.
type laid struct {
	root   *cell
	counts []int
	worth  float64
}

// style is a rule of laying pieces: which first, into which rest, and how the rest is parted.
type style struct {
	first  func(f *bestBoard, worth []float64, a, b int) int
	narrow bool // the rest with the least room to spare on one side, not the one of least area
	parted int  // what is left beside a piece: 0 the larger rest whole, 1 always first across, 2 always first along
}

func byWorth(f *bestBoard, worth []float64, a, b int) int {
	return cmp.Compare(worth[b]*f.items[a].area(), worth[a]*f.items[b].area())
}

func byArea(f *bestBoard, _ []float64, a, b int) int {
	return cmp.Compare(f.items[b].area(), f.items[a].area())
}

func bySide(f *bestBoard, _ []float64, a, b int) int {
	x, y := f.items[a], f.items[b]
	return cmp.Or(cmp.Compare(max(y.l, y.w), max(x.l, x.w)), cmp.Compare(min(y.l, y.w), min(x.l, x.w)))
}

func byWidth(f *bestBoard, _ []float64, a, b int) int {
	x, y := f.items[a], f.items[b]
	return cmp.Or(cmp.Compare(y.w, x.w), cmp.Compare(y.l, x.l))
}

var styles = func() []style {
	var out []style
	for _, first := range []func(*bestBoard, []float64, int, int) int{byWorth, byArea, bySide, byWidth} {
		for parted := range 3 {
			out = append(out, style{first, parted > 0, parted})
		}
	}
	return out
}()

// quick lays pieces in every style, and more times with the orders stirred, and keeps what is worth most.
func (f *bestBoard) quick(board rectangle, worth []float64, most []int, stirred int) laid {
	order := make([]int, 0, len(f.items))
	for i := range f.items {
		if most[i] > 0 {
			order = append(order, i)
		}
	}
	var best laid
	try := func(order []int, s style) {
		lay := f.lay
		if f.free {
			lay = f.layFree
		}
		if l := lay(board, worth, most, order, s); best.root == nil || l.worth > best.worth+1e-12 {
			best = l
		}
	}
	for _, s := range styles {
		sorted := slices.Clone(order)
		slices.SortStableFunc(sorted, func(a, b int) int { return s.first(f, worth, a, b) })
		try(sorted, s)
	}
	rnd := rand.New(rand.NewPCG(uint64(len(order)), uint64(board.l)))
	for n := range stirred {
		s := styles[n%len(styles)]
		sorted := slices.Clone(order)
		slices.SortStableFunc(sorted, func(a, b int) int { return s.first(f, worth, a, b) })
		for k := range sorted {
			// Neighbours change places more often than distant ones.
			m := min(len(sorted)-1, k+int(rnd.ExpFloat64()*1.5))
			sorted[k], sorted[m] = sorted[m], sorted[k]
		}
		try(sorted, s)
	}
	return best
}

// lay puts pieces in order, each as often as it fits, into the rest that suits it best, with edge-to-edge
// cuts.
func (f *bestBoard) lay(board rectangle, worth []float64, most, order []int, s style) laid {
	out := laid{root: waste(0, 0, board), counts: make([]int, len(f.items))}
	rests := []*cell{out.root}
	for _, i := range order {
		t := f.items[i]
		for out.counts[i] < most[i] {
			at, way := -1, rectangle{}
			least := 0.0
			for r, c := range rests {
				for _, w := range t.ways() {
					if !c.size.holds(w) {
						continue
					}
					spare := c.size.area() - w.area()
					if s.narrow {
						spare = float64(min(c.size.l-w.l, c.size.w-w.w))
					}
					if at < 0 || spare < least {
						at, way, least = r, w, spare
					}
				}
			}
			*f.work += int64(100 + 20*len(rests))
			if at < 0 {
				break
			}
			c := rests[at]
			first := Across
			switch s.parted {
			case 0:
				// The larger of what would be left at the end and above stays whole.
				if (c.size.l-way.l)*c.size.w < (c.size.w-way.w)*c.size.l {
					first = Along
				}
			case 2:
				first = Along
			}
			rests = slices.Delete(rests, at, at+1)
			rests = c.set(t, i, way, first, rests)
			out.counts[i]++
			out.worth += worth[i]
		}
	}
	return out
}

// fill answers filler.
func (f *bestBoard) fill(kind int, worth []float64, most []int, floor float64, barred func([]int) bool, rough bool) filling {
	board := f.boards[kind]
	l := f.quick(board, worth, most, 0)
	good := l.worth > floor && (barred == nil || !barred(l.counts))
	if rough {
		if !good {
			return filling{upper: floor}
		}
		return filling{l.counts, l.worth, floor, l.root}
	}
	if !good {
		l = laid{worth: floor}
	}
	l, upper := f.exact(board, worth, most, l, barred)
	out := filling{upper: max(floor, upper)}
	if l.root != nil {
		out.counts, out.worth, out.layout = l.counts, l.worth, l.root
	}
	return out
}

// oneByOne fills boards one after the other with the most area: in the order in which stock is opened, or,
// where boards differ in cost, always the board of which the most is used for its cost, whichever costs less.
func oneByOne(o *order, f *bestBoard, open []int, demand []int, have []float64) ([]filled, bool) {
	worth := make([]float64, len(f.items))
	for i, t := range f.items {
		worth[i] = t.area() / f.boards[open[0]].area()
	}
	differ := slices.ContainsFunc(o.kinds, func(k kind) bool { return k.cost != o.kinds[0].cost })
	if !differ {
		return f.inTurn(o, open, worth, demand, have, 24, false)
	}
	a, ok := f.inTurn(o, open, worth, slices.Clone(demand), slices.Clone(have), 12, false)
	if b, can := f.inTurn(o, open, worth, demand, have, 12, true); can && (!ok || o.total(b) < o.total(a)) {
		return b, true
	}
	return a, ok
}

// inTurn fills one board after the other with what is worth most of what is still wanted: the first in the
// order of opening that holds anything, or the one that holds the most for its cost. Then it moves each board's
// pieces to the cheapest board that holds them.
func (f *bestBoard) inTurn(o *order, open []int, worth []float64, demand []int, have []float64, stirred int, forCost bool) ([]filled, bool) {
	left := 0
	for _, n := range demand {
		left += n
	}
	var out []filled
	for left > 0 {
		var best laid
		kind, most := -1, 0.0
		for _, k := range open {
			if !o.kinds[k].fits(have) {
				continue
			}
			l := f.quick(f.boards[k], worth, demand, stirred)
			if l.root == nil || slices.Max(l.counts) == 0 {
				continue
			}
			if per := l.worth / max(1, o.kinds[k].cost); kind < 0 || per > most {
				best, kind, most = l, k, per
			}
			if !forCost {
				break
			}
		}
		if kind < 0 {
			return nil, false
		}
		o.kinds[kind].take(have, 1)
		for i, n := range best.counts {
			demand[i] -= n
			left -= n
		}
		out = append(out, filled{kind, best.counts, best.root})
	}
	for i := len(out) - 1; i >= 0; i-- {
		b := &out[i]
		o.kinds[b.kind].take(have, -1)
		for k := range o.kinds {
			if o.kinds[k].cost >= o.kinds[b.kind].cost || !o.kinds[k].fits(have) {
				continue
			}
			if l := f.quick(f.boards[k], worth, b.counts, stirred); l.root != nil && slices.Equal(l.counts, b.counts) {
				b.kind, b.layout = k, l.root
			}
		}
		o.kinds[b.kind].take(have, 1)
	}
	return out, true
}
