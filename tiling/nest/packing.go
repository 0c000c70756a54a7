package nest

import (
	"math"
	"math/rand/v2"
)

// packing is a state of the search: pieces in rooms, which may overlap each other. The last room is open along x: its length is
// what the search makes less. Every
// pair that does has a weight, which grows for as long as it does, so that the search is led out of where it is stuck
// (guided local search, Voudouris and Tsang 1999; for nesting Egeblad, Nielsen and Odgaard 2007, Umetani and others 2009).
type packing struct {
	job        *search
	halt       bool // the search must end
	nofits     *table
	eps        float64
	rooms      []room
	n          int
	choices    [][]choice // of each piece, those that fit some room
	pick       []int      // which of them each has
	in         []int      // rooms
	x, y, w, h []float64  // lower left corners and sizes
	id         []int      // outlines
	depth      []float64  // n × n, how deep two pieces overlap
	weight     []float64  // n × n
	rnd        *rand.Rand
	pool       []saved // states of least overlap at the length tried last
	step       float64 // share of the length taken off next
	tried      float64 // best length when the pool was begun
	trials     int
	spots      []spot
	lines      []line
	order      []int
	rough      []roughly
}

// room is where outlines may lie: from x0 to x0 + w along x, from 0 to h along y. Rooms stand so far from each other along x that
// what lies in one never meets what lies in another.
type room struct{ x0, w, h float64 }

// holds reports whether an outline fits the room.
func (r room) holds(o *outline, eps float64) bool { return o.w <= r.w+eps && o.h <= r.h+eps }

// inside returns the place nearest to x, y at which the outline lies in the room.
func (r room) inside(o *outline, x, y float64) (float64, float64) {
	return min(max(x, r.x0), r.x0+max(r.w-o.w, 0)), min(max(y, 0), max(r.h-o.h, 0))
}

// spot is a place for a piece, at one of its choices in one of the rooms, and what it costs.
type spot struct {
	pick, room int
	x, y, cost float64
}

// gaugeOf returns the gauge of piece i, moving at a pick, about piece j.
func (s *packing) gaugeOf(j int, o *outline) *gauge {
	return s.nofits.gauge(s.nofits.at(s.id[j], o))
}

// cost returns the weighted overlap of piece i laid as outline o at x, y, or something no less than bound. What is quickly known
// of all depths is looked at first, since it rules most places out.
func (s *packing) cost(i int, o *outline, x, y, bound float64) float64 {
	sure, rest := 0.0, 0.0 // what is exactly known, and the least of what is not
	weights := s.weight[i*s.n : (i+1)*s.n]
	ow, oh := o.w, o.h
	rough := s.rough[:0]
	for j := range weights {
		dx, dy := x-s.x[j], y-s.y[j]
		if dx >= s.w[j] || dy >= s.h[j] || -dx >= ow || -dy >= oh || j == i {
			continue
		}
		g := s.gaugeOf(j, o)
		var d float64
		if g.cells != nil {
			d = g.cells.depth(g, dx, dy, s.eps)
		} else {
			d = g.least(dx, dy, s.eps)
		}
		if d == 0 {
			continue
		}
		d *= weights[j]
		if g.cells == nil && len(g.spans) > 1 {
			rest += d
			rough = append(rough, roughly{g, dx, dy, weights[j], d})
		} else {
			sure += d
		}
		if sure+rest >= bound {
			return sure + rest
		}
	}
	for k := range rough {
		r := &rough[k]
		sure += r.weight * r.g.exact(r.dx, r.dy, s.eps)
		rest -= r.least
		if sure+rest >= bound {
			return sure + rest
		}
	}
	s.rough = rough[:0]
	return sure
}

// roughly is a weighted depth of which only the least is known.
type roughly struct {
	g                     *gauge
	dx, dy, weight, least float64
}

// put lays piece i and measures how deep it overlaps the others.
func (s *packing) put(i int, p spot) {
	o := s.choices[i][p.pick].outline
	s.pick[i], s.in[i], s.x[i], s.y[i] = p.pick, p.room, p.x, p.y
	s.w[i], s.h[i], s.id[i] = o.w, o.h, o.id
	for j := range s.n {
		d := 0.0
		if dx, dy := p.x-s.x[j], p.y-s.y[j]; j != i && dx < s.w[j] && dy < s.h[j] && -dx < o.w && -dy < o.h {
			d = s.gaugeOf(j, o).depth(dx, dy, s.eps)
		}
		s.depth[i*s.n+j], s.depth[j*s.n+i] = d, d
	}
}

// overlap returns the sum of all depths.
func (s *packing) overlap() float64 {
	t := 0.0
	for i := range s.n {
		for _, d := range s.depth[i*s.n : i*s.n+i] {
			t += d
		}
	}
	return t
}

// weighted returns the weighted overlap of piece i where it lies.
func (s *packing) weighted(i int) float64 {
	t := 0.0
	for j, d := range s.depth[i*s.n : (i+1)*s.n] {
		t += d * s.weight[i*s.n+j]
	}
	return t
}

// reach returns how far along x the pieces in the last room reach.
func (s *packing) reach() float64 {
	r, last := 0.0, len(s.rooms)-1
	for i := range s.n {
		if s.in[i] == last {
			r = max(r, s.x[i]+s.w[i]-s.rooms[last].x0)
		}
	}
	return r
}

// line is a border's straight run near a place, through a point and along a direction.
type line struct{ px, py, dx, dy float64 }

// nearLines gathers the lines of borders at which a piece at p would stop overlapping those it overlaps, and those of borders that it
// touches, and the room's.
func (s *packing) nearLines(i int, p spot) {
	s.lines = s.lines[:0]
	o := s.choices[i][p.pick].outline
	touch := 1e-6 * (o.w + o.h)
	for j := range s.n {
		dx, dy := p.x-s.x[j], p.y-s.y[j]
		if j == i || dx >= s.w[j]+touch || dy >= s.h[j]+touch || -dx >= o.w+touch || -dy >= o.h+touch {
			continue
		}
		g := s.gaugeOf(j, o)
		in := g.least(dx, dy, s.eps) > 0
		best, second := math.Inf(1), math.Inf(1)
		bi, si := -1, -1
		for k := range g.runs {
			d := g.runs[k].away(dx, dy)
			if d < best {
				second, si = best, bi
				best, bi = d, k
			} else if d < second {
				second, si = d, k
			}
		}
		if bi < 0 || !in && best > touch*touch {
			continue
		}
		add := func(k int) {
			r := &g.runs[k]
			if r.inv > 0 {
				s.lines = append(s.lines, line{r.ax + s.x[j], r.ay + s.y[j], r.dx, r.dy})
			}
		}
		add(bi)
		if si >= 0 && (in || second <= touch*touch) {
			add(si)
		}
	}
	r := s.rooms[p.room]
	if p.x < r.x0+touch {
		s.lines = append(s.lines, line{r.x0, 0, 0, 1})
	}
	if p.y < touch {
		s.lines = append(s.lines, line{0, 0, 1, 0})
	}
	if right := r.x0 + r.w - o.w; p.x > right-touch {
		s.lines = append(s.lines, line{right, 0, 0, 1})
	}
	if top := r.h - o.h; p.y > top-touch {
		s.lines = append(s.lines, line{0, top, 1, 0})
	}
}

// settle moves a piece from p from corner to corner of the borders around it, while it costs less there.
func (s *packing) settle(i int, p spot) spot {
	o := s.choices[i][p.pick].outline
	r := s.rooms[p.room]
	near, far := 1e-6*(o.w+o.h), farthest*(o.w+o.h)
	for range 8 {
		if p.cost == 0 {
			return p
		}
		s.nearLines(i, p)
		best := p
		try := func(x, y float64) {
			x, y = r.inside(o, x, y)
			if d := math.Abs(x-p.x) + math.Abs(y-p.y); d < near || d > far {
				return
			}
			if c := s.cost(i, o, x, y, best.cost); c < best.cost {
				best.x, best.y, best.cost = x, y, c
			}
		}
		for a, l := range s.lines {
			ll := l.dx*l.dx + l.dy*l.dy
			t := ((p.x-l.px)*l.dx + (p.y-l.py)*l.dy) / ll
			try(l.px+t*l.dx, l.py+t*l.dy)
			for _, m := range s.lines[:a] {
				k := l.dx*m.dy - l.dy*m.dx
				if k*k < 1e-6*ll*(m.dx*m.dx+m.dy*m.dy) {
					continue
				}
				t := ((m.px-l.px)*m.dy - (m.py-l.py)*m.dx) / k
				try(l.px+t*l.dx, l.py+t*l.dy)
			}
		}
		if best.cost >= p.cost*(1-1e-6) {
			return best
		}
		p = best
	}
	return p
}

// farthest is how far a piece settles in one go, as a share of its size.
const farthest = 0.3
