package changes

import (
	"strconv"

	"markout/layout/set"
)

func countFromOne(n int) string { return strconv.Itoa(n) + " copies" }

// factsOf returns what is so of a shape, apart from what is compared piece by piece: steps, openings, pictures, stations.
func factsOf(sh set.Shape) []fact {
	switch s := sh.(type) {
	case *set.Hall:
		tapes := wordFact("class", roman(s.Class), "none")
		return []fact{outlineFact("", &s.Outline), besides(maybeFact("ceiling", s.Ceiling)), besides(maybeFact("tapes", s.TapeLong)), tapes}
	case *set.Platform:
		return []fact{outlineFact("", &s.Outline), sizeFact("height", s.Height), maybeFact("board", s.Deck), flagFact("closed beneath", s.Closed)}
	case *set.Steps:
		return []fact{maybeFact("tread boards", s.Tread), maybeFact("riser boards", s.RiserBoard), maybeFact("nosing", s.Nosing),
			flagFact("loose blocks", s.Blocks), maybeFact("lids", s.Lid), maybeFact("stops under a deck board", deckBoard(s))}
	case *set.Ramp:
		return []fact{sizeFact("length", s.Length), sizeFact("rise", s.Rise), sizeFact("width", s.Width)}
	case *set.Post:
		return []fact{outlineFact("", &s.Outline), sizeFact("height", s.Height)}
	case *set.Ring:
		return []fact{outlineFact("outer", &s.Outer), outlineFact("inner", s.Inner), sizeFact("height", s.Height)}
	case *set.Panel:
		return []fact{outlineFact("", &s.Outline), maybeFact("thickness", s.Thickness), flagFact("standing", s.Stands),
			{label: "from P to Q", how: asMeasure, x: s.Run, none: "none"}, flagFact("braced", s.Brace)}
	case *set.Cone:
		sides := ""
		if s.Sides > 0 {
			sides = strconv.Itoa(s.Sides)
		}
		return []fact{sizeFact("lower", s.Lower), sizeFact("upper", s.Upper), sizeFact("height", s.Height), {label: "sides", how: asWord, word: sides, none: "round"}}
	case *set.Flat:
		side := "right"
		if s.FaceLeft {
			side = "left"
		}
		return []fact{{label: "length", how: asMeasure, x: s.Length}, sizeFact("height", s.Height), maybeFact("thickness", s.Thickness), wordFact("face", side, "")}
	case *set.Mark:
		return []fact{flagFact("dashed", s.Dashed), flagFact("corners only", s.Corner)}
	case *set.Reserve:
		return []fact{outlineFact("", &s.Outline), sizeFact("height", s.Height)}
	case *set.Room:
		return []fact{outlineFact("", &s.Outline), wordFact("", s.Turned.String(), ""), {label: "overhead floor", how: asHeight, x: s.Overhead},
			{label: "walking floor", how: asHeight, x: s.Stand}, besides(maybeFact("headroom", s.Headroom))}
	case *set.Dressing:
		return []fact{outlineFact("", &s.Outline), sizeFact("height", s.Height),
			flagFact("loose", s.Loose), flagFact("soft", s.Soft)}
	case *set.Walk:
		return []fact{besides(sizeFact("tall", s.Tall)), besides(sizeFact("wide", s.Wide)), besides(sizeFact("reach", s.Reach))}
	case *set.Figure:
		return figureFacts(s)
	case *set.Cloth:
		return clothFacts(s)
	}
	return nil
}

// shape says what changed of what an element is, wherever it stands.
func (c *comparison) shape() {
	if c.old.Kind != c.new.Kind {
		c.size = true
		c.say(arrow(c.old.Kind, c.described(c.new)))
		return
	}
	a, b := factsOf(c.old.Shape), factsOf(c.new.Shape)
	if _, ok := slid(c.old.Shape, c.new.Shape); ok {
		for i := range a { // only its place in its own axes is another
			a[i].outline = b[i].outline
		}
	}
	switch q := c.new.Shape.(type) {
	case *set.Panel:
		if l, ok := lies(c.old.Shape.(*set.Panel), q); ok {
			a[0].outline = b[0].outline
			c.say(l.words(c.wording))
		}
	case *set.Steps:
		c.flightFrom(c.old.Shape.(*set.Steps), q)
		c.facts(a, b)
		return
	case *set.Ramp:
		c.facts(a, b)
		c.slope(c.old.Shape.(*set.Ramp), q)
		return
	}
	c.facts(a, b)
	switch q := c.new.Shape.(type) {
	case *set.Hall:
		p := c.old.Shape.(*set.Hall)
		c.stations(p.Stations, q.Stations)
		c.pillars(p.Pillars, q.Pillars)
	case *set.Room:
		p := c.old.Shape.(*set.Room)
		c.stations(p.Stations, q.Stations)
		c.sections(p.Panels, q.Panels)
	case *set.Panel:
		c.cuts(c.old.Shape.(*set.Panel), q)
	case *set.Flat:
		p := c.old.Shape.(*set.Flat)
		if !sameLine(p.Line, q.Line) && !(p.Line != nil && q.Line != nil && trimmed(p.Line, q.Line)) {
			c.size = true
			c.say("line of the face redrawn")
		}
		c.openings(p.Openings, q.Openings)
	case *set.Mark:
		c.marked(c.old.Shape.(*set.Mark), q)
	case *set.Walk:
		c.walked(c.old.Shape.(*set.Walk), q)
	case *set.Dressing:
		c.fixed(c.old.Shape.(*set.Dressing), q)
	case *set.Figure:
		c.figure(c.old.Shape.(*set.Figure), q)
	case *set.Cloth:
		c.cloth(c.old.Shape.(*set.Cloth), q)
	}
}

// roman writes the class of a tape as its mark does.
func roman(class int) string {
	switch class {
	case 1:
		return "I"
	case 2:
		return "II"
	case 3:
		return "III"
	}
	return ""
}
