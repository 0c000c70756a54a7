package element

import (
	"markout/layout/geom"
	"markout/layout/notation"
)

// position is another position: what brings a piece from its base place there, or for the piece's own `also`, its place.
type position struct {
	name string
	by   geom.Frame
}

// also returns the other positions that the element's own lines give it.
func (e *elem) also() ([]position, bool) {
	var out []position
	for _, a := range e.st.Attributes {
		if a.Word != "also" {
			continue
		}
		if a.Bad {
			return nil, false
		}
		for _, w := range [...]string{"repeat", "stack"} {
			if e.has(w) {
				return nil, e.clash(w, "also", "a repeated piece has one position; write the pieces one by one")
			}
		}
		ax, ok := e.from()
		if !ok {
			return nil, false
		}
		p, ok := e.planOf(1)
		if !ok {
			return nil, false
		}
		z, ok := e.level(1)
		if !ok {
			return nil, false
		}
		m := position{name: text(a.Args.Get(""))}
		if m.name == "" {
			return nil, e.errorf(a.Span, "another position needs a name")
		}
		for _, o := range out {
			if o.name == m.name {
				return nil, e.errorf(a.Span, "`%s` has two positions called %q", e.name, m.name)
			}
		}
		at, ok := e.sc.ev.Place(a.Args.Get("at"), ax.m)
		if !ok {
			return nil, false
		}
		p.at = at.At
		if n := a.Args.Get("turn"); n != nil {
			turn, ok := e.sc.ev.Angle(n, "turn")
			if !ok {
				return nil, false
			}
			p.turn = ax.turn + turn
		}
		if n := a.Args.Get("level"); n != nil {
			level, ok := e.sc.ev.Length(n, "level")
			if !ok {
				return nil, false
			}
			z = ax.z + level
		}
		m.by = geom.Upright(p.at, z, p.turn)
		out = append(out, m)
	}
	return out, true
}

// carried returns the moves that the element makes because what it sits on has other positions.
func (e *elem) carried() ([]position, bool) {
	s, ok := e.sits()
	if !ok || s == nil {
		return nil, ok
	}
	copies, ok := s.other.resolve()
	if !ok {
		return nil, false
	}
	var out []position
	for _, c := range copies {
		if c.Number != s.copy {
			continue
		}
		back := c.Places[0].Frame.Inverse()
		for _, pl := range c.Places[1:] {
			out = append(out, position{name: pl.Position, by: back.Then(pl.Frame)})
		}
	}
	return out, true
}

// text returns the words of a quoted text, empty for none.
func text(n notation.Node) string {
	if t, ok := n.(*notation.Text); ok {
		return t.Value
	}
	return ""
}
