package cli

import (
	"reflect"
	"slices"

	"markout/layout/caution"
	"markout/layout/changes"
	"markout/layout/diag"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/takeoff"
)

// alikeTaken reports whether all that stands on the cutting sheets of two sets is the same, wherever it stands in their files: what is
// cut, of what, and what is to be looked out for.
func alikeTaken(old, new changes.Taken) bool {
	a, b := old.Set, new.Set
	if a.Units != b.Units || a.SideNames() != b.SideNames() || a.Trial != b.Trial || !slices.Equal(a.With, b.With) || !slices.Equal(a.Stock, b.Stock) {
		return false
	}
	return reflect.DeepEqual(cutOf(old), cutOf(new)) && reflect.DeepEqual(cautionsCut(a), cautionsCut(b)) &&
		slices.EqualFunc(a.Boards, b.Boards, func(x, y set.Board) bool {
			x.Span, y.Span = diag.Span{}, diag.Span{}
			return reflect.DeepEqual(x, y)
		}) && slices.EqualFunc(a.Lengths, b.Lengths, func(x, y set.Length) bool {
		x.Span, y.Span = diag.Span{}, diag.Span{}
		return reflect.DeepEqual(x, y)
	})
}

// cutOf is what was taken off, without where the text says it.
func cutOf(t changes.Taken) takeoff.Quantities {
	q := *t.Quantities
	q.Pieces = slices.Clone(q.Pieces)
	for i := range q.Pieces {
		q.Pieces[i].Span = diag.Span{}
	}
	q.Thick = slices.Clone(q.Thick)
	for i := range q.Thick {
		q.Thick[i].Span = diag.Span{}
	}
	return q
}

// cautionsCut are the cautions of the cutting sheets, likewise.
func cautionsCut(s *set.Set) []caution.Caution {
	list := slices.Clone(cuttingCautions(s, rules.Check(s)))
	for i := range list {
		list[i].Span = diag.Span{}
	}
	return list
}
