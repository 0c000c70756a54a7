package setout

import (
	"cmp"
	"slices"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// Asked says why a clear distance is in the list.
type Asked uint8

const (
	Keep      Asked = iota // the file wants it to be kept
	Dim                    // the file wants it to be seen
	Neighbour              // nothing stands nearer
)

// Clearance is a distance on the plan between two pieces or places.
type Clearance struct {
	From, To string // as people name them: bollard.3, cart (scene 2), deck.front
	Asked    Asked
	Clear    float64    // millimetres; 0 where they touch or overlap
	AtLeast  float64    // of a Keep, 0 for any other
	A, B     geom.Point // where it is measured, at From and at To
	Span     diag.Span  // of a Keep and a Dim
}

// apart is the least distance in millimetres at which two pieces count as neighbours; nearer ones touch.
const apart = 0.5

// Clearances returns the clear distances of s: of every `keep`, the least of any copies and positions that stand there at the
// same time; of every `dim`; then between neighbours.
//
// Neighbours keep the list as short as the file: for each element the one nearest other element that shares some height with
// it and does not touch it, and of a repeated element the least distance between its own copies; a pair that both ends
// name, or a keep before it, stands once. Of elements that move it is the least of all their positions.
func Clearances(s *set.Set) []Clearance {
	sc := newScene(bodies(s))
	names := map[string][]int32{} // bodies by element and by copy
	for i := range sc.bodies {
		b := &sc.bodies[i]
		names[b.element.Name] = append(names[b.element.Name], int32(i))
		if n := b.element.CopyName(b.element.Copies[b.copy]); n != b.element.Name {
			names[n] = append(names[n], int32(i))
		}
	}
	var out []Clearance
	for _, k := range s.Keeps {
		if c, ok := sc.kept(names[k.A], names[k.B]); ok {
			c.Asked, c.AtLeast, c.Span = Keep, k.AtLeast, k.Span
			out = append(out, c)
		}
	}
	for _, d := range s.Dims {
		out = append(out, sc.asked(d, names))
	}
	kept := out[:len(out):len(out)]
	for _, c := range sc.neighbours() {
		if !slices.ContainsFunc(kept, func(k Clearance) bool { return k.Asked == Keep && k.From == c.From && k.To == c.To }) {
			out = append(out, c)
		}
	}
	return out
}

func (sc *scene) clearance(f between) Clearance {
	return Clearance{From: sc.bodies[f.from].name, To: sc.bodies[f.to].name, Clear: f.clear, A: f.a, B: f.b}
}

// kept returns the least distance between the two groups of bodies.
func (sc *scene) kept(from, to []int32) (Clearance, bool) {
	other := make(map[*body]bool, len(to))
	for _, i := range to {
		other[&sc.bodies[i]] = true
	}
	found := nothing()
	for _, i := range from {
		sc.nearest(i, func(a, b *body) bool {
			return other[b] && !(a.element == b.element && a.copy == b.copy)
		}, 0, &found)
	}
	if found.to < 0 {
		return Clearance{}, false
	}
	return sc.clearance(found), true
}

// asked measures a dim: between two places, a place and a piece, or two pieces where they stand at first.
func (sc *scene) asked(d set.Dim, names map[string][]int32) Clearance {
	c := Clearance{From: d.A.Words, To: d.B.Words, Asked: Dim, A: d.A.At, B: d.B.At, Span: d.Span}
	c.Clear = c.A.Dist(c.B) // of a piece to itself
	from, to := sc.end(d.A, names), sc.end(d.B, names)
	found := nothing()
	for i := range from {
		for k := range to {
			a, b := &from[i], &to[k]
			if a.element != nil && a.element == b.element && a.copy == b.copy {
				continue
			}
			if x, p, q := clear(a, b, found.clear); x < found.clear {
				found = between{clear: x, a: p, b: q}
				c.Clear, c.A, c.B = x, p, q
			}
		}
	}
	return c
}

// end returns the bodies that an anchor means; of a place a body without size.
func (sc *scene) end(a set.Anchor, names map[string][]int32) []body {
	var out []body
	if a.Whole {
		for _, i := range names[a.Element] {
			if b := sc.bodies[i]; b.position == "" {
				out = append(out, b)
			}
		}
	}
	if len(out) == 0 {
		out = append(out, body{round: true, centre: a.At})
	}
	return out
}

func (sc *scene) neighbours() []Clearance {
	type pair struct{ a, b *set.Element }
	list := map[pair]bool{}
	var out []Clearance
	note := func(f between) {
		if f.to < 0 {
			return
		}
		p := pair{sc.bodies[f.from].element, sc.bodies[f.to].element}
		if list[p] || list[pair{p.b, p.a}] {
			return
		}
		list[p] = true
		c := sc.clearance(f)
		c.Asked = Neighbour
		out = append(out, c)
	}
	others := func(a, b *body) bool { return a.element != b.element && b.stands() && a.besides(b) }
	copies := func(a, b *body) bool { return a.element == b.element && a.copy != b.copy && a.besides(b) }
	for i := 0; i < len(sc.bodies); {
		e, from := sc.bodies[i].element, i
		other, own := nothing(), nothing()
		for ; i < len(sc.bodies) && sc.bodies[i].element == e; i++ {
			if sc.bodies[i].stands() {
				sc.nearest(int32(i), others, apart, &other)
				if len(e.Copies) > 1 {
					sc.nearest(int32(i), copies, apart, &own)
				}
			}
		}
		if i > from {
			note(other)
			note(own)
		}
	}
	slices.SortStableFunc(out, func(a, b Clearance) int { return cmp.Compare(steps(a.Clear), steps(b.Clear)) })
	return out
}
