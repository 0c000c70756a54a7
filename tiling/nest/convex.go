package nest

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

func sortPoints(p []geom.Point) {
	slices.SortFunc(p, func(a, b geom.Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
}

// convexParts returns convex rings that together are the area of the rings, and those rings. Where they cannot be told apart for
// rounding, the holes are given up, and if that does not help, the convex hull stands for all: never less than the area.
func convexParts(rs []ring) (parts, of []ring) {
	want := 0.0
	for _, r := range rs {
		want += r.area()
	}
	for _, try := range [][]ring{rs, rs[:1]} {
		if parts, ok := cutConvex(try); ok {
			got := 0.0
			for _, p := range parts {
				got += p.area()
			}
			if got >= want*(1-1e-9) && (len(try) < len(rs) || got <= want*(1+1e-9)) {
				return parts, try
			}
		}
	}
	h := []ring{hull(rs[0])}
	return h, h
}

// corner is a corner of the bridged ring: id names the point, which both ends of a bridge have twice.
type corner struct {
	geom.Point
	id int
}

// cutConvex cuts ears off the ring into which bridges join the holes, and joins the triangles again wherever what comes out
// is convex (Hertel and Mehlhorn 1983: at most four times the fewest parts).
func cutConvex(rs []ring) ([]ring, bool) {
	poly, ok := bridged(rs)
	if !ok {
		return nil, false
	}
	var tris [][]corner
	for len(poly) > 3 {
		i := bestEar(poly)
		if i < 0 {
			return nil, false
		}
		n := len(poly)
		tris = append(tris, []corner{poly[(i+n-1)%n], poly[i], poly[(i+1)%n]})
		poly = slices.Delete(poly, i, i+1)
	}
	tris = append(tris, poly)
	return joined(tris), true
}

// bestEar returns the ear whose least angle is greatest, so that few slivers come out; −1 where there is none.
func bestEar(poly []corner) int {
	n := len(poly)
	best, at := -1.0, -1
	for i := range poly {
		a, b, c := poly[(i+n-1)%n], poly[i], poly[(i+1)%n]
		u, v := b.Sub(a.Point), c.Sub(b.Point)
		cross := u.Cross(v)
		if cross <= 0 {
			if cross == 0 && u.Dot(v) <= 0 {
				return i // a spike without area
			}
			continue
		}
		w := a.Sub(c.Point)
		q := cross / math.Max(u.Dot(u), math.Max(v.Dot(v), w.Dot(w)))
		if q > best && emptyEar(poly, i) {
			best, at = q, i
		}
	}
	return at
}

// emptyEar reports whether no other corner lies in the triangle at corner i. Corners that coincide with the triangle's own
// are judged by where their neighbours lead.
func emptyEar(poly []corner, i int) bool {
	n := len(poly)
	a, b, c := poly[(i+n-1)%n], poly[i], poly[(i+1)%n]
	for k := 2; k < n-1; k++ {
		p := poly[(i+k)%n]
		if p.id == a.id || p.id == b.id || p.id == c.id {
			continue
		}
		if b.Sub(a.Point).Cross(p.Sub(a.Point)) >= 0 && c.Sub(b.Point).Cross(p.Sub(b.Point)) >= 0 && a.Sub(c.Point).Cross(p.Sub(c.Point)) >= 0 {
			return false
		}
	}
	return true
}

// bridged joins holes to the outer ring by bridges walked both ways: from the hole's rightmost corner to a corner that it
// sees (Eberly, "Triangulation by Ear Clipping").
func bridged(rs []ring) ([]corner, bool) {
	id := 0
	named := func(r ring) []corner {
		out := make([]corner, len(r))
		for i, p := range r {
			out[i] = corner{p, id}
			id++
		}
		return out
	}
	poly := named(rs[0])
	holes := make([][]corner, 0, len(rs)-1)
	for _, r := range rs[1:] {
		h := named(r)
		k := 0
		for i, c := range h {
			if c.X > h[k].X {
				k = i
			}
		}
		holes = append(holes, slices.Concat(h[k:], h[:k]))
	}
	slices.SortStableFunc(holes, func(a, b []corner) int { return cmp.Compare(b[0].X, a[0].X) })
	for _, h := range holes {
		at := sees(poly, h[0].Point)
		if at < 0 {
			return nil, false
		}
		way := slices.Concat(poly[:at+1], h, h[:1], poly[at:])
		poly = way
	}
	return poly, len(poly) >= 3
}

// sees returns a corner of the ring in sight of m, looking right; −1 where there is none.
func sees(poly []corner, m geom.Point) int {
	n := len(poly)
	hitX, at := math.Inf(1), -1
	for i := range poly {
		p, q := poly[i].Point, poly[(i+1)%n].Point
		if p.Y > m.Y || q.Y < m.Y || p.Y == q.Y {
			continue // the material is on the left of an edge that rises on the right of the hole
		}
		x := p.X + (m.Y-p.Y)/(q.Y-p.Y)*(q.X-p.X)
		if x >= m.X && x < hitX {
			hitX = x
			at = i
			if q.X > p.X {
				at = (i + 1) % n
			}
		}
	}
	if at < 0 {
		return -1
	}
	// Corners inside the triangle m, hit, corner may hide it; the one at the least angle, of equals the nearest, is in sight.
	hit, far := geom.Point{X: hitX, Y: m.Y}, poly[at].Point
	bestTan, bestD := math.Inf(1), math.Inf(1)
	for i, c := range poly {
		p := c.Point
		if p.X < m.X || !inTriangle(p, m, hit, far) {
			continue
		}
		prev, next := poly[(i+n-1)%n].Point, poly[(i+1)%n].Point
		if !locallyInside(prev, p, next, m) {
			continue
		}
		d := p.Sub(m)
		tan := math.Abs(d.Y) / math.Max(d.X, 1e-300)
		if tan < bestTan || tan == bestTan && d.Len() < bestD {
			bestTan, bestD, at = tan, d.Len(), i
		}
	}
	return at
}

func inTriangle(p, a, b, c geom.Point) bool {
	if b.Sub(a).Cross(c.Sub(a)) < 0 {
		b, c = c, b
	}
	return b.Sub(a).Cross(p.Sub(a)) >= 0 && c.Sub(b).Cross(p.Sub(b)) >= 0 && a.Sub(c).Cross(p.Sub(c)) >= 0
}

// locallyInside reports whether the way from the corner p between its neighbours towards m begins in the material.
func locallyInside(prev, p, next, m geom.Point) bool {
	in, out, d := p.Sub(prev), next.Sub(p), m.Sub(p)
	if in.Cross(out) >= 0 {
		return in.Cross(d) >= 0 && out.Cross(d) >= 0
	}
	return in.Cross(d) >= 0 || out.Cross(d) >= 0
}

// joined joins parts over their common edges while what comes out is convex, longest edges first.
func joined(parts [][]corner) []ring {
	type edge struct{ a, b int }
	owner := map[edge]int{}
	type inner struct {
		e edge
		l float64
	}
	var inners []inner
	for i, p := range parts {
		for k := range p {
			q := p[(k+1)%len(p)]
			owner[edge{p[k].id, q.id}] = i
		}
	}
	for _, p := range parts {
		for k := range p {
			q := p[(k+1)%len(p)]
			if p[k].id < q.id {
				if _, ok := owner[edge{q.id, p[k].id}]; ok {
					inners = append(inners, inner{edge{p[k].id, q.id}, p[k].Dist(q.Point)})
				}
			}
		}
	}
	slices.SortStableFunc(inners, func(a, b inner) int { return cmp.Compare(b.l, a.l) })
	for _, in := range inners {
		i, okI := owner[in.e]
		j, okJ := owner[edge{in.e.b, in.e.a}]
		if !okI || !okJ || i == j {
			continue
		}
		both, ok := joinAt(parts[i], parts[j], in.e.a, in.e.b)
		if !ok {
			continue
		}
		delete(owner, in.e)
		delete(owner, edge{in.e.b, in.e.a})
		parts[i], parts[j] = both, nil
		for k := range both {
			owner[edge{both[k].id, both[(k+1)%len(both)].id}] = i
		}
	}
	var out []ring
	for _, p := range parts {
		r := make(ring, len(p))
		for i, c := range p {
			r[i] = c.Point
		}
		if r = tidy(r); len(r) >= 3 {
			out = append(out, r)
		}
	}
	return out
}

// joinAt joins p, which has the edge a→b, and q, which has b→a, if that is convex.
func joinAt(p, q []corner, a, b int) ([]corner, bool) {
	i := slices.IndexFunc(p, func(c corner) bool { return c.id == b })
	j := slices.IndexFunc(q, func(c corner) bool { return c.id == a })
	p, q = slices.Concat(p[i:], p[:i]), slices.Concat(q[j:], q[:j])
	both := slices.Concat(p, q[1:len(q)-1]) // b … a … and back to b
	n := len(both)
	for _, k := range []int{0, len(p) - 1} {
		u, v := both[k].Sub(both[(k+n-1)%n].Point), both[(k+1)%n].Sub(both[k].Point)
		if u.Cross(v) < -1e-13*u.Len()*v.Len() {
			return nil, false
		}
	}
	return both, true
}
