package view

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	transfer "markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
)

// ways draws the walks beneath the room, and the way from foothold to foothold over what hangs in it: as far as the plan goes, so that a
// walk from far away does not make the room small.
func (p *planner) ways(r *transfer.Room) {
	for _, e := range r.Walks {
		w := e.Shape.(*set.Walk)
		if w.Path == nil {
			p.way(p.footholds(w), e.Name)
			continue
		}
		for _, c := range e.Copies {
			path := w.Path.Transform(c.Places[0].Frame.Plan())
			ps := path.Flatten(solid.Flatness, nil)
			if path.Closed() && len(ps) > 0 {
				ps = append(ps, ps[0])
			}
			p.way(ps, e.CopyName(c))
		}
	}
}

// way draws one way, and its name half way along the longest part that the plan shows.
func (p *planner) way(ps []geom.Point, name string) {
	long, mid := 0.0, geom.Point{}
	for _, part := range partsIn(ps, p.box.Grow(3*p.unit)) {
		path := polyline(part...)
		p.stroke(path, hungWay)
		if l := path.Length(); l > long {
			long = l
			mid, _ = path.At(l / 2)
		}
	}
	if long > 0 {
		p.label(mid, word("walk "+name, drawing.Lettering2_5))
	}
}

// footholds are the middles of what a walk goes over.
func (p *planner) footholds(w *set.Walk) []geom.Point {
	var mids []geom.Point
	for _, h := range w.Over {
		e := p.s.Find(h.Element)
		if e == nil {
			continue
		}
		for _, c := range e.Copies {
			if c.Number == h.Copy {
				mids = append(mids, placedBox(e, c.Places[0]).Mid())
			}
		}
	}
	return mids
}

// partsIn returns the parts of a line of straight runs that lie in a box.
func partsIn(ps []geom.Point, box geom.Rect) [][]geom.Point {
	var out [][]geom.Point
	on := false // the last part goes on
	for i := 1; i < len(ps); i++ {
		a, b := ps[i-1], ps[i]
		from, to := 0.0, 1.0
		keep := func(u, v float64) { // where a value that runs evenly from u to v is not below 0
			switch {
			case u < 0 && v < 0:
				to = -1
			case u < 0:
				from = max(from, u/(u-v))
			case v < 0:
				to = min(to, u/(u-v))
			}
		}
		keep(a.X-box.Min.X, b.X-box.Min.X)
		keep(box.Max.X-a.X, box.Max.X-b.X)
		keep(a.Y-box.Min.Y, b.Y-box.Min.Y)
		keep(box.Max.Y-a.Y, box.Max.Y-b.Y)
		if from >= to {
			on = false
			continue
		}
		if !on || from > 0 {
			out = append(out, []geom.Point{a.Lerp(b, from)})
		}
		last := &out[len(out)-1]
		*last = append(*last, a.Lerp(b, to))
		on = to == 1
	}
	return out
}
