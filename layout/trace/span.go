package trace

import "markout/layout/geom"

// piece is a fitted curve or line from one sample to another.
type piece struct {
	cubic
	line bool
	i, j int
}

// fitted returns the ring's outline.
func (r *ring) fitted() []piece {
	var out []piece
	for _, s := range r.layout() {
		if s.line {
			if c := straight(s.from.at, s.to.at); r.keeps(c, s.from.k, s.to.k, 1) {
				out = append(out, piece{c, true, s.from.k, s.to.k})
				continue
			}
		}
		out = r.span(out, s.from, s.to)
	}
	return out
}

// shares are the parts of the limit that a span is tried with, after the whole: a span of as many pieces that keeps to
// less of it is the better one.
var shares = [...]float64{0.7, 0.5, 0.35}

// span appends the pieces between two knots: as few as keep to the limits, and of these the nearest to the line.
func (r *ring) span(out []piece, a, b knot) []piece {
	n := len(out)
	out = r.greedy(out, a, b, 1)
	for _, share := range shares {
		tighter := r.greedy(nil, a, b, share)
		if len(tighter) > len(out)-n {
			break
		}
		out = append(out[:n], tighter...)
	}
	return out
}

// finest is the least number of samples that a curve is tried on.
const finest = 4

// greedy appends pieces from a to b, each as long as it can be: where parts of what can be fitted can be fitted too, no
// other division has fewer.
func (r *ring) greedy(out []piece, a, b knot, share float64) []piece {
	for a.k < b.k {
		if next, bound := r.bound(a, b); bound {
			out = r.follow(out, a, next)
			a = next
			continue
		}
		if p, ok := r.try(a, b, share); ok {
			return append(out, p)
		}
		p, next, ok := r.longest(a, b, share)
		if !ok {
			next = b
			if a.k+2*finest < b.k {
				next = r.bare(a.k + finest)
			}
			out = r.follow(out, a, next)
		} else {
			out = append(out, p)
		}
		a = next
	}
	return out
}

// bound returns the knot up to which the outline must be the line itself, if it must.
func (r *ring) bound(a, b knot) (knot, bool) {
	k := a.k
	for k < b.k {
		if _, lim := r.own(k + 1); lim > 0 {
			break
		}
		k++
	}
	switch k {
	case a.k:
		return a, false
	case b.k:
		return b, true
	}
	return r.bare(k), true
}

// try fits one piece from a to b.
func (r *ring) try(a, b knot, share float64) (piece, bool) {
	if a.corner && b.corner {
		if c := straight(a.at, b.at); r.keeps(c, a.k, b.k, share*0.5) {
			return piece{c, true, a.k, b.k}, true
		}
	}
	c, ok := r.fit(a, b, share*r.whole)
	return piece{c, false, a.k, b.k}, ok && r.keeps(c, a.k, b.k, share)
}

// longest finds the longest piece that begins at a and ends before b.
func (r *ring) longest(a, b knot, share float64) (best piece, next knot, ok bool) {
	hi := b.k - a.k - 2 // the last tried end, exclusive
	if hi < finest {
		return best, next, false
	}
	at := func(n int) bool {
		k := r.through(a.k+n, min(r.room(a, n), b.k-a.k-n))
		p, fits := r.try(a, k, share)
		if fits {
			best, next, ok = p, k, true
		}
		return fits
	}
	lo, n := 0, min(16, hi)
	for {
		if !at(n) {
			hi = n
			break
		}
		lo = n
		if n == hi {
			return best, next, ok
		}
		n = min(2*n, hi)
	}
	for hi-lo > max(1, lo/24) {
		n = (lo + hi) / 2
		if n < finest {
			break
		}
		if at(n) {
			lo = n
		} else {
			hi = n
		}
	}
	return best, next, ok
}

// room is how far the window of a knot n samples after a may reach back: to a corner, or as far as it likes.
func (r *ring) room(a knot, n int) int {
	if a.corner {
		return n
	}
	return len(r.p) / 4
}

// bare is the knot on the line itself.
func (r *ring) bare(k int) knot {
	own, _ := r.own(k)
	return knot{k: k, at: own, corner: true}
}

// follow appends the line's own vertices between two knots.
func (r *ring) follow(out []piece, a, b knot) []piece {
	at := a.at
	put := func(q geom.Point) {
		if !q.Near(at) {
			out = append(out, piece{straight(at, q), true, a.k, b.k})
			at = q
		}
	}
	n := len(r.edge)
	for v := r.vertex(a.k) + 1; v < r.vertex(b.k); v++ {
		if e := (v%n + n) % n; !r.added[e] {
			put(r.edge[e])
		}
	}
	put(b.at)
	return out
}
