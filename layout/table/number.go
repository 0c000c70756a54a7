package table

import (
	"math"

	"markout/layout/unit"
)

// AppendNumber writes x for programs: at most Decimals decimals, trailing zeros dropped, never "-0", a minus sign where
// it is negative. What is not a finite number writes nothing.
func (c Column) AppendNumber(dst []byte, x float64) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return dst
	}
	return unit.AppendNumber(dst, x, math.Pow10(-max(c.Decimals, 0)))
}

// ForPrograms returns the columns that CSV and JSON carry, as indices into Columns.
func (t *Table) ForPrograms() []int {
	out := make([]int, 0, len(t.Columns))
	for i, c := range t.Columns {
		if !c.PeopleOnly {
			out = append(out, i)
		}
	}
	return out
}
