package rules

import (
	"strings"

	"markout/layout/setout"
)

// keeps looks for distances that the file wants kept and that are less, as the list of clear distances has them.
func (c *checker) keeps() {
	if len(c.set.Keeps) == 0 {
		return
	}
	for _, d := range setout.Clearances(c.set) {
		b := band{"what the file keeps", d.AtLeast, 0, "the file's own keep line"}
		if d.Asked != setout.Keep || b.miss(d.Clear, c.visible()) == 0 {
			continue
		}
		c.note(c.order[elementOf(d.From)], d.From, d.Span,
			finding{code: "KEEP", figure: c.length(d.Clear), limit: "at least " + c.length(d.AtLeast), source: b.Source},
			d.From+" and "+d.To+" stand "+c.length(d.Clear)+" apart on the plan, "+c.length(d.AtLeast-d.Clear)+" less than is to be kept")
	}
}

// elementOf returns the element that a piece's name speaks of: bollard of bollard.3, cart of cart (scene 2).
func elementOf(piece string) string {
	if i := strings.IndexAny(piece, ". "); i >= 0 {
		return piece[:i]
	}
	return piece
}
