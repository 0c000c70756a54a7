package pdf

import (
	"math"
	"strconv"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// mostRounds is how many rounds of a repeated gradient are written; what would need more is finer than anything printed.
const mostRounds = 4000

// edge is how far beyond its ends a gradient goes on in the colour that an edge there leads to.
const edge = 1.0 / 1024

// pattern returns the pattern of a gradient that fills box, in the picture's millimetres; of its opacities as greys with alphas.
func (c *canvas) pattern(g *artwork.Gradient, box geom.Rect, alphas bool) ref {
	b := []byte("<</PatternType 2/Matrix[")
	m, k := g.Frame, c.unit
	for _, v := range [6]float64{m.A * k, m.B * k, m.C * k, m.D * k, m.E * k, m.F * k} {
		b = append(appendSignificant(b, v), ' ')
	}
	b = appendRef(append(b, "]/Shading "...), c.shading(g, box, alphas))
	return c.object(append(b, ">>"...))
}

// shading writes a gradient in its own frame, so that it is the same wherever it is shown.
func (c *canvas) shading(g *artwork.Gradient, box geom.Rect, alphas bool) ref {
	t0, t1 := reach(g, box)
	function := c.stops(g.Stops, alphas)
	switch {
	case g.Spread != artwork.Pad:
		function = c.rounds(function, t0, t1, g.Spread == artwork.Reflect)
	case t0 < 0 || t1 > 1:
		function = c.beyond(function, g.Stops, t0, t1, alphas)
	}
	at := func(t float64) geom.Point { return g.From.Lerp(g.To, t) }
	b := []byte("<</ShadingType ")
	coords := []float64{at(t0).X, at(t0).Y, at(t1).X, at(t1).Y}
	if g.Radial {
		b = append(b, '3')
		radius := func(t float64) float64 { return max(g.R0+t*(g.R1-g.R0), 0) }
		coords = []float64{at(t0).X, at(t0).Y, radius(t0), at(t1).X, at(t1).Y, radius(t1)}
	} else {
		b = append(b, '2')
	}
	b = append(b, "/ColorSpace"...)
	b = append(append(b, c.space(alphas)...), "/Coords["...)
	for _, v := range coords {
		b = append(appendSignificant(b, v), ' ')
	}
	b = append(b, "]/Domain["...)
	b = append(appendSignificant(b, t0), ' ')
	b = append(appendSignificant(b, t1), "]/Extend[true true]/Function "...)
	return c.object(append(appendRef(b, function), ">>"...))
}

func (c *canvas) space(alphas bool) string {
	if c.grey || alphas {
		return "/DeviceGray"
	}
	return "/DeviceRGB"
}

// reach returns the shares of the way between which a gradient is written.
func reach(g *artwork.Gradient, box geom.Rect) (t0, t1 float64) {
	t0, t1 = 0, 1
	if g.Spread == artwork.Pad {
		n := len(g.Stops)
		if !g.Radial && n > 1 && g.Stops[1].At <= 0 {
			t0 = -edge
		}
		if n > 1 && g.Stops[n-2].At >= 1 {
			t1 = 1 + edge
		}
		return t0, t1
	}
	back, ok := g.Frame.Inverse()
	if !ok || box.Empty() {
		return t0, t1
	}
	for _, q := range corners(box) {
		t := shareAt(g, back.Apply(q))
		if math.IsNaN(t) || math.IsInf(t, 0) {
			continue
		}
		t0, t1 = min(t0, math.Floor(t)), max(t1, math.Ceil(t))
	}
	t0, t1 = max(t0, -mostRounds/2), min(t1, mostRounds/2)
	if g.Radial {
		t0 = max(-mostRounds/2, -g.R0/(g.R1-g.R0)) // where the circle is a point
	}
	return t0, t1
}

// shareAt is the share of the way at a place of the gradient's frame. Along a radial one it is the greatest t whose circle,
// about From + t·(To−From) with radius R0 + t·(R1−R0), goes through the place.
func shareAt(g *artwork.Gradient, p geom.Point) float64 {
	d, q := g.To.Sub(g.From), p.Sub(g.From)
	if !g.Radial {
		return q.Dot(d) / d.Dot(d)
	}
	dr := g.R1 - g.R0
	a := d.Dot(d) - dr*dr
	h := q.Dot(d) + g.R0*dr
	k := q.Dot(q) - g.R0*g.R0
	if math.Abs(a) <= 1e-12*dr*dr {
		return k / (2 * h)
	}
	root := math.Sqrt(max(h*h-a*k, 0))
	return max((h+root)/a, (h-root)/a)
}

// stops writes the colours, or the opacities, as a function of the share of the way, 0 to 1.
func (c *canvas) stops(stops []artwork.Stop, alphas bool) ref {
	var pieces []piece
	add := func(from, to float64, a, b artwork.Stop) {
		if to-from > 1e-9 {
			pieces = append(pieces, piece{to, c.between(a, b, alphas), 0, 1})
		}
	}
	first, last := stops[0], stops[len(stops)-1]
	add(0, first.At, first, first)
	for i := 1; i < len(stops); i++ {
		add(stops[i-1].At, stops[i].At, stops[i-1], stops[i])
	}
	add(last.At, 1, last, last)
	if len(pieces) == 0 {
		return c.between(first, last, alphas)
	}
	return c.stitched(pieces, 0)
}

// between writes a function that runs from one colour to another.
func (c *canvas) between(a, b artwork.Stop, alphas bool) ref {
	f := append([]byte("<</FunctionType 2/Domain[0 1]/N 1/C0["), c.stop(a, alphas)...)
	f = append(append(f, "]/C1["...), c.stop(b, alphas)...)
	return c.object(append(f, "]>>"...))
}

func (c *canvas) stop(s artwork.Stop, alphas bool) string {
	if alphas {
		return string(appendReal(nil, alpha(s.Opacity), 4))
	}
	v, grey := c.colour(s.Colour)
	if grey && !c.grey {
		v += " " + v + " " + v
	}
	return v
}

// piece is a part of a stitched function: up to where it is used, the function, and what it is asked at its ends.
type piece struct {
	to       float64
	function ref
	from, at float64
}

// stitched writes a function of pieces that begin at start.
func (c *canvas) stitched(pieces []piece, start float64) ref {
	if len(pieces) == 1 && start == 0 && pieces[0].to == 1 && pieces[0].from == 0 && pieces[0].at == 1 {
		return pieces[0].function
	}
	b := append([]byte("<</FunctionType 3/Domain["), appendSignificant(nil, start)...)
	b = append(appendSignificant(append(b, ' '), pieces[len(pieces)-1].to), "]/Functions["...)
	for _, p := range pieces {
		b = append(appendRef(b, p.function), ' ')
	}
	b = append(b, "]/Bounds["...)
	for _, p := range pieces[:len(pieces)-1] {
		b = append(appendSignificant(b, p.to), ' ')
	}
	b = append(b, "]/Encode["...)
	for _, p := range pieces {
		b = append(appendSignificant(b, p.from), ' ')
		b = append(appendSignificant(b, p.at), ' ')
	}
	return c.object(append(b, "]>>"...))
}

// rounds repeats a function, or runs it back and forth, from t0 to t1.
func (c *canvas) rounds(function ref, t0, t1 float64, reflect bool) ref {
	var pieces []piece
	for i := math.Floor(t0); i < t1; i++ {
		lo, hi := max(i, t0), min(i+1, t1)
		if hi-lo < 1e-9 {
			continue
		}
		p := piece{hi, function, lo - i, hi - i}
		if reflect && math.Mod(i, 2) != 0 {
			p.from, p.at = 1-p.from, 1-p.at
		}
		pieces = append(pieces, p)
	}
	return c.stitched(pieces, t0)
}

// beyond carries on in the colour of the very first or last stop where another one stands at the same place.
func (c *canvas) beyond(function ref, stops []artwork.Stop, t0, t1 float64, alphas bool) ref {
	var pieces []piece
	if t0 < 0 {
		pieces = append(pieces, piece{0, c.between(stops[0], stops[0], alphas), 0, 1})
	}
	pieces = append(pieces, piece{1, function, 0, 1})
	if t1 > 1 {
		last := stops[len(stops)-1]
		pieces = append(pieces, piece{t1, c.between(last, last, alphas), 0, 1})
	}
	return c.stitched(pieces, t0)
}

// seeThrough makes ready for a gradient that something shows through: what is the same everywhere it returns, for what is not it
// sets a mask, which ends with the next pop.
func (c *canvas) seeThrough(s *artwork.Shape, g *artwork.Gradient) float64 {
	even := true
	for _, stop := range g.Stops {
		even = even && stop.Opacity == g.Stops[0].Opacity
	}
	if even {
		return g.Stops[0].Opacity
	}
	k := c.child()
	k.grey = true
	box := c.box(s).Grow(1 / c.unit)
	k.put("/Pattern cs ")
	k.name('P', k.pattern(g, c.box(s), true))
	k.put("scn\n")
	q := corners(box)
	k.coarsen(func() {
		k.polygon(q[:])
		k.put("f\n")
	})
	form := k.form(box, k.group())
	c.state("<</SMask<</S/Luminosity/G " + strconv.Itoa(int(form)) + " 0 R>>>>")
	return 1
}
