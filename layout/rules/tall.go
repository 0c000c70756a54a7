package rules

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// slender is the height over the least base from which a piece tips easily: common practice, no source.
const slender = 3

var slenderBand = []band{{"pieces that stand free", 0, slender, practice}}

// held is how near, in millimetres, things must come to hold each other: common practice, no source.
const held = 50

func times(x float64) string { return unit.FormatNumber(x, 0.1) + " times" }

// spot is where the copies of one element that lie on top of one another stand on the plan.
type spot struct {
	element *set.Element
	at      geom.Point
}

// pile is how high such copies reach together.
type pile struct {
	low, high float64
	count     int
}

// tall looks for pieces more than three times as high as their base is deep: loose blocks one by one, posts that carry
// nothing, flats without a return, standing shapes without a brace, platforms and rings, and what is stacked as a pile.
func (c *checker) tall(sc *scene) {
	piles := map[spot]*pile{}
	var order []spot
	upright := map[spot]bool{}
	var last *set.Element
	var h, base float64
	for i := range sc.pieces {
		p := &sc.pieces[i]
		e := p.element
		if p.position != "" {
			continue
		}
		if s, ok := e.Shape.(*set.Steps); ok {
			if p.copy == 0 && s.Blocks {
				c.tallBlocks(e, s)
			}
			continue
		}
		if e != last { // copies stand one after the other
			last = e
			h, base = proportions(e.Shape)
		}
		if base <= 0 {
			continue
		}
		at := spot{e, p.place.Frame.T.Plan()}
		low := p.place.Level()
		pl := piles[at]
		if pl == nil {
			pl = &pile{low: low, high: low + h}
			piles[at] = pl
			order = append(order, at)
		}
		pl.low, pl.high, pl.count = min(pl.low, low), max(pl.high, low+h), pl.count+1
		if h/base > slender+0.05 && sc.heldUp(p) {
			upright[at] = true
		}
	}
	c.tallPiles(order, piles, upright)
}

// tallPiles notes, of each element, the tallest of its piles and how many are too tall.
func (c *checker) tallPiles(order []spot, piles map[spot]*pile, upright map[spot]bool) {
	type worst struct {
		pile
		count int
	}
	found := map[*set.Element]*worst{}
	var elements []*set.Element
	var last *set.Element
	var base float64
	for _, at := range order {
		pl := piles[at]
		if at.element != last {
			last = at.element
			_, base = proportions(at.element.Shape)
		}
		if upright[at] || (pl.high-pl.low)/base <= slender+0.05 {
			continue
		}
		w := found[at.element]
		if w == nil {
			w = &worst{}
			found[at.element] = w
			elements = append(elements, at.element)
		}
		w.count++
		if pl.high-pl.low > w.high-w.low+geom.Tolerance {
			w.pile = *pl
		}
	}
	for _, e := range elements {
		w := found[e]
		_, base := proportions(e.Shape)
		h := w.high - w.low
		what, more := "", ""
		if w.pile.count > 1 {
			what = plain(w.pile.count) + " on top of one another are "
		}
		if w.count > 1 {
			more = "; " + plain(w.count) + " of them"
		}
		c.add(e, finding{code: "TALL", figure: times(h / base), limit: limits(slenderBand, times), source: practice,
			at: []string{"stack", "height", "thickness", "diameter"}},
			"%s%s high on a base of %s, %s as high as it is deep: it tips easily, fix or weight it%s", what, c.length(h),
			c.length(base), times(h/base), more)
	}
}

// tallBlocks names the block of a flight that is tallest for its base.
func (c *checker) tallBlocks(e *set.Element, s *set.Steps) {
	treads := s.Treads()
	base := func(t set.Tread) float64 { return min(t.Y1-t.Y0, t.Width) }
	k, n, of := slenderBand[0].worst(len(treads), 0.05, func(i int) (float64, bool) {
		b := base(treads[i])
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
	c.add(e, finding{code: "TALL", figure: times(t.Top / base(t)), limit: limits(slenderBand, times), source: practice,
		at: []string{"built", "goings", "going"}},
		"block %d is %s high and %s %s, %s as high as it is %s: it tips easily, fix or weight it%s", k+1, c.length(t.Top),
		c.length(base(t)), how, times(t.Top/base(t)), how, counted(n, of, "block"))
}

// proportions returns a piece's height and the least width of its base; a base of 0 where it has none to tip over.
func proportions(sh set.Shape) (height, base float64) {
	switch s := sh.(type) {
	case *set.Platform:
		return s.Height, leastWidth(s.Outline)
	case *set.Post:
		if s.Diameter > 0 {
			return s.Height, s.Diameter
		}
		return s.Height, leastWidth(s.Outline)
	case *set.Ring:
		return s.Height, leastWidth(s.Outer)
	case *set.Panel:
		if !s.Stands {
			return s.Thickness, leastWidth(s.Outline)
		}
		if !s.Brace {
			return s.Outline.Path.Bounds().H(), s.Thickness
		}
	case *set.Flat:
		return s.Height, s.Thickness
	}
	return 0, 0
}

// leastWidth returns the least distance between two parallel lines that hold the outline between them.
func leastWidth(o set.Outline) float64 {
	if o.Path.Empty() {
		return 0
	}
	if o.Form == "circle" || o.Form == "rect" {
		b := o.Path.Bounds()
		return min(b.W(), b.H())
	}
	h := hull(o.Path.Flatten(flatness, nil))
	if len(h) < 3 {
		return 0
	}
	// The least width has one of its lines along an edge of the hull; the corner furthest from the edge moves on as the
	// edge does.
	least, far := math.Inf(1), 1
	for i, p := range h {
		d := h[(i+1)%len(h)].Sub(p).Unit()
		away := func(k int) float64 { return d.Cross(h[k%len(h)].Sub(p)) }
		for away(far+1) > away(far) {
			far++
		}
		least = min(least, away(far))
	}
	return least
}

// hull returns the corners of the convex hull, anticlockwise.
func hull(points []geom.Point) []geom.Point {
	pts := slices.Clone(points)
	slices.SortFunc(pts, func(a, b geom.Point) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	pts = slices.Compact(pts)
	half := func(next func(i int) geom.Point) []geom.Point {
		var out []geom.Point
		for i := range pts {
			p := next(i)
			for len(out) > 1 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:max(len(out)-1, 0)]
	}
	lower := half(func(i int) geom.Point { return pts[i] })
	return append(lower, half(func(i int) geom.Point { return pts[len(pts)-1-i] })...)
}

// heldUp reports whether something keeps a tall piece upright: what rests on a post's head, a return that meets a flat
// at an angle.
func (sc *scene) heldUp(p *piece) bool {
	for k := p.solids[0]; k < p.solids[1]; k++ {
		s := &sc.solids[k]
		for _, j := range sc.about(s.box.Grow(held), "", nil) {
			n := &sc.solids[j]
			if n.piece == s.piece {
				continue
			}
			q := &sc.pieces[n.piece]
			switch p.element.Shape.(type) {
			case *set.Flat:
				if _, flat := q.element.Shape.(*set.Flat); flat && atAngle(p.place, q.place) && apart(s, n) <= held &&
					n.under < s.a && s.under < n.a {
					return true
				}
			case *set.Post:
				if math.Abs(n.under-s.a) <= 1 && n.region.Contains(s.box.Mid()) {
					return true
				}
			}
		}
	}
	return false
}

func apart(a, b *solid) float64 {
	d, _, _ := geom.Distance(a.region, b.region)
	return d
}

// atAngle reports whether two flats stand at more than 15° to each other.
func atAngle(a, b set.Place) bool {
	x := geom.Point{X: 1}
	return math.Abs(a.Frame.Plan().Vector(x).Cross(b.Frame.Plan().Vector(x))) > 0.2588
}
