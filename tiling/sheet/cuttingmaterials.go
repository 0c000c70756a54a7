package sheet

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// stockState is what is known of one material: its boards, or its bars.
type stockState struct {
	was      *BoardsOf // the earlier issue's, nil for none
	wasBars  *BarsOf
	fits     bool // what lies on those can lie so now
	last     int  // the greatest number that one has
	kept     int  // how many stay
	unproven bool
	patched  bool // kept and new ones together, or kept ones with holes: laid anew all may take fewer
	free     int  // how many boards do where pieces lie free; 0 for no fewer
}

// nearThick reports whether a board is one that was measured again and not another one: a tenth of its thickness, and not less than a
// millimetre (common practice, no source).
func nearThick(was, is float64) bool { return math.Abs(was-is) <= max(1, 0.1*was) }

// since looks up each material in the earlier issue: by its name, or else one that is there no more and alike in all.
func (c *Cutting) since() {
	c.boards, c.bars = make([]stockState, len(c.set.Boards)), make([]stockState, len(c.set.Lengths))
	was := c.opt.Since
	if was == nil {
		return
	}
	named, then := map[string]bool{}, map[string]bool{}
	for i := range c.set.Boards {
		named[c.set.Boards[i].Name] = true
	}
	for i := range c.set.Lengths {
		named[c.set.Lengths[i].Name] = true
	}
	for i := range was.Boards {
		then[was.Boards[i].Name] = true
	}
	for i := range was.Bars {
		then[was.Bars[i].Name] = true
	}
	called := map[string]bool{} // otherwise now
	serves := func(was, is string, alike bool) bool {
		switch {
		case was == is:
			return true
		case !alike || named[was] || then[is] || called[was]:
			return false
		}
		called[was] = true
		return true
	}
	for b := range c.set.Boards {
		m, s := &c.set.Boards[b], &c.boards[b]
		for i := range was.Boards {
			if r := &was.Boards[i]; s.was == nil && serves(r.Name, m.Name, r.alike(m)) {
				s.was, s.last = r, r.Last
				s.fits = r.alike(m) && was.Free == c.opt.Free
			}
		}
	}
	for b := range c.set.Lengths {
		m, s := &c.set.Lengths[b], &c.bars[b]
		for i := range was.Bars {
			if r := &was.Bars[i]; s.wasBars == nil && serves(r.Name, m.Name, r.alike(m)) {
				s.wasBars, s.last, s.fits = r, r.Last, r.alike(m)
			}
		}
	}
}

func sameLength(a, b float64) bool { return math.Abs(a-b) <= geom.Tolerance }

// alike reports whether what lies on the earlier boards can lie so on a board.
func (r *BoardsOf) alike(m *set.Board) bool {
	return sameLength(r.Size[0], m.Length) && sameLength(r.Size[1], m.Width) && sameLength(r.Kerf, m.Kerf) && r.Grain == string(m.Grain) &&
		nearThick(r.Thick, m.Thick)
}

func (r *BarsOf) alike(m *set.Length) bool {
	return sameLength(r.Long, m.Long) && sameLength(r.Kerf, m.Kerf) && nearThick(r.Section[0], m.Width) && nearThick(r.Section[1], m.Depth)
}
