package setout

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// ray is a start as one point sees it.
type ray struct {
	*start
	dir  geom.Point // unit vector from the point
	dist float64
	err  float64 // what the tape's class allows at this length, the start's own error added
}

func (w *layer) ray(s *start, p geom.Point) (ray, bool) {
	d := s.at.Sub(p)
	dist := d.Len()
	if dist <= geom.Tolerance {
		return ray{}, false
	}
	return ray{start: s, dir: d.Mul(1 / dist), dist: dist, err: Allowed(w.Class, dist) + s.err}, true
}

// stationRays returns the stations as p sees them, however far.
func (w *layer) stationRays(p geom.Point) []ray {
	rays := make([]ray, 0, len(w.fixed)+directions*nearest)
	for i := range w.fixed {
		if y, ok := w.ray(&w.fixed[i], p); ok {
			rays = append(rays, y)
		}
	}
	return rays
}

// laidRays adds to rays the candidates among the laid points no further than within from p.
func (w *layer) laidRays(rays []ray, p geom.Point, within float64) []ray {
	q := w.laid.around(p, within)
	from := len(rays)
	for k := range directions {
		for _, h := range q.near[k][:q.n[k]] {
			if y, ok := w.ray(&w.laid.starts[h.start], p); ok {
				rays = append(rays, y)
			}
		}
	}
	slices.SortFunc(rays[from:], func(a, b ray) int { return cmp.Compare(a.row, b.row) }) // the older mark is the first start
	return rays
}

// pair is two starts as one point sees them.
type pair struct {
	a, b     ray
	links    int
	crossing float64
	err      float64
}

// leastSine is that of both limits of the crossing, a hair less, so that both limits belong to it.
var leastSine = math.Sin(LeastCrossing*math.Pi/180) - 1e-12

// crosses returns the pair of a and b where their tapes cross well.
func crosses(a, b ray) (pair, bool) {
	sine := math.Abs(a.dir.Cross(b.dir))
	if sine < leastSine {
		return pair{}, false
	}
	cosine := a.dir.Dot(b.dir)
	return pair{
		a: a, b: b,
		links:    1 + max(a.links, b.links),
		crossing: math.Atan2(sine, cosine) * 180 / math.Pi,
		err:      math.Sqrt(a.err*a.err+b.err*b.err+2*a.err*b.err*math.Abs(cosine)) / sine,
	}, true
}

// better orders pairs by links, error (equal within the tolerance) and names.
func better(p, q pair) bool {
	return cmp.Or(cmp.Compare(p.links, q.links), cmp.Compare(steps(p.err), steps(q.err)),
		cmp.Compare(p.a.name, q.a.name), cmp.Compare(p.b.name, q.b.name)) < 0
}

func bestPair(rays []ray) (best pair, ok bool) {
	for i := range rays {
		for j := i + 1; j < len(rays); j++ {
			if p, good := crosses(rays[i], rays[j]); good && (!ok || better(p, best)) {
				best, ok = p, true
			}
		}
	}
	return best, ok
}

// choose fills in the starts of r; false where no pair serves.
func (w *layer) choose(r *Row) bool {
	rays := w.stationRays(r.At)
	r.Stations = w.survey(rays)
	rays = slices.DeleteFunc(rays, func(y ray) bool { return !w.reaches(y.dist) })
	best, ok := bestPair(rays)
	looked := !ok
	if !ok {
		rays = w.laidRays(rays, r.At, w.reach())
		if best, ok = bestPair(rays); !ok {
			return false
		}
	}
	r.Starts = []Tie{best.a.tie(), best.b.tie()}
	r.Side = Side(r.At, best.a.at, best.b.at)
	r.Crossing, r.Error, r.Links = best.crossing, best.err, best.links
	third, ok := bestCheck(rays, best, r.At)
	if !looked && (!ok || third.worth < checksBoth) {
		third, ok = bestCheck(w.laidRays(rays, r.At, w.reach()), best, r.At)
	}
	if ok {
		r.Starts = append(r.Starts, third.tie())
	}
	return true
}

func (y ray) tie() Tie { return Tie{From: y.name, At: y.at, Distance: y.dist, Row: y.row} }
