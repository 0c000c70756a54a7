package changes

import (
	"cmp"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
)

// Move is something built that stands elsewhere or is turned, and is otherwise as it was.
type Move struct {
	Element  string     // with the copy's number, in the new set
	Words    string     // moves 300 downstage and turns 90° anticlockwise
	From, To geom.Point // of its own 0,0 on the plan, each in its own set's axes
}

// Moves returns what stands on the floor or on something, is built, and was only moved or turned: platforms, flights, ramps,
// posts, flats, rings, cones, shapes, figures, cloths, dressing, each where it stands first. Things of one shape and one material stand
// in for one another, whatever they are called, so that as few as can be are moved; dressing and what shows a picture only with its own
// kind. Loose blocks are Blocks', what hangs in a room overhead is Hung's. The order is the new set's.
func Moves(old, new *set.Set) []Move {
	was, is := built(old), built(new)
	var out []Move
	for _, p := range newExchange(was, is).serve(func(t *thing) string { return t.kind }, nil) {
		a, b := &was[p.old], &is[p.new]
		if a.stays(b) {
			continue
		}
		words := moveWords(new, a, b)
		if a.element != b.element {
			words += " (it was " + a.element + ")"
		}
		out = append(out, Move{b.element, words, a.at.Plan(), b.at.Plan()})
	}
	return out
}

// built lists what a set is built of, piece by piece in its order.
func built(s *set.Set) []thing {
	var out []thing
	for _, e := range s.Elements {
		var k key
		k.word(e.Kind)
		k.word(strconv.Quote(e.Material))
		sides, ok := k.shape(e)
		if !ok {
			continue
		}
		kind := k.String()
		for _, c := range e.Copies {
			if pl := c.Places[0]; pl.Over == nil {
				out = append(out, thing{kind: kind, element: e.CopyName(c), at: pl.Frame.T, turn: pl.Frame.TurnDeg(), sides: sides})
			}
		}
	}
	return out
}

// shape writes what is built of an element, and returns at how many turns of a full circle it looks the same; it is false of what
// is not built in one piece.
func (k *key) shape(e *set.Element) (sides int, ok bool) {
	switch s := e.Shape.(type) {
	case *set.Platform:
		k.path(s.Outline.Path)
		k.numbers(s.Height, s.Deck)
		k.flags(s.Closed)
		return likeTurns(s.Outline), true
	case *set.Steps:
		if s.Blocks {
			return 0, false
		}
		for _, list := range [][]float64{s.Rises, s.Goings, s.Widths, s.Shifts} {
			k.numbers(list...)
		}
		k.numbers(s.Tread, s.RiserBoard, s.Nosing)
		if s.UnderBoard() {
			k.numbers(s.DeckBoard)
		}
		if s.Line != nil {
			k.path(s.Line)
		}
	case *set.Ramp:
		k.numbers(s.Length, s.Rise, s.Width)
	case *set.Post:
		k.path(s.Outline.Path)
		k.numbers(s.Height)
		return likeTurns(s.Outline), true
	case *set.Ring:
		k.path(s.Outer.Path)
		k.numbers(s.Height)
		sides = likeTurns(s.Outer)
		if s.Inner != nil {
			k.path(s.Inner.Path)
			sides = common(sides, likeTurns(*s.Inner))
		}
		return sides, true
	case *set.Panel:
		k.path(s.Outline.Path)
		for _, h := range s.Holes {
			k.path(h.Path)
		}
		k.numbers(s.Thickness)
		k.flags(s.Stands, s.Brace)
		if !s.Stands && len(s.Holes) == 0 {
			return likeTurns(s.Outline), true
		}
	case *set.Cone:
		k.numbers(s.Lower, s.Upper, s.Height, float64(s.Sides))
		return s.Sides, true
	case *set.Flat:
		k.flat(s)
	case *set.Figure:
		k.picture(s.Art)
		for _, r := range s.Bodies {
			k.region(r)
		}
		k.numbers(s.Ground, s.Thickness)
		k.flags(s.Flipped, s.Hung, s.BothSides, s.Brace)
	case *set.Cloth:
		k.picture(s.Art)
		k.numbers(s.Width, s.Height)
		k.numbers(s.Frame.A, s.Frame.B, s.Frame.C, s.Frame.D, s.Frame.E, s.Frame.F)
	case *set.Dressing:
		k.word(strconv.Quote(e.Name))
		k.path(s.Outline.Path)
		k.numbers(s.Height)
		return likeTurns(s.Outline), true
	default:
		return 0, false
	}
	return 1, true
}

func (k *key) flat(f *set.Flat) {
	k.numbers(f.Length, f.Height, f.Thickness)
	k.flags(f.FaceLeft)
	if f.Line != nil {
		k.path(f.Line)
	}
	openings := slices.Clone(f.Openings)
	slices.SortStableFunc(openings, func(a, b set.Opening) int { return cmp.Compare(a.At, b.At) })
	for _, o := range openings {
		k.word(o.Word)
		k.numbers(o.At, o.Sill, o.Width, o.Height, o.Arch)
		k.word(o.Hinge + " " + o.Opens)
	}
}

func (k *key) picture(a *set.Artwork) {
	if a != nil {
		k.word(string(a.SHA256[:]))
	}
}

// common is the number of turns that two outlines both look the same at.
func common(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
