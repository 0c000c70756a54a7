package trace

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// arm is a straight run beside a place: its middle, and the direction along the line.
type arm struct{ mid, dir geom.Point }

// arm fits a line to samples k + from … k + to.
func (r *ring) arm(k, from, to int) arm {
	n := float64(to - from + 1)
	middle := float64(from+to) / 2
	var sum, slope geom.Point
	o := r.place(k)
	for i := from; i <= to; i++ {
		q := r.place(k + i).Sub(o)
		sum = sum.Add(q)
		slope = slope.Add(q.Mul(float64(i) - middle))
	}
	return arm{o.Add(sum.Mul(1 / n)), slope.Unit()}
}

// meet returns where the lines of two arms meet; not ok where they run the same way.
func meet(a, b arm) (geom.Point, bool) {
	d := a.dir.Cross(b.dir)
	if math.Abs(d) < 0.02 {
		return geom.Point{}, false
	}
	return a.mid.Add(a.dir.Mul(b.mid.Sub(a.mid).Cross(b.dir) / d)), true
}

// turn returns the turn at sample k between arms on both sides, radians, to the left more than 0.
func (r *ring) turn(k, from, to int) (turn float64, before, after arm) {
	before, after = r.arm(k, -to, -from), r.arm(k, from, to)
	return math.Atan2(before.dir.Cross(after.dir), before.dir.Dot(after.dir)), before, after
}

// corners returns the true corners in order along the ring, and the sample where it turns most.
//
// A corner is where the turn between two arms beside it is greatest and more than least, and does not come from a steady
// bend: on an arc the turn grows with the arms' length, at a corner it is the same for every length, so what is left
// when it is carried back to no length is the corner's. And the arms' lines meet on the line itself; about a round they
// meet off it. (Turning measured over arms of support: after Rosenfeld and Johnston, "Angle detection on digital curves",
// 1973.)
func (r *ring) corners() (found []knot, sharpest int) {
	m := len(r.p)
	near, reach, far := r.samples(r.near), r.samples(r.reach), r.samples(r.far)
	turns := make([]float64, m)
	for k := range turns {
		turns[k], _, _ = r.turn(k, near, min(reach, m/4))
		if math.Abs(turns[k]) > math.Abs(turns[sharpest]) {
			sharpest = k
		}
	}
	if m < 4*near+4 || m < 2*reach {
		return nil, sharpest
	}
	type candidate struct {
		knot
		turn float64
	}
	var all []candidate
	for k, t := range turns {
		t = math.Abs(t)
		if t < r.least || !greatest(turns, k, reach/2) {
			continue
		}
		if t < r.certain {
			if far >= m/2 {
				continue
			}
			longer, _, _ := r.turn(k, near, far)
			back := t - (math.Abs(longer)-t)*float64(near+reach)/float64(far-reach)
			if back < r.least {
				continue
			}
		}
		if c, ok := r.corner(k, near, reach); ok {
			all = append(all, candidate{c, t})
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return -cmp.Compare(a.turn, b.turn) })
	between := r.samples(r.between)
	for _, c := range all {
		free := !slices.ContainsFunc(found, func(o knot) bool {
			d := r.wrap(c.k - o.k)
			return min(d, m-d) < between
		})
		if free {
			found = append(found, c.knot)
		}
	}
	slices.SortFunc(found, func(a, b knot) int { return a.k - b.k })
	return found, sharpest
}

// greatest reports whether the turn at k is the greatest within so many samples, of equals the first.
func greatest(turns []float64, k, within int) bool {
	n := len(turns)
	t := math.Abs(turns[k])
	for i := 1; i <= within; i++ {
		if math.Abs(turns[(k+i)%n]) > t || math.Abs(turns[(k-i+n)%n]) >= t {
			return false
		}
	}
	return true
}

// corner places the corner at sample k: where its arms' lines meet. Of a spike that is beyond where the coverage falls
// under one half; the corner stands then as far out as the limit allows.
func (r *ring) corner(k, near, reach int) (knot, bool) {
	turn, before, after := r.turn(k, near, reach)
	at, ok := meet(before, after)
	if !ok {
		return knot{}, false
	}
	k, off := r.closest(k, near+2, at)
	if off > r.off && math.Abs(turn) < 100*math.Pi/180 {
		return knot{}, false
	}
	return knot{k: k, at: at, corner: true}, true
}

// closest returns the sample within so many of k that is nearest to q, and how far it is.
func (r *ring) closest(k, within int, q geom.Point) (best int, off float64) {
	off = math.Inf(1)
	for i := k - within; i <= k+within; i++ {
		p, _ := r.own(i)
		if d := p.Dist(q); d < off {
			best, off = i, d
		}
	}
	return best, off
}

// pin moves a corner's sample to the line's vertex nearest to the corner, and draws the corner back to within nine tenths
// of the limit there. It reports whether that was far.
func (r *ring) pin(c knot) (knot, bool) {
	k := r.wrap(c.k)
	if k > 0 && k+1 < len(r.p) {
		for v := r.at[k-1] + 1; v < r.at[k+1]; v++ {
			if r.edge[v].Dist(c.at) < r.edge[r.at[k]].Dist(c.at) {
				r.at[k] = v
			}
		}
		if !r.loop.hard {
			r.p[k] = r.edge[r.at[k]]
		}
	}
	own, lim := r.own(c.k)
	d := c.at.Dist(own)
	if d <= 0.9*lim {
		return c, false
	}
	c.at = own.Lerp(c.at, 0.9*lim/d)
	return c, d > 1.2*lim
}
