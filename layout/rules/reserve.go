package rules

import (
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
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
				p := solid.Piece{Element: e, Copy: k, Place: pl}
				if i > 0 {
					p.Position = pl.Position
				}
				area := geom.Region{Outer: r.Outline.Path.Transform(pl.Frame.Plan())}
				near = sc.Index.Find(area.Bounds(), near[:0])
				for _, j := range near {
					n := &sc.Solids[j]
					q := &sc.Pieces[n.Piece]
					_, high := n.Heights()
					if high <= pl.Level()+1 || r.Height > 0 && n.Under >= pl.Level()+r.Height-1 || !sc.Together(&p, q) {
						continue
					}
					if !slices.Contains(inside, q.Name()) && geom.Overlaps(area, n.Region) && reachesOver(n, area, pl.Level()+1) {
						inside = append(inside, q.Name())
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
func reachesOver(n *solid.Solid, area geom.Region, z float64) bool {
	if n.B == 0 && n.C == 0 {
		return n.A > z
	}
	common, err := geom.Intersect([]geom.Region{area}, []geom.Region{n.Region}, solid.Flatness)
	if err != nil {
		return true
	}
	for _, r := range common {
		if slices.ContainsFunc(r.Outer.Flatten(solid.Flatness, nil), func(p geom.Point) bool { return n.Top(p) > z }) {
			return true
		}
	}
	return false
}
