package eval

import (
	"math"

	"markout/layout/unit"
)

// Furthest is the greatest length and the greatest coordinate in millimetres: 10 km.
const Furthest = 1e7

// problem is what is wrong with an operation: a message and, where it is known, what would mend it.
type problem struct{ message, hint string }

// combine works out x op y with op one of + − * /. Kinds:
//
//	plain ± plain, and any kind ± the same kind, keep their kind
//	a length ± a plain number: the plain number counts in the set's unit
//	a plain number times anything is that thing; length × length is an area; slope × length is a length
//	anything ÷ a plain number is that thing; a kind ÷ itself is a plain number; area ÷ length and length ÷ slope are lengths
//
// Everything else is a problem that names both kinds.
func combine(op byte, x, y unit.Value, units unit.System) (unit.Value, problem) {
	switch op {
	case '+', '-':
		kind := x.Kind
		switch {
		case x.Kind == y.Kind:
		case x.Kind == unit.Length && y.Kind == unit.Number:
			y.X *= units.Factor()
		case x.Kind == unit.Number && y.Kind == unit.Length:
			x.X *= units.Factor()
			kind = unit.Length
		default:
			done := "added"
			if op == '-' {
				done = "subtracted"
			}
			return unit.Value{}, problem{message: article(x.Kind) + " and " + article(y.Kind) + " cannot be " + done, hint: unitHint(x, y)}
		}
		if op == '-' {
			y.X = -y.X
		}
		return unit.Value{Kind: kind, X: x.X + y.X}, problem{}
	case '*':
		kind, ok := product(x.Kind, y.Kind)
		if !ok {
			return unit.Value{}, problem{message: article(x.Kind) + " times " + article(y.Kind) + " is nothing that can be measured"}
		}
		return unit.Value{Kind: kind, X: x.X * y.X}, problem{}
	}
	kind, ok := quotient(x.Kind, y.Kind)
	switch {
	case !ok && x.Kind == unit.Number && y.Kind == unit.Length:
		return unit.Value{}, problem{"a plain number cannot be divided by a length",
			"a count needs a unit on both: write `" + unit.FormatNumber(x.X, 0) + units.String() + "`"}
	case !ok:
		return unit.Value{}, problem{message: article(x.Kind) + " cannot be divided by " + article(y.Kind)}
	case y.X == 0:
		return unit.Value{}, problem{message: "this divides by zero"}
	}
	return unit.Value{Kind: kind, X: x.X / y.X}, problem{}
}

func product(x, y unit.Kind) (unit.Kind, bool) {
	switch {
	case x == unit.Number:
		return y, true
	case y == unit.Number:
		return x, true
	case x == unit.Length && y == unit.Length:
		return unit.Area, true
	case x == unit.Slope && y == unit.Length, x == unit.Length && y == unit.Slope:
		return unit.Length, true
	}
	return 0, false
}

func quotient(x, y unit.Kind) (unit.Kind, bool) {
	switch {
	case y == unit.Number:
		return x, true
	case x == y:
		return unit.Number, true
	case x == unit.Area && y == unit.Length, x == unit.Length && y == unit.Slope:
		return unit.Length, true
	}
	return 0, false
}

// beyond says which limit a value breaks, empty for none.
func beyond(v unit.Value) string {
	switch {
	case math.IsNaN(v.X) || math.IsInf(v.X, 0):
		return "this is more than `markout` reckons with; the limit of lengths is 10 km"
	case v.Kind == unit.Length && math.Abs(v.X) > Furthest*(1+1e-12):
		return "this is more than 10 km, the limit"
	}
	return ""
}

// article returns a kind's name with its article.
func article(k unit.Kind) string {
	switch k {
	case unit.Number:
		return "a plain number"
	case unit.Angle, unit.Area:
		return "an " + k.String()
	}
	return "a " + k.String()
}

// unitHint tells how to write a bare number beside an angle.
func unitHint(x, y unit.Value) string {
	for _, v := range [...][2]unit.Value{{x, y}, {y, x}} {
		if v[0].Kind == unit.Number && v[1].Kind == unit.Angle {
			return "write `" + unit.FormatNumber(v[0].X, 0) + "deg`"
		}
	}
	return ""
}
