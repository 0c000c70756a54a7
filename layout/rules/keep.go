package rules

import (
	"math"

	"markout/layout/geom"
)

// keeps looks for distances that the file wants kept and that are less, between any copies and positions of the two that
// stand there at the same time.
func (c *checker) keeps(sc *scene) {
	byName := map[string][]int{} // pieces by element and by copy
	for i := range sc.pieces {
		p := &sc.pieces[i]
		byName[p.element.Name] = append(byName[p.element.Name], i)
		if n := p.element.CopyName(p.element.Copies[p.copy]); n != p.element.Name {
			byName[n] = append(byName[n], i)
		}
	}
	var near []int32
	for _, k := range c.set.Keeps {
		least, from, to := math.Inf(1), "", ""
		other := map[int32]bool{}
		for _, i := range byName[k.B] {
			other[int32(i)] = true
		}
		for _, i := range byName[k.A] {
			p := &sc.pieces[i]
			for m := p.solids[0]; m < p.solids[1]; m++ {
				s := &sc.solids[m]
				near = sc.index.find(s.box.Grow(k.AtLeast), near[:0])
				for _, j := range near {
					n := &sc.solids[j]
					q := &sc.pieces[n.piece]
					if !other[n.piece] || q.element == p.element && q.copy == p.copy || !sc.together(p, q) {
						continue
					}
					if d, _, _ := geom.Distance(s.region, n.region); d < least-geom.Tolerance {
						least, from, to = d, p.name(), q.name()
					}
				}
			}
		}
		b := []band{{"what the file keeps", k.AtLeast, 0, "the file's own keep line"}}
		if b[0].miss(least, c.visible()) == 0 {
			continue
		}
		e := c.element(k.A)
		c.note(c.order[e], from, k.Span, finding{code: "KEEP", figure: c.length(least), limit: "at least " + c.length(k.AtLeast), source: b[0].Source},
			from+" and "+to+" stand "+c.length(least)+" apart on the plan, "+c.length(k.AtLeast-least)+" less than is to be kept")
	}
}

// element returns the name of the element that a name of an element or a copy means.
func (c *checker) element(name string) string {
	if _, ok := c.order[name]; ok {
		return name
	}
	for i := len(name) - 1; i > 0; i-- {
		if name[i] == '.' {
			return name[:i]
		}
	}
	return name
}
