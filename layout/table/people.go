package table

import (
	"math"
	"strings"

	"markout/layout/unit"
)

// ForPeople returns the cell as people read it: rounded to the column's step, in feet and inches where the table has them,
// a letter for the side of the centre line and of the setting line, and never a minus sign. Units stand in the heading
// (Heading), except the marks of feet and inches. An empty cell and a number that is not finite are empty.
func (t *Table) ForPeople(c Column, v Value) string {
	f := t.Figure(c, v)
	if f.Side == "" {
		return f.Whole + f.Part
	}
	return f.Whole + f.Part + " " + f.Side
}

// Figure is a cell for people in parts, so that figures under one another can be aligned on the unit.
type Figure struct {
	Whole string // up to the decimal point; all of a text, and of a length in feet and inches
	Part  string // the decimal point and what follows it
	Side  string // L, R, U, D, below
}

// Figure returns the cell as ForPeople has it, in parts.
func (t *Table) Figure(c Column, v Value) Figure {
	if !v.Set {
		return Figure{}
	}
	if c.Kind == Text || c.Kind == Flag || v.Text != "" {
		if c.Kind == Flag && v.Text == "" && v.X != 0 {
			return Figure{Whole: "yes"}
		}
		return Figure{Whole: v.Text}
	}
	if math.IsNaN(v.X) || math.IsInf(v.X, 0) {
		return Figure{}
	}
	s := t.figure(c, v.X)
	f := Figure{Whole: s}
	if at := strings.IndexByte(s, '.'); at >= 0 {
		f.Whole, f.Part = s[:at], s[at:]
	}
	if s != "0" && s != `0"` { // what is rounded to nothing has no side
		plus, minus := t.sides(c.Kind)
		f.Side = plus
		if v.X < 0 {
			f.Side = minus
		}
	}
	return f
}

// figure returns the cell's figure without its sign.
func (t *Table) figure(c Column, x float64) string {
	step := c.step()
	switch c.Kind {
	case Count:
		step = 1
	case Angle:
		if x = unit.Round(math.Mod(x, 360), step); x < 0 {
			x += 360
		}
	case Tilt, Round: // the side is said in words
	case Weight:
		if t.Feet {
			x /= unit.Pound
		}
	case Area:
		if t.Feet {
			x /= squareFoot
		}
	default:
		if t.Feet {
			if step = unit.Sixteenth; c.Step > 0 && c.Step < fine {
				step = unit.Sixteenth / 4
			}
			return unit.FormatLength(math.Abs(x), unit.Foot, step)
		}
	}
	return unit.FormatNumber(math.Abs(x), step)
}

// sides returns the words for a figure above and below nothing.
func (t *Table) sides(k Kind) (plus, minus string) {
	switch k {
	case X:
		if t.Sides.Plus == "" && t.Sides.Minus == "" {
			return "plan-right", "plan-left"
		}
		return t.Sides.Plus, t.Sides.Minus
	case Y:
		return "U", "D"
	case Level:
		return "", "below"
	case Angle:
		return "", ""
	case Tilt:
		return "up", "down"
	case Round:
		return "to its left", "to its right"
	}
	return "", "less"
}

// Heading returns the column's heading with the unit that its figures are in: "Distance 1 (mm)".
func (t *Table) Heading(c Column) string {
	u := t.unit(c.Kind)
	if u == "" {
		return c.Heading
	}
	return c.Heading + " (" + u + ")"
}

// squareFoot in square metres.
const squareFoot = 0.3048 * 0.3048

func (t *Table) unit(k Kind) string {
	switch k {
	case X, Y, Length, Level:
		if t.Feet {
			return "" // the figures carry their marks
		}
		return "mm"
	case Angle, Tilt, Round:
		return "°"
	case Weight:
		if t.Feet {
			return "lb"
		}
		return "kg"
	case Area:
		if t.Feet {
			return "sq ft"
		}
		return "m²"
	}
	return ""
}

// step is what people's figures are rounded to.
func (c Column) step() float64 {
	if c.Step > 0 {
		return c.Step
	}
	return math.Pow10(-max(c.Decimals, 0))
}

// fine is the step in millimetres below which a column in feet and inches is printed to 1/64": differences and errors.
const fine = 0.5
