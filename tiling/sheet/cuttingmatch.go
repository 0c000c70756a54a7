package sheet

import (
	"maps"
	"slices"

	"markout/layout/set"
	"markout/layout/takeoff"
)

// cutMatcher finds the pieces of an earlier issue among those that are taken off now.
type cutMatcher struct {
	c      *Cutting
	was    *Cuts
	kinds  []string  // of each piece now: its material then, and its shape
	taken  []bool    // of each item then: a piece has its number
	boards [][][]int // by material, board and cut then: the piece that has its place, −1 for none
	bars   [][][]int
}

// match gives each piece the item number of the earlier issue's of the same material and shape: first that with its label, then one
// called alike of another element, then any; and what has none the next unused one. Then it gives the single pieces their places:
// those of their own item first, then such as no piece of their item has any more.
func (c *Cutting) match() *cutMatcher {
	pieces := c.Taken.Pieces
	c.left, c.first = make([]int, len(pieces)), make([]int, len(pieces))
	for i := range pieces {
		c.left[i] = pieces[i].Count
	}
	if c.opt.Since == nil {
		c.lastItem = len(pieces)
		return nil
	}
	k := &cutMatcher{c: c, was: c.opt.Since, kinds: make([]string, len(pieces)), taken: make([]bool, len(c.opt.Since.Items))}
	c.lastItem = k.was.LastItem
	now := map[string]string{} // what a material that has another name now was called
	for b := range c.boards {
		if r := c.boards[b].was; r != nil {
			now[c.set.Boards[b].Name] = r.Name
		}
	}
	for b := range c.bars {
		if r := c.bars[b].wasBars; r != nil {
			now[c.set.Lengths[b].Name] = r.Name
		}
	}
	for i := range pieces {
		if then, ok := now[c.material(&pieces[i])]; ok {
			k.kinds[i] = then + "\x00" + cutShape(&pieces[i])
		}
	}
	k.number()
	k.find()
	return k
}

// number gives items their numbers, and notes in of which piece has which item of the earlier issue.
func (k *cutMatcher) number() {
	pieces := k.c.Taken.Pieces
	of := make([]int, len(pieces))
	for i := range of {
		of[i] = -1
	}
	for _, label := range []func(element, piece string) string{
		func(element, piece string) string { return element + "\x00" + piece },
		func(_, piece string) string { return piece },
		func(_, _ string) string { return "" },
	} {
		free := map[string][]int{}
		for o := range k.was.Items {
			if r := &k.was.Items[o]; !k.taken[o] {
				key := label(r.Element, r.Piece) + "\x00" + r.kind()
				free[key] = append(free[key], o)
			}
		}
		for i := range pieces {
			p := &pieces[i]
			key := label(k.c.then(p.Element), p.Name) + "\x00" + k.kinds[i]
			if of[i] < 0 && k.kinds[i] != "" && len(free[key]) > 0 {
				of[i] = free[key][0]
				free[key] = free[key][1:]
				k.taken[of[i]] = true
			}
		}
	}
	called := map[string]string{}
	for i := range pieces {
		if of[i] < 0 {
			k.c.lastItem++
			pieces[i].Item = k.c.lastItem
			continue
		}
		r := &k.was.Items[of[i]]
		pieces[i].Item = r.Item
		if pieces[i].Name == takeoff.PartName && r.Piece == takeoff.PartName && r.Element != pieces[i].Element {
			called[pieces[i].Element] = r.Element
		}
	}
	k.c.call(called)
}

// call notes what parts that are called otherwise now are called in the earlier issue, as that of elements is known already, unless
// something else bears that name.
func (c *Cutting) call(parts map[string]string) {
	own := *c.set
	own.Called = maps.Clone(own.Called)
	if own.Called == nil {
		own.Called = map[string]string{}
	}
	for i := range own.Parts {
		if then, ok := parts[own.Parts[i].Name]; ok && own.Find(then) == nil && !slices.ContainsFunc(own.Parts, func(p set.Part) bool { return p.Name == then }) {
			own.Called[own.Parts[i].Name] = then
		}
	}
	c.set = &own
}

// then is what an element or a part is called in the earlier issue.
func (c *Cutting) then(element string) string {
	if n, ok := c.set.Called[element]; ok {
		return n
	}
	return element
}

func (r *ItemRecord) kind() string { return r.Of + "\x00" + r.Shape }

// find gives single pieces their places.
func (k *cutMatcher) find() {
	kindOf := map[int]string{} // by item
	for o := range k.was.Items {
		kindOf[k.was.Items[o].Item] = k.was.Items[o].kind()
	}
	own, free := map[int][]*int{}, map[string][]*int{}
	place := func(item int, at *int) {
		*at = -1
		own[item] = append(own[item], at)
		free[kindOf[item]] = append(free[kindOf[item]], at)
	}
	for m := range k.was.Boards {
		r := &k.was.Boards[m]
		all := make([][]int, len(r.Boards))
		for n := range r.Boards {
			all[n] = make([]int, len(r.Boards[n].Cuts))
			for x := range all[n] {
				place(r.Boards[n].Cuts[x].Item, &all[n][x])
			}
		}
		k.boards = append(k.boards, all)
	}
	for m := range k.was.Bars {
		r := &k.was.Bars[m]
		all := make([][]int, len(r.Bars))
		for n := range r.Bars {
			all[n] = make([]int, len(r.Bars[n].Cuts))
			for x := range all[n] {
				place(r.Bars[n].Cuts[x].Item, &all[n][x])
			}
		}
		k.bars = append(k.bars, all)
	}
	wanted := make([]int, len(k.c.Taken.Pieces))
	take := func(i int, places []*int) {
		for _, at := range places {
			if wanted[i] > 0 && *at < 0 {
				*at = i
				wanted[i]--
			}
		}
	}
	for i := range wanted {
		wanted[i] = k.c.Taken.Pieces[i].Count
		if k.kinds[i] != "" && k.kinds[i] == kindOf[k.c.Taken.Pieces[i].Item] {
			take(i, own[k.c.Taken.Pieces[i].Item])
		}
	}
	for i := range wanted {
		if k.kinds[i] != "" && wanted[i] > 0 {
			take(i, free[k.kinds[i]])
		}
	}
}
