package sheet

import (
	"errors"
	"slices"
	"strconv"

	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/tiling/cut"
)

// stack plans the blocks on stock boxes; the packing that boards make up becomes pieces. Blocks of an earlier issue whose tops are the
// same stay on the boxes that they stand on.
func (c *Cutting) stack() {
	if len(c.Taken.Tops) == 0 {
		return
	}
	var boxes []cut.Box
	for i, b := range c.set.Stock {
		boxes = append(boxes, cut.Box{Name: c.boxName(i), Length: b.Length, Width: b.Width, Height: b.Height, Count: b.Count})
	}
	opt := cut.BlockOptions{Options: cut.Options{Effort: c.opt.Effort}, Taken: make([]int, len(boxes))}
	for _, b := range c.set.Boards {
		if !slices.Contains(opt.Plates, b.Thick) {
			opt.Plates = append(opt.Plates, b.Thick)
		}
	}
	kept, whole := c.keptStacks(boxes, opt)
	var tops []cut.Top
	var of []int
	for i, t := range c.Taken.Tops {
		n := t.Count
		for _, k := range kept[i] {
			n -= k.Count
			for _, l := range k.Layers {
				opt.Taken[l.Box] += k.Count * l.AlongLength * l.AlongWidth
			}
		}
		if n > 0 {
			top := cutTop(&t)
			top.Count = n
			tops, of = append(tops, top), append(of, i)
		}
	}
	plan, err := cut.Blocks(boxes, tops, opt)
	var faults cut.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			m := takeoff.Missing{What: "blocks on stock", Why: f.Text}
			if f.Piece >= 0 {
				m.Element, m.What = c.Taken.Tops[of[f.Piece]].Element, c.Taken.Tops[of[f.Piece]].Name
			}
			c.Taken.Missing = append(c.Taken.Missing, m)
		}
		return
	}
	if err != nil {
		c.Taken.Missing = append(c.Taken.Missing, takeoff.Missing{What: "blocks on stock", Why: err.Error()})
		return
	}
	c.Blocks = c.together(plan, of, kept)
	some := slices.ContainsFunc(kept, func(k []keptStack) bool { return len(k) > 0 })
	switch {
	case !some:
		c.rough = !plan.Proven
	case whole && len(tops) == 0:
		c.rough, c.restacked = c.opt.Since.Rough, c.opt.Since.Patched
	default:
		c.restacked = true
	}
	c.pack()
}

// pack adds the packing under the tops to the pieces.
func (c *Cutting) pack() {
	for _, t := range c.Blocks.Tops {
		top := &c.Taken.Tops[t.Top]
		for k, thick := range t.Plates {
			b := slices.IndexFunc(c.set.Boards, func(b set.Board) bool { return b.Thick == thick })
			c.Taken.Pieces = append(c.Taken.Pieces, takeoff.Piece{Item: len(c.Taken.Pieces) + 1, Element: top.Element,
				Name: top.Name + " packing " + strconv.Itoa(k+1), Board: b, Bar: -1, Length: top.Length, Width: top.Width, Thickness: thick,
				Count: t.Count, AsIs: true, Turned: true, Note: "under the top, on the boxes"})
		}
	}
}

func cutTop(t *takeoff.Top) cut.Top {
	return cut.Top{ID: t.Element + " " + t.Name, Length: t.Length, Width: t.Width, Height: t.Height, Count: t.Count}
}
