package rules

import (
	"strings"

	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
)

// mostPairs is how many pairs of pieces in one another are looked for: where a list has no places, so that all its pieces are in
// one, it is enough to know that there are many.
const mostPairs = 100

// through looks for pieces of a room that stand in one another.
func (c *checker) through(r *overhead.Room) {
	pairs, first := inOneAnother(c.scene(), r.Element.Name)
	if first == nil {
		return
	}
	const shown = 3
	figure, who := plainCount("pair")(float64(len(pairs))), strings.Join(pairs[:min(shown, len(pairs))], "; ")
	switch more := len(pairs) - shown; {
	case len(pairs) > mostPairs:
		figure, who = "more than "+plainCount("pair")(mostPairs), who+"; and many more"
	case more > 0:
		who += "; and " + plain(more) + " more"
	}
	c.add(first, finding{code: "OVER-THROUGH", figure: figure, limit: "none", source: practice, at: []string{"at"}},
		"pieces of %s stand in one another: %s", r.Element.Name, who)
}

// inOneAnother returns the names of the pairs of a room's pieces that lie over one another on the plan and in their heights, at most
// one more than mostPairs, and the first piece of all. What only touches, as what stands on another does, is in nothing.
func inOneAnother(sc *solid.Scene, room string) (pairs []string, first *set.Element) {
	const touch = 1 // millimetre
	var near []int32
	seen := map[[2]int32]bool{}
	for i := range sc.Solids {
		s := &sc.Solids[i]
		p := &sc.Pieces[s.Piece]
		if !s.Hung || p.Place.Over.Room != room || p.Position != "" {
			continue
		}
		near = sc.About(s.Box, "", near)
		for _, j := range near {
			n := &sc.Solids[j]
			if n.Piece <= s.Piece || !n.Hung || seen[[2]int32{s.Piece, n.Piece}] {
				continue
			}
			if s.A-touch <= n.Under || n.A-touch <= s.Under || !geom.Overlaps(s.Region, n.Region) {
				continue
			}
			seen[[2]int32{s.Piece, n.Piece}] = true
			if first == nil {
				first = p.Element
			}
			if pairs = append(pairs, p.Name()+" and "+sc.Pieces[n.Piece].Name()); len(pairs) > mostPairs {
				return pairs, first
			}
		}
	}
	return pairs, first
}
