package figures

import (
	"slices"

	"markout/layout/set"
)

// OnWall reports whether an element is fixed to a flat where it stands first.
func OnWall(s *set.Set, e *set.Element) bool {
	if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 || e.Copies[0].Places[0].On == "" {
		return false
	}
	on := s.Find(e.Copies[0].Places[0].On)
	if on == nil {
		return false
	}
	_, flat := on.Shape.(*set.Flat)
	return flat
}

// HeadOnly reports whether of a figure nothing but its head is made: it asks for the head and not for its face full size.
func HeadOnly(e *set.Element, f *set.Figure) bool {
	return f.Head > 0 && !slices.Contains(e.FullSize, "face")
}

// Above returns how high over what a pole or a person stands on the figure's own z 0 lies where it stands first: 0 of one that
// stands on a piece, the level at which it is placed of any other.
func Above(s *set.Set, e *set.Element) float64 {
	if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 {
		return 0
	}
	if pl := e.Copies[0].Places[0]; pl.On == "" || OnWall(s, e) {
		return max(pl.Level(), 0)
	}
	return 0
}
