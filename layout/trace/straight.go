package trace

import (
	"math"

	"markout/layout/geom"
)

// run is a straight piece of the line between two samples.
type run struct {
	i, j int
	arm
}

// line fits a straight line to samples i … j by least squares across it (their principal axis) and returns how far the
// furthest of them is off it and how much they bow: the sag of the parabola that fits them best.
func (r *ring) line(i, j int) (a arm, off, bow float64) {
	n := float64(j - i + 1)
	o := r.place(i)
	var sum geom.Point
	var xx, xy, yy float64
	for k := i; k <= j; k++ {
		q := r.place(k).Sub(o)
		sum = sum.Add(q)
		xx += q.X * q.X
		xy += q.X * q.Y
		yy += q.Y * q.Y
	}
	c := sum.Mul(1 / n)
	xx, xy, yy = xx-n*c.X*c.X, xy-n*c.X*c.Y, yy-n*c.Y*c.Y
	a.mid = o.Add(c)
	a.dir = geom.Polar(1, math.Atan2(2*xy, xx-yy)/2)
	if a.dir.Dot(r.place(j).Sub(o)) < 0 {
		a.dir = a.dir.Mul(-1)
	}
	// Legendre's second polynomial on −1 … 1 measures the bow; its parabola sags by 3/2 of the coefficient.
	var bend, norm float64
	for k := i; k <= j; k++ {
		d := a.dir.Cross(r.place(k).Sub(a.mid))
		off = max(off, math.Abs(d))
		x := 0.0
		if j > i {
			x = 2*float64(k-i)/float64(j-i) - 1
		}
		w := (3*x*x - 1) / 2
		bend += w * d
		norm += w * w
	}
	return a, off, 1.5 * math.Abs(bend/norm)
}

// runs returns the straight runs between samples from and to, in order. Seeds are grown as far as they stay straight; what
// grew on a gentle bend bows by as much as it is allowed to be off, and is no straight run.
func (r *ring) runs(from, to int) []run {
	var out []run
	seed := r.samples(r.run * 0.7)
	least := r.samples(r.run)
	for k := from; k+seed <= to; {
		if _, off, _ := r.line(k, k+seed); off > r.straight {
			k += max(1, seed/3)
			continue
		}
		i, j := k, k+seed
		fits := func(i, j int) bool {
			_, off, _ := r.line(i, j)
			return off <= r.straight
		}
		low := from
		if len(out) > 0 {
			low = out[len(out)-1].j + 1
		}
		for grow := seed; grow > 0; {
			if j+grow <= to && fits(i, j+grow) {
				j += grow
				grow *= 2
			} else {
				grow /= 2
			}
		}
		for grow := seed; grow > 0; {
			if i-grow >= low && fits(i-grow, j) {
				i -= grow
				grow *= 2
			} else {
				grow /= 2
			}
		}
		a, _, bow := r.line(i, j)
		if bow <= r.bow && j-i >= least {
			i, j = r.trim(a, i, j)
			if a, _, bow = r.line(i, j); bow <= r.bow && j-i >= least && !r.gentle(a, i, j, from, to) {
				out = append(out, run{i, j, a})
			}
		}
		k = max(j+1, k+seed)
	}
	return out
}

// gentle reports whether the line leaves a run at an end no faster than a bend on which the run is just the flattest part:
// half the run's length further on, a parabola is off four times what it is off at the run's end.
func (r *ring) gentle(a arm, i, j, from, to int) bool {
	further := (j - i) / 2
	slow := func(k int) bool { return math.Abs(a.dir.Cross(r.place(k).Sub(a.mid))) <= 10*r.straight }
	return i-further >= from && slow(i-further) || j+further <= to && slow(j+further)
}

// trim takes off the ends of a run what already leaves its line.
func (r *ring) trim(a arm, i, j int) (int, int) {
	leaves := func(k int) bool { return math.Abs(a.dir.Cross(r.place(k).Sub(a.mid))) > r.straight/2 }
	for i < j && leaves(i) {
		i++
	}
	for i < j && leaves(j) {
		j--
	}
	return i, j
}
