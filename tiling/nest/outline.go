package nest

import (
	"math"

	"markout/layout/geom"
)

// ring is a closed run of straight edges with the material on its left: an outer ring runs anticlockwise, a hole clockwise.
type ring []geom.Point

// rings returns the outline as straight rings that hold all of it and stand off it by at most tol: curves that bulge
// outwards are replaced by tangents, those that bulge inwards by chords. The first ring is the outer one.
func rings(r geom.Region, tol float64) []ring {
	out := []ring{flat(r.Outer, r.Outer.Area() > 0, tol)}
	for _, h := range r.Holes {
		if f := flat(h, h.Area() < 0, tol); len(f) >= 3 {
			out = append(out, f)
		}
	}
	return out
}

// flat returns one closed path as a ring; forward says that its material is on its left as it is drawn.
func flat(p *geom.Path, forward bool, tol float64) ring {
	if !forward {
		p = p.Reverse()
	}
	var pts []geom.Point
	for _, s := range p.Segments() {
		pts = append(pts, s.From)
		if s.Kind != geom.Line {
			pts = curve(s, tol, 0, pts)
		}
	}
	return tidy(append(pts, p.End()))
}

// curve appends what stands between the ends of a curve: nothing where its chord is near enough and on the outer side,
// the meeting of the end tangents where they are. Elsewhere the curve is halved.
func curve(s geom.Segment, tol float64, depth int, pts []geom.Point) []geom.Point {
	a, m, b := s.Tangent(0), s.Tangent(0.5), s.Tangent(1)
	chord := s.To.Sub(s.From)
	l := chord.Len()
	first, second := a.Cross(m), m.Cross(b)
	turning := a.Dot(b) > 0.5 && a.Dot(m) > 0.5 && first*second >= 0
	if depth < 16 && (!turning || rise(s, l) > tol) {
		h := s.Point(0.5)
		pts = curve(s.Split(0, 0.5), tol, depth+1, pts)
		return curve(s.Split(0.5, 1), tol, depth+1, append(pts, h))
	}
	if k := a.Cross(b); k > 1e-12 && chord.Cross(b) > 0 {
		if t := chord.Cross(b) / k; t < l {
			pts = append(pts, s.From.Add(a.Mul(t)))
		}
	}
	return pts
}

// rise returns how far the meeting of a flat curve's end tangents stands off its chord of length l, near enough: for an
// arc the height of the triangle on the chord, which is twice the rise of the arc.
func rise(s geom.Segment, l float64) float64 {
	return math.Abs(s.Tangent(0).Cross(s.Tangent(1))) * l / 4
}

// tidy drops corners that stand on their neighbours, or on the line between them.
func tidy(pts []geom.Point) ring {
	size := geom.EmptyRect()
	for _, p := range pts {
		size = size.Include(p)
	}
	near := 1e-9 * (size.W() + size.H())
	for again := true; again && len(pts) >= 3; {
		again = false
		kept := make([]geom.Point, 0, len(pts))
		for i, p := range pts {
			prev := pts[len(pts)-1]
			if len(kept) > 0 {
				prev = kept[len(kept)-1]
			} else if i > 0 {
				prev = pts[i-1]
			}
			next := pts[(i+1)%len(pts)]
			u, v := p.Sub(prev), next.Sub(p)
			if u.Len() <= near || math.Abs(u.Cross(v)) <= near*math.Max(u.Len(), v.Len())*1e-3 && u.Dot(v) > 0 {
				again = true
				continue
			}
			kept = append(kept, p)
		}
		pts = kept
	}
	return pts
}

// area is positive where the ring runs anticlockwise.
func (r ring) area() float64 {
	a := 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		a += p.Sub(r[0]).Cross(q.Sub(r[0]))
	}
	return a / 2
}

// hull returns the convex hull of the points, anticlockwise, without points on its edges.
func hull(pts []geom.Point) ring {
	p := append([]geom.Point(nil), pts...)
	sortPoints(p)
	half := func(p []geom.Point) ring {
		var h ring
		for _, q := range p {
			for len(h) >= 2 && h[len(h)-1].Sub(h[len(h)-2]).Cross(q.Sub(h[len(h)-1])) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		return h[:max(len(h)-1, 0)]
	}
	lower := half(p)
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
	return append(lower, half(p)...)
}
