package nest

import (
	"math"
	"slices"
)

// tuning of the search; found by trying on published instances.
type tuning struct {
	samples int // random places tried for a move
	focus   int // places tried about where a piece lies
	corners int // corners of borders tried
	settled int // places from which a piece settles

	patience, strikes int     // passes without less overlap before the best state is taken up again, and how often that is done
	step              float64 // share of the length that is taken off
	low, high, decay  float64 // what weights are multiplied with: least and most where pieces overlap, and where they do not
	leaps             float64 // share of attempts by larger steps
}

var tuned = tuning{samples: 4, focus: 1, corners: 12, settled: 1, patience: 30, strikes: 1, step: 0.002, low: 1.2, high: 2, decay: 0.95, leaps: 0.15}

// move seeks the place of least weighted overlap for piece i and lays it there.
func (s *packing) move(i int, t tuning) {
	s.trials++
	spots := s.spots[:0]
	worst := math.Inf(1)
	consider := func(pick, in int, x, y float64) {
		o := s.choices[i][pick].outline
		x, y = s.rooms[in].inside(o, x, y)
		c := s.cost(i, o, x, y, worst)
		if c >= worst {
			return
		}
		at := len(spots)
		if at == t.settled {
			at--
		} else {
			spots = append(spots, spot{})
		}
		for at > 0 && spots[at-1].cost > c {
			spots[at] = spots[at-1]
			at--
		}
		spots[at] = spot{pick, in, x, y, c}
		if len(spots) == t.settled {
			worst = spots[len(spots)-1].cost
		}
	}
	n := len(s.choices[i])
	for range t.samples {
		pick, in := s.rnd.IntN(n), s.anyRoom()
		o, r := s.choices[i][pick].outline, s.rooms[in]
		if r.holds(o, s.eps) {
			consider(pick, in, r.x0+s.rnd.Float64()*(r.w-o.w), s.rnd.Float64()*(r.h-o.h))
		}
	}
	for range t.focus {
		r := 0.25 * (s.w[i] + s.h[i])
		consider(s.pick[i], s.in[i], s.x[i]+r*(s.rnd.Float64()-0.5), s.y[i]+r*(s.rnd.Float64()-0.5))
	}
	for range t.corners {
		pick, j := s.rnd.IntN(n), s.rnd.IntN(s.n)
		o := s.choices[i][pick].outline
		if j == i || !s.rooms[s.in[j]].holds(o, s.eps) {
			continue
		}
		g := s.gaugeOf(j, o)
		if len(g.runs) == 0 {
			continue
		}
		r := &g.runs[s.rnd.IntN(len(g.runs))]
		consider(pick, s.in[j], r.ax+s.x[j], r.ay+s.y[j])
	}
	here := spot{s.pick[i], s.in[i], s.x[i], s.y[i], s.weighted(i)}
	best := s.settle(i, here)
	s.spots = spots
	for _, p := range spots {
		if q := s.settle(i, p); q.cost < best.cost {
			best = q
		}
	}
	if best != here {
		s.put(i, best)
	}
}

// saved is where all pieces lay.
type saved struct {
	spots   []spot
	overlap float64
	length  float64
}

func (v saved) clone() saved {
	v.spots = slices.Clone(v.spots)
	return v
}

func (s *packing) save(to *saved) {
	to.spots = to.spots[:0]
	for i := range s.n {
		to.spots = append(to.spots, spot{pick: s.pick[i], room: s.in[i], x: s.x[i], y: s.y[i]})
	}
	to.overlap, to.length = s.overlap(), s.rooms[len(s.rooms)-1].w
}

func (s *packing) restore(from *saved) {
	s.rooms[len(s.rooms)-1].w = from.length
	for i, p := range from.spots {
		s.put(i, p)
	}
}

// shorten sets the length of the last room and pushes what reaches past it back, turned another way where it would not fit.
// It reports whether every piece still fits.
func (s *packing) shorten(length float64) bool {
	last := len(s.rooms) - 1
	s.rooms[last].w = length
	for i := range s.n {
		r := s.rooms[s.in[i]]
		if s.in[i] != last || s.x[i]+s.w[i] <= r.x0+length {
			continue
		}
		pick, in := s.pick[i], last
		if !r.holds(s.choices[i][pick].outline, s.eps) {
			if pick, in = s.fitting(i); pick < 0 {
				return false
			}
		}
		x, y := s.rooms[in].inside(s.choices[i][pick].outline, s.x[i], s.y[i])
		s.put(i, spot{pick: pick, room: in, x: x, y: y})
	}
	return true
}

// fitting returns a pick of piece i and a room that holds it, the last room first; −1 where there is none.
func (s *packing) fitting(i int) (pick, in int) {
	for in := len(s.rooms) - 1; in >= 0; in-- {
		for pick, c := range s.choices[i] {
			if s.rooms[in].holds(c.outline, s.eps) {
				return pick, in
			}
		}
	}
	return -1, 0
}

// anyRoom returns a room at random, the larger the likelier.
func (s *packing) anyRoom() int {
	if len(s.rooms) == 1 {
		return 0
	}
	total := 0.0
	for _, r := range s.rooms {
		total += r.w * r.h
	}
	total *= s.rnd.Float64()
	for in, r := range s.rooms {
		if total -= r.w * r.h; total < 0 {
			return in
		}
	}
	return len(s.rooms) - 1
}

// reweigh makes the weights of pairs that overlap grow, most where they overlap deepest, and lets the others sink back.
func (s *packing) reweigh(t tuning) {
	deepest := 0.0
	for _, d := range s.depth {
		deepest = math.Max(deepest, d)
	}
	if deepest == 0 {
		return
	}
	for k, d := range s.depth {
		if d > 0 {
			s.weight[k] = min(s.weight[k]*(t.low+(t.high-t.low)*d/deepest), heaviest)
		} else {
			s.weight[k] = math.Max(1, s.weight[k]*t.decay)
		}
	}
}

// heaviest bounds weights, so that their products with depths stay numbers.
const heaviest = 1e30

func (s *packing) evenWeights() {
	for k := range s.weight {
		s.weight[k] = 1
	}
}

// pass moves every piece that overlaps another once, in a random order.
func (s *packing) pass(t tuning) {
	s.order = s.order[:0]
	for i := range s.n {
		s.order = append(s.order, i)
	}
	s.rnd.Shuffle(s.n, func(a, b int) { s.order[a], s.order[b] = s.order[b], s.order[a] })
	before := s.trials
	for _, i := range s.order {
		if s.weighted(i) > 0 {
			s.move(i, t)
		}
	}
	s.halt = s.job.halted(s.trials - before)
}

// separate moves pieces until none overlap, or gives up: after so many passes in a row without less overlap than before the best
// state is taken up again, and that a number of times. It reports whether nothing overlaps; if not, best holds the state
// of least overlap.
func (s *packing) separate(t tuning, patience, strikes, until int, best *saved) bool {
	s.evenWeights()
	s.save(best)
	if best.overlap == 0 {
		return true
	}
	for k := 0; k < strikes; k++ {
		atStart := best.overlap
		for idle := 0; idle < patience; {
			s.pass(t)
			o := s.overlap()
			if o == 0 {
				s.save(best)
				return true
			}
			if s.trials >= until || s.halt {
				return false
			}
			s.reweigh(t)
			if o < best.overlap {
				if o < 0.98*best.overlap {
					idle = 0
				}
				s.save(best)
			} else {
				idle++
			}
		}
		if best.overlap < 0.98*atStart {
			k = -1
		}
		s.restore(best)
	}
	return false
}
