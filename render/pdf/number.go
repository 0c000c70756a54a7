package pdf

import (
	"math"
	"strconv"
)

// perMillimetre is how many units of a page's content one millimetre has.
const perMillimetre = 1000

// pointsPerMillimetre is exact by the definitions of the inch and of PDF's unit, 1/72 inch.
const pointsPerMillimetre = 72 / 25.4

// furthest keeps numbers inside what every reader takes for an integer, 2³¹ − 1 (ISO 32000-1, annex C).
const furthest = 2e9

// units returns millimetres in whole micrometres. Halves go up wherever they stand, so that equal lengths stay equal.
// What is no number is 0.
func units(mm float64) int64 {
	v := math.Floor(mm*perMillimetre + 0.5)
	if v >= -furthest && v <= furthest {
		return int64(v)
	}
	switch {
	case v > furthest:
		return furthest
	case v < -furthest:
		return -furthest
	}
	return 0
}

// appendReal appends v with at most the given decimals, without zeros that say nothing.
func appendReal(b []byte, v float64, decimals int) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(b, '0')
	}
	from := len(b)
	b = strconv.AppendFloat(b, v, 'f', decimals, 64)
	if decimals > 0 {
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
		if b[len(b)-1] == '.' {
			b = b[:len(b)-1]
		}
	}
	s := b[from:]
	if string(s) == "-0" {
		return append(b[:from], '0')
	}
	sign := 0
	if s[0] == '-' {
		sign = 1
	}
	if len(s) > sign+1 && s[sign] == '0' && s[sign+1] == '.' { // .5 for 0.5
		copy(s[sign:], s[sign+1:])
		b = b[:len(b)-1]
	}
	return b
}

// appendInt appends v and a space.
func appendInt(b []byte, v int64) []byte {
	return append(strconv.AppendInt(b, v, 10), ' ')
}
