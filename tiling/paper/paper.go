// Package paper knows the sheets and rolls that sets are drawn on, and the edges that a printer leaves blank.
//
// Sizes are exact: ISO 216 and DIN 476 in millimetres, ASME Y14.1, architectural sizes and rolls in inches of
// 25.4 mm. A sheet is kept upright, its shorter side across; pages choose how they lie.
package paper

import (
	"fmt"
	"strings"

	"markout/layout/unit"
)

// Longest is the longest side of a page in millimetres. Readers take pages up to 14400 points, 5080 mm
// (ISO 32000-1, annex C); rolls keep to a round figure below it.
const Longest = 5000

// Paper is a sheet, or a roll of one width and any length. The zero Paper is none.
type Paper struct {
	Name string  // as people know it: "A4", "ARCH D", "roll 914"
	W, H float64 // millimetres; of a roll W is its width and H is 0
	Roll bool
}

// sheets lists the sheets by the names they are asked for, sides in their own unit.
var sheets = []struct {
	name string
	w, h float64
	unit float64
}{
	// ISO 216 and, over A0, DIN 476.
	{"A0", 841, 1189, 1}, {"A1", 594, 841, 1}, {"A2", 420, 594, 1}, {"A3", 297, 420, 1}, {"A4", 210, 297, 1},
	{"A5", 148, 210, 1}, {"A6", 105, 148, 1}, {"2A0", 1189, 1682, 1}, {"4A0", 1682, 2378, 1},
	{"B1", 707, 1000, 1}, {"B2", 500, 707, 1},
	// Letter and Tabloid are ANSI A and B of ASME Y14.1; Legal is common practice.
	{"Letter", 8.5, 11, 25.4}, {"Legal", 8.5, 14, 25.4}, {"Tabloid", 11, 17, 25.4},
	{"ANSI A", 8.5, 11, 25.4}, {"ANSI B", 11, 17, 25.4}, {"ANSI C", 17, 22, 25.4}, {"ANSI D", 22, 34, 25.4},
	{"ANSI E", 34, 44, 25.4}, {"ANSI F", 28, 40, 25.4},
	{"ARCH A", 9, 12, 25.4}, {"ARCH B", 12, 18, 25.4}, {"ARCH C", 18, 24, 25.4}, {"ARCH D", 24, 36, 25.4},
	{"ARCH E", 36, 48, 25.4}, {"ARCH E1", 30, 42, 25.4}, {"ARCH E2", 26, 38, 25.4}, {"ARCH E3", 27, 39, 25.4},
}

// rolls are the widths that are sold by whole millimetres and made in inches.
var rolls = []struct{ called, inches float64 }{{610, 24}, {914, 36}, {1067, 42}, {1118, 44}}

const (
	leastSide = 50.0
	leastRoll = 200.0
)

// wanted says what paper may be called.
const wanted = "A0 … A6, 2A0, 4A0, B1, B2, Letter, Legal, Tabloid, ANSI-A … ANSI-F, ARCH-A … ARCH-E3, WIDTHxHEIGHT in millimetres (or 24x36in), or \"roll 610\", \"roll 914\", \"roll 1067\", \"roll WIDTH\""

// Parse reads the name of a paper: a sheet's name in any letter case, its words joined by a space, a hyphen or nothing;
// WxH, in millimetres unless a unit stands there; or roll and a width.
func Parse(text string) (Paper, error) {
	name := strings.TrimSpace(text)
	plain := squeeze(name)
	for _, s := range sheets {
		if squeeze(s.name) == plain {
			return Paper{Name: s.name, W: s.w * s.unit, H: s.h * s.unit}, nil
		}
	}
	if rest, ok := strings.CutPrefix(plain, "roll"); ok {
		return parseRoll(name, rest)
	}
	if w, h, ok := cutSides(name); ok {
		return parseSides(name, w, h)
	}
	return Paper{}, fmt.Errorf("no paper is called `%s`; paper is %s", name, wanted)
}

// squeeze takes letter case, spaces, hyphens and underlines out of a name.
func squeeze(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' || r == '\t' {
			return -1
		}
		return r
	}, strings.ToLower(s))
}

func parseRoll(name, width string) (Paper, error) {
	if width == "" {
		return Paper{}, fmt.Errorf("`%s`: a roll needs its width: \"roll 610\", \"roll 914\", \"roll 1067\" or any other width in millimetres", name)
	}
	w, err := unit.ParseLength(width, unit.Millimetre)
	if err != nil {
		return Paper{}, fmt.Errorf("`%s`: the width of a roll is a length: %v", name, err)
	}
	for _, r := range rolls {
		if w == r.called {
			w = r.inches * 25.4
		}
	}
	if !(w >= leastRoll && w <= Longest) {
		return Paper{}, fmt.Errorf("`%s`: a roll is from %g to %d mm wide", name, leastRoll, Longest)
	}
	return Paper{Name: "roll " + unit.FormatNumber(w, 1), W: w, Roll: true}, nil
}

// cutSides splits WxH at its x or ×.
func cutSides(s string) (w, h string, ok bool) {
	if w, h, ok = strings.Cut(s, "×"); ok {
		return w, h, true
	}
	i := strings.IndexAny(s, "xX")
	if i <= 0 || s[0] < '.' || s[0] > '9' {
		return "", "", false
	}
	return s[:i], s[i+1:], true
}

func parseSides(name, ws, hs string) (Paper, error) {
	h, bareH, err := parseSide(name, hs)
	if err != nil {
		return Paper{}, err
	}
	w, bareW, err := parseSide(name, ws)
	if err != nil {
		return Paper{}, err
	}
	// 24x36in: one unit serves both sides.
	if bareW && !bareH {
		if w, bareW, err = parseSide(name, strings.TrimSpace(ws)+strings.TrimLeft(strings.TrimSpace(hs), "0123456789. ")); err != nil || bareW {
			return Paper{}, fmt.Errorf("`%s`: write a unit at both sides or at neither", name)
		}
	}
	if !(min(w, h) >= leastSide && max(w, h) <= Longest) {
		return Paper{}, fmt.Errorf("`%s`: a sheet's sides are from %g to %d mm; a longer one is a roll: \"roll %s\"", name, leastSide, Longest, unit.FormatNumber(min(max(min(w, h), leastRoll), Longest), 1))
	}
	return Paper{Name: unit.FormatNumber(w, 0.1) + "x" + unit.FormatNumber(h, 0.1), W: w, H: h}, nil
}

func parseSide(name, s string) (mm float64, bare bool, err error) {
	v, bare, err := unit.Parse(s)
	if err != nil {
		return 0, false, fmt.Errorf("`%s`: `%s` is not a length: %v", name, strings.TrimSpace(s), err)
	}
	if !bare && v.Kind != unit.Length {
		return 0, false, fmt.Errorf("`%s`: `%s` is not a length", name, strings.TrimSpace(s))
	}
	return v.X, bare, nil
}

// Turned returns a sheet lying on its other side. A roll has no other side.
func (p Paper) Turned() Paper {
	if !p.Roll {
		p.W, p.H = p.H, p.W
	}
	return p
}

// Lie says how a page of w × h lies: "portrait" or "landscape".
func Lie(w, h float64) string {
	if w > h {
		return "landscape"
	}
	return "portrait"
}
