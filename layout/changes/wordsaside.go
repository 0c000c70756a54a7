package changes

import (
	"slices"
	"strings"

	"markout/layout/set"
	"markout/layout/unit"
)

// aside says what changed of an element beside its shape and its places: material, card, tape, paper, notes.
func (c *comparison) aside() {
	a, b := c.old, c.new
	c.say(fromTo("material", lookUp(c.names.material, a.Material), b.Material, "none said"))
	c.say(fromTo("model", lookUp(c.names.card, a.Model), b.Model, "as its size asks"))
	c.say(fromTo("on a sheet", lieWords(a.Lie), lieWords(b.Lie), ""))
	c.say(c.tapeFrom(a.Tape, b.Tape))
	c.say(fromTo("full size", viewsWords(a), viewsWords(b), "none"))
	was, is := slices.Clone(a.Notes), slices.Clone(b.Notes)
	slices.Sort(was)
	slices.Sort(is)
	if !slices.Equal(was, is) {
		switch {
		case len(was) == 0:
			c.say("note added")
		case len(is) == 0:
			c.say("note taken out")
		default:
			c.say("note changed")
		}
	}
}

func (c *comparison) tapeFrom(a, b *set.Tape) string {
	word := func(t *set.Tape) string {
		if t == nil {
			return ""
		}
		return orNone(t.Colour, "any colour") + " " + c.length(t.Width)
	}
	if a != nil && b != nil && a.Colour == b.Colour {
		return c.lengthFrom("tape "+a.Colour, a.Width, b.Width, "")
	}
	return fromTo("tape", word(a), word(b), "none said")
}

// viewsWords lists the views wanted on full-size paper, whatever their order in the text.
func viewsWords(e *set.Element) string {
	views := slices.Clone(e.FullSize)
	slices.Sort(views)
	views = slices.Compact(views)
	if len(views) == 0 {
		return ""
	}
	return listWords(views)
}

// lieWords says how parts may lie on a sheet: turned 0° and 180°, either side.
func lieWords(l set.Lie) string {
	words := "any turn"
	switch {
	case l.Grain != set.GrainFree:
		words = "grain " + string(l.Grain)
	case l.Turns != nil:
		turns := slices.Clone(l.Turns)
		slices.Sort(turns)
		var list []string
		for _, t := range turns {
			list = append(list, unit.FormatAngle(t, 0.001))
		}
		words = "turned " + listWords(list)
		if len(list) == 0 {
			words = "turned in no way"
		}
	}
	if l.EitherSide {
		words += ", either side"
	}
	return strings.TrimSpace(words)
}
