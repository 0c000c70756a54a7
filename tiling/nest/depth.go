package nest

import "math"

// run is a border edge made ready for measuring distances: where it starts, how it goes, 1/length².
type run struct{ ax, ay, dx, dy, inv float64 }

// span is one convex part of a no-fit polygon: its box and which of the polygon's sides are its own.
type span struct {
	x0, y0, x1, y1 float64
	from, to       int
}

// gauge measures how deep a place lies in a no-fit polygon.
type gauge struct {
	sides []side
	spans []span
	runs  []run
	cells *raster // nil where depths are measured to all runs
}

func newGauge(n *nofit) gauge {
	var g gauge
	for i := range n.parts {
		p := &n.parts[i]
		from := len(g.sides)
		g.sides = append(g.sides, p.sides...)
		g.spans = append(g.spans, span{p.box.Min.X, p.box.Min.Y, p.box.Max.X, p.box.Max.Y, from, len(g.sides)})
	}
	for _, e := range n.border {
		r := run{ax: e.a.X, ay: e.a.Y, dx: e.b.X - e.a.X, dy: e.b.Y - e.a.Y}
		if l := r.dx*r.dx + r.dy*r.dy; l > 0 {
			r.inv = 1 / l
		}
		g.runs = append(g.runs, r)
	}
	return g
}

// depth returns how far a place must move at least to leave the polygon: 0 outside and within eps of its border.
func (g *gauge) depth(x, y, eps float64) float64 {
	d := g.least(x, y, eps)
	if d == 0 || len(g.spans) == 1 {
		return d
	}
	return g.exact(x, y, eps)
}

// least returns a depth no greater than depth, found faster: the depth in one of the parts, of a convex polygon the true one. It
// is 0 only where depth is.
func (g *gauge) least(x, y, eps float64) float64 {
next:
	for i := range g.spans {
		p := &g.spans[i]
		if x <= p.x0 || x >= p.x1 || y <= p.y0 || y >= p.y1 {
			continue
		}
		d := math.Inf(1)
		for k := p.from; k < p.to; k++ {
			s := &g.sides[k]
			v := s.nx*x + s.ny*y - s.d
			if v <= eps {
				continue next
			}
			if v < d {
				d = v
			}
		}
		return d
	}
	return 0
}

// exact returns the distance of a place inside the polygon from its border.
func (g *gauge) exact(x, y, eps float64) float64 {
	d2 := math.Inf(1)
	for i := range g.runs {
		if v := g.runs[i].away(x, y); v < d2 {
			d2 = v
		}
	}
	if d2 <= eps*eps {
		return 0
	}
	return math.Sqrt(d2)
}

// away returns the square of the distance of a place from the run.
func (r *run) away(x, y float64) float64 {
	px, py := x-r.ax, y-r.ay
	t := (px*r.dx + py*r.dy) * r.inv
	if t < 0 {
		t = 0
	} else if t > 1 {
		t = 1
	}
	px -= t * r.dx
	py -= t * r.dy
	return px*px + py*py
}
