package unit

import (
	"math"
	"strings"
)

// Scale is a drawing's or a model's scale.
type Scale struct {
	Denominator float64 // 25 for 1:25; less than 1 where the drawing is larger than the thing
	Words       string  // as people write it: 1:25, 1/4" = 1'-0"
}

// imperialScales lists inches (in 1/32) to the foot with the denominators they give.
var imperialScales = [...]struct {
	parts       int64
	denominator float64
}{{96, 4}, {48, 8}, {32, 12}, {24, 16}, {16, 24}, {12, 32}, {8, 48}, {6, 64}, {4, 96}, {3, 128}, {2, 192}, {1, 384}}

// ParseScale reads a scale: `1:25`, `1:33.3`, `1:33 1/3`, `2:1`, or a length on paper for a length of the thing,
// `1/4" = 1'-0"`. The error is a *ScanError whose place counts from the start of text.
func ParseScale(text string) (Scale, error) {
	if i := strings.IndexByte(text, '='); i >= 0 {
		return parseLengths(text, i)
	}
	left, right, ok := strings.Cut(text, ":")
	if !ok {
		return Scale{}, &ScanError{Length: len(text), Message: "a scale is a ratio or two lengths", Hint: "write `1:25` or `1/4\" = 1'-0\"`"}
	}
	a, err := ratioPart(left, 0)
	if err != nil {
		return Scale{}, err
	}
	b, err := ratioPart(right, len(left)+1)
	if err != nil {
		return Scale{}, err
	}
	words := strings.Join(strings.Fields(left), " ") + ":" + strings.Join(strings.Fields(right), " ")
	return Scale{Denominator: b / a, Words: words}, nil
}

// ratioPart reads a plain number above 0, with a fraction after it where one stands.
func ratioPart(text string, at int) (float64, error) {
	from := len(text) - len(strings.TrimLeft(text, " \t"))
	body := strings.TrimSpace(text)
	whole, part, _ := strings.Cut(body, " ")
	x, bare, err := Parse(whole)
	if e, ok := err.(*ScanError); ok {
		e.Offset += at + from
		return 0, e
	}
	sum := x.X
	if part = strings.TrimSpace(part); part != "" && bare {
		s := scanner{text: []byte(part)}
		top, i := s.digits(0)
		bottom, end := s.digits(i + 1)
		if top < 0 || bottom <= 0 || top >= bottom || s.byteAt(i) != '/' || end != len(part) {
			bare = false
		}
		sum += top / bottom
	}
	if !bare || sum <= 0 {
		return 0, &ScanError{Offset: at + from, Length: max(len(body), 1), Message: "a ratio is two plain numbers above 0", Hint: "write `1:25`"}
	}
	return sum, nil
}

// parseLengths reads two lengths around the = at i.
func parseLengths(text string, i int) (Scale, error) {
	paper, bare1, err := Parse(text[:i])
	if err != nil {
		return Scale{}, err
	}
	thing, bare2, err := Parse(text[i+1:])
	if e, ok := err.(*ScanError); ok {
		e.Offset += i + 1
		return Scale{}, e
	}
	if bare1 || bare2 || paper.Kind != Length || thing.Kind != Length || paper.X <= 0 || thing.X <= 0 {
		return Scale{}, &ScanError{Length: len(text), Message: "a scale is a length on paper for a length of the thing", Hint: "write `1/4\" = 1'-0\"`"}
	}
	s := Scale{Denominator: thing.X / paper.X}
	for _, known := range imperialScales {
		if math.Abs(s.Denominator-known.denominator) < 1e-9*known.denominator {
			return Scale{known.denominator, FormatScale(known.denominator, Inch)}, nil
		}
	}
	s.Words = strings.Join(strings.Fields(text[:i]), " ") + " = " + strings.Join(strings.Fields(text[i+1:]), " ")
	return s, nil
}

// FormatScale returns a scale's words: 1:25, 2:1, or for people who work in feet and inches the inches to the
// foot, 1/4" = 1'-0", where there is such a scale (3" down to 1/32").
func FormatScale(denominator float64, sys System) string {
	if sys.Imperial() {
		for _, known := range imperialScales {
			if math.Abs(denominator-known.denominator) < 1e-9*known.denominator {
				return string(appendFeet(nil, float64(known.parts)*25.4/32, 32)) + ` = 1'-0"`
			}
		}
	}
	if denominator < 1 && denominator > 0 {
		return FormatNumber(1/denominator, 0.01) + ":1"
	}
	return "1:" + FormatNumber(denominator, 0.01)
}
