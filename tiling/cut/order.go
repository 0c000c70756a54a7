package cut

import "math"

// order is what is to be cut and from what: every item as often as demanded, out of fillings of kinds of
// stock, at least cost. Bars and boards are both orders; they differ in what fills one.
type order struct {
	demand  []int // by item, each at least 1
	kinds   []kind
	ceiling float64   // only a cost up to this is wanted; 0 for any
	have    []float64 // by resource, what all the stock used may take together
	fill    filler
	// greedy meets a demand within what resources are left, well but not at least cost; false where it did not.
	greedy func(demand []int, have []float64) ([]filled, bool)
}

// kind is one kind of stock: a whole number that one of it costs, and what one takes of each resource.
type kind struct {
	cost float64
	use  []float64
}

// filled is one bar or board and what is cut from it.
type filled struct {
	kind   int
	counts []int // by item
	layout any   // how, where counts alone do not say it; it may hold more than counts
}

// filler fills one bar or board. worth is by item and never negative, most the greatest count of each.
type filler interface {
	// countIn tells where the steps taken are counted.
	countIn(work *int64)
	// fill finds a filling worth more than floor that is not barred, if there is one; a rough one need
	// not find it, and its upper is not looked at.
	fill(kind int, worth []float64, most []int, floor float64, barred func([]int) bool, rough bool) filling
}

type filling struct {
	counts []int // nil: none was found
	worth  float64
	// upper is a number that no filling of this kind that is not barred is worth more than; at least floor.
	upper  float64
	layout any
}

// answer is the best found. bars is nil where none was; then proven says that there is none.
type answer struct {
	bars   []filled
	cost   float64
	bound  float64 // no way costs less
	work   int64   // steps taken
	proven bool    // bars cost the least, or reach the target, or cannot be had at all
}

// fits says whether the resources left allow one more of a kind.
func (k *kind) fits(have []float64) bool {
	for r, u := range k.use {
		if u > have[r]+fitSlack {
			return false
		}
	}
	return true
}

// fitSlack lets sums of fractions of a resource meet its whole.
const fitSlack = 1e-9

func (k *kind) take(have []float64, n int) {
	for r, u := range k.use {
		have[r] -= float64(n) * u
	}
}

func (o *order) total(bars []filled) float64 {
	sum := 0.0
	for _, b := range bars {
		sum += o.kinds[b.kind].cost
	}
	return sum
}

// allows says whether bars meet the demand within the resources.
func (o *order) allows(bars []filled) bool {
	have := append([]float64(nil), o.have...)
	left := append([]int(nil), o.demand...)
	for _, b := range bars {
		k := &o.kinds[b.kind]
		if !k.fits(have) {
			return false
		}
		k.take(have, 1)
		for i, n := range b.counts {
			left[i] -= n
		}
	}
	for _, n := range left {
		if n > 0 {
			return false
		}
	}
	return true
}

// trim takes off what bars hold beyond the demand, from the last bars first, and leaves out bars that then
// hold nothing.
func (o *order) trim(bars []filled) []filled {
	left := append([]int(nil), o.demand...)
	out := make([]filled, 0, len(bars))
	for _, b := range bars {
		counts := make([]int, len(left))
		some := false
		for i, n := range b.counts {
			counts[i] = min(n, left[i])
			left[i] -= counts[i]
			some = some || counts[i] > 0
		}
		if some {
			out = append(out, filled{b.kind, counts, b.layout})
		}
	}
	return out
}

// wholeUp is the least whole number that a bound computed in floating point proves; the margin is far above
// what rounding can add to sums of this size.
func wholeUp(bound float64) float64 {
	return math.Ceil(bound - 1e-7 - 1e-9*math.Abs(bound))
}
