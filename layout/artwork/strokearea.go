package artwork

import (
	"math"

	"markout/layout/geom"
)

// polyline is a flattened subpath; corner says of each point whether it is one of the path's own vertices.
type polyline struct {
	points []geom.Point
	corner []bool
	closed bool
}

func flatten(p *geom.Path, tol float64) polyline {
	l := polyline{points: []geom.Point{p.Start()}, corner: []bool{true}, closed: p.Closed()}
	for _, s := range p.Segments() {
		for _, q := range s.Flatten(tol, nil) {
			if q != l.points[len(l.points)-1] {
				l.points, l.corner = append(l.points, q), append(l.corner, false)
			}
		}
		l.corner[len(l.corner)-1] = true
	}
	if n := len(l.points); l.closed && n > 1 && l.points[0] == l.points[n-1] {
		l.points, l.corner = l.points[:n-1], l.corner[:n-1]
	}
	return l
}

// dash cuts a polyline into its dashes.
func (l polyline) dash(dashes []float64, phase float64) []polyline {
	if l.closed {
		l.points, l.corner = append(l.points, l.points[0]), append(l.corner, true)
	}
	i, left := 0, 0.0
	for left = dashes[0]; phase >= left; left = dashes[i%len(dashes)] {
		phase -= left
		i++
	}
	left -= phase
	var out []polyline
	start := func(p geom.Point) { out = append(out, polyline{points: []geom.Point{p}, corner: []bool{true}}) }
	add := func(p geom.Point, corner bool) {
		o := &out[len(out)-1]
		o.points, o.corner = append(o.points, p), append(o.corner, corner)
	}
	if i%2 == 0 {
		start(l.points[0])
	}
	for k := 1; k < len(l.points); k++ {
		a, b := l.points[k-1], l.points[k]
		length := a.Dist(b)
		at := 0.0
		for length-at > left {
			at += left
			q := a.Lerp(b, at/length)
			if i%2 == 0 {
				if o := out[len(out)-1]; len(o.points) == 1 && o.points[0] == q { // a dot needs a direction
					q = q.Add(b.Sub(a).Unit().Mul(1e-9))
				}
				add(q, true)
			} else {
				start(q)
			}
			i++
			left = dashes[i%len(dashes)]
		}
		left -= length - at
		if i%2 == 0 {
			add(b, l.corner[k])
		}
	}
	return out
}

// Polygons returns what the pen covers as polygons of one direction, whose union it is by the nonzero rule; they overlap. Curves are followed
// to within tol, in the pen's own measure. Subpaths and dashes of no length are dots under round and square caps, as SVG has them.
func (s *Stroke) Polygons(paths []*geom.Path, tol float64) [][]geom.Point {
	pen := s.Pen
	back, _ := pen.Inverse()
	var out [][]geom.Point
	emit := func(poly ...geom.Point) {
		q := make([]geom.Point, len(poly))
		area := 0.0
		for i, p := range poly {
			q[i] = pen.Apply(p)
			area += p.Cross(poly[(i+1)%len(poly)])
		}
		if (area < 0) != (pen.Det() < 0) {
			for i, j := 0, len(q)-1; i < j; i, j = i+1, j-1 {
				q[i], q[j] = q[j], q[i]
			}
		}
		out = append(out, q)
	}
	for _, p := range paths {
		l := flatten(back.Path(p), tol)
		if s.Dashes == nil {
			s.line(l, tol, emit)
			continue
		}
		for _, d := range l.dash(s.Dashes, s.Phase) {
			s.line(d, tol, emit)
		}
	}
	return out
}

// mostSides is the greatest number of sides that stand for a round end.
const mostSides = 720

// line emits the polygons of one line without gaps.
func (s *Stroke) line(l polyline, tol float64, emit func(...geom.Point)) {
	n := len(l.points)
	r := s.Width / 2
	sides := 8
	if tol < r {
		sides = int(min(max(math.Ceil(math.Pi/math.Acos(1-tol/r)), 8), mostSides))
	}
	round := func(p geom.Point) {
		poly := make([]geom.Point, sides)
		for i := range poly {
			poly[i] = p.Add(geom.Polar(r, float64(i)*2*math.Pi/float64(sides)))
		}
		emit(poly...)
	}
	if n < 2 {
		p := l.points[0]
		switch s.Cap {
		case RoundCap:
			round(p)
		case Square:
			emit(p.Add(geom.Point{X: -r, Y: -r}), p.Add(geom.Point{X: r, Y: -r}), p.Add(geom.Point{X: r, Y: r}), p.Add(geom.Point{X: -r, Y: r}))
		}
		return
	}
	segments := n - 1
	if l.closed {
		segments = n
	}
	direction := func(i int) geom.Point { return l.points[(i+1)%n].Sub(l.points[i]).Unit() }
	for i := range segments {
		a, b, d := l.points[i], l.points[(i+1)%n], direction(i)
		if s.Cap == Square && !l.closed {
			if i == 0 {
				a = a.Sub(d.Mul(r))
			}
			if i == segments-1 {
				b = b.Add(d.Mul(r))
			}
		}
		o := d.Left().Mul(r)
		emit(a.Add(o), a.Sub(o), b.Sub(o), b.Add(o))
		if l.closed || i > 0 {
			if i > 0 || l.closed {
				s.join(l.points[i], direction((i-1+n)%n), d, l.corner[i], round, emit)
			}
		}
	}
	if s.Cap == RoundCap && !l.closed {
		round(l.points[0])
		round(l.points[n-1])
	}
}

// join emits what fills the corner at p between a line that comes in direction d and goes on in direction e.
func (s *Stroke) join(p, d, e geom.Point, corner bool, round func(geom.Point), emit func(...geom.Point)) {
	r := s.Width / 2
	if corner && s.Join == RoundJoin {
		round(p)
		return
	}
	side := -1.0
	if d.Cross(e) < 0 {
		side = 1
	}
	a, b := p.Add(d.Left().Mul(side*r)), p.Add(e.Left().Mul(side*r))
	if !corner || s.Join == Bevel {
		emit(p, a, b)
		return
	}
	// sin of half the angle between the two lines
	half := math.Sqrt(max(0, (1-d.Mul(-1).Dot(e))/2))
	if half*s.MiterLimit < 1 {
		emit(p, a, b)
		return
	}
	tip := p.Add(a.Sub(p).Add(b.Sub(p)).Unit().Mul(r / half))
	emit(p, a, tip, b)
}
