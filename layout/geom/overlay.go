package geom

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	overlay "github.com/peterstace/simplefeatures/geom"
)

// Union returns the areas that any of the regions holds. Like the other overlays it follows curves to within
// tol, returns straight outlines, outer ones anticlockwise and holes clockwise, each starting at its most
// downstage corner (of equals the most plan-left), sorted by that corner. Outlines that cross themselves
// are taken by the nonzero rule. Places are rounded to 2⁻²⁰ mm, less than Tolerance, and parts on average
// no wider than Tolerance are left out. The error says that boundaries lie too near each other to be told apart.
func Union(regions []Region, tol float64) ([]Region, error) {
	return combine(regions, nil, tol, overlay.Union)
}

// Intersect returns the areas that both a region of a and a region of b hold; see Union.
func Intersect(a, b []Region, tol float64) ([]Region, error) {
	return combine(a, b, tol, overlay.Intersection)
}

// Difference returns the areas that a region of a and none of b holds; see Union.
func Difference(a, b []Region, tol float64) ([]Region, error) {
	return combine(a, b, tol, overlay.Difference)
}

type operation func(a, b overlay.Geometry) (overlay.Geometry, error)

// combine works on the grid of 2⁻²⁰ mm, and where boundaries run too close for it on coarser ones.
func combine(a, b []Region, tol float64, op operation) ([]Region, error) {
	var err error
	for _, bits := range []int{20, 17, 14, 11} {
		var g overlay.Geometry
		if g, err = combineOn(math.Ldexp(1, -bits), a, b, tol, op); err == nil {
			return regionsOf(g), nil
		}
	}
	return nil, fmt.Errorf("outlines lie too near each other to be told apart: %w", err)
}

func combineOn(grid float64, a, b []Region, tol float64, op operation) (overlay.Geometry, error) {
	ga, err := together(a, tol, grid)
	if err != nil {
		return overlay.Geometry{}, err
	}
	gb, err := together(b, tol, grid)
	if err != nil {
		return overlay.Geometry{}, err
	}
	return op(ga, gb)
}

// together returns the union of the regions as one valid geometry.
func together(regions []Region, tol, grid float64) (overlay.Geometry, error) {
	gs := make([]overlay.Geometry, 0, len(regions))
	for _, r := range regions {
		g, err := clean(r, tol, grid)
		if err != nil {
			return overlay.Geometry{}, err
		}
		if !g.IsEmpty() {
			gs = append(gs, g)
		}
	}
	return unionOf(gs)
}

// clean returns the region as a valid geometry.
func clean(r Region, tol, grid float64) (overlay.Geometry, error) {
	area, err := ring(r.Outer, tol, grid)
	for _, h := range r.Holes {
		if err != nil || area.IsEmpty() {
			break
		}
		var hole overlay.Geometry
		if hole, err = ring(h, tol, grid); err == nil && !hole.IsEmpty() {
			area, err = areal(overlay.Difference(area, hole))
		}
	}
	return area, err
}

// ring returns the area within the flattened path on the grid, by the nonzero rule.
func ring(p *Path, tol, grid float64) (overlay.Geometry, error) {
	pts := p.Flatten(tol, nil)
	for i, q := range pts {
		if !q.Finite() {
			return overlay.Geometry{}, errors.New("a coordinate is no number")
		}
		pts[i] = snap(q, grid)
	}
	pts = slices.Compact(pts)
	for len(pts) > 1 && pts[len(pts)-1] == pts[0] {
		pts = pts[:len(pts)-1]
	}
	if len(pts) < 3 {
		return overlay.Geometry{}, nil
	}
	if g := polygonOf(pts); g.Validate() == nil {
		return g, nil
	}
	return nonzero(pts, grid)
}

// regionsOf returns the areas of g, not its lines and points, in an order that depends on nothing but them.
func regionsOf(g overlay.Geometry) []Region {
	var rs []Region
	for _, part := range g.Dump() {
		p, ok := part.AsPolygon()
		if !ok || p.IsEmpty() {
			continue
		}
		r := Region{Outer: outlineOf(p.ExteriorRing(), 1)}
		for k := range p.NumInteriorRings() {
			if h := outlineOf(p.InteriorRingN(k), -1); !h.Empty() {
				r.Holes = append(r.Holes, h)
			}
		}
		if !r.Outer.Empty() && !r.sliver(Tolerance) {
			slices.SortFunc(r.Holes, byStart)
			rs = append(rs, r)
		}
	}
	slices.SortFunc(rs, func(a, b Region) int { return byStart(a.Outer, b.Outer) })
	return rs
}

// outlineOf returns the ring as a path on the fine grid, anticlockwise for hand 1, clockwise for −1, from
// its lowest corner. The overlay's own order of corners, which is not always the same, is lost on the way.
func outlineOf(l overlay.LineString, hand float64) *Path {
	seq := l.Coordinates()
	var pts []Point
	const grid = 1.0 / (1 << 20)
	for k := range seq.Length() - 1 {
		xy := seq.GetXY(k)
		q := snap(Point{xy.X, xy.Y}, grid)
		if len(pts) == 0 || pts[len(pts)-1] != q {
			pts = append(pts, q)
		}
	}
	if len(pts) < 3 {
		return &Path{}
	}
	if Polygon(pts).Area()*hand < 0 {
		slices.Reverse(pts)
	}
	low := 0
	for k, q := range pts {
		if before(q, pts[low]) < 0 {
			low = k
		}
	}
	return Polygon(append(pts[low:len(pts):len(pts)], pts[:low]...))
}

func byStart(a, b *Path) int {
	return cmp.Or(before(a.Start(), b.Start()), cmp.Compare(a.Len(), b.Len()), cmp.Compare(a.Area(), b.Area()))
}

// before orders places from downstage up, then from plan-left.
func before(p, q Point) int { return cmp.Or(cmp.Compare(p.Y, q.Y), cmp.Compare(p.X, q.X)) }
