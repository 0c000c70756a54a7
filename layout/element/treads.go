package element

import (
	"slices"

	"markout/layout/eval"
	"markout/layout/unit"
)

// landings returns the treads that are landings, ascending, with their depths.
func (s steps) landings(e *elem) (at []int, depths []float64, ok bool) {
	n, ok := s.risers(e)
	if !ok {
		return nil, nil, false
	}
	type landing struct {
		after int
		depth float64
	}
	var list []landing
	for _, a := range e.st.Attributes {
		if a.Word != "landing" {
			continue
		}
		after := a.Args.Get("after")
		if after == nil {
			ok = false
			continue
		}
		k, ok1 := e.sc.ev.Count(after, "after", 1, mostRisers)
		d, ok2 := e.sc.ev.Positive(a.Args.Get("depth"), "depth")
		switch {
		case !ok1 || !ok2:
			ok = false
		case k >= n:
			ok = e.errorf(after.Pos(), "the flight has %s, so a landing comes after riser 1 to %d; on top of the last it lands", eval.Plural(n, "riser"), n-1)
		case slices.ContainsFunc(list, func(l landing) bool { return l.after == k }):
			ok = e.errorf(after.Pos(), "the tread on top of riser %d is a landing already", k)
		default:
			list = append(list, landing{k, d})
		}
	}
	slices.SortFunc(list, func(a, b landing) int { return a.after - b.after })
	for _, l := range list {
		at, depths = append(at, l.after), append(depths, l.depth)
	}
	return at, depths, ok
}

// goings returns the depth of every tread, landings among them.
func (s steps) goings(e *elem) ([]float64, []int, bool) {
	n, ok1 := s.risers(e)
	at, depths, ok2 := s.landings(e)
	if !ok1 || !ok2 {
		return nil, nil, false
	}
	var plain []float64
	ok := true
	want := n - 1 - len(at)
	switch {
	case e.has("going") && e.has("goings"):
		return nil, nil, e.clash("going", "goings", "either says how deep the treads are")
	case e.has("goings"):
		node := e.arg("goings")
		if node == nil {
			return nil, nil, false
		}
		if plain, ok = e.sc.ev.Lengths(node, "goings", "tread", want); ok {
			ok = e.allPositive(plain, node.Pos(), "going")
		}
	case want > 0 && (e.has("going") || !e.has("along")):
		var g float64
		g, ok = e.needed("going")
		plain = make([]float64, want)
		for i := range plain {
			plain[i] = g
		}
	}
	if ok && e.has("along") {
		plain, ok = s.goingsAlong(e, plain, want, depths)
	}
	if !ok {
		return nil, nil, false
	}
	out := make([]float64, 0, n-1)
	for k, i := 1, 0; k < n; k++ {
		if i < len(at) && at[i] == k {
			out = append(out, depths[i])
			i++
			continue
		}
		out = append(out, plain[k-1-i])
	}
	return out, at, true
}

// run returns the length on plan.
func (s steps) run(e *elem) (float64, bool) {
	v, ok := e.value("run", e.st.NameSpan, func() (unit.Value, bool) {
		g, _, ok := s.goings(e)
		return lengthOf(sum(g)), ok
	})
	return v.X, ok
}

// shifts returns how far the middle of every tread lies to the right of the flight's line.
func (s steps) shifts(e *elem) ([]float64, bool) {
	n, ok := s.risers(e)
	if !ok {
		return nil, false
	}
	want := max(n-1, 1)
	aside, ok := s.aside(e)
	if !ok {
		return nil, false
	}
	var out []float64
	for _, a := range e.st.Attributes {
		if a.Word != "shift" || movesCopy(a) {
			continue
		}
		if a.Bad || len(a.Args) == 0 {
			return nil, false
		}
		if out != nil {
			return nil, e.errorf(a.Span, "`shift` lists the treads twice")
		}
		if aside != 0 {
			return nil, e.hint(a.Span, "the line is the "+s.lineIs(e)+" edge of the treads, so they lie beside it already", "write `along … centre`, and shift the treads from there")
		}
		if out, ok = e.sc.ev.Lengths(a.Args[0].Value, "shift", "tread", want); !ok {
			return nil, false
		}
	}
	if out == nil {
		out = make([]float64, want)
	}
	if aside != 0 {
		widths, ok := s.widths(e)
		if !ok {
			return nil, false
		}
		for i, w := range widths {
			out[i] = aside * w / 2
		}
	}
	return out, true
}

func (s steps) widths(e *elem) ([]float64, bool) {
	n, ok := s.risers(e)
	if !ok {
		return nil, false
	}
	want := max(n-1, 1)
	if e.has("widths") {
		if e.has("width") {
			return nil, e.clash("width", "widths", "either says how wide the treads are")
		}
		node := e.arg("widths")
		if node == nil {
			return nil, false
		}
		out, ok := e.sc.ev.Lengths(node, "widths", "tread", want)
		return out, ok && e.allPositive(out, node.Pos(), "width")
	}
	w, ok := e.needed("width")
	out := make([]float64, want)
	for i := range out {
		out[i] = w
	}
	return out, ok
}
