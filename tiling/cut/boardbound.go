package cut

// boundBySize is a number of boards that are needed however pieces lie, guillotine or free: the greatest of
// the pieces' areas and of areas changed by dual feasible functions on either side (Fekete and Schepers
// 2001), which no set of pieces that lies on one board exceeds. Of several boards the longest length and the
// greatest width count.
func (j *boardJob) boundBySize() int {
	var board rectangle
	for _, b := range j.boards {
		board.l, board.w = max(board.l, b.l), max(board.w, b.w)
	}
	along, across := j.scales(board.l), j.scales(board.w)
	best := 0.0
	for _, f := range along {
		for _, g := range across {
			sum := 0.0
			for i, t := range j.items {
				least := 1.0
				for _, w := range t.ways() {
					if board.holds(w) {
						least = min(least, f(w.l, board.l)*g(w.w, board.w))
					}
				}
				sum += least * float64(j.demand[i])
			}
			best = max(best, sum)
		}
	}
	return max(1, int(wholeUp(best)))
}

// scale is a dual feasible function: a side of the whole to a number from 0 to 1, such that sides that
// together are no longer than the whole come to no more than 1.
type scale func(side, whole int64) float64

func part(side, whole int64) float64 { return float64(side) / float64(whole) }

// scales are the functions tried: the plain part; sides under a bound counted as nothing and those over
// the whole less it as all; multiples rounded down.
func (j *boardJob) scales(whole int64) []scale {
	out := []scale{part}
	seen := map[int64]bool{}
	for _, t := range j.items {
		for _, bound := range []int64{t.l, t.w, whole - t.l, whole - t.w} {
			// Just above a side that counts as nothing, or just below one that counts as all.
			for _, b := range []int64{bound, bound + 1} {
				if b <= 0 || 2*b > whole || seen[b] || len(seen) > 40 {
					continue
				}
				seen[b] = true
				out = append(out, func(side, whole int64) float64 {
					switch {
					case side > whole-b:
						return 1
					case side < b:
						return 0
					}
					return part(side, whole)
				})
			}
		}
	}
	for k := int64(1); k <= 4; k++ {
		out = append(out, func(side, whole int64) float64 {
			if (k+1)*side%whole == 0 {
				return part(side, whole)
			}
			return float64((k+1)*side/whole) / float64(k)
		})
	}
	return out
}
