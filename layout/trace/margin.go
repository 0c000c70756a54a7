package trace

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// arcs is how closely in millimetres circular arcs stand for cubics before parallels are drawn, and straight runs for arcs
// where areas have to be joined.
const arcs = 0.01

// Margin returns the areas that reach d millimetres beyond the regions, for the saw: rounded about outward corners, gaps
// and holes narrower than 2d closed. Less than 0, d is taken off: what is narrower than 2|d| is lost. The outlines are true
// to 0.05 mm. Boundaries are lines and circular arcs; where margins of several outlines run together they are straight
// runs. The error says that parts lie too near each other to be told apart.
func Margin(regions []geom.Region, d float64) ([]geom.Region, error) {
	var bodies, holes []*geom.Path
	for _, r := range regions {
		grown, err := beside(r.Outer, d)
		if err != nil {
			return nil, err
		}
		for _, p := range grown {
			// A growing outline closes on itself round what becomes a hole.
			if p.Area() > 0 {
				bodies = append(bodies, p)
			} else {
				holes = append(holes, p)
			}
		}
		for _, h := range r.Holes {
			left, err := beside(h, -d)
			if err != nil {
				return nil, err
			}
			for _, p := range left {
				if p.Area() > 0 {
					holes = append(holes, p.Reverse())
				} else {
					// An island within the hole as it grows round.
					bodies = append(bodies, p.Reverse())
				}
			}
		}
	}
	if !entangled(bodies, holes) {
		return nested(bodies, holes), nil
	}
	return joined(regions, d)
}

// beside returns the parallel outlines of p. Where at one distance parts of them cannot be told apart, at another by a hair
// they can, or with straight runs for the arcs: all keep well within what Margin promises.
func beside(p *geom.Path, d float64) (out []*geom.Path, err error) {
	for _, tol := range [...]float64{arcs, arcs / 3, 2 * arcs} {
		q := p.Arcs(tol)
		for _, off := range [...]float64{0, 0.0031, -0.0047, 0.0083} {
			if out, err = geom.Offset(q, d+off); err == nil {
				return out, nil
			}
		}
	}
	for _, off := range [...]float64{0, 0.0031, -0.0047, 0.0083} {
		if out, err = geom.Offset(geom.Polygon(p.Flatten(arcs, nil)), d+off); err == nil {
			return out, nil
		}
	}
	return nil, err
}

// entangled reports whether some outlines touch or cross others.
func entangled(bodies, holes []*geom.Path) bool {
	all := slices.Concat(bodies, holes)
	for i, p := range all {
		for _, q := range all[:i] {
			if p.Bounds().Overlaps(q.Bounds()) && meets(p, q) {
				return true
			}
		}
	}
	return false
}

// meets reports whether two closed outlines come within a thousandth of a millimetre of each other.
func meets(p, q *geom.Path) bool {
	// As the boundary of a hole in what is around it, an outline is told from one that lies within.
	if p.Contains(q.Start()) {
		p, q = q, p
	}
	if !q.Contains(p.Start()) {
		d, _, _ := geom.Distance(geom.Region{Outer: p}, geom.Region{Outer: q})
		return d == 0
	}
	box := q.Bounds().Grow(1 + q.Bounds().W())
	frame := geom.Polygon([]geom.Point{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}})
	d, _, _ := geom.Distance(geom.Region{Outer: p}, geom.Region{Outer: frame, Holes: []*geom.Path{q}})
	return d == 0
}

// nested gives each body the holes that lie in it and in no smaller one.
func nested(bodies, holes []*geom.Path) []geom.Region {
	out := make([]geom.Region, len(bodies))
	for i, p := range bodies {
		out[i].Outer = p
	}
	for _, h := range holes {
		best := -1
		for i, p := range bodies {
			if p.Contains(h.Start()) && (best < 0 || p.Area() < bodies[best].Area()) {
				best = i
			}
		}
		if best >= 0 {
			out[best].Holes = append(out[best].Holes, h)
		}
	}
	return out
}

// joined returns the margin where parts of it run together: each region by itself, then all as one.
func joined(regions []geom.Region, d float64) ([]geom.Region, error) {
	var parts []geom.Region
	for _, r := range regions {
		grown, err := beside(r.Outer, d)
		if err != nil {
			return nil, err
		}
		var bodies, holes []geom.Region
		for _, p := range grown {
			if p.Area() > 0 {
				bodies = append(bodies, geom.Region{Outer: p})
			} else {
				holes = append(holes, geom.Region{Outer: p})
			}
		}
		for _, h := range r.Holes {
			left, err := beside(h, -d)
			if err != nil {
				return nil, err
			}
			var gone, back []geom.Region
			for _, p := range left {
				if p.Area() > 0 {
					gone = append(gone, geom.Region{Outer: p})
				} else {
					back = append(back, geom.Region{Outer: p})
				}
			}
			if len(back) > 0 {
				if gone, err = geom.Difference(gone, back, arcs); err != nil {
					return nil, err
				}
			}
			holes = append(holes, gone...)
		}
		if len(holes) > 0 {
			if bodies, err = geom.Difference(bodies, holes, arcs); err != nil {
				return nil, err
			}
		}
		parts = append(parts, bodies...)
	}
	out, err := geom.Union(parts, arcs)
	if err != nil {
		return nil, err
	}
	// What is left between arcs that all but coincide is no body.
	return slices.DeleteFunc(out, func(r geom.Region) bool { return r.Area() < math.Abs(d)*arcs }), nil
}
