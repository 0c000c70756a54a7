package element

import (
	"math"
	"slices"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// Limits of one file.
const (
	mostCopies   = 10_000  // of one element
	mostElements = 200_000 // copies and their other positions counted
)

// counts is how many copies there are: a round of them in each of so many layers, numbered round by round from the
// floor up.
type counts struct {
	round, layers int
	out           []int // left out, ascending
	shifts        []shift
}

// shift moves one copy on the plan, in the set's axes.
type shift struct {
	copy int
	by   geom.Point
}

func (c *counts) leavesOut(k int) bool {
	_, found := slices.BinarySearch(c.out, k)
	return found
}

// repeated reports whether the element's copies carry numbers.
func (e *elem) repeated() bool { return e.has("repeat") || e.has("stack") }

// one is the count of a piece that nothing is said of.
var one = counts{round: 1, layers: 1}

// counts returns how many copies there are.
func (e *elem) counts() (*counts, bool) {
	if !e.repeated() && !e.has("except") && !e.has("shift") {
		return &one, true
	}
	return eval.Ask(e.sc.ev, &e.counted, e.cell("repeat"), e.place("repeat"), e.countCopies)
}

func (e *elem) countCopies() (*counts, bool) {
	c, ok := &counts{round: 1, layers: 1}, true
	if n := e.arg("repeat"); n != nil {
		c.round, ok = e.sc.ev.Count(n, "repeat", 1, mostCopies)
	} else if e.has("repeat") {
		return c, false
	}
	if n := e.arg("stack"); n != nil {
		var fine bool
		c.layers, fine = e.sc.ev.Count(n, "stack", 1, mostCopies)
		ok = ok && fine
	} else if e.has("stack") {
		return c, false
	}
	if !ok {
		return c, false
	}
	n := c.round * c.layers
	if n > mostCopies {
		return c, e.errorf(e.place("stack"), "this makes %d copies, more than %d, the limit", n, mostCopies)
	}
	return c, e.leaveOut(c, n) && e.shiftCopies(c, n)
}

func (e *elem) leaveOut(c *counts, n int) bool {
	a := e.attr("except")
	if a == nil {
		return true
	}
	if !e.repeated() {
		return e.errorf(a.Span, "`except` leaves out copies, and `%s` is one piece", e.name)
	}
	ok := true
	for _, item := range listed(a.Args.Get("")) {
		k, fine := e.sc.ev.Count(item, "except", 1, mostCopies)
		switch {
		case !fine:
			ok = false
		case k > n:
			ok = e.errorf(item.Pos(), "`%s` has copies 1 to %d", e.name, n)
		default:
			c.out = append(c.out, k)
		}
	}
	slices.Sort(c.out)
	c.out = slices.Compact(c.out)
	if ok && len(c.out) == n {
		return e.errorf(a.Span, "this leaves no copy of `%s`", e.name)
	}
	return ok
}

// listed returns the items of a list, or the one value as a list of one.
func listed(n notation.Node) []notation.Node {
	switch n := n.(type) {
	case nil:
		return nil
	case *notation.List:
		return n.Items
	case *notation.Floats:
		out := make([]notation.Node, len(n.X))
		for i, x := range n.X {
			out[i] = &notation.Quantity{Span: n.Span, Value: unit.Value{Kind: n.Kind, X: x}}
		}
		return out
	}
	return []notation.Node{n}
}

func (e *elem) shiftCopies(c *counts, n int) bool {
	ok := true
	for _, a := range e.st.Attributes {
		if a.Word != "shift" || !a.Args.Has("by") || !movesCopy(a) {
			continue
		}
		if !e.repeated() {
			ok = e.errorf(a.Span, "`shift … by` moves one copy, and `%s` is one piece", e.name)
			continue
		}
		at := a.Args[0].Value
		k, fine := e.sc.ev.Count(at, "shift", 1, mostCopies)
		ax, fine2 := e.from()
		by, fine3 := e.sc.ev.Pair(a.Args.Get("by"))
		switch {
		case !fine || !fine2 || !fine3:
			ok = false
		case k > n:
			ok = e.errorf(at.Pos(), "`%s` has copies 1 to %d", e.name, n)
		case c.leavesOut(k):
			ok = e.errorf(at.Pos(), "copy %d is left out by `except`", k)
		case slices.ContainsFunc(c.shifts, func(s shift) bool { return s.copy == k }):
			ok = e.errorf(at.Pos(), "copy %d is shifted twice", k)
		default:
			c.shifts = append(c.shifts, shift{k, ax.m.Vector(by)})
		}
	}
	return ok
}

// movesCopy reports whether a shift moves one copy by a pair, and does not step a list.
func movesCopy(a *notation.Attribute) bool {
	_, pair := a.Args.Get("by").(*notation.Pair)
	return pair
}

// which returns the number of the copy that a reference means: 1 of a piece that is not repeated. A repeated one
// needs its number written.
func (e *elem) which(ref *notation.Ref) (int, bool) {
	if !e.repeated() {
		if ref.Copy != 0 {
			return 0, e.hint(ref.CopySpan, "`"+e.name+"` is one piece and has no copies", "write `%s` alone", e.name)
		}
		return 1, true
	}
	c, ok := e.counts()
	if !ok {
		return 0, false
	}
	n := c.round * c.layers
	switch {
	case ref.Copy == 0:
		ask := ""
		if len(ref.Asks) > 0 {
			ask = "." + ref.Asks[0].Word
		}
		return 0, e.hint(ref.Span, "`"+e.name+"` has "+copies(n)+", and one is wanted here", "say which: `%s.1%s`", e.name, ask)
	case ref.Copy < 1 || ref.Copy > n:
		return 0, e.errorf(ref.CopySpan, "`%s` has copies 1 to %d", e.name, n)
	case c.leavesOut(ref.Copy):
		return 0, e.errorf(ref.CopySpan, "copy %d of `%s` is left out by `except`", ref.Copy, e.name)
	}
	return ref.Copy, true
}

func copies(n int) string {
	if n == 1 {
		return "1 copy"
	}
	return unit.FormatNumber(float64(n), 1) + " copies"
}

// planOf returns where copy k stands on the plan.
func (e *elem) planOf(k int) (pose, bool) {
	c, ok := e.counts()
	if !ok {
		return pose{}, false
	}
	p, ok := e.unshifted(k)
	for _, s := range c.shifts {
		if s.copy == k {
			p.at = p.at.Add(s.by)
		}
	}
	return p, ok
}

func (e *elem) unshifted(k int) (pose, bool) {
	if !e.has("repeat") {
		return e.stand()
	}
	round, ok := e.round()
	if !ok {
		return pose{}, false
	}
	return round[(k-1)%len(round)], true
}

// round returns where the copies of one layer of a repeated piece stand.
func (e *elem) round() ([]pose, bool) {
	return eval.Ask(e.sc.ev, &e.spread, e.cell("repeat"), e.asked(e.place("repeat")), func() ([]pose, bool) {
		c, ok := e.counts()
		if !ok {
			return nil, false
		}
		a := e.attr("repeat")
		switch {
		case a.Args.Has("around"):
			return e.around(a, c.round)
		case a.Args.Has("along"):
			return e.along(a, c.round)
		}
		ax, ok1 := e.from()
		first, ok2 := e.stand()
		by, ok3 := e.sc.ev.Pair(a.Args.Get("by"))
		if !ok1 || !ok2 || !ok3 {
			return nil, false
		}
		by = ax.m.Vector(by)
		if c.round > 1 && by.Len() <= geom.Tolerance {
			return nil, e.errorf(a.Span, "the copies would all stand in one place")
		}
		out := make([]pose, c.round)
		for i := range out {
			out[i] = pose{at: first.at.Add(by.Mul(float64(i))), turn: first.turn}
		}
		return out, true
	})
}

// own returns the piece's own turn, to which that of its place on a circle or line is added, and its hub seen from
// its own 0,0. A piece whose place is said elsewhere cannot be spread.
func (e *elem) own(a *notation.Attribute, how string) (turn float64, hub geom.Point, ax axes, ok bool) {
	for _, w := range [...]string{"at", "meets", "point"} {
		if e.has(w) {
			return 0, hub, ax, e.hint(e.place(w), "`repeat … "+how+"` says where the copies stand, and so does `"+w+"`", "leave `%s` out, or write `repeat … by`", w)
		}
	}
	if s, fine := e.sits(); !fine || s != nil && s.at != nil {
		if fine {
			e.hint(a.Span, "`repeat … "+how+"` says where the copies stand, and so does `on … at`", "write `on %s` alone", s.other.name)
		}
		return 0, hub, ax, false
	}
	ax, ok1 := e.from()
	p, ok2 := e.stand()
	hub, ok3 := e.kind.hub(e)
	return p.turn - ax.turn, hub, ax, ok1 && ok2 && ok3
}

// hubAt is the pose of a piece turned by turn whose hub comes to lie at p.
func hubAt(p, hub geom.Point, turn float64) pose {
	return pose{at: p.Sub(geom.Move(geom.Point{}, turn).Apply(hub)), turn: turn}
}

// around spreads copies anticlockwise, 360°/n apart, each facing out of the circle unless said otherwise.
func (e *elem) around(a *notation.Attribute, n int) ([]pose, bool) {
	turn, hub, ax, ok := e.own(a, "around")
	if !ok {
		return nil, false
	}
	centre, ok1 := e.sc.ev.Place(a.Args.Get("around"), ax.m)
	radius, ok2 := e.sc.ev.Positive(a.Args.Get("radius"), "radius")
	start, ok3 := 0.0, true
	if from := a.Args.Get("from"); from != nil {
		start, ok3 = e.sc.ev.Angle(from, "from")
	}
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	out := make([]pose, n)
	for i := range out {
		bearing := ax.turn + start + 360*float64(i)/float64(n)
		s, c := geom.SincosDeg(bearing)
		t := turn
		switch word(a.Args.Get("facing")) {
		case "same":
			t += ax.turn
		case "in":
			t += bearing - 90
		default: // a piece at turn 0 has its front downstage, at −90°
			t += bearing + 90
		}
		out[i] = hubAt(centre.At.Add(geom.Point{X: radius * c, Y: radius * s}), hub, t)
	}
	return out, true
}

// along spreads copies on a line from its start, each with its front the way the line runs.
func (e *elem) along(a *notation.Attribute, n int) ([]pose, bool) {
	turn, hub, ax, ok := e.own(a, "along")
	if !ok {
		return nil, false
	}
	way, ok := e.sc.way(a.Args.Get("along"), ax)
	if !ok {
		return nil, false
	}
	r := geom.NewRuler(way)
	length := r.Length()
	step := 0.0
	switch every := a.Args.Get("every"); {
	case every != nil:
		if step, ok = e.sc.ev.Positive(every, "every"); !ok {
			return nil, false
		}
		if room := fitting(length, step, way.Closed()); n > room {
			return nil, e.errorf(every.Pos(), "copy %d does not fit: the line is %s long, room for %s", room+1, e.show(length), copies(room))
		}
	case way.Closed():
		step = length / float64(n)
	case n > 1:
		step = length / float64(n-1)
	}
	out := make([]pose, n)
	for i := range out {
		at, ahead := r.At(min(float64(i)*step, length))
		out[i] = hubAt(at, hub, turn+degrees(ahead)+90)
	}
	return out, true
}

// fitting returns how many copies fit on a line, step apart from its start; on a closed one the end is the start.
func fitting(length, step float64, closed bool) int {
	if closed {
		return int(math.Ceil(min((length-geom.Tolerance)/step, mostCopies)))
	}
	return int(min((length+geom.Tolerance)/step, mostCopies)) + 1
}

// way is the line that copies are spread along, in the set's axes: a drawn one, or a piece's.
func (sc *scene) way(n notation.Node, ax axes) (*geom.Path, bool) {
	switch n := n.(type) {
	case *notation.Path:
		return sc.ev.Path(n, func(p notation.Node) (geom.Point, bool) {
			at, ok := sc.ev.Place(p, ax.m)
			return at.At, ok
		})
	case *notation.Ref:
		other, k, ok := sc.element(n)
		if !ok {
			return nil, false
		}
		line, ok := other.kind.line(other)
		if !ok {
			return nil, false
		}
		if line == nil || line.Empty() {
			sc.list.Errorf(n.Span, "`%s` is no line along which copies can stand", n.Name)
			return nil, false
		}
		p, ok := other.planOf(k)
		if !ok {
			return nil, false
		}
		return line.Transform(p.plan()), true
	}
	return nil, false
}

// word returns the word that stands at a node, empty for none.
func word(n notation.Node) string {
	if w, ok := n.(*notation.Word); ok {
		return w.Value
	}
	return ""
}

// resolve returns the copies with their places.
func (e *elem) resolve() ([]set.Copy, bool) {
	return eval.Ask(e.sc.ev, &e.copied, e.cell("on"), e.place("on"), func() ([]set.Copy, bool) {
		c, ok := e.counts()
		if !ok {
			return nil, false
		}
		// Places and levels first: what goes round in a circle is found and named there.
		if _, ok := e.frame(1); !ok {
			return nil, false
		}
		carried, ok := e.carried()
		if !ok {
			return nil, false
		}
		also, ok := e.also()
		if !ok {
			return nil, false
		}
		// A position that the piece gives itself counts before the one that it would be carried to.
		carried = slices.DeleteFunc(carried, func(m position) bool {
			return slices.ContainsFunc(also, func(a position) bool { return a.name == m.name })
		})
		var in, on string
		ax, ok1 := e.from()
		s, ok2 := e.sits()
		if !ok1 || !ok2 {
			return nil, false
		}
		if ax.hall != nil {
			in = ax.hall.name
		}
		if s != nil {
			on = s.other.name
			if s.other.repeated() {
				on += "." + count(s.copy)
			}
		}
		over, ok := e.over()
		if !ok {
			return nil, false
		}
		below := 0.0
		if over != nil {
			if below, ok = e.tall(); !ok {
				return nil, false
			}
		}
		n := c.round * c.layers
		per := 1 + len(carried) + len(also)
		if !e.sc.room((n-len(c.out))*per, e.st.NameSpan) {
			return nil, false
		}
		places := make([]set.Place, 0, (n-len(c.out))*per)
		out := make([]set.Copy, 0, n-len(c.out))
		for k := 1; k <= n; k++ {
			if c.leavesOut(k) {
				continue
			}
			f, ok := e.frame(k)
			if !ok {
				return nil, false
			}
			if over != nil {
				f = f.Then(over.Turn)
			}
			first := len(places)
			pl := set.Place{Frame: f, In: in, On: on, Over: over, Below: below}
			places = append(places, pl)
			for _, m := range carried {
				pl.Position, pl.Frame = m.name, f.Then(m.by)
				places = append(places, pl)
			}
			for _, a := range also {
				pl.Position, pl.Frame = a.name, a.by
				if over != nil {
					pl.Frame = a.by.Then(over.Turn)
				}
				places = append(places, pl)
			}
			out = append(out, set.Copy{Number: k, Places: places[first:len(places):len(places)]})
		}
		return out, true
	})
}

// room counts places towards the limit of elements.
func (sc *scene) room(n int, at diag.Span) bool {
	before := sc.places
	sc.places += n
	if sc.places > mostElements {
		if before <= mostElements {
			sc.list.Errorf(at, "the set has more than %d pieces, copies counted, the limit", mostElements)
		}
		return false
	}
	return true
}
