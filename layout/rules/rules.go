// Package rules looks at a resolved set and says what a person should look at twice before it is built or walked on:
// steps and ramps whose figures lie outside published ones, open edges, low heads, tall narrow pieces, kept distances
// and volumes that are broken. A caution gives the figure found, the figure published and where; it informs, it never
// certifies, and wherever cautions are shown the line caution.Defer is shown with them.
//
// A set in feet and inches is held against American figures, any other against English ones. They were written for
// buildings; a temporary set may fall under other rules, which is one more reason to ask.
package rules

import (
	"cmp"
	"fmt"
	"slices"

	"markout/layout/caution"
	"markout/layout/diag"
	"markout/layout/figures"
	"markout/layout/set"
	"markout/layout/solid"
)

// Check returns what there is to say of s, in the order of its elements in the file and then by code. One element has
// at most one caution of a code for each position that it stands in: the worst case is named, the others are counted.
func Check(s *set.Set) []caution.Caution { return (&Memory{}).Check(s) }

// Memory checks sets that are alike, one after another or at one time, and works out only once what they have in common: where
// their cut-outs are thin.
type Memory struct{ thin figures.Thins }

// Check is the function Check.
func (m *Memory) Check(s *set.Set) []caution.Caution {
	c := &checker{set: s, memory: m, words: words{s.Units}, book: &english, order: make(map[string]int, len(s.Elements))}
	if s.Units.Imperial() {
		c.book = &american
	}
	for i, e := range s.Elements {
		c.order[e.Name] = i
		switch sh := e.Shape.(type) {
		case *set.Steps:
			if !aloft(e) {
				c.steps(e, sh)
			}
		case *set.Ramp:
			if !aloft(e) {
				c.ramp(e, sh)
			}
		case *set.Figure:
			c.figure(e, sh)
		case *set.Cloth:
			c.cloth(e, sh)
		}
	}
	c.artwork()
	c.edges()
	c.headroom()
	c.tall()
	c.ceiling()
	c.rooms()
	c.reserves()
	c.keeps()
	c.cutting()
	slices.SortStableFunc(c.found, func(a, b noted) int {
		return cmp.Or(cmp.Compare(a.order, b.order), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Element, b.Element))
	})
	out := make([]caution.Caution, len(c.found))
	for i, n := range c.found {
		out[i] = n.Caution
	}
	return out
}

// noted is a caution with its element's place in the file.
type noted struct {
	caution.Caution
	order int
}

type checker struct {
	set *set.Set
	words
	book  *book
	order map[string]int // of the elements, by name
	found []noted
	built *solid.Scene

	memory *Memory
}

// aloft reports whether an element hangs in a room overhead: nobody climbs it, and it tips over nothing. What hangs there is looked
// at with its room.
func aloft(e *set.Element) bool {
	return len(e.Copies) > 0 && len(e.Copies[0].Places) > 0 && e.Copies[0].Places[0].Over != nil
}

// scene returns the set's solids, built when they are first wanted: a set of nothing but posts and kerbs never does.
func (c *checker) scene() *solid.Scene {
	if c.built == nil {
		c.built = solid.NewScene(c.set)
	}
	return c.built
}

// has reports whether some element's shape is of a sort.
func (c *checker) has(sort func(set.Shape) bool) bool {
	return slices.ContainsFunc(c.set.Elements, func(e *set.Element) bool { return sort(e.Shape) })
}

// finding is what one rule has found of one element.
type finding struct {
	code   string
	who    string // the name to use, where it is not the element's own
	figure string
	limit  string
	source string
	at     []string // attribute words to point at: the first that the text has, otherwise the element's name
}

// add notes a finding with its message.
func (c *checker) add(e *set.Element, f finding, message string, args ...any) {
	sp := e.NameSpan
	if sp.IsZero() {
		sp = e.Span
	}
	for _, w := range f.at {
		if s, ok := e.Spans[w]; ok {
			sp = s
			break
		}
	}
	c.note(c.order[e.Name], cmp.Or(f.who, e.Name), sp, f, fmt.Sprintf(message, args...))
}

func (c *checker) note(order int, name string, sp diag.Span, f finding, message string) {
	c.found = append(c.found, noted{caution.Caution{Code: f.code, Element: name, Span: sp, Message: message,
		Figure: f.figure, Limit: f.limit, Source: f.source}, order})
}
