package unit

import (
	"math"
	"strconv"
)

// Sixteenth is the step to which lengths in feet and inches are printed, in millimetres.
const Sixteenth = 25.4 / 16

// Round returns x rounded to a multiple of step, halves away from zero; a step of 0 or less leaves x as it is. Of a step such as
// 0.1 it is the number that is nearest to the decimal figure, so that it prints as that.
func Round(x, step float64) float64 {
	if step <= 0 {
		return x
	}
	n := math.Round(x / step)
	if parts := math.Round(1 / step); step < 1 && math.Abs(parts*step-1) <= 1e-12 {
		return n / parts
	}
	return n * step
}

// AppendNumber appends x rounded to a multiple of step, without trailing zeros and never as -0. A step of 0 or
// less prints the fewest digits that give x back.
func AppendNumber(dst []byte, x, step float64) []byte {
	return appendScaled(dst, x, step, 0)
}

// FormatNumber is AppendNumber as a string.
func FormatNumber(x, step float64) string { return string(AppendNumber(nil, x, step)) }

// AppendLength appends a length for people. In mm, cm or m it is a plain number of that unit, rounded to a multiple
// of step millimetres, without trailing zeros: 1087, 0.5. In inches or feet it is feet and inches, 7'-6 1/2", 7'-0", 1/2",
// 0", to 1/16" unless step is another halving of the inch (25.4, 12.7 … 25.4/64).
func AppendLength(dst []byte, mm float64, sys System, step float64) []byte {
	if sys.Imperial() {
		return appendFeet(dst, mm, halving(step))
	}
	return appendScaled(dst, mm, step, metricPlaces[sys])
}

// FormatLength is AppendLength as a string.
func FormatLength(mm float64, sys System, step float64) string {
	return string(AppendLength(nil, mm, sys, step))
}

// AppendMeasure appends a length as AppendLength does, with the unit's word after a metric one: 150 mm, 7'-6".
func AppendMeasure(dst []byte, mm float64, sys System, step float64) []byte {
	dst = AppendLength(dst, mm, sys, step)
	if sys.Imperial() {
		return dst
	}
	return append(append(dst, ' '), sys.String()...)
}

// FormatMeasure is AppendMeasure as a string.
func FormatMeasure(mm float64, sys System, step float64) string {
	return string(AppendMeasure(nil, mm, sys, step))
}

// FormatArea returns an area in square metres to 0.01, or in square feet to 0.1: 18.43 m², 198.4 sq ft.
func FormatArea(mm2 float64, sys System) string {
	area, step, name := mm2/1e6, 0.01, " m²"
	if sys.Imperial() {
		area, step, name = mm2/(304.8*304.8), 0.1, " sq ft"
	}
	if math.Abs(area) < 10*step { // a post's footprint is not nothing
		step /= 100
	}
	return FormatNumber(area, step) + name
}

// AppendAngle appends an angle rounded to a multiple of step degrees: 22.5°.
func AppendAngle(dst []byte, degrees, step float64) []byte {
	return append(AppendNumber(dst, degrees, step), "°"...)
}

// FormatAngle is AppendAngle as a string.
func FormatAngle(degrees, step float64) string { return string(AppendAngle(nil, degrees, step)) }

// FormatWeight returns a weight in kilograms, or in pounds for people who work in feet and inches, rounded to a multiple of
// step of the printed unit: 38 kg, 84 lb.
func FormatWeight(kg float64, sys System, step float64) string {
	if sys.Imperial() {
		return FormatNumber(kg/Pound, step) + " lb"
	}
	return FormatNumber(kg, step) + " kg"
}

// FormatSlope returns a slope as one in so much, to 0.1: 1:8. Level is `level`; a slope down has a minus sign.
func FormatSlope(slope float64) string {
	switch {
	case slope == 0 || math.IsNaN(slope):
		return "level"
	case slope < 0:
		return "-1:" + FormatNumber(-1/slope, 0.1)
	}
	return "1:" + FormatNumber(1/slope, 0.1)
}

// metricPlaces is how many decimal places lie between a millimetre and the unit.
var metricPlaces = [...]int{Millimetre: 0, Centimetre: 1, Metre: 3}

// appendScaled appends x/10^places, x rounded to step, without trailing zeros.
func appendScaled(dst []byte, x, step float64, places int) []byte {
	decimals, tenths := stepDecimals(step)
	whole := math.Round(x/step) * tenths
	if decimals < 0 || math.Abs(whole) > 1e15 || math.IsNaN(whole) {
		return appendExact(dst, Round(x, step)/powersOfTen[places])
	}
	n := int64(math.Round(whole))
	decimals += places
	if n < 0 {
		dst = append(dst, '-')
		n = -n
	}
	for decimals > 0 && n%10 == 0 {
		n /= 10
		decimals--
	}
	if decimals == 0 {
		return strconv.AppendInt(dst, n, 10)
	}
	power := int64(powersOfTen[decimals])
	dst = strconv.AppendInt(dst, n/power, 10)
	dst = append(dst, '.')
	part := n % power
	for power /= 10; power > 0; power /= 10 {
		dst = append(dst, '0'+byte(part/power%10))
	}
	return dst
}

func appendExact(dst []byte, x float64) []byte {
	if x == 0 {
		return append(dst, '0')
	}
	return strconv.AppendFloat(dst, x, 'f', -1, 64)
}

// stepDecimals returns how many decimals a multiple of step can have, and step as a whole number of the last of them;
// −1 where more than 6 would be needed or step is no step.
func stepDecimals(step float64) (decimals int, tenths float64) {
	if !(step > 0) {
		return -1, 0
	}
	for d := 0; d <= 6; d++ {
		t := step * powersOfTen[d]
		if r := math.Round(t); r >= 1 && math.Abs(t-r) < 1e-9*t {
			return d, r
		}
	}
	return -1, 0
}

// halving returns how many parts of an inch step is, 16 unless it is a halving of the inch down to 1/64.
func halving(step float64) int64 {
	for parts := int64(1); parts <= 64; parts *= 2 {
		if math.Abs(step*float64(parts)-25.4) < 1e-9 {
			return parts
		}
	}
	return 16
}

// appendFeet appends feet, inches and a reduced fraction, rounded to 1/parts of an inch (parts a power of two).
func appendFeet(dst []byte, mm float64, parts int64) []byte {
	x := math.Round(mm / 25.4 * float64(parts))
	if math.IsNaN(x) || math.Abs(x) > 1e15 {
		return append(appendExact(dst, mm/25.4), '"')
	}
	n := int64(x)
	if n < 0 {
		dst = append(dst, '-')
		n = -n
	}
	feet, rest := n/(12*parts), n%(12*parts)
	inches, top := rest/parts, rest%parts
	if feet > 0 {
		dst = strconv.AppendInt(dst, feet, 10)
		dst = append(dst, "'-"...)
	}
	whole := inches > 0 || top == 0 || feet > 0 // after feet a 0 stands, so that nobody reads 22'-7/8" as 22'-7"
	if whole {
		dst = strconv.AppendInt(dst, inches, 10)
	}
	if top > 0 {
		for top%2 == 0 {
			top, parts = top/2, parts/2
		}
		if whole {
			dst = append(dst, ' ')
		}
		dst = strconv.AppendInt(dst, top, 10)
		dst = append(dst, '/')
		dst = strconv.AppendInt(dst, parts, 10)
	}
	return append(dst, '"')
}
