package svg

import (
	"math"
	"strconv"
	"unicode/utf8"
)

func (pic *picture) put(s string) { pic.buf = append(pic.buf, s...) }

// number adds words and a length in millimetres, rounded to the picture's grid.
func (pic *picture) number(before string, mm float64) {
	pic.buf = appendStep(append(pic.buf, before...), pic.step(mm), pic.decimals)
}

// appendStep appends v steps, each 1 in the last of so many decimals, without zeros that say nothing.
func appendStep(b []byte, v int64, decimals int) []byte {
	if v < 0 {
		b, v = append(b, '-'), -v
	}
	unit := int64(math.Pow10(decimals))
	b = strconv.AppendInt(b, v/unit, 10)
	if rest := v % unit; rest != 0 {
		b = append(b, '.')
		for unit /= 10; rest != 0; unit /= 10 {
			b = append(b, byte('0'+rest/unit))
			rest %= unit
		}
	}
	return b
}

// appendFixed appends a number with at most the given decimals; 0 for what is no number.
func appendFixed(b []byte, v float64, decimals int) []byte {
	steps := math.Round(v * math.Pow10(decimals))
	if !(math.Abs(steps) < 1<<53) {
		return append(b, '0')
	}
	return appendStep(b, int64(steps), decimals)
}

// escaped adds text as XML: what XML cannot hold, and bytes that are not UTF-8, as the sign for a character lost (XML 1.0, 2.2).
func (pic *picture) escaped(s string) {
	for _, r := range s {
		switch {
		case r == '&':
			pic.put("&amp;")
		case r == '<':
			pic.put("&lt;")
		case r == '>':
			pic.put("&gt;")
		case r < 0x20 && r != '\t', r == 0xfffe, r == 0xffff:
			pic.put("\ufffd")
		default:
			pic.buf = utf8.AppendRune(pic.buf, r)
		}
	}
}
