package pdf

import (
	"math"

	"markout/layout/geom"
)

// leastGap is how far on paper a curve that stands for an arc may be from it, millimetres.
const leastGap = 0.002

// paths appends paths and reports whether anything came of them.
func (c *canvas) paths(paths []*geom.Path) bool {
	any := false
	for _, p := range paths {
		if c.path(p) {
			any = true
		}
	}
	return any
}

// path appends one path. Curves stay curves; arcs become as many cubic ones as they need. Lines and curves that have no length in
// whole units are left out: they would spoil the join where they stand.
func (c *canvas) path(p *geom.Path) bool {
	if p.Empty() {
		return false
	}
	mark := len(c.buf)
	c.point(p.Start())
	c.put("m\n")
	drawn := false
	at := p.Start()
	for _, s := range p.Segments() {
		switch s.Kind {
		case geom.Line:
			if c.same(at, s.To) {
				continue
			}
			c.point(s.To)
			c.put("l\n")
		case geom.Cubic:
			if c.same(at, s.C1) && c.same(at, s.C2) && c.same(at, s.To) {
				continue
			}
			c.curve(s.C1, s.C2, s.To)
		default:
			c.arc(s)
		}
		at, drawn = s.To, true
	}
	if !drawn {
		c.buf = c.buf[:mark]
		return false
	}
	if p.Closed() {
		c.put("h\n")
	}
	return true
}

func (c *canvas) same(a, b geom.Point) bool {
	u := c.unit
	return math.Floor(a.X*u+0.5) == math.Floor(b.X*u+0.5) && math.Floor(a.Y*u+0.5) == math.Floor(b.Y*u+0.5)
}

func (c *canvas) curve(c1, c2, to geom.Point) {
	c.point(c1)
	c.point(c2)
	c.point(to)
	c.put("c\n")
}

// arc appends an arc as cubic curves. One curve over the angle θ has handles of 4/3·tan(θ/4) and is off by about
// 2.73e-4·(θ/90°)⁶ of the radius (the error of the quarter is the known one, that of smaller arcs falls with the sixth power).
func (c *canvas) arc(s geom.Segment) {
	n := math.Ceil(math.Abs(s.Sweep) / (math.Pi / 2))
	quarter := math.Abs(s.Sweep) / (math.Pi / 2)
	gap := 2.73e-4 * max(s.RX, s.RY) * c.unit / perMillimetre
	if gap > leastGap {
		n = max(n, math.Ceil(quarter*math.Pow(gap/leastGap, 1.0/6)))
	}
	n = min(max(n, 1), 1000)
	step := s.Sweep / n
	k := 4.0 / 3 * math.Tan(step/4)
	u := geom.Polar(s.RX, s.Phi)
	v := geom.Polar(s.RY, s.Phi+math.Pi/2)
	place := func(t float64) (at, along geom.Point) {
		sn, cs := math.Sincos(t)
		return s.Centre.Add(u.Mul(cs)).Add(v.Mul(sn)), v.Mul(cs).Sub(u.Mul(sn))
	}
	from, along := place(s.Theta)
	for i := 1.0; i <= n; i++ {
		to, next := place(s.Theta + i*step)
		if i == n {
			to = s.To
		}
		c.curve(from.Add(along.Mul(k)), to.Sub(next.Mul(k)), to)
		from, along = to, next
	}
}

func (c *canvas) polygon(points []geom.Point) {
	for i, p := range points {
		c.point(p)
		if i == 0 {
			c.put("m\n")
		} else {
			c.put("l\n")
		}
	}
	c.put("h\n")
}
