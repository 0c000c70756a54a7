package trace

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// spacing is about how far apart the samples of an edge line stand, in pixels.
const spacing = 0.75

// ring is a loop of the edge line made ready for fitting: samples at equal steps along it, at which fitted curves begin
// and end, and how far the fitted outline may be from each of the line's own vertices.
type ring struct {
	loop  *loop
	edge  []geom.Point // the line's vertices and the samples, in order; closed, the first is not repeated
	added []bool       // those that are samples and no vertices
	lim   []float64    // how far the outline may be from each
	at    []int        // where in edge each sample stands
	p     []geom.Point // the samples; of a hard edge with the staircase taken out
	step  float64      // between samples along the line
	manner
	aim   float64 // the limit that is set first
	whole float64 // and the one about corners
}

// manner is how closely features are looked for, in pixels and radians: an antialiased line is good to a few hundredths
// of a pixel, one along the staircase of a hard edge to half a pixel.
type manner struct {
	near, reach, far float64 // where the arms beside a corner begin, end, and end for the second look
	least, certain   float64 // the turn of a corner, and that which needs no second look
	off              float64 // how far a corner may be from the line
	between          float64 // the least distance between corners
	straight, bow    float64 // how far a straight run may be from its line, and how much bent
	run              float64 // the least length of a straight run
	rough            float64 // how far the line is from what it stands for
}

var (
	antialiased = manner{
		near: 1.5, reach: 5, far: 10, least: 25 * math.Pi / 180, certain: 60 * math.Pi / 180, off: 1.05, between: 3,
		straight: 0.12, bow: 0.08, run: 15, rough: 0.12,
	}
	staircase = manner{
		near: 3, reach: 9, far: 16, least: 40 * math.Pi / 180, certain: 75 * math.Pi / 180, off: 1.05, between: 5,
		straight: 0.4, bow: 0.15, run: 40, rough: 0.4,
	}
)

func newRing(l *loop, tol float64) *ring {
	r := &ring{loop: l, manner: antialiased, aim: 0.6 * tol, whole: 0.97 * tol}
	if l.hard {
		r.manner, r.aim = staircase, 0.9*tol
	}
	r.straight, r.off = min(r.straight, r.aim), min(r.off, 1.05*tol)
	pts := plainStart(l.pts)
	n := len(pts)
	length := 0.0
	for i, q := range pts {
		length += q.Dist(pts[(i+1)%n])
	}
	m := max(8, int(math.Round(length/spacing)))
	r.step = length / float64(m)
	r.p = make([]geom.Point, 0, m)
	r.at = make([]int, 0, m)
	r.edge = make([]geom.Point, 0, n+m)
	r.added = make([]bool, 0, n+m)
	put := func(q geom.Point, added bool) {
		r.edge = append(r.edge, q)
		r.added = append(r.added, added)
	}
	done := 0.0
	for i, a := range pts {
		b := pts[(i+1)%n]
		d := a.Dist(b)
		put(a, false)
		for k := len(r.p); k < m && float64(k)*r.step < done+d; k++ {
			if t := (float64(k)*r.step - done) / d; t > 1e-6 {
				put(a.Lerp(b, min(t, 1)), true)
			}
			r.at = append(r.at, len(r.edge)-1)
			r.p = append(r.p, r.edge[len(r.edge)-1])
		}
		done += d
	}
	for len(r.p) < m { // lost to rounding
		r.at = append(r.at, len(r.edge)-1)
		r.p = append(r.p, r.edge[len(r.edge)-1])
	}
	if l.hard && m > 40 {
		r.p = smoothed(r.p, int(4.5/r.step))
	}
	r.lim = make([]float64, len(r.edge))
	for i := range r.lim {
		r.lim[i] = r.aim
	}
	return r
}

// plainStart returns the closed run from the straightest of a few places, so that no feature stands at its seam.
func plainStart(pts []geom.Point) []geom.Point {
	const tries, around = 16, 12
	n := len(pts)
	if n < 4*around {
		return pts
	}
	best, least := 0, math.Inf(1)
	for i := range tries {
		k := i * n / tries
		a, b, c := pts[(k+n-around)%n], pts[k], pts[(k+around)%n]
		if bent := a.Dist(b) + b.Dist(c) - a.Dist(c); bent < least-1e-3 {
			best, least = k, bent
		}
	}
	return slices.Concat(pts[best:], pts[:best])
}

// smoothed returns the closed run with each place taken from the parabola that fits best w places to both sides of it
// (Savitzky and Golay, "Smoothing and differentiation of data by simplified least squares procedures", 1964).
func smoothed(p []geom.Point, w int) []geom.Point {
	out := make([]geom.Point, len(p))
	n := len(p)
	for k := range p {
		out[k] = parabola(w, func(i int) geom.Point { return p[(k+i+n)%n] })
	}
	return out
}

// parabola returns the middle of the least-squares parabola through the 2w + 1 places at −w … w.
func parabola(w int, at func(i int) geom.Point) geom.Point {
	s0, s2, s4 := powers(w)
	var a, b geom.Point
	for i := -w; i <= w; i++ {
		q := at(i)
		a = a.Add(q)
		b = b.Add(q.Mul(float64(i * i)))
	}
	return a.Mul(s4).Sub(b.Mul(s2)).Mul(1 / (s0*s4 - s2*s2))
}

// powers returns the sums of i⁰, i², i⁴ over −w … w.
func powers(w int) (s0, s2, s4 float64) {
	n := float64(w)
	s0 = 2*n + 1
	s2 = n * (n + 1) * s0 / 3
	s4 = s2 * (3*n*n + 3*n - 1) / 5
	return s0, s2, s4
}

// place returns sample k, of whatever turn.
func (r *ring) place(k int) geom.Point { return r.p[r.wrap(k)] }

func (r *ring) wrap(k int) int {
	k %= len(r.p)
	if k < 0 {
		k += len(r.p)
	}
	return k
}

// vertex returns where sample k stands in edge, counted on over turns.
func (r *ring) vertex(k int) int {
	m := len(r.p)
	turn := k / m
	if k%m < 0 {
		turn--
	}
	return r.at[k-turn*m] + turn*len(r.edge)
}

// samples returns how many steps make the length, at least one.
func (r *ring) samples(length float64) int { return max(1, int(math.Round(length/r.step))) }

// own returns the place of the line itself at sample k and how far the outline may be from it.
func (r *ring) own(k int) (geom.Point, float64) {
	i := r.at[r.wrap(k)]
	return r.edge[i], r.lim[i]
}

// tighten takes what the outline may be off the line within reach of q, between vertices i and j, times share.
func (r *ring) tighten(i, j int, q geom.Point, reach, share float64) {
	n := len(r.edge)
	for ; i <= j; i++ {
		k := i % n
		if r.edge[k].Dist(q) <= reach {
			if r.lim[k] *= share; r.lim[k] < 1.0/64 {
				r.lim[k] = 0
			}
		}
	}
}
