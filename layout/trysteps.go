package layout

import (
	"math"
	"strings"

	"markout/layout/unit"
)

// part is a part of a text between commas, without blanks around it.
type part struct {
	from, to int
	dots     int // where its .. stands, 0 where it has none
}

func (p part) empty() bool { return p.from >= p.to }

// trimmed is a part of text without blanks around it.
func trimmed(text string, from, to int) part {
	for from < to && text[from] == ' ' {
		from++
	}
	for to > from && text[to-1] == ' ' {
		to--
	}
	return part{from: from, to: to}
}

// parts parts text, from from on, at the commas that stand in no brackets and in no text in quotes.
func parts(text string, from int) []part {
	var out []part
	depth, start, dots := 0, from, 0
	end := func(to int) {
		p := trimmed(text, start, to)
		p.dots = dots
		out, dots, start = append(out, p), 0, to+1
	}
	for i := from; i < len(text); i++ {
		switch c := text[i]; {
		case c == '"' && (i == 0 || text[i-1] < '0' || text[i-1] > '9'): // after a digit it is inches
			for i++; i < len(text) && text[i] != '"'; i++ {
				if text[i] == '\\' {
					i++
				}
			}
		case c == '(':
			depth++
		case c == ')':
			depth--
		case c == ',' && depth <= 0:
			end(i)
		case c == '.' && depth <= 0 && dots == 0 && i+1 < len(text) && text[i+1] == '.':
			dots = i
		}
	}
	end(len(text))
	return out
}

// bare is a part without the brackets around a place or another list with commas.
func (p part) bare(text string) part {
	if p.empty() || text[p.from] != '(' || text[p.to-1] != ')' {
		return p
	}
	inner := trimmed(text, p.from+1, p.to-1)
	depth := 0
	for _, c := range text[inner.from:inner.to] {
		switch c {
		case '(':
			depth++
		case ')':
			if depth--; depth < 0 {
				return p
			}
		}
	}
	if !strings.Contains(text[inner.from:inner.to], ",") {
		return p
	}
	return inner
}

// ends returns the parts of a range, a..b by c; by is empty, after the range, where no step is said.
func (p part) ends(text string) (a, b, by part, ranged bool) {
	if p.dots == 0 {
		return p, p, p, false
	}
	end := p.to
	by = part{from: p.to, to: p.to}
	if at := strings.LastIndex(text[p.dots:p.to]+" ", " by "); at >= 0 {
		end = p.dots + at
		by = trimmed(text, min(end+4, p.to), p.to)
		by.dots = end + 1 // where the word stands
	}
	return trimmed(text, p.from, p.dots), trimmed(text, p.dots+2, end), by, true
}

// steps returns the values of a range.
func (t *trials) steps(l line, w wanted, word string, a, b, by part) []Tried {
	all := l.span(a.from, max(b.to, b.from))
	if !w.single {
		t.list.Hintf(all, "`"+w.word+"` takes more than one value, and a range is of single ones", "list what is to be tried, with commas between")
		return nil
	}
	if b.empty() || by.dots > 0 && by.empty() {
		t.list.Errorf(l.span(b.from-2, max(by.to, b.from)), "a range is written `2..6` or `150..180 by 10`")
		return nil
	}
	before := t.list.Errors()
	x, ok1 := t.figure(l, w, a)
	y, ok2 := t.figure(l, w, b)
	if ok1 && ok2 && !w.known { // one of them says the unit for both
		w.known, w.kind = true, x.Kind
		if y.Kind == unit.Length {
			w.kind = unit.Length
		}
		x, ok1 = t.figure(l, w, a)
		y, ok2 = t.figure(l, w, b)
	}
	step, ok3 := unit.Value{}, true
	if !by.empty() {
		step, ok3 = t.figure(l, w, by)
	}
	if !ok1 || !ok2 || !ok3 {
		if t.list.Errors() == before {
			t.list.Hintf(all, "a range goes by figures and lets, and a piece's measure is asked for here", "list what is to be tried, with commas between")
		}
		return nil
	}
	suffix, ok := suffixes[w.kind]
	if !ok {
		t.list.Hintf(all, "`"+w.word+"` is a "+w.kind.String()+", and ranges are of counts, lengths, angles and weights", "list what is to be tried, with commas between")
		return nil
	}
	typed := l.text[a.from:a.to] + ".." + l.text[b.from:b.to]
	switch {
	case y.X < x.X:
		t.list.Hintf(all, "a range goes from the lesser to the greater", "write `%s..%s`", l.text[b.from:b.to], l.text[a.from:a.to])
		return nil
	case !by.empty() && step.X <= 0:
		t.list.Errorf(l.span(by.from, by.to), "a step is more than 0")
		return nil
	case by.empty() && (w.kind != unit.Number || x.X != math.Round(x.X) || y.X != math.Round(y.X)):
		t.list.Hintf(all, "a range of what is no count needs its step", "write `%s by %s`", typed, t.likelyStep(w.kind))
		return nil
	case by.empty():
		step.X = 1
	}
	n := math.Floor((y.X-x.X)/step.X+1e-9) + 1
	if !(n <= MostOptions) {
		t.list.Errorf(l.span(a.from, max(b.to, by.to)), "this makes %s options, and at most %d are tried in one run", unit.FormatNumber(n, 1), MostOptions)
		return nil
	}
	out := make([]Tried, int(n))
	for i := range out {
		v := math.Round((x.X+float64(i)*step.X)*1e6) / 1e6
		out[i] = Tried{Change: word + "=" + unit.FormatNumber(v, 0) + suffix, Text: t.show(w.kind, v), Number: true, X: v}
	}
	return out
}

// suffixes are the units in which values of ranges are written.
var suffixes = map[unit.Kind]string{unit.Number: "", unit.Length: "mm", unit.Angle: "deg", unit.Weight: "kg"}

// likelyStep is a step that a hint shows.
func (t *trials) likelyStep(k unit.Kind) string {
	switch {
	case k == unit.Angle:
		return "5deg"
	case k == unit.Weight:
		return "5kg"
	case k == unit.Number:
		return "0.5"
	case t.units.Imperial():
		return `1/2"`
	}
	return unit.FormatNumber(10/t.units.Factor(), 0)
}

// show returns a value as people of the set read it.
func (t *trials) show(k unit.Kind, x float64) string {
	switch k {
	case unit.Length:
		if t.units.Imperial() {
			return unit.FormatLength(x, t.units, unit.Sixteenth/4)
		}
		return unit.FormatLength(x, t.units, 0)
	case unit.Angle:
		return unit.FormatAngle(x, 0)
	case unit.Weight:
		return unit.FormatWeight(x, t.units, 0.01)
	}
	return unit.FormatNumber(x, 0)
}
