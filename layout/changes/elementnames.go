package changes

import (
	"maps"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
)

// names says what the things of one set are called in the other, where that is not the same.
type names struct {
	was map[string]string // by the name that they have now
	is  map[string]string // by the name that they had
	// Boards, lengths and cards have names of their own.
	material, card map[string]string // now, by the name that they had
}

func lookUp(m map[string]string, name string) string {
	if x, ok := m[name]; ok {
		return x
	}
	return name
}

// then returns what an element of the new set was called, now what one of the old set is called.
func (n *names) then(name string) string { return lookUp(n.was, name) }
func (n *names) now(name string) string  { return lookUp(n.is, name) }

func (n *names) call(was, is string) { n.was[is], n.is[was] = was, is }

// namesOf finds what is called otherwise: what is gone and what is new, alike in all else. What speaks of other elements by their
// names is found after those.
func namesOf(old, new *set.Set) *names {
	n := &names{was: map[string]string{}, is: map[string]string{}}
	n.material, n.card = materialNames(old, new), cardNames(old.Cards, new.Cards)
	was, is := byName(old.Elements), byName(new.Elements)
	lost := map[string][]*set.Element{}
	for _, e := range old.Elements {
		if is[e.Name] == nil {
			k := standKey(e)
			lost[k] = append(lost[k], e)
		}
	}
	if len(lost) == 0 {
		return n
	}
	var fresh []*set.Element
	for _, e := range new.Elements {
		if was[e.Name] == nil {
			fresh = append(fresh, e)
		}
	}
	for found := true; found; {
		found = false
		rest := fresh[:0]
		for _, e := range fresh {
			k := standKey(e)
			i := likeOne(wording{new}, n, lost[k], e)
			if i < 0 {
				rest = append(rest, e)
				continue
			}
			n.call(lost[k][i].Name, e.Name)
			lost[k] = append(lost[k][:i:i], lost[k][i+1:]...)
			found = true
		}
		fresh = rest
	}
	return n
}

// likeOne returns the first of a list that is what e is and where it is, -1 for none.
func likeOne(w wording, n *names, list []*set.Element, e *set.Element) int {
	for i, a := range list {
		c := &comparison{wording: w, names: n, old: a, new: e}
		if c.shape(); len(c.own) == 0 && len(c.places()) == 0 {
			return i
		}
	}
	return -1
}

// standKey is the same of elements of one kind that stand in the same places.
func standKey(e *set.Element) string {
	var k key
	k.word(e.Kind)
	k.word(strconv.Itoa(len(e.Copies)))
	if len(e.Copies) > 0 {
		var middle geom.Point
		if d := loose(e.Shape); d != nil {
			middle = d.middle()
		}
		at := e.Copies[0].Places[0].Frame.Apply(geom.Vec{X: middle.X, Y: middle.Y})
		k.numbers(at.X, at.Y, at.Z)
	}
	return k.String()
}

// materialNames finds boards and lengths that are called otherwise.
func materialNames(old, new *set.Set) map[string]string {
	w := wording{new}
	is := pairOff(old.Boards, new.Boards, func(b set.Board) string { return b.Name },
		func(a, b set.Board) bool { return len(w.boardWords(a, b)) == 0 })
	maps.Copy(is, pairOff(old.Lengths, new.Lengths, func(l set.Length) string { return l.Name },
		func(a, b set.Length) bool { return len(w.lengthWords(a, b)) == 0 }))
	return is
}

func cardNames(old, new []set.Card) map[string]string {
	return pairOff(old, new, func(c set.Card) string { return c.Name }, func(a, b set.Card) bool { return same(a.Thickness, b.Thickness) })
}

// pairOff pairs what is gone with what is new and alike, each once, in order: the new names by the old ones.
func pairOff[T any](old, new []T, name func(T) string, alike func(a, b T) bool) map[string]string {
	there := func(list []T, n string) bool {
		return slices.ContainsFunc(list, func(x T) bool { return name(x) == n })
	}
	is := map[string]string{}
	for _, b := range new {
		if there(old, name(b)) {
			continue
		}
		i := slices.IndexFunc(old, func(a T) bool {
			_, taken := is[name(a)]
			return !taken && !there(new, name(a)) && alike(a, b)
		})
		if i >= 0 {
			is[name(old[i])] = name(b)
		}
	}
	return is
}
