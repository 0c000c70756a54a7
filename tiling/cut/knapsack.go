package cut

import (
	"math"
	"slices"
	"sort"
)

// bestRod finds what is worth most on one rod of several sizes, a bounded knapsack, exactly: states of (used,
// worth) that no other beats on both are kept item by item, the densest first, and a state is let go once
// what is left of the rod at the next item's density cannot lift it above what is asked. Sizes need not
// be small whole numbers: states are counted, not units of length.
type bestRod struct {
	sizes []int64
	caps  []int64 // by kind

	levels  [][]state
	scratch [2][]state
	items   []int
	work    *int64
}

type state struct {
	used  int64
	worth float64
}

// mostStates is how many states a level may hold before it is thinned; the answer then is a good one and its
// upper bound that of the continuous knapsack.
const mostStates = 1 << 17

// countIn has the states made counted in work.
func (r *bestRod) countIn(work *int64) { r.work = work }

// fewStates is how many a level holds where a good filling will do.
const fewStates = 1 << 8

// fill answers filler: counts by item, or nil where nothing but what is barred is worth more than floor.
func (r *bestRod) fill(kind int, worth []float64, most []int, floor float64, barred func([]int) bool, rough bool) filling {
	limit := mostStates
	if rough {
		limit = fewStates
	}
	capacity := r.caps[kind]
	r.items = r.items[:0]
	for i, s := range r.sizes {
		if most[i] > 0 && worth[i] > 1e-12 && s <= capacity {
			r.items = append(r.items, i)
		}
	}
	density := func(i int) float64 { return worth[i] / float64(r.sizes[i]) }
	slices.SortStableFunc(r.items, func(a, b int) int {
		da, db := density(a), density(b)
		switch {
		case da > db:
			return -1
		case da < db:
			return 1
		}
		return int(min(1, max(-1, r.sizes[b]-r.sizes[a])))
	})
	slack := 1e-12 * (1 + math.Abs(floor))
	exact := true
	for len(r.levels) <= len(r.items) {
		r.levels = append(r.levels, nil)
	}
	r.levels[0] = append(r.levels[0][:0], state{})
	for k, i := range r.items {
		next := 0.0
		if k+1 < len(r.items) {
			next = density(r.items[k+1])
		}
		keep := func(s state) bool {
			return s.worth+float64(capacity-s.used)*next >= floor-slack
		}
		r.levels[k+1] = r.grow(r.levels[k+1], r.levels[k], i, worth[i], most[i], capacity, keep)
		if len(r.levels[k+1]) > limit {
			exact = false
			r.levels[k+1] = thin(r.levels[k+1], limit)
		}
	}
	out := filling{upper: floor}
	last := r.levels[len(r.items)]
	if len(last) > 0 {
		out.upper = max(floor, last[len(last)-1].worth)
	}
	if !exact {
		out.upper = max(out.upper, r.continuous(worth, most, capacity))
	}
	if len(last) == 0 || last[len(last)-1].worth <= floor {
		return out
	}
	top := last[len(last)-1].worth
	// First only what is worth the most; where all of that is barred, whatever is worth more than floor.
	for _, above := range []float64{top - 1e-11*(1+math.Abs(top)), floor} {
		t := trace{rod: r, worth: worth, most: most, best: max(above, floor), barred: barred, counts: make([]int, len(r.sizes))}
		t.walk(len(r.items)-1, capacity, 0)
		if t.found != nil {
			out.counts, out.worth = t.found, t.best
			break
		}
		if barred == nil {
			break
		}
	}
	if exact && barred != nil {
		out.upper = max(floor, out.worth)
	}
	if out.counts != nil {
		full := slices.Clone(out.counts)
		if r.complete(full, most, capacity); barred == nil || !barred(full) {
			out.counts = full
		}
	}
	return out
}

// grow returns the states of into's level: those of prev with 0 to most pieces of item i added.
func (r *bestRod) grow(into, prev []state, i int, worth float64, most int, capacity int64, keep func(state) bool) []state {
	size := r.sizes[i]
	n := int(min(int64(most), capacity/size))
	from := prev
	flip := 0
	// Any number up to n is a sum of parts of 1, 2, 4 … and a rest, so that each part doubles what is reached.
	for part := 1; n > 0; part *= 2 {
		p := min(part, n)
		n -= p
		r.scratch[flip] = merge(r.scratch[flip][:0], from, int64(p)*size, float64(p)*worth, capacity)
		from = r.scratch[flip]
		flip = 1 - flip
		*r.work += int64(10 * len(from))
		if len(from) > 4*mostStates {
			break // far too many: the level is thinned anyway
		}
	}
	into = into[:0]
	for _, s := range from {
		if keep(s) {
			into = append(into, s)
		}
	}
	return into
}

// thin keeps about half of limit states of a level, evenly, and the last.
func thin(level []state, limit int) []state {
	by := 2 * len(level) / limit
	out := level[:0]
	for i := 0; i < len(level)-1; i += by {
		out = append(out, level[i])
	}
	return append(out, level[len(level)-1])
}

// merge appends to out the states of a and those of a moved on by (size, worth), less those that are beaten.
// Both lists rise in used and in worth.
func merge(out, a []state, size int64, worth float64, capacity int64) []state {
	i, j := 0, 0
	best := math.Inf(-1)
	for i < len(a) || j < len(a) {
		var s state
		moved := j < len(a) && a[j].used+size <= capacity
		if !moved {
			j = len(a)
		}
		switch {
		case i < len(a) && (!moved || a[i].used <= a[j].used+size):
			s = a[i]
			i++
		case moved:
			s = state{a[j].used + size, a[j].worth + worth}
			j++
		default:
			return out
		}
		if s.worth <= best {
			continue
		}
		best = s.worth
		if n := len(out); n > 0 && out[n-1].used == s.used {
			out[n-1] = s
			continue
		}
		out = append(out, s)
	}
	return out
}

// within is the greatest worth of a level in a rest of the rod.
func within(level []state, rest int64) float64 {
	n := sort.Search(len(level), func(i int) bool { return level[i].used > rest })
	if n == 0 {
		return math.Inf(-1)
	}
	return level[n-1].worth
}

// trace walks back from the last level to the counts behind a state.
type trace struct {
	rod    *bestRod
	worth  []float64
	most   []int
	best   float64 // what a filling has to beat
	barred func([]int) bool
	counts []int
	found  []int
}

// walk gives item k and those before it what is left of the rod; each branch is entered only if what its
// level can still add beats the best so far, so that only barred fillings are visited in vain.
func (t *trace) walk(k int, rest int64, have float64) {
	if k < 0 {
		if have > t.best && (t.barred == nil || !t.barred(t.counts)) {
			t.best = have
			t.found = append(t.found[:0], t.counts...)
		}
		return
	}
	r := t.rod
	i := r.items[k]
	level := r.levels[k]
	for n := int(min(int64(t.most[i]), rest/r.sizes[i])); n >= 0; n-- {
		left := rest - int64(n)*r.sizes[i]
		more := have + float64(n)*t.worth[i]
		*r.work += 8
		if more+within(level, left) <= t.best {
			continue
		}
		t.counts[i] = n
		t.walk(k-1, left, more)
		t.counts[i] = 0
	}
}

// complete puts into what is left of the rod whatever still fits, the longest first: it costs nothing.
func (r *bestRod) complete(counts, most []int, capacity int64) {
	rest := capacity
	for i, n := range counts {
		rest -= int64(n) * r.sizes[i]
	}
	for i, s := range r.sizes { // sizes fall
		if n := min(int64(most[i]-counts[i]), rest/s); n > 0 {
			counts[i] += int(n)
			rest -= n * s
		}
	}
}

// continuous is the bound of the knapsack whose last item may be split (Dantzig 1957).
func (r *bestRod) continuous(worth []float64, most []int, capacity int64) float64 {
	sum, rest := 0.0, capacity
	for _, i := range r.items {
		n := min(int64(most[i]), rest/r.sizes[i])
		sum += float64(n) * worth[i]
		rest -= n * r.sizes[i]
		if n < int64(most[i]) {
			return sum + float64(rest)*worth[i]/float64(r.sizes[i])
		}
	}
	return sum
}
