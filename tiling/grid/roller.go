package grid

import (
	"math"
	"math/bits"

	"markout/layout/geom"
)

// roller measures how much of a roll each origin across it would use: in each of the intervals across (as sieve has them) a bit
// for every few millimetres along.
type roller struct {
	strips
	axis  sieveAxis
	tried int     // origins within one step
	low   int     // interval across of ink[0]
	base  float64 // across
	start float64 // along
	words int
	lap   float64
	butt  bool
	ink   [][]uint64
	taken int // words
	full  bool
	most  float64 // longest window
}

// rollEach is the least length to which strips' ends are rounded; a very long drawing has it doubled until its ink can be kept.
const rollEach = 5.0

// A roller's sizes: words for one interval across, and for all of them.
const (
	mostRollWords = 1 << 12
	mostRollInk   = 1 << 24
)

// stripWork is the length of paper that one strip less is worth: it need not be cut, trimmed, laid and taped (common
// practice, no source).
const stripWork = 500.0

// newRoller makes a roller that tries all origins for a roll of a live width over bounds b.
func newRoller(along int, live, lap, half, most float64, b geom.Rect) *roller {
	r := &roller{strips: strips{along: along, each: rollEach}, lap: lap, butt: lap < 2*half, most: most}
	a0, c0 := r.alongOf(b.Min)
	a1, _ := r.alongOf(b.Max)
	step := live - lap
	r.start = math.Floor(a0 - half)
	for r.words = r.width(a1 + half); r.words >= mostRollWords; r.words = r.width(a1 + half) {
		r.each *= 2
	}
	r.aim(origins, c0-half-hair-step, step, half, b)
	return r
}

// newRollerAt makes a roller for strips that are counted from base, and along it from its other coordinate in steps of each. It
// returns nil where the drawing is too long for that.
func newRollerAt(base geom.Point, along int, each, live, lap, half, most float64, b geom.Rect) *roller {
	r := &roller{strips: strips{along: along, each: each}, lap: lap, butt: lap < 2*half, most: most}
	a0, _ := r.alongOf(b.Min)
	a1, _ := r.alongOf(b.Max)
	at, across := r.alongOf(base)
	r.start = at + math.Floor((math.Floor(a0-half)-at)/each)*each
	if r.words = r.width(a1 + half); r.words > mostRollWords {
		return nil
	}
	r.aim(1, across, live-lap, half, b)
	return r
}

// aim sets where across the tried origins lie, the first of them at base.
func (r *roller) aim(tried int, base, step, half float64, b geom.Rect) {
	r.tried, r.base = tried, base
	over, inset := r.lap-2*half, half
	if r.butt {
		over, inset = r.lap+2*half, -half
	}
	f := step / float64(tried)
	m := math.Floor(over / f)
	r.axis = sieveAxis{f: f, m: int(m), rest: over/f - m, shift: base + inset}
	_, lo := r.alongOf(b.Min)
	_, hi := r.alongOf(b.Max)
	strip := func(v float64) int { return r.axis.index(r.axis.scale(v)) / (2 * tried) }
	first, last := strip(lo-half)-2, strip(hi+half)+2
	r.low = first * 2 * tried
	r.ink = make([][]uint64, (last-first+1)*2*tried)
}

func (r *roller) width(end float64) int { return int((end-r.start)/r.each)/64 + 1 }

// line takes in a straight line of so much half width.
func (r *roller) line(p, q geom.Point, half float64) {
	av, au := r.alongOf(p)
	bv, bu := r.alongOf(q)
	au, bu = r.axis.scale(au), r.axis.scale(bu)
	if au > bu {
		av, au, bv, bu = bv, bu, av, au
	}
	e0, e1 := r.axis.index(au), r.axis.index(bu)
	from := av
	for e := e0; e < e1; e++ {
		to := av + (r.axis.end(e)-au)/(bu-au)*(bv-av)
		r.span(e, from, to, half)
		from = to
	}
	r.span(e1, from, bv, half)
}

func (r *roller) span(e int, a, b, half float64) {
	if a > b {
		a, b = b, a
	}
	e -= r.low
	if r.ink[e] == nil {
		if r.taken += r.words; r.taken > mostRollInk {
			r.full = true
			return
		}
		r.ink[e] = make([]uint64, r.words)
	}
	lo := max(int((a-half-r.start)/r.each), 0)
	hi := min(int((b+half-r.start)/r.each), r.words*64-1)
	for w := lo / 64; w <= hi/64; w++ {
		from, to := max(lo-w*64, 0), min(hi-w*64, 63)
		r.ink[e][w] |= ^uint64(0) >> (63 - (to - from)) << from
	}
}

// walk takes in everything that ink puts on paper.
func (r *roller) walk(k *ink) {
	for i := range k.tracks {
		t := &k.tracks[i]
		a := k.at(t, 0)
		for s := range t.segments() {
			b := k.at(t, s+1)
			r.line(a, b, t.width/2)
			a = b
		}
	}
	for i := range k.words {
		if w := &k.words[i]; counts(w) {
			r.ring(w.corners[:])
		}
	}
	for i := range k.areas {
		r.fill(k.areas[i].rings)
	}
	for i := range k.pictures {
		for _, b := range k.pictures[i].boxes {
			r.fill([][]geom.Point{ringOf(b)})
		}
	}
}

// fill takes in the inside of closed rings by the even-odd rule, and their edges.
func (r *roller) fill(rings [][]geom.Point) {
	lo, hi := math.Inf(1), math.Inf(-1)
	turned := make([][]geom.Point, len(rings))
	for i, ring := range rings {
		r.ring(ring)
		for _, p := range ring {
			v, u := r.alongOf(p)
			u = r.axis.scale(u)
			lo, hi = min(lo, u), max(hi, u)
			turned[i] = append(turned[i], geom.Point{X: v, Y: u})
		}
	}
	if lo > hi {
		return
	}
	for e := r.axis.index(lo); e <= r.axis.index(hi); e++ {
		cuts := crossings(turned, r.axis.middle(e), nil)
		for i := 0; i+1 < len(cuts); i += 2 {
			r.span(e, cuts[i], cuts[i+1], 0)
		}
	}
}

func (r *roller) ring(ps []geom.Point) {
	for i, a := range ps {
		r.line(a, ps[(i+1)%len(ps)], 0)
	}
}

// stretch is a window along a strip.
type stretch struct{ from, to float64 }

// cut returns the strips of origin i: of each that is wanted, its place across and the stretches along it that it shows.
func (r *roller) cut(i int, visit func(c int, s []stretch)) {
	fine := 2 * r.tried
	n := len(r.ink) / fine
	m := r.axis.m
	wanted := make([]bool, n+1)
	for c := range n {
		k := fine*c + 2*i
		own, lap := r.any(k+2*m+1, k+fine-1), r.any(k, k+2*m)
		if own || r.butt && lap {
			wanted[c] = true
		}
		if lap && c > 0 && (r.butt || !wanted[c-1] && !own) {
			// On the lap alone: either strip shows it whole; of butt edges both are wanted.
			if r.butt {
				wanted[c-1] = true
			} else {
				wanted[c] = true
			}
		}
	}
	all := make([]uint64, r.words)
	for c := range n {
		if !wanted[c] {
			continue
		}
		clear(all)
		k := fine*c + 2*i
		for e := k; e <= k+fine+2*m && e < len(r.ink); e++ {
			for w, b := range r.ink[e] {
				all[w] |= b
			}
		}
		visit(c+r.low/fine, r.stretches(all))
	}
}

func (r *roller) any(from, to int) bool {
	for e := from; e <= to && e < len(r.ink); e++ {
		if r.ink[e] != nil {
			return true
		}
	}
	return false
}

// stretches returns the windows that show every bit, apart where a gap is wide, with blank paper at both ends.
func (r *roller) stretches(all []uint64) []stretch {
	var out []stretch
	from, last := -1, -1
	close := func() {
		if from < 0 {
			return
		}
		s := stretch{math.Floor(r.start + float64(from)*r.each - stripPad), math.Ceil(r.start + float64(last+1)*r.each + stripPad)}
		if short := stripLeast - (s.to - s.from); short > 0 {
			s.from, s.to = math.Floor(s.from-short/2), math.Ceil(s.to+short/2)
		}
		out = append(out, s)
	}
	for w, b := range all {
		for b != 0 {
			at := w*64 + bits.TrailingZeros64(b)
			b &= b - 1
			if from < 0 || float64(at-last)*r.each > stripGap {
				close()
				from = at
			}
			last = at
		}
	}
	close()
	return out
}
