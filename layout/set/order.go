package set

import "slices"

// Order is the names of a set's things in the order of its file.
type Order struct {
	Elements []string `json:"elements"`
	Boards   []string `json:"boards,omitempty"`
	Lengths  []string `json:"lengths,omitempty"`
	Parts    []string `json:"parts,omitempty"`
}

// Order returns the order in which the set's things stand.
func (s *Set) Order() Order {
	return Order{
		Elements: names(s.Elements, elementName), Boards: names(s.Boards, boardName),
		Lengths: names(s.Lengths, lengthName), Parts: names(s.Parts, partName),
	}
}

// InOrder returns the set with its things in an earlier order, so that what is listed and numbered in the file's order stays where
// it was when only the file's lines have changed places. Was says what elements that are called otherwise now were called then.
// What that order does not have comes after what stands before it here. The things themselves are shared.
func (s *Set) InOrder(o Order, was map[string]string) *Set {
	own := *s
	own.Elements = inOrder(s.Elements, o.Elements, func(e *Element) string {
		if n, ok := was[e.Name]; ok {
			return n
		}
		return e.Name
	})
	own.Boards = inOrder(s.Boards, o.Boards, boardName)
	own.Lengths = inOrder(s.Lengths, o.Lengths, lengthName)
	own.Parts = inOrder(s.Parts, o.Parts, partName)
	return &own
}

func elementName(e *Element) string { return e.Name }
func boardName(b Board) string      { return b.Name }
func lengthName(l Length) string    { return l.Name }
func partName(p Part) string        { return p.Name }

func names[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = name(x)
	}
	return out
}

// inOrder sorts what the earlier order has by it, and puts each other thing behind its predecessor in the list.
func inOrder[T any](list []T, earlier []string, name func(T) string) []T {
	rank := make(map[string]int, len(earlier))
	for i, n := range earlier {
		if _, ok := rank[n]; !ok {
			rank[n] = i
		}
	}
	var known []T
	after := make([][]T, 1, len(list)+1) // of what stands before all that is known, then of each in turn
	of := map[string]int{}               // by the name of what is known: its place in after
	last := 0
	for _, x := range list {
		n := name(x)
		if _, ok := rank[n]; !ok {
			after[last] = append(after[last], x)
			continue
		}
		known = append(known, x)
		if _, ok := of[n]; !ok {
			of[n] = len(after)
			after = append(after, nil)
		}
		last = of[n]
	}
	slices.SortStableFunc(known, func(a, b T) int { return rank[name(a)] - rank[name(b)] })
	out := make([]T, 0, len(list))
	out = append(out, after[0]...)
	for i, x := range known {
		out = append(out, x)
		if i+1 == len(known) || name(known[i+1]) != name(x) {
			out = append(out, after[of[name(x)]]...)
		}
	}
	return out
}
