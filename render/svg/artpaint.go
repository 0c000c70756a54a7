package svg

import (
	"math"
	"strings"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// shape draws an outline with its paints. One that is drawn with a pen that is not round is written as it is before the pen presses
// it out of shape.
func (a *art) shape(s *artwork.Shape) {
	pen, back := artwork.Identity(), artwork.Identity()
	if s.Stroke != nil && s.Stroke.Pen != (artwork.Matrix{}) && s.Stroke.Pen != artwork.Identity() {
		if inv, ok := s.Stroke.Pen.Inverse(); ok {
			pen, back = s.Stroke.Pen, inv
		}
	}
	var fill, stroke string // names of gradients
	if s.Fill != nil && s.Fill.Gradient != nil {
		fill = a.gradient(s.Fill.Gradient, back)
	}
	if s.Stroke != nil && s.Stroke.Gradient != nil {
		stroke = a.gradient(s.Stroke.Gradient, back)
	}
	a.put("<path")
	if s.Fill == nil {
		a.put(` fill="none"`)
	} else {
		a.paint("fill", s.Fill.Paint, fill)
		if s.Fill.EvenOdd {
			a.put(` fill-rule="evenodd"`)
		}
	}
	if s.Stroke != nil {
		a.paint("stroke", s.Stroke.Paint, stroke)
		a.line(s.Stroke)
		if s.StrokeFirst && s.Fill != nil {
			a.put(` paint-order="stroke"`)
		}
	}
	if pen != artwork.Identity() {
		a.matrix("transform", pen)
	}
	a.paths(s.Paths, back)
	a.put("/>\n")
}

func (a *art) paint(what string, p artwork.Paint, gradient string) {
	if gradient != "" {
		a.link(what, gradient)
	} else {
		a.put(" " + what + `="`)
		a.colour(p.Colour)
		a.put(`"`)
	}
	a.opacity(what+"-opacity", p.Opacity)
}

const hexDigits = "0123456789abcdef"

func (pic *picture) colour(c artwork.Colour) {
	pic.buf = append(pic.buf, '#')
	for _, v := range [3]uint8{c.R, c.G, c.B} {
		pic.buf = append(pic.buf, hexDigits[v>>4], hexDigits[v&15])
	}
}

func (a *art) line(s *artwork.Stroke) {
	a.significant(` stroke-width="`, s.Width)
	a.put(`"`)
	switch s.Cap {
	case artwork.RoundCap:
		a.put(` stroke-linecap="round"`)
	case artwork.Square:
		a.put(` stroke-linecap="square"`)
	}
	switch s.Join {
	case artwork.RoundJoin:
		a.put(` stroke-linejoin="round"`)
	case artwork.Bevel:
		a.put(` stroke-linejoin="bevel"`)
	default:
		if s.MiterLimit != 4 {
			a.significant(` stroke-miterlimit="`, max(s.MiterLimit, 1))
			a.put(`"`)
		}
	}
	if len(s.Dashes) == 0 {
		return
	}
	before := ` stroke-dasharray="`
	for _, d := range s.Dashes {
		a.significant(before, d)
		before = " "
	}
	if s.Phase != 0 {
		a.significant(`" stroke-dashoffset="`, s.Phase)
	}
	a.put(`"`)
}

// gradient writes a gradient and returns its name; back takes the picture to where the outline it paints is written.
func (a *art) gradient(g *artwork.Gradient, back artwork.Matrix) string {
	name := a.name("gradient")
	kind := "linearGradient"
	if g.Radial {
		kind = "radialGradient"
	}
	a.put("<" + kind + ` id="` + name + `" gradientUnits="userSpaceOnUse"`)
	if m := g.Frame.Then(back); m != artwork.Identity() {
		a.matrix("gradientTransform", m)
	}
	words, values := strings.Fields("x1 y1 x2 y2"), []float64{g.From.X, g.From.Y, g.To.X, g.To.Y}
	if g.Radial {
		words, values = strings.Fields("cx cy r fx fy fr"), []float64{g.To.X, g.To.Y, g.R1, g.From.X, g.From.Y, g.R0}
	}
	for i, w := range words {
		a.significant(" "+w+`="`, values[i])
		a.put(`"`)
	}
	switch g.Spread {
	case artwork.Reflect:
		a.put(` spreadMethod="reflect"`)
	case artwork.Repeat:
		a.put(` spreadMethod="repeat"`)
	}
	a.put(">")
	for _, s := range g.Stops {
		a.significant(`<stop offset="`, s.At)
		a.put(`" stop-color="`)
		a.colour(s.Colour)
		a.put(`"`)
		a.opacity("stop-opacity", s.Opacity)
		a.put("/>")
	}
	a.put("</" + kind + ">\n")
	return name
}

// paths writes subpaths as one path's data, taken through a map first. Curves stay the curves they are.
func (a *art) paths(paths []*geom.Path, through artwork.Matrix) {
	a.put(` d="`)
	for _, p := range paths {
		if p.Empty() {
			continue
		}
		if through != artwork.Identity() {
			p = through.Path(p)
		}
		a.put("M")
		a.point(p.Start())
		last := p.Len() - 1
		for i, s := range p.Segments() {
			switch s.Kind {
			case geom.Line:
				if i == last && p.Closed() {
					continue // Z draws it
				}
				a.put("L")
				a.point(s.To)
			case geom.Arc, geom.EllipticalArc:
				a.curve(s)
			case geom.Cubic:
				a.put("C")
				a.point(s.C1)
				a.put(" ")
				a.point(s.C2)
				a.put(" ")
				a.point(s.To)
			}
		}
		if p.Closed() {
			a.put("Z")
		}
	}
	a.put(`"`)
}

func (a *art) point(p geom.Point) {
	a.buf = append(appendFixed(a.buf, p.X, a.decimals), ' ')
	a.buf = appendFixed(a.buf, p.Y, a.decimals)
}

// curve writes an arc in parts of a quarter turn and less: the nearer an arc is to half a turn, the more of its centre is lost when
// its ends are rounded.
func (a *art) curve(s geom.Segment) {
	n := int(math.Ceil(min(math.Abs(s.Sweep), 2*math.Pi) / (math.Pi / 2) * (1 - 1e-12)))
	for i := range max(n, 1) {
		part := s
		if n > 1 {
			part = s.Split(float64(i)/float64(n), float64(i+1)/float64(n))
		}
		a.put("A")
		a.buf = append(appendFixed(a.buf, part.RX, a.decimals), ' ')
		a.buf = append(appendFixed(a.buf, part.RY, a.decimals), ' ')
		a.buf = appendFixed(a.buf, part.Phi*180/math.Pi, 7)
		if part.Sweep > 0 {
			a.put(" 0 1 ")
		} else {
			a.put(" 0 0 ")
		}
		if i == n-1 {
			part.To = s.To
		}
		a.point(part.To)
	}
}
