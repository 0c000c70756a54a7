package unit

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Pound is one avoirdupois pound in kilograms, exactly (NIST SP 811, appendix B).
const Pound = 0.45359237

// cubicFoot is one cubic foot in cubic metres, exactly.
const cubicFoot = 0.3048 * 0.3048 * 0.3048

// named is a unit as it is written after a number.
type named struct {
	kind   Kind
	factor float64
}

var units = map[string]named{
	"mm": {Length, 1}, "cm": {Length, 10}, "m": {Length, 1000}, "in": {Length, 25.4}, "ft": {Length, 304.8},
	"deg": {Angle, 1}, "°": {Angle, 1},
	"kg": {Weight, 1}, "lb": {Weight, Pound},
	"kg/m3": {Density, 1}, "kg/m³": {Density, 1}, "lb/ft3": {Density, Pound / cubicFoot}, "lb/ft³": {Density, Pound / cubicFoot},
	"px": {Pixels, 1},
}

// IsUnit reports whether a word is a unit, so that a reader can say that a unit touches its number.
func IsUnit(word string) bool { _, ok := units[word]; return ok }

// meant lists what people write for a unit, with the unit it is and how many of that unit one is.
var meant = map[string]struct {
	unit   string
	factor float64
}{
	"millimetre": {"mm", 1}, "millimetres": {"mm", 1}, "millimeter": {"mm", 1}, "millimeters": {"mm", 1}, "mil": {"mm", 1}, "mils": {"mm", 1},
	"centimetre": {"cm", 1}, "centimetres": {"cm", 1}, "centimeter": {"cm", 1}, "centimeters": {"cm", 1}, "cms": {"cm", 1}, "dm": {"cm", 10},
	"metre": {"m", 1}, "metres": {"m", 1}, "meter": {"m", 1}, "meters": {"m", 1}, "mtr": {"m", 1}, "mtrs": {"m", 1}, "km": {"m", 1000},
	"inch": {"in", 1}, "inches": {"in", 1}, "ins": {"in", 1},
	"foot": {"ft", 1}, "feet": {"ft", 1}, "fts": {"ft", 1}, "yd": {"ft", 3}, "yds": {"ft", 3}, "yard": {"ft", 3}, "yards": {"ft", 3},
	"degree": {"deg", 1}, "degrees": {"deg", 1}, "degs": {"deg", 1}, "º": {"deg", 1}, "rad": {"deg", 57.29577951308232}, "grad": {"deg", 0.9}, "gon": {"deg", 0.9},
	"kgs": {"kg", 1}, "kilo": {"kg", 1}, "kilos": {"kg", 1}, "kilogram": {"kg", 1}, "kilograms": {"kg", 1},
	"g": {"kg", 0.001}, "gr": {"kg", 0.001}, "gram": {"kg", 0.001}, "grams": {"kg", 0.001}, "t": {"kg", 1000}, "tonne": {"kg", 1000}, "tonnes": {"kg", 1000},
	"lbs": {"lb", 1}, "pound": {"lb", 1}, "pounds": {"lb", 1}, "oz": {"lb", 0.0625}, "st": {"lb", 14}, "stone": {"lb", 14},
	"pixel": {"px", 1}, "pixels": {"px", 1},
}

const unitsKnown = "units are mm, cm, m, in, ft, ' and \" for lengths, deg or ° for angles, kg and lb for weights"

// unit reads the unit that touches a number.
func (s *scanner) unit(x number) Value {
	from := s.at
	for s.at < len(s.text) {
		r, n := utf8.DecodeRune(s.text[s.at:])
		if !isUnitRune(r) && !(s.at > from && isDigit(s.text[s.at])) {
			break
		}
		s.at += n
		if r == '°' {
			break
		}
	}
	word := string(s.text[from:s.at])
	if word == "kg" || word == "lb" {
		if n := s.perVolume(s.at, word); n > 0 {
			s.at += n
			word = string(s.text[from:s.at])
		}
	}
	if u, ok := units[word]; ok {
		return Value{u.kind, scaled(x, word, u.factor)}
	}
	s.unknown(x, from, word)
	return Value{}
}

// scaled returns a number of the unit word in the kind's inside unit, rounded once: a decimal shift is made in the digits.
func scaled(x number, word string, factor float64) float64 {
	shift := ""
	switch word {
	case "cm":
		shift = "e1"
	case "m":
		shift = "e3"
	case "in":
		return inches(x.x)
	case "ft":
		return inches(12 * x.x)
	default:
		return x.x * factor
	}
	y, err := strconv.ParseFloat(x.word+shift, 64)
	if err != nil {
		return x.x * factor
	}
	return y
}

// perVolume returns the length of `/m3` or `/ft3` at i, 0 for neither.
func (s *scanner) perVolume(i int, weight string) int {
	per := [...]string{"/m3", "/m³"}
	if weight == "lb" {
		per = [...]string{"/ft3", "/ft³"}
	}
	for _, w := range per {
		if strings.HasPrefix(string(s.text[min(i, len(s.text)):min(i+len(w), len(s.text))]), w) &&
			!s.unitStarts(i+len(w)) && !isDigit(s.byteAt(i+len(w))) {
			return len(w)
		}
	}
	return 0
}

// unknown says what is wrong with a word that is no unit.
func (s *scanner) unknown(x number, from int, word string) {
	typed := string(s.text[:from])
	lower := strings.ToLower(word)
	message, hint := fmt.Sprintf("`%s` is not a unit", word), unitsKnown
	m, ok := meant[lower]
	switch rest := strings.TrimPrefix(lower, "e"); {
	case lower == "e" || lower != rest && strings.Trim(rest, "0123456789") == "":
		message, hint = "a number has no exponent", "write its digits out"
		s.skipExponent()
	case units[lower].factor != 0:
		hint = fmt.Sprintf("write `%s%s`", typed, lower)
	case ok && m.factor == 1:
		hint = fmt.Sprintf("write `%s%s`", typed, m.unit)
	case ok:
		hint = fmt.Sprintf("write `%s%s`", strconv.FormatFloat(x.x*m.factor, 'f', -1, 64), m.unit)
	case strings.HasPrefix(lower, "x") || sizeUnit(lower):
		message, hint = "a size has spaces around its `x`", "write `1200 x 2400`"
	case strings.ContainsAny(word, "½¼¾⅛⅜⅝⅞⅓⅔"):
		message, hint = "fractions are written with digits", "write `6 1/2\"`"
	}
	s.fail(from, s.at, message, hint)
}

// skipExponent takes a signed exponent into the broken number, so that it is reported once.
func (s *scanner) skipExponent() {
	i := s.at
	if s.byteAt(i) == '-' || s.byteAt(i) == '+' {
		i++
	}
	for isDigit(s.byteAt(i)) {
		i++
		s.at = i
	}
}

// sizeUnit reports whether word is a unit run together with an x, as in 1200mmx2400mm.
func sizeUnit(word string) bool {
	unit, _, ok := strings.Cut(word, "x")
	return ok && units[unit].factor != 0
}
