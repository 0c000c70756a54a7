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

// stationRays returns the stations as p sees them, however far. The list is good until the next call.
func (w *layer) stationRays(p geom.Point) []ray {
	rays := w.rays[:0]
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
	rays = slices.Grow(rays, directions*nearest)
	for k := range directions {
		for _, h := range q.near[k][:q.n[k]] {
			if y, ok := w.ray(&w.laid.starts[h.start], p); ok {
				rays = append(rays, y)
			}
		}
	}
	slices.SortFunc(rays[from:], func(a, b ray) int { return cmp.Compare(a.row, b.row) }) // the older mark is the first start
	w.rays = rays
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

// crosses returns the sine and cosine of the angle between two tapes, and whether they cross well.
func crosses(a, b *ray) (sine, cosine float64, well bool) {
	sine = math.Abs(a.dir.Cross(b.dir))
	return sine, a.dir.Dot(b.dir), sine >= leastSine
}

// crossError is CrossingError of two rays.
func crossError(a, b *ray, sine, cosine float64) float64 {
	return math.Sqrt(a.err*a.err+b.err*b.err+2*a.err*b.err*math.Abs(cosine)) / sine
}

// bestPair returns the two rays that serve with the fewest links, of equals with the least error (equal within the
// tolerance), then by name.
func bestPair(rays []ray) (best pair, ok bool) {
	bestI, bestJ := 0, 0
	for i := range rays {
		a := &rays[i]
		for j := i + 1; j < len(rays); j++ {
			b := &rays[j]
			links := 1 + max(a.links, b.links)
			if ok && links > best.links {
				continue
			}
			sine, cosine, well := crosses(a, b)
			if !well {
				continue
			}
			err := crossError(a, b, sine, cosine)
			if ok && links == best.links {
				if d := cmp.Compare(steps(err), steps(best.err)); d > 0 ||
					d == 0 && cmp.Or(cmp.Compare(a.name, rays[bestI].name), cmp.Compare(b.name, rays[bestJ].name)) >= 0 {
					continue
				}
			}
			best.links, best.err, ok = links, err, true
			bestI, bestJ = i, j
		}
	}
	if ok {
		best.a, best.b = rays[bestI], rays[bestJ]
		sine, cosine, _ := crosses(&best.a, &best.b)
		best.crossing = math.Atan2(sine, cosine) * 180 / math.Pi
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
