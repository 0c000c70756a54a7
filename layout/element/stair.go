package element

import (
	"math"

	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// climbLine is the line that a flight climbs along.
type climbLine struct {
	line        *geom.Path // in the flight's own axes, from the foot up; lines and arcs only
	length      float64    // of line
	slack       float64    // how far that may be from the length of the line as it was drawn
	left, right float64    // how far it turns to the left and to the right, radians
}

// straightest is the turn in radians, about a twentieth of a degree, under which a line is straight.
const straightest = 1e-3

// curve returns the line of a flight that is along one.
func (s steps) curve(e *elem) (*climbLine, bool) {
	return eval.Ask(e.sc.ev, &e.climbs, e.cell("along"), e.place("along"), func() (*climbLine, bool) {
		var p *geom.Path
		at := e.arg("along")
		switch n := at.(type) {
		case *notation.Path:
			var ok bool
			if p, ok = e.sc.ev.Path(n, e.local); !ok {
				return nil, false
			}
		case *notation.Ref:
			other, _, ok := s.lineOf(e, n)
			if !ok {
				return nil, false
			}
			if p, ok = other.kind.line(other); !ok {
				return nil, false
			}
			if p.Empty() {
				return nil, e.hint(n.Span, "`"+n.Name+"` is no line along which a flight can climb", "a mark with a `path` is one")
			}
		default:
			return nil, false
		}
		if p.Closed() || p.Start().Near(p.End()) {
			return nil, e.hint(at.Pos(), "this line ends where it starts, and a flight has a foot and a top", "draw an open line, from the foot up")
		}
		if _, _, where, crosses := p.SelfCrossing(); crosses {
			return nil, e.hint(at.Pos(), "the line crosses or touches itself at "+e.show(where.X)+", "+e.show(where.Y)+", and treads would lie over treads there",
				"make two flights of it, with a landing between them")
		}
		c := geom.NewCourse(p)
		out := &climbLine{line: c.Line(), length: c.Length()}
		out.slack = geom.Tolerance + math.Abs(out.length-p.Length())
		out.left, out.right, _, _ = c.Turns()
		return out, true
	})
}

// lineOf returns the piece whose line a flight climbs along.
func (steps) lineOf(e *elem, n *notation.Ref) (*elem, int, bool) {
	other, k, ok := e.sc.element(n)
	if ok && other == e {
		return nil, 0, e.errorf(n.Span, "`%s` cannot climb along itself", e.name)
	}
	return other, k, ok
}

// standAlong is where the own axes of the flight's line stand: those of a drawn one `at` a place and turned, those of another
// piece's line that piece's.
func (s steps) standAlong(e *elem) (pose, bool) {
	for _, w := range [...]string{"meets", "starts"} {
		if e.has(w) {
			return pose{}, e.clash("along", w, "the line says where the flight climbs from and to")
		}
	}
	n, named := e.arg("along").(*notation.Ref)
	if !named {
		return e.standAt()
	}
	for _, w := range [...]string{"at", "turn"} {
		if e.has(w) {
			return pose{}, e.clash("along", w, "the line that it is along says where it stands")
		}
	}
	other, k, ok := s.lineOf(e, n)
	if !ok {
		return pose{}, false
	}
	return other.planOf(k)
}

// hub is the middle of the line's foot, which comes to lie where flights are spread around a place or along a line.
func (s steps) hub(e *elem) (geom.Point, bool) {
	if !e.has("along") {
		return geom.Point{}, true
	}
	c, ok := s.curve(e)
	if !ok {
		return geom.Point{}, false
	}
	return c.line.Start(), true
}

// lineIs says which edge of the treads the line is: inner, centre or outer.
func (steps) lineIs(e *elem) string {
	if a := e.attr("along"); a != nil && len(a.Args) > 1 {
		return word(a.Args[1].Value)
	}
	return "centre"
}

// aside returns which way the treads lie off their line: 1 to the right as one climbs, −1 to the left, 0 astride. The inner
// edge is the one on the side to which the line turns.
func (s steps) aside(e *elem) (float64, bool) {
	is := s.lineIs(e)
	if !e.has("along") || is == "centre" {
		return 0, true
	}
	c, ok := s.curve(e)
	if !ok {
		return 0, false
	}
	at := e.attr("along").Args[1].Value.Pos()
	left, right := c.left > straightest, c.right > straightest
	switch {
	case left && right:
		return 0, e.hint(at, "the line turns to both sides, so neither edge is the "+is+" one all the way", "write `centre`, and `shift` to move the treads sideways")
	case !left && !right:
		return 0, e.hint(at, "the line is straight, so neither edge is the "+is+" one", "write `centre`, and `shift` to move the treads sideways")
	case left == (is == "inner"):
		return 1, true
	}
	return -1, true
}

// goingsAlong fits the treads to the line: plain are the goings given, nil where none are, want how many there are beside the
// landings.
func (s steps) goingsAlong(e *elem, plain []float64, want int, landings []float64) ([]float64, bool) {
	c, ok := s.curve(e)
	if !ok {
		return nil, false
	}
	flat := sum(landings)
	if want+len(landings) == 0 {
		return nil, e.hint(e.place("along"), "a flight of one riser has no tread to lie along a line", "write `starts 0, 1200 heading 90deg` for it")
	}
	if plain == nil && want > 0 {
		left := c.length - flat
		if left <= geom.Tolerance*float64(want) {
			return nil, e.hint(e.place("landing"), "the landings take "+e.show(flat)+" of a line of "+e.show(c.length)+", and the other "+eval.Plural(want, "tread")+" are left with nothing",
				"make the landings less than %s together", e.show(c.length))
		}
		plain = make([]float64, want)
		for i := range plain {
			plain[i] = left / float64(want)
		}
		return plain, true
	}
	run := sum(plain) + flat
	if run <= c.length+c.slack {
		return plain, true
	}
	at, hint := e.place("landing"), "make the landings shallower, or the line longer"
	switch fit := c.length - flat; {
	case e.has("goings"):
		at = e.place("goings")
		if fit > 0 {
			hint = "the goings together may be " + e.show(fit) + "; without `goings` the treads share it evenly"
		}
	case want > 0:
		at = e.place("going")
		if fit > 0 {
			hint = "a `going` of " + e.show(fit/float64(want)) + " fits; without `going` the treads share the line evenly"
		}
	}
	return nil, e.hint(at, "the treads and landings take "+e.show(run)+", and the line is "+e.show(c.length)+" long", "%s", hint)
}

// onLine returns the flight's line as far as its treads go, in a shape that knows the way along it; nil for a straight one.
func (s steps) onLine(e *elem) (*set.Steps, bool) {
	if !e.has("along") {
		return &set.Steps{}, true
	}
	c, ok1 := s.curve(e)
	run, ok2 := s.run(e)
	if !ok1 || !ok2 {
		return nil, false
	}
	line := c.line
	if run < c.length-c.slack {
		line = geom.NewRuler(line).Part(0, run)
	}
	return &set.Steps{Line: line, LineIs: s.lineIs(e)}, true
}

// footAlong is the level of what the foot of copy k stands on, where that is the piece that it is `on`.
func (s steps) footAlong(e *elem, k int) (float64, bool) {
	seat, ok := e.sits()
	if !ok || seat == nil || seat.level != nil || e.has("level") || e.has("top") {
		return e.groundOf(k)
	}
	own, ok1 := s.footAt(e)
	p, ok2 := e.planOf(k)
	if !ok1 || !ok2 {
		return 0, false
	}
	return seat.other.kind.under(seat.other, seat.copy, p.plan().Apply(own), func() ([]geom.Region, bool) { return e.footprint(k) }, e.place("on"))
}
