package changes

import (
	"markout/layout/geom"
	"markout/layout/set"
)

// lain is how an outline lies elsewhere between the P and the Q of the piece that stands there, or in its own axes.
type lain struct {
	by     geom.Point
	stands bool
}

// lies returns how the outline of b, the same as that of a, lies elsewhere in its own axes; ok is false where it is another one.
func lies(a, b *set.Panel) (l lain, ok bool) {
	by := b.Outline.Path.Bounds().Mid().Sub(a.Outline.Path.Bounds().Mid())
	if !a.Stands && !b.Stands && !by.Near(geom.Point{}) {
		return lain{}, false // on the plan that is another place
	}
	return lain{by, a.Stands && b.Stands}, slidLoop(a.Outline.Path, b.Outline.Path, by)
}

// words says it of a piece that stood and stands.
func (l lain) words(w wording) string {
	if !l.stands || l.by.Near(geom.Point{}) {
		return ""
	}
	return "lies " + w.onFace(l.by)
}

// cuts says which holes of a flat piece are new, gone, elsewhere or of another size.
func (c *comparison) cuts(p, q *set.Panel) {
	if _, ok := slid(p, q); ok {
		return
	}
	var by geom.Point
	if l, ok := lies(p, q); ok {
		by = l.by // holes go with the outline that they are in
	}
	way := func(i, j int) (d geom.Point, alike bool) {
		a, b := p.Holes[i].Path, q.Holes[j].Path
		d = b.Bounds().Mid().Sub(a.Bounds().Mid())
		return d.Sub(by), slidLoop(a, b, d)
	}
	was := partner(len(p.Holes), len(q.Holes),
		func(i, j int) bool { d, alike := way(i, j); return alike && d.Near(geom.Point{}) },
		func(i, j int) bool { _, alike := way(i, j); return alike },
		func(i, j int) bool { d, _ := way(i, j); return d.Near(geom.Point{}) })
	found := make([]bool, len(p.Holes))
	for j := range q.Holes {
		h := &q.Holes[j]
		i := was[j]
		if i < 0 {
			c.say("hole added, " + c.outline(h))
			c.size = true
			continue
		}
		found[i] = true
		switch d, alike := way(i, j); {
		case !alike:
			c.say(c.outlineFrom("hole", &p.Holes[i], h))
			c.size = true
		case !d.Near(geom.Point{}):
			c.say(c.holeMoves(q, d))
			c.size = true
		}
	}
	for i := range p.Holes {
		if !found[i] {
			c.say("hole filled, " + c.outline(&p.Holes[i]))
			c.size = true
		}
	}
}

// holeMoves says the way of a hole in the axes of its piece: of one that lies on the plan, of one that stands along it and up.
func (c *comparison) holeMoves(s *set.Panel, d geom.Point) string {
	if s.Stands {
		return "hole moves " + c.onFace(d)
	}
	if len(c.new.Copies) == 1 {
		return c.inside("hole", geom.Point{}, d)
	}
	return "hole moves " + c.closely(d.Len())
}

// onFace says a way on the face of what stands: along from P to Q, and up.
func (w wording) onFace(d geom.Point) string {
	var says []string
	one := func(x float64, plus, minus string) {
		switch {
		case same(x, 0):
		case x > 0:
			says = append(says, w.closely(x)+" "+plus)
		default:
			says = append(says, w.closely(-x)+" "+minus)
		}
	}
	one(d.X, "towards Q", "towards P")
	one(d.Y, "up", "down")
	return listWords(says)
}
