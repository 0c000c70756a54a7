package view

import (
	"markout/layout/geom"
	"markout/layout/set"
)

// flight is a flight on the plan: its outline from the first riser to the last with a jog wherever the width changes,
// every riser line between, nosings dashed where they overhang, and an arrow up its middle.
func (z sizes) flight(s *set.Steps) []trace {
	treads := s.Treads()
	if len(treads) == 0 {
		w, m := s.Width(0), s.Mid(0)
		return []trace{{polyline(geom.Point{X: m - w/2}, geom.Point{X: m + w/2}), edge}}
	}
	if s.Line != nil {
		return z.bentFlight(s)
	}
	t := []trace{{flightOutline(treads), edge}}
	for k, tr := range treads {
		l, r := tr.Mid-tr.Width/2, tr.Mid+tr.Width/2
		if k > 0 {
			t = append(t, trace{polyline(geom.Point{X: l, Y: tr.Y0}, geom.Point{X: r, Y: tr.Y0}), riser})
		}
		if s.Nosing > geom.Tolerance {
			y := tr.Y0 - s.Nosing
			t = append(t, trace{polyline(geom.Point{X: l, Y: y}, geom.Point{X: r, Y: y}), covered})
		}
	}
	return append(t, trace{z.wayUp(treads), arrow})
}

// flightOutline runs anticlockwise from the left end of the first riser (left as one climbs).
func flightOutline(treads []set.Tread) *geom.Path {
	first := treads[0]
	ps := make([]geom.Point, 0, 4*len(treads))
	ps = append(ps, geom.Point{X: first.Mid - first.Width/2, Y: first.Y0})
	add := func(p geom.Point) {
		if !p.Near(ps[len(ps)-1]) {
			if n := len(ps); n > 1 && ps[n-2].X == ps[n-1].X && ps[n-1].X == p.X {
				ps = ps[:n-1] // sides of equal width are one line
			}
			ps = append(ps, p)
		}
	}
	for _, tr := range treads {
		x := tr.Mid + tr.Width/2
		add(geom.Point{X: x, Y: tr.Y0})
		add(geom.Point{X: x, Y: tr.Y1})
	}
	for k := len(treads) - 1; k >= 0; k-- {
		x := treads[k].Mid - treads[k].Width/2
		add(geom.Point{X: x, Y: treads[k].Y1})
		add(geom.Point{X: x, Y: treads[k].Y0})
	}
	if n := len(ps); ps[n-1].Near(ps[0]) {
		ps = ps[:n-1]
	}
	return geom.Polygon(ps)
}

// blocks is a row of loose blocks: each one's outline, and the way up over them.
func (z sizes) blocks(s *set.Steps) []trace {
	treads := s.Treads()
	if len(treads) == 0 {
		return nil
	}
	t := make([]trace, 0, len(treads)+1)
	for k := range treads {
		t = append(t, trace{s.TreadOutline(k).Outer, edge})
	}
	if s.Line != nil {
		return append(t, trace{z.bentWayUp(s), arrow})
	}
	return append(t, trace{z.wayUp(treads), arrow})
}

// wayUp runs from the middle of the first riser to the middle of the last.
func (z sizes) wayUp(treads []set.Tread) *geom.Path {
	first, last := treads[0], treads[len(treads)-1]
	return z.arrowUp(geom.Point{X: first.Mid, Y: first.Y0}, geom.Point{X: last.Mid, Y: last.Y1})
}
