// Package eval reckons: it gives names their values, keeps kinds apart in arithmetic, turns places and lines of the
// text into points and paths, and asks one value at a time, each once, so that the order of statements does not
// matter and a circle among them is found and named.
//
// It does not know what pieces there are. It asks them through Thing, which package element fulfils.
package eval

import (
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/unit"
)

// Thing is what the name of an element stands for. The methods report what is wrong themselves; false says that
// they have, or that what they depend on has failed before.
type Thing interface {
	// Measure answers NAME.word or NAME.3.word, with a copy of 0 where none is written.
	Measure(copy int, ref *notation.Ref, ask notation.Ask) (unit.Value, bool)
	// Anchor answers NAME.word, NAME.3.word or, with an ask without a word, the name alone.
	Anchor(copy int, ref *notation.Ref, ask notation.Ask) (Place, bool)
}

// Place is a place on the plan, in the set's axes.
type Place struct {
	At      geom.Point
	Outward geom.Point // unit vector off the edge whose middle it is; zero for a place that lies on no edge
	Of      Thing      // whose anchor it is; nil for a bare point
	Copy    int        // of that element, 0 where it has but one
}

// Evaluator holds the names of one set.
type Evaluator struct {
	Units unit.System
	List  *diag.List
	// Station finds a fixed point of the hall worked in: found says that there is one of the name, ok that its place is known.
	Station func(name string) (at geom.Point, found, ok bool)

	lets    map[string]*let
	things  map[string]Thing
	broken  map[string]bool // names of statements that are errors themselves
	asked   []request
	depth   int
	guesses int
}

type let struct {
	node notation.Node
	span diag.Span
	cell Cell[unit.Value]
}

// New returns an evaluator without names.
func New(units unit.System, list *diag.List) *Evaluator {
	return &Evaluator{Units: units, List: list, lets: map[string]*let{}, things: map[string]Thing{}, broken: map[string]bool{}}
}

// Let gives a name to a value. The caller has seen to it that the name is new.
func (ev *Evaluator) Let(name string, span diag.Span, node notation.Node) {
	ev.lets[name] = &let{node: node, span: span}
}

// Name gives a name to a thing. The caller has seen to it that the name is new.
func (ev *Evaluator) Name(name string, t Thing) { ev.things[name] = t }

// Broken notes the name of a statement that is an error already, so that what refers to it is not a second one.
func (ev *Evaluator) Broken(name string) { ev.broken[name] = true }

// Known reports whether a name is given to anything.
func (ev *Evaluator) Known(name string) bool {
	_, value := ev.lets[name]
	_, thing := ev.things[name]
	return value || thing || ev.broken[name]
}

// AskLet returns the value of a let.
func (ev *Evaluator) AskLet(name string, at diag.Span) (unit.Value, bool) {
	l := ev.lets[name]
	return Ask(ev, &l.cell, Name{Owner: name}, at, func() (unit.Value, bool) {
		v, ok := ev.Value(l.node)
		l.node = nil
		return v, ok
	})
}

// Find returns the thing that a reference names, without asking anything of it. A name that is none is reported.
func (ev *Evaluator) Find(ref *notation.Ref) (Thing, bool) {
	if t, ok := ev.things[ref.Name]; ok {
		return t, true
	}
	if _, ok := ev.lets[ref.Name]; ok {
		ev.List.Errorf(ref.NameSpan, "`%s` is a value, and a piece is wanted here", ref.Name)
		return nil, false
	}
	ev.unknown(ref)
	return nil, false
}

func (ev *Evaluator) unknown(ref *notation.Ref) {
	if ev.broken[ref.Name] {
		return
	}
	message := "there is no `" + ref.Name + "`"
	if near := ev.near(ref.Name); near != "" {
		ev.List.Hintf(ref.NameSpan, message, "did you mean `%s`?", near)
		return
	}
	ev.List.Errorf(ref.NameSpan, "%s", message)
}
