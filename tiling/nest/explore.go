package nest

import (
	"math"
	"math/rand/v2"
	"slices"
)

// newPacking makes the state of a search from a layout.
func newPacking(job *search, rooms []room, choices [][]choice, start saved, seed uint64) *packing {
	n := len(choices)
	s := &packing{
		job: job, nofits: job.nofits, eps: job.eps, rooms: slices.Clone(rooms), n: n, choices: choices,
		pick: make([]int, n), in: make([]int, n), id: make([]int, n),
		x: make([]float64, n), y: make([]float64, n), w: make([]float64, n), h: make([]float64, n),
		depth: make([]float64, n*n), weight: make([]float64, n*n),
		rnd: rand.New(rand.NewPCG(seed, 0)),
	}
	for i, p := range start.spots {
		o := choices[i][p.pick].outline
		s.pick[i], s.in[i], s.x[i], s.y[i], s.w[i], s.h[i], s.id[i] = p.pick, p.room, p.x, p.y, o.w, o.h, o.id
	}
	s.restore(&start)
	s.evenWeights()
	return s
}

// explore shortens the strip step by step, by large steps first. Where a length cannot be reached, the step is halved; where that is
// the least step, the search goes on from one of the states that overlapped least, with two large pieces' places exchanged, and
// now and then tries a leap. No attempt is begun after so many trials, and none goes on after the last.
func (s *packing) explore(best *saved, t tuning, until, last int) {
	if s.tried != best.length {
		s.pool, s.tried = s.pool[:0], best.length
	}
	if s.step == 0 {
		s.step = firstStep
	}
	for s.trials < until && !s.halt && best.length > 0 {
		step, least := s.step, s.step <= t.step
		if least && s.rnd.Float64() < t.leaps {
			step, least = t.step*math.Pow(firstStep/t.step, s.rnd.Float64()), false
		}
		patience, strikes := t.patience, t.strikes
		switch {
		case !least:
			patience, strikes = patience/4, 1
			fallthrough
		case len(s.pool) == 0:
			s.restore(best)
			if !s.shorten(best.length * (1 - step)) {
				s.step = max(s.step/2, t.step)
				s.trials++
				continue
			}
			if len(s.pool) > 0 {
				s.exchange()
			}
		default:
			s.another()
		}
		var got saved
		switch {
		case s.separate(t, patience, strikes, last, &got):
			s.tighten()
			s.save(best)
			s.pool, s.tried = s.pool[:0], best.length
		case least:
			s.keep(got)
		default:
			s.step = max(s.step/2, t.step)
		}
	}
}

// firstStep is the share of the length that is taken off first.
const firstStep = 0.03

// keep puts a state into the pool, which is sorted by overlap.
func (s *packing) keep(got saved) {
	at := len(s.pool)
	s.pool = append(s.pool, got)
	for ; at > 0 && s.pool[at-1].overlap > got.overlap; at-- {
		s.pool[at] = s.pool[at-1]
	}
	s.pool[at] = got
}

// another takes up one of the states of the pool, one of less overlap more likely, and exchanges two pieces.
func (s *packing) another() {
	k := int(math.Abs(s.rnd.NormFloat64()) * 0.25 * float64(len(s.pool)))
	s.restore(&s.pool[min(k, len(s.pool)-1)])
	s.exchange()
}

// exchange exchanges the places of two of the larger pieces.
func (s *packing) exchange() {
	size := func(i int) float64 { return s.w[i] * s.h[i] }
	large := func() int {
		i := s.rnd.IntN(s.n)
		for range 2 {
			if j := s.rnd.IntN(s.n); size(j) > size(i) {
				i = j
			}
		}
		return i
	}
	i, j := large(), large()
	for k := 0; k < 20 && (s.id[i] == s.id[j] || i == j); k++ {
		i, j = large(), large()
	}
	if i == j {
		return
	}
	at := spot{s.pick[i], s.in[i], s.x[i] + s.w[i]/2, s.y[i] + s.h[i]/2, 0}
	s.centre(i, spot{s.pick[j], s.in[j], s.x[j] + s.w[j]/2, s.y[j] + s.h[j]/2, 0})
	s.centre(j, at)
}

// centre lays piece i, as it is turned, with its middle as near to the spot as the spot's room allows, if that holds it.
func (s *packing) centre(i int, at spot) {
	o, r := s.choices[i][s.pick[i]].outline, s.rooms[at.room]
	if r.holds(o, s.eps) {
		x, y := r.inside(o, at.x-o.w/2, at.y-o.h/2)
		s.put(i, spot{pick: s.pick[i], room: at.room, x: x, y: y})
	}
}

// compress shortens the strip by ever smaller steps.
func (s *packing) compress(best *saved, from, to float64, t tuning, until int) {
	begin := s.trials
	for s.trials < until && !s.halt && best.length > 0 {
		share := float64(s.trials-begin) / float64(until-begin)
		step := from * math.Pow(to/from, share)
		s.restore(best)
		if !s.shorten(best.length * (1 - step)) {
			s.trials++
			continue
		}
		var got saved
		if s.separate(t, 100, 2, until, &got) {
			s.tighten()
			s.save(best)
		}
	}
}

// tighten sets the length of the last room to what its pieces use.
func (s *packing) tighten() { s.rooms[len(s.rooms)-1].w = s.reach() }
