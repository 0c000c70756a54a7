package sheet

import (
	"cmp"
	"slices"

	"markout/layout/develop"
)

// renumbered returns the model with the elements in the earlier issue's order, new ones after them, and with the earlier numbers of
// the pieces that were found there and of the joints between the same two pieces. A piece that is new or has changed keeps the
// number that it has by its order unless another has it; a new joint has the next number. A copy none of whose pieces was found
// is numbered anew. The matcher then speaks of the pieces in their new order.
func (k *matcher) renumbered() *develop.Model {
	m := *k.m
	rank := map[string]int{}
	for i, e := range k.was.Elements {
		rank[e.Element] = i - len(k.was.Elements)
	}
	order := map[string]int{}
	for i, n := range elementsOf(k.m) {
		order[n] = i
		if r, ok := rank[k.then[n]]; ok && k.then[n] != "" {
			order[n] = r
		}
	}
	by := func(a, b string) int { return cmp.Compare(order[baseName(a)], order[baseName(b)]) }

	at := make([]int, len(m.Pieces))
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, func(a, b int) int { return by(m.Pieces[a].Element, m.Pieces[b].Element) })
	pieces, of, shapes, to := make([]develop.Piece, len(at)), make([]int, len(at)), make([]string, len(at)), make([]int, len(at))
	for i, from := range at {
		pieces[i], of[i], shapes[i], to[from] = m.Pieces[from], k.of[from], k.shapes[from], i
	}
	m.Pieces, k.of, k.shapes = pieces, of, shapes
	m.Joints = slices.Clone(m.Joints)
	for i := range m.Joints {
		j := &m.Joints[i]
		j.A.Piece, j.B.Piece = to[j.A.Piece], to[j.B.Piece]
	}
	slices.SortStableFunc(m.Joints, func(a, b develop.Joint) int { return by(a.Element, b.Element) })
	m.Rods, m.Small, m.Notes = slices.Clone(m.Rods), slices.Clone(m.Small), slices.Clone(m.Notes)
	slices.SortStableFunc(m.Rods, func(a, b develop.Rod) int { return by(a.Element, b.Element) })
	slices.SortStableFunc(m.Small, func(a, b develop.Small) int { return by(a.Element, b.Element) })
	slices.SortStableFunc(m.Notes, func(a, b develop.Note) int { return by(a.Element, b.Element) })
	k.m = &m
	k.numberPieces()
	k.numberJoints()
	return k.m
}

// own reports whether a piece was found among those of its own copy.
func (k *matcher) own(piece int) bool {
	return k.of[piece] >= 0 && k.old[k.of[piece]].copyName == k.thenCopy(k.m.Pieces[piece].Element)
}

// numberPieces gives pieces their numbers, copy by copy.
func (k *matcher) numberPieces() {
	last := map[string]int{} // the greatest number in each copy of the earlier issue
	for _, o := range k.old {
		last[o.copyName] = max(last[o.copyName], o.number)
	}
	labels := map[string]string{}
	ps := k.m.Pieces
	for lo, hi := 0, 0; lo < len(ps); lo = hi {
		for hi = lo; hi < len(ps) && ps[hi].Element == ps[lo].Element; hi++ {
		}
		used := map[int]bool{}
		for i := lo; i < hi; i++ {
			if k.own(i) {
				used[k.old[k.of[i]].number] = true
			}
		}
		if len(used) == 0 {
			continue
		}
		was := make([]string, hi-lo)
		var late []int // those whose own number another has
		for i := lo; i < hi; i++ {
			p := &ps[i]
			was[i-lo] = p.Label()
			switch {
			case k.own(i):
				p.Number = k.old[k.of[i]].number
			case used[p.Number]:
				late = append(late, i)
			default:
				used[p.Number] = true
			}
		}
		next := last[k.thenCopy(ps[lo].Element)] + 1
		for _, i := range late {
			for used[next] {
				next++
			}
			ps[i].Number, used[next] = next, true
		}
		of := 0
		for n := range used {
			of = max(of, n)
		}
		for i := lo; i < hi; i++ {
			ps[i].Of = of
			labels[was[i-lo]] = ps[i].Label()
		}
	}
	for i := range k.m.Rods {
		r := &k.m.Rods[i]
		if l, ok := labels[r.Piece]; ok {
			r.Piece = l
		}
	}
}

// numberJoints gives joints their numbers, and the tabs that serve them.
func (k *matcher) numberJoints() {
	known := map[string]*CopyRecord{}
	for i := range k.was.Elements {
		for n := range k.was.Elements[i].Copies {
			r := &k.was.Elements[i].Copies[n]
			known[r.Copy] = r
		}
	}
	kept := map[string]bool{} // copies with a piece that was found
	for i := range k.m.Pieces {
		if k.own(i) {
			kept[k.m.Pieces[i].Element] = true
		}
	}
	js := k.m.Joints
	now := map[string]map[int]int{} // of each copy: the number of the joint that had a number by its order
	for lo, hi := 0, 0; lo < len(js); lo = hi {
		for hi = lo; hi < len(js) && js[hi].Element == js[lo].Element; hi++ {
		}
		name := js[lo].Element
		r := known[k.thenCopy(name)]
		if r == nil || !kept[name] {
			continue
		}
		free, next := map[[2]int][]int{}, 0
		for _, j := range r.Joints {
			pair := [2]int{j[1], j[2]}
			free[pair] = append(free[pair], j[0])
			next = max(next, j[0])
		}
		own := map[int]int{}
		for i := lo; i < hi; i++ {
			j := &js[i]
			pair := [2]int{k.m.Pieces[j.A.Piece].Number, k.m.Pieces[j.B.Piece].Number}
			n := next + 1
			if f := free[pair]; len(f) > 0 {
				n, free[pair] = f[0], f[1:]
			} else {
				next = n
			}
			own[j.Number] = n
			j.Number = n
		}
		now[name] = own
	}
	for i := range k.m.Pieces {
		p := &k.m.Pieces[i]
		own := now[p.Element]
		if own == nil || len(p.Tabs) == 0 {
			continue
		}
		p.Tabs = slices.Clone(p.Tabs)
		for t := range p.Tabs {
			if n, ok := own[p.Tabs[t].Joint]; ok {
				p.Tabs[t].Joint = n
			}
		}
	}
}

// outOfOrder reports whether some joint is made before one with a lesser number.
func (c *CardModel) outOfOrder() bool {
	for i := 1; i < len(c.Model.Joints); i++ {
		a, b := &c.Model.Joints[i-1], &c.Model.Joints[i]
		if a.Element == b.Element && a.Number > b.Number {
			return true
		}
	}
	return false
}
