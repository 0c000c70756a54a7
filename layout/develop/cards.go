package develop

import (
	"slices"

	"markout/layout/set"
)

// cardNames are the names of cards by which a kind is known, the first that the set has: its own, what it is in a set,
// and `detail` for what is small.
var cardNames = map[string][]string{
	"platform": {"platform", "deck"},
	"steps":    {"steps", "stair", "stairs"},
	"ramp":     {"ramp"},
	"post":     {"post", "detail"},
	"cone":     {"cone", "detail"},
	"flat":     {"flat", "wall"},
	"ring":     {"ring"},
	"shape":    {"shape"},
	"figure":   {"figure", "detail"},
}

// cardFor chooses the card of an element: the one that its `model` names, one called like it, one called by its kind
// (see cardNames), the one without a name, and where all have other names the first of them.
func cardFor(e *set.Element, cards []set.Card) set.Card {
	names := append(append([]string{e.Model, e.Name}, cardNames[e.Kind]...), "")
	if e.Model == "" {
		names = names[1:]
	}
	for _, name := range names {
		if i := slices.IndexFunc(cards, func(c set.Card) bool { return c.Name == name }); i >= 0 {
			return cards[i]
		}
	}
	return cards[0]
}
