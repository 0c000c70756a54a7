package grid

import (
	"errors"
	"math"

	"markout/layout/geom"
)

// origins is how many places of the grid's origin are tried each way within one step.
const origins = 16

// fine is how many intervals a step is cut into: between the places where a window of one of the tried grids begins
// and where one ends.
const (
	fine     = 2 * origins
	fineBits = 5
)

var _ [fine - 1<<fineBits]struct{} // fine is so many bits
var _ [1<<fineBits - fine]struct{}

// hair is what the first window has to spare beyond the bounds, so that what just fits does.
const hair = 0.05

// MostPages is the greatest number of pages of one document.
const MostPages = 200_000

var errTooMany = errors.New("more than 200000 pages")

// sieve counts the pages of every tried origin at once.
//
// Window k of an axis begins at base + k·f, f a sixteenth of a step; the windows of origin i are k = i, i+16, i+32 … A place
// lies wholly on window k (with half a line's width to spare) from its beginning to its end, which lies 16 + m of those
// sixteenths and a rest further on. So the axis falls into intervals, two a sixteenth, inside which nothing changes:
// interval 2k is where window k has begun and window k−16−m has not ended yet, 2k+1 where that one has ended. Window k shows
// intervals 2k to 2k+32+2m; of these the windows before and after it show the first 2m+1 and the last 2m+1 as well: the
// laps. The drawing is walked once through these intervals in both directions, a bit each, in blocks of 32 × 32; all
// counts are then made from the bits.
//
// Where the lap is narrower than a line (butt edges) a line on an edge lies wholly on no window, and both windows that
// touch it are wanted: windows are then taken wider by half a line instead of narrower.
type sieve struct {
	base geom.Point
	axis [2]sieveAxis
	butt bool

	tiles *plane
	bits  [][fine]uint32
	spots []spot // scratch of solve
	lastC int
	lastR int
	last  int32
	full  bool // more blocks than the most pages can fill
}

type sieveAxis struct {
	f, shift float64 // u = (x − shift) / f
	m        int
	rest     float64 // of f
}

// reset begins the search for windows of live size that lap, over a drawing's bounds and half its widest line. A sieve is used
// again for the sheet's other way round, since it is the largest thing that laying out a drawing needs.
func (s *sieve) reset(live geom.Point, lap, half float64, bounds geom.Rect) {
	step := live.Sub(geom.Point{X: lap, Y: lap})
	s.begin(bounds.Min.Sub(step).Sub(geom.Point{X: half + hair, Y: half + hair}), live, lap, half, origins)
	w := int((bounds.W()+2*half)/step.X) + 4
	h := int((bounds.H()+2*half)/step.Y) + 4
	s.tiles = newPlane(0, 0, w, h)
}

// begin empties a sieve for windows whose first is at base, and for so many origins within one step.
func (s *sieve) begin(base, live geom.Point, lap, half float64, parts int) {
	*s = sieve{butt: lap < 2*half, bits: s.bits[:0], spots: s.spots[:0], base: base, lastC: math.MinInt}
	step := live.Sub(geom.Point{X: lap, Y: lap})
	over, inset := lap-2*half, half
	if s.butt {
		over, inset = lap+2*half, -half
	}
	for i, st := range [2]float64{step.X, step.Y} {
		f := st / float64(parts)
		m := math.Floor(over / f)
		s.axis[i] = sieveAxis{f: f, m: int(m), rest: over/f - m}
	}
	s.axis[0].shift, s.axis[1].shift = s.base.X+inset, s.base.Y+inset
}

func (a *sieveAxis) scale(x float64) float64 { return (x - a.shift) / a.f }

// index returns the interval of a scaled place.
func (a *sieveAxis) index(u float64) int {
	k := int64(u)
	if u < float64(k) {
		k--
	}
	if u-float64(k) > a.rest {
		return int(2*k + 1)
	}
	return int(2 * k)
}

// end returns where an interval ends, scaled.
func (a *sieveAxis) end(e int) float64 {
	if e&1 == 0 {
		return float64(e>>1) + a.rest
	}
	return float64(e>>1) + 1
}

// middle returns the middle of an interval, scaled.
func (a *sieveAxis) middle(e int) float64 {
	if e&1 == 0 {
		return float64(e>>1) + a.rest/2
	}
	return float64(e>>1) + (1+a.rest)/2
}

// walk takes in everything that ink puts on paper.
func (s *sieve) walk(k *ink) {
	x, y := &s.axis[0], &s.axis[1]
	fx, fy := 1e-3/x.f, 1e-3/y.f
	for i := range k.tracks {
		t := &k.tracks[i]
		ox, oy := x.scale(t.origin.X), y.scale(t.origin.Y)
		pts := k.pts[t.from:t.to]
		ax, ay := ox+float64(pts[0].x)*fx, oy+float64(pts[0].y)*fy
		firstX, firstY := ax, ay
		for _, p := range pts[1:] {
			bx, by := ox+float64(p.x)*fx, oy+float64(p.y)*fy
			s.line(ax, ay, bx, by)
			ax, ay = bx, by
		}
		if t.closed {
			s.line(ax, ay, firstX, firstY)
		}
		if s.full {
			return
		}
	}
	for i := range k.words {
		if w := &k.words[i]; counts(w) {
			s.fill([][]geom.Point{w.corners[:]})
		}
	}
	for i := range k.areas {
		s.fill(k.areas[i].rings)
	}
	for i := range k.pictures {
		for _, b := range k.pictures[i].boxes {
			s.fill([][]geom.Point{ringOf(b)})
		}
	}
}

// line takes in a straight line, scaled places.
func (s *sieve) line(ax, ay, bx, by float64) {
	if ay > by {
		ax, ay, bx, by = bx, by, ax, ay
	}
	y := &s.axis[1]
	e0, e1 := y.index(ay), y.index(by)
	if e0 == e1 {
		s.span(e0, ax, bx)
		return
	}
	slope := (bx - ax) / (by - ay)
	from := ax
	for e := e0; e < e1; e++ {
		to := ax + (y.end(e)-ay)*slope
		s.span(e, from, to)
		from = to
	}
	s.span(e1, from, bx)
}

// span marks the intervals from a to b along x in interval e of y.
func (s *sieve) span(e int, a, b float64) {
	if a > b {
		a, b = b, a
	}
	x := &s.axis[0]
	c0, c1 := x.index(a), x.index(b)
	for c := c0 >> fineBits; c <= c1>>fineBits; c++ {
		lo, hi := uint(0), uint(fine-1)
		if c == c0>>fineBits {
			lo = uint(c0 & (fine - 1))
		}
		if c == c1>>fineBits {
			hi = uint(c1 & (fine - 1))
		}
		s.tile(c, e>>fineBits)[e&(fine-1)] |= ^uint32(0) >> (fine - 1 - (hi - lo)) << lo
	}
}

func (s *sieve) tile(c, r int) *[fine]uint32 {
	if c == s.lastC && r == s.lastR {
		return &s.bits[s.last]
	}
	i := s.tiles.get(c, r)
	if i < 0 {
		// A window reaches over four blocks.
		if len(s.bits) > 4*MostPages {
			s.full = true
			return &s.bits[0]
		}
		i = int32(len(s.bits))
		s.bits = append(s.bits, [fine]uint32{})
		s.tiles.set(c, r, i)
	}
	s.lastC, s.lastR, s.last = c, r, i
	return &s.bits[i]
}

// fill takes in the inside of closed rings by the even-odd rule, and their edges.
func (s *sieve) fill(rings [][]geom.Point) {
	x, y := &s.axis[0], &s.axis[1]
	lo, hi := math.Inf(1), math.Inf(-1)
	var scaled [][]geom.Point
	for _, ring := range rings {
		u := make([]geom.Point, len(ring))
		for i, p := range ring {
			u[i] = geom.Point{X: x.scale(p.X), Y: y.scale(p.Y)}
			lo, hi = min(lo, u[i].Y), max(hi, u[i].Y)
		}
		for i := range u {
			n := u[(i+1)%len(u)]
			s.line(u[i].X, u[i].Y, n.X, n.Y)
		}
		scaled = append(scaled, u)
	}
	if len(scaled) == 0 || lo > hi {
		return
	}
	var cuts []float64
	for e := y.index(lo); e <= y.index(hi) && !s.full; e++ {
		cuts = crossings(scaled, y.middle(e), cuts[:0])
		for i := 0; i+1 < len(cuts); i += 2 {
			s.span(e, cuts[i], cuts[i+1])
		}
	}
}
