// Package element knows the kinds of pieces, one file a kind: the table of its attributes, which the parser, the
// formatter and the reference read, and the way from those attributes to the resolved set.
//
// Everything is asked for lazily, one attribute or measure at a time, each once: so the order of statements does not
// matter, and a deck may take its height from a flight that takes its place from the deck.
package element

import (
	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// maker is what a kind knows that others do not. Its methods report what is wrong at its place; false says that they
// have, or that what they depend on has failed before.
type maker interface {
	table() *notation.Kind
	// stand is where the piece stands on the plan before it is repeated.
	stand(e *elem) (pose, bool)
	// outline is the outline whose edges and corners can be asked for; nil where hasOutline says that there is none.
	outline(e *elem) (*set.Outline, bool)
	hasOutline(e *elem) bool
	shape(e *elem) (set.Shape, bool)
	// height is how far the piece reaches above its underside.
	height(e *elem) (float64, bool)
	// ground is the level of the underside of copy k of the lowest layer.
	ground(e *elem, k int) (float64, bool)
	// under is the level that something standing at p, with the given footprint in the set's axes, stands on.
	under(e *elem, k int, p geom.Point, foot func() ([]geom.Region, bool), at diag.Span) (float64, bool)
	// hub is the own place that comes to lie on a circle or line along which copies are spread.
	hub(e *elem) (geom.Point, bool)
	// measures are the words that measure knows, beyond the attributes that hold one value.
	measures() []string
	measure(e *elem, word string) (unit.Value, bool)
	// anchors are the words that anchor knows, beyond those of the outline.
	anchors() []string
	anchor(e *elem, ask notation.Ask) (spot, bool)
	// line is the way along which copies of other pieces may be spread, in the piece's own axes; nil where there is none.
	line(e *elem) (*geom.Path, bool)
}

// spot is a place in a piece's own axes, with the direction off the edge whose middle it is.
type spot struct{ at, outward geom.Point }

// pose is where a piece stands on the plan: its own 0,0 and its turn in degrees, in the set's axes.
type pose struct {
	at   geom.Point
	turn float64
}

func (p pose) plan() geom.Isometry { return geom.Move(p.at, p.turn) }

// elem is one element while it is worked out.
type elem struct {
	sc   *scene
	st   *notation.Statement
	kind maker
	name string

	asking diag.Span // the words that ask for a measure or place from elsewhere, until they are taken up

	measured *measured
	seating  eval.Cell[*seat]
	based    eval.Cell[axes]
	counted  eval.Cell[*counts]
	outlined eval.Cell[*set.Outline]
	standing eval.Cell[pose]
	runs     eval.Cell[stretch]
	spread   eval.Cell[[]pose]
	levels   eval.Cell[[]float64]
	shaped   eval.Cell[set.Shape]
	copied   eval.Cell[[]set.Copy]
	drawnOn  eval.Cell[*geom.Path]
	climbs   eval.Cell[*climbLine]
	turning  eval.Cell[*set.Overhead]
}

// measured is a single value of an element, one in a list of those that were asked for.
type measured struct {
	word string
	cell eval.Cell[unit.Value]
	next *measured
}

// value returns a single value, working it out once.
func (e *elem) value(word string, at diag.Span, work func() (unit.Value, bool)) (unit.Value, bool) {
	m := e.measured
	for m != nil && m.word != word {
		m = m.next
	}
	if m == nil {
		m = &measured{word: word, next: e.measured}
		e.measured = m
	}
	return eval.Ask(e.sc.ev, &m.cell, e.cell(word), e.asked(at), work)
}

// asked returns the words from elsewhere that ask, once, and otherwise at.
func (e *elem) asked(at diag.Span) diag.Span {
	if !e.asking.IsZero() {
		at, e.asking = e.asking, diag.Span{}
	}
	return at
}

func (e *elem) cell(word string) eval.Name { return eval.Name{Owner: e.name, Word: word} }

// attr returns the first attribute of a word, nil where there is none.
func (e *elem) attr(word string) *notation.Attribute {
	for _, a := range e.st.Attributes {
		if a.Word == word {
			return a
		}
	}
	return nil
}

// has reports whether an attribute stands in the text.
func (e *elem) has(word string) bool { return e.attr(word) != nil }

// arg returns the first value of an attribute, nil where the attribute is missing.
func (e *elem) arg(word string) notation.Node {
	a := e.attr(word)
	if a == nil || len(a.Args) == 0 {
		return nil
	}
	return a.Args[0].Value
}

// need is arg for what must stand there; a missing attribute is an error that shows how it is written.
func (e *elem) need(word string) (notation.Node, bool) {
	if n := e.arg(word); n != nil {
		return n, true
	}
	if e.has(word) {
		return nil, false // the reader has said what is wrong with it
	}
	hint := ""
	if a := e.row(word); a != nil {
		hint = "write `" + a.Example + "`"
		if e.st.Listed() {
			hint = "fill a column `" + word + "`, or " + hint + " under `" + e.st.Word + " from`, for all of the list"
		}
	}
	e.sc.list.Add(diag.Diagnostic{Span: e.st.NameSpan, Message: "`" + e.name + "` needs its `" + word + "`", Hint: hint})
	return nil, false
}

// row returns the line of the kind's table for an attribute's word, nil where it has none.
func (e *elem) row(word string) *notation.Attr {
	t := e.kind.table()
	for i := range t.Attributes {
		if t.Attributes[i].Word == word {
			return &t.Attributes[i]
		}
	}
	return nil
}

// place returns where an attribute stands, or where the element's name does.
func (e *elem) place(word string) diag.Span {
	if a := e.attr(word); a != nil {
		return a.Span
	}
	return e.st.NameSpan
}

// signed are the lengths that may be of any sign, bare those that may be 0; all others are more than 0.
var (
	signed = map[string]bool{"level": true, "top": true}
	bare   = map[string]bool{"ground": true, "margin": true, "stand": true, "tread": true, "riser_board": true, "nosing": true, "thickness": true, "sill": true, "lower": true, "upper": true}
)

// single works out an attribute that holds one value.
func (e *elem) single(word string, at diag.Span) (unit.Value, bool) {
	return e.value(word, at, func() (unit.Value, bool) {
		n := e.arg(word)
		if n == nil {
			return unit.Value{}, false // the reader has said what is wrong with it
		}
		v, ok := e.sc.ev.Want(n, e.row(word).Wants, word)
		switch {
		case !ok || v.Kind != unit.Length || signed[word]:
		case v.X < 0 || v.X == 0 && !bare[word]:
			bound := "more than 0"
			if bare[word] {
				bound = "not less than 0"
			}
			return v, e.errorf(n.Pos(), "`%s` is %s, and this is %s", word, bound, e.show(v.X))
		}
		return v, ok
	})
}

// needed is the value of an attribute that must stand there.
func (e *elem) needed(word string) (float64, bool) {
	if _, ok := e.need(word); !ok {
		return 0, false
	}
	v, ok := e.single(word, e.place(word))
	return v.X, ok
}

// optional is the value of an attribute that may be missing; 0 where it is.
func (e *elem) optional(word string) (float64, bool) {
	if !e.has(word) {
		return 0, true
	}
	v, ok := e.single(word, e.place(word))
	return v.X, ok
}

// errorf adds an error at a place.
func (e *elem) errorf(at diag.Span, format string, args ...any) bool {
	e.sc.list.Errorf(at, format, args...)
	return false
}

// hint adds an error with what would mend it.
func (e *elem) hint(at diag.Span, message, hint string, args ...any) bool {
	e.sc.list.Hintf(at, message, hint, args...)
	return false
}

// clash reports two attributes that do not go together, at the second in the text.
func (e *elem) clash(word, other, why string) bool {
	one, two := e.place(word), e.place(other)
	if two.From < one.From {
		word, other, two = other, word, one
	}
	return e.errorf(two, "`%s` and `%s` do not go together: %s", word, other, why)
}

// show returns a length as people of this set read it.
func (e *elem) show(mm float64) string { return e.sc.ev.Show(mm) }
