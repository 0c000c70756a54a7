package changes

import (
	"strings"

	"markout/layout/set"
)

// What an Element says of a thing: the words of the contract.
const (
	added   = "added"
	removed = "removed"
	renamed = "renamed"
	moved   = "moved"
	changed = "changed"
)

// Element says what changed of one thing of the set: of an element, of what is said for the whole set (named `set`), of a card, a
// board, a length, a stock box, a part, of a distance to be kept or seen.
type Element struct {
	Name   string
	Change string // added, removed, renamed, moved (nothing else of it changed) or changed
	Words  string // what changed of it, then behind a semicolon where it goes: 3 risers → 4, rise 150 → 112.5; foot moves 300 downstage
	Held   string // what did not, where someone would ask: top and total; empty where nothing is to be said

	made int // bytes of Words before where it goes
}

// String says the change in one line, what was held before where it goes: front: 3 risers → 4, rise 150 → 112.5; held: top and
// total; foot moves 300 downstage.
func (e Element) String() string {
	var parts []string
	own, goes := e.Words, ""
	if e.made > 0 && e.made < len(e.Words) {
		own, goes = e.Words[:e.made], strings.TrimPrefix(e.Words[e.made:], "; ")
	}
	switch {
	case e.Change == added || e.Change == removed:
		parts = append(parts, e.Change)
		if own != "" {
			parts[0] += ": " + own
		}
	case own != "":
		parts = append(parts, own)
	}
	if e.Held != "" {
		parts = append(parts, "held: "+e.Held)
	}
	if goes != "" {
		parts = append(parts, goes)
	}
	return e.Name + ": " + strings.Join(parts, "; ")
}

// Elements returns what changed between two sets, in words of the new set's units and sides. What is said for the whole set and its
// cards come first, then elements in the new set's order, then what pieces are cut from and distances, and last what is there no
// more, in the old set's order. Lengths that differ by less than geom.Tolerance are the same, and so are elements in another order. An
// element that is gone and a new one of the same kind and shape in the same places are one that is called otherwise.
func Elements(old, new *set.Set) []Element {
	n := namesOf(old, new)
	var out, gone []Element
	take := func(now, then []Element) {
		out = append(out, now...)
		gone = append(gone, then...)
	}
	say := wording{new}
	out = append(out, say.whole(old, n)...)
	take(say.cards(old, n))
	was := byName(old.Elements)
	for _, e := range new.Elements {
		a := was[n.then(e.Name)]
		switch {
		case a == nil:
			out = append(out, Element{Name: e.Name, Change: added, Words: say.described(e)})
		default:
			if x, ok := compared(say, n, a, e); ok {
				out = append(out, x)
			}
		}
	}
	is := byName(new.Elements)
	for _, e := range old.Elements {
		if is[n.now(e.Name)] == nil {
			gone = append(gone, Element{Name: e.Name, Change: removed, Words: say.described(e)})
		}
	}
	take(say.boards(old, n))
	take(say.lengths(old, n))
	take(say.stock(old))
	take(say.parts(old, n))
	take(say.keeps(old, n))
	take(say.dims(old, n))
	return append(out, gone...)
}

func byName(list []*set.Element) map[string]*set.Element {
	out := make(map[string]*set.Element, len(list))
	for _, e := range list {
		out[e.Name] = e
	}
	return out
}

// comparison is what is found of one element that both sets have.
type comparison struct {
	wording
	names    *names
	old, new *set.Element
	own      []string // what changed of what it is
	size     bool     // it is larger, smaller or drawn otherwise, so that what it held is asked for
	foot     bool     // of a flight or a ramp: it is longer or higher, so that its foot moves and not the whole
}

func (c *comparison) say(words ...string) {
	for _, w := range words {
		if w != "" {
			c.own = append(c.own, w)
		}
	}
}

// compared returns what changed of an element; ok is false where nothing did.
func compared(w wording, n *names, a, b *set.Element) (x Element, ok bool) {
	c := &comparison{wording: w, names: n, old: a, new: b}
	x = Element{Name: b.Name, Change: changed}
	c.shape()
	c.aside()
	goes := c.places()
	switch {
	case a.Name != b.Name:
		x.Change = renamed
		c.own = append([]string{"renamed from " + a.Name}, c.own...)
	case len(c.own) == 0 && len(goes) == 0:
		return Element{}, false
	case len(c.own) == 0:
		x.Change = moved
	}
	if c.size {
		x.Held = c.held()
	}
	x.Words = strings.Join(c.own, ", ")
	x.made = len(x.Words)
	for _, g := range goes {
		if x.Words != "" {
			x.Words += "; "
		}
		x.Words += g
	}
	return x, true
}
