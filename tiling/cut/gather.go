package cut

// gatherTo is how near, in nanometres, the longest offcut is sought.
const gatherTo = 10_000

// load is what a bar's pieces take with their kerfs, in nanometres.
func (j *lengthJob) load(counts []int) int64 {
	sum := int64(0)
	for i, n := range counts {
		sum += int64(n) * j.sizes[i]
	}
	return sum * j.grain
}

// offcut is what a bar keeps, in nanometres.
func (j *lengthJob) offcut(b chosen) int64 {
	return max(0, units(j.stock[b.lot].Length)-j.load(b.counts))
}

func (j *lengthJob) longestOffcut(bars []chosen) int64 {
	most := int64(0)
	for _, b := range bars {
		most = max(most, j.offcut(b))
	}
	return most
}

// gather brings what is left over together on one bar: with the same number of bars, no more to buy and no
// more total length, the longest offcut, by halving what is not decided. Whether one bar can keep an
// offcut of x is an order in which one bar is shorter by x.
func (j *lengthJob) gather(bars []chosen) []chosen {
	buy, size := 0, 0.0
	most := int64(0) // no offcut is longer: than a bar with one piece, nor than all offcuts together
	for _, b := range bars {
		if b.buy {
			buy++
		}
		size += j.lots[b.lot].size
	}
	for _, b := range j.stock {
		most = max(most, units(b.Length)-j.sizes[len(j.sizes)-1]*j.grain)
	}
	spare := int64(0)
	for _, b := range bars {
		spare += units(j.stock[b.lot].Length) + units(j.kerf) - j.load(b.counts)
	}
	most = min(most, spare)
	least := j.longestOffcut(bars)
	// Offcuts of one stock length differ by whole grains, those of several by their common part.
	fine := j.grain
	for _, b := range j.stock {
		fine = gcd(fine, units(b.Length)-units(j.stock[0].Length))
	}
	fine = max(fine, -fine)
	left := j.steps / 2
	for high := most; left > 0 && high-least >= max(fine, gatherTo); {
		x := least + (high-least+1)/2
		r := rule{
			cost:    func(stockKind) float64 { return 1 },
			buy:     buy,
			number:  len(bars),
			size:    size,
			ceiling: float64(len(bars)),
		}
		for _, k := range j.kinds() {
			if k.lead, k.less = true, x; j.capacity(k) >= j.sizes[len(j.sizes)-1] {
				r.leads = append(r.leads, k)
			}
		}
		o, all := j.order(r)
		a := o.solve(nil, float64(len(bars)), min(left, j.steps/8))
		left -= a.work
		if a.bars != nil {
			bars = choose(a.bars, all)
			for i := range bars {
				bars[i].lead, bars[i].less = false, 0
			}
			least = max(x, j.longestOffcut(bars))
			continue
		}
		high = x - 1
		if a.proven {
			most = high
		}
	}
	if most = max(most, least); most-least < fine {
		most = least
	}
	j.longestBound = most
	j.gathered = most-least < gatherTo
	return bars
}
