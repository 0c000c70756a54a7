package artwork

import (
	"strings"

	"markout/layout/geom"
)

// gradient is a gradient as the file defines it, before it is laid over a shape.
type gradient struct {
	radial    bool
	userSpace bool              // lengths are in the user units of the shape, otherwise shares of its box
	values    map[string]length // what is given of x1, y1, x2, y2, or cx, cy, r, fx, fy, fr
	transform Matrix
	spread    Spread
	stops     []Stop
}

// server returns the paint that a link in a property names, laid over a shape in the context c whose box in user units is given.
func (r *reader) server(v valueReader, p property, link string, c context, box geom.Rect) (Paint, bool) {
	e := r.linked(v.e, p.String(), link)
	if e == nil {
		return Paint{}, false
	}
	if e.name != "linearGradient" && e.name != "radialGradient" {
		hint := ""
		if e.name == "pattern" {
			hint = "in the drawing program, convert the line to an outline"
		}
		r.caution(v.where(p), codeLeft, hint, "%s is a %s, with which nothing is painted here", quote(link), e.name)
		return Paint{}, false
	}
	g, known := r.gradients[e]
	if !known {
		g = r.readGradient(e)
		r.gradients[e] = g
	}
	if g == nil || len(g.stops) == 0 {
		return Paint{}, false
	}
	frame, view := c.frame, c.view
	if !g.userSpace {
		if box.Empty() || !(box.W() > 0 && box.H() > 0) {
			return Paint{}, false
		}
		frame = Matrix{A: box.W(), D: box.H(), E: box.Min.X, F: box.Min.Y}.Then(frame)
		view = viewport{1, 1}
	}
	frame = g.transform.Then(frame)
	if _, ok := frame.Inverse(); !ok || !frame.usable() {
		return Paint{}, false
	}
	return g.over(frame, view), true
}

// over lays a gradient into a frame; where it would be of one colour only, it is that.
func (g *gradient) over(frame Matrix, view viewport) Paint {
	last := g.stops[len(g.stops)-1]
	plain := Paint{Colour: last.Colour, Opacity: last.Opacity}
	if len(g.stops) == 1 {
		return plain
	}
	p := &Gradient{Radial: g.radial, Frame: frame, Spread: g.spread, Stops: g.stops}
	if !g.radial {
		p.From = geom.Point{X: g.get("x1", 0, view.w), Y: g.get("y1", 0, view.h)}
		p.To = geom.Point{X: g.get("x2", 1, view.w), Y: g.get("y2", 0, view.h)}
		if p.From == p.To {
			return plain
		}
		return Paint{Gradient: p, Opacity: 1}
	}
	p.To = geom.Point{X: g.get("cx", 0.5, view.w), Y: g.get("cy", 0.5, view.h)}
	p.R1 = g.get("r", 0.5, view.diagonal())
	if !(p.R1 > 0) {
		return plain
	}
	p.R0 = min(max(g.get("fr", 0, view.diagonal()), 0), 0.999*p.R1)
	p.From = p.To
	if _, ok := g.values["fx"]; ok {
		p.From.X = g.get("fx", 0, view.w)
	}
	if _, ok := g.values["fy"]; ok {
		p.From.Y = g.get("fy", 0, view.h)
	}
	// A focus outside moves to the rim (SVG 1.1, section 13.2.3).
	if d := p.From.Sub(p.To); d.Len() > p.R1-p.R0 {
		p.From = p.To.Add(d.Unit().Mul(p.R1 - p.R0))
	}
	return Paint{Gradient: p, Opacity: 1}
}

// get returns a length of the gradient; the share otherwise of the whole where it is not given.
func (g *gradient) get(name string, otherwise, whole float64) float64 {
	l, ok := g.values[name]
	if !ok {
		l = length{otherwise, true}
	}
	return l.along(whole)
}

// readGradient reads a gradient with what it takes from those that it points to; nil where that runs in a circle.
func (r *reader) readGradient(e *element) *gradient {
	var chain []*element
	seen := map[*element]bool{}
	for at := e; at != nil; {
		if seen[at] {
			r.caution(r.place(at, "href"), codeLink, "", "the gradient %s leads round in a circle", quote(e.attr("id")))
			return nil
		}
		seen[at] = true
		chain = append(chain, at)
		link := at.href()
		if link == "" {
			break
		}
		next := r.linked(at, "href", link)
		if next != nil && next.name != "linearGradient" && next.name != "radialGradient" {
			r.caution(r.place(at, "href"), codeLink, "", "%s is not a gradient", quote(link))
			break
		}
		at = next
	}
	g := &gradient{radial: e.name == "radialGradient", values: map[string]length{}, transform: Identity()}
	g.userSpace = firstAttr(chain, "gradientUnits") == "userSpaceOnUse"
	switch firstAttr(chain, "spreadMethod") {
	case "reflect":
		g.spread = Reflect
	case "repeat":
		g.spread = Repeat
	}
	if text := firstAttr(chain, "gradientTransform"); text != "" {
		m, ok := parseTransform(text)
		if !ok {
			r.caution(r.tag(e), codeValue, "", "gradientTransform %s is not read", quote(text))
		}
		g.transform = m
	}
	r.gradientLengths(g, chain)
	for _, at := range chain {
		if g.stops = r.stops(at); len(g.stops) > 0 {
			break
		}
	}
	return g
}

func firstAttr(chain []*element, name string) string {
	for _, e := range chain {
		if v := strings.TrimSpace(e.attr(name)); v != "" {
			return v
		}
	}
	return ""
}

// gradientLengths takes each length from the first gradient of the same kind that gives it.
func (r *reader) gradientLengths(g *gradient, chain []*element) {
	names := []string{"x1", "y1", "x2", "y2"}
	if g.radial {
		names = []string{"cx", "cy", "r", "fx", "fy", "fr"}
	}
	for _, name := range names {
		for _, e := range chain {
			text := e.attr(name)
			if text == "" || e.name != chain[0].name {
				continue
			}
			l, ok := parseLength(text, r.styleOf(e).em)
			if !ok {
				r.caution(r.place(e, name), codeValue, "", "%s %s is no length that is read here", name, quote(text))
				break
			}
			g.values[name] = l
			break
		}
	}
}

// stops reads the colours of a gradient. Places keep within 0 and 1 and never run back (SVG 1.1, section 13.2.4).
func (r *reader) stops(g *element) []Stop {
	var all []Stop
	reached := 0.0
	for _, e := range g.children {
		if e.name != "stop" || !r.visit(e) {
			continue
		}
		d := r.declare(e)
		v := valueReader{r, e, d}
		s := Stop{Opacity: 1}
		if text := strings.TrimSpace(e.attr("offset")); text != "" {
			x, ok := parseShare(text)
			if !ok {
				r.caution(r.place(e, "offset"), codeValue, "", "offset %s is no number or percentage", quote(text))
			}
			reached = max(reached, x)
		}
		s.At = reached
		v.opacity(pStopOpacity, &s.Opacity)
		if v.given(pStopColour) {
			c, _, ok := parseColour(d[pStopColour])
			switch {
			case strings.EqualFold(d[pStopColour], "currentcolor"):
				c = r.styleOf(e).colour
			case !ok:
				v.wrong(pStopColour, "is no colour that is read here")
				c = tint{opacity: 1}
			}
			s.Colour = c.Colour
			s.Opacity *= c.opacity
		}
		all = append(all, s)
	}
	return all
}
