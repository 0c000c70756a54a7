package trace

import (
	"slices"

	"markout/layout/geom"
)

// side is what lies between two neighbouring knots: a straight line, or something to be fitted.
type side struct {
	from, to knot
	line     bool
}

// layout divides the ring at its corners and at the ends of its straight runs. The sides follow one another, the last
// ends where the first begins, a turn later.
func (r *ring) layout() []side {
	m := len(r.p)
	corners, sharpest := r.corners()
	r.loosen(corners)
	var runs []run
	if len(corners) == 0 {
		runs = r.runs(sharpest, sharpest+m-1)
	}
	for i, c := range corners {
		end := corners[(i+1)%len(corners)].k
		if i+1 == len(corners) {
			end += m
		}
		runs = append(runs, r.stretch(c.k, end)...)
	}
	return r.join(corners, runs, sharpest)
}

// loosen gives the line about corners, which the coverage rounds off, the whole of the tolerance.
func (r *ring) loosen(corners []knot) {
	around := r.samples(3)
	for _, c := range corners {
		for v, last := r.vertex(c.k-around), r.vertex(c.k+around); v <= last; v++ {
			e := (v%len(r.edge) + len(r.edge)) % len(r.edge)
			if r.lim[e] == r.aim {
				r.lim[e] = r.whole
			}
		}
	}
}

// stretch returns the straight runs between two corners at samples i and j: one, all the way, where it is straight; those
// that all but reach a corner do reach it.
func (r *ring) stretch(i, j int) []run {
	skip := r.samples(1.5)
	if j-i > 2*skip+1 {
		if a, off, bow := r.line(i+skip, j-skip); off <= 1.5*r.straight && bow <= 1.5*r.bow {
			return []run{{i, j, a}}
		}
	}
	runs := r.runs(i+skip, j-skip)
	if len(runs) == 0 {
		return nil
	}
	reach := skip + r.samples(3)
	if first := &runs[0]; first.i-i <= reach {
		first.i = i
	}
	if last := &runs[len(runs)-1]; j-last.j <= reach {
		last.j = j
	}
	return runs
}

// join makes knots of corners and runs' ends. Two runs that all but meet, meet in a corner.
func (r *ring) join(corners []knot, runs []run, sharpest int) []side {
	m := len(r.p)
	if len(corners) == 0 && len(runs) == 0 {
		k := r.through(sharpest, m/2-1)
		return []side{{k, r.later(k, m), false}}
	}
	// ends are the knots by sample, within one turn from the first.
	type mark struct {
		knot
		line bool // a straight run goes on from it
	}
	var marks []mark
	in, out := map[int]arm{}, map[int]arm{} // the runs that end and begin at a corner
	isCorner := map[int]bool{}
	for _, c := range corners {
		isCorner[r.wrap(c.k)] = true
	}
	gap := r.samples(5)
	for n := range runs {
		a, b := &runs[n], &runs[(n+1)%len(runs)]
		open := r.wrap(b.i - a.j)
		if len(runs) < 2 || isCorner[r.wrap(a.j)] || isCorner[r.wrap(b.i)] || open > gap {
			continue
		}
		at, ok := meet(a.arm, b.arm)
		if !ok {
			continue
		}
		k, off := r.closest(a.j+open/2, gap, at)
		if off > r.off || k-a.j > open+gap || a.j-k > gap || k <= a.i {
			continue
		}
		corners = append(corners, knot{k: k, at: at, corner: true})
		isCorner[r.wrap(k)] = true
		b.i += k - (a.j + open)
		a.j = k
		if r.wrap(b.i) != r.wrap(k) {
			b.i = k
		}
	}
	for _, l := range runs {
		if isCorner[r.wrap(l.i)] {
			out[r.wrap(l.i)] = l.arm
		} else {
			marks = append(marks, mark{r.onLine(l.i, l.arm), true})
		}
		if isCorner[r.wrap(l.j)] {
			in[r.wrap(l.j)] = l.arm
		} else {
			marks = append(marks, mark{r.onLine(l.j, l.arm), false})
		}
	}
	for _, c := range corners {
		k := r.wrap(c.k)
		a, isIn := in[k]
		b, isOut := out[k]
		switch {
		case isIn && isOut:
			if at, ok := meet(a, b); ok {
				c.at = at
			}
		case isIn:
			c.at = foot(a, c.at)
		case isOut:
			c.at = foot(b, c.at)
		}
		c.k = k
		pinned, short := r.pin(c)
		if short && isIn && isOut && k > 0 && k+1 < m {
			// The lines meet further out than the outline may reach: the spike is cut off where the edge line ends.
			marks = append(marks, mark{r.blunt(k-1, a), false}, mark{r.blunt(k+1, b), true})
			continue
		}
		marks = append(marks, mark{pinned, isOut})
	}
	for i := range marks {
		marks[i].k = r.wrap(marks[i].k)
	}
	slices.SortStableFunc(marks, func(a, b mark) int { return a.k - b.k })
	marks = slices.CompactFunc(marks, func(a, b mark) bool { return a.k == b.k })
	var sides []side
	for i, a := range marks {
		b := marks[(i+1)%len(marks)].knot
		if i+1 == len(marks) {
			b = r.later(b, m)
		}
		sides = append(sides, side{a.knot, b, a.line})
	}
	return sides
}

// later returns the knot so many samples on, of the next turn.
func (r *ring) later(k knot, m int) knot {
	k.k += m
	return k
}

// onLine returns the smooth knot where a straight run begins or ends.
func (r *ring) onLine(k int, a arm) knot {
	own, lim := r.own(k)
	n := knot{k: k, at: foot(a, own), dir: a.dir}
	if n.at.Dist(own) > lim/2 {
		n.at = own
	}
	return n
}

// blunt returns the corner on a straight run beside the end of a spike.
func (r *ring) blunt(k int, a arm) knot {
	c := r.onLine(k, a)
	c.dir, c.corner = geom.Point{}, true
	return c
}

// foot returns the place on the arm's line nearest to q.
func foot(a arm, q geom.Point) geom.Point {
	return a.mid.Add(a.dir.Mul(q.Sub(a.mid).Dot(a.dir)))
}
