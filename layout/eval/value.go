package eval

import (
	"math"

	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/unit"
)

// countSlack is how far a count may lie from a whole number and still be that number.
const countSlack = 1e-9

// Value works out an expression.
func (ev *Evaluator) Value(n notation.Node) (unit.Value, bool) {
	if n == nil {
		return unit.Value{}, false
	}
	if !ev.enter(n.Pos()) {
		return unit.Value{}, false
	}
	defer ev.leave()
	switch n := n.(type) {
	case *notation.Quantity:
		return ev.within(n.Value, n.Span)
	case *notation.Paren:
		return ev.Value(n.X)
	case *notation.Unary:
		v, ok := ev.Value(n.X)
		v.X = 0 - v.X // not −0 for 0
		return v, ok
	case *notation.Binary:
		return ev.binary(n)
	case *notation.Ref:
		return ev.ref(n)
	case *notation.Pair, *notation.Taped:
		ev.List.Errorf(n.Pos(), "one value is wanted here, and this is a place")
	default:
		ev.List.Errorf(n.Pos(), "one value is wanted here")
	}
	return unit.Value{}, false
}

func (ev *Evaluator) within(v unit.Value, at diag.Span) (unit.Value, bool) {
	if limit := beyond(v); limit != "" {
		ev.List.Errorf(at, "%s", limit)
		return unit.Value{}, false
	}
	return v, true
}

func (ev *Evaluator) binary(n *notation.Binary) (unit.Value, bool) {
	x, okX := ev.Value(n.X)
	y, okY := ev.Value(n.Y)
	if !okX || !okY {
		return unit.Value{}, false
	}
	v, p := combine(n.Op, x, y, ev.Units)
	if p.message == "" {
		return ev.within(v, n.Span)
	}
	at := n.Span
	if n.Op == '/' && y.X == 0 {
		at = n.Y.Pos()
	}
	ev.say(at, p)
	return unit.Value{}, false
}

func (ev *Evaluator) say(at diag.Span, p problem) {
	ev.List.Add(diag.Diagnostic{Span: at, Message: p.message, Hint: p.hint})
}

func (ev *Evaluator) ref(n *notation.Ref) (unit.Value, bool) {
	if _, ok := ev.lets[n.Name]; ok {
		if len(n.Asks) > 0 || n.Copy != 0 {
			ev.List.Errorf(n.Span, "`%s` is a value and has nothing to ask for", n.Name)
			return unit.Value{}, false
		}
		return ev.AskLet(n.Name, n.Span)
	}
	t, ok := ev.things[n.Name]
	if !ok {
		ev.unknown(n)
		return unit.Value{}, false
	}
	if len(n.Asks) == 0 {
		ev.List.Hintf(n.Span, "`"+n.Name+"` is a piece, and one value is wanted here", "ask for one of its measures, such as `%s.level`", n.Name)
		return unit.Value{}, false
	}
	return t.Measure(n.Copy, n, n.Asks[0])
}

// Length works out an expression where a length is wanted; a bare number counts in the set's unit. what is the word
// it stands after.
func (ev *Evaluator) Length(n notation.Node, what string) (float64, bool) {
	v, ok := ev.Value(n)
	if !ok {
		return 0, false
	}
	return ev.asLength(v, n, what)
}

func (ev *Evaluator) asLength(v unit.Value, n notation.Node, what string) (float64, bool) {
	if v.Kind == unit.Number {
		v = unit.Value{Kind: unit.Length, X: v.X * ev.Units.Factor()}
		if v, ok := ev.within(v, n.Pos()); !ok {
			return v.X, false
		}
	}
	if v.Kind != unit.Length {
		hint := ""
		if v.Kind == unit.Area {
			hint = "a length times a length is an area; of two factors one is a plain number"
		}
		return 0, ev.wrong(n, what, unit.Length, v.Kind, hint)
	}
	return v.X, true
}

// Positive is Length for what cannot be zero or less.
func (ev *Evaluator) Positive(n notation.Node, what string) (float64, bool) {
	x, ok := ev.Length(n, what)
	if ok && x <= 0 {
		ev.List.Errorf(n.Pos(), "%s is more than 0, and this is %s", subject(what), ev.Show(x))
		return 0, false
	}
	return x, ok
}

// NotNegative is Length for what may be zero but not less.
func (ev *Evaluator) NotNegative(n notation.Node, what string) (float64, bool) {
	x, ok := ev.Length(n, what)
	if ok && x < 0 {
		ev.List.Errorf(n.Pos(), "%s is not less than 0, and this is %s", subject(what), ev.Show(x))
		return 0, false
	}
	return x, ok
}

// Small is Positive for thicknesses of card and tape, of which a bare number is a slip unless the set is in millimetres.
func (ev *Evaluator) Small(n notation.Node, what string) (float64, bool) {
	v, ok := ev.Value(n)
	if ok && v.Kind == unit.Number && ev.Units != unit.Millimetre {
		word := unit.FormatNumber(v.X, 0)
		ev.List.Hintf(n.Pos(), "`"+what+"` needs a unit in a set that is not in mm", "write `%smm` or `%s%s`", word, word, ev.Units)
		return 0, false
	}
	if !ok {
		return 0, false
	}
	return ev.Positive(n, what)
}

// Angle works out an expression where an angle is wanted, in degrees.
func (ev *Evaluator) Angle(n notation.Node, what string) (float64, bool) {
	v, ok := ev.Value(n)
	if !ok {
		return 0, false
	}
	if v.Kind != unit.Angle {
		hint := ""
		if v.Kind == unit.Number {
			hint = "write `" + unit.FormatNumber(v.X, 0) + "deg`"
		}
		return 0, ev.wrong(n, what, unit.Angle, v.Kind, hint)
	}
	return v.X, true
}

// Slope works out an expression where a slope is wanted, as rise over run.
func (ev *Evaluator) Slope(n notation.Node, what string) (float64, bool) {
	v, ok := ev.Value(n)
	if !ok {
		return 0, false
	}
	if v.Kind != unit.Slope {
		hint := "write `1:12`"
		if v.Kind == unit.Number && v.X >= 1 {
			hint = "write `1:" + unit.FormatNumber(v.X, 0) + "`"
		}
		return 0, ev.wrong(n, what, unit.Slope, v.Kind, hint)
	}
	return v.X, true
}

// Count works out an expression where a whole number from least to most is wanted.
func (ev *Evaluator) Count(n notation.Node, what string, least, most int) (int, bool) {
	v, ok := ev.Value(n)
	if !ok {
		return 0, false
	}
	if v.Kind != unit.Number {
		return 0, ev.wrong(n, what, unit.Number, v.Kind, ev.bareDivisor(n))
	}
	whole := math.Round(v.X)
	switch {
	case math.Abs(v.X-whole) > countSlack:
		ev.List.Errorf(n.Pos(), "%s is a whole number, and this is %s", subject(what), unit.FormatNumber(v.X, 1e-6))
	case whole < float64(least):
		ev.List.Errorf(n.Pos(), "%s is at least %d, and this is %s", subject(what), least, unit.FormatNumber(whole, 1))
	case whole > float64(most):
		ev.List.Errorf(n.Pos(), "%s is more than %d, the limit", subject(what), most)
	default:
		return int(whole), true
	}
	return 0, false
}

// bareDivisor returns the hint for a count that came out as a length because a bare number was divided by.
func (ev *Evaluator) bareDivisor(n notation.Node) string {
	for {
		p, ok := n.(*notation.Paren)
		if !ok {
			break
		}
		n = p.X
	}
	b, ok := n.(*notation.Binary)
	if !ok || b.Op != '/' {
		return ""
	}
	const why = "a length divided by a bare number is a length: write `"
	switch y := b.Y.(type) {
	case *notation.Quantity:
		if y.Value.Kind == unit.Number {
			return why + unit.FormatNumber(y.Value.X, 0) + ev.Units.String() + "`"
		}
	case *notation.Ref:
		l := ev.lets[y.Name]
		if l != nil && l.cell.state == done && l.cell.value.Kind == unit.Number {
			return why + "let " + y.Name + " = " + unit.FormatNumber(l.cell.value.X, 0) + ev.Units.String() + "`"
		}
	}
	return ""
}

func (ev *Evaluator) wrong(n notation.Node, what string, want, got unit.Kind, hint string) bool {
	message := "a " + want.String()
	switch want {
	case unit.Number, unit.Angle:
		message = article(want)
	}
	if what == "" {
		message += " is wanted here, and this is " + article(got)
	} else {
		message = "`" + what + "` wants " + message + ", and this is " + article(got)
	}
	ev.say(n.Pos(), problem{message, hint})
	return false
}

func subject(what string) string {
	if what == "" {
		return "this"
	}
	return "`" + what + "`"
}

// Want works out an expression of which one kind is wanted.
func (ev *Evaluator) Want(n notation.Node, kind unit.Kind, what string) (unit.Value, bool) {
	var x float64
	var ok bool
	switch kind {
	case unit.Length:
		x, ok = ev.Length(n, what)
	case unit.Angle:
		x, ok = ev.Angle(n, what)
	case unit.Slope:
		x, ok = ev.Slope(n, what)
	default:
		v, fine := ev.Value(n)
		if fine && v.Kind != kind {
			hint := ""
			if kind == unit.Pixels && v.Kind == unit.Number {
				hint = "write `" + unit.FormatNumber(v.X, 0) + "px`"
			}
			fine = ev.wrong(n, what, kind, v.Kind, hint)
		}
		x, ok = v.X, fine
	}
	return unit.Value{Kind: kind, X: x}, ok
}

// Show returns a length as people of this set read it.
func (ev *Evaluator) Show(mm float64) string {
	return unit.FormatMeasure(mm, ev.Units, 0.1)
}
