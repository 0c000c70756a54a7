package element

import (
	"slices"

	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// walk is a way that someone takes. It stands on whatever is under it.
type walk struct{ mark }

// Sizes of whoever walks, where nothing is said: a tall man (British men, 95th percentile 1855 standing, with 25 of shoes) and how
// far up one of middle size reaches (50th percentile, derived from shoulder height and arm length).
const (
	walkTall  = 1880
	walkWide  = 600
	walkReach = 2263
)

var walkTable = kind("walk", "A way that someone takes: a line on the floor, or footholds one after the other. It is looked along for headroom; inside a room overhead it goes on the walking floor, and is not turned over.", `walk entrance
    path     0,-1000 line 0,3000
    tall     1880
    wide     600
`, []notation.Attr{
	{Word: "path", Form: "PATH", Example: "path 0,-1000 line 0,3000", Doc: "The line on the plan, in the walk's own axes."},
	{Word: "over", Form: "NAMES", Example: "over deck, bollard.2, deck", Doc: "The pieces gone over, foothold by foothold, in place of a line."},
	sized("tall", "tall 1880", "How tall whoever walks is, with shoes; 1880 unless said."),
	sized("wide", "wide 600", "How wide; 600 unless said."),
	sized("reach", "reach 2263", "How far up they reach; 2263 unless said."),
}, []notation.Attr{atRow, turnRow, levelRow, inRow, noteRow})

func (walk) table() *notation.Kind { return walkTable }

func (walk) stand(e *elem) (pose, bool) { return e.standAt() }

func (w walk) shape(e *elem) (set.Shape, bool) {
	out := &set.Walk{}
	switch {
	case e.has("path") && e.has("over"):
		return nil, e.clash("path", "over", "either says which way it goes")
	case e.has("path"):
		line, ok := w.line(e)
		if !ok {
			return nil, false
		}
		out.Path = line
	case e.has("over"):
		held, ok := w.over(e)
		if !ok {
			return nil, false
		}
		out.Over = held
	default:
		return nil, e.hint(e.st.NameSpan, "`"+e.name+"` needs its `path`, or what it goes `over`", "write `path 0,-1000 line 0,3000`")
	}
	ok := true
	for _, v := range [...]struct {
		word string
		to   *float64
		is   float64
	}{{"tall", &out.Tall, walkTall}, {"wide", &out.Wide, walkWide}, {"reach", &out.Reach, walkReach}} {
		*v.to = v.is
		if e.has(v.word) {
			var fine bool
			*v.to, fine = e.needed(v.word)
			ok = ok && fine
		}
	}
	return out, ok
}

// over finds the pieces that a walk goes over.
func (walk) over(e *elem) ([]set.Foothold, bool) {
	var out []set.Foothold
	ok := true
	for _, n := range listed(e.arg("over")) {
		ref, fine := n.(*notation.Ref)
		if !fine {
			return nil, false
		}
		other, k, fine := e.sc.element(ref)
		switch {
		case !fine:
			ok = false
			continue
		case slices.ContainsFunc([]maker{hall{}, room{}, mark{}, reserve{}, walk{}}, func(m maker) bool { return m.table() == other.kind.table() }):
			ok = e.errorf(ref.Span, "nobody stands on `%s`", other.name)
		case len(ref.Asks) > 0:
			ok = e.errorf(ref.Asks[0].Span, "a foothold is a piece, and this is a place of one")
		}
		out = append(out, set.Foothold{Element: other.name, Copy: k})
	}
	return out, ok && len(out) > 0
}

func (walk) hub(*elem) (geom.Point, bool) { return geom.Point{}, true }

func (w walk) measure(e *elem, word string) (unit.Value, bool) {
	line, ok := w.line(e)
	if ok && line == nil {
		return unit.Value{}, e.errorf(e.st.NameSpan, "`%s` goes from foothold to foothold, and has no length of its own", e.name)
	}
	if !ok {
		return unit.Value{}, false
	}
	return lengthOf(line.Length()), true
}

func (walk) anchors() []string { return []string{"start", "end", "along"} }

func (w walk) anchor(e *elem, ask notation.Ask) (spot, bool) {
	line, ok := w.line(e)
	if !ok {
		return spot{}, false
	}
	if line == nil {
		return spot{}, e.errorf(ask.Span, "`%s` goes from foothold to foothold, and has no places of its own", e.name)
	}
	return w.mark.anchor(e, ask)
}
