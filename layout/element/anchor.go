package element

import (
	"math"
	"slices"
	"strings"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// outlineAnchors are the places of every outline.
var outlineAnchors = []string{"centre", "front", "back", "left", "right", "stage_left", "stage_right", "edge", "corner"}

// asides is where people look when they name a side of a piece that stands at turn 0.
var asides = map[string]geom.Point{
	"front": {X: 0, Y: -1}, "back": {X: 0, Y: 1}, "left": {X: -1, Y: 0}, "right": {X: 1, Y: 0},
	"stage_left": {X: 1, Y: 0}, "stage_right": {X: -1, Y: 0}, // as a performer who faces the audience has them
}

// Anchor answers for a place of the element, on its base place, upright.
func (e *elem) Anchor(_ int, ref *notation.Ref, ask notation.Ask) (eval.Place, bool) {
	if ask.Word == "" {
		if e.kind.table().Word != "mark" {
			return eval.Place{}, e.hint(ref.Span, "`"+e.name+"` is a piece, and one place of it is wanted here", "say which: `%s.%s`", e.name, e.anchorWords()[0])
		}
		ask = notation.Ask{Span: ref.Span, Word: "centre"} // a pin is its own place
	}
	words := e.anchorWords()
	if !slices.Contains(words, ask.Word) {
		return eval.Place{}, e.noAnchor(ask, words)
	}
	k, ok := e.which(ref)
	if !ok {
		return eval.Place{}, false
	}
	if (ask.Word == "edge" || ask.Word == "corner" || ask.Word == "along") != (ask.Argument != nil) {
		if ask.Argument == nil {
			example := "1"
			if ask.Word == "along" {
				example = "1200"
			}
			return eval.Place{}, e.hint(ask.Span, "`"+ask.Word+"` wants to know which", "write `%s.%s(%s)`", e.name, ask.Word, example)
		}
		return eval.Place{}, e.errorf(ask.Argument.Pos(), "`%s` takes nothing in brackets", ask.Word)
	}
	var s spot
	if slices.Contains(e.kind.anchors(), ask.Word) {
		s, ok = e.kind.anchor(e, ask)
	} else {
		s, ok = e.outlineAnchor(ask)
	}
	if !ok {
		return eval.Place{}, false
	}
	e.asking = ref.Span
	p, ok := e.planOf(k)
	e.asking = diag.Span{}
	if !ok {
		return eval.Place{}, false
	}
	m := p.plan()
	return eval.Place{At: m.Apply(s.at), Outward: m.Vector(s.outward), Of: e, Copy: k}, true
}

// anchorWords are the places that can be asked for.
func (e *elem) anchorWords() []string {
	words := e.kind.anchors()
	if e.kind.hasOutline(e) {
		words = append(slices.Clone(outlineAnchors), words...)
	}
	return words
}

func (e *elem) noAnchor(ask notation.Ask, words []string) bool {
	message := "`" + e.name + "` has no place `" + ask.Word + "`"
	if slices.Contains(e.measureWords(), ask.Word) {
		message = "`" + e.name + "." + ask.Word + "` is one value, and a place is wanted here"
	}
	near := suggest(ask.Word, words)
	if near != "" {
		return e.hint(ask.Span, message, "did you mean `%s.%s`?", e.name, near)
	}
	return e.hint(ask.Span, message, "places of `%s` are: %s", e.name, strings.Join(words, ", "))
}

// asked lists what people elsewhere write for a place or a measure.
var asked = map[string]string{
	"center": "centre", "middle": "centre", "mid": "centre", "downstage": "front", "upstage": "back", "vertex": "corner", "side": "edge",
	"tread": "going", "riser": "rise", "head": "landing", "upper": "landing", "bottom": "foot", "begin": "start", "finish": "end",
}

// suggest returns the word of among that was probably meant.
func suggest(word string, among []string) string {
	if w := asked[word]; slices.Contains(among, w) {
		return w
	}
	return notation.Suggest(word, among)
}

// outlineAnchor finds a place of the element's outline.
func (e *elem) outlineAnchor(ask notation.Ask) (spot, bool) {
	o, ok := e.kind.outline(e)
	if !ok || o == nil {
		return spot{}, false
	}
	switch ask.Word {
	case "centre":
		return spot{at: o.Centre}, true
	case "edge":
		return e.numbered(o, ask, true)
	case "corner":
		return e.numbered(o, ask, false)
	}
	aside := asides[ask.Word]
	if round(o) {
		return spot{at: geom.RimAt(o.Path, aside), outward: aside}, true
	}
	return edge(o.Path, facing(o, aside)), true
}

// round reports whether an outline has no edges: its sides are points of its rim.
func round(o *set.Outline) bool { return o.Form == "circle" || o.Form == "ellipse" }

// facing returns the edge of an outline that looks most nearly aside.
func facing(o *set.Outline, aside geom.Point) int {
	front := geom.Point{X: 0, Y: -1}
	if aside == front {
		return o.Front
	}
	// The front edge of the outline as someone sees it who looks the other way.
	turn := math.Atan2(front.Y, front.X) - math.Atan2(aside.Y, aside.X)
	return geom.FrontEdge(o.Path.Transform(geom.Move(geom.Point{}, math.Round(turn*180/math.Pi))))
}

// edge is the middle of an edge of an anticlockwise outline, which looks to the right of the way it runs.
func edge(p *geom.Path, i int) spot {
	s := p.Segment(i)
	t := s.Tangent(0.5)
	return spot{at: s.Point(0.5), outward: geom.Point{X: t.Y, Y: -t.X}.Unit()}
}

// numbered is edge(n) or corner(n), counted anticlockwise from the front edge and its plan-left end.
func (e *elem) numbered(o *set.Outline, ask notation.Ask, edges bool) (spot, bool) {
	if round(o) {
		return spot{}, e.hint(ask.Span, "a round outline has no edges and no corners", "its places are centre, front, back, left, right")
	}
	n := o.Path.Len()
	k, ok := e.sc.ev.Count(ask.Argument, ask.Word, 1, math.MaxInt32)
	if !ok {
		return spot{}, false
	}
	if k > n {
		return spot{}, e.errorf(ask.Argument.Pos(), "`%s` has %s", e.name, eval.Plural(n, ask.Word))
	}
	i := (o.Front + k - 1) % n
	if edges {
		return edge(o.Path, i), true
	}
	return spot{at: o.Path.Segment(i).From}, true
}

func lengthOf(mm float64) unit.Value { return unit.Value{Kind: unit.Length, X: mm} }

// alongPath is along(d) of a line in the piece's own axes, its outward side to the right of the way it runs.
func (e *elem) alongPath(p *geom.Path, ask notation.Ask) (spot, bool) {
	d, ok := e.sc.ev.NotNegative(ask.Argument, "along")
	if !ok {
		return spot{}, false
	}
	r := geom.NewRuler(p)
	if d > r.Length()+geom.Tolerance {
		return spot{}, e.errorf(ask.Argument.Pos(), "`%s` is %s long", e.name, e.show(r.Length()))
	}
	at, ahead := r.At(d)
	return spot{at: at, outward: geom.Point{X: ahead.Y, Y: -ahead.X}}, true
}

// Measure answers for a single value of the element.
func (e *elem) Measure(_ int, ref *notation.Ref, ask notation.Ask) (unit.Value, bool) {
	words := e.measureWords()
	switch {
	case !slices.Contains(words, ask.Word):
		return unit.Value{}, e.noMeasure(ask, words)
	case ask.Argument != nil:
		return unit.Value{}, e.errorf(ask.Argument.Pos(), "`%s` takes nothing in brackets", ask.Word)
	}
	k := 1
	if ref.Copy != 0 || (ask.Word == "level" || ask.Word == "top") && e.has("stack") {
		var ok bool
		if k, ok = e.which(ref); !ok {
			return unit.Value{}, false
		}
	}
	return e.ask(ask.Word, k, ref.Span)
}

func (e *elem) noMeasure(ask notation.Ask, words []string) bool {
	message := "`" + e.name + "` has no `" + ask.Word + "`"
	if slices.Contains(e.anchorWords(), ask.Word) {
		return e.errorf(ask.Span, "`%s.%s` is a place, and one value is wanted here", e.name, ask.Word)
	}
	near := suggest(ask.Word, words)
	if near != "" {
		return e.hint(ask.Span, message, "did you mean `%s.%s`?", e.name, near)
	}
	return e.hint(ask.Span, message, "measures of `%s` are: %s", e.name, strings.Join(words, ", "))
}

// measureWords are the single values that can be asked for.
func (e *elem) measureWords() []string {
	words := []string{"level", "top"}
	for _, a := range e.kind.table().Attributes {
		if a.Measured && !slices.Contains(words, a.Word) {
			words = append(words, a.Word)
		}
	}
	for _, w := range e.kind.measures() {
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	return words
}

// ask returns a single value of the element.
func (e *elem) ask(word string, k int, at diag.Span) (unit.Value, bool) {
	switch word {
	case "level":
		z, ok := e.level(k)
		return lengthOf(z), ok
	case "top":
		z, ok := e.top(k, at)
		return lengthOf(z), ok
	}
	if slices.Contains(e.kind.measures(), word) {
		e.asking = at
		defer func() { e.asking = diag.Span{} }()
		return e.kind.measure(e, word)
	}
	if !e.has(word) {
		return unit.Value{}, e.errorf(at, "`%s` has no `%s` in its lines", e.name, word)
	}
	return e.single(word, at)
}
