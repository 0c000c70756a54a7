package changes

import (
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// wording says figures as people of a set read them: in its units, with the names of its sides.
type wording struct{ set *set.Set }

// same reports whether two lengths are one.
func same(a, b float64) bool { return math.Abs(a-b) <= geom.Tolerance }

// finest is the step to which sizes are said where that tells them apart.
const finest = 0.1

// length says a size; less than 0 it lies below.
func (w wording) length(x float64) string { return w.lengthTo(x, finest) }

func (w wording) lengthTo(x, step float64) string {
	if x < -geom.Tolerance {
		return unit.FormatLength(-x, w.set.Units, step) + " below 0"
	}
	return unit.FormatLength(math.Abs(x), w.set.Units, step)
}

// between says a size that became another, as closely as it takes to tell them apart: 150 → 112.5.
func (w wording) between(a, b float64) string {
	return arrow(w.apart(a, b))
}

func (w wording) apart(a, b float64) (string, string) {
	steps := []float64{finest, 0.01, 0.001, 1e-4, 1e-5, 1e-6, 1e-7}
	if w.set.Units.Imperial() {
		steps = []float64{unit.Sixteenth, unit.Sixteenth / 2, unit.Sixteenth / 4}
	}
	for _, step := range steps {
		if p, q := w.lengthTo(a, step), w.lengthTo(b, step); p != q {
			return p, q
		}
	}
	mm := wording{&set.Set{}} // an inch does not tell them apart
	p, q := mm.apart(a, b)
	return p + " mm", q + " mm"
}

func arrow(a, b string) string { return a + " → " + b }

// numbersApart says two numbers as closely as it takes to tell them apart.
func numbersApart(a, b float64) (string, string) {
	for step := 0.1; step > 1e-8; step /= 10 {
		if p, q := unit.FormatNumber(a, step), unit.FormatNumber(b, step); p != q {
			return p, q
		}
	}
	return unit.FormatNumber(a, 0), unit.FormatNumber(b, 0)
}

// fromTo says one word that became another, none for an empty one; nothing where they are the same.
func fromTo(label, a, b, none string) string {
	if a == b {
		return ""
	}
	return strings.TrimSpace(label + " " + arrow(orNone(a, none), orNone(b, none)))
}

// lengthFrom says a size that changed; 0 is said as none where that is not empty.
func (w wording) lengthFrom(label string, a, b float64, none string) string {
	if same(a, b) {
		return ""
	}
	p, q := w.apart(a, b)
	if none != "" && same(a, 0) {
		p = none
	}
	if none != "" && same(b, 0) {
		q = none
	}
	return strings.TrimSpace(label + " " + arrow(p, q))
}

// countFrom says a number of things that changed.
func countFrom(label string, a, b int, none string) string {
	word := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	return fromTo(label, word(a), word(b), none)
}

// flagFrom says what is so now, or is so no more.
func flagFrom(is string, a, b bool) string {
	switch {
	case a == b:
		return ""
	case b:
		return "now " + is
	}
	return "no longer " + is
}

// runsWords says whole numbers in order, those that follow one another in short: 1 to 4, 6 and 9.
func runsWords(list []int) string {
	var says []string
	for i := 0; i < len(list); {
		j := i
		for j+1 < len(list) && list[j+1] == list[j]+1 {
			j++
		}
		switch {
		case j >= i+2:
			says = append(says, strconv.Itoa(list[i])+" to "+strconv.Itoa(list[j]))
			i = j + 1
		default:
			says = append(says, strconv.Itoa(list[i]))
			i++
		}
	}
	return listWords(says)
}

// countedWords says one thing by its number or several: copy 3, copies 1 to 4.
func countedWords(one, many string, list []int) string {
	if len(list) == 1 {
		return one + " " + strconv.Itoa(list[0])
	}
	return many + " " + runsWords(list)
}
