package changes

import (
	"cmp"
	"slices"
)

// swap is an old thing that serves as a new one.
type swap struct{ old, new int }

// exchange pairs old things with new ones that they may serve as.
type exchange struct {
	old, new         []thing
	doneOld, doneNew []bool // paired already
}

func newExchange(old, new []thing) *exchange {
	return &exchange{old, new, make([]bool, len(old)), make([]bool, len(new))}
}

// serve pairs what is not paired yet: within one group as many as fit; of these as many as can be stay where they are, and the
// others go the least way in all. Of equals the earlier serves as the earlier. A nil fits lets every pair of a group serve.
func (x *exchange) serve(group func(t *thing) string, fits func(a, b *thing) bool) []swap {
	var out []swap
	pair := func(i, j int) {
		x.doneOld[i], x.doneNew[j] = true, true
		out = append(out, swap{i, j})
	}
	groups := map[string]*[2][]int{}
	var order []*[2][]int
	inGroup := func(t *thing, which, i int) {
		g := group(t)
		both := groups[g]
		if both == nil {
			both = &[2][]int{}
			groups[g] = both
			order = append(order, both)
		}
		both[which] = append(both[which], i)
	}
	for i := range x.old {
		if !x.doneOld[i] {
			inGroup(&x.old[i], 0, i)
		}
	}
	for j := range x.new {
		if !x.doneNew[j] {
			inGroup(&x.new[j], 1, j)
		}
	}
	ok := func(i, j int) bool { return fits == nil || fits(&x.old[i], &x.new[j]) }
	for _, both := range order {
		x.inPlace(both[0], both[1], ok, pair)
		a := slices.DeleteFunc(both[0], func(i int) bool { return x.doneOld[i] })
		b := slices.DeleteFunc(both[1], func(j int) bool { return x.doneNew[j] })
		for _, p := range leastWay(len(a), len(b), func(i, j int) (float64, bool) {
			return x.old[a[i]].apart(&x.new[b[j]]), ok(a[i], b[j])
		}) {
			pair(a[p.old], b[p.new])
		}
	}
	slices.SortFunc(out, func(a, b swap) int { return cmp.Compare(a.new, b.new) })
	return out
}

// inPlace pairs what stays where it is.
func (x *exchange) inPlace(a, b []int, ok func(i, j int) bool, pair func(i, j int)) {
	there := newSpots(len(b))
	for _, j := range b {
		there.add(x.new[j].at.Plan(), j)
	}
	for _, i := range a {
		j := there.find(x.old[i].at.Plan(), func(j int) bool { return !x.doneNew[j] && x.old[i].stays(&x.new[j]) && ok(i, j) })
		if j >= 0 {
			pair(i, j)
		}
	}
}
