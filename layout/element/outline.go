package element

import (
	"errors"
	"fmt"
	"math"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// outlineOf returns the outline of an attribute, working it out once.
func (e *elem) outlineOf(word string) (*set.Outline, bool) {
	return eval.Ask(e.sc.ev, &e.outlined, e.cell(word), e.place(word), func() (*set.Outline, bool) {
		n, ok := e.need(word)
		if !ok {
			return nil, false
		}
		o, ok := e.draw(n, word)
		if a := e.attr(word); ok && a != nil {
			a.Args = nil // a long list is let go as soon as it is drawn
		}
		return o, ok
	})
}

// draw works out an outline, or the circle that a single length is the diameter of.
func (e *elem) draw(n notation.Node, word string) (*set.Outline, bool) {
	o, ok := n.(*notation.Outline)
	if !ok {
		d, ok := e.sc.ev.Positive(n, word)
		if !ok {
			return nil, false
		}
		return circle(d), true
	}
	switch o.Word {
	case "rect", "ellipse":
		w, h, ok := e.size(o.Args.Get(""), o.Word)
		if !ok {
			return nil, false
		}
		if o.Word == "rect" {
			return &set.Outline{Form: "rect", Path: geom.Rectangle(w, h)}, true
		}
		return &set.Outline{Form: "ellipse", Path: geom.EllipsePath(w, h)}, true
	case "circle":
		d, ok := e.sc.ev.Positive(o.Args.Get(""), "circle")
		if !ok {
			return nil, false
		}
		return circle(d), true
	case "polygon":
		return e.polygon(o)
	case "points":
		return e.points(o)
	case "svg":
		return e.svg(o)
	case "sides":
		return e.sides(o)
	case "path":
		if o.Path == nil {
			return nil, false
		}
		p, ok := e.sc.ev.Path(o.Path, e.local)
		if !ok {
			return nil, false
		}
		return e.drawn("path", p, o.Span)
	}
	return nil, e.errorf(o.WordSpan, "`%s` is no outline", o.Word)
}

// local works out a point of the element's own outline or line.
func (e *elem) local(n notation.Node) (geom.Point, bool) {
	return e.sc.ev.Local(n, func() (geom.Isometry, bool) {
		p, ok := e.planOf(1)
		return p.plan(), ok
	})
}

func circle(d float64) *set.Outline { return &set.Outline{Form: "circle", Path: geom.Circle(d)} }

// size works out `a x b`.
func (e *elem) size(n notation.Node, what string) (w, h float64, ok bool) {
	s, ok := n.(*notation.Size)
	if !ok || len(s.Values) != 2 {
		if n != nil {
			e.hint(n.Pos(), "`"+what+"` wants two lengths", "write `%s 1200 x 600`", what)
		}
		return 0, 0, false
	}
	w, ok1 := e.sc.ev.Positive(s.Values[0], what)
	h, ok2 := e.sc.ev.Positive(s.Values[1], what)
	return w, h, ok1 && ok2
}

func (e *elem) polygon(o *notation.Outline) (*set.Outline, bool) {
	count := o.Args.Get("")
	n, ok1 := e.sc.ev.Count(count, "polygon", 3, geom.MostCorners)
	across, corners := o.Args.Get("across"), false
	if across == nil {
		across, corners = o.Args.Get("corners"), true
	}
	if across == nil || !ok1 {
		return nil, false
	}
	d, ok := e.sc.ev.Positive(across, "polygon")
	if !ok {
		return nil, false
	}
	if !corners && n%2 == 1 {
		return nil, e.hint(count.Pos(), "only an even number of corners has flats across from one another",
			"give the circle through the corners: `polygon %d corners %s`", n, unit.FormatLength(d, e.sc.ev.Units, 0.1))
	}
	p, err := geom.RegularPolygon(n, d, corners)
	if err != nil {
		return nil, e.errorf(o.Span, "%s", err)
	}
	return &set.Outline{Form: "polygon", Path: p}, true
}

func (e *elem) points(o *notation.Outline) (*set.Outline, bool) {
	list := o.Args.Get("")
	pts, ok := e.sc.ev.Points(list, e.local)
	if !ok {
		return nil, false
	}
	if len(pts) > 1 && pts[0].Near(pts[len(pts)-1]) {
		pts = pts[:len(pts)-1]
	}
	if len(pts) < 3 {
		return nil, e.errorf(list.Pos(), "an outline has at least 3 corners, and here are %d", len(pts))
	}
	for i := 1; i < len(pts); i++ {
		if pts[i].Near(pts[i-1]) {
			return nil, e.errorf(list.Pos(), "points %d and %d are one place", i, i+1)
		}
	}
	return e.straight("points", geom.Polygon(pts), o.Span)
}

func (e *elem) sides(o *notation.Outline) (*set.Outline, bool) {
	list := o.Args.Get("")
	if list == nil {
		return nil, false
	}
	sides, ok := e.sc.ev.Lengths(list, "sides", "side", -1)
	if !ok {
		return nil, false
	}
	if len(sides) != 4 {
		return nil, e.errorf(list.Pos(), "a measured hall has 4 sides, and here are %d", len(sides))
	}
	for i, s := range sides {
		if s <= 0 {
			return nil, e.errorf(list.Pos(), "side %d is more than 0, and this is %s", i+1, e.show(s))
		}
	}
	node := o.Args.Get("diagonal")
	d, ok := e.sc.ev.Positive(node, "diagonal")
	if !ok {
		return nil, false
	}
	pts, err := geom.MeasuredHall(sides, d)
	if short := (*geom.TriangleError)(nil); errors.As(err, &short) {
		which := "the third and fourth sides"
		if short.First {
			which = "the front wall and the second side"
		}
		return nil, e.hint(node.Pos(), which+" and this diagonal close no triangle", "with %s and %s the diagonal lies between %s and %s",
			e.show(short.A), e.show(short.B), e.show(short.Least()), e.show(short.Greatest()))
	}
	if err != nil {
		return nil, e.errorf(o.Span, "%s", err)
	}
	return e.straight("sides", geom.Polygon(pts), o.Span)
}

// straight returns an outline of straight edges, numbered from the front edge's plan-left end.
func (e *elem) straight(form string, p *geom.Path, at diag.Span) (*set.Outline, bool) {
	if !e.simple(p, at) {
		return nil, false
	}
	p = geom.StartAtFront(p)
	return &set.Outline{Form: form, Path: p, Centre: p.Centroid()}, true
}

// drawn returns an outline of lines and curves in the order in which they were typed, anticlockwise.
func (e *elem) drawn(form string, p *geom.Path, at diag.Span) (*set.Outline, bool) {
	p.Close()
	if !e.simple(p, at) {
		return nil, false
	}
	o := &set.Outline{Form: form, Path: p}
	if p.Area() < 0 {
		o.Path, o.Reversed = p.Reverse(), true
	}
	o.Front, o.Centre = geom.FrontEdge(o.Path), o.Path.Centroid()
	return o, true
}

// simple reports an outline that crosses itself or has no area.
func (e *elem) simple(p *geom.Path, at diag.Span) bool {
	if convex(p) {
		return true
	}
	if i, j, where, crosses := p.SelfCrossing(); crosses {
		return e.hint(at, fmt.Sprintf("the outline crosses or touches itself: edge %d and edge %d meet at %s, %s", i+1, j+1,
			unit.FormatLength(where.X, e.sc.ev.Units, 0.1), unit.FormatLength(where.Y, e.sc.ev.Units, 0.1)),
			"give the corners in the order in which one walks round it")
	}
	if a := p.Area(); a < geom.Tolerance && a > -geom.Tolerance {
		return e.errorf(at, "the outline has no area")
	}
	return true
}

// convex reports whether a closed path of straight lines surely bulges everywhere: it turns to one side only at its
// corners, by more than a rounding error, and goes round once. Most outlines do, and it costs far less than looking
// for crossings.
func convex(p *geom.Path) bool {
	if !p.Straight() || !p.Closed() || p.Len() < 3 {
		return false
	}
	pts := p.Vertices()
	side, level := 0.0, 0
	last := pts[0].Sub(pts[len(pts)-1])
	for i, v := range pts {
		d := pts[(i+1)%len(pts)].Sub(v)
		turn := last.Cross(d)
		if math.Abs(turn) <= geom.Tolerance*(last.Len()+d.Len()) || turn*side < 0 {
			return false
		}
		// Its height goes over from rising to falling once a round.
		if last.Y > 0 && d.Y <= 0 {
			level++
		}
		side, last = turn, d
	}
	return level <= 1
}

// svg reads path data as it is drawn on paper, y down, and turns it over about its 0,0.
func (e *elem) svg(o *notation.Outline) (*set.Outline, bool) {
	t, ok := o.Args.Get("").(*notation.Text)
	if !ok {
		return nil, false
	}
	paths, err := geom.ParsePathData(t.Value)
	if bad := (*geom.DataError)(nil); errors.As(err, &bad) {
		return nil, e.errorf(t.At(bad.Offset, bad.Offset+1), "this path data breaks off here: %s", bad.Message)
	}
	if err != nil {
		return nil, e.errorf(t.Span, "%s", err)
	}
	if len(paths) != 1 {
		return nil, e.errorf(t.Span, "one closed outline is wanted, and this path data has %s", eval.Plural(len(paths), "line"))
	}
	p := paths[0].Transform(geom.Isometry{A: 1, D: -1})
	if b := p.Bounds(); max(-b.Min.X, -b.Min.Y, b.Max.X, b.Max.Y) > eval.Furthest {
		return nil, e.errorf(t.Span, "a coordinate here is more than 10 km, the limit")
	}
	if p.Len() < 2 && !p.Closed() || p.Empty() {
		return nil, e.errorf(t.Span, "this path data draws no outline")
	}
	return e.drawn("svg", p, t.Span)
}

// holdsAll reports whether inner lies inside outer without touching it.
func holdsAll(outer, inner *geom.Path) bool {
	if co, ro, round := outer.Round(); round {
		if ci, ri, round := inner.Round(); round {
			return co.Dist(ci)+ri < ro-geom.Tolerance
		}
	}
	// The area outside outer, as far as inner reaches, is clear of inner.
	b := outer.Bounds().Union(inner.Bounds()).Grow(1)
	around := geom.Rectangle(b.W(), b.H()).Transform(geom.Isometry{A: 1, D: 1, T: b.Mid()})
	clear, _, _ := geom.Distance(geom.Region{Outer: around, Holes: []*geom.Path{outer}}, geom.Region{Outer: inner})
	return clear > 0
}
