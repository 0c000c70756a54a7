package changes

import (
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// outlineFrom says an outline that changed: rect 2440 x 1220 → 2400 x 1220. What has no sizes of its own is said by its area and its
// box. The label says which outline it is.
func (w wording) outlineFrom(label string, a, b *set.Outline) string {
	if sameOutline(a, b) {
		return ""
	}
	lead := func(words string) string { return strings.TrimSpace(label + " " + words) }
	switch {
	case a == nil:
		return lead(arrow("none", w.outline(b)))
	case b == nil:
		return lead(arrow(w.outline(a), "none"))
	}
	an, bn := drawnBy(a), drawnBy(b)
	if an.form == "" && bn.form == "" {
		return lead(w.redrawn("outline", a.Path.Area(), b.Path.Area(), a.Path.Bounds(), b.Path.Bounds()))
	}
	if an.form != bn.form || len(an.sizes) != len(bn.sizes) {
		return lead(arrow(w.outline(a), w.outline(b)))
	}
	var from, to []string
	for i := range an.sizes {
		p, q := w.length(an.sizes[i]), w.length(bn.sizes[i])
		if !same(an.sizes[i], bn.sizes[i]) {
			p, q = w.apart(an.sizes[i], bn.sizes[i])
		}
		from, to = append(from, p), append(to, q)
	}
	if p, q := strings.Join(from, " x "), strings.Join(to, " x "); p != q {
		return lead(an.form + " " + arrow(p, q))
	}
	return lead(an.form + " stands otherwise about its own 0,0")
}

// redrawn says of what is drawn freely how its area and its box changed.
func (w wording) redrawn(what string, a, b float64, p, q geom.Rect) string {
	var says []string
	was, is := unit.FormatArea(math.Abs(a), w.set.Units), unit.FormatArea(math.Abs(b), w.set.Units)
	if was != is {
		says = append(says, "area "+arrow(was, is))
	}
	if !same(p.W(), q.W()) || !same(p.H(), q.H()) {
		pw, qw := w.apartOr(p.W(), q.W())
		ph, qh := w.apartOr(p.H(), q.H())
		says = append(says, "box "+arrow(pw+" x "+ph, qw+" x "+qh))
	}
	if len(says) == 0 {
		return what + " redrawn"
	}
	return what + " redrawn: " + strings.Join(says, ", ")
}

func (w wording) apartOr(a, b float64) (string, string) {
	if same(a, b) {
		return w.length(a), w.length(b)
	}
	return w.apart(a, b)
}

// outline says an outline by itself.
func (w wording) outline(o *set.Outline) string {
	if o == nil {
		return "none"
	}
	d := drawnBy(o)
	if d.form == "" {
		box := o.Path.Bounds()
		return "outline of " + unit.FormatArea(math.Abs(o.Path.Area()), w.set.Units) + ", box " + w.length(box.W()) + " x " + w.length(box.H())
	}
	var sizes []string
	for _, x := range d.sizes {
		sizes = append(sizes, w.length(x))
	}
	return d.form + " " + strings.Join(sizes, " x ")
}

// formed is an outline by its sizes; without a form where it is drawn freely.
type formed struct {
	form  string
	sizes []float64
}

func drawnBy(o *set.Outline) formed {
	box := o.Path.Bounds()
	switch o.Form {
	case "rect", "ellipse":
		return formed{o.Form, []float64{box.W(), box.H()}}
	case "circle":
		return formed{o.Form, []float64{box.W()}}
	case "polygon":
		n := o.Path.Len()
		first := o.Path.Segment(0)
		if n%2 == 0 {
			return formed{"polygon " + strconv.Itoa(n) + " across", []float64{2 * first.From.Lerp(first.To, 0.5).Dist(o.Centre)}}
		}
		return formed{"polygon " + strconv.Itoa(n) + " corners", []float64{2 * first.From.Dist(o.Centre)}}
	}
	return formed{}
}

func sameOutline(a, b *set.Outline) bool {
	if a == nil || b == nil {
		return a == b
	}
	return sameLoop(a.Path, b.Path)
}

// sameLoop reports whether two closed paths are one, wherever each begins.
func sameLoop(a, b *geom.Path) bool { return slidLoop(a, b, geom.Point{}) }

// slidLoop reports whether b is a closed path that was moved by a vector.
func slidLoop(a, b *geom.Path, by geom.Point) bool {
	n := a.Len()
	if n != b.Len() {
		return false
	}
	for first := 0; first < max(n, 1); first++ {
		if slidFrom(a, b, by, first) {
			return true
		}
	}
	return false
}

// slidFrom compares b from its start with a moved by a vector, from one of its segments on.
func slidFrom(a, b *geom.Path, by geom.Point, first int) bool {
	n := a.Len()
	for i, q := range b.Segments() {
		p := a.Segment((i + first) % n)
		if p.Kind != q.Kind || !p.From.Add(by).Near(q.From) || !p.To.Add(by).Near(q.To) {
			return false
		}
		if p.Kind == geom.Line {
			continue
		}
		for _, t := range [3]float64{1. / 4, 1. / 2, 3. / 4} {
			if !p.Point(t).Add(by).Near(q.Point(t)) {
				return false
			}
		}
	}
	return true
}

// sameLine reports whether two open paths are one.
func sameLine(a, b *geom.Path) bool { return slidLine(a, b, geom.Point{}) }

func slidLine(a, b *geom.Path, by geom.Point) bool {
	switch {
	case a == nil || b == nil:
		return a == b
	case a.Closed() != b.Closed() || a.Len() != b.Len():
		return false
	case a.Closed():
		return slidLoop(a, b, by)
	}
	return slidFrom(a, b, by, 0)
}
