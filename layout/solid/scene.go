// Package solid takes a set for upright prisms, so that what lies over or beside what is found quickly: a tread with what is under it,
// a stretch of a wall beside an opening, a piece that hangs upside down.
package solid

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// Walked reports whether people go about on a shape, so that its edges are looked at.
func Walked(sh set.Shape) bool {
	_, platform := sh.(*set.Platform)
	return platform || Climbed(sh)
}

// Climbed reports whether a shape leads from one level to another.
func Climbed(sh set.Shape) bool {
	switch sh.(type) {
	case *set.Steps, *set.Ramp:
		return true
	}
	return false
}

// Flatness is how far in millimetres a curve may lie from the straight runs that stand for it here.
const Flatness = 0.05

// Solid is one upright prism of a piece: a tread with what is under it, a stretch of a flat beside an opening.
type Solid struct {
	Piece  int32
	Region geom.Region    // on the plan
	Rings  [][]geom.Point // the same in straight runs; the material lies to the left of every ring, holes included
	Box    geom.Rect
	Under  float64 // height of its underside above the floor, the least of one that slopes
	// Its underside is z = Under + D + Ex + Fy, not below Under; level but for what hangs upside down.
	D, E, F float64
	A, B, C float64 // its upper face is z = A + Bx + Cy
	Hung    bool    // it hangs upside down
	Number  int     // of a tread, from 1 at the foot; 0 for anything else
	Stood   bool    // it can be stood on
	Walked  bool    // people go about on it, so that its edges are looked at
	Wall    bool    // it keeps people from an edge where it is high enough
}

// Top returns the height of the upper face at p.
func (s *Solid) Top(p geom.Point) float64 { return s.A + s.B*p.X + s.C*p.Y }

// Bottom returns the height of the underside at p.
func (s *Solid) Bottom(p geom.Point) float64 { return s.Under + s.D + s.E*p.X + s.F*p.Y }

// Heights returns the least and the greatest height of the solid's upper face.
func (s *Solid) Heights() (low, high float64) {
	if s.B == 0 && s.C == 0 {
		return s.A, s.A
	}
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range s.Rings[0] {
		z := s.Top(p)
		low, high = min(low, z), max(high, z)
	}
	return low, high
}

// Sloped reports whether a face of the solid is not level.
func (s *Solid) Sloped() bool { return s.B != 0 || s.C != 0 || s.E != 0 || s.F != 0 }

// Piece is one copy of an element in one of its positions.
type Piece struct {
	Element  *set.Element
	Copy     int // index in the element's copies
	Place    set.Place
	Position string
	Solids   [2]int32 // from and to in the scene's solids
}

func (p *Piece) Name() string { return p.Element.PlaceName(p.Element.Copies[p.Copy], p.Place) }

// NameIn names the piece when the moving ones stand in a position, even where it does not move itself.
func (p *Piece) NameIn(position string) string {
	if position == p.Position {
		return p.Name()
	}
	return p.Name() + " (" + position + ")"
}

// Scene holds the set's solids so that those about a place are found quickly. Pieces that have other positions stand
// in it in each of them; which are there together, there says.
type Scene struct {
	Pieces    []Piece
	Solids    []Solid
	Index     *index
	Positions []string // the base, "", first; the others in the file's order
	moved     map[movedKey]bool
	First     map[*set.Element]int32 // of its pieces, which stand one after the other
	movers    map[string][]int32     // by position: the pieces that stand in it, and those pieces' base
}

type movedKey struct {
	position string
	element  *set.Element
	copy     int
}

func NewScene(s *set.Set) *Scene {
	sc := &Scene{Positions: []string{""}, moved: map[movedKey]bool{}, movers: map[string][]int32{}, First: map[*set.Element]int32{}}
	seen := map[string]bool{"": true}
	for _, e := range s.Elements {
		for k, cp := range e.Copies {
			base := int32(len(sc.Pieces))
			for i, pl := range cp.Places {
				p := Piece{Element: e, Copy: k, Place: pl}
				if i > 0 {
					p.Position = pl.Position
				}
				if sc.build(&p); pl.Over != nil {
					sc.hang(&p)
				}
				if p.Solids[0] == p.Solids[1] {
					break
				}
				if i > 0 {
					if !seen[p.Position] {
						seen[p.Position] = true
						sc.Positions = append(sc.Positions, p.Position)
					}
					sc.moved[movedKey{p.Position, e, k}] = true
					sc.movers[p.Position] = append(sc.movers[p.Position], base, int32(len(sc.Pieces)))
				}
				if _, ok := sc.First[e]; !ok {
					sc.First[e] = int32(len(sc.Pieces))
				}
				sc.Pieces = append(sc.Pieces, p)
			}
		}
	}
	boxes := make([]geom.Rect, len(sc.Solids))
	for i := range sc.Solids {
		boxes[i] = sc.Solids[i].Box
	}
	sc.Index = newIndex(boxes)
	return sc
}

// there reports whether a piece stands where it does in the given position of the moving pieces: a piece that has no
// place of that position stays where it stands at first.
func (sc *Scene) there(p *Piece, position string) bool {
	return p.Position == position || p.Position == "" && !sc.moved[movedKey{position, p.Element, p.Copy}]
}

// together reports whether two pieces, each in its own position, stand there at the same time.
func (sc *Scene) Together(p, q *Piece) bool {
	return p.Position == q.Position || q.Position == "" && sc.there(q, p.Position) || p.Position == "" && sc.there(p, q.Position)
}

// About returns the solids whose boxes meet r and that are there in the position, in the file's order.
func (sc *Scene) About(r geom.Rect, position string, buf []int32) []int32 {
	buf = sc.Index.Find(r, buf[:0])
	return slices.DeleteFunc(buf, func(i int32) bool { return !sc.there(&sc.Pieces[sc.Solids[i].Piece], position) })
}

// Concerned yields the pieces to look at in a position: all at first, later only those that have a place of that
// position or stand where such a piece comes to or has left, no further from it than reach in x or y.
func (sc *Scene) Concerned(position string, reach float64, yield func(i int)) {
	if position == "" {
		for i := range sc.Pieces {
			if sc.Pieces[i].Position == "" {
				yield(i)
			}
		}
		return
	}
	near := map[int]bool{}
	var buf []int32
	for _, i := range sc.movers[position] {
		p := &sc.Pieces[i]
		for k := p.Solids[0]; k < p.Solids[1]; k++ {
			buf = sc.About(sc.Solids[k].Box.Grow(reach), position, buf)
			for _, j := range buf {
				near[int(sc.Solids[j].Piece)] = true
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
func (sc *Scene) build(p *Piece) {
	place := p.Place
	if place.Over != nil {
		place = standing(place)
	}
	level := place.Level()
	p.Solids[0] = int32(len(sc.Solids))
	defer func() { p.Solids[1] = int32(len(sc.Solids)) }()
	add := func(r geom.Region, s Solid) {
		s.Piece, s.Under = int32(len(sc.Pieces)), s.Under+level
		if s.trace(r) {
			sc.Solids = append(sc.Solids, s)
		}
	}
	m := place.Frame.Plan()
	switch sh := p.Element.Shape.(type) {
	case *set.Hall, *set.Room, *set.Mark, *set.Walk, *set.Reserve:
	case *set.Flat:
		for _, st := range stretches(sh) {
			add(st.region.Transform(m), Solid{Under: st.under, A: level + st.top, Wall: true})
		}
	case *set.Cone:
		for _, c := range tapered(sh) {
			add(c.region.Transform(m), Solid{Under: c.under, A: level + c.top, Stood: c.stood})
		}
	case *set.Figure:
		if b := sh.Box(); !b.Empty() {
			for _, r := range set.Footprints(sh) {
				add(r.Transform(m), Solid{Under: b.Min.Y, A: level + b.Max.Y})
			}
		}
	case *set.Post:
		for _, f := range set.Surfaces(p.Element, place) {
			add(f.Region, Solid{A: f.A})
		}
	case *set.Panel:
		if sh.Stands {
			b := sh.Outline.Path.Bounds()
			for _, r := range set.Footprints(sh) {
				add(r.Transform(m), Solid{Under: b.Min.Y, A: level + b.Max.Y, Wall: sh.Outline.Form == "rect"})
			}
			break
		}
		for _, f := range set.Surfaces(p.Element, place) {
			add(f.Region, Solid{A: f.A, Stood: true})
		}
	default:
		_, steps := sh.(*set.Steps)
		for i, f := range set.Surfaces(p.Element, place) {
			s := Solid{A: f.A, B: f.B, C: f.C, Stood: true, Walked: Walked(sh)}
			if steps {
				s.Number = i + 1
			}
			add(f.Region, s)
		}
	}
}

// trace gives the solid its rings; false where the region encloses nothing.
func (s *Solid) trace(r geom.Region) bool {
	if r.Outer.Empty() {
		return false
	}
	s.Region = r
	s.Rings = append(s.Rings, Turned(r.Outer.Flatten(Flatness, nil), false))
	for _, h := range r.Holes {
		if !h.Empty() {
			s.Rings = append(s.Rings, Turned(h.Flatten(Flatness, nil), true))
		}
	}
	s.Box = geom.EmptyRect()
	for _, p := range s.Rings[0] {
		s.Box = s.Box.Include(p)
	}
	return len(s.Rings[0]) > 2
}

// Turned returns the ring run anticlockwise, or clockwise.
func Turned(ring []geom.Point, clockwise bool) []geom.Point {
	area := 0.0
	for i, p := range ring {
		area += p.Sub(ring[0]).Cross(ring[(i+1)%len(ring)].Sub(ring[0]))
	}
	if (area < 0) != clockwise {
		slices.Reverse(ring)
	}
	return ring
}
