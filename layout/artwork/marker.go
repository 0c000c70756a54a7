package artwork

import (
	"math"
	"strings"

	"markout/layout/geom"
)

// markers are what stands on the vertices of a line: names of marker elements, empty for none.
type markers struct{ start, mid, end string }

// markers reads the three properties, after the one that sets them all.
func (v valueReader) markers(into *markers) {
	for _, one := range [...]struct {
		p  property
		to []*string
	}{
		{pMarker, []*string{&into.start, &into.mid, &into.end}},
		{pMarkerStart, []*string{&into.start}}, {pMarkerMid, []*string{&into.mid}}, {pMarkerEnd, []*string{&into.end}},
	} {
		if !v.given(one.p) {
			continue
		}
		link, _, ok := parseURL(v.d[one.p])
		if !ok && v.d[one.p] != "none" {
			v.wrong(one.p, "is no marker")
			continue
		}
		for _, to := range one.to {
			*to = link
		}
	}
}

// vertex is a place on a line where a marker may stand; along is the direction in which the line runs there.
type vertex struct {
	at, along geom.Point
}

// vertices are those of all subpaths, in order. Directions are those of SVG 2, section 13.7.4: half way between
// arriving and leaving, also where a closed subpath meets itself.
func vertices(paths []*geom.Path) []vertex {
	var all []vertex
	for _, p := range paths {
		first := len(all)
		var last geom.Point
		for i, s := range p.Segments() {
			leave := s.Tangent(0)
			if i == 0 {
				all = append(all, vertex{s.From, leave})
			} else {
				all[len(all)-1].along = between(last, leave)
			}
			last = s.Tangent(1)
			all = append(all, vertex{s.To, last})
		}
		if p.Closed() && len(all) > first {
			around := between(last, all[first].along)
			all[first].along, all[len(all)-1].along = around, around
		}
	}
	return all
}

// between is the direction half way between two; a direction that does not exist leaves the other.
func between(a, b geom.Point) geom.Point {
	if m := a.Add(b); m.Len() > geom.Tolerance {
		return m.Unit()
	}
	if b.Len() == 0 {
		return a
	}
	return a.Left() // there and back: across
}

// drawMarkers adds the markers of a line whose paths in its own units are own.
func (r *reader) drawMarkers(e *element, c context, own []*geom.Path, out []Node) []Node {
	m := c.style.markers
	switch e.name {
	case "path", "line", "polyline", "polygon":
	default:
		return out
	}
	if m == (markers{}) {
		return out
	}
	all := vertices(own)
	for i, v := range all {
		switch {
		case i == 0:
			out = r.drawMarker(e, c, m.start, v, true, out)
		case i < len(all)-1:
			out = r.drawMarker(e, c, m.mid, v, false, out)
		}
		if i == len(all)-1 {
			out = r.drawMarker(e, c, m.end, v, false, out)
		}
		if r.failed {
			return nil
		}
	}
	return out
}

func (r *reader) drawMarker(e *element, c context, link string, v vertex, first bool, out []Node) []Node {
	if link == "" {
		return out
	}
	target := r.linked(e, "marker", link)
	if target == nil {
		return out
	}
	if target.name != "marker" || r.active[target] {
		r.caution(r.tag(e), codeLink, "", "%s is no marker that can be drawn here", quote(link))
		return out
	}
	if !r.useAgain(e) {
		return out
	}
	r.active[target] = true
	defer delete(r.active, target)
	d := r.declare(target)
	lineWidth := c.style.width.along(c.view.diagonal())
	c.style = r.styleOf(target)
	c.depth++
	m := measures{valueReader{r, target, d}, c}
	size := func(name string, whole, otherwise float64) float64 {
		if target.attr(name) == "" {
			return otherwise
		}
		return m.attr(name, whole)
	}
	at := box{w: size("markerWidth", c.view.w, 3), h: size("markerHeight", c.view.h, 3)}
	ref := geom.Point{X: m.attr("refX", c.view.w), Y: m.attr("refY", c.view.h)}
	view, has, _ := r.viewBox(target)
	if !(at.w > 0 && at.h > 0) || has && !(view.w > 0 && view.h > 0) {
		return out
	}
	if has {
		ref = parseAspect(target.attr("preserveAspectRatio")).fit(view, at).Apply(ref)
	}
	frame := Matrix{A: 1, D: 1, E: -ref.X, F: -ref.Y}
	if target.attr("markerUnits") != "userSpaceOnUse" {
		frame = frame.Then(Matrix{A: lineWidth, D: lineWidth})
	}
	sn, cs := math.Sincos(r.orient(target, v.along, first))
	frame = frame.Then(Matrix{A: cs, B: sn, C: -sn, D: cs, E: v.at.X, F: v.at.Y})
	c.frame = frame.Then(c.frame)
	if _, ok := c.frame.Inverse(); !ok || !c.frame.usable() {
		return out
	}
	inner := r.drawViewport(target, d, c, at)
	return r.compose(target, d, c, r.boxOf(inner, c), inner, out)
}

// orient is the angle by which a marker is turned, in radians.
func (r *reader) orient(marker *element, along geom.Point, first bool) float64 {
	text := strings.TrimSpace(marker.attr("orient"))
	switch {
	case text == "":
		return 0
	case text == "auto":
		return along.Angle()
	case text == "auto-start-reverse" && first:
		return along.Angle() + math.Pi
	case text == "auto-start-reverse":
		return along.Angle()
	}
	s := scanner{text: text}
	degrees, ok := s.argument()
	if !ok || !s.done() {
		r.caution(r.place(marker, "orient"), codeValue, "", "orient %s is no angle", quote(text))
		return 0
	}
	return degrees * math.Pi / 180
}
