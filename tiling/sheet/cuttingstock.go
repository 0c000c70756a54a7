package sheet

import (
	"errors"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/tiling/cut"
	"slices"
	"strconv"
)

// stack plans the blocks on stock boxes; the packing that boards make up becomes pieces.
func (c *Cutting) stack() {
	if len(c.Taken.Tops) == 0 {
		return
	}
	var boxes []cut.Box
	for i, b := range c.set.Stock {
		boxes = append(boxes, cut.Box{Name: c.boxName(i), Length: b.Length, Width: b.Width, Height: b.Height, Count: b.Count})
	}
	var tops []cut.Top
	for _, t := range c.Taken.Tops {
		tops = append(tops, cut.Top{ID: t.Element + " " + t.Name, Length: t.Length, Width: t.Width, Height: t.Height, Count: t.Count})
	}
	opt := cut.BlockOptions{Options: cut.Options{Effort: c.opt.Effort}}
	for _, b := range c.set.Boards {
		if !slices.Contains(opt.Plates, b.Thick) {
			opt.Plates = append(opt.Plates, b.Thick)
		}
	}
	plan, err := cut.Blocks(boxes, tops, opt)
	var faults cut.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			m := takeoff.Missing{What: "blocks on stock", Why: f.Text}
			if f.Piece >= 0 {
				m.Element, m.What = c.Taken.Tops[f.Piece].Element, c.Taken.Tops[f.Piece].Name
			}
			c.Taken.Missing = append(c.Taken.Missing, m)
		}
		return
	}
	if err != nil {
		c.Taken.Missing = append(c.Taken.Missing, takeoff.Missing{What: "blocks on stock", Why: err.Error()})
		return
	}
	c.Blocks = plan
	if !plan.Proven {
		c.Unproven = append(c.Unproven, "stock boxes")
	}
	for _, t := range plan.Tops {
		top := &c.Taken.Tops[t.Top]
		for k, thick := range t.Plates {
			b := slices.IndexFunc(c.set.Boards, func(b set.Board) bool { return b.Thick == thick })
			c.Taken.Pieces = append(c.Taken.Pieces, takeoff.Piece{Item: len(c.Taken.Pieces) + 1, Element: top.Element,
				Name: top.Name + " packing " + strconv.Itoa(k+1), Board: b, Bar: -1, Length: top.Length, Width: top.Width, Thickness: thick,
				Count: top.Count, AsIs: true, Turned: true, Note: "under the top, on the boxes"})
		}
	}
}
