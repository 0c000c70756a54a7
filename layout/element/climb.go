package element

import (
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
)

// climb is the place of a flight or a ramp: with `starts` its own 0,0 stands there and it climbs that way; with `meets` its
// landing stands in the middle of an edge, and it climbs square on to the edge.
func (e *elem) climb(landing func() (geom.Point, bool)) (pose, bool) {
	switch {
	case e.has("meets") && e.has("starts"):
		return pose{}, e.clash("meets", "starts", "one holds the top, the other the foot")
	case e.has("starts"):
		a := e.attr("starts")
		ax, ok := e.from()
		if !ok || len(a.Args) == 0 {
			return pose{}, false
		}
		at, ok1 := e.sc.ev.Place(a.Args.Get(""), ax.m)
		heading, ok2 := e.sc.ev.Angle(a.Args.Get("heading"), "heading")
		return pose{at: at.At, turn: ax.turn + heading - 90}, ok1 && ok2
	case !e.has("meets"):
		return pose{}, e.hint(e.st.NameSpan, "`"+e.name+"` needs its place", "write `meets deck.front` for its top, or `starts 0, 1200 heading 90deg` for its foot")
	}
	p, ok := e.meets()
	if !ok {
		return pose{}, false
	}
	own, ok := landing()
	if !ok {
		return pose{}, false
	}
	turn := degrees(p.Outward.Mul(-1)) - 90
	return pose{at: p.At.Sub(geom.Move(geom.Point{}, turn).Apply(own)), turn: turn}, true
}

// meets returns the middle of the edge that a flight or ramp climbs to.
func (e *elem) meets() (eval.Place, bool) {
	n := e.arg("meets")
	if n == nil {
		return eval.Place{}, false
	}
	ax, ok := e.from()
	if !ok {
		return eval.Place{}, false
	}
	p, ok := e.sc.ev.Place(n, ax.m)
	if !ok {
		return eval.Place{}, false
	}
	if p.Of == nil || p.Outward == (geom.Point{}) {
		return eval.Place{}, e.hint(n.Pos(), "an edge is wanted here, to climb square on to", "write `meets deck.front` or `meets deck.edge(3)`")
	}
	return p, true
}

// meeting returns the piece, and the copy of it, that a flight or ramp lands on. Nothing is asked of that piece.
func (e *elem) meeting() (*elem, int, bool) {
	n := e.arg("meets")
	for {
		switch x := n.(type) {
		case *notation.Binary:
			n = x.X
			continue
		case *notation.Paren:
			n = x.X
			continue
		case *notation.Ref:
			return e.sc.element(x)
		case nil:
			return nil, 0, false
		}
		return nil, 0, e.hint(n.Pos(), "an edge is wanted here, to climb square on to", "write `meets deck.front` or `meets deck.edge(3)`")
	}
}

// meetsTop returns the level on which a flight or ramp lands.
func (e *elem) meetsTop() (float64, bool) {
	other, k, ok := e.meeting()
	if !ok {
		return 0, false
	}
	return other.top(k, e.place("meets"))
}

// meetsInto notes the piece that is landed on and the board on top of it.
func (e *elem) meetsInto(name *string, board *float64) bool {
	if !e.has("meets") {
		return true
	}
	other, k, ok := e.meeting()
	if !ok {
		return false
	}
	*name = other.copyName(k)
	if _, deck := other.kind.(platform); deck && board != nil {
		*board, ok = other.optional("deck")
	}
	return ok
}

// hangs is the level of the foot where the top is held and the flight has its height of its own.
func (e *elem) hangs(total func() (float64, bool)) (float64, bool) {
	for _, w := range [...]string{"level", "top"} {
		if e.has(w) {
			return 0, e.clash("meets", w, "the deck holds the top, and the flight has its height, so the level of its foot follows")
		}
	}
	top, ok1 := e.meetsTop()
	t, ok2 := total()
	return top - t, ok1 && ok2
}

// footLevel is the level of what the foot of the first copy stands on.
func (e *elem) footLevel() (float64, bool) { return e.footLevelOf(1) }

// footLevelOf is the level of what the foot of copy k stands on: said by `level`, by `on`, or the floor.
func (e *elem) footLevelOf(k int) (float64, bool) {
	if e.has("meets") && e.has("top") {
		return 0, e.clash("meets", "top", "the deck holds the top")
	}
	return e.groundOf(k)
}

// copyName is the element's name, with the copy's number where it has copies.
func (e *elem) copyName(k int) string {
	if !e.repeated() {
		return e.name
	}
	return e.name + "." + count(k)
}
