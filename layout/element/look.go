package element

import (
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// looks works out what figures look at, once all stand where they stand: two may look at each other.
func (sc *scene) looks(out *set.Set) {
	resolved := make(map[string]*set.Element, len(out.Elements))
	for _, el := range out.Elements {
		resolved[el.Name] = el
	}
	for _, e := range sc.elems {
		a := e.attr("look")
		el := resolved[e.name]
		if a == nil || a.Bad || el == nil {
			continue
		}
		f := el.Shape.(*set.Figure)
		if _, ok := f.Eyes(); !ok {
			e.hint(a.Span, "where the eyes of `"+e.name+"` are is not known", "give its eye line, `eye 1660`")
			continue
		}
		if at, ok := sc.lookedAt(e, a, el, resolved); ok {
			f.LookAt = &set.Look{Words: sc.words(a.Args.Get("at").Pos()), At: at}
		}
	}
}

// lookedAt is the place that a figure looks at, in the set's axes.
func (sc *scene) lookedAt(e *elem, a *notation.Attribute, own *set.Element, resolved map[string]*set.Element) (geom.Vec, bool) {
	n := a.Args.Get("at")
	if n == nil {
		return geom.Vec{}, false
	}
	eyes := eyesOf(own, own.Copies[0])
	if ref, ok := n.(*notation.Ref); ok && len(ref.Asks) == 0 {
		other, k, ok := sc.element(ref)
		if !ok {
			return geom.Vec{}, false
		}
		if _, ok := other.kind.(figure); ok {
			if l := a.Args.Get("level"); l != nil {
				return geom.Vec{}, e.hint(l.Pos(), "how high the eyes of `"+other.name+"` are is known", "leave `level` out, or look at a place: `look at %s.centre level 1600`", other.name)
			}
			return e.intoEyes(ref, other, k, resolved[other.name])
		}
	}
	ax, ok := e.from()
	if !ok {
		return geom.Vec{}, false
	}
	at, ok := sc.ev.Place(n, ax.m)
	to := geom.Vec{X: at.At.X, Y: at.At.Y, Z: eyes.Z}
	if l := a.Args.Get("level"); l != nil && ok {
		to.Z, ok = sc.ev.Length(l, "level")
		to.Z += ax.z
	}
	return to, ok
}

// intoEyes is where the eyes of another figure are, el once it is resolved.
func (e *elem) intoEyes(ref *notation.Ref, other *elem, k int, el *set.Element) (geom.Vec, bool) {
	if el == nil {
		return geom.Vec{}, false // what is wrong with it has been said
	}
	if other == e {
		return geom.Vec{}, e.errorf(ref.Span, "`%s` cannot look into its own eyes", e.name)
	}
	if _, ok := el.Shape.(*set.Figure).Eyes(); !ok {
		return geom.Vec{}, e.hint(ref.Span, "where the eyes of `"+other.name+"` are is not known", "give its eye line: `eye 1660`")
	}
	for _, c := range el.Copies {
		if c.Number == k {
			return eyesOf(el, c), true
		}
	}
	return geom.Vec{}, false
}

// eyesOf is where the eyes of a copy of a figure are, in the set's axes.
func eyesOf(el *set.Element, c set.Copy) geom.Vec {
	at, _ := el.Shape.(*set.Figure).Eyes()
	return c.Places[0].Frame.Apply(geom.Vec{X: at.X, Z: at.Y})
}
