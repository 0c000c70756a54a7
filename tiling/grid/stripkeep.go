package grid

import (
	"cmp"
	"math"
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

// seamsOf returns where parts of a strip were joined, from the lowest up.
func seamsOf(parts []Part, lap float64) []float64 {
	var ends, out []float64
	for _, p := range parts {
		if !p.Gone {
			ends = append(ends, p.To)
		}
	}
	slices.Sort(ends)
	for _, p := range parts {
		i, _ := slices.BinarySearchFunc(ends, p.From+lap, func(end, want float64) int {
			if equal(end, want) {
				return 0
			}
			return cmp.Compare(end, want)
		})
		if seam := math.Round((p.From+seamInset(lap))/crossEvery) * crossEvery; !p.Gone && i < len(ends) && equal(ends[i], p.From+lap) && equal(seam, p.From+seamInset(lap)) {
			out = append(out, seam)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// number gives the windows of the strip at a place, from the lowest up, their numbers: those of the parts that stood there, the very
// same first, then those that show most of the same stretch; otherwise the next that none ever had. What the strip remembers of its
// parts is brought up to date.
func (s *strips) number(place int, windows []stretch) []int32 {
	parts := s.parts[place]
	out := make([]int32, len(windows))
	taken := make([]bool, len(parts))
	give := func(w, p int) {
		out[w], taken[p] = int32(p+1), true
	}
	exact := map[stretch]int{}
	for i, p := range parts {
		if have, ok := exact[stretch{p.From, p.To}]; !ok || parts[have].Gone && !p.Gone {
			exact[stretch{p.From, p.To}] = i
		}
	}
	for w, win := range windows {
		if p, ok := exact[win]; ok && !taken[p] {
			give(w, p)
		}
	}
	type pair struct {
		w, p   int
		common float64
	}
	var pairs []pair
	for i, p := range parts {
		if taken[i] {
			continue
		}
		at, _ := slices.BinarySearchFunc(windows, p.From, func(w stretch, from float64) int { return cmp.Compare(w.to, from) })
		for w := at; w < len(windows) && windows[w].from < p.To; w++ {
			if common := min(windows[w].to, p.To) - max(windows[w].from, p.From); out[w] == 0 && common > 0 {
				pairs = append(pairs, pair{w, i, common})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b pair) int {
		return cmp.Or(cmp.Compare(b.common, a.common), cmp.Compare(a.p, b.p), cmp.Compare(a.w, b.w))
	})
	for _, q := range pairs {
		if out[q.w] == 0 && !taken[q.p] {
			give(q.w, q.p)
		}
	}
	for i := range parts {
		parts[i].Gone = true
	}
	for w, win := range windows {
		if out[w] == 0 {
			parts = append(parts, Part{})
			out[w] = int32(len(parts))
		}
		parts[out[w]-1] = Part{From: win.from, To: win.to}
	}
	s.parts[place] = parts
	return out
}
