package rules

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// How far beside an edge, in millimetres, things count as next to it: common practice, no source, but for the 100 mm,
// which is the ball that no gap of a guard may let through (Approved Document K, 2013, Diagram 3.1).
const (
	reachOut = 100  // another surface, or a wall, this far outside adjoins the edge
	reachIn  = 300  // a wall this far inside keeps people from it
	gap      = 100  // a guard may end this far above the surface, and a higher step begin
	kerb     = 100  // a lesser drop at the side of a flight is a kerb
	touch    = 0.01 // strips begin this far from the edge, so that what only touches its other side is left out
	sliver   = 1    // a shorter stretch of open edge is rounding
)

// fall is what an edge, or all edges of a piece, leave open.
type fall struct {
	drop, length float64
}

func (f *fall) join(g fall) {
	f.drop = max(f.drop, g.drop)
	f.length += g.length
}

func (f fall) like(g fall) bool {
	return math.Abs(f.drop-g.drop) < sliver && math.Abs(f.length-g.length) < sliver
}

// edges looks for edges that can be fallen from: platforms, treads and ramps whose face lies higher above what is beside
// it than the book allows, along whatever length no surface adjoins and no flat or higher piece stands there as a guard.
func (c *checker) edges() {
	if !c.has(solid.Walked) {
		return
	}
	sc := c.scene()
	type worst struct {
		fall
		name  string
		count int
	}
	at := func(p *solid.Piece) [2]int { return [2]int{c.order[p.Element.Name], p.Copy} }
	first := make(map[[2]int]fall)
	look := &edgeLook{scene: sc, book: c.book}
	for _, position := range sc.Positions {
		found := map[*set.Element]*worst{}
		var order []*set.Element
		sc.Concerned(position, reachIn, func(i int) {
			p := &sc.Pieces[i]
			f := look.piece(p, position)
			if position == "" {
				first[at(p)] = f
			} else if f.like(first[at(p)]) {
				return
			}
			if f.length < sliver {
				return
			}
			w := found[p.Element]
			if w == nil {
				w = &worst{}
				found[p.Element] = w
				order = append(order, p.Element)
			}
			w.count++
			if f.drop > w.drop+geom.Tolerance {
				w.fall, w.name = f, p.NameIn(position)
			}
		})
		for _, e := range order {
			w := found[e]
			c.openEdge(e, w.name, position, w.fall, w.count)
		}
	}
}

// openEdge notes what was found of one element: of its worst copy, which is named.
func (c *checker) openEdge(e *set.Element, name, position string, f fall, count int) {
	bands := c.book.drop
	guard := c.book.guardLevel
	figure := c.length(f.drop) + " of drop, " + c.long(f.length) + " of open edge"
	more := ""
	if count > 1 {
		more = "; " + plainCount("piece")(float64(count)) + " of " + e.Name + " have open edges"
	}
	fd := finding{code: "EDGE-OPEN", who: name, figure: figure, at: []string{"height", "total", "rises", "rise", "risers"}}
	s, flight := e.Shape.(*set.Steps)
	if _, ramp := e.Shape.(*set.Ramp); flight || ramp {
		guard = c.book.guardFlight
	}
	bands = append(slices.Clone(bands), band{"a guard there", guard, 0, c.book.guardSource})
	fd.limit, fd.source = limits(bands, c.length), sources(bands)
	if flight && c.book.twoRisers && len(s.Rises) > 1 {
		fd.limit = "from two risers on (buildings other than dwellings); " + fd.limit
		c.add(e, fd, "the sides are open along %s, the greatest drop is %s: a flight of two risers or more wants a guard %s high there%s",
			c.long(f.length), c.length(f.drop), c.length(guard), more)
		return
	}
	c.add(e, fd, "the edge is open along %s and the greatest drop is %s: %s; a guard %s high is wanted there%s",
		c.long(f.length), c.length(f.drop), verdict(c.book.drop, f.drop, c.visible(), c.length), c.length(guard), more)
}

// edgeLook goes along the edges of pieces; it keeps its buffers from one to the next.
type edgeLook struct {
	scene   *solid.Scene
	book    *book
	near    []int32
	beside  []cover
	stretch []interval
	cuts    []float64
}

// cover is a stretch of an edge with what lies beside it: the plane z = a + k·u of another surface, or a wall.
type cover struct {
	interval
	a, k float64
	wall bool
}

// piece returns what all edges of a piece leave open.
func (l *edgeLook) piece(p *solid.Piece, position string) fall {
	var f fall
	climb := p.Place.Frame.Plan().Vector(geom.Point{Y: 1})
	steps, flight := p.Element.Shape.(*set.Steps)
	for k := p.Solids[0]; k < p.Solids[1]; k++ {
		s := &l.scene.Solids[k]
		if _, high := s.Heights(); !s.Walked || high <= min(kerb, l.book.drop[0].Most) {
			continue
		}
		l.near = l.scene.About(s.Box.Grow(reachIn), position, l.near)
		for _, ring := range s.Rings {
			from := ring[len(ring)-1]
			for _, to := range ring {
				e := newSide(from, to)
				from = to
				if e.length < geom.Tolerance {
					continue
				}
				limit, guard := l.book.drop[0].Most, l.book.guardLevel
				if flight {
					outwards := e.out.Dot(climb)
					if steps.Line != nil {
						outwards = lookUp(steps, p.Place.Frame.Plan().Inverse(), s.Number-1, e)
					}
					limit, guard = l.flightLimit(steps, s.Number, outwards), l.book.guardFlight
				} else if s.B != 0 || s.C != 0 {
					guard = l.book.guardFlight
				}
				f.join(l.open(k, e, limit, guard))
			}
		}
	}
	return f
}

// flightLimit returns the drop from which an edge of a tread counts. Its front, which looks down the flight, has the
// riser below it. Its sides count from a kerb on where the flight has two risers.
func (l *edgeLook) flightLimit(s *set.Steps, tread int, outwards float64) float64 {
	limit := l.book.drop[0].Most
	switch {
	case outwards < -0.7 && tread >= 1 && tread <= len(s.Rises):
		return max(limit, s.Rises[tread-1]+sliver)
	case outwards < 0.7 && l.book.twoRisers && len(s.Rises) > 1:
		return kerb
	}
	return limit
}

// lookUp tells which way an edge of tread k, counted from 0, of a flight along a line looks: −1 down the flight where it is
// the tread's front, 1 up where it is its back, 0 to a side. toOwn leads into the flight's own axes.
func lookUp(s *set.Steps, toOwn geom.Isometry, k int, e side) float64 {
	t := s.Treads()[k]
	out, mid := toOwn.Vector(e.out), toOwn.Apply(e.at(e.length/2))
	for _, end := range [2]struct{ y, ahead, way float64 }{{t.Y0, -s.Nosing, -1}, {t.Y1, 0, 1}} {
		ahead := s.Ahead(end.y)
		if out.Dot(ahead)*end.way > 0.99 && math.Abs(mid.Sub(s.Way(0, end.y)).Dot(ahead)-end.ahead) <= solid.Flatness {
			return end.way
		}
	}
	return 0
}

// open returns what one edge of solid k leaves open: where its face lies more than limit above the highest surface
// beside it and no wall as high as guard stands there.
func (l *edgeLook) open(k int32, e side, limit, guard float64) fall {
	s := &l.scene.Solids[k]
	z0, z1 := s.Top(e.at(0)), s.Top(e.at(e.length))
	slope := (z1 - z0) / e.length
	low, high := min(z0, z1), max(z0, z1)
	if high <= limit {
		return fall{}
	}
	box := geom.EmptyRect().Include(e.from).Include(e.at(e.length)).Grow(reachIn)
	l.beside = l.beside[:0]
	for _, j := range l.near {
		n := &l.scene.Solids[j]
		if j == k || !n.Box.Overlaps(box) {
			continue
		}
		l.take(e, n, low, high, guard)
	}
	l.cuts = append(l.cuts[:0], 0, e.length)
	for _, c := range l.beside {
		l.cuts = append(l.cuts, min(max(c.from, 0), e.length), min(max(c.to, 0), e.length))
	}
	slices.Sort(l.cuts)
	var f fall
	for i := range len(l.cuts) - 1 {
		if a, b := l.cuts[i], l.cuts[i+1]; b-a > geom.Tolerance {
			f.join(l.between(a, b, z0, slope, limit))
		}
	}
	return f
}

// take notes where solid n lies beside the edge and what it does there.
func (l *edgeLook) take(e side, n *solid.Solid, low, high, guard float64) {
	put := func(v0, v1 float64, c cover) {
		l.stretch = e.meets(n.Rings, v0, v1, l.stretch[:0])
		for _, iv := range l.stretch {
			if iv.to > 0 && iv.from < e.length && iv.to-iv.from > geom.Tolerance {
				c.interval = iv
				l.beside = append(l.beside, c)
			}
		}
	}
	begins := n.Under <= low+gap
	if n.Stood && begins {
		p, q := e.at(0), e.at(e.length)
		a, b := n.Top(p), n.Top(q)
		put(touch, reachOut, cover{a: a, k: (b - a) / e.length})
	}
	if n.Wall && begins && n.Top(e.from) >= high+guard-sliver {
		put(-reachIn, reachOut, cover{wall: true})
	}
	// What people stand on here is another piece, whose own edges are looked at.
	if n.Walked && begins && n.Top(e.from) > high+sliver && n.Top(e.at(e.length)) > high+sliver {
		put(-2*touch, -touch, cover{wall: true})
	}
}

// between returns what the edge leaves open from a to b, a stretch in which the same things lie beside it. Heights are
// linear in u, so that the part that is too high above every one of them is one stretch, and the greatest drop lies at
// its ends or where two of them are level.
func (l *edgeLook) between(a, b, z0, slope, limit float64) fall {
	mid := (a + b) / 2
	beside := []cover{{}} // the floor
	for _, c := range l.beside {
		if c.from > mid || c.to < mid {
			continue
		}
		if c.wall {
			return fall{}
		}
		beside = append(beside, c)
	}
	lo, hi := a, b
	for _, c := range beside {
		d, k := z0-c.a-limit, slope-c.k // the drop over the limit is d + k·u
		switch {
		case math.Abs(k) < 1e-12:
			if d <= geom.Tolerance {
				return fall{}
			}
		case k > 0:
			lo = max(lo, -d/k)
		default:
			hi = min(hi, -d/k)
		}
	}
	if hi-lo < geom.Tolerance {
		return fall{}
	}
	drop := func(u float64) float64 {
		least := math.Inf(1)
		for _, c := range beside {
			least = min(least, z0+slope*u-c.a-c.k*u)
		}
		return least
	}
	most := max(drop(lo), drop(hi))
	for i, c := range beside {
		for _, d := range beside[i+1:] {
			if u := (d.a - c.a) / (c.k - d.k); u > lo && u < hi {
				most = max(most, drop(u))
			}
		}
	}
	return fall{most, hi - lo}
}
