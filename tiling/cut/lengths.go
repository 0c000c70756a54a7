package cut

import (
	"cmp"
	"math"
	"slices"
)

// Bar is a stock length. Count 0 is any number.
type Bar struct {
	Name   string
	Length float64
	Count  int
}

// Piece is a length to be cut Count times.
type Piece struct {
	ID     string
	Length float64
	Count  int
}

// LengthPlan says how pieces come out of bars: on the fewest bars, of such on the least total length of
// stock, of such with the longest offcut on one bar.
//
// Where the stock in hand runs out the plan goes on with more bars of the same lengths, as few as will do,
// which are marked Buy; Short lists the pieces on them.
type LengthPlan struct {
	Bars  []CutBar // by stock, the fullest first, those to buy last
	Short []Short

	Buy         int     // bars that are not in hand
	StockLength float64 // of all bars together
	Longest     float64 // the longest offcut on one bar

	Bound    int  // no way of cutting takes fewer bars (with no more to buy than Buy)
	BuyBound int  // no way takes fewer bars than these beyond what is in hand
	Proven   bool // bars, bars to buy and total length are all the least there are

	LongestBound  float64 // no way with these bars leaves a longer offcut
	LongestProven bool    // Longest is that, within 0.01 mm
}

// CutBar is one bar and its cuts in order from its datum end.
type CutBar struct {
	Stock  int // in the list of bars given
	Name   string
	Number int // from 1, among the bars of the same name
	Length float64
	Buy    bool
	Cuts   []Cut
	Offcut float64 // what is left after the last cut's kerf
}

// Cut is a piece of a bar: From is its near end's distance from the datum end.
type Cut struct {
	Piece  int // in the list of pieces given
	ID     string
	From   float64
	Length float64
}

// Short is how many of a piece wait for stock that is not in hand.
type Short struct {
	Piece int
	ID    string
	Count int
}

// Lengths plans the cutting of pieces from bars with a saw that takes kerf. Errors are Faults: a piece that
// is longer than any bar, with the longest that would fit, and numbers that are no lengths or counts.
func Lengths(stock []Bar, pieces []Piece, kerf float64, opt Options) (*LengthPlan, error) {
	if err := checkLengths(stock, pieces, kerf); err != nil {
		return nil, err
	}
	j := newLengthJob(stock, pieces, kerf, opt)
	if len(j.sizes) == 0 {
		return &LengthPlan{Proven: true, LongestProven: true}, nil
	}
	bars := j.fewest()
	bars = j.gather(bars)
	return j.plan(bars), nil
}

func checkLengths(stock []Bar, pieces []Piece, kerf float64) error {
	var f Faults
	if !(kerf >= 0 && kerf <= 100) {
		f.stock(-1, "", "a kerf of %v is none: from 0 to 100", kerf)
	}
	best := -1
	for i, b := range stock {
		switch {
		case !measure(b.Length):
			f.stock(i, "", "bar %s: a length of %v cannot be cut", b.Name, b.Length)
		case b.Count < 0:
			f.stock(i, "leave the count out for any number", "bar %s: a count of %d", b.Name, b.Count)
		case best < 0 || b.Length > stock[best].Length:
			best = i
		}
	}
	total := 0
	for i, p := range pieces {
		switch {
		case !measure(p.Length):
			f.piece(i, "", "piece %s: a length of %v cannot be cut", p.ID, p.Length)
			continue
		case p.Count < 1:
			f.piece(i, "", "piece %s: a count of %d", p.ID, p.Count)
			continue
		case best < 0 && len(f) == 0:
			f.piece(i, "give a stock length", "piece %s: there is no bar to cut it from", p.ID)
		case best >= 0 && units(p.Length) > units(stock[best].Length):
			f.piece(i, "at most "+mm(stock[best].Length)+" fits; join it from shorter ones or give a longer bar",
				"piece %s: %s is longer than any bar, the longest is %s of %s", p.ID, mm(p.Length), stock[best].Name, mm(stock[best].Length))
		}
		if total += min(p.Count, mostPieces+1); total > mostPieces {
			f.piece(i, "divide the list", "more than %d pieces in one cutting list", mostPieces)
			break
		}
	}
	return f.err()
}

// lengthJob is the order that bars and pieces make. Items are the different lengths, the longest first, in
// whole units of grain nanometres, kerf included.
type lengthJob struct {
	stock  []Bar
	pieces []Piece
	kerf   float64
	opt    Options

	grain   int64
	sizes   []int64
	demand  []int
	members [][]int // by item, the pieces of that length
	kinds   []barKind

	buyLeast, barsLeast int // bounds
	proven              bool
	longestBound        int64 // in nanometres
	gathered            bool
}

// barKind is a stock length in hand, or the same to be bought.
type barKind struct {
	stock    int
	capacity int64 // in grains
	whole    int64 // in nanometres, kerf included
	buy      bool
	lead     bool // one bar of it is the one that keeps the long offcut
}

func newLengthJob(stock []Bar, pieces []Piece, kerf float64, opt Options) *lengthJob {
	j := &lengthJob{stock: stock, pieces: pieces, kerf: kerf, opt: opt}
	k := units(kerf)
	byLength := make([]int, len(pieces))
	for i := range pieces {
		byLength[i] = i
	}
	slices.SortStableFunc(byLength, func(a, b int) int { return cmp.Compare(units(pieces[b].Length), units(pieces[a].Length)) })
	for _, i := range byLength {
		s := units(pieces[i].Length) + k
		j.grain = gcd(j.grain, s)
		if n := len(j.sizes); n == 0 || j.sizes[n-1] != s {
			j.sizes = append(j.sizes, s)
			j.demand = append(j.demand, 0)
			j.members = append(j.members, nil)
		}
		n := len(j.sizes) - 1
		j.demand[n] += pieces[i].Count
		j.members[n] = append(j.members[n], i)
	}
	for i := range j.sizes {
		j.sizes[i] /= j.grain
	}
	for i, b := range stock {
		// A tolerance on the bar lets rounded sums that meet its end meet it.
		whole := units(b.Length) + k + 1
		j.kinds = append(j.kinds, barKind{stock: i, whole: whole})
		if b.Count > 0 {
			j.kinds = append(j.kinds, barKind{stock: i, whole: whole, buy: true})
		}
	}
	for i := range j.kinds {
		if j.grain > 0 {
			j.kinds[i].capacity = j.kinds[i].whole / j.grain
		}
	}
	return j
}

// rule is a stage of the search: what a bar costs, and what is not to be exceeded.
type rule struct {
	cost    func(barKind) float64
	buy     int     // most bars to buy, -1 for any number
	bars    int     // most bars, -1 for any number
	length  float64 // most total length, -1 for any
	ceiling float64 // only a cost up to this is wanted, 0 for any
	extra   []barKind
}

// order makes the order of a stage: the bars' kinds and what each takes of what is limited.
func (j *lengthJob) order(r rule) (*order, []barKind) {
	all := slices.Concat(j.kinds, r.extra)
	if r.buy == 0 {
		all = slices.DeleteFunc(all, func(k barKind) bool { return k.buy })
	}
	all = slices.DeleteFunc(all, func(k barKind) bool { return k.capacity < j.sizes[len(j.sizes)-1] })
	o := &order{demand: j.demand, ceiling: r.ceiling}
	resource := func(have float64, use func(barKind) float64) {
		o.have = append(o.have, have)
		for i := range all {
			o.kinds[i].use = append(o.kinds[i].use, use(all[i]))
		}
	}
	count := func(is func(barKind) bool) func(barKind) float64 {
		return func(k barKind) float64 {
			if is(k) {
				return 1
			}
			return 0
		}
	}
	for _, k := range all {
		o.kinds = append(o.kinds, kind{cost: r.cost(k)})
	}
	for s, b := range j.stock {
		if b.Count > 0 {
			resource(float64(b.Count), count(func(k barKind) bool { return k.stock == s && !k.buy }))
		}
	}
	if r.buy > 0 {
		resource(float64(r.buy), count(func(k barKind) bool { return k.buy }))
	}
	if r.bars >= 0 {
		resource(float64(r.bars), count(func(barKind) bool { return true }))
	}
	if r.length >= 0 {
		longest := 0.0
		for _, k := range all {
			longest = max(longest, j.stock[k.stock].Length)
		}
		if longest > 0 {
			resource(r.length/longest, func(k barKind) float64 { return j.stock[k.stock].Length / longest })
		}
	}
	if len(r.extra) > 0 {
		resource(1, count(func(k barKind) bool { return k.lead }))
	}
	caps := make([]int64, len(all))
	for i, k := range all {
		caps[i] = k.capacity
	}
	rod := &bestRod{sizes: j.sizes, caps: caps}
	o.fill = rod
	o.greedy = func(demand []int, have []float64) ([]filled, bool) { return firstFit(o, rod, all, demand, have) }
	return o, all
}

// firstFit fills one bar after the other with the longest pieces that still fit (first-fit decreasing), the
// longest bars in hand first, and then moves each bar's pieces to the cheapest that holds them.
func firstFit(o *order, rod *bestRod, all []barKind, demand []int, have []float64) ([]filled, bool) {
	byUse := make([]int, len(all))
	for i := range all {
		byUse[i] = i
	}
	slices.SortStableFunc(byUse, func(a, b int) int {
		switch {
		case all[a].lead != all[b].lead:
			return boolFirst(all[a].lead)
		case all[a].buy != all[b].buy:
			return boolFirst(all[b].buy)
		}
		return cmp.Compare(all[b].capacity, all[a].capacity)
	})
	left := 0
	for _, n := range demand {
		left += n
	}
	var out []filled
	for left > 0 {
		took := false
		for _, k := range byUse {
			if !o.kinds[k].fits(have) {
				continue
			}
			counts := make([]int, len(demand))
			rest := rod.caps[k]
			for i, s := range rod.sizes {
				if n := int(min(int64(demand[i]), rest/s)); n > 0 {
					counts[i] = n
					demand[i] -= n
					left -= n
					rest -= int64(n) * s
					took = true
				}
			}
			if took {
				o.kinds[k].take(have, 1)
				out = append(out, filled{kind: k, counts: counts})
				break
			}
		}
		if !took {
			return nil, false
		}
	}
	for i := len(out) - 1; i >= 0; i-- {
		b := &out[i]
		load := int64(0)
		for t, n := range b.counts {
			load += int64(n) * rod.sizes[t]
		}
		from := &o.kinds[b.kind]
		from.take(have, -1)
		best := b.kind
		for k := range o.kinds {
			if rod.caps[k] >= load && o.kinds[k].cost < o.kinds[best].cost && o.kinds[k].fits(have) {
				best = k
			}
		}
		b.kind = best
		o.kinds[best].take(have, 1)
	}
	return out, true
}

func boolFirst(a bool) int {
	if a {
		return -1
	}
	return 1
}

// chosen is a bar of the solution in the job's own terms.
type chosen struct {
	barKind
	counts []int
}

func chosenBars(bars []filled, all []barKind) []chosen {
	out := make([]chosen, len(bars))
	for i, b := range bars {
		out[i] = chosen{all[b.kind], b.counts}
	}
	return out
}

// start gives bars as fillings of a stage's kinds.
func start(bars []chosen, all []barKind) []filled {
	var out []filled
	for _, b := range bars {
		k := slices.Index(all, b.barKind)
		if k < 0 {
			return nil
		}
		out = append(out, filled{kind: k, counts: b.counts})
	}
	return out
}

// fewest finds the fewest bars to buy, then the fewest bars, then the least total length.
func (j *lengthJob) fewest() []chosen {
	one := func(barKind) float64 { return 1 }
	steps := j.opt.Effort.steps()
	j.proven = true
	r := rule{cost: one, buy: 0, bars: -1, length: -1}
	o, all := j.order(r)
	a := answer{proven: true}
	if len(all) > 0 {
		a = o.solve(nil, math.Inf(-1), steps)
	}
	if a.bars == nil {
		// The stock in hand does not do, or none was found that does: how few more would?
		none := a.proven
		r.buy = -1
		r.cost = func(k barKind) float64 {
			if k.buy {
				return 1
			}
			return 0
		}
		o, all = j.order(r)
		least := 0.0
		if none {
			least = 1
		}
		a = o.solve(nil, least, steps)
		j.buyLeast = max(int(least), int(a.bound))
		r.buy = int(a.cost)
		j.proven = j.buyLeast >= r.buy
		kept := chosenBars(a.bars, all)
		r.cost = one
		o, all = j.order(r)
		a = o.solve(start(kept, all), math.Inf(-1), steps)
	}
	j.proven = j.proven && a.proven
	j.barsLeast = max(int(a.bound), j.barsByVolume())
	j.proven = j.proven || j.buyLeast == r.buy && j.barsLeast == len(a.bars)
	bars := chosenBars(a.bars, all)
	if !j.lengthsDiffer() {
		return bars
	}
	shortest := units(j.stock[0].Length)
	for _, b := range j.stock {
		shortest = gcd(shortest, units(b.Length))
	}
	r.bars = len(bars)
	r.cost = func(k barKind) float64 { return float64(units(j.stock[k.stock].Length) / shortest) }
	o, all = j.order(r)
	a = o.solve(start(bars, all), math.Inf(-1), steps)
	j.proven = j.proven && a.proven
	return chosenBars(a.bars, all)
}

// barsByVolume is how many of the longest bars hold all pieces if they could be poured.
func (j *lengthJob) barsByVolume() int {
	sum, longest := 0.0, 0.0
	for i, s := range j.sizes {
		sum += float64(s) * float64(j.demand[i])
	}
	for _, k := range j.kinds {
		longest = max(longest, float64(k.capacity))
	}
	return int(wholeUp(sum / longest))
}

func (j *lengthJob) lengthsDiffer() bool {
	for _, b := range j.stock {
		if units(b.Length) != units(j.stock[0].Length) {
			return true
		}
	}
	return false
}
