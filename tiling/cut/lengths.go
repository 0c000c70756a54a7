package cut

import (
	"cmp"
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
	return j.plan(j.gather(j.fewest(j.barsByVolume()))), nil
}

func checkLengths(stock []Bar, pieces []Piece, kerf float64) error {
	var f Faults
	checkKerf(&f, kerf)
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
	supply
	stock  []Bar
	pieces []Piece
	kerf   float64

	grain   int64
	sizes   []int64
	members [][]int // by item, the pieces of that length

	longestBound int64 // in nanometres
	gathered     bool
}

func newLengthJob(stock []Bar, pieces []Piece, kerf float64, opt Options) *lengthJob {
	j := &lengthJob{stock: stock, pieces: pieces, kerf: kerf}
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
	for _, b := range stock {
		j.lots = append(j.lots, lot{b.Count, float64(units(b.Length))})
	}
	j.steps = opt.Effort.steps()
	j.fitter = func(o *order, all []stockKind) (filler, func([]int, []float64) ([]filled, bool)) {
		rod := &bestRod{sizes: j.sizes}
		for _, k := range all {
			rod.caps = append(rod.caps, j.capacity(k))
		}
		open := openingOrder(all, func(k int) float64 { return float64(rod.caps[k]) })
		return rod, func(demand []int, have []float64) ([]filled, bool) { return firstFit(o, rod, open, demand, have) }
	}
	return j
}

// capacity is what a kind of bar holds, in grains. A tolerance lets rounded sums that meet the bar's end meet
// it; a lead keeps what it must and the kerf of the cut before that.
func (j *lengthJob) capacity(k stockKind) int64 {
	length := units(j.stock[k.lot].Length)
	if k.lead {
		return max(0, length-k.less) / j.grain
	}
	return (length + units(j.kerf) + 1) / j.grain
}

// barsByVolume is how many of the longest bars would hold all pieces if they could be poured.
func (j *lengthJob) barsByVolume() int {
	sum, longest := 0.0, 0.0
	for i, s := range j.sizes {
		sum += float64(s) * float64(j.demand[i])
	}
	for i := range j.stock {
		longest = max(longest, float64(j.capacity(stockKind{lot: i})))
	}
	return int(wholeUp(sum / longest))
}

// firstFit fills one bar after the other with the longest pieces that still fit (first-fit decreasing), and
// then moves each bar's pieces to the cheapest bar that holds them.
func firstFit(o *order, rod *bestRod, open []int, demand []int, have []float64) ([]filled, bool) {
	left := 0
	for _, n := range demand {
		left += n
	}
	var out []filled
	for left > 0 {
		took := false
		for _, k := range open {
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
		o.kinds[b.kind].take(have, -1)
		for k := range o.kinds {
			if rod.caps[k] >= load && o.kinds[k].cost < o.kinds[b.kind].cost && o.kinds[k].fits(have) {
				b.kind = k
			}
		}
		o.kinds[b.kind].take(have, 1)
	}
	return out, true
}
