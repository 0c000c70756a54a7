package rules

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
	"markout/layout/unit"
)

// slender is the height over the least base from which a piece tips easily: common practice, no source.
const slender = 3

var slenderBand = []band{{"pieces that stand free", 0, slender, practice}}

// held is how near, in millimetres, things must come to hold each other: common practice, no source.
const held = 50

func times(x float64) string { return unit.FormatNumber(x, 0.1) + " times" }

// pile is how high the copies of one element that lie on top of one another reach together.
type pile struct {
	low, high float64
	count     int
	copies    []int // their indices in the element's copies
}

func (p *pile) height() float64 { return p.high - p.low }

// tall looks for pieces more than three times as high as their base is deep: loose blocks one by one, posts that carry
// nothing, flats without a return, standing shapes without a brace, platforms, rings and cones, and what is stacked as a
// pile. What hangs on a flat is left aside.
func (c *checker) tall() {
	for _, e := range c.set.Elements {
		if aloft(e) {
			continue
		}
		if s, ok := e.Shape.(*set.Steps); ok {
			if s.Blocks {
				c.tallBlocks(e, s)
			}
			continue
		}
		h := tipping(e.Shape)
		if h <= 0 || c.hung(e) {
			continue
		}
		if s, ok := e.Shape.(*set.Cone); ok && s.Lower <= geom.Tolerance {
			c.onPoint(e)
			continue
		}
		piles := pilesOf(e, h)
		if len(piles) == 0 {
			continue
		}
		highest := slices.MaxFunc(piles, func(a, b pile) int { return cmp.Compare(a.height(), b.height()) })
		base := baseOf(e.Shape, highest.height()/slender)
		if base <= 0 {
			continue
		}
		piles = slices.DeleteFunc(piles, func(p pile) bool { return p.height()/base <= slender+0.05 })
		if len(piles) > 0 && h/base > slender+0.05 {
			upright := upright(c.scene(), e)
			piles = slices.DeleteFunc(piles, func(p pile) bool {
				return slices.ContainsFunc(p.copies, func(k int) bool { return upright[k] })
			})
		}
		c.tallPiles(e, piles, base)
	}
}

// pilesOf gathers the copies of e by where they stand on the plan at first; h is how high one of them is.
func pilesOf(e *set.Element, h float64) []pile {
	var piles []pile
	at := make(map[geom.Point]int)
	for k, cp := range e.Copies {
		if len(cp.Places) == 0 {
			continue
		}
		low := cp.Places[0].Level()
		i, ok := at[cp.Places[0].Frame.T.Plan()]
		if !ok {
			i = len(piles)
			at[cp.Places[0].Frame.T.Plan()] = i
			piles = append(piles, pile{low: low, high: low + h})
		}
		p := &piles[i]
		p.low, p.high, p.count, p.copies = min(p.low, low), max(p.high, low+h), p.count+1, append(p.copies, k)
	}
	return piles
}

// tallPiles notes the tallest of the piles that are too tall, and how many there are.
func (c *checker) tallPiles(e *set.Element, piles []pile, base float64) {
	if len(piles) == 0 {
		return
	}
	w := slices.MaxFunc(piles, func(a, b pile) int { return cmp.Compare(a.height(), b.height()) })
	what, more := "", ""
	if w.count > 1 {
		what = plain(w.count) + " on top of one another are "
	}
	if len(piles) > 1 {
		more = "; " + plain(len(piles)) + " of them"
	}
	x := w.height() / base
	c.add(e, finding{code: "TALL", figure: times(x), limit: limits(slenderBand, times), source: practice,
		at: []string{"stack", "height", "thickness", "diameter"}},
		"%s%s high on a base of %s, %s as high as it is deep: it tips easily, fix or weight it%s", what, c.length(w.height()),
		c.length(base), times(x), more)
}

// tallBlocks names the block of a flight that is tallest for its base.
func (c *checker) tallBlocks(e *set.Element, s *set.Steps) {
	treads := s.Treads()
	base := func(i int) float64 {
		if s.Line != nil {
			return leastWidth(set.Outline{Path: s.TreadOutline(i).Outer}, treads[i].Top/slender)
		}
		return min(treads[i].Y1-treads[i].Y0, treads[i].Width)
	}
	k, n, of := slenderBand[0].worst(len(treads), 0.05, func(i int) (float64, bool) {
		b := base(i)
		return treads[i].Top / b, b > 0
	})
	if k < 0 {
		return
	}
	t := treads[k]
	how := "deep"
	if t.Width < t.Y1-t.Y0 {
		how = "wide"
	}
	c.add(e, finding{code: "TALL", figure: times(t.Top / base(k)), limit: limits(slenderBand, times), source: practice,
		at: []string{"built", "goings", "going"}},
		"block %d is %s high and %s %s, %s as high as it is %s: it tips easily, fix or weight it%s", k+1, c.length(t.Top),
		c.length(base(k)), how, times(t.Top/base(k)), how, counted(n, of, "block"))
}

// tipping returns the height of a piece that may tip over; 0 of one that lies, is braced, or is no piece.
func tipping(sh set.Shape) float64 {
	switch s := sh.(type) {
	case *set.Platform, *set.Post, *set.Ring, *set.Flat, *set.Cone:
		return set.Height(s)
	case *set.Panel:
		if !s.Stands {
			return s.Thickness
		}
		if !s.Brace {
			return s.Outline.Path.Bounds().H()
		}
	}
	return 0
}

// baseOf returns the least width of a piece's base, or something less that is still enough.
func baseOf(sh set.Shape, enough float64) float64 {
	switch s := sh.(type) {
	case *set.Platform:
		return leastWidth(s.Outline, enough)
	case *set.Post:
		if s.Diameter > 0 {
			return s.Diameter
		}
		return leastWidth(s.Outline, enough)
	case *set.Ring:
		return leastWidth(s.Outer, enough)
	case *set.Panel:
		if !s.Stands {
			return leastWidth(s.Outline, enough)
		}
		return s.Thickness
	case *set.Cone:
		return leastWidth(s.Rim(s.Lower), enough)
	case *set.Flat:
		if p, err := s.Strip(0, s.Length); s.Line != nil && err == nil { // a curve stands by its depth
			return leastWidth(set.Outline{Form: "path", Path: p}, enough)
		}
		return s.Thickness
	}
	return 0
}

// upright returns the copies of e that something keeps upright where they stand at first.
func upright(sc *solid.Scene, e *set.Element) map[int]bool {
	out := map[int]bool{}
	first, ok := sc.First[e]
	if !ok {
		return out
	}
	for i := int(first); i < len(sc.Pieces) && sc.Pieces[i].Element == e; i++ {
		if p := &sc.Pieces[i]; p.Position == "" && heldUp(sc, p) {
			out[p.Copy] = true
		}
	}
	return out
}

// heldUp reports whether something keeps a tall piece upright: what rests on a post's head, a return that meets a flat
// at an angle.
func heldUp(sc *solid.Scene, p *solid.Piece) bool {
	for k := p.Solids[0]; k < p.Solids[1]; k++ {
		s := &sc.Solids[k]
		for _, j := range sc.About(s.Box.Grow(held), "", nil) {
			n := &sc.Solids[j]
			if n.Piece == s.Piece {
				continue
			}
			q := &sc.Pieces[n.Piece]
			switch p.Element.Shape.(type) {
			case *set.Flat:
				if _, flat := q.Element.Shape.(*set.Flat); flat && atAngle(p, q) && apart(s, n) <= held &&
					n.Under < s.A && s.Under < n.A {
					return true
				}
			case *set.Post:
				if math.Abs(n.Under-s.A) <= 1 && n.Region.Contains(s.Box.Mid()) {
					return true
				}
			}
		}
	}
	return false
}

func apart(a, b *solid.Solid) float64 {
	d, _, _ := geom.Distance(a.Region, b.Region)
	return d
}

// atAngle reports whether two flats stand at more than 15° to each other, a curved one at either of its ends.
func atAngle(a, b *solid.Piece) bool {
	for _, x := range runs(a) {
		for _, y := range runs(b) {
			if math.Abs(x.Cross(y)) > 0.2588 {
				return true
			}
		}
	}
	return false
}

// runs returns the directions in which a flat runs at its ends, in the set's axes.
func runs(p *solid.Piece) []geom.Point {
	f, ok := p.Element.Shape.(*set.Flat)
	if !ok {
		return nil
	}
	m := p.Place.Frame.Plan()
	_, first := f.Along(0)
	_, last := f.Along(f.Length)
	return []geom.Point{m.Vector(first), m.Vector(last)}
}
