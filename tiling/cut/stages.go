package cut

import (
	"math"
	"slices"
)

// lot is one line of stock: how many there are, 0 for any number, and how much one holds, a whole number.
type lot struct {
	count int
	size  float64
}

// stockKind is a line of stock in hand, or the same to be bought.
type stockKind struct {
	lot  int
	buy  bool
	lead bool  // one of it is the one that keeps the long offcut
	less int64 // by how much a lead is shorter than its stock
}

// supply is an order with counted stock: what it takes is made least in stages, what is to be bought, then
// how many, then how much in all.
type supply struct {
	lots   []lot
	demand []int
	steps  int64
	// fitter makes what fills the kinds and what meets a demand greedily.
	fitter func(o *order, all []stockKind) (filler, func(demand []int, have []float64) ([]filled, bool))

	// begin, if there is one, seeks a good way to begin with, until one costs no more than target.
	begin func(o *order, all []stockKind, target float64) []filled

	buyLeast, least int // bounds on what is to be bought and on how many
	proven          bool
}

// rule is a stage of the search: what one of a kind costs, and what is not to be exceeded.
type rule struct {
	cost    func(stockKind) float64
	buy     int     // most to buy, -1 for any number
	number  int     // most in all, -1 for any number
	size    float64 // most together, -1 for any
	ceiling float64 // only a cost up to this is wanted, 0 for any
	leads   []stockKind
}

// chosen is one bar or board of a solution.
type chosen struct {
	stockKind
	counts []int
	layout any
}

func (s *supply) kinds() []stockKind {
	var out []stockKind
	for i, l := range s.lots {
		out = append(out, stockKind{lot: i})
		if l.count > 0 {
			out = append(out, stockKind{lot: i, buy: true})
		}
	}
	return out
}

// order makes the order of a stage: the kinds of stock and what each takes of what is limited.
func (s *supply) order(r rule) (*order, []stockKind) {
	all := append(s.kinds(), r.leads...)
	if r.buy == 0 {
		all = slices.DeleteFunc(all, func(k stockKind) bool { return k.buy })
	}
	o := &order{demand: s.demand, ceiling: r.ceiling}
	for _, k := range all {
		o.kinds = append(o.kinds, kind{cost: r.cost(k)})
	}
	resource := func(have float64, use func(stockKind) float64) {
		o.have = append(o.have, have)
		for i := range all {
			o.kinds[i].use = append(o.kinds[i].use, use(all[i]))
		}
	}
	count := func(is func(stockKind) bool) func(stockKind) float64 {
		return func(k stockKind) float64 {
			if is(k) {
				return 1
			}
			return 0
		}
	}
	largest := 1.0
	for i, l := range s.lots {
		largest = max(largest, l.size)
		if l.count > 0 {
			resource(float64(l.count), count(func(k stockKind) bool { return k.lot == i && !k.buy }))
		}
	}
	if r.buy > 0 {
		resource(float64(r.buy), count(func(k stockKind) bool { return k.buy }))
	}
	if r.number >= 0 {
		resource(float64(r.number), count(func(stockKind) bool { return true }))
	}
	if r.size >= 0 {
		resource(r.size/largest, func(k stockKind) float64 { return s.lots[k.lot].size / largest })
	}
	if len(r.leads) > 0 {
		resource(1, count(func(k stockKind) bool { return k.lead }))
		resource(float64(r.number-1), count(func(k stockKind) bool { return !k.lead }))
	}
	o.fill, o.greedy = s.fitter(o, all)
	return o, all
}

func choose(bars []filled, all []stockKind) []chosen {
	out := make([]chosen, len(bars))
	for i, b := range bars {
		out[i] = chosen{all[b.kind], b.counts, b.layout}
	}
	return out
}

// again gives bars as fillings of another stage's kinds.
func again(bars []chosen, all []stockKind) []filled {
	var out []filled
	for _, b := range bars {
		k := slices.Index(all, b.stockKind)
		if k < 0 {
			return nil
		}
		out = append(out, filled{k, b.counts, b.layout})
	}
	return out
}

// fewest finds the fewest to buy, of such ways the fewest in all, of such the least total size. floor is a
// number that is known to be needed in any case. At least one line of stock holds any one piece.
func (s *supply) fewest(floor int) []chosen {
	one := func(stockKind) float64 { return 1 }
	r := rule{cost: one, buy: 0, number: -1, size: -1}
	o, all := s.order(r)
	var first []filled
	if s.begin != nil {
		first = s.begin(o, all, float64(floor))
	}
	a := o.solve(first, float64(floor), s.steps)
	s.proven = true
	if a.bars == nil {
		// The stock in hand does not do, or no way was found in which it does: how few more would?
		r.buy = -1
		r.cost = func(k stockKind) float64 {
			if k.buy {
				return 1
			}
			return 0
		}
		if a.proven {
			s.buyLeast = 1
		}
		o, all = s.order(r)
		a = o.solve(nil, float64(s.buyLeast), s.steps)
		s.buyLeast = max(s.buyLeast, int(a.bound))
		r.buy = int(a.cost)
		s.proven = s.buyLeast >= r.buy
		kept := choose(a.bars, all)
		r.cost = one
		o, all = s.order(r)
		a = o.solve(again(kept, all), float64(floor), s.steps)
	}
	s.least = max(int(math.Round(a.bound)), min(floor, len(a.bars)))
	s.proven = s.proven && s.least >= len(a.bars)
	bars := choose(a.bars, all)
	if !s.differ() {
		return bars
	}
	var common int64
	for _, l := range s.lots {
		common = gcd(common, int64(l.size))
	}
	r.number = len(bars)
	r.cost = func(k stockKind) float64 { return s.lots[k.lot].size / float64(common) }
	o, all = s.order(r)
	a = o.solve(again(bars, all), math.Inf(-1), s.steps)
	s.proven = s.proven && a.proven
	return choose(a.bars, all)
}

func (s *supply) differ() bool {
	for _, l := range s.lots {
		if l.size != s.lots[0].size {
			return true
		}
	}
	return false
}

// settle says which are in hand: of each line of stock the first ones in the order given, the others are to be
// bought. Those to be bought come last.
func (s *supply) settle(bars []chosen) {
	used := make([]int, len(s.lots))
	for i := range bars {
		l := bars[i].lot
		used[l]++
		bars[i].buy = s.lots[l].count > 0 && used[l] > s.lots[l].count
	}
	slices.SortStableFunc(bars, func(a, b chosen) int {
		if a.buy == b.buy {
			return 0
		}
		return boolFirst(b.buy)
	})
}

func boolFirst(a bool) int {
	if a {
		return -1
	}
	return 1
}

// openingOrder is the order in which a greedy rule opens stock: a lead first, in hand before bought, the
// largest first.
func openingOrder(all []stockKind, size func(k int) float64) []int {
	out := make([]int, len(all))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int {
		switch {
		case all[a].lead != all[b].lead:
			return boolFirst(all[a].lead)
		case all[a].buy != all[b].buy:
			return boolFirst(all[b].buy)
		case size(a) != size(b):
			return boolFirst(size(a) > size(b))
		}
		return 0
	})
	return out
}
