package trial

import (
	"cmp"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/set"
)

// raised gathers cautions by code and piece; of which copy or position one is said does not matter.
func raised(s *set.Set, list []caution.Caution) map[Raised]bool {
	out := make(map[Raised]bool, len(list))
	for _, c := range list {
		name := c.Element
		if bare, _, ok := strings.Cut(name, "."); ok && s.Find(bare) != nil {
			name = bare
		} else if bare, _, ok := strings.Cut(name, " ("); ok && s.Find(bare) != nil {
			name = bare
		}
		out[Raised{c.Code, name}] = true
	}
	return out
}

// without returns what a has and b has not, in the order of codes and names.
func without(a, b map[Raised]bool) []Raised {
	var out []Raised
	for r := range a {
		if !b[r] {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(x, y Raised) int {
		return cmp.Or(cmp.Compare(x.Code, y.Code), cmp.Compare(x.Element, y.Element))
	})
	return out
}

func hasBlocks(s *set.Set) bool {
	return slices.ContainsFunc(s.Elements, func(e *set.Element) bool {
		st, ok := e.Shape.(*set.Steps)
		return ok && st.Blocks
	})
}
