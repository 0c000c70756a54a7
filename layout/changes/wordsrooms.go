package changes

import (
	"markout/layout/geom"
	"markout/layout/set"
)

// stations says which stations are new, gone or elsewhere, in the own axes of the room that they are in.
func (c *comparison) stations(p, q []set.Station) {
	was := partner(len(p), len(q), func(i, j int) bool { return p[i].Name == q[j].Name },
		func(i, j int) bool { return p[i].At.Near(q[j].At) })
	found := make([]bool, len(p))
	for j, s := range q {
		if was[j] < 0 {
			c.say("station " + s.Name + " added at " + placeWords(c.set, s.At.X, s.At.Y))
			continue
		}
		o := p[was[j]]
		found[was[j]] = true
		if o.Name != s.Name {
			c.say("station " + arrow(o.Name, s.Name))
		}
		c.say(c.inside("station "+s.Name, o.At, s.At))
	}
	for i, s := range p {
		if !found[i] {
			c.say("station " + s.Name + " taken out")
		}
	}
}

// inside says how a thing moves in the own axes of the room that it is in, by their place on the plan.
func (c *comparison) inside(name string, from, to geom.Point) string {
	d := to.Sub(from)
	if d.Len() <= geom.Tolerance || len(c.new.Copies) == 0 {
		return ""
	}
	d = c.new.Copies[0].Places[0].Upright().Plan().Vector(d)
	return name + " moves " + wayWords(c.set, geom.Vec{X: d.X, Y: d.Y})
}

// pillars says which pillars are new, gone, elsewhere or of another size.
func (c *comparison) pillars(p, q []set.Pillar) {
	middle := func(x set.Pillar) geom.Point { return x.Outline.Path.Bounds().Mid() }
	alike := func(i, j int) bool {
		return slidLoop(p[i].Outline.Path, q[j].Outline.Path, middle(q[j]).Sub(middle(p[i])))
	}
	was := partner(len(p), len(q),
		func(i, j int) bool { return sameLoop(p[i].Outline.Path, q[j].Outline.Path) },
		func(i, j int) bool { return middle(p[i]).Near(middle(q[j])) }, alike)
	found := make([]bool, len(p))
	for j := range q {
		at := middle(q[j])
		i := was[j]
		if i < 0 {
			c.say("pillar added, " + c.outline(&q[j].Outline) + " at " + placeWords(c.set, at.X, at.Y))
			continue
		}
		found[i] = true
		if from := middle(p[i]); !from.Near(at) {
			c.say(c.inside("pillar at "+placeWords(c.set, from.X, from.Y), from, at))
		} else {
			c.say(c.outlineFrom("pillar at "+placeWords(c.set, at.X, at.Y), &p[i].Outline, &q[j].Outline))
		}
	}
	for i := range p {
		if at := middle(p[i]); !found[i] {
			c.say("pillar at " + placeWords(c.set, at.X, at.Y) + " taken out")
		}
	}
}

// sections says which panels that a room is hung in are new, gone or drawn otherwise.
func (c *comparison) sections(p, q []set.Section) {
	was := partner(len(p), len(q), func(i, j int) bool { return p[i].Name == q[j].Name },
		func(i, j int) bool { return sameOutline(&p[i].Outline, &q[j].Outline) })
	found := make([]bool, len(p))
	for j := range q {
		i := was[j]
		if i < 0 {
			c.say("panel " + q[j].Name + " added, " + c.outline(&q[j].Outline))
			continue
		}
		found[i] = true
		if p[i].Name != q[j].Name {
			c.say("panel " + arrow(p[i].Name, q[j].Name))
		}
		from, to := p[i].Outline.Path.Bounds().Mid(), q[j].Outline.Path.Bounds().Mid()
		if slidLoop(p[i].Outline.Path, q[j].Outline.Path, to.Sub(from)) {
			c.say(c.inside("panel "+q[j].Name, from, to))
		} else {
			c.say(c.outlineFrom("panel "+q[j].Name, &p[i].Outline, &q[j].Outline))
		}
	}
	for i := range p {
		if !found[i] {
			c.say("panel " + p[i].Name + " taken out")
		}
	}
}
