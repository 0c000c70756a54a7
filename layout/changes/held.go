package changes

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// held says what did not change of something that is larger, smaller or drawn otherwise, where it stands first.
func (c *comparison) held() string {
	a, b := c.firstOfBoth()
	if a == nil {
		return ""
	}
	f, g := a.Upright(), b.Upright()
	stays := c.placeGoes(a, b) == ""
	var kept []string
	keep := func(name string, is bool) {
		if is {
			kept = append(kept, name)
		}
	}
	switch p := c.old.Shape.(type) {
	case *set.Steps:
		q, ok := c.new.Shape.(*set.Steps)
		if !ok {
			break
		}
		kept = heldOfSteps(p, q, f, g)
	case *set.Ramp:
		q, ok := c.new.Shape.(*set.Ramp)
		if !ok {
			break
		}
		keep("top", near(f.Apply(geom.Vec{Y: p.Length, Z: p.Rise}), g.Apply(geom.Vec{Y: q.Length, Z: q.Rise})))
		keep("rise", same(p.Rise, q.Rise))
		keep("length", same(p.Length, q.Length))
		keep("slope", sameSlope(p, q) && !same(p.Length, q.Length))
		keep("foot", near(f.T, g.T))
	case *set.Platform:
		q, ok := c.new.Shape.(*set.Platform)
		if !ok {
			break
		}
		keep("top", same(f.T.Z+p.Height, g.T.Z+q.Height) && (!same(p.Height, q.Height) || !sameOutline(&p.Outline, &q.Outline)))
		if sameOutline(&p.Outline, &q.Outline) {
			keep("where it stands", stays)
			break
		}
		keep("centre", near(onPlan(f, p.Outline.Centre), onPlan(g, q.Outline.Centre)))
		keep("front edge", sameEdge(f, g, &p.Outline, &q.Outline))
	case *set.Flat:
		q, ok := c.new.Shape.(*set.Flat)
		if !ok {
			break
		}
		keep("P", near(onPlan(f, p.FaceLine().Start()), onPlan(g, q.FaceLine().Start())))
		keep("Q", near(onPlan(f, p.FaceLine().End()), onPlan(g, q.FaceLine().End())))
	case *set.Panel:
		q, ok := c.new.Shape.(*set.Panel)
		if !ok || !p.Stands || !q.Stands {
			keep(whereWords(c.new), stays)
			break
		}
		keep("P", near(f.T, g.T))
		keep("Q", near(f.Apply(geom.Vec{X: p.Run}), g.Apply(geom.Vec{X: q.Run})))
	default:
		h, ok := heightOf(c.old.Shape)
		k, both := heightOf(c.new.Shape)
		keep("top", ok && both && !same(h, k) && same(f.T.Z+h, g.T.Z+k))
		keep(whereWords(c.new), stays)
	}
	if len(kept) == 0 {
		return ""
	}
	return listWords(kept)
}

// heightOf is the height of what stands up from its underside.
func heightOf(sh set.Shape) (h float64, ok bool) {
	switch s := sh.(type) {
	case *set.Post:
		return s.Height, true
	case *set.Ring:
		return s.Height, true
	case *set.Cone:
		return s.Height, true
	case *set.Reserve:
		return s.Height, true
	case *set.Dressing:
		return s.Height, true
	}
	return 0, false
}

func whereWords(e *set.Element) string {
	if len(e.Copies) > 1 {
		return "where they stand"
	}
	return "where it stands"
}

// heldOfSteps says what a flight kept of what is asked when it is built: where it lands and where its foot stands, its heights and its
// lengths. A total that stayed says more than the rise and the going of a step, which are said where it did not.
func heldOfSteps(p, q *set.Steps, f, g geom.Frame) []string {
	var kept []string
	keep := func(name string, is bool) {
		if is {
			kept = append(kept, name)
		}
	}
	total, run := same(p.Total(), q.Total()), same(p.Run(), q.Run())
	rise, oneRise := uniform(p.Rises, q.Rises)
	going, oneGoing := uniform(p.Goings, q.Goings)
	keep("top", near(f.Apply(landing(p)), g.Apply(landing(q))))
	keep("total", total)
	keep("rise", !total && oneRise && rise)
	keep("going", !total && !run && oneGoing && going)
	keep("run", run)
	keep("foot", near(f.T, g.T))
	return kept
}

// landing is the middle of the last riser at the top, in the flight's own axes.
func landing(s *set.Steps) geom.Vec {
	at := s.Way(s.Mid(max(len(s.Goings)-1, 0)), s.Run())
	return geom.Vec{X: at.X, Y: at.Y, Z: s.Total()}
}

// uniform reports whether two lists are each of one value, and whether that is the same.
func uniform(a, b []float64) (alike, each bool) {
	if !level(a) || !level(b) {
		return false, false
	}
	return same(a[0], b[0]), true
}

// level reports whether a list has values and all are the same.
func level(list []float64) bool {
	for _, x := range list {
		if !same(x, list[0]) {
			return false
		}
	}
	return len(list) > 0
}

// firstOfBoth returns the first place of the first copy that both have.
func (c *comparison) firstOfBoth() (a, b *set.Place) {
	for i := range c.new.Copies {
		for j := range c.old.Copies {
			if c.new.Copies[i].Number == c.old.Copies[j].Number {
				return &c.old.Copies[j].Places[0], &c.new.Copies[i].Places[0]
			}
		}
	}
	return nil, nil
}

func onPlan(f geom.Frame, p geom.Point) geom.Vec {
	at := f.Apply(geom.Vec{X: p.X, Y: p.Y})
	return geom.Vec{X: at.X, Y: at.Y}
}

func near(a, b geom.Vec) bool {
	return math.Hypot(math.Hypot(a.X-b.X, a.Y-b.Y), a.Z-b.Z) <= geom.Tolerance
}

func sameSlope(p, q *set.Ramp) bool {
	return math.Abs(p.Rise*q.Length-q.Rise*p.Length) <= geom.Tolerance*max(p.Length, q.Length)
}

// sameEdge reports whether the front edges of two outlines, in their places, are straight and lie on one line.
func sameEdge(f, g geom.Frame, p, q *set.Outline) bool {
	if p.Path.Empty() || q.Path.Empty() {
		return false
	}
	a, b := p.Path.Segment(p.Front), q.Path.Segment(q.Front)
	if a.Kind != geom.Line || b.Kind != geom.Line {
		return false
	}
	from, to := onPlan(f, a.From).Plan(), onPlan(f, a.To).Plan()
	along := to.Sub(from).Unit()
	for _, end := range [2]geom.Point{b.From, b.To} {
		if math.Abs(along.Cross(onPlan(g, end).Plan().Sub(from))) > geom.Tolerance {
			return false
		}
	}
	return along.Dot(onPlan(g, b.To).Plan().Sub(onPlan(g, b.From).Plan())) > 0
}
