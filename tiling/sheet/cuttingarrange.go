package sheet

import (
	"fmt"
	"math"
)

// tell says of which materials fewer may do, and how.
func (c *Cutting) tell() {
	for b := range c.boards {
		s, m := &c.boards[b], &c.set.Boards[b]
		n, used := 0, 0.0
		for i := range c.Boards {
			if c.Boards[i].Board == b {
				n++
				used += c.Boards[i].Used
			}
		}
		c.says(s, m.Name, n, used/(m.Length*m.Width))
		if s.free > 0 {
			c.Freer = append(c.Freer, fmt.Sprintf("%s: --free takes %s instead of %d", m.Name, counted(s.free, "board"), n))
		}
	}
	for b := range c.bars {
		s, m := &c.bars[b], &c.set.Lengths[b]
		n, used := 0, 0.0
		for i := range c.Bars {
			if c.Bars[i].Bar == b {
				n++
				for _, k := range c.Bars[i].Cuts {
					used += c.Taken.Pieces[k.Piece].Length + m.Kerf
				}
			}
		}
		c.says(s, m.Name, n, used/(m.Long+m.Kerf))
	}
	if c.rough {
		c.Unproven = append([]string{stockBoxes}, c.Unproven...)
	}
	if c.restacked {
		c.Patched = append([]string{stockBoxes}, c.Patched...)
	}
}

// stockBoxes is what the boxes of the stock are called where materials are named.
const stockBoxes = "stock boxes"

// says notes a material of which n boards or bars are taken, and at least so many are filled.
func (c *Cutting) says(s *stockState, name string, n int, filled float64) {
	switch {
	case s.patched && float64(n) > math.Ceil(filled-1e-6):
		c.Patched = append(c.Patched, name)
	case s.unproven && !s.patched:
		c.Unproven = append(c.Unproven, name)
	}
}

// arrange says which boards and which bars one drawing shows, and where each strip of bars stands. New ones are not shown with those of
// the earlier issue, whose sheets would have to be printed again.
func (c *Cutting) arrange() {
	was := 0
	for i := range c.Boards {
		b := &c.Boards[i]
		then := b.sheet
		joins := i > 0 && then == was && b.Number == c.Boards[i-1].Number+1 && sameBoard(&c.Boards[i-1], b)
		if was, b.sheet = then, b.Number; joins {
			b.sheet = c.Boards[i-1].sheet
		}
	}
	if c.opt.Since != nil {
		c.strips = c.opt.Since.Strips
	}
	taken := map[int]bool{}
	was = -1
	for i := range c.Bars {
		b := &c.Bars[i]
		then := b.strip
		if !b.kept {
			then = -1
		}
		joins := i > 0 && then == was && b.Number == c.Bars[i-1].Number+1 && sameBar(&c.Bars[i-1], b)
		switch was = then; {
		case joins:
			b.strip = c.Bars[i-1].strip
		case then >= 0 && !taken[then]:
			b.strip, taken[then] = then, true
		default:
			b.strip = c.strips
			c.strips++
		}
	}
	c.list()
}
