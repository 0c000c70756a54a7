package artwork

import (
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
)

// mostNumber is the greatest number that is taken from a file. Sums and products of two stay exact enough to
// be checked against geom.MostCoordinate.
const mostNumber = 1e12

// scanner reads the small languages inside attributes. at is the next byte.
type scanner struct {
	text string
	at   int
}

func (s *scanner) done() bool { return s.at >= len(s.text) }

func isSpace(c byte) bool {
	return c == ' ' || c == '\t' || c == '\n' || c == '\f' || c == '\r'
}

func (s *scanner) space() {
	for !s.done() && isSpace(s.text[s.at]) {
		s.at++
	}
}

// comma skips white space with at most one comma in it.
func (s *scanner) comma() {
	s.space()
	if s.take(',') {
		s.space()
	}
}

// take skips the byte c where it is next.
func (s *scanner) take(c byte) bool {
	if s.done() || s.text[s.at] != c {
		return false
	}
	s.at++
	return true
}

// word reads letters, digits and hyphens.
func (s *scanner) word() string {
	from := s.at
	for !s.done() {
		c := s.text[s.at]
		if c|0x20 < 'a' || c|0x20 > 'z' {
			if c != '-' && (c < '0' || c > '9') {
				break
			}
		}
		s.at++
	}
	return s.text[from:s.at]
}

func (s *scanner) digits() int {
	from := s.at
	for !s.done() && s.text[s.at] >= '0' && s.text[s.at] <= '9' {
		s.at++
	}
	return s.at - from
}

// number reads a number by the grammar that SVG and CSS share: no names, no hexadecimal digits. ok is false
// where there is none, or one beyond mostNumber, and then nothing is read.
func (s *scanner) number() (x float64, ok bool) {
	from := s.at
	if !s.take('+') {
		s.take('-')
	}
	count := s.digits()
	if point := s.at; s.take('.') {
		if n := s.digits(); n == 0 {
			s.at = point
		} else {
			count += n
		}
	}
	if count == 0 {
		s.at = from
		return 0, false
	}
	if e := s.at; s.take('e') || s.take('E') {
		if !s.take('+') {
			s.take('-')
		}
		if s.digits() == 0 { // the e of a unit
			s.at = e
		}
	}
	x, err := strconv.ParseFloat(s.text[from:s.at], 64)
	if err != nil || math.Abs(x) > mostNumber {
		s.at = from
		return 0, false
	}
	return x, true
}

// numbers reads a whole text as numbers between commas and white space. ok is false where something else
// stands in it; then the numbers before that are returned.
func numbers(text string) (xs []float64, ok bool) {
	s := scanner{text: text}
	s.space()
	for !s.done() {
		x, ok := s.number()
		if !ok {
			return xs, false
		}
		xs = append(xs, x)
		s.comma()
	}
	return xs, true
}

// length is a quantity in user units (pixels of CSS), or a share of the viewport.
type length struct {
	value   float64
	percent bool
}

// pixel is one pixel of CSS in millimetres: 1 inch is 96 of them (CSS Values and Units 3, section 5.2).
const pixel = 25.4 / 96

// unitSize returns how many pixels one of a unit is; em is the size of type in pixels.
func unitSize(unit string, em float64) (px float64, ok bool) {
	switch strings.ToLower(unit) {
	case "", "px":
		return 1, true
	case "mm":
		return 1 / pixel, true
	case "cm":
		return 10 / pixel, true
	case "q":
		return 0.25 / pixel, true
	case "in":
		return 96, true
	case "pt":
		return 96.0 / 72, true
	case "pc":
		return 16, true
	case "em":
		return em, true
	case "ex":
		return em / 2, true
	case "rem":
		return mediumType, true
	}
	return 0, false
}

// mediumType is the size of type that em counts from where none is given, in pixels.
const mediumType = 16

// length reads a length with its unit.
func (s *scanner) length(em float64) (length, bool) {
	x, ok := s.number()
	if !ok {
		return length{}, false
	}
	if s.take('%') {
		return length{x / 100, true}, true
	}
	px, ok := unitSize(s.word(), em)
	return length{value: x * px}, ok
}

// parseLength reads a whole text as one length.
func parseLength(text string, em float64) (length, bool) {
	s := scanner{text: strings.TrimSpace(text)}
	l, ok := s.length(em)
	return l, ok && s.done()
}

// viewport is the size that percentages are of, in user units.
type viewport struct{ w, h float64 }

// along returns a length of which the whole is so long.
func (l length) along(whole float64) float64 {
	if l.percent {
		return l.value * whole
	}
	return l.value
}

// diagonal is the whole of lengths that have no direction (SVG 2, section 8.9).
func (v viewport) diagonal() float64 { return math.Hypot(v.w, v.h) / math.Sqrt2 }

// inReach reports whether a place can be used.
func inReach(p geom.Point) bool {
	return math.Abs(p.X) <= geom.MostCoordinate && math.Abs(p.Y) <= geom.MostCoordinate
}
