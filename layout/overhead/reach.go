package overhead

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// stretch is a part of a straight way, as shares of its length from 0 to 1.
type stretch struct{ from, to float64 }

// way is a straight piece of a walk.
type way struct{ a, b geom.Point }

func (w way) at(t float64) geom.Point { return w.a.Lerp(w.b, t) }

// box holds all that lies no further than r from the way.
func (w way) box(r float64) geom.Rect { return geom.EmptyRect().Include(w.a).Include(w.b).Grow(r) }

// inside returns where the way lies in the area within rings, whose material lies to the left of every ring.
func (w way) inside(rings [][]geom.Point) []stretch {
	cuts := []float64{0, 1}
	d := w.b.Sub(w.a)
	for _, ring := range rings {
		p := ring[len(ring)-1]
		for _, q := range ring {
			e := q.Sub(p)
			if den := d.Cross(e); den != 0 {
				t, u := p.Sub(w.a).Cross(e)/den, p.Sub(w.a).Cross(d)/den
				if t > 0 && t < 1 && u >= 0 && u <= 1 {
					cuts = append(cuts, t)
				}
			}
			p = q
		}
	}
	slices.Sort(cuts)
	var out []stretch
	for i := 1; i < len(cuts); i++ {
		if cuts[i] > cuts[i-1] && holds(rings, w.at((cuts[i-1]+cuts[i])/2)) {
			out = append(out, stretch{cuts[i-1], cuts[i]})
		}
	}
	return merged(out)
}

// holds reports whether q lies within rings, by the even-odd rule.
func holds(rings [][]geom.Point, q geom.Point) bool {
	in := false
	for _, ring := range rings {
		p := ring[len(ring)-1]
		for _, r := range ring {
			if (p.Y > q.Y) != (r.Y > q.Y) && q.X < p.X+(r.X-p.X)*(q.Y-p.Y)/(r.Y-p.Y) {
				in = !in
			}
			p = r
		}
	}
	return in
}

// beside returns where a disc of radius r that goes along the way meets the area within rings: where its middle lies in the area,
// or a side of the area within r of it. The distance of a point going straight from a straight side first falls and then rises, so
// that each side gives one stretch, and nothing lies between samples.
func (w way) beside(rings [][]geom.Point, r float64) []stretch {
	out := w.inside(rings)
	for _, ring := range rings {
		p := ring[len(ring)-1]
		for _, q := range ring {
			if s, ok := w.near(p, q, r); ok {
				out = append(out, s)
			}
			p = q
		}
	}
	return merged(out)
}

// near returns where the way lies within r of the side from p to q.
func (w way) near(p, q geom.Point, r float64) (stretch, bool) {
	s := stretch{math.Inf(1), math.Inf(-1)}
	take := func(from, to float64) {
		if from, to = max(from, 0), min(to, 1); from <= to {
			s.from, s.to = min(s.from, from), max(s.to, to)
		}
	}
	for _, c := range [...]geom.Point{p, q} {
		if from, to, ok := w.through(c, r); ok {
			take(from, to)
		}
	}
	if length := p.Dist(q); length > 0 {
		along := q.Sub(p).Mul(1 / length)
		off := geom.Point{X: -along.Y, Y: along.X}
		from, to := 0.0, 1.0
		ok := clip(w.a.Sub(p).Dot(off), w.b.Sub(p).Dot(off), -r, r, &from, &to) &&
			clip(w.a.Sub(p).Dot(along), w.b.Sub(p).Dot(along), 0, length, &from, &to)
		if ok {
			take(from, to)
		}
	}
	return s, s.from <= s.to
}

// through returns where the way lies in the disc about c; it may lie beyond 0 and 1.
func (w way) through(c geom.Point, r float64) (from, to float64, ok bool) {
	d, f := w.b.Sub(w.a), w.a.Sub(c)
	dd, df := d.Dot(d), d.Dot(f)
	if dd == 0 {
		return 0, 1, f.Len() <= r
	}
	disc := df*df - dd*(f.Dot(f)-r*r)
	if disc < 0 {
		return 0, 0, false
	}
	root := math.Sqrt(disc)
	return (-df - root) / dd, (-df + root) / dd, true
}

// clip narrows from and to to where a value that runs evenly from u at 0 to v at 1 lies from low to high.
func clip(u, v, low, high float64, from, to *float64) bool {
	if u == v {
		return u >= low && u <= high && *from <= *to
	}
	a, b := (low-u)/(v-u), (high-u)/(v-u)
	*from, *to = max(*from, min(a, b)), min(*to, max(a, b))
	return *from <= *to
}

// merged joins stretches that overlap or touch, in order.
func merged(s []stretch) []stretch {
	slices.SortFunc(s, func(a, b stretch) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	var out []stretch
	for _, x := range s {
		if n := len(out); n > 0 && x.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, x.to)
			continue
		}
		out = append(out, x)
	}
	return out
}
