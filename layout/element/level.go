package element

import (
	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/unit"
)

// level returns the level of the underside of copy k above the floor.
func (e *elem) level(k int) (float64, bool) {
	all, ok := eval.Ask(e.sc.ev, &e.levels, e.cell("level"), e.asked(e.levelPlace()), e.allLevels)
	if !ok {
		return 0, false
	}
	return all[min(k-1, len(all)-1)], true
}

func (e *elem) levelPlace() diag.Span {
	for _, w := range [...]string{"level", "top", "on", "meets"} {
		if e.has(w) {
			return e.place(w)
		}
	}
	return e.st.NameSpan
}

// allLevels returns one level for all copies, or one a copy.
func (e *elem) allLevels() ([]float64, bool) {
	c, ok := e.counts()
	if !ok {
		return nil, false
	}
	s, ok := e.sits()
	if !ok {
		return nil, false
	}
	uneven := false
	if s != nil {
		switch s.other.kind.(type) {
		case steps, ramp:
			uneven = c.round > 1
		}
	}
	if !uneven && c.layers == 1 {
		z, ok := e.kind.ground(e, 1)
		return []float64{z}, ok
	}
	h := 0.0
	if c.layers > 1 {
		if h, ok = e.tall(); !ok {
			return nil, false
		}
		if h <= 0 {
			return nil, e.errorf(e.place("stack"), "`%s` has no height, so it cannot be stacked", e.name)
		}
	}
	out := make([]float64, c.round*c.layers)
	for k := range out {
		if k > 0 && (k < c.round && !uneven) {
			out[k] = out[0]
			continue
		}
		if k >= c.round {
			out[k] = out[k%c.round] + float64(k/c.round)*h
			continue
		}
		if out[k], ok = e.kind.ground(e, k+1); !ok {
			return nil, false
		}
	}
	return out, true
}

// groundOf is the level of a piece's underside by `level`, `top`, `on`, or the floor.
func (e *elem) groundOf(k int) (float64, bool) {
	ax, ok := e.from()
	if !ok {
		return 0, false
	}
	s, ok := e.sits()
	if !ok {
		return 0, false
	}
	for _, w := range [...]string{"level", "top"} {
		if s != nil && e.has(w) {
			return 0, e.clash("on", w, "what it sits on says how high it stands")
		}
	}
	switch {
	case e.has("level") && e.has("top"):
		return 0, e.clash("level", "top", "its height leads from one to the other")
	case s != nil && s.level != nil:
		base, ok1 := s.other.level(s.copy)
		up, ok2 := e.sc.ev.Length(s.level, "level")
		return base + up, ok1 && ok2
	case s != nil:
		return e.seatLevel(s, k)
	case e.has("level"):
		z, ok := e.given("level")
		return ax.z + z, ok
	case e.has("top"):
		top, ok1 := e.given("top")
		h, ok2 := e.tall()
		return ax.z + top - h, ok1 && ok2
	}
	return ax.z, true
}

// given works out an attribute's length where the word also names a measure that is worked out from it.
func (e *elem) given(word string) (float64, bool) {
	n := e.arg(word)
	if n == nil {
		return 0, false
	}
	return e.sc.ev.Length(n, word)
}

// seatLevel is the level on which copy k sits.
func (e *elem) seatLevel(s *seat, k int) (float64, bool) {
	p, ok := e.planOf(k)
	if !ok {
		return 0, false
	}
	return s.other.kind.under(s.other, s.copy, p.at, func() ([]geom.Region, bool) { return e.footprint(k) }, e.place("on"))
}

// tall returns how far the piece reaches above its underside.
func (e *elem) tall() (float64, bool) { return e.kind.height(e) }

// top returns the level of copy k's top.
func (e *elem) top(k int, at diag.Span) (float64, bool) {
	v, ok := e.value("top", at, func() (unit.Value, bool) {
		z, ok1 := e.level(1)
		h, ok2 := e.tall()
		return unit.Value{Kind: unit.Length, X: z + h}, ok1 && ok2
	})
	if !ok || k <= 1 {
		return v.X, ok
	}
	first, ok1 := e.level(1)
	here, ok2 := e.level(k)
	return v.X - first + here, ok1 && ok2
}
