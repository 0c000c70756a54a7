package cut

import (
	"cmp"
	"slices"

	"markout/layout/geom"
)

// stack is a way of carrying a top: what it takes of each line of stock and what it leaves for packing.
type stack struct {
	layers  []int // from the floor up
	takes   [mostLines]int
	height  int64
	packing float64
}

func (s *stack) boxes() int {
	n := 0
	for _, k := range s.takes {
		n += k
	}
	return n
}

// beats says whether s takes no more of anything than o.
func (s *stack) beats(o *stack) bool {
	for i, k := range s.takes {
		if k > o.takes[i] {
			return false
		}
	}
	return s.packing <= o.packing
}

// mostStacks is how many ways are kept side by side before the search is no longer complete.
const mostStacks = 20_000

// stacks are the ways of carrying a top that no other beats. Stacks grow a layer at a time from the floor,
// the lowest first; of those with the same height and uppermost layer the ones are kept that take less of
// some line of stock than any other.
func (j *blockJob) stacks(t Top, layers []Layer) (out []stack, bare bool) {
	type top struct {
		height int64
		layer  int
	}
	whole := units(t.Height)
	groups := map[top][]stack{}
	var heights []int64
	at := map[int64]bool{}
	add := func(s stack, layer int) {
		k := top{s.height, layer}
		for i := range groups[k] {
			if groups[k][i].beats(&s) {
				return
			}
		}
		groups[k] = append(slices.DeleteFunc(groups[k], func(o stack) bool { return s.beats(&o) }), s)
		if !at[s.height] {
			at[s.height] = true
			i, _ := slices.BinarySearch(heights, s.height)
			heights = slices.Insert(heights, i, s.height)
		}
	}
	add(stack{}, -1)
	var all []stack
	for i := 0; i < len(heights); i++ {
		for last := -1; last < len(layers); last++ {
			k := top{heights[i], last}
			for _, s := range groups[k] {
				s.packing = float64(whole-s.height) * geom.Tolerance
				all = append(all, s)
				if len(all) > mostStacks {
					j.proven = false
					continue
				}
				for n := range layers {
					l := &layers[n]
					h := units(l.Height)
					if s.height+h > whole || last >= 0 && !l.restsOn(&layers[last]) {
						continue
					}
					next := stack{layers: append(slices.Clone(s.layers), n), takes: s.takes, height: s.height + h}
					next.takes[l.Box] += l.boxes()
					add(next, n)
				}
			}
			delete(groups, k)
		}
	}
	packed := slices.DeleteFunc(slices.Clone(all), func(s stack) bool {
		return s.packing > j.opt.Packing+geom.Tolerance
	})
	if len(packed) == 0 {
		least := slices.MinFunc(all, func(a, b stack) int { return cmp.Compare(a.packing, b.packing) }).packing
		packed = slices.DeleteFunc(all, func(s stack) bool { return s.packing > least })
		bare = true
	}
	slices.SortStableFunc(packed, func(a, b stack) int {
		return cmp.Or(cmp.Compare(a.boxes(), b.boxes()), cmp.Compare(a.packing, b.packing), cmp.Compare(len(a.layers), len(b.layers)))
	})
	for i := range packed {
		if !slices.ContainsFunc(out, func(o stack) bool { return o.beats(&packed[i]) }) {
			out = append(out, packed[i])
		}
	}
	return out, bare
}

// choice is a way of carrying the tops so far: which stack each takes.
type choice struct {
	takes   [mostLines]int
	packing float64
	last    int // in the ways of the last top
	before  *choice
}

func (c *choice) beats(o *choice) bool {
	for i, k := range c.takes {
		if k > o.takes[i] {
			return false
		}
	}
	return c.packing <= o.packing
}

// short is how many boxes are not in hand.
func (j *blockJob) short(takes [mostLines]int) (by []int, sum int) {
	by = make([]int, len(j.stock))
	for i, b := range j.stock {
		if b.Count > 0 {
			have := b.Count
			if i < len(j.opt.Taken) {
				have = max(0, have-j.opt.Taken[i])
			}
			by[i] = max(0, takes[i]-have)
			sum += by[i]
		}
	}
	return by, sum
}

// pick chooses a stack for each top out of its ways, so that the fewest boxes are short, then the fewest are
// taken, then the least packing is left. Where taking the first way of each leaves nothing short it is the
// best; otherwise choices grow top by top and those are kept that no other beats.
func (j *blockJob) pick(ways [][]stack) []int {
	var first choice
	for _, w := range ways {
		for i, k := range w[0].takes {
			first.takes[i] += k
		}
	}
	if _, sum := j.short(first.takes); sum == 0 || len(j.stock) == 1 {
		return make([]int, len(ways))
	}
	kept := []*choice{{}}
	for _, w := range ways {
		var grown []*choice
		for _, c := range kept {
			for n := range w {
				next := &choice{takes: c.takes, packing: c.packing + w[n].packing, last: n, before: c}
				for i, k := range w[n].takes {
					next.takes[i] += k
				}
				grown = append(grown, next)
			}
		}
		slices.SortStableFunc(grown, func(a, b *choice) int { return j.order(a, b) })
		kept = kept[:0:0]
		for _, c := range grown {
			if len(kept) == mostChoices {
				j.proven = false
				break
			}
			if !slices.ContainsFunc(kept, func(o *choice) bool { return o.beats(c) }) {
				kept = append(kept, c)
			}
		}
	}
	best := slices.MinFunc(kept, j.order)
	out := make([]int, len(ways))
	for i := len(ways) - 1; i >= 0; i-- {
		out[i] = best.last
		best = best.before
	}
	return out
}

// mostChoices is how many choices are kept side by side before the search is no longer complete.
const mostChoices = 2000

// order puts the better of two choices first.
func (j *blockJob) order(a, b *choice) int {
	_, sa := j.short(a.takes)
	_, sb := j.short(b.takes)
	na, nb := 0, 0
	for i := range a.takes {
		na += a.takes[i]
		nb += b.takes[i]
	}
	return cmp.Or(cmp.Compare(sa, sb), cmp.Compare(na, nb), cmp.Compare(a.packing, b.packing))
}
