package develop

import (
	"slices"

	"markout/layout/set"
)

// cardNames are the names of cards that a kind is made of, the first that the set has.
var cardNames = map[string][]string{
	"platform": {"platform", "deck"},
	"steps":    {"steps", "stair", "stairs"},
	"ramp":     {"ramp"},
	"post":     {"post", "detail"},
	"flat":     {"flat", "wall"},
	"ring":     {"ring"},
	"shape":    {"shape"},
}

// cardFor chooses the card of an element: one called like it or like its kind, the one without a name, or the first.
func cardFor(e *set.Element, cards []set.Card) set.Card {
	for _, name := range append(append([]string{e.Name}, cardNames[e.Kind]...), "") {
		if i := slices.IndexFunc(cards, func(c set.Card) bool { return c.Name == name }); i >= 0 {
			return cards[i]
		}
	}
	return cards[0]
}
