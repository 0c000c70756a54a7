package cut

import (
	"cmp"
	"slices"

	"markout/layout/geom"
)

// plan writes the bars out: which is in hand, the cuts from the datum end, whose piece each is.
func (j *lengthJob) plan(bars []chosen) *LengthPlan {
	p := &LengthPlan{Bound: j.least, BuyBound: j.buyLeast, Proven: j.proven, LongestBound: float64(j.longestBound) * geom.Tolerance, LongestProven: j.gathered}
	slices.SortStableFunc(bars, func(a, b chosen) int {
		if c := cmp.Compare(a.lot, b.lot); c != 0 {
			return c
		}
		if c := cmp.Compare(j.load(b.counts), j.load(a.counts)); c != 0 {
			return c
		}
		return -slices.Compare(a.counts, b.counts)
	})
	j.settle(bars)
	next := make([]struct{ member, given int }, len(j.sizes))
	number := map[string]int{}
	short := make([]int, len(j.pieces))
	for _, b := range bars {
		s := j.stock[b.lot]
		number[s.Name]++
		c := CutBar{Stock: b.lot, Name: s.Name, Number: number[s.Name], Length: s.Length, Buy: b.buy}
		from := 0.0
		for item, n := range b.counts {
			for range n {
				at := &next[item]
				piece := j.members[item][at.member]
				if at.given++; at.given == j.pieces[piece].Count {
					at.member, at.given = at.member+1, 0
				}
				pc := j.pieces[piece]
				c.Cuts = append(c.Cuts, Cut{Piece: piece, ID: pc.ID, From: from, Length: pc.Length})
				from += pc.Length + j.kerf
				if b.buy {
					short[piece]++
				}
			}
		}
		c.Offcut = max(0, s.Length-from)
		if b.buy {
			p.Buy++
		}
		p.StockLength += s.Length
		p.Longest = max(p.Longest, c.Offcut)
		p.Bars = append(p.Bars, c)
	}
	for i, n := range short {
		if n > 0 {
			p.Short = append(p.Short, Short{Piece: i, ID: j.pieces[i].ID, Count: n})
		}
	}
	return p
}
