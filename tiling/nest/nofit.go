package nest

import (
	"cmp"
	"math"
	"slices"
	"sync/atomic"

	"markout/layout/geom"
)

// side is the line along an edge of a convex part: NX, NY its unit normal inwards, D how far it lies along that normal, so that
// NX·x + NY·y − D is the distance of a place inside the line.
type side struct{ nx, ny, d float64 }

// part is a convex area.
type part struct {
	box   geom.Rect
	ring  ring
	sides []side
}

func newPart(r ring) part {
	p := part{box: geom.EmptyRect(), ring: r, sides: make([]side, 0, len(r))}
	for i, a := range r {
		b := r[(i+1)%len(r)]
		n := b.Sub(a).Unit().Left()
		p.sides = append(p.sides, side{n.X, n.Y, n.Dot(a)})
		p.box = p.box.Include(a)
	}
	return p
}

// depth returns how far the place lies inside the part's nearest side; less than 0 outside.
func (p *part) depth(x, y float64) float64 {
	d := math.Inf(1)
	for i := range p.sides {
		s := &p.sides[i]
		if v := s.nx*x + s.ny*y - s.d; v < d {
			d = v
		}
	}
	return d
}

// edge is a straight run of the border of a no-fit polygon.
type edge struct{ a, b geom.Point }

// nofit is the no-fit polygon of a fixed and a moving outline: the places of the moving one's own point, seen from the fixed
// one's, at which the two overlap. It is the union of the insides of parts, the Minkowski sums of the fixed outline's convex
// parts and the moving one's turned about: two outlines overlap exactly where some of their convex parts do, since the cuts
// between parts have no area. What is on the border touches.
type nofit struct {
	box    geom.Rect
	parts  []part
	border []edge                // of the union; where outlines fit each other exactly, runs and points within it too
	gauge  atomic.Pointer[gauge] // nil until it is asked for
}

// newNofit makes the no-fit polygon of two outlines that were grown by half the gap each. Places within eps are one.
func newNofit(fixed, moving *outline, gap, eps float64) *nofit {
	n := &nofit{box: geom.EmptyRect()}
	for i := range fixed.parts {
		for j := range moving.parts {
			p := newPart(sum(fixed.parts[i].ring, moving.parts[j].ring, eps))
			n.parts = append(n.parts, p)
			n.box = n.box.Union(p.box)
		}
	}
	if len(n.parts) == 1 {
		r := n.parts[0].ring
		for k := range r {
			n.border = append(n.border, edge{r[k], r[(k+1)%len(r)]})
		}
		return n
	}
	n.parts = dropCovered(n.parts, eps)
	var c cutter
	for _, e := range convolution(fixed.rings, moving.rings, gap) {
		c.start(e)
		for j := range n.parts {
			c.cut(&n.parts[j], 0, 0, eps)
		}
		n.border = c.rest(n.border)
	}
	n.border = dropTwins(n.border, eps)
	return n
}

// turnedAbout returns the no-fit polygon of the same outlines when the other one moves.
func (n *nofit) turnedAbout() *nofit {
	m := &nofit{
		box:    geom.Rect{Min: n.box.Max.Mul(-1), Max: n.box.Min.Mul(-1)},
		parts:  make([]part, len(n.parts)),
		border: make([]edge, len(n.border)),
	}
	for i, p := range n.parts {
		q := part{box: geom.Rect{Min: p.box.Max.Mul(-1), Max: p.box.Min.Mul(-1)}, ring: p.ring.turnedAbout(), sides: make([]side, len(p.sides))}
		for k, s := range p.sides {
			q.sides[k] = side{-s.nx, -s.ny, s.d}
		}
		m.parts[i] = q
	}
	for i, e := range n.border {
		m.border[i] = edge{e.a.Mul(-1), e.b.Mul(-1)}
	}
	return m
}

// turnedAbout returns the ring turned by half a turn about 0,0.
func (r ring) turnedAbout() ring {
	out := make(ring, len(r))
	for i, p := range r {
		out[i] = p.Mul(-1)
	}
	return out
}

// sum returns the Minkowski sum of a and of b turned by half a turn, both convex and anticlockwise.
func sum(a, b ring, eps float64) ring {
	i0, j0 := 0, 0
	for i := range a {
		if a[i].Y < a[i0].Y || a[i].Y == a[i0].Y && a[i].X < a[i0].X {
			i0 = i
		}
	}
	for j := range b {
		if b[j].Y > b[j0].Y || b[j].Y == b[j0].Y && b[j].X > b[j0].X {
			j0 = j
		}
	}
	out := make(ring, 0, len(a)+len(b))
	for i, j := 0, 0; i < len(a) || j < len(b); {
		p, q := a[(i0+i)%len(a)], b[(j0+j)%len(b)]
		at := p.Sub(q)
		if len(out) == 0 || at.Dist(out[len(out)-1]) > eps {
			out = append(out, at)
		}
		u := a[(i0+i+1)%len(a)].Sub(p)
		v := q.Sub(b[(j0+j+1)%len(b)])
		k := u.Cross(v)
		near := 1e-12 * u.Len() * v.Len()
		switch {
		case i == len(a):
			j++
		case j == len(b):
			i++
		case k > near:
			i++
		case k < -near:
			j++
		default:
			i, j = i+1, j+1
		}
	}
	if len(out) > 1 && out[0].Dist(out[len(out)-1]) <= eps {
		out = out[:len(out)-1]
	}
	return out
}

// dropCovered drops parts that lie wholly in another.
func dropCovered(parts []part, eps float64) []part {
	if len(parts) == 1 {
		return parts
	}
	kept := parts[:0:0]
	gone := make([]bool, len(parts))
	for i := range parts {
		for j := range parts {
			if i == j || gone[j] || !within(parts[i].box, parts[j].box, eps) {
				continue
			}
			inside := true
			for _, p := range parts[i].ring {
				if parts[j].depth(p.X, p.Y) < -eps/4 {
					inside = false
					break
				}
			}
			if inside {
				gone[i] = true
				break
			}
		}
		if !gone[i] {
			kept = append(kept, parts[i])
		}
	}
	return kept
}

func within(a, b geom.Rect, eps float64) bool {
	return a.Min.X >= b.Min.X-eps && a.Min.Y >= b.Min.Y-eps && a.Max.X <= b.Max.X+eps && a.Max.Y <= b.Max.Y+eps
}

// dropTwins drops runs that stand on another, and points that stand on the end of a run. Ends are looked up by the square they
// lie in, since outlines with many tabs leave tens of thousands of runs.
func dropTwins(es []edge, eps float64) []edge {
	slices.SortStableFunc(es, func(e, f edge) int { return cmp.Compare(f.a.Dist(f.b), e.a.Dist(e.b)) })
	type square struct{ x, y float64 }
	side := 4 * eps
	squareOf := func(p geom.Point) square { return square{math.Floor(p.X / side), math.Floor(p.Y / side)} }
	ends := make(map[square][]int32, 2*len(es))
	kept := es[:0]
	for _, e := range es {
		point := e.a.Dist(e.b) <= eps
		twin := func(i int32) bool {
			f := kept[i]
			return point && (e.a.Dist(f.a) <= 2*eps || e.a.Dist(f.b) <= 2*eps) ||
				e.a.Dist(f.a) <= eps && e.b.Dist(f.b) <= eps || e.a.Dist(f.b) <= eps && e.b.Dist(f.a) <= eps
		}
		lo := squareOf(e.a.Sub(geom.Point{X: 2 * eps, Y: 2 * eps}))
		hi := squareOf(e.a.Add(geom.Point{X: 2 * eps, Y: 2 * eps}))
		drop := false
		for x := lo.x; x <= hi.x && !drop; x++ {
			for y := lo.y; y <= hi.y && !drop; y++ {
				drop = slices.ContainsFunc(ends[square{x, y}], twin)
			}
		}
		if drop {
			continue
		}
		n := int32(len(kept))
		kept = append(kept, e)
		at, to := squareOf(e.a), squareOf(e.b)
		ends[at] = append(ends[at], n)
		if to != at {
			ends[to] = append(ends[to], n)
		}
	}
	return kept
}

// cutter takes the insides of convex parts out of a straight run.
type cutter struct {
	e     edge
	d     geom.Point
	l     float64
	box   geom.Rect
	spans [][2]float64 // what is left, as shares of the run
	spare [][2]float64
}

func (c *cutter) start(e edge) {
	c.e, c.d = e, e.b.Sub(e.a)
	c.l = c.d.Len()
	c.box = geom.EmptyRect().Include(e.a).Include(e.b)
	c.spans = append(c.spans[:0], [2]float64{0, 1})
}

// cut takes out the inside of the part shifted by x, y. A run along its border stays, and so does the point at which two parts
// only just meet.
func (c *cutter) cut(p *part, x, y, eps float64) {
	if len(c.spans) == 0 || p.box.Max.X+x <= c.box.Min.X || p.box.Min.X+x >= c.box.Max.X && c.box.Max.X > c.box.Min.X ||
		p.box.Max.Y+y <= c.box.Min.Y || p.box.Min.Y+y >= c.box.Max.Y && c.box.Max.Y > c.box.Min.Y {
		return
	}
	ax, ay := c.e.a.X-x, c.e.a.Y-y
	from, to := math.Inf(-1), math.Inf(1)
	for i := range p.sides {
		s := &p.sides[i]
		v := s.nx*ax + s.ny*ay - s.d
		k := s.nx*c.d.X + s.ny*c.d.Y
		switch {
		case k > 0:
			from = max(from, -v/k)
		case k < 0:
			to = min(to, -v/k)
		case v <= 0:
			return
		}
		if from >= to {
			return
		}
	}
	lo, hi := max(from, 0), min(to, 1)
	if lo > hi {
		return
	}
	m := (lo + hi) / 2
	if p.depth(ax+m*c.d.X, ay+m*c.d.Y) <= eps {
		return
	}
	near := 0.0
	if c.l > 0 {
		near = eps / c.l
	}
	c.spare = c.spare[:0]
	for _, s := range c.spans {
		if to <= s[0] || from >= s[1] {
			c.spare = append(c.spare, s)
			continue
		}
		if from >= s[0]-near {
			c.spare = append(c.spare, [2]float64{s[0], max(s[0], from)})
		}
		if to <= s[1]+near {
			c.spare = append(c.spare, [2]float64{min(s[1], to), s[1]})
		}
	}
	c.spans, c.spare = c.spare, c.spans
}

// rest appends what is left of the run.
func (c *cutter) rest(dst []edge) []edge {
	for _, s := range c.spans {
		e := c.e
		if s[0] > 0 {
			e.a = c.e.a.Lerp(c.e.b, s[0])
		}
		if s[1] < 1 {
			e.b = c.e.a.Lerp(c.e.b, s[1])
		}
		dst = append(dst, e)
	}
	return dst
}
