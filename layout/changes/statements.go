package changes

import (
	"strings"

	"markout/layout/set"
	"markout/layout/unit"
)

// whole says what changed of what is said for the whole set.
func (w wording) whole(old *set.Set, n *names) []Element {
	a, b := old, w.set
	var says []string
	add := func(words string) {
		if words != "" {
			says = append(says, words)
		}
	}
	add(fromTo("name", a.Name, b.Name, "none"))
	add(fromTo("production", a.Production, b.Production, "none"))
	add(fromTo("units", a.Units.String(), b.Units.String(), ""))
	add(fromTo("sides", a.Sides, b.Sides, ""))
	if same(a.Scale, b.Scale) {
		add(fromTo("scale written", a.ScaleText, b.ScaleText, "none"))
	} else {
		add(fromTo("scale", a.ScaleText, b.ScaleText, "none"))
	}
	hall := func(e *set.Element) string {
		if e == nil {
			return ""
		}
		return e.Name
	}
	add(fromTo("worked in", n.now(hall(a.Hall)), hall(b.Hall), "no hall"))
	p, q := a.Title, b.Title
	add(fromTo("drawn by", p.Drawn, q.Drawn, "nobody"))
	add(fromTo("checked by", p.Checked, q.Checked, "nobody"))
	add(fromTo("approved by", p.Approved, q.Approved, "nobody"))
	add(fromTo("number", p.Number, q.Number, "none"))
	add(fromTo("owner", p.Owner, q.Owner, "nobody"))
	if len(says) == 0 {
		return nil
	}
	return []Element{{Name: "set", Change: changed, Words: strings.Join(says, ", ")}}
}

// listing compares a list of things that have names of their own with what it was: the name of each in the other set, what is said of
// one that is new or gone, and what changed of one that both have.
type listing[T any] struct {
	name  func(T) string // as an Element is named
	is    func(T) string // of an old one, as it is named in the new set
	words func(T) string
	from  func(a, b T) []string
	// borrowed says that its name is made of names of elements: where one of those is another, that is said of the element.
	borrowed bool
}

// compare returns what is new or changed, in the new list's order, and what is gone. Of things that have one name, each is the next
// of that name.
func (l listing[T]) compare(old, new []T) (now, gone []Element) {
	called := map[string][]int{}
	for i, a := range old {
		called[l.is(a)] = append(called[l.is(a)], i)
	}
	was, found := make([]int, len(new)), make([]bool, len(old))
	for pass := range 2 { // first what is the same
		for j, b := range new {
			if pass == 0 {
				was[j] = -1
			}
			for _, i := range called[l.name(b)] {
				if was[j] < 0 && !found[i] && (pass == 1 || len(l.from(old[i], b)) == 0) {
					was[j], found[i] = i, true
				}
			}
		}
	}
	for j, b := range new {
		i := was[j]
		if i < 0 {
			now = append(now, Element{Name: l.name(b), Change: added, Words: l.words(b)})
			continue
		}
		x := Element{Name: l.name(b), Change: changed, Words: strings.Join(l.from(old[i], b), ", ")}
		if a := l.name(old[i]); a != x.Name && !l.borrowed {
			x.Change, x.Words = renamed, joinWords("renamed from "+a, x.Words)
		}
		if x.Words != "" {
			now = append(now, x)
		}
	}
	for i, a := range old {
		if !found[i] {
			gone = append(gone, Element{Name: l.name(a), Change: removed, Words: l.words(a)})
		}
	}
	return now, gone
}

func (w wording) cards(old *set.Set, n *names) (now, gone []Element) {
	title := func(name string) string { return strings.TrimSpace("card " + name) }
	return listing[set.Card]{
		name:  func(c set.Card) string { return title(c.Name) },
		is:    func(c set.Card) string { return title(lookUp(n.card, c.Name)) },
		words: func(c set.Card) string { return w.length(c.Thickness) },
		from: func(a, b set.Card) []string {
			return some(w.lengthFrom("thickness", a.Thickness, b.Thickness, ""))
		},
	}.compare(old.Cards, w.set.Cards)
}

// keeps compares distances that must not be less, between the same two things.
func (w wording) keeps(old *set.Set, n *names) (now, gone []Element) {
	title := func(a, b string) string { return "keep " + a + " to " + b }
	return listing[set.Keep]{
		name:  func(k set.Keep) string { return title(k.A, k.B) },
		is:    func(k set.Keep) string { return title(n.nowOf(k.A), n.nowOf(k.B)) },
		words: func(k set.Keep) string { return "at least " + w.length(k.AtLeast) },
		from: func(a, b set.Keep) []string {
			return some(w.lengthFrom("at least", a.AtLeast, b.AtLeast, ""))
		},
		borrowed: true,
	}.compare(old.Keeps, w.set.Keeps)
}

// dims compares distances that people want to see, by the places between which they are. Where a piece moves, its distances do, which
// is said of the piece; a bare place is said here.
func (w wording) dims(old *set.Set, n *names) (now, gone []Element) {
	title := func(a, b string) string { return "dim " + a + " to " + b }
	end := func(a set.Anchor) string {
		if a.Element == "" {
			return w.placeNamed(a.Words, a.At)
		}
		return n.nowOf(a.Element) + strings.TrimPrefix(a.Words, a.Element)
	}
	return listing[set.Dim]{
		name:  func(d set.Dim) string { return title(w.placeNamed(d.A.Words, d.A.At), w.placeNamed(d.B.Words, d.B.At)) },
		is:    func(d set.Dim) string { return title(end(d.A), end(d.B)) },
		words: func(set.Dim) string { return "" },
		from: func(a, b set.Dim) []string {
			var says []string
			for _, x := range [2][2]set.Anchor{{a.A, b.A}, {a.B, b.B}} {
				if x[0].Element == "" && x[1].Element == "" && !x[0].At.Near(x[1].At) {
					says = append(says, w.placeNamed(x[1].Words, x[1].At)+" lies elsewhere")
				}
			}
			return says
		},
		borrowed: true,
	}.compare(old.Dims, w.set.Dims)
}

// nowOf is now for a name that may have a copy's number.
func (n *names) nowOf(name string) string {
	element, rest, _ := strings.Cut(name, ".")
	return n.now(element) + name[len(element):len(name)-len(rest)] + rest
}

func some(list ...string) []string {
	var out []string
	for _, x := range list {
		if x != "" {
			out = append(out, x)
		}
	}
	return out
}

// density says how heavy a material is, 0 for not said.
func density(x float64) string {
	if x == 0 {
		return ""
	}
	return unit.FormatNumber(x, 0.1) + " kg/m³"
}
