package rules

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// taper is how a book measures treads that are deeper at one side than at the other.
type taper struct {
	fromSide float64 // the going is measured so far from a side,
	narrow   float64 // but in the middle of a flight that is less wide than this
	outer    bool    // it is measured from the wide side too, not from the narrow one alone
	least    []band  // depth at the narrow end
}

// walk is a going where people walk, and where on the tread that is; empty of a tread that is as deep everywhere.
type walk struct {
	going float64
	where string
}

// depths returns how deep tread i is, counted from 0, at its left and at its right side.
func depths(s *set.Steps, i int) (left, right float64) {
	if s.Line == nil {
		return s.Goings[i], s.Goings[i]
	}
	l, r := s.Sides(i)
	return depth(s, i, l), depth(s, i, r)
}

// depth returns how deep tread i is so far to the right of the flight's line.
func depth(s *set.Steps, i int, x float64) float64 {
	if s.Line == nil {
		return s.Goings[i]
	}
	t := s.Treads()[i]
	return s.Edge(x, t.Y0, t.Y1).Length()
}

// middle returns how deep tread i is in the middle of its width.
func middle(s *set.Steps, i int) float64 { return depth(s, i, s.Mid(i)) }

// walks returns the goings of tread i, counted from 0, where the book measures them; none of a landing.
func (c *checker) walks(s *set.Steps, i int) []walk {
	if _, ok := going(s, i); !ok {
		return nil
	}
	left, right := depths(s, i)
	if math.Abs(left-right) <= geom.Tolerance*(1+left+right) {
		return []walk{{going: left}}
	}
	b := c.book.taper
	if s.Width(i) < b.narrow {
		return []walk{{middle(s, i), " in its middle"}}
	}
	l, r := s.Sides(i)
	at := func(x float64, side string) walk {
		return walk{depth(s, i, x), ", " + c.length(b.fromSide) + " from its " + side + " side"}
	}
	narrow, wide := at(l+b.fromSide, "narrow"), at(r-b.fromSide, "wide")
	if left > right {
		narrow, wide = at(r-b.fromSide, "narrow"), at(l+b.fromSide, "wide")
	}
	if !b.outer {
		return []walk{narrow}
	}
	return []walk{narrow, wide}
}

// worstWalk returns, of the goings of tread i, the one whose figure misses the band most; the first where none does.
func (c *checker) worstWalk(s *set.Steps, i int, b band, hair float64, figure func(going float64) float64) (walk, bool) {
	all := c.walks(s, i)
	if len(all) == 0 {
		return walk{}, false
	}
	worst := all[0]
	for _, w := range all[1:] {
		if b.miss(figure(w.going), hair) > b.miss(figure(worst.going), hair) {
			worst = w
		}
	}
	return worst, true
}

// taper looks at the narrow ends of tapered treads.
func (c *checker) taper(e *set.Element, s *set.Steps) {
	bands := c.book.taper.least
	k, n, of := bands[0].worst(len(s.Goings), c.visible(), func(i int) (float64, bool) {
		if _, ok := going(s, i); !ok {
			return 0, false
		}
		left, right := depths(s, i)
		return min(left, right), math.Abs(left-right) > geom.Tolerance*(1+left+right)
	})
	if k < 0 {
		return
	}
	left, right := depths(s, k)
	x, side := left, "left"
	if right < left {
		x, side = right, "right"
	}
	c.add(e, finding{code: "STEP-TAPER", figure: c.length(x), limit: limits(bands, c.length), source: sources(bands),
		at: []string{"width", "widths", "along"}},
		"tread %d is only %s deep at its %s end, as one climbs: %s%s", k+1, c.length(x), side, verdict(bands, x, c.visible(), c.length),
		counted(n, of, "tread"))
}
