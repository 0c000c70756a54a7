package unit

import (
	"fmt"
	"strconv"
	"unicode"
	"unicode/utf8"
)

// MaxDigits is how many digits a number may have.
const MaxDigits = 40

// ScanError says what is wrong with a quantity: Length bytes from Offset in the text that was scanned, a
// message, and what would mend it where that is known.
type ScanError struct {
	Offset, Length int
	Message, Hint  string
}

func (e *ScanError) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + "; " + e.Hint
}

// ScanQuantity reads the quantity that text begins with: digits with at most one decimal point and no sign, and
// the unit that touches them.
//
//	2400  2400mm  240cm  2.4m  18in  6ft  18"  6'  7'6"  7'-6 1/2"  3/4"  6 1/2"     lengths
//	22.5deg  22.5°     angles          1:12     slopes
//	38kg  85lb         weights         620kg/m3  38lb/ft3     densities        1px     pixels
//
// ′ ’ are read as feet, ″ ” as inches. n is how many bytes belong to the quantity, also to a broken one. bare is
// true for a plain number, whose Kind is Number: only the reader knows whether it stands for a length. The error
// is a *ScanError.
func ScanQuantity(text []byte) (v Value, bare bool, n int, err error) {
	if x, n, ok := scanPlain(text); ok {
		return Value{Number, x}, true, n, nil
	}
	s := scanner{text: text}
	v, bare = s.quantity()
	if s.err != nil {
		return Value{}, false, max(s.at, s.err.Offset+s.err.Length), s.err
	}
	return v, bare, s.at, nil
}

// exactDigits is how many decimal digits always fit a float64's 53 bits.
const exactDigits = 15

var powersOfTen = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// scanPlain reads the numbers that long lists are made of: few digits, and after them what cannot be a unit.
// A quotient of two whole numbers that are exact in float64 is rounded once, so it equals strconv's answer.
func scanPlain(text []byte) (x float64, n int, ok bool) {
	var mantissa uint64
	i, point := 0, -1
	for ; i < len(text); i++ {
		c := text[i] - '0'
		if c <= 9 {
			mantissa = mantissa*10 + uint64(c)
			if i > exactDigits {
				return 0, 0, false
			}
			continue
		}
		if text[i] != '.' || point >= 0 {
			break
		}
		point = i
	}
	digits := i
	if point >= 0 {
		digits--
	}
	if digits == 0 || digits > exactDigits || point == 0 || point == i-1 {
		return 0, 0, false
	}
	if i < len(text) {
		switch text[i] {
		case ',', ')', '\n', '\r', '*', '+', '#':
		case ' ', '\t':
			if point < 0 && fractionFollows(text[i:]) {
				return 0, 0, false
			}
		default:
			return 0, 0, false
		}
	}
	x = float64(mantissa)
	if point >= 0 {
		x /= powersOfTen[i-point-1]
	}
	return x, i, true
}

// fractionFollows reports whether spaces and a fraction's first half stand at the start of text, as after the 6 of 6 1/2".
func fractionFollows(text []byte) bool {
	i := skipBlanks(text, 0)
	d := i
	for i < len(text) && isDigit(text[i]) {
		i++
	}
	return i > d && i < len(text) && text[i] == '/'
}

// scanner reads one quantity; at moves on, err is the first thing that is wrong.
type scanner struct {
	text []byte
	at   int
	err  *ScanError
}

func (s *scanner) fail(from, to int, message, hint string) {
	if s.err == nil {
		s.err = &ScanError{Offset: from, Length: to - from, Message: message, Hint: hint}
	}
}

// number is a run of digits with at most one decimal point.
type number struct {
	word    string
	x       float64
	decimal bool
}

func (s *scanner) number() number {
	from := s.at
	var points, digits int
	for s.at < len(s.text) {
		c := s.text[s.at]
		if c == '.' {
			// `7..10` is a range of two numbers, not a number with two points.
			if s.byteAt(s.at+1) == '.' {
				break
			}
			points++
		} else if isDigit(c) {
			digits++
		} else {
			break
		}
		s.at++
	}
	word := string(s.text[from:s.at])
	switch {
	case digits == 0:
		s.fail(from, s.at, "a number is wanted here", "")
	case digits > MaxDigits:
		s.fail(from, s.at, fmt.Sprintf("a number has at most %d digits, this one has %d", MaxDigits, digits), "")
	case points > 1:
		s.fail(from, s.at, "a number has one decimal point", "")
	case word[0] == '.':
		s.fail(from, s.at, "a digit stands before the decimal point", fmt.Sprintf("write `0%s`", word))
	case word[len(word)-1] == '.':
		s.fail(from, s.at, "a digit is missing after the decimal point", fmt.Sprintf("write `%s` or `%s0`", word[:len(word)-1], word))
	}
	if s.err != nil {
		return number{}
	}
	x, err := strconv.ParseFloat(word, 64)
	if err != nil {
		s.fail(from, s.at, "this is not a number", "")
	}
	return number{word, x, points > 0}
}

func (s *scanner) quantity() (Value, bool) {
	first := s.number()
	if s.err != nil {
		return Value{}, false
	}
	after := s.at
	if n := s.mark(after, footMarks[:]); n > 0 {
		s.at += n
		return s.feet(first), false
	}
	if n := s.inchMark(after); n > 0 {
		s.at += n
		return Value{Length, inches(first.x)}, false
	}
	switch c := s.byteAt(after); {
	case c == ':' && isDigit(s.byteAt(after+1)):
		return s.slope(first), false
	case c == '/' && !first.decimal:
		if f, end, ok := s.fraction(0); ok {
			s.at = end
			s.checkFraction(f, 0, end)
			return Value{Length, inches(f.x)}, false
		}
	case c == '-' && !first.decimal:
		if _, end, ok := s.fraction(after + 1); ok {
			whole, part := s.text[:after], s.text[after+1:end]
			s.fail(0, end, "whole inches and a fraction have a space between them",
				fmt.Sprintf("write `%s %s`, or `%s - %s` for a subtraction", whole, part, whole, part))
			return Value{}, false
		}
	case (c == ' ' || c == '\t') && !first.decimal:
		from := skipBlanks(s.text, after)
		if f, end, ok := s.fraction(from); ok {
			s.at = end
			s.checkPart(f, from, end)
			return Value{Length, inches(first.x + f.x)}, false
		}
	}
	if s.unitStarts(after) {
		return s.unit(first), false
	}
	return Value{Number, first.x}, true
}

// feet reads what follows a foot mark: nothing, or inches after a hyphen or straight away.
func (s *scanner) feet(feet number) Value {
	mark := s.at
	from := mark
	if s.byteAt(from) == '-' {
		from++
	}
	if s.mark(mark, footMarks[:]) > 0 {
		s.fail(0, mark+s.mark(mark, footMarks[:]), "inches are written with an inch mark, not with two foot marks",
			fmt.Sprintf("write `%s\"`", strconv.FormatFloat(feet.x, 'f', -1, 64)))
		return Value{}
	}
	if !isDigit(s.byteAt(from)) {
		return Value{Length, inches(12 * feet.x)}
	}
	s.at = from
	in := s.number()
	if s.err != nil {
		return Value{}
	}
	whole := s.text[:mark]
	if f, end, ok := s.fraction(from); ok && !in.decimal {
		s.at = end
		s.checkPart(f, from, end)
		in.x = f.x
	} else if at := skipBlanks(s.text, s.at); at > s.at && !in.decimal {
		if f, end, ok := s.fraction(at); ok {
			s.at = end
			s.checkPart(f, at, end)
			in.x += f.x
		} else {
			s.needInchMark(whole, from)
		}
	} else if n := s.inchMark(s.at); n > 0 {
		s.at += n
	} else {
		s.needInchMark(whole, from)
	}
	switch {
	case s.err != nil:
		return Value{}
	case feet.decimal:
		s.fail(0, s.at, "feet that inches follow are whole feet", "")
	case in.x >= 12:
		s.fail(from, s.at, "inches after feet are less than 12", fmt.Sprintf("write `%s` if they are to be added, `%s - %s` for a subtraction",
			AppendLength(nil, inches(12*feet.x+in.x), Inch, 25.4/64), whole, s.text[from:s.at]))
	}
	return Value{Length, inches(12*feet.x + in.x)}
}

// needInchMark accepts the inch mark at s.at or says that it is missing.
func (s *scanner) needInchMark(feet []byte, from int) {
	if n := s.inchMark(s.at); n > 0 {
		s.at += n
		return
	}
	inches := s.text[from:s.at]
	s.fail(from, s.at, "the inch mark is missing after the inches",
		fmt.Sprintf("write `%s-%s\"` for feet and inches, `%s - %s` for a subtraction", feet, inches, feet, inches))
}

// inches returns x inches in millimetres. Tenths are divided out last, so that 18" is the 457.2 that people compare it with.
func inches(x float64) float64 { return x * 254 / 10 }

func (s *scanner) slope(rise number) Value {
	s.at++
	from := s.at
	run := s.number()
	switch {
	case s.err != nil:
		return Value{}
	case run.x == 0:
		s.fail(from, s.at, "the run of a slope is more than 0", "")
	case s.unitStarts(s.at) || s.inchMark(s.at) > 0 || s.mark(s.at, footMarks[:]) > 0:
		s.fail(0, s.at, "a slope is two plain numbers", "write `1:12`")
	}
	return Value{Slope, rise.x / run.x}
}

// fraction reads digits/digits and an inch mark at i and returns the fraction in inches and its end.
func (s *scanner) fraction(i int) (f number, end int, ok bool) {
	top, i := s.digits(i)
	if top < 0 || s.byteAt(i) != '/' {
		return number{}, 0, false
	}
	bottom, i := s.digits(i + 1)
	n := 0
	if bottom >= 0 {
		n = s.inchMark(i)
	}
	if n == 0 {
		return number{}, 0, false
	}
	return number{x: top / bottom}, i + n, true
}

// digits reads a whole number at i; it is −1 where there is none or it is too long to be part of a fraction.
func (s *scanner) digits(i int) (float64, int) {
	from, x := i, 0.0
	for i < len(s.text) && isDigit(s.text[i]) {
		x = x*10 + float64(s.text[i]-'0')
		i++
	}
	if i == from || i-from > exactDigits {
		return -1, i
	}
	return x, i
}

func (s *scanner) checkFraction(f number, from, end int) {
	if f.x != f.x || f.x > 1e15 {
		s.fail(from, end, "a fraction's lower number is more than 0", "")
	}
}

// checkPart checks a fraction that follows whole inches or feet.
func (s *scanner) checkPart(f number, from, end int) {
	s.checkFraction(f, from, end)
	if f.x >= 1 {
		s.fail(from, end, "the fraction after whole inches or feet is less than 1", "")
	}
}

var (
	footMarks = [...]string{"'", "′", "’"}
	inchMarks = [...]string{`"`, "″", "”"}
)

// mark returns the length of the mark at i, 0 for none.
func (s *scanner) mark(i int, marks []string) int {
	if i >= len(s.text) {
		return 0
	}
	for _, m := range marks {
		if len(s.text)-i >= len(m) && string(s.text[i:i+len(m)]) == m {
			return len(m)
		}
	}
	return 0
}

// inchMark returns the length of an inch mark or the word `in` at i, 0 for neither.
func (s *scanner) inchMark(i int) int {
	if n := s.mark(i, inchMarks[:]); n > 0 {
		return n
	}
	if s.byteAt(i) == 'i' && s.byteAt(i+1) == 'n' && !s.unitStarts(i+2) && !isDigit(s.byteAt(i+2)) {
		return 2
	}
	return 0
}

func (s *scanner) byteAt(i int) byte {
	if i < len(s.text) {
		return s.text[i]
	}
	return 0
}

// unitStarts reports whether a letter, or a sign that people write as a unit, stands at i.
func (s *scanner) unitStarts(i int) bool {
	if i >= len(s.text) {
		return false
	}
	r, _ := utf8.DecodeRune(s.text[i:])
	return isUnitRune(r)
}

func isUnitRune(r rune) bool {
	return r == '_' || r == '°' || r == '%' || r != utf8.RuneError && (unicode.IsLetter(r) || unicode.Is(unicode.No, r))
}

func isDigit(c byte) bool { return c-'0' <= 9 }

func skipBlanks(text []byte, i int) int {
	for i < len(text) && (text[i] == ' ' || text[i] == '\t') {
		i++
	}
	return i
}
