package view

import (
	"math"
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	transfer "markout/layout/overhead"
	"markout/layout/set"
)

// Fixing returns the template by which a piece overhead is fixed: its outline and its fixings about its own 0,0, as seen from above
// or, below, from below: mirrored, as the surface that it is fixed to looks to whoever faces it from beneath. Of a piece that hangs
// askew the template is square on the paper, so that its figures run along its own sides; upstage is the way that points upstage on
// the paper, no more than 45° from its top. It returns nil for a piece without places of fixings.
func Fixing(s *set.Set, q *transfer.Piece, below bool) (d *drawing.Drawing, upstage geom.Point) {
	if len(q.Fixings) == 0 {
		return nil, geom.Point{}
	}
	d = &drawing.Drawing{View: "template above", Name: q.Element.Name, Hold: "as seen from above"}
	m := q.Overhead.Plan()
	at := m.T
	m.T = geom.Point{}
	turn := geom.Isometry{A: 1, D: 1}
	if below {
		d.View, d.Hold, turn.A = "template below", "as seen from below", -1
	}
	askew := degrees(m.Then(turn).Vector(geom.Point{X: 1}))
	turn = turn.Then(geom.Move(geom.Point{}, 90*math.Round(askew/90)-askew))
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
	reach := outline
	if mid, out, ok := frontOf(q.Element.Shape); ok {
		from, way := m.Apply(mid), m.Vector(out)
		tip := from.Add(way.Mul(3 * arm))
		v.stroke(sizes{head: arm}.arrowUp(from, tip), planThin)
		reach = reach.Include(tip)
		t := word("FRONT", drawing.Lettering5)
		t.At, t.Align, t.Offset = from.Lerp(tip, 0.5), drawing.AlignLeft, geom.Point{X: 3, Y: -drawing.Lettering5 / 2}
		if math.Abs(way.X) > math.Abs(way.Y) {
			t.Align, t.Offset = drawing.AlignCentre, geom.Point{Y: 2}
		}
		v.text(t)
	}
	base := geom.Point{X: reach.Max.X, Y: reach.Min.Y}
	v.chain(v.xs, 0, base, -chainFirst)
	v.chain(v.ys, 90, base, -chainFirst)
	return d, turn.Vector(geom.Point{Y: 1})
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
