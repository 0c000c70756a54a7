package trace

import (
	"errors"
	"math"

	"markout/layout/geom"
)

// ToHeight enlarges regions, in whatever unit, so that the box around them is height millimetres high. The frame is the
// figure's own: x from the middle of that box to the right, y up from its lowest edge. perUnit is the millimetres of one
// unit. Outlines are lines and cubics, as Trace makes them.
func ToHeight(regions []geom.Region, height float64) (out []geom.Region, perUnit float64, err error) {
	box := geom.EmptyRect()
	for _, r := range regions {
		box = box.Union(r.Bounds())
	}
	if !(height > 0) || math.IsInf(height, 1) || box.Empty() || !(box.H() > 0) {
		return nil, 0, errors.New("a figure's height is more than 0, and so is that of what is drawn")
	}
	perUnit = height / box.H()
	origin := geom.Point{X: box.Mid().X, Y: box.Min.Y}
	to := func(p geom.Point) geom.Point { return p.Sub(origin).Mul(perUnit) }
	for _, r := range regions {
		n := geom.Region{Outer: mapped(r.Outer, to)}
		for _, h := range r.Holes {
			n.Holes = append(n.Holes, mapped(h, to))
		}
		out = append(out, n)
	}
	return out, perUnit, nil
}

// mapped returns the closed path of lines and cubics with each of its points moved.
func mapped(p *geom.Path, to func(geom.Point) geom.Point) *geom.Path {
	q := geom.NewPath(to(p.Start()))
	for _, s := range p.Segments() {
		if s.Kind == geom.Cubic {
			q.CubicTo(to(s.C1), to(s.C2), to(s.To))
		} else {
			q.LineTo(to(s.To))
		}
	}
	q.Close()
	return q
}
