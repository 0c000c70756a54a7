package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	transfer "markout/layout/overhead"
	"markout/layout/set"
)

// Fixing returns the template by which a piece overhead is fixed: its outline and its fixings about its own 0,0, upstage at the top,
// as seen from above or, below, from below: mirrored, as the surface that it is fixed to looks to whoever faces it from beneath.
// It returns nil for a piece without places of fixings.
func Fixing(s *set.Set, q *transfer.Piece, below bool) *drawing.Drawing {
	if len(q.Fixings) == 0 {
		return nil
	}
	d := &drawing.Drawing{View: "template above", Name: q.Element.Name, Hold: "as seen from above, upstage at the top"}
	m := q.Overhead.Plan()
	at := m.T
	m.T = geom.Point{}
	turn := geom.Isometry{A: 1, D: 1}
	if below {
		d.View, d.Hold, turn.A = "template below", "as seen from below, upstage at the top", -1
	}
	m = m.Then(turn)
	v := &elevator{builder: newBuilder(d), s: s, e: q.Element, turn: turn}
	v.own(q.Element)
	outline := geom.EmptyRect()
	for _, f := range set.Footprints(q.Element.Shape) {
		for _, p := range append([]*geom.Path{f.Outer}, f.Holes...) {
			p = p.Transform(m)
			outline = outline.Union(p.Bounds())
			v.stroke(p, seenEdge)
		}
	}
	arm := max(outline.W(), outline.H()) / 40
	v.mark(geom.Point{}, 2*arm, "0,0")
	for i, f := range q.Fixings {
		f = turn.Apply(f.Sub(at))
		v.mark(f, arm, strconv.Itoa(i+1))
		v.stroke(geom.Circle(arm).Transform(geom.Move(f, 0)), fixingMark)
		v.xs, v.ys = insert(v.xs, place{f.X, f}), insert(v.ys, place{f.Y, f})
	}
	v.xs, v.ys = insert(v.xs, place{}), insert(v.ys, place{})
	v.xs = insert(insert(v.xs, place{outline.Min.X, outline.Min}), place{outline.Max.X, outline.Max})
	v.ys = insert(insert(v.ys, place{outline.Min.Y, outline.Min}), place{outline.Max.Y, outline.Max})
	base := geom.Point{X: outline.Max.X, Y: outline.Min.Y}
	v.chain(v.xs, 0, base, -chainFirst)
	v.chain(v.ys, 90, base, -chainFirst)
	if mid, out, ok := frontOf(q.Element.Shape); ok {
		from, way := m.Apply(mid), m.Vector(out)
		v.stroke(sizes{head: arm}.arrowUp(from, from.Add(way.Mul(3*arm))), planThin)
		t := word("FRONT", drawing.Lettering5)
		t.At, t.Align = from.Sub(way.Mul(3*arm)), drawing.AlignMiddle
		v.text(t)
	}
	return d
}

// mark draws a cross and writes its number beside it.
func (v *elevator) mark(at geom.Point, arm float64, says string) {
	for _, t := range cross(at, 1.6*arm, crossing) {
		v.stroke(t.path, fixingMark)
	}
	t := word(says, drawing.Lettering3_5)
	t.At, t.Offset, t.Align = at, geom.Point{X: 2, Y: 2}, drawing.AlignLeft
	v.text(t)
}
