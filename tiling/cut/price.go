package cut

import (
	"math"
	"slices"
	"strings"
)

// The least cost is found by branch and price. The linear program over all fillings (Gilmore and Gomory
// 1961) has its columns made as they are asked for, by filling one bar at the program's prices; its value,
// by Lagrange's bound with the exact filling, is what no way costs less than. Branches take a filling a
// number of times at once, or fewer times (Degraeve and Schrage 1999): on the first the order only shrinks.
// Every way that cuts exactly what is demanded is in one of the two, so that an emptied tree is a proof. Nodes are
// visited by how often they turned away from the program's advice (limited discrepancy, Harvey and
// Ginsberg 1995), which finds good ways early.

// column is a filling the search knows.
type column struct {
	filled
	key string
}

// node is a branch: its parent's, and column taken count times, or at most count times.
type node struct {
	parent *node
	col    int
	count  int
	capped bool
	turns  int // how many branches above are capped
	depth  int
	bound  float64
	serial int
}

type search struct {
	*order
	cols   []column
	byKey  map[string]int
	open   []*node
	shut   []*node // given up undecided: what is proved stops at their bounds
	serial int
	best   []filled
	least  float64 // what best costs
	target float64
	scale  float64 // costs are divided by it in the linear program
	work   int64
	budget int64
}

func key(kind int, counts []int) string {
	var b strings.Builder
	b.WriteByte(byte(kind))
	b.WriteByte(byte(kind >> 8))
	for i, n := range counts {
		if n > 0 {
			for _, v := range []int{i, n} {
				b.WriteByte(byte(v))
				b.WriteByte(byte(v >> 8))
				b.WriteByte(byte(v >> 16))
			}
		}
	}
	return b.String()
}

func (s *search) column(f filled) int {
	k := key(f.kind, f.counts)
	if i, ok := s.byKey[k]; ok {
		return i
	}
	s.byKey[k] = len(s.cols)
	s.cols = append(s.cols, column{f, k})
	return len(s.cols) - 1
}

// solve finds the bars of least cost, beginning with the bars of start, which may be nil or not meet the order, and
// stops early at a cost of target or less. budget limits the elementary steps; where it runs out, bound
// says what is proved.
func (o *order) solve(start []filled, target float64, budget int64) answer {
	s := &search{order: o, byKey: map[string]int{}, least: math.Inf(1), target: target, budget: budget, scale: 1}
	for i := range o.kinds {
		s.scale = max(s.scale, o.kinds[i].cost)
	}
	o.fill.countIn(&s.work)
	if o.ceiling > 0 {
		s.least = o.ceiling + 1
	}
	for _, b := range start {
		s.column(b)
	}
	s.offer(start)
	if bars, ok := o.greedy(slices.Clone(o.demand), slices.Clone(o.have)); ok {
		for _, b := range bars {
			s.column(b)
		}
		s.offer(bars)
	}
	root := &node{}
	s.open = []*node{root}
	for len(s.open) > 0 && s.least > target && s.work < s.budget {
		s.visit(s.next())
	}
	a := answer{bars: s.best, cost: s.least, bound: s.least, work: s.work}
	for _, n := range append(s.open, s.shut...) {
		a.bound = min(a.bound, n.bound)
	}
	if s.best == nil {
		a.proven = len(s.open)+len(s.shut) == 0
		return a
	}
	a.bound = min(a.bound, a.cost)
	a.proven = a.bound >= a.cost || a.cost <= target
	return a
}

// offer takes bars as the best so far if they are.
func (s *search) offer(bars []filled) {
	if len(bars) == 0 || !s.allows(bars) {
		return
	}
	bars = s.trim(bars)
	if c := s.total(bars); c < s.least {
		s.best, s.least = bars, c
		s.open = slices.DeleteFunc(s.open, func(n *node) bool { return n.bound >= c })
	}
}

// next takes the open node of fewest turns, of equals the deepest, of equals the latest.
func (s *search) next() *node {
	best := 0
	for i, n := range s.open {
		b := s.open[best]
		switch {
		case n.turns != b.turns:
			if n.turns < b.turns {
				best = i
			}
		case n.depth != b.depth:
			if n.depth > b.depth {
				best = i
			}
		case n.serial > b.serial:
			best = i
		}
	}
	n := s.open[best]
	s.open = slices.Delete(s.open, best, best+1)
	return n
}

// residue is what a node leaves to be done.
type residue struct {
	demand []int
	have   []float64
	taken  []filled
	spent  float64
	caps   map[int]int // by column
}

func (s *search) residue(n *node) residue {
	r := residue{demand: slices.Clone(s.demand), have: slices.Clone(s.have), caps: map[int]int{}}
	var way []*node
	for ; n.parent != nil; n = n.parent {
		way = append(way, n)
	}
	slices.Reverse(way)
	for _, n := range way {
		if n.capped {
			r.caps[n.col] = n.count
			continue
		}
		c := &s.cols[n.col]
		if most, ok := r.caps[n.col]; ok {
			r.caps[n.col] = most - n.count
		}
		for i, k := range c.counts {
			r.demand[i] -= n.count * k
		}
		s.kinds[c.kind].take(r.have, n.count)
		r.spent += float64(n.count) * s.kinds[c.kind].cost
		for range n.count {
			r.taken = append(r.taken, c.filled)
		}
	}
	return r
}

// visit solves a node's linear program, offers what rounding it gives, and opens its branches.
func (s *search) visit(n *node) {
	r := s.residue(n)
	m := &master{search: s, residue: r}
	rel := m.relax()
	bound := max(n.bound, r.spent+wholeUp(rel.bound*s.scale))
	if rel.infeasible || bound >= s.least {
		return
	}
	if rel.gaveUp {
		n.bound = bound
		s.shut = append(s.shut, n)
		s.round(&r, rel.amounts)
		return
	}
	if len(rel.amounts) == 0 {
		s.offer(r.taken)
		return
	}
	if s.round(&r, rel.amounts); bound >= s.least {
		return
	}
	if rel.whole() {
		return // offered by round: nothing under this node costs less
	}
	pick := rel.branch()
	col, amount := pick.col, pick.amount
	count := max(1, min(int(math.Ceil(amount-wholeSlack)), s.mostTimes(col, &r)))
	add := func(capped bool, count, turns int) {
		s.serial++
		s.open = append(s.open, &node{parent: n, col: col, count: count, capped: capped, turns: turns, depth: n.depth + 1, bound: bound, serial: s.serial})
	}
	add(true, count-1, n.turns+1)
	add(false, count, n.turns)
}

// mostTimes is how often a column goes into what is demanded and into the resources.
func (s *search) mostTimes(col int, r *residue) int {
	c := &s.cols[col]
	most := math.MaxInt
	for i, k := range c.counts {
		if k > 0 {
			most = min(most, r.demand[i]/k)
		}
	}
	for j, u := range s.kinds[c.kind].use {
		if u > 0 {
			most = min(most, int((r.have[j]+fitSlack)/u))
		}
	}
	if u, ok := r.caps[col]; ok {
		most = min(most, u)
	}
	return most
}

// round offers what the program's amounts give: their whole parts and the rest done greedily, and the same
// with amounts raised, the largest fractions first, as long as what they cut is wanted.
func (s *search) round(r *residue, amounts []amount) {
	byFraction := slices.Clone(amounts)
	slices.SortStableFunc(byFraction, func(a, b amount) int {
		fa, fb := a.amount-math.Floor(a.amount+wholeSlack), b.amount-math.Floor(b.amount+wholeSlack)
		switch {
		case fa > fb+wholeSlack:
			return -1
		case fb > fa+wholeSlack:
			return 1
		}
		return a.col - b.col
	})
	for raise := range 2 {
		demand, have := slices.Clone(r.demand), slices.Clone(r.have)
		bars := slices.Clone(r.taken)
		take := func(col int) bool {
			c := &s.cols[col]
			k := &s.kinds[c.kind]
			wanted := 0
			for i, n := range c.counts {
				wanted += min(n, demand[i])
			}
			if wanted == 0 || !k.fits(have) {
				return false
			}
			k.take(have, 1)
			for i, n := range c.counts {
				demand[i] = max(0, demand[i]-n)
			}
			bars = append(bars, c.filled)
			return true
		}
		for _, a := range amounts {
			for range int(min(a.amount+wholeSlack, mostPieces)) {
				if !take(a.col) {
					break
				}
			}
		}
		if raise == 1 {
			for _, a := range byFraction {
				if fits(s.cols[a.col].counts, demand) {
					take(a.col)
				}
			}
		}
		if rest, ok := s.greedy(demand, have); ok {
			s.offer(append(bars, rest...))
		}
	}
}

func fits(counts, demand []int) bool {
	for i, n := range counts {
		if n > demand[i] {
			return false
		}
	}
	return true
}
