package nest

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// outline is a piece's outline at one turn, grown by half the gap, its lower left corner at 0,0. Pieces that look alike
// share it.
type outline struct {
	id    int
	w, h  float64
	parts []part
	rings []ring // not grown
}

// choice is one of the turns of a kind of piece.
type choice struct {
	*outline
	turn  float64
	shift geom.Point // the piece's own 0,0, seen from the outline's lower left corner
}

// kind is a piece to be laid, with all that is known of it before.
type kind struct {
	area    float64
	size    geom.Point // of its box, unturned
	choices []choice
}

// stock is everything that is known of the pieces before they are laid.
type stock struct {
	kinds    []kind
	outlines []*outline
	gap, eps float64
}

// mostCorners bounds the corners of an outline that no-fit polygons are made of; finer ones are simplified outwards.
const mostCorners = 64

// newStock prepares the pieces; eps is the distance within which places are one.
func newStock(pieces []Piece, gap float64) *stock {
	s := &stock{gap: gap, kinds: make([]kind, len(pieces))}
	size := 0.0
	for _, p := range pieces {
		b := p.Outline.Bounds()
		size = math.Max(size, b.W()+b.H())
	}
	s.eps = 1e-9 * size
	for i, p := range pieces {
		b := p.Outline.Bounds()
		k := kind{area: p.Outline.Area(), size: geom.Point{X: b.W(), Y: b.H()}}
		rs := coarse(p.Outline)
		parts, rs := convexParts(rs)
		for _, t := range turnsOf(p.Turns, rs[0]) {
			k.choices = s.add(k.choices, rs, parts, t)
		}
		s.kinds[i] = k
	}
	return s
}

// coarse returns the outline's rings with few enough corners.
func coarse(r geom.Region) []ring {
	b := r.Bounds()
	tol := math.Max(5e-4*(b.W()+b.H()), 10*geom.Tolerance)
	for range 6 {
		rs := rings(r, tol)
		n := 0
		for _, f := range rs {
			n += len(f)
		}
		if n <= mostCorners {
			return rs
		}
		tol *= 2
	}
	return rings(r, tol)
}

// add adds the outline at a turn to the choices, unless it looks as at a turn that is among them.
func (s *stock) add(cs []choice, rs []ring, parts []ring, turn float64) []choice {
	m := geom.Move(geom.Point{}, turn)
	box := geom.EmptyRect()
	for _, p := range rs[0] {
		box = box.Include(m.Apply(p))
	}
	shift := geom.Point{X: s.gap/2 - box.Min.X, Y: s.gap/2 - box.Min.Y}
	move := func(rs []ring) []ring {
		out := make([]ring, len(rs))
		for i, r := range rs {
			out[i] = make(ring, len(r))
			for j, p := range r {
				out[i][j] = m.Apply(p).Add(shift)
			}
		}
		return out
	}
	turned := move(rs)
	for _, o := range s.outlines {
		if alike(o.rings, turned, s.eps) {
			if slices.ContainsFunc(cs, func(c choice) bool { return c.outline == o }) {
				return cs
			}
			return append(cs, choice{o, turn, shift})
		}
	}
	o := &outline{id: len(s.outlines), w: box.W() + s.gap, h: box.H() + s.gap, rings: turned}
	for _, r := range move(parts) {
		if s.gap > 0 {
			r = sum(r, disc(s.gap/2), s.eps)
		}
		o.parts = append(o.parts, newPart(r))
	}
	s.outlines = append(s.outlines, o)
	return append(cs, choice{o, turn, shift})
}

// alike reports whether two outlines are the same corner by corner.
func alike(a, b []ring, eps float64) bool {
	if len(a) != len(b) {
		return false
	}
	for _, r := range a {
		if !slices.ContainsFunc(b, func(s ring) bool { return sameRing(r, s, eps) }) {
			return false
		}
	}
	return true
}

func sameRing(a, b ring, eps float64) bool {
	if len(a) != len(b) {
		return false
	}
	for k := range b {
		same := true
		for i := range a {
			if a[i].Dist(b[(i+k)%len(b)]) > eps {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// discSides is the number of sides of the polygon that stands for the disc by which outlines are grown. It lies about the disc,
// so that a gap is at most 1/cos 15° = 1.035 times as wide as it need be, and touches it towards the sheet's edges.
const discSides = 12

// disc returns the polygon about the disc of radius d.
func disc(d float64) ring {
	r := make(ring, discSides)
	for i := range r {
		r[i] = geom.Polar(d/math.Cos(math.Pi/discSides), 2*math.Pi*(float64(i)+0.5)/discSides)
	}
	return r
}

// turnsOf returns the turns to be tried: those allowed or, where any is, the quarter turns and those that lay the outline's
// longest sides, its hull's, along the sheet.
func turnsOf(allowed []float64, outer ring) []float64 {
	if len(allowed) > 0 {
		return allowed
	}
	turns := []float64{0, 90, 180, 270}
	h := hull(outer)
	type long struct{ l, deg float64 }
	var sides []long
	for i, p := range h {
		v := h[(i+1)%len(h)].Sub(p)
		deg := math.Mod(-v.Angle()*180/math.Pi+720, 90)
		if deg > 89.999 || deg < 0.001 {
			continue
		}
		sides = append(sides, long{v.Len(), deg})
	}
	slices.SortStableFunc(sides, func(a, b long) int {
		switch {
		case a.l > b.l:
			return -1
		case a.l < b.l:
			return 1
		}
		return 0
	})
	for _, s := range sides[:min(len(sides), 3)] {
		if slices.ContainsFunc(turns, func(t float64) bool { return math.Abs(t-s.deg) < 0.001 }) {
			continue
		}
		for q := range 4 {
			turns = append(turns, s.deg+float64(q)*90)
		}
	}
	return turns
}
