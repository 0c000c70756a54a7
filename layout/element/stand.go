package element

import (
	"math"

	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// axes are what the places of an element count from: the set's own, or those of a hall or a room, upright.
type axes struct {
	hall *elem // the hall or room; nil for the set's own
	m    geom.Isometry
	turn float64
	z    float64
}

// seat is what an element sits on.
type seat struct {
	other *elem
	copy  int
	at    notation.Node // where on it; nil where the element's own `at` says so
	level notation.Node // of a place on a wall's face
}

// sits returns what the element sits on, nil for nothing.
func (e *elem) sits() (*seat, bool) {
	return eval.Ask(e.sc.ev, &e.seating, e.cell("on"), e.place("on"), func() (*seat, bool) {
		a := e.attr("on")
		if a == nil {
			return nil, true
		}
		ref, ok := a.Args.Get("").(*notation.Ref)
		if !ok {
			return nil, false
		}
		other, k, ok := e.sc.element(ref)
		switch {
		case !ok:
			return nil, false
		case other == e:
			return nil, e.errorf(ref.Span, "`%s` cannot sit on itself", e.name)
		case len(ref.Asks) > 0:
			return nil, e.hint(ref.Asks[0].Span, "a piece sits on a piece, and this is a place of one", "write `on %s at %s`", ref.Name, ref.Asks[0].Word)
		}
		s := &seat{other: other, copy: k, at: a.Args.Get("at"), level: a.Args.Get("level")}
		if _, wall := other.kind.(flat); s.level != nil && !wall {
			return nil, e.errorf(s.level.Pos(), "only on the face of a flat has a place a level of its own; `%s` is no flat", ref.Name)
		}
		switch other.kind.(type) {
		case hall:
			return nil, e.hint(ref.Span, "a hall is worked in, and nothing sits on it", "write `in %s`", ref.Name)
		case room:
			return nil, e.hint(ref.Span, "a room is an interior, and nothing sits on it", "write `in %s`", ref.Name)
		case reserve, walk:
			return nil, e.errorf(ref.Span, "`%s` is nothing that is built, and nothing sits on it", ref.Name)
		}
		return s, true
	})
}

// from returns the axes that the element's places count from: those of the hall it is in, or of what it sits on.
func (e *elem) from() (axes, bool) {
	word := "in"
	if !e.has(word) {
		word = "on"
	}
	return eval.Ask(e.sc.ev, &e.based, e.cell(word), e.place(word), func() (axes, bool) {
		own := axes{m: geom.Move(geom.Point{}, 0)}
		s, ok := e.sits()
		if !ok {
			return own, false
		}
		a := e.attr("in")
		if a == nil {
			if s != nil {
				return s.other.from()
			}
			return own, true
		}
		ref, ok := a.Args.Get("").(*notation.Ref)
		if !ok {
			return own, false
		}
		other, _, ok := e.sc.element(ref)
		if !ok {
			return own, false
		}
		_, inHall := other.kind.(hall)
		_, inRoom := other.kind.(room)
		if !inHall && !inRoom {
			return own, e.errorf(ref.Span, "`%s` is no hall and no room: pieces are placed in one", ref.Name)
		}
		switch e.kind.(type) {
		case hall:
			return own, e.errorf(ref.Span, "a hall stands in the set's own axes")
		case room:
			if inRoom {
				return own, e.errorf(ref.Span, "a room stands in the set's own axes or in a hall, not in another room")
			}
		}
		p, ok := other.planOf(1)
		if !ok || !inRoom {
			return axes{hall: other, m: p.plan(), turn: p.turn}, ok
		}
		z, ok := other.level(1)
		return axes{hall: other, m: p.plan(), turn: p.turn, z: z}, ok
	})
}

// standAt is the place of a piece with `at` and `turn`, or on another piece.
func (e *elem) standAt() (pose, bool) {
	ax, ok := e.from()
	if !ok {
		return pose{}, false
	}
	turn, ok := e.optional("turn")
	if !ok {
		return pose{}, false
	}
	p := pose{at: ax.m.Apply(geom.Point{}), turn: ax.turn + turn}
	s, ok := e.sits()
	if !ok {
		return pose{}, false
	}
	if s != nil && s.at != nil {
		if e.has("at") {
			return pose{}, e.clash("on", "at", "both say where it stands")
		}
		if _, wall := s.other.kind.(flat); wall && s.level != nil {
			return e.onFace(s, turn)
		} else if q, value := s.at.(*notation.Quantity); wall && value {
			return pose{}, e.hint(q.Span, "a place on a face has a level too", "write `on %s at %s level 1400`", s.other.name, e.sc.words(q.Span))
		}
		return e.sc.placed(e, s, ax, p)
	}
	if n := e.arg("at"); n != nil {
		at, ok := e.sc.ev.Place(n, ax.m)
		p.at = at.At
		return p, ok
	}
	return p, !e.has("at")
}

// placed puts p where `on OTHER at` says: a bare anchor's word there belongs to the other piece.
func (sc *scene) placed(e *elem, s *seat, ax axes, p pose) (pose, bool) {
	at, ok := sc.ev.Place(belonging(s.at, s.other, s.copy), ax.m)
	p.at = at.At
	return p, ok
}

// belonging returns a place's words with the other piece's name put before an anchor that stands without one.
func belonging(n notation.Node, other *elem, k int) notation.Node {
	switch n := n.(type) {
	case *notation.Ref:
		if len(n.Asks) > 0 || n.Copy != 0 || other.sc.known(n.Name) {
			return n
		}
		if !other.repeated() {
			k = 0
		}
		return &notation.Ref{Span: n.Span, Name: other.name, NameSpan: n.NameSpan, Copy: k, Asks: []notation.Ask{{Span: n.Span, Word: n.Name}}}
	case *notation.Paren:
		return &notation.Paren{Span: n.Span, X: belonging(n.X, other, k)}
	case *notation.Binary:
		return &notation.Binary{Span: n.Span, Op: n.Op, OpAt: n.OpAt, X: belonging(n.X, other, k), Y: n.Y}
	}
	return n
}

// hung reports whether the piece is hung on a flat's face.
func (e *elem) hung() (hung, ok bool) {
	s, ok := e.sits()
	if !ok || s == nil || s.at == nil || s.level == nil {
		return false, ok
	}
	_, wall := s.other.kind.(flat)
	return wall, true
}

// onFace is the place of a piece that hangs on a flat's face: the middle of its width at the distance from P, its back
// on the face.
func (e *elem) onFace(s *seat, turn float64) (pose, bool) {
	if turn != 0 {
		return pose{}, e.errorf(e.place("turn"), "a piece on a face turns with the wall; leave out `turn`")
	}
	along, ok := e.sc.ev.NotNegative(s.at, "at")
	if !ok {
		return pose{}, false
	}
	wall, ok := s.other.planOf(s.copy)
	if !ok {
		return pose{}, false
	}
	line, ok := s.other.kind.line(s.other)
	if !ok {
		return pose{}, false
	}
	ruler := geom.NewRuler(line)
	run := ruler.Length()
	if along > run+geom.Tolerance {
		return pose{}, e.errorf(s.at.Pos(), "`%s` is %s long, and this is at %s", s.other.name, e.show(run), e.show(along))
	}
	back, ok := e.back()
	if !ok {
		return pose{}, false
	}
	face, ahead := ruler.At(along)
	p := pose{turn: wall.turn + degrees(ahead)}
	if s.other.faceLeft() {
		p.turn += 180
	}
	p.at = wall.plan().Apply(face).Sub(geom.Move(geom.Point{}, p.turn).Apply(back))
	return p, true
}

// back is the place in the piece's own axes that comes to lie on a wall's face: the middle of its width, at its back.
func (e *elem) back() (geom.Point, bool) {
	if f, ok := e.kind.(interface {
		back(e *elem) (geom.Point, bool)
	}); ok {
		return f.back(e)
	}
	o, ok := e.kind.outline(e)
	if !ok {
		return geom.Point{}, false
	}
	if o == nil {
		return geom.Point{}, e.errorf(e.place("on"), "this kind of piece does not hang on a wall's face")
	}
	b := o.Path.Bounds()
	back := geom.Point{X: b.Mid().X, Y: b.Max.Y}
	if _, sheet := e.kind.(panel); sheet { // its outline is upright, and its thickness lies behind its own face
		back.Y, ok = e.optional("thickness")
	}
	return back, ok
}

// stand returns where the piece stands before it is repeated.
func (e *elem) stand() (pose, bool) {
	word := e.standWord()
	return eval.Ask(e.sc.ev, &e.standing, e.cell(word), e.asked(e.place(word)), func() (pose, bool) { return e.kind.stand(e) })
}

// standWord is the attribute that says where a piece stands.
func (e *elem) standWord() string {
	for _, w := range [...]string{"meets", "starts", "from", "along", "stands", "at", "point", "on", "repeat"} {
		if e.has(w) {
			return w
		}
	}
	return "at"
}

// stretch is a piece that runs straight from P to Q.
type stretch struct {
	pose
	run float64
}

// twoPoints is the place of a piece that runs from P to Q, and how long it is.
func (e *elem) twoPoints(word string) (p pose, run float64, ok bool) {
	s, ok := eval.Ask(e.sc.ev, &e.runs, e.cell(word), e.place(word), func() (s stretch, ok bool) {
		a := e.attr(word)
		ax, ok := e.from()
		if !ok || a == nil {
			return s, false
		}
		first := a.Args.Get("from")
		if first == nil {
			first = a.Args.Get("")
		}
		from, ok1 := e.sc.ev.Place(first, ax.m)
		to, ok2 := e.sc.ev.Place(a.Args.Get("to"), ax.m)
		if !ok1 || !ok2 {
			return s, false
		}
		way := to.At.Sub(from.At)
		if way.Len() <= geom.Tolerance {
			return s, e.errorf(a.Span, "P and Q are one place")
		}
		return stretch{pose{at: from.At, turn: degrees(way)}, way.Len()}, true
	})
	return s.pose, s.run, ok
}

// degrees returns the direction of v in degrees. What lies within a rounding error of a whole fifteen degrees is that,
// so that level and upright things keep exact figures.
func degrees(v geom.Point) float64 {
	d := math.Atan2(v.Y, v.X) * 180 / math.Pi
	if r := math.Round(d/15) * 15; math.Abs(d-r) < 1e-11 {
		return r
	}
	return d
}

// frame returns the place of copy k in space.
func (e *elem) frame(k int) (geom.Frame, bool) {
	p, ok1 := e.planOf(k)
	z, ok2 := e.level(k)
	return geom.Upright(p.at, z, p.turn), ok1 && ok2
}

// footprint returns what copy k covers on the plan, in the set's axes.
func (e *elem) footprint(k int) ([]geom.Region, bool) {
	sh, ok := e.shape()
	if !ok {
		return nil, false
	}
	p, ok := e.planOf(k)
	if !ok {
		return nil, false
	}
	out, m := set.Footprints(sh), p.plan()
	for i, r := range out {
		out[i] = r.Transform(m)
	}
	return out, true
}

// shape returns what the element is.
func (e *elem) shape() (set.Shape, bool) {
	return eval.Ask(e.sc.ev, &e.shaped, eval.Name{}, e.st.NameSpan, func() (set.Shape, bool) { return e.kind.shape(e) })
}
