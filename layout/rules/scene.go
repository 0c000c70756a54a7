package rules

import (
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// walked reports whether people go about on a shape, so that its edges are looked at.
func walked(sh set.Shape) bool {
	_, platform := sh.(*set.Platform)
	return platform || climbed(sh)
}

// climbed reports whether a shape leads from one level to another.
func climbed(sh set.Shape) bool {
	switch sh.(type) {
	case *set.Steps, *set.Ramp:
		return true
	}
	return false
}

// flatness is how far in millimetres a curve may lie from the straight runs that stand for it here.
const flatness = 0.05

// solid is one upright prism of a piece: a tread with what is under it, a stretch of a flat beside an opening.
type solid struct {
	piece   int32
	region  geom.Region    // on the plan
	rings   [][]geom.Point // the same in straight runs; the material lies to the left of every ring, holes included
	box     geom.Rect
	under   float64 // height of its underside above the floor
	a, b, c float64 // its upper face is z = a + bx + cy
	number  int     // of a tread, from 1 at the foot; 0 for anything else
	stood   bool    // it can be stood on
	walked  bool    // people go about on it, so that its edges are looked at
	wall    bool    // it keeps people from an edge where it is high enough
}

func (s *solid) top(p geom.Point) float64 { return s.a + s.b*p.X + s.c*p.Y }

// piece is one copy of an element in one of its positions.
type piece struct {
	element  *set.Element
	copy     int // index in the element's copies
	place    set.Place
	position string
	solids   [2]int32 // from and to in the scene's solids
}

func (p *piece) name() string { return p.element.PlaceName(p.element.Copies[p.copy], p.place) }

// nameIn names the piece when the moving ones stand in a position, even where it does not move itself.
func (p *piece) nameIn(position string) string {
	if position == p.position {
		return p.name()
	}
	return p.name() + " (" + position + ")"
}

// scene holds the set's solids so that those about a place are found quickly. Pieces that have other positions stand
// in it in each of them; which are there together, there says.
type scene struct {
	pieces    []piece
	solids    []solid
	index     *index
	positions []string // the base, "", first; the others in the file's order
	moved     map[movedKey]bool
	first     map[*set.Element]int32 // of its pieces, which stand one after the other
	movers    map[string][]int32     // by position: the pieces that stand in it, and those pieces' base
}

type movedKey struct {
	position string
	element  *set.Element
	copy     int
}

func newScene(s *set.Set) *scene {
	sc := &scene{positions: []string{""}, moved: map[movedKey]bool{}, movers: map[string][]int32{}, first: map[*set.Element]int32{}}
	seen := map[string]bool{"": true}
	for _, e := range s.Elements {
		for k, cp := range e.Copies {
			base := int32(len(sc.pieces))
			for i, pl := range cp.Places {
				if pl.Frame.R[2][2] <= 0 {
					continue // upside down: it has no upper face of its own
				}
				p := piece{element: e, copy: k, place: pl}
				if i > 0 {
					p.position = pl.Position
				}
				sc.build(&p)
				if p.solids[0] == p.solids[1] {
					break
				}
				if i > 0 {
					if !seen[p.position] {
						seen[p.position] = true
						sc.positions = append(sc.positions, p.position)
					}
					sc.moved[movedKey{p.position, e, k}] = true
					sc.movers[p.position] = append(sc.movers[p.position], base, int32(len(sc.pieces)))
				}
				if _, ok := sc.first[e]; !ok {
					sc.first[e] = int32(len(sc.pieces))
				}
				sc.pieces = append(sc.pieces, p)
			}
		}
	}
	boxes := make([]geom.Rect, len(sc.solids))
	for i := range sc.solids {
		boxes[i] = sc.solids[i].box
	}
	sc.index = newIndex(boxes)
	return sc
}

// there reports whether a piece stands where it does in the given position of the moving pieces: a piece that has no
// place of that position stays where it stands at first.
func (sc *scene) there(p *piece, position string) bool {
	return p.position == position || p.position == "" && !sc.moved[movedKey{position, p.element, p.copy}]
}

// together reports whether two pieces, each in its own position, stand there at the same time.
func (sc *scene) together(p, q *piece) bool {
	return p.position == q.position || q.position == "" && sc.there(q, p.position) || p.position == "" && sc.there(p, q.position)
}

// about returns the solids whose boxes meet r and that are there in the position, in the file's order.
func (sc *scene) about(r geom.Rect, position string, buf []int32) []int32 {
	buf = sc.index.find(r, buf[:0])
	return slices.DeleteFunc(buf, func(i int32) bool { return !sc.there(&sc.pieces[sc.solids[i].piece], position) })
}

// concerned yields the pieces to look at in a position: all at first, later only those that have a place of that
// position or stand where such a piece comes to or has left.
func (sc *scene) concerned(position string, yield func(i int)) {
	if position == "" {
		for i := range sc.pieces {
			if sc.pieces[i].position == "" {
				yield(i)
			}
		}
		return
	}
	near := map[int]bool{}
	var buf []int32
	for _, i := range sc.movers[position] {
		p := &sc.pieces[i]
		for k := p.solids[0]; k < p.solids[1]; k++ {
			buf = sc.about(sc.solids[k].box.Grow(reachIn), position, buf)
			for _, j := range buf {
				near[int(sc.solids[j].piece)] = true
			}
		}
	}
	order := make([]int, 0, len(near))
	for i := range near {
		order = append(order, i)
	}
	slices.Sort(order)
	for _, i := range order {
		yield(i)
	}
}

// build appends the solids of a piece, the next in the list.
func (sc *scene) build(p *piece) {
	level := p.place.Level()
	p.solids[0] = int32(len(sc.solids))
	defer func() { p.solids[1] = int32(len(sc.solids)) }()
	add := func(r geom.Region, s solid) {
		s.piece, s.under = int32(len(sc.pieces)), s.under+level
		if s.trace(r) {
			sc.solids = append(sc.solids, s)
		}
	}
	m := p.place.Frame.Plan()
	switch sh := p.element.Shape.(type) {
	case *set.Hall, *set.Mark, *set.Reserve:
	case *set.Flat:
		for _, st := range stretches(sh) {
			add(st.region.Transform(m), solid{under: st.under, a: level + st.top, wall: true})
		}
	case *set.Cone:
		for _, c := range tapered(sh) {
			add(c.region.Transform(m), solid{under: c.under, a: level + c.top, stood: c.stood})
		}
	case *set.Figure:
		if b := sh.Box(); !b.Empty() {
			for _, r := range set.Footprints(sh) {
				add(r.Transform(m), solid{under: b.Min.Y, a: level + b.Max.Y})
			}
		}
	case *set.Post:
		for _, f := range set.Surfaces(p.element, p.place) {
			add(f.Region, solid{a: f.A})
		}
	case *set.Panel:
		if sh.Stands {
			b := sh.Outline.Path.Bounds()
			for _, r := range set.Footprints(sh) {
				add(r.Transform(m), solid{under: b.Min.Y, a: level + b.Max.Y, wall: sh.Outline.Form == "rect"})
			}
			break
		}
		for _, f := range set.Surfaces(p.element, p.place) {
			add(f.Region, solid{a: f.A, stood: true})
		}
	default:
		_, steps := sh.(*set.Steps)
		for i, f := range set.Surfaces(p.element, p.place) {
			s := solid{a: f.A, b: f.B, c: f.C, stood: true, walked: walked(sh)}
			if steps {
				s.number = i + 1
			}
			add(f.Region, s)
		}
	}
}

// trace gives the solid its rings; false where the region encloses nothing.
func (s *solid) trace(r geom.Region) bool {
	if r.Outer.Empty() {
		return false
	}
	s.region = r
	s.rings = append(s.rings, turned(r.Outer.Flatten(flatness, nil), false))
	for _, h := range r.Holes {
		if !h.Empty() {
			s.rings = append(s.rings, turned(h.Flatten(flatness, nil), true))
		}
	}
	s.box = geom.EmptyRect()
	for _, p := range s.rings[0] {
		s.box = s.box.Include(p)
	}
	return len(s.rings[0]) > 2
}

// turned returns the ring run anticlockwise, or clockwise.
func turned(ring []geom.Point, clockwise bool) []geom.Point {
	area := 0.0
	for i, p := range ring {
		area += p.Sub(ring[0]).Cross(ring[(i+1)%len(ring)].Sub(ring[0]))
	}
	if (area < 0) != clockwise {
		slices.Reverse(ring)
	}
	return ring
}
