package eval

import (
	"markout/layout/geom"
	"markout/layout/notation"
)

// Place works out a point of the plan: a pair, which counts from axes; an anchor, with or without an offset; a place
// by tape. The result stands in the set's axes.
func (ev *Evaluator) Place(n notation.Node, axes geom.Isometry) (Place, bool) {
	if n == nil {
		return Place{}, false
	}
	if !ev.enter(n.Pos()) {
		return Place{}, false
	}
	defer ev.leave()
	switch n := n.(type) {
	case *notation.Pair:
		p, ok := ev.Pair(n)
		return Place{At: axes.Apply(p)}, ok
	case *notation.Paren:
		return ev.Place(n.X, axes)
	case *notation.Ref:
		return ev.anchor(n)
	case *notation.Binary:
		if n.Op != '+' && n.Op != '-' {
			break
		}
		base, ok1 := ev.Place(n.X, axes)
		by, ok2 := ev.Pair(n.Y)
		if !ok1 || !ok2 {
			return Place{}, false
		}
		by = axes.Vector(by)
		if n.Op == '-' {
			by = by.Mul(-1)
		}
		base.At = base.At.Add(by)
		return base, true
	case *notation.Taped:
		return ev.taped(n, axes)
	}
	ev.List.Hintf(n.Pos(), "a place is wanted here, and this is one value", "write it as `x, y`")
	return Place{}, false
}

// Pair works out `x, y` as two lengths in whatever axes the caller means.
func (ev *Evaluator) Pair(n notation.Node) (geom.Point, bool) {
	for {
		p, ok := n.(*notation.Paren)
		if !ok {
			break
		}
		n = p.X
	}
	p, ok := n.(*notation.Pair)
	if !ok {
		if n != nil {
			ev.List.Hintf(n.Pos(), "a pair is wanted here", "write it as `x, y`")
		}
		return geom.Point{}, false
	}
	x, ok1 := ev.Length(p.X, "")
	y, ok2 := ev.Length(p.Y, "")
	return geom.Point{X: x, Y: y}, ok1 && ok2
}

func (ev *Evaluator) anchor(n *notation.Ref) (Place, bool) {
	if _, ok := ev.lets[n.Name]; ok {
		ev.List.Hintf(n.Span, "a place is wanted here, and `"+n.Name+"` is one value", "write a place as `x, y`")
		return Place{}, false
	}
	t, ok := ev.things[n.Name]
	if !ok {
		ev.unknown(n)
		return Place{}, false
	}
	var ask notation.Ask
	if len(n.Asks) > 0 {
		ask = n.Asks[0]
	}
	return t.Anchor(n.Copy, n, ask)
}

// Local works out a point of a piece's own line or outline: a pair counts in the piece's own axes; an anchor and a place
// by tape are where they are, seen from the piece, whose own place own answers.
func (ev *Evaluator) Local(n notation.Node, own func() (geom.Isometry, bool)) (geom.Point, bool) {
	if p, ok := n.(*notation.Pair); ok {
		return ev.Pair(p)
	}
	m, ok := own()
	if !ok {
		return geom.Point{}, false
	}
	p, ok := ev.Place(n, m)
	if !ok {
		return geom.Point{}, false
	}
	return m.Inverse().Apply(p.At), true
}

// taped finds the place that lies da from A and db from B, on the side that was said.
func (ev *Evaluator) taped(n *notation.Taped, axes geom.Isometry) (Place, bool) {
	a, okA := ev.tapeStart(n.A, axes)
	b, okB := ev.tapeStart(n.B, axes)
	da, ok1 := ev.Positive(n.DA, "")
	db, ok2 := ev.Positive(n.DB, "")
	if !okA || !okB || !ok1 || !ok2 {
		return Place{}, false
	}
	if a.Near(b) {
		ev.List.Errorf(n.Span, "both tapes start from one place")
		return Place{}, false
	}
	left, right, ok := geom.TwoDistances(a, da, b, db)
	if !ok {
		ev.List.Errorf(n.Span, "the tapes do not meet: their starts are %s apart, and the distances are %s and %s",
			ev.Show(a.Dist(b)), ev.Show(da), ev.Show(db))
		return Place{}, false
	}
	if left.Near(right) {
		return Place{At: left}, true
	}
	lean := left.Y - right.Y
	one, other := "upstage", "downstage"
	if n.Side == "plan-left" || n.Side == "plan-right" {
		lean = left.X - right.X
		one, other = "plan-right", "plan-left"
	}
	switch {
	case lean > -geom.Tolerance && lean < geom.Tolerance:
		words := "`plan-left` or `plan-right`"
		if one == "plan-right" {
			words = "`upstage` or `downstage`"
		}
		ev.List.Hintf(n.SideAt, "both places where the tapes meet are as far "+n.Side, "say %s", words)
		return Place{}, false
	case (n.Side == one) == (lean > 0):
		return Place{At: left}, true
	case n.Side == one || n.Side == other:
		return Place{At: right}, true
	}
	ev.List.Hintf(n.SideAt, "a side is wanted here", "say `upstage`, `downstage`, `plan-left` or `plan-right`")
	return Place{}, false
}

// tapeStart is where a tape starts: a station of the hall worked in, by its name alone, or any place.
func (ev *Evaluator) tapeStart(n notation.Node, axes geom.Isometry) (geom.Point, bool) {
	if r, ok := n.(*notation.Ref); ok && len(r.Asks) == 0 && r.Copy == 0 && ev.Station != nil {
		if at, found, ok := ev.Station(r.Name); found {
			return at, ok
		}
	}
	p, ok := ev.Place(n, axes)
	return p.At, ok
}
