package grid

import (
	"cmp"
	"slices"
)

// stripsAsBefore lays strips as an earlier issue has them. It reports false where the roll, its margins or the lap are others, or the
// drawing has become too long or gone too far away.
func (g *grid) stripsAsBefore(opt Options) (bool, error) {
	r := g.was
	if r == nil || r.Roll == nil || !equal(r.Size[0], opt.Paper.W) {
		return false, nil
	}
	along := 0
	if r.Roll.Along == "y" {
		along = 1
	}
	b, err := bedOf(along, opt)
	if err != nil {
		return false, err
	}
	if !r.laidOn(b.margins, opt.Lap) {
		return false, nil
	}
	g.base = r.origin()
	step := b.live - opt.Lap
	g.step = (&strips{along: along}).point(step, step)
	if g.far() || newRollerAt(g.base, along, r.Roll.Each, b.live, opt.Lap, g.half(), b.most, g.ink.bounds) == nil {
		return false, nil
	}
	return true, g.settleStrips(along, r.Roll.Each, b, opt)
}

// parts returns every part that a record's strips have had, by their places; of no record none.
func (r *GridRecord) parts() map[int][]Part {
	out := map[int][]Part{}
	if r != nil {
		for _, s := range r.Roll.Strips {
			out[s.Place] = slices.Clone(s.Parts)
		}
	}
	return out
}

// number gives the windows of the strip at a place, from the lowest up, their numbers: the very same windows those that they had, gone
// ones too; the others that of the part which shows most of the same stretch, or the next that none ever had. What the strip
// remembers is brought up to date.
func (s *strips) number(place int, windows []stretch) []int32 {
	parts := s.parts[place]
	last := 0
	for _, p := range parts {
		last = max(last, p.Number)
	}
	out := make([]int32, len(windows))
	taken := map[int]bool{}
	give := func(w, n int) {
		if out[w] == 0 && !taken[n] {
			out[w], taken[n] = int32(n), true
		}
	}
	at := map[stretch]int{}
	for w, win := range windows {
		at[win] = w
	}
	for _, gone := range [2]bool{false, true} {
		for _, p := range parts {
			if w, ok := at[stretch{p.From, p.To}]; ok && p.Gone == gone {
				give(w, p.Number)
			}
		}
	}
	type pair struct {
		w, n   int
		common float64
	}
	var pairs []pair
	for _, p := range parts {
		if p.Gone || taken[p.Number] {
			continue
		}
		w, _ := slices.BinarySearchFunc(windows, p.From, func(w stretch, from float64) int { return cmp.Compare(w.to, from) })
		for ; w < len(windows) && windows[w].from < p.To; w++ {
			if common := min(windows[w].to, p.To) - max(windows[w].from, p.From); out[w] == 0 && common > 0 {
				pairs = append(pairs, pair{w, p.Number, common})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b pair) int {
		return cmp.Or(cmp.Compare(b.common, a.common), cmp.Compare(a.n, b.n), cmp.Compare(a.w, b.w))
	})
	for _, q := range pairs {
		give(q.w, q.n)
	}
	var now []Part
	for w, win := range windows {
		if out[w] == 0 {
			last++
			out[w] = int32(last)
		}
		now = append(now, Part{Number: int(out[w]), From: win.from, To: win.to})
	}
	for _, p := range parts {
		if w, ok := at[stretch{p.From, p.To}]; !ok || int(out[w]) != p.Number {
			now = append(now, Part{Number: p.Number, From: p.From, To: p.To, Gone: true})
		}
	}
	slices.SortFunc(now, func(a, b Part) int {
		return cmp.Or(cmp.Compare(a.Number, b.Number), cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To))
	})
	s.parts[place] = slices.CompactFunc(now, func(a, b Part) bool { return a.Number == b.Number && a.From == b.From && a.To == b.To })
	return out
}
