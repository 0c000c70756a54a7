package rules

import (
	"markout/layout/set"
)

// ceiling looks for pieces that reach higher than the ceiling of the hall worked in, in any of their positions.
func (c *checker) ceiling() {
	if c.set.Hall == nil {
		return
	}
	hall, ok := c.set.Hall.Shape.(*set.Hall)
	if !ok || hall.Ceiling <= 0 {
		return
	}
	height := hall.Ceiling
	if cp := c.set.Hall.Copies; len(cp) > 0 && len(cp[0].Places) > 0 {
		height += cp[0].Places[0].Level()
	}
	limit := []band{{"the ceiling of " + c.set.Hall.Name, 0, height, "the hall's own ceiling, as the file gives it"}}
	for _, e := range c.set.Elements {
		switch e.Shape.(type) {
		case *set.Hall, *set.Room, *set.Mark, *set.Walk, *set.Reserve:
			continue
		}
		top, name, count := height+c.visible(), "", 0
		for _, cp := range e.Copies {
			over := false
			for _, pl := range cp.Places {
				z := set.Top(e, pl)
				over = over || z > height+c.visible()
				if z > top {
					top, name = z, e.PlaceName(cp, pl)
				}
			}
			if over {
				count++
			}
		}
		if name == "" {
			continue
		}
		more := ""
		if count > 1 {
			more = "; " + plainCount("piece")(float64(count)) + " of " + e.Name + " do"
		}
		c.add(e, finding{code: "CEILING", who: name, figure: c.length(top), limit: limits(limit, c.length), source: sources(limit),
			at: []string{"height", "level", "top", "total"}},
			"it reaches %s above the floor, %s higher than the ceiling of %s%s", c.length(top), c.length(top-height), c.set.Hall.Name, more)
	}
}
