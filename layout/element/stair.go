package element

import (
	"errors"
	"math"

	"markout/layout/diag"
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

// fits reports treads that do not fit round the turns of their line.
func (s steps) fits(e *elem, st *set.Steps) bool {
	c := geom.NewCourse(st.Line)
	ruler := geom.NewRuler(st.Line)
	tight := math.Inf(1)
	var cramped int
	for k, t := range st.Treads() {
		left, right := st.Sides(k)
		for _, x := range [2]float64{left, right} {
			_, err := c.Beside(x, t.Y0, t.Y1)
			switch {
			case err == nil:
			case errors.Is(err, geom.ErrRadius):
				_, _, toLeft, toRight := geom.NewCourse(ruler.Part(t.Y0, t.Y1)).Turns()
				r := toLeft
				if x > 0 {
					r = toRight
				}
				if most := r / math.Abs(x) * t.Width; most < tight {
					tight, cramped = most, k
				}
			default:
				return s.cornered(e, c, k, t, x)
			}
		}
	}
	if !math.IsInf(tight, 1) {
		t := st.Treads()[cramped]
		at := s.widthPlace(e)
		if slant := t.Mid != 0 && st.LineIs == "centre"; slant {
			return e.hint(at, "tread "+count(cramped+1)+" reaches to the middle about which its line turns, or beyond it", "make it narrower, or `shift` it the other way")
		}
		return e.hint(at, "tread "+count(cramped+1)+" is "+e.show(t.Width)+" wide and reaches to the middle about which its line turns, or beyond it",
			"less than %s fits there", e.show(tight))
	}
	return s.apart(e, st) && s.boardsFit(e, st)
}

func (steps) widthPlace(e *elem) diag.Span {
	if e.has("widths") {
		return e.place("widths")
	}
	return e.place("width")
}

// cornered says at which corner of the line tread k has no room.
func (steps) cornered(e *elem, c *geom.Course, k int, t set.Tread, x float64) bool {
	for _, corner := range c.Corners() {
		if corner.Along < t.Y0-geom.Tolerance || corner.Along > t.Y1+geom.Tolerance {
			continue
		}
		at, _ := c.Way(0, corner.Along)
		where := e.show(at.X) + ", " + e.show(at.Y)
		if corner.Curved {
			return e.hint(e.place("along"), "the line has a corner at "+where+" where an arc or a curve begins or ends, and tread "+count(k+1)+" does not fit round it",
				"let the arc run on smoothly there, or put a straight piece before it")
		}
		return e.hint(e.place("along"), "tread "+count(k+1)+" does not fit round the corner of the line at "+where,
			"a riser stands on the corner, or at least %s before or after it; or draw the corner as an arc", e.show(math.Abs(x*math.Tan(corner.Turn/2))))
	}
	return e.errorf(e.place("along"), "tread %d does not fit along the line", k+1)
}

// apart reports treads that would lie over one another where the line comes back near itself.
func (s steps) apart(e *elem, st *set.Steps) bool {
	areas := set.Footprints(st)
	boxes := make([]geom.Rect, len(areas))
	for i, r := range areas {
		boxes[i] = r.Bounds()
	}
	for i := range areas {
		for j := i + 2; j < len(areas); j++ {
			if boxes[i].Overlaps(boxes[j]) && geom.Overlaps(areas[i], areas[j]) {
				return e.hint(s.widthPlace(e), "treads "+count(i+1)+" and "+count(j+1)+" would lie over one another, where the line comes back to itself",
					"make the flight narrower, or two flights of it")
			}
		}
	}
	return true
}

// boardsFit checks the nosing and the riser boards where the treads are narrowest.
func (steps) boardsFit(e *elem, st *set.Steps) bool {
	treads := st.Treads()
	for k, t := range treads {
		left, right := st.Sides(k)
		for _, x := range [2]float64{left, right} {
			if k > 0 && st.Nosing > 0 {
				room := st.Edge(x, treads[k-1].Y0, t.Y0).Length()
				if past, ok := st.Overhang(x, t.Y0, st.Nosing); !ok || past >= room {
					return e.errorf(e.place("nosing"), "the nosing is %s, and at its narrow end tread %d is only %s deep", e.show(st.Nosing), k, e.show(room))
				}
			}
			if st.RiserBoard > 0 {
				room := st.Edge(x, t.Y0, t.Y1).Length()
				if past, ok := st.Overhang(x, t.Y0, -st.RiserBoard); !ok || -past >= room {
					return e.errorf(e.place("riser_board"), "the riser board is %s thick, and at its narrow end tread %d is only %s deep", e.show(st.RiserBoard), k+1, e.show(room))
				}
			}
		}
	}
	return true
}
