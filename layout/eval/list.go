package eval

import (
	"fmt"

	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/unit"
)

// Lengths works out a list that holds one length for each of want things: the lengths themselves, a single one that
// serves all, or a first one and the step `by` which it changes. A wrong count is an error that gives both counts;
// things names what is counted ("treads"). With want less than 0 the list itself says how many there are.
func (ev *Evaluator) Lengths(n notation.Node, what, things string, want int) ([]float64, bool) {
	list, by, at, ok := ev.items(n, what)
	if !ok {
		return nil, false
	}
	switch {
	case by != nil && want < 0:
		ev.List.Errorf(at, "`%s` lists every value here", what)
		return nil, false
	case by != nil:
		step, ok := ev.Length(by, what)
		if !ok {
			return nil, false
		}
		out := make([]float64, want)
		for i := range out {
			out[i] = list[0] + float64(i)*step
		}
		return out, true
	case want < 0 || len(list) == want:
		return list, true
	case len(list) == 1:
		out := make([]float64, want)
		for i := range out {
			out[i] = list[0]
		}
		return out, true
	}
	ev.List.Errorf(at, "`%s` has %s, and there are %s", what, Plural(len(list), "value"), Plural(want, things))
	return nil, false
}

// Plural returns "1 tread", "8 treads".
func Plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// items works out the lengths of a list, without the step after `by`, which it returns.
func (ev *Evaluator) items(n notation.Node, what string) (list []float64, by notation.Node, at diag.Span, ok bool) {
	at = n.Pos()
	switch n := n.(type) {
	case *notation.List:
		ok = len(n.Items) > 0
		list = make([]float64, len(n.Items))
		for i, item := range n.Items {
			x, fine := ev.Length(item, what)
			list[i], ok = x, ok && fine
		}
		if n.By != nil && len(n.Items) != 1 {
			ev.List.Errorf(n.By.Pos(), "`by` steps a single value, and here are %d", len(n.Items))
			return nil, nil, at, false
		}
		return list, n.By, at, ok
	case *notation.Floats:
		k := ev.factor(n)
		list = make([]float64, len(n.X))
		ok = !n.Pairs && (n.Kind == unit.Number || n.Kind == unit.Length)
		for i, x := range n.X {
			if _, fine := ev.within(unit.Value{Kind: unit.Length, X: x * k}, n.Span); !fine {
				return nil, nil, at, false
			}
			list[i] = x * k
		}
		if !ok {
			ev.List.Errorf(at, "`%s` wants lengths", what)
		}
		return list, nil, at, ok
	}
	x, ok := ev.Length(n, what)
	return []float64{x}, nil, at, ok
}

// factor returns how many millimetres one of the numbers in a flat list is.
func (ev *Evaluator) factor(n *notation.Floats) float64 {
	if n.Kind == unit.Number {
		return ev.Units.Factor()
	}
	return 1
}
