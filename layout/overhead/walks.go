package overhead

import (
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// walks finds the ways that concern a room: those that are in it, those of footholds that go over what hangs in it, and those whose
// path comes beneath it, wherever the file has them.
func (r *Room) walks() []*set.Element {
	hung := make(map[string]bool, len(r.Pieces))
	for i := range r.Pieces {
		hung[r.Pieces[i].Element.Name] = true
	}
	area := geom.Region{Outer: r.Shape.Outline.Path.Transform(r.Shape.Turn().Then(r.Frame).Plan())}
	var out []*set.Element
	for _, e := range r.Set.Elements {
		w, ok := e.Shape.(*set.Walk)
		if !ok || len(e.Copies) == 0 {
			continue
		}
		if e.Copies[0].Places[0].In == r.Element.Name || goesOver(w, hung) || r.above(e, w, area) {
			out = append(out, e)
		}
	}
	return out
}

// goesOver reports whether a walk has a foothold among elements.
func goesOver(w *set.Walk, names map[string]bool) bool {
	for _, h := range w.Over {
		if names[h.Element] {
			return true
		}
	}
	return false
}

// above reports whether a copy of a walk comes beneath the room's floor overhead, whose area on the plan is given.
func (r *Room) above(e *set.Element, w *set.Walk, area geom.Region) bool {
	if w.Path == nil {
		return false
	}
	for _, c := range e.Copies {
		pl := c.Places[0]
		if pl.Level() >= r.Shape.Overhead {
			continue
		}
		pts := w.Path.Transform(pl.Frame.Plan()).Flatten(solid.Flatness, nil)
		if w.Path.Closed() && len(pts) > 0 {
			pts = append(pts, pts[0])
		}
		for i := range pts {
			if geom.Overlaps(area, geom.Region{Outer: geom.Stadium(pts[max(i-1, 0)], pts[i], w.Wide/2)}) {
				return true
			}
		}
	}
	return false
}
