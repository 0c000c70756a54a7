package develop

import (
	"math"

	"markout/layout/geom"
)

// onPart is a run of a joint's line on one part of a divided piece, and the same run on the other piece.
type onPart struct {
	part       int
	own, other []geom.Point
}

// runs shares a joint's line on a divided piece among its parts, cut where the seam crosses it.
func (d *divided) runs(p *Piece, own Side, q *Piece, other Side) []onPart {
	var out []onPart
	add := func(part int, a, b, c, d geom.Point) {
		if n := len(out) - 1; n >= 0 && out[n].part == part && out[n].own[len(out[n].own)-1] == a {
			out[n].own, out[n].other = append(out[n].own, b), append(out[n].other, d)
			return
		}
		out = append(out, onPart{part, []geom.Point{a, b}, []geom.Point{c, d}})
	}
	for k := 1; k < len(own.Line); k++ {
		both := pairing(p, own, q, other, k)
		a, c := own.Line[k-1], other.Line[k-1]
		b, e := own.Line[k], other.Line[k]
		cuts := []float64{0, 1}
		if x, y := d.line.off(a), d.line.off(b); x*y < -1e-12 {
			cuts = []float64{0, d.crossed(both, x), 1}
		}
		from, across := a, c
		for i := 1; i < len(cuts); i++ {
			to, over := b, e
			if cuts[i] < 1 {
				to, over = both(cuts[i])
			}
			mid, _ := both((cuts[i-1] + cuts[i]) / 2)
			add(d.partAt(sideOf(d.line.off(mid)), mid), from, to, across, over)
			from, across = to, over
		}
	}
	return out
}

// crossed is the share of a line at which it crosses the seam; off is how far its start lies off it.
func (d *divided) crossed(both func(float64) (own, other geom.Point), off float64) float64 {
	lo, hi := 0.0, 1.0
	for range 100 {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if at, _ := both(mid); d.line.off(at)*off > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// pairing returns the places of a share of a joint's line on both pieces, from its point k−1 to its point k. Where one of
// them is rolled and the other a plate, the curve of the first is followed, which is drawn in short straight runs on the
// second.
func pairing(p *Piece, own Side, q *Piece, other Side, k int) func(float64) (a, b geom.Point) {
	straight := func(s Side, share float64) geom.Point { return s.Line[k-1].Lerp(s.Line[k], share) }
	follow := func(p *Piece, s Side, q *Piece, share float64) (at, on geom.Point, ok bool) {
		at = straight(s, share)
		if len(p.body.spans) == 0 && p.body.bent == nil || len(q.body.spans) > 0 || q.body.bent != nil {
			return at, on, false
		}
		q.found(p.Made(at, s.Depth), func(f geom.Point, _ float64) { on, ok = f, true })
		return at, on, ok
	}
	return func(share float64) (a, b geom.Point) {
		if a, b, ok := follow(p, own, q, share); ok {
			return a, b
		}
		if b, a, ok := follow(q, other, p, share); ok {
			return a, b
		}
		return straight(own, share), straight(other, share)
	}
}

// near is how far a place lies from a joint's line.
func near(s Side, at geom.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(s.Line); i++ {
		least = min(least, fromLine(s.Line[i-1], s.Line[i], at))
	}
	return least
}
