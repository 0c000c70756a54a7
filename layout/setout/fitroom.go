package setout

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// fitRoom is the room worked in as a set has to fit it, in the set's axes: the straight walls of its outline's convex hull, and
// what takes room within them: pillars, and where the outline is not convex, the parts of its hull that lie outside it, cut into
// triangles. Everything in it is convex, so that distances from it are too.
type fitRoom struct {
	outline   []geom.Point // anticlockwise
	planes    []fitPlane
	obstacles []fitObstacle
	hollow    bool // the outline is not convex
}

// fitPlane is a wall: the room lies where out·p ≤ d.
type fitPlane struct {
	out geom.Point // unit, out of the room
	d   float64
}

// fitObstacle is a convex area that nothing may stand in: a full circle where it has no sides.
type fitObstacle struct {
	centre geom.Point
	radius float64   // of the circle about the centre that holds it
	sides  []fitSide // anticlockwise
}

// fitSide is a side of an obstacle, which lies to the left of it.
type fitSide struct {
	from, ahead geom.Point // ahead is a unit
	long        float64
}

// newFitRoom returns the room that the hall e is. Curved walls are followed to within `flat`.
func newFitRoom(e *set.Element, h *set.Hall) *fitRoom {
	m := e.Copies[0].Places[0].Frame.Plan()
	r := &fitRoom{outline: ringOf(h.Outline.Path.Transform(m))}
	if geom.Polygon(r.outline).Area() < 0 {
		reverse(r.outline)
	}
	hull := geom.Hull(r.outline)
	for i, p := range hull {
		q := hull[(i+1)%len(hull)]
		out := q.Sub(p).Unit().Left().Mul(-1)
		r.planes = append(r.planes, fitPlane{out, max(out.Dot(p), out.Dot(q))})
	}
	r.pockets(hull)
	for _, p := range h.Pillars {
		path := p.Outline.Path.Transform(m)
		if c, radius, ok := path.Round(); ok {
			r.obstacles = append(r.obstacles, fitObstacle{centre: c, radius: radius})
			continue
		}
		r.obstacles = append(r.obstacles, newFitObstacle(geom.Hull(ringOf(path))))
	}
	return r
}

func reverse(pts []geom.Point) {
	for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
		pts[i], pts[j] = pts[j], pts[i]
	}
}

// ringOf returns the corners of a closed path, each once.
func ringOf(p *geom.Path) []geom.Point {
	var out []geom.Point
	for _, q := range p.Flatten(flat, nil) {
		if len(out) == 0 || !q.Near(out[len(out)-1]) {
			out = append(out, q)
		}
	}
	for len(out) > 1 && out[0].Near(out[len(out)-1]) {
		out = out[:len(out)-1]
	}
	return out
}

func newFitObstacle(corners []geom.Point) fitObstacle {
	var o fitObstacle
	for i, p := range corners {
		d := corners[(i+1)%len(corners)].Sub(p)
		o.sides = append(o.sides, fitSide{p, d.Unit(), d.Len()})
		o.centre = o.centre.Add(p.Mul(1 / float64(len(corners))))
	}
	for _, p := range corners {
		o.radius = max(o.radius, o.centre.Dist(p))
	}
	return o
}

// pockets makes obstacles of what the hull holds and the outline does not: between two corners of the hull that follow each
// other, the run of the outline that leaves it.
func (r *fitRoom) pockets(hull []geom.Point) {
	corner := make(map[geom.Point]bool, len(hull))
	for _, p := range hull {
		corner[p] = true
	}
	n := len(r.outline)
	start := 0
	for start < n && !corner[r.outline[start]] {
		start++
	}
	run := []geom.Point{}
	for k := 0; k <= n && start < n; k++ {
		p := r.outline[(start+k)%n]
		run = append(run, p)
		if k > 0 && corner[p] {
			reverse(run) // seen from the pocket, the outline runs clockwise
			for _, t := range triangles(run) {
				r.obstacles, r.hollow = append(r.obstacles, newFitObstacle(t)), true
			}
			run = []geom.Point{p}
		}
	}
}

// triangles cuts a simple anticlockwise polygon into triangles, corner by corner (ear clipping); slivers are left out.
func triangles(pts []geom.Point) [][]geom.Point {
	pts = append([]geom.Point(nil), pts...)
	var out [][]geom.Point
	for len(pts) > 2 {
		ear := -1
		for i := range pts {
			a, b, c := pts[(i+len(pts)-1)%len(pts)], pts[i], pts[(i+1)%len(pts)]
			turn := b.Sub(a).Cross(c.Sub(b))
			if math.Abs(turn) <= geom.Tolerance*a.Dist(c) {
				ear = i // on the line from its neighbours: nothing is lost with it
				break
			}
			if turn > 0 && !holdsAny(a, b, c, pts) {
				ear = i
				break
			}
		}
		if ear < 0 {
			break // only a polygon that crosses itself has no ear
		}
		a, b, c := pts[(ear+len(pts)-1)%len(pts)], pts[ear], pts[(ear+1)%len(pts)]
		if b.Sub(a).Cross(c.Sub(b)) > geom.Tolerance*a.Dist(c) {
			out = append(out, []geom.Point{a, b, c})
		}
		pts = append(pts[:ear], pts[ear+1:]...)
	}
	return out
}

func holdsAny(a, b, c geom.Point, pts []geom.Point) bool {
	for _, p := range pts {
		if p == a || p == b || p == c {
			continue
		}
		if b.Sub(a).Cross(p.Sub(a)) >= 0 && c.Sub(b).Cross(p.Sub(b)) >= 0 && a.Sub(c).Cross(p.Sub(c)) >= 0 {
			return true
		}
	}
	return false
}

// walls returns how far p lies within the nearest wall of the hull, square to it; less than 0 beyond one.
func (r *fitRoom) walls(p geom.Point) float64 {
	d := math.Inf(1)
	for _, w := range r.planes {
		d = min(d, w.d-w.out.Dot(p))
	}
	return d
}

// free returns how far p is from everything; less than 0 beyond a wall or inside an obstacle.
func (r *fitRoom) free(p geom.Point) float64 {
	d := r.walls(p)
	for i := range r.obstacles {
		d = min(d, r.obstacles[i].away(p))
	}
	return d
}

// away returns how far p is from the obstacle; inside it less than 0, to its nearest edge.
func (o *fitObstacle) away(p geom.Point) float64 {
	if o.sides == nil {
		return p.Dist(o.centre) - o.radius
	}
	inside, outside := math.Inf(-1), math.Inf(1)
	for i := range o.sides {
		e := &o.sides[i]
		v := p.Sub(e.from)
		off, along := v.Cross(e.ahead), v.Dot(e.ahead)
		inside = max(inside, off)
		if along < 0 {
			outside = min(outside, along*along+off*off)
		} else {
			past := max(along-e.long, 0)
			outside = min(outside, past*past+off*off)
		}
	}
	if inside <= 0 {
		return inside
	}
	return math.Sqrt(outside)
}

// nearestOn returns the place of the straight line from a to b that is nearest to p.
func nearestOn(a, b, p geom.Point) geom.Point {
	d := b.Sub(a)
	l := d.Dot(d)
	if l == 0 {
		return a
	}
	return a.Add(d.Mul(min(max(p.Sub(a).Dot(d)/l, 0), 1)))
}

// beside returns how near the straight line from a to b comes to the obstacle, or how deep into it; what is not less than
// least may be given as least. The distance from a convex area changes along a line as a convex function, whose lowest
// place is found by thirds.
func (o *fitObstacle) beside(a, b geom.Point, least float64) float64 {
	near := nearestOn(a, b, o.centre)
	if near.Dist(o.centre)-o.radius >= least {
		return least
	}
	if o.sides == nil {
		return min(least, near.Dist(o.centre)-o.radius)
	}
	from, to := 0.0, 1.0
	for a.Dist(b)*(to-from) > geom.Tolerance {
		s, t := from+(to-from)/3, to-(to-from)/3
		ds, dt := o.away(a.Lerp(b, s)), o.away(a.Lerp(b, t))
		if min(ds, dt)-a.Dist(b)*(to-from)/3 >= least {
			return least // it changes by no more than the place moves
		}
		if ds <= dt {
			to = t
		} else {
			from = s
		}
	}
	return min(least, o.away(a.Lerp(b, (from+to)/2)))
}

// over returns how far p lies outside the hall's outline or inside a pillar; 0 where it is free.
func (r *fitRoom) over(p geom.Point) float64 {
	out := 0.0
	for i := range r.obstacles {
		out = max(out, -r.obstacles[i].away(p))
	}
	if out == 0 && r.walls(p) >= 0 {
		return 0
	}
	return max(out, -r.within(p))
}

// within returns how far p is from the hall's outline: less than 0 outside it.
func (r *fitRoom) within(p geom.Point) float64 {
	d := math.Inf(1)
	for i, a := range r.outline {
		d = min(d, p.Dist(nearestOn(a, r.outline[(i+1)%len(r.outline)], p)))
	}
	if holds([][]geom.Point{r.outline}, p) {
		return d
	}
	return -d
}

// holds reports whether p lies within rings, by the parity of crossings.
func holds(rings [][]geom.Point, p geom.Point) bool {
	in := false
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
	}
	return in
}
