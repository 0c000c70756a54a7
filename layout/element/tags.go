package element

import (
	"markout/layout/diag"
	"markout/layout/set"
)

// tagged is a number on a tag: the room that it is in, and the number.
type tagged struct {
	room   string
	number int
}

// tags looks for two pieces of a room overhead that were given the same number: whoever reads a tag from beneath must know
// which piece it is of. Numbers that are not given are chosen so that none is taken twice.
func (sc *scene) tags(s *set.Set) {
	type owner struct {
		name string
		at   diag.Span
	}
	first := map[tagged]owner{}
	for _, e := range s.Elements {
		d, ok := e.Shape.(*set.Dressing)
		if !ok || d.Tag == 0 {
			continue
		}
		for i, c := range e.Copies {
			over := c.Places[0].Over
			if over == nil {
				break // the right way up nothing is tagged
			}
			key := tagged{over.Room, d.Tag + i}
			if o, taken := first[key]; taken {
				sc.list.Errorf(e.Spans["tag"], "%s would have tag %d of %s, which is that of %s; the first is at %s",
					e.CopyName(c), key.number, over.Room, o.name, sc.list.Sources.Position(o.at))
				break
			}
			first[key] = owner{e.CopyName(c), e.Spans["tag"]}
		}
	}
}
