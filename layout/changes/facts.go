package changes

import (
	"strings"

	"markout/layout/set"
	"markout/layout/unit"
)

// fact is one thing that is so of a shape: a size, an outline, a word, a yes or no. Shapes of one kind have the same facts in the same
// order.
type fact struct {
	label   string
	how     saying
	x       float64
	word    string
	none    string // said for 0 or an empty word
	outline *set.Outline
	aside   bool // it is no size, and nobody asks what it held
}

// saying is how a fact is said.
type saying uint8

const (
	asLength saying = iota
	asOutline
	asWord
	asNumber
	asFlag    // its label, where x is not 0
	asHeight  // a length that may lie below 0
	asMeasure // a length that follows from others, said where it reads otherwise
)

func sizeFact(label string, x float64) fact  { return fact{label: label, x: x} }
func maybeFact(label string, x float64) fact { return fact{label: label, x: x, none: "none"} }
func outlineFact(label string, o *set.Outline) fact {
	return fact{label: label, how: asOutline, outline: o}
}

// besides is a fact of which nobody asks what it held.
func besides(f fact) fact {
	f.aside = true
	return f
}

func wordFact(label, w, none string) fact {
	return fact{label: label, how: asWord, word: w, none: none, aside: true}
}
func flagFact(label string, is bool) fact {
	f := fact{label: label, how: asFlag, aside: true}
	if is {
		f.x = 1
	}
	return f
}

// from says how a fact changed, nothing where it did not.
func (f fact) from(a fact, w wording) string {
	switch f.how {
	case asOutline:
		return w.outlineFrom(f.label, a.outline, f.outline)
	case asWord:
		return fromTo(f.label, a.word, f.word, f.none)
	case asFlag:
		return flagFrom(f.label, a.x != 0, f.x != 0)
	case asMeasure:
		if w.length(a.x) == w.length(f.x) {
			return ""
		}
	case asNumber:
		if same(a.x, f.x) {
			return ""
		}
		p, q := numbersApart(a.x, f.x)
		return fromTo(f.label, f.orNone(a.x, p), f.orNone(f.x, q), f.none)
	}
	return w.lengthFrom(f.label, a.x, f.x, f.none)
}

// orNone is the words of a number, none of 0 where that says that there is none.
func (f fact) orNone(x float64, words string) string {
	if f.none != "" && x == 0 {
		return ""
	}
	return words
}

// alone says a fact by itself, nothing where there is none.
func (f fact) alone(w wording) string {
	lead := func(words string) string { return strings.TrimSpace(f.label + " " + words) }
	switch f.how {
	case asOutline:
		if f.outline != nil {
			return lead(w.outline(f.outline))
		}
	case asWord:
		if f.word != "" {
			return lead(f.word)
		}
	case asFlag:
		if f.x != 0 {
			return f.label
		}
	case asNumber:
		if f.x != 0 {
			return lead(unit.FormatNumber(f.x, 0.1))
		}
	default:
		if !same(f.x, 0) {
			return lead(w.length(f.x))
		}
	}
	return ""
}

// facts compares what is so of two shapes of one kind.
func (c *comparison) facts(a, b []fact) {
	for i := range b {
		if words := b[i].from(a[i], c.wording); words != "" {
			c.say(words)
			c.size = c.size || !b[i].aside
		}
	}
}

// described says an element by its kind and its sizes: post, circle 60, height 700; 12 copies.
func (w wording) described(e *set.Element) string {
	says := []string{e.Kind}
	if s, ok := e.Shape.(*set.Steps); ok {
		says = append(says, w.flight(s)...)
	}
	for _, f := range factsOf(e.Shape) {
		if words := f.alone(w); words != "" {
			says = append(says, words)
		}
	}
	if f, ok := e.Shape.(*set.Flat); ok {
		for i := range f.Openings {
			says = append(says, w.opening(&f.Openings[i]))
		}
	}
	if e.Material != "" {
		says = append(says, "of "+e.Material)
	}
	words := strings.Join(says, ", ")
	if len(e.Copies) > 1 {
		words += "; " + countFromOne(len(e.Copies))
	}
	return words
}
