package rules

import (
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
)

// hung reports whether a piece hangs on a flat's face: what holds it is the wall, not its base.
func (c *checker) hung(e *set.Element) bool {
	if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 {
		return false
	}
	pl := e.Copies[0].Places[0]
	name, _, _ := strings.Cut(pl.On, ".")
	i, ok := c.order[name]
	if pl.On == "" || !ok {
		return false
	}
	wall := c.set.Elements[i]
	_, flat := wall.Shape.(*set.Flat)
	return flat && len(wall.Copies) > 0 && len(wall.Copies[0].Places) > 0 && pl.Level() < set.Top(wall, wall.Copies[0].Places[0])-geom.Tolerance
}

// onPoint notes a cone whose point is all that it stands on. One that hangs in the air is held by something else.
func (c *checker) onPoint(e *set.Element) {
	for _, cp := range e.Copies {
		if len(cp.Places) == 0 || cp.Places[0].Level() > c.visible() && cp.Places[0].On == "" {
			continue
		}
		c.add(e, finding{code: "TALL", who: e.CopyName(cp), figure: "a point", limit: limits(slenderBand, times), source: practice, at: []string{"lower"}},
			"it stands on its point, and falls over unless something holds it")
		return
	}
}
