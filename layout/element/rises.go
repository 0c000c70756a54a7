package element

import (
	"math"
	"slices"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/unit"
)

// rises returns the height of every riser.
func (s steps) rises(e *elem) ([]float64, bool) {
	if e.has("rises") {
		for _, w := range [...]string{"risers", "rise", "total"} {
			if e.has(w) {
				return nil, e.clash("rises", w, "the list says every rise")
			}
		}
		n := e.arg("rises")
		if n == nil {
			return nil, false
		}
		list, ok := e.sc.ev.Lengths(n, "rises", "riser", -1)
		if !ok {
			return nil, false
		}
		if len(list) > mostRisers {
			return nil, e.errorf(n.Pos(), "a flight has at most %d risers, and here are %d", mostRisers, len(list))
		}
		return list, e.allPositive(list, n.Pos(), "rise")
	}
	if !s.given(e) {
		return nil, false
	}
	n, ok1 := s.risers(e)
	rise, ok2 := s.rise(e)
	if !ok1 || !ok2 {
		return nil, false
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = rise
	}
	return out, true
}

func (e *elem) allPositive(list []float64, at diag.Span, what string) bool {
	for i, x := range list {
		if x <= 0 {
			return e.errorf(at, "%s %d is more than 0, and this is %s", what, i+1, e.show(x))
		}
	}
	return true
}

// given lists which of risers, rise and total stand in the text, and reports where they are too few or too many.
func (s steps) given(e *elem) bool {
	_, ok := e.value("risers, rise, total", e.st.NameSpan, func() (unit.Value, bool) {
		var there []string
		for _, w := range [...]string{"risers", "rise", "total"} {
			if e.has(w) {
				there = append(there, w)
			}
		}
		switch {
		case len(there) == 3:
			return unit.Value{}, e.errorf(e.place(there[2]), "any two of `risers`, `rise` and `total` give the third; leave one out")
		case len(there) == 2, len(there) == 1 && e.has("meets") && there[0] != "total":
			return unit.Value{}, true
		case e.has("meets"):
			return unit.Value{}, e.hint(e.st.NameSpan, "`"+e.name+"` needs its `risers` or its `rise`", "write `risers 3`")
		}
		return unit.Value{}, e.hint(e.st.NameSpan, "`"+e.name+"` needs two of `risers`, `rise` and `total`, or its `rises`", "write `risers 3` and `rise 150`")
	})
	return ok
}

// total returns the height from the foot to where the flight lands.
func (s steps) total(e *elem) (float64, bool) {
	switch {
	case e.has("rises"):
		list, ok := s.rises(e)
		return sum(list), ok
	case e.has("total"):
		return e.needed("total")
	}
	v, ok := e.value("total", e.place("meets"), func() (unit.Value, bool) {
		if !s.given(e) {
			return unit.Value{}, false
		}
		if e.has("risers") && e.has("rise") {
			n, ok1 := s.risers(e)
			r, ok2 := s.rise(e)
			return lengthOf(float64(n) * r), ok1 && ok2
		}
		top, ok1 := e.meetsTop()
		foot, ok2 := e.footLevel()
		if !ok1 || !ok2 {
			return unit.Value{}, false
		}
		if top-foot <= geom.Tolerance {
			return unit.Value{}, e.errorf(e.place("meets"), "the flight does not climb: its foot stands at %s and lands at %s", e.show(foot), e.show(top))
		}
		return lengthOf(top - foot), true
	})
	return v.X, ok
}

func sum(list []float64) float64 {
	t := 0.0
	for _, x := range list {
		t += x
	}
	return t
}

// holdsFoot reports whether the level of the foot is given and the total follows; otherwise, of a flight that meets a deck,
// the foot's level follows.
func (steps) holdsFoot(e *elem) bool {
	if !e.has("meets") {
		return true
	}
	known := 0
	for _, w := range [...]string{"risers", "rise", "total"} {
		if e.has(w) {
			known++
		}
	}
	return known < 2 && !e.has("rises")
}

// risers returns how many risers there are.
func (s steps) risers(e *elem) (int, bool) {
	if e.has("rises") {
		list, ok := s.rises(e)
		return len(list), ok
	}
	v, ok := e.value("risers", e.place("risers"), func() (unit.Value, bool) {
		if e.has("risers") {
			n, ok := e.sc.ev.Count(e.arg("risers"), "risers", 1, mostRisers)
			return unit.Value{X: float64(n)}, ok
		}
		if !s.given(e) {
			return unit.Value{}, false
		}
		total, ok1 := s.total(e)
		rise, ok2 := s.rise(e)
		if !ok1 || !ok2 {
			return unit.Value{}, false
		}
		n := math.Round(total / rise)
		switch {
		case n < 1 || math.Abs(n*rise-total) > geom.Tolerance:
			whole := max(n, 1)
			return unit.Value{}, e.hint(e.place("rise"), e.show(total)+" is no whole number of rises of "+e.show(rise),
				"write `risers %d` for rises of %s", int(min(whole, mostRisers)), e.show(total/min(whole, mostRisers)))
		case n > mostRisers:
			return unit.Value{}, e.errorf(e.place("rise"), "a flight has at most %d risers, and this makes %d", mostRisers, int(n))
		}
		return unit.Value{X: n}, true
	})
	return int(v.X), ok
}

// rise returns the height of each riser; of a list only where all are equal.
func (s steps) rise(e *elem) (float64, bool) {
	switch {
	case e.has("rises"):
		list, ok := s.rises(e)
		return e.only(list, "rise", ok)
	case e.has("rise"):
		return e.needed("rise")
	}
	v, ok := e.value("rise", e.place("risers"), func() (unit.Value, bool) {
		if !s.given(e) {
			return unit.Value{}, false
		}
		n, ok1 := s.risers(e)
		total, ok2 := s.total(e)
		return lengthOf(total / float64(max(n, 1))), ok1 && ok2
	})
	return v.X, ok
}

// only returns the one value of a list in which all are equal.
func (e *elem) only(list []float64, what string, ok bool) (float64, bool) {
	if !ok || len(list) == 0 {
		if ok {
			e.errorf(e.st.NameSpan, "`%s` has no %s", e.name, what)
		}
		return 0, false
	}
	lo, hi := slices.Min(list), slices.Max(list)
	if hi-lo > geom.Tolerance {
		return 0, e.errorf(e.place(what+"s"), "the %ss of `%s` run from %s to %s; there is no one `%s`", what, e.name, e.show(lo), e.show(hi), what)
	}
	return list[0], true
}
