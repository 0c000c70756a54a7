package changes

import (
	"cmp"
	"slices"
	"strconv"

	"markout/layout/set"
)

// opening says an opening by itself: door at 600, 800 x 2000.
func (w wording) opening(o *set.Opening) string {
	words := openingWord(o) + " at " + w.length(o.At) + ", " + w.length(o.Width) + " x " + w.length(o.Height)
	if !same(o.Sill, 0) {
		words += ", sill " + w.length(o.Sill)
	}
	return words
}

func openingWord(o *set.Opening) string {
	if o.Name != "" {
		return o.Word + " " + o.Name
	}
	return o.Word
}

// openings says which openings of a face are new, gone, elsewhere or of another size. An opening is the one of its name; one without a
// name is the one that is the same, or else is of the same size, or else in the same place, or else the next of its word from P.
func (c *comparison) openings(p, q []set.Opening) {
	a, b := fromP(p), fromP(q)
	was := partner(len(a), len(b),
		func(i, j int) bool { return a[i].Name != "" && a[i].Name == b[j].Name },
		func(i, j int) bool { return unnamed(a[i], b[j]) && len(c.openingFrom(a[i], b[j])) == 0 },
		func(i, j int) bool {
			return unnamed(a[i], b[j]) && a[i].Word == b[j].Word && same(a[i].Width, b[j].Width) && same(a[i].Height, b[j].Height)
		},
		func(i, j int) bool { return unnamed(a[i], b[j]) && same(a[i].At, b[j].At) },
		func(i, j int) bool { return unnamed(a[i], b[j]) && a[i].Word == b[j].Word },
		func(i, j int) bool { // renamed
			return a[i].Word == b[j].Word && len(c.openingFrom(a[i], b[j])) == 0
		},
	)
	found := make([]bool, len(a))
	for j, o := range b {
		i := was[j]
		if i < 0 {
			c.say(c.opening(o) + " added")
			c.size = true
			continue
		}
		found[i] = true
		says := c.openingFrom(a[i], o)
		if a[i].Name != o.Name {
			says = append(says, fromTo("name", a[i].Name, o.Name, "none"))
		}
		if len(says) == 0 {
			continue
		}
		c.size = c.size || len(c.openingFrom(a[i], o)) > 0
		says[0] = openingLabel(a, i) + " " + says[0]
		c.say(says...)
	}
	for i, o := range a {
		if !found[i] {
			c.say(openingLabel(a, i) + " taken out, " + c.length(o.Width) + " x " + c.length(o.Height))
			c.size = true
		}
	}
}

func unnamed(a, b *set.Opening) bool { return a.Name == "" || b.Name == "" }

// fromP returns openings in their order from P.
func fromP(list []set.Opening) []*set.Opening {
	out := make([]*set.Opening, len(list))
	for i := range list {
		out[i] = &list[i]
	}
	slices.SortStableFunc(out, func(a, b *set.Opening) int { return cmp.Compare(a.At, b.At) })
	return out
}

// openingLabel is what an opening is called: by its name, or by its number from P among those of its word where there are several.
func openingLabel(list []*set.Opening, i int) string {
	o := list[i]
	if o.Name != "" {
		return openingWord(o)
	}
	number, count := 0, 0
	for j, x := range list {
		if x.Word == o.Word {
			if count++; j <= i {
				number++
			}
		}
	}
	if count == 1 {
		return o.Word
	}
	return o.Word + " " + strconv.Itoa(number)
}

// openingFrom says what changed of one opening.
func (w wording) openingFrom(a, b *set.Opening) []string {
	var says []string
	add := func(words string) {
		if words != "" {
			says = append(says, words)
		}
	}
	if a.Word != b.Word {
		add("becomes a " + b.Word)
	}
	if d := b.At - a.At; !same(d, 0) {
		end := "Q"
		if d < 0 {
			d, end = -d, "P"
		}
		add("moves " + w.closely(d) + " towards " + end)
	}
	if !same(a.Width, b.Width) || !same(a.Height, b.Height) {
		pw, qw := w.apartOr(a.Width, b.Width)
		ph, qh := w.apartOr(a.Height, b.Height)
		add(arrow(pw+" x "+ph, qw+" x "+qh))
	}
	add(w.lengthFrom("sill", a.Sill, b.Sill, "none"))
	add(w.lengthFrom("arch", a.Arch, b.Arch, "none"))
	add(fromTo("hinge", a.Hinge, b.Hinge, "none"))
	add(fromTo("opens", a.Opens, b.Opens, "not said"))
	return says
}

// closely says a length that is not 0 so that it does not read as 0.
func (w wording) closely(x float64) string {
	if words := w.length(x); words != w.length(0) {
		return words
	}
	_, words := w.apart(0, x)
	return words
}

// partner returns for each of m new things the old one that it was, -1 for none: by each rule in its turn, in order, each once.
func partner(n, m int, rules ...func(i, j int) bool) []int {
	was := make([]int, m)
	for j := range was {
		was[j] = -1
	}
	taken := make([]bool, n)
	for _, rule := range rules {
		for j := range was {
			for i := 0; i < n && was[j] < 0; i++ {
				if !taken[i] && rule(i, j) {
					was[j], taken[i] = i, true
				}
			}
		}
	}
	return was
}
