package geom

import (
	"math"
	"slices"

	overlay "github.com/peterstace/simplefeatures/geom"
)

// simpleLoops cuts the closed run through pts, which stand on a grid of the given width, wherever it meets
// itself and returns the loops that it is made of: each closed, none with a place twice, and how often the
// run goes round any place is the sum over the loops. Loops without area are left out.
func simpleLoops(pts []Point, grid float64) [][]Point {
	cs := make([]chord, len(pts))
	for i, q := range pts {
		cs[i] = chord{a: q, b: pts[(i+1)%len(pts)]}
	}
	cuts := cutsOf(cs, grid)

	var loops [][]Point
	var walk []Point        // since the last loop was cut off
	seen := map[Point]int{} // where each of them stands
	visit := func(q Point) {
		if k, again := seen[q]; again {
			if len(walk)-k > 2 {
				loops = append(loops, slices.Clone(walk[k:]))
			}
			for _, p := range walk[k+1:] {
				delete(seen, p)
			}
			walk = walk[:k+1]
			return
		}
		seen[q] = len(walk)
		walk = append(walk, q)
	}
	for i, c := range cs {
		visit(c.a)
		for _, q := range cuts[i] {
			visit(q)
		}
	}
	if len(walk) > 2 {
		loops = append(loops, walk)
	}
	return loops
}

// cutsOf returns for each chord, in its order, the places strictly inside it where others cross or touch
// it, on the grid.
func cutsOf(cs []chord, grid float64) [][]Point {
	cuts := make([][]Point, len(cs))
	cut := func(k int, q Point) {
		if q != cs[k].a && q != cs[k].b {
			cuts[k] = append(cuts[k], q)
		}
	}
	t := newChordTree(cs)
	for k, c := range cs {
		t.after(k, c.box().Grow(grid), func(m int) bool {
			d := cs[m]
			touch := false
			for _, e := range [2]Point{d.a, d.b} {
				if nearestOnLine(c.a, c.b, e).Dist(e) <= grid {
					cut(k, e)
					touch = true
				}
			}
			for _, e := range [2]Point{c.a, c.b} {
				if nearestOnLine(d.a, d.b, e).Dist(e) <= grid {
					cut(m, e)
					touch = true
				}
			}
			if touch {
				return false
			}
			if dist, at, _ := chordDistance(c, d); dist == 0 {
				at = snap(at, grid)
				cut(k, at)
				cut(m, at)
			}
			return false
		})
	}
	for k, c := range cs {
		slices.SortFunc(cuts[k], func(p, q Point) int {
			along := c.b.Sub(c.a)
			switch x := p.Sub(q).Dot(along); {
			case x < 0:
				return -1
			case x > 0:
				return 1
			}
			return before(p, q)
		})
		cuts[k] = slices.Compact(cuts[k])
	}
	return cuts
}

// snap moves p to the nearest place of the grid.
func snap(p Point, grid float64) Point {
	return Point{math.Round(p.X/grid) * grid, math.Round(p.Y/grid) * grid}
}

// nonzero returns the area that the closed run through pts goes round, however often it crosses itself, by
// the nonzero rule.
//
// The overlay knows no winding numbers, so they are kept as level sets: for each hand, the places that at
// least k loops of that hand go round. A place counts where for some k one hand's set holds it and the
// other's does not, for then the two hands' numbers differ.
func nonzero(pts []Point, grid float64) (overlay.Geometry, error) {
	var levels [2][]overlay.Geometry
	for _, l := range simpleLoops(pts, grid) {
		hand := 0
		switch a := Polygon(l).Area(); {
		case a == 0:
			continue
		case a < 0:
			hand = 1
		}
		carry := polygonOf(l)
		if err := carry.Validate(); err != nil {
			return overlay.Geometry{}, err
		}
		for k, level := range levels[hand] {
			deeper, err := areal(overlay.Intersection(level, carry))
			if err != nil {
				return overlay.Geometry{}, err
			}
			if levels[hand][k], err = areal(overlay.Union(level, carry)); err != nil {
				return overlay.Geometry{}, err
			}
			if carry = deeper; carry.IsEmpty() {
				break
			}
		}
		if !carry.IsEmpty() {
			levels[hand] = append(levels[hand], carry)
		}
	}
	var all []overlay.Geometry
	for k := range max(len(levels[0]), len(levels[1])) {
		var of [2]overlay.Geometry
		for hand := range of {
			if k < len(levels[hand]) {
				of[hand] = levels[hand][k]
			}
		}
		g, err := areal(overlay.SymmetricDifference(of[0], of[1]))
		if err != nil {
			return overlay.Geometry{}, err
		}
		all = append(all, g)
	}
	return unionOf(all)
}

// areal keeps the polygons of an overlay's result and drops the lines and points in which areas touch.
func areal(g overlay.Geometry, err error) (overlay.Geometry, error) {
	if err != nil || g.IsEmpty() {
		return overlay.Geometry{}, err
	}
	var ps []overlay.Polygon
	for _, part := range g.Dump() {
		if p, ok := part.AsPolygon(); ok && !p.IsEmpty() {
			ps = append(ps, p)
		}
	}
	if len(ps) == 0 {
		return overlay.Geometry{}, nil
	}
	return overlay.NewMultiPolygon(ps).AsGeometry(), nil
}

// unionOf unites valid areas two by two: given many at once that overlap, the overlay loses what lies inside
// one of them and is enclosed by the others.
func unionOf(gs []overlay.Geometry) (overlay.Geometry, error) {
	switch len(gs) {
	case 0:
		return overlay.Geometry{}, nil
	case 1:
		return gs[0], nil
	}
	a, err := unionOf(gs[:len(gs)/2])
	if err != nil {
		return a, err
	}
	b, err := unionOf(gs[len(gs)/2:])
	if err != nil {
		return b, err
	}
	return areal(overlay.Union(a, b))
}

// polygonOf returns the ring through pts as a polygon that has not been validated.
func polygonOf(pts []Point) overlay.Geometry {
	xs := make([]float64, 0, 2*len(pts)+2)
	for _, q := range pts {
		xs = append(xs, q.X, q.Y)
	}
	xs = append(xs, pts[0].X, pts[0].Y)
	return overlay.NewPolygon([]overlay.LineString{overlay.NewLineString(overlay.NewSequence(xs, overlay.DimXY))}).AsGeometry()
}
