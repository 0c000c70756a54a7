package trace

import (
	"math"

	"markout/layout/geom"
)

// cubic is a Bézier curve by its four points.
type cubic [4]geom.Point

func (c cubic) point(t float64) geom.Point {
	u := 1 - t
	a, b, d, e := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return geom.Point{
		X: a*c[0].X + b*c[1].X + d*c[2].X + e*c[3].X,
		Y: a*c[0].Y + b*c[1].Y + d*c[2].Y + e*c[3].Y,
	}
}

// power returns the coefficients of 1, t, t², t³.
func (c cubic) power() [4]geom.Point {
	return [4]geom.Point{
		c[0],
		c[1].Sub(c[0]).Mul(3),
		c[0].Add(c[2]).Sub(c[1].Mul(2)).Mul(3),
		c[3].Sub(c[0]).Add(c[1].Sub(c[2]).Mul(3)),
	}
}

// bend returns the greatest length of the second derivative.
func (c cubic) bend() float64 {
	a := c[0].Add(c[2]).Sub(c[1].Mul(2)).Len()
	b := c[1].Add(c[3]).Sub(c[2].Mul(2)).Len()
	return 6 * max(a, b)
}

// straight returns the line from a to b as a cubic that runs at one speed.
func straight(a, b geom.Point) cubic { return cubic{a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b} }

// towards returns the share at which the curve of coefficients k is nearest to q, near t.
func towards(k *[4]geom.Point, q geom.Point, t float64) float64 {
	x := k[0].X + t*(k[1].X+t*(k[2].X+t*k[3].X)) - q.X
	y := k[0].Y + t*(k[1].Y+t*(k[2].Y+t*k[3].Y)) - q.Y
	dx := k[1].X + t*(2*k[2].X+t*3*k[3].X)
	dy := k[1].Y + t*(2*k[2].Y+t*3*k[3].Y)
	d := dx*dx + dy*dy
	if d == 0 {
		return t
	}
	return t - (x*dx+y*dy)/d
}

// keeps reports whether the curve stays within the limits of the ring between samples i and j, those of the first kind
// taken times share. It is a proof, not a probe: curve and line are walked together, the line's vertices v₀ v₁ … against
// shares t₀ ≤ t₁ ≤ …, and between neighbours the curve is nowhere further from its chord than (tₖ₊₁ − tₖ)²/8 · max|B″|
// and the chord from the line than at its ends. So with each |B(tₖ) − vₖ| and that bound added within the limit, every
// place of the curve is within it of the line, and every place of the line of the curve (the Fréchet distance is).
func (r *ring) keeps(c cubic, i, j int, share float64) bool {
	k := c.power()
	bow := c.bend() / 8
	first, last := r.vertex(i), r.vertex(j)
	n := len(r.edge)
	t, before := 0.0, 0.0 // the share before, and what its limit leaves
	for v := first; v <= last; v++ {
		e := v % n
		if e < 0 {
			e += n
		}
		q := r.edge[e]
		u := 0.0
		switch v {
		case first:
		case last:
			u = 1
		default:
			// Neighbours stand so near each other that a step or two of Newton's method find the place.
			u = towards(&k, q, towards(&k, q, t))
			u = min(max(u, t), 1)
		}
		x := k[0].X + u*(k[1].X+u*(k[2].X+u*k[3].X)) - q.X
		y := k[0].Y + u*(k[1].Y+u*(k[2].Y+u*k[3].Y)) - q.Y
		lim := r.lim[e]
		if lim == r.aim {
			lim *= share
		}
		left := lim - math.Sqrt(x*x+y*y)
		if v > first && bow*(u-t)*(u-t) > min(left, before) || left < 0 {
			return false
		}
		t, before = u, left
	}
	return true
}
