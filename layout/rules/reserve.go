package rules

import (
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// reserves looks for what reaches into a volume that is to be kept clear. A reserve without a height goes up without end.
func (c *checker) reserves() {
	var near []int32
	for _, e := range c.set.Elements {
		r, ok := e.Shape.(*set.Reserve)
		if !ok || r.Outline.Path.Empty() {
			continue
		}
		sc := c.scene()
		var inside []string
		for k, cp := range e.Copies {
			for i, pl := range cp.Places {
				p := piece{element: e, copy: k, place: pl}
				if i > 0 {
					p.position = pl.Position
				}
				area := geom.Region{Outer: r.Outline.Path.Transform(pl.Frame.Plan())}
				near = sc.index.find(area.Bounds(), near[:0])
				for _, j := range near {
					n := &sc.solids[j]
					q := &sc.pieces[n.piece]
					_, high := n.heights()
					if high <= pl.Level()+1 || r.Height > 0 && n.under >= pl.Level()+r.Height-1 || !sc.together(&p, q) {
						continue
					}
					if !slices.Contains(inside, q.name()) && geom.Overlaps(area, n.region) && reachesOver(n, area, pl.Level()+1) {
						inside = append(inside, q.name())
					}
				}
			}
		}
		if len(inside) == 0 {
			continue
		}
		verb := "reaches"
		if len(inside) > 1 {
			verb = "reach"
		}
		c.add(e, finding{code: "RESERVE", figure: plainCount("piece")(float64(len(inside))), limit: "nothing", source: "the file's own reserve",
			at: []string{"outline"}}, "%s %s into what is to be kept clear", names(inside), verb)
	}
}

// reachesOver reports whether the upper face of n is higher than z somewhere over the area; a ramp may pass beneath.
func reachesOver(n *solid, area geom.Region, z float64) bool {
	if n.b == 0 && n.c == 0 {
		return n.a > z
	}
	common, err := geom.Intersect([]geom.Region{area}, []geom.Region{n.region}, flatness)
	if err != nil {
		return true
	}
	for _, r := range common {
		if slices.ContainsFunc(r.Outer.Flatten(flatness, nil), func(p geom.Point) bool { return n.top(p) > z }) {
			return true
		}
	}
	return false
}
