package element

import (
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// room is an interior, upright or hung overhead. Its axes lie as a hall's do.
type room struct{ hall }

var roomTable = kind("room", "An interior. What is `in` it counts from its own axes: x from the middle, y from the front of its outline, before its own turn; z from its floor. "+
	"Overhead, everything in it is placed the right way up and then turned over with it.", `room cabin
    outline  rect 4200 x 3600
    at       0, 1800
    overhead 4900 turned lengthways
    stand    600
    station  P -2000, 200
    station  Q 2000, 200
    headroom 2400
    panel    fore outline rect 4200 x 1800 at 0, 900
    panel    aft outline rect 4200 x 1800 at 0, 2700
`, []notation.Attr{
	{Word: "outline", Form: "OUTLINE", Example: "outline rect 4200 x 3600", Doc: "The outline of its floor, upright."},
	atRow, turnRow, levelRow, inRow,
	{Word: "overhead", Form: "VALUE turned|mirrored [lengthways|crossways]", Example: "overhead 4900 turned lengthways",
		Doc: "Hangs it upside down, its floor at this height. `turned lengthways`: about the middle line from front to back, left and right change places; `turned crossways`: about the middle line from side to side, front and back change places; `mirrored`: neither, and every piece is made opposite-handed."},
	sized("stand", "stand 600", "The level of the floor that people walk on beneath it; 0 unless said."),
	{Word: "station", Form: "NAME POINT", Several: true, Example: "station P -2000, 200",
		Doc: "A fixed point on the walking floor that tapes start from, in the room's own axes as it lies on the plan."},
	sized("headroom", "headroom 2400", "The height wanted between the walking floor and what hangs lowest."),
	{Word: "panel", Form: "NAME outline OUTLINE [at PAIR]", Several: true, Example: "panel fore outline rect 4200 x 1800 at 0, 900",
		Doc: "A part of its floor that is hung by itself, in the room's own axes, upright; `at` moves its outline there."},
	noteRow,
}, nil)

func (room) table() *notation.Kind { return roomTable }

func (room) height(*elem) (float64, bool) { return 0, true }

// ground is the level of its floor as it is dressed: overhead says where it hangs, and it is dressed at 0.
func (r room) ground(e *elem, k int) (float64, bool) {
	if !e.has("overhead") {
		return e.groundOf(k)
	}
	if e.has("level") {
		return 0, e.clash("overhead", "level", "`overhead` says how high its floor hangs")
	}
	return 0, true
}

// turned is how the room hangs, and the level of its floor.
func (room) turned(e *elem) (how set.Turned, level float64, ok bool) {
	a := e.attr("overhead")
	if a == nil {
		return set.Upright, 0, true
	}
	if len(a.Args) < 2 {
		return set.Upright, 0, false
	}
	level, ok = e.sc.ev.Positive(a.Args[0].Value, "overhead")
	way := ""
	if len(a.Args) > 2 {
		way = word(a.Args[2].Value)
	}
	switch mirrored := word(a.Args[1].Value) == "mirrored"; {
	case mirrored && way != "":
		return how, level, e.hint(a.Span, "a room is turned or mirrored", "leave out `%s`, or write `turned %s`", way, way)
	case mirrored:
		return set.Mirrored, level, ok
	case way == "lengthways":
		return set.Lengthways, level, ok
	case way == "crossways":
		return set.Crossways, level, ok
	}
	return how, level, e.hint(a.Span, "a room is turned over about one of its middle lines", "write `turned lengthways`, so that left and right change places, or `turned crossways`, front and back")
}

func (r room) shape(e *elem) (set.Shape, bool) {
	o, ok := r.outline(e)
	if !ok {
		return nil, false
	}
	out := &set.Room{Outline: *o}
	var fine bool
	if out.Turned, out.Overhead, fine = r.turned(e); !fine {
		ok = false
	}
	if out.Stand, fine = e.optional("stand"); !fine {
		ok = false
	}
	if out.Headroom, fine = e.optional("headroom"); !fine {
		ok = false
	}
	if ok && out.Turned != set.Upright && out.Overhead <= out.Stand {
		ok = e.errorf(e.place("overhead"), "its floor hangs at %s, which is not above the walking floor at %s", e.show(out.Overhead), e.show(out.Stand))
	}
	if out.Stations, fine = r.stations(e); !fine {
		ok = false
	}
	for _, a := range e.st.Attributes {
		if a.Word != "panel" || len(a.Args) < 2 {
			continue
		}
		p, fine := r.panel(e, a, out.Panels)
		out.Panels, ok = append(out.Panels, p), ok && fine
	}
	return out, ok
}

func (room) panel(e *elem, a *notation.Attribute, before []set.Section) (set.Section, bool) {
	s := set.Section{Name: word(a.Args[0].Value)}
	for _, b := range before {
		if b.Name == s.Name {
			return s, e.errorf(a.Args[0].Value.Pos(), "`%s` has two panels called `%s`", e.name, s.Name)
		}
	}
	o, ok := e.draw(a.Args.Get("outline"), "panel")
	if !ok {
		return s, false
	}
	by := geom.Isometry{A: 1, D: 1}
	if n := a.Args.Get("at"); n != nil {
		if by.T, ok = e.sc.ev.Pair(n); !ok {
			return s, false
		}
	}
	s.Outline = *o
	s.Outline.Path, s.Outline.Centre = o.Path.Transform(by), by.Apply(o.Centre)
	return s, true
}

// over returns the turn that the room which e is in makes of it, nil where it makes none. A walk is not turned over, nor is a room.
func (e *elem) over() (*set.Overhead, bool) {
	ax, ok := e.from()
	if !ok || ax.hall == nil {
		return nil, ok
	}
	r, interior := ax.hall.kind.(room)
	switch e.kind.(type) {
	case walk, room:
		interior = false
	}
	if !interior || !ax.hall.has("overhead") {
		return nil, true
	}
	return eval.Ask(e.sc.ev, &ax.hall.turning, ax.hall.cell("overhead"), ax.hall.place("overhead"), func() (*set.Overhead, bool) {
		sh, ok1 := ax.hall.shape()
		p, ok2 := ax.hall.planOf(1)
		if !ok1 || !ok2 {
			return nil, false
		}
		how, _, _ := r.turned(ax.hall)
		own := geom.Upright(p.at, 0, p.turn)
		return &set.Overhead{
			Room: ax.hall.name, Mirrored: how == set.Mirrored,
			Turn: own.Inverse().Then(sh.(*set.Room).Turn()).Then(own),
		}, true
	})
}
