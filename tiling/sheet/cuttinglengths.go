package sheet

import (
	"strconv"

	"markout/layout/takeoff"
	"markout/tiling/cut"
)

// sawBars lays what is still to be laid of one length.
func (c *Cutting) sawBars(b int) {
	bar, s := &c.set.Lengths[b], &c.bars[b]
	first := len(c.Bars)
	var pieces []cut.Piece
	var of, copies []int
	for i := range c.Taken.Pieces {
		if p := &c.Taken.Pieces[i]; p.Bar == b && c.left[i] > 0 {
			pieces = append(pieces, cut.Piece{ID: strconv.Itoa(p.Item), Length: p.Length, Count: c.left[i]})
			of, copies = append(of, i), append(copies, c.first[i])
		}
	}
	if len(pieces) > 0 {
		plan, err := cut.Lengths([]cut.Bar{{Name: bar.Name, Length: bar.Long, Count: inHand(bar.Count, s.kept)}}, pieces, bar.Kerf, cut.Options{Effort: c.opt.Effort})
		if err != nil {
			c.Taken.Missing = append(c.Taken.Missing, takeoff.Missing{What: "bars of " + bar.Name, Why: err.Error()})
		} else {
			s.unproven, s.patched = s.kept == 0 && !plan.Proven, s.kept > 0
			for i := range plan.Bars {
				k := &plan.Bars[i]
				s.last++
				out := CutBar{Bar: b, Number: s.last, Offcut: k.Offcut}
				for _, one := range k.Cuts {
					out.Cuts = append(out.Cuts, BarCut{Piece: of[one.Piece], Copy: copies[one.Piece], From: one.From})
					copies[one.Piece]++
				}
				c.Bars = append(c.Bars, out)
			}
		}
	}
	for n := range c.Bars[first-s.kept:] {
		c.Bars[first-s.kept+n].Short = bar.Count > 0 && n >= bar.Count
	}
}
