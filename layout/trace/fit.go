package trace

import (
	"math"

	"markout/layout/geom"
)

// knot is where two fitted curves meet: at a sample, with the direction in which the outline runs through it; a corner
// has none.
type knot struct {
	k      int
	at     geom.Point
	dir    geom.Point
	corner bool
}

// most is the number of places that a curve is fitted to.
const most = 40

// fit returns the cubic from knot a to knot b that is nearest to the samples between them in the sense of least squares,
// its handles along the knots' directions, free at corners (Schneider, "An algorithm for automatically fitting digitized
// curves", Graphics Gems, 1990, with free handles added). The samples' shares are first as their lengths along the line,
// then moved to where the curve is nearest. It is not ok where the curve stays further than far from some sample.
func (r *ring) fit(a, b knot, far float64) (c cubic, ok bool) {
	n := b.k - a.k - 1
	chord := a.at.Dist(b.at)
	// What is not known yet leans slightly towards handles of a third.
	third := float64(n+1) * r.step / 3
	if a.corner && b.corner {
		third = chord / 3
	}
	c = cubic{a.at, a.at.Add(r.lead(a, b, 1).Mul(third)), b.at.Sub(r.lead(b, a, -1).Mul(third)), b.at}
	if n <= 0 {
		return c, true
	}
	var ps [most]geom.Point
	var ts [most]float64
	count := min(n, most)
	for i := range count {
		k := a.k + 1 + i*n/count
		ps[i], ts[i] = r.place(k), float64(k-a.k)/float64(n+1)
	}
	fixed := c
	worst := math.Inf(1)
	for round := 0; ; round++ {
		next, solved := solve(fixed, a, b, ps[:count], ts[:count])
		if !solved {
			return c, false
		}
		pow := next.power()
		miss := 0.0
		for i, p := range ps[:count] {
			t := towards(&pow, p, ts[i])
			ts[i] = min(max(t, 0), 1)
			if d := next.point(ts[i]).Sub(p); d.Dot(d) > miss {
				miss = d.Dot(d)
			}
		}
		miss = math.Sqrt(miss)
		if miss < worst {
			c = next
		}
		switch {
		case round >= 8 || round > 1 && miss > 0.97*worst:
			return c, min(miss, worst) <= far
		case miss > 30*far:
			return c, false
		}
		worst = min(worst, miss)
	}
}

// lead returns the direction in which a handle of a first points, towards b: sense 1 along the line, −1 against it.
func (r *ring) lead(a, b knot, sense float64) geom.Point {
	if !a.corner {
		return a.dir
	}
	return b.at.Sub(a.at).Unit().Mul(sense)
}

// solve returns the cubic whose handles make the sum of squares least: Σ|B(tᵢ) − pᵢ|², where each handle is its end plus
// one length along the knot's direction, or both coordinates at a corner.
func solve(lean cubic, a, b knot, ps []geom.Point, ts []float64) (cubic, bool) {
	ex, ey := geom.Point{X: 1}, geom.Point{Y: 1}
	var dirs [4]geom.Point // of each unknown
	var of [4]int          // the handle that it moves
	var guess [4]float64
	nu := 0
	add := func(h int, dir geom.Point, end geom.Point) {
		dirs[nu], of[nu], guess[nu] = dir, h, lean[h].Sub(end).Dot(dir)
		nu++
	}
	for h, k := range [2]knot{a, b} {
		if k.corner {
			add(h+1, ex, k.at)
			add(h+1, ey, k.at)
		} else {
			add(h+1, k.dir.Mul(1-2*float64(h)), k.at)
		}
	}
	var m [4][5]float64
	for i, p := range ps {
		t := ts[i]
		u := 1 - t
		w := [3]float64{0, 3 * u * u * t, 3 * u * t * t}
		rest := p.Sub(a.at.Mul(u*u*u + w[1])).Sub(b.at.Mul(t*t*t + w[2]))
		for x := range nu {
			vx := dirs[x].Mul(w[of[x]])
			for y := x; y < nu; y++ {
				m[x][y] += vx.Dot(dirs[y]) * w[of[y]]
			}
			m[x][4] += vx.Dot(rest)
		}
	}
	weight := 1e-5 * float64(len(ps))
	if len(ps) < 4 {
		weight = 1e-2
	}
	for x := range nu {
		for y := range x {
			m[x][y] = m[y][x]
		}
		m[x][x] += weight
		m[x][4] += weight * guess[x]
	}
	sol, ok := eliminate(m, nu)
	if !ok {
		return lean, false
	}
	c := cubic{a.at, a.at, b.at, b.at}
	for x := range nu {
		c[of[x]] = c[of[x]].Add(dirs[x].Mul(sol[x]))
	}
	// A handle that points backwards makes a hook.
	if !a.corner && sol[0] <= 0 || !b.corner && sol[nu-1] <= 0 {
		return lean, false
	}
	return c, true
}

// eliminate solves the nu equations of the rows of m, the right side in column 4, whose matrix is positive definite.
func eliminate(m [4][5]float64, nu int) (sol [4]float64, ok bool) {
	for i := range nu {
		if m[i][i] <= 0 {
			return sol, false
		}
		for j := i + 1; j < nu; j++ {
			f := m[j][i] / m[i][i]
			for k := i; k < 5; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	for i := nu - 1; i >= 0; i-- {
		sol[i] = m[i][4]
		for j := i + 1; j < nu; j++ {
			sol[i] -= m[i][j] * sol[j]
		}
		sol[i] /= m[i][i]
		if math.IsNaN(sol[i]) || math.IsInf(sol[i], 0) {
			return sol, false
		}
	}
	return sol, true
}
