package element

import (
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// hall is the room worked in.
type hall struct{ plain }

var hallTable = kind("hall", "The room worked in: rehearsal hall, stage, studio floor. Its stations and pillars, and what is placed `in` it, count from its own axes: x from the middle, y from the front of its outline, before its own turn.", `hall quay_hall
    outline  rect 9000 x 8000
    at       0, 3600
    station  A -4000, 400
    station  B  4000, 400
    pillar   3000, 5000 circle 400
    tapes    8m class II
`, []notation.Attr{
	{Word: "outline", Form: "OUTLINE", Example: "outline sides 9012 7988 9005 8010 diagonal 12031",
		Doc: "Its walls, as designed or as measured: `sides` from the front wall anticlockwise, the diagonal from that wall's plan-left end."},
	atRow, turnRow,
	{Word: "pillar", Form: "POINT ( circle VALUE | size SIZE )", Several: true, Example: "pillar 3000, 5000 circle 400",
		Doc: "What stands in it and stays: its middle, and its diameter or its size."},
	{Word: "station", Form: "NAME POINT", Several: true, Example: "station A -4000, 400",
		Doc: "A fixed point that tapes start from."},
	sized("ceiling", "ceiling 4200", "Its clear height."),
	{Word: "tapes", Form: "VALUE [class I|II|III]", Example: "tapes 8m class II",
		Doc: "The longest tape there, and the accuracy class of the tapes (MI-008); class II unless said."},
	noteRow,
}, nil)

func (hall) table() *notation.Kind { return hallTable }

// origin is the place in the outline's own axes where the hall's axes start.
func (hall) origin(o *set.Outline) geom.Point {
	if o.Form == "sides" {
		return geom.Point{}
	}
	b := o.Path.Bounds()
	return geom.Point{X: b.Mid().X, Y: b.Min.Y}
}

// drawn is the outline as it was given.
func (hall) drawn(e *elem) (*set.Outline, bool) { return e.outlineOf("outline") }

// stand is where the hall's own axes lie; `at` places its outline's middle or own 0,0.
func (h hall) stand(e *elem) (pose, bool) {
	p, ok1 := e.standAt()
	o, ok2 := h.drawn(e)
	if !ok1 || !ok2 {
		return pose{}, false
	}
	p.at = p.plan().Apply(h.origin(o))
	return p, true
}

// outline is the outline in the hall's own axes.
func (h hall) outline(e *elem) (*set.Outline, bool) {
	o, ok := h.drawn(e)
	if !ok {
		return nil, false
	}
	in := *o
	by := geom.Isometry{A: 1, D: 1, T: h.origin(o).Mul(-1)}
	in.Path, in.Centre = o.Path.Transform(by), by.Apply(o.Centre)
	return &in, true
}

func (hall) height(e *elem) (float64, bool) { return e.optional("ceiling") }

func (h hall) shape(e *elem) (set.Shape, bool) {
	o, ok := h.outline(e)
	if !ok {
		return nil, false
	}
	out := &set.Hall{Outline: *o, Class: 2}
	if out.Ceiling, ok = e.optional("ceiling"); !ok {
		return nil, false
	}
	if a := e.attr("tapes"); a != nil {
		if out.TapeLong, ok = e.sc.ev.Positive(a.Args.Get(""), "tapes"); !ok {
			return nil, false
		}
		switch word(a.Args.Get("class")) {
		case "I":
			out.Class = 1
		case "III":
			out.Class = 3
		}
	}
	for _, a := range e.st.Attributes {
		if a.Word != "pillar" {
			continue
		}
		p, fine := h.pillar(e, a)
		out.Pillars, ok = append(out.Pillars, p), ok && fine
	}
	stations, fine := h.stations(e)
	out.Stations = stations
	return out, ok && fine
}

func (h hall) pillar(e *elem, a *notation.Attribute) (set.Pillar, bool) {
	at, ok := e.local(a.Args.Get(""))
	if !ok {
		return set.Pillar{}, false
	}
	var o *set.Outline
	if d := a.Args.Get("circle"); d != nil {
		o, ok = e.draw(d, "circle")
	} else {
		var w, d float64
		w, d, ok = e.size(a.Args.Get("size"), "size")
		o = &set.Outline{Form: "rect", Path: geom.Rectangle(w, d)}
	}
	if !ok {
		return set.Pillar{}, false
	}
	o.Path, o.Centre = o.Path.Transform(geom.Isometry{A: 1, D: 1, T: at}), at
	return set.Pillar{Outline: *o}, true
}

// stations works out the hall's fixed points.
func (h hall) stations(e *elem) ([]set.Station, bool) {
	var out []set.Station
	ok := true
	for _, a := range e.st.Attributes {
		if a.Word != "station" || len(a.Args) < 2 {
			continue
		}
		s := set.Station{Name: word(a.Args[0].Value)}
		for _, before := range out {
			if before.Name == s.Name {
				ok = e.errorf(a.Args[0].Value.Pos(), "`%s` has two stations called `%s`", e.name, s.Name)
			}
		}
		var fine bool
		if s.At, fine = e.local(a.Args[1].Value); !fine {
			ok = false
			continue
		}
		out = append(out, s)
	}
	return out, ok
}

// station finds a station by its name, in the set's axes.
func (h hall) station(e *elem, name string) (at geom.Point, found, ok bool) {
	for _, a := range e.st.Attributes {
		if a.Word != "station" || len(a.Args) < 2 || word(a.Args[0].Value) != name {
			continue
		}
		own, ok := e.local(a.Args[1].Value)
		if !ok {
			return at, true, false
		}
		p, ok := e.planOf(1)
		return p.plan().Apply(own), true, ok
	}
	return at, false, true
}
