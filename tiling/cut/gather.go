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
	return max(0, units(j.stock[b.stock].Length)-j.load(b.counts))
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
	buy, length := 0, 0.0
	most := int64(0) // no offcut is longer: than a bar with one piece, nor than all offcuts together
	for _, b := range bars {
		if b.buy {
			buy++
		}
		length += j.stock[b.stock].Length
	}
	for _, b := range j.stock {
		most = max(most, units(b.Length)-j.sizes[len(j.sizes)-1]*j.grain)
	}
	spare := int64(0)
	for _, b := range bars {
		spare += b.whole - j.load(b.counts)
	}
	most = min(most, spare)
	least := j.longestOffcut(bars)
	// Offcuts of one stock length differ by whole grains, those of several by their common part.
	fine := j.grain
	for _, b := range j.stock {
		fine = gcd(fine, units(b.Length)-units(j.stock[0].Length))
	}
	fine = max(fine, -fine)
	left := j.opt.Effort.steps() / 2
	for high := most; left > 0 && high-least >= max(fine, gatherTo); {
		x := least + (high-least+1)/2
		r := rule{
			cost:    func(k barKind) float64 { return 1 },
			buy:     buy,
			bars:    len(bars),
			length:  length,
			ceiling: float64(len(bars)),
		}
		for _, k := range j.kinds {
			k.lead = true
			if k.capacity = (units(j.stock[k.stock].Length) - x) / j.grain; units(j.stock[k.stock].Length) > x {
				r.extra = append(r.extra, k)
			}
		}
		// All bars but the one that keeps the offcut.
		o, all := j.order(r)
		o.have = append(o.have, float64(len(bars)-1))
		for i, k := range all {
			use := 1.0
			if k.lead {
				use = 0
			}
			o.kinds[i].use = append(o.kinds[i].use, use)
		}
		a := o.solve(nil, float64(len(bars)), min(left, j.opt.Effort.steps()/8))
		left -= a.work
		switch {
		case a.bars != nil:
			bars = chosenBars(a.bars, all)
			for i := range bars {
				bars[i].lead = false
			}
			least = max(x, j.longestOffcut(bars))
		default:
			high = x - 1
			if a.proven {
				most = high
			}
		}
	}
	if most = max(most, least); most-least < fine {
		most = least
	}
	j.longestBound = most
	j.gathered = j.longestBound-least < gatherTo
	return bars
}
