package rules

import (
	"fmt"
	"slices"

	"markout/layout/caution"
	"markout/layout/diag"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/layout/unit"
)

// The lifting filter's greatest figures: held close to the body at elbow height.
const (
	liftMen   = 25.0
	liftWomen = 16.0
)

const (
	lifting  = "guideline filter for lifting and lowering (Great Britain, INDG143 and L23, from memory; figures as taught for site work), not a legal limit"
	sawGuard = "HSE L114 (woodworking machinery), 2nd edition 2014, from memory"
)

// cutting looks at what pieces are cut from: boards that are not as thick as the set has them, and what is too heavy for one.
func (c *checker) cutting() {
	s := c.set
	if len(s.Boards)+len(s.Lengths) == 0 {
		return
	}
	q := takeoff.Take(s)
	for _, t := range q.Thick {
		f := finding{code: "BOARD-THICK", figure: c.thin(t.Has), limit: c.thin(t.Said) + " (the file)", source: "the board as the file measures it"}
		more := "thinner"
		if t.Has > t.Said {
			more = "thicker"
		}
		c.note(c.order[t.Element], t.Element, t.Span, f, fmt.Sprintf("`%s` of %s is %s, and the board \"%s\" is %s: %s %s",
			t.Word, t.Element, c.thin(t.Said), t.Board, c.thin(t.Has), c.thin(max(t.Has-t.Said, t.Said-t.Has)), more))
	}
	c.lifts(q)
}

// thin prints a thickness: to 0.1 mm, or 1/64".
func (w words) thin(mm float64) string {
	if w.units.Imperial() {
		return unit.FormatMeasure(mm, w.units, unit.Sixteenth/4)
	}
	return w.length(mm)
}

// lifts notes whole boards and bars that are too heavy for one person, and the heaviest piece of each element.
func (c *checker) lifts(q *takeoff.Quantities) {
	s := c.set
	last := len(s.Elements)
	used := func(board, bar int) bool {
		return slices.ContainsFunc(q.Pieces, func(p takeoff.Piece) bool { return board >= 0 && p.Board == board || bar >= 0 && p.Bar == bar })
	}
	for i := range s.Boards {
		if b := &s.Boards[i]; used(i, -1) {
			c.heavy(last, b.Name, "a whole board of \""+b.Name+"\"", b.Weight(), b.Span)
		}
	}
	for i := range s.Lengths {
		if l := &s.Lengths[i]; used(-1, i) {
			c.heavy(last, l.Name, "a whole bar of \""+l.Name+"\"", l.Weight(), l.Span)
		}
	}
	heaviest := map[string]int{}
	weigh := func(p *takeoff.Piece) float64 {
		if p.Board >= 0 {
			return set.Weigh(p.Volume(), s.Boards[p.Board].Density)
		}
		return set.Weigh(p.Volume(), s.Lengths[p.Bar].Density)
	}
	for i := range q.Pieces {
		p := &q.Pieces[i]
		at, ok := heaviest[p.Element]
		if !ok || weigh(p) > weigh(&q.Pieces[at]) {
			heaviest[p.Element] = i
		}
	}
	for i := range q.Pieces { // in the file's order
		p := &q.Pieces[i]
		if heaviest[p.Element] != i {
			continue
		}
		order, ok := c.order[p.Element]
		if !ok {
			order = last
		}
		c.heavy(order, p.Element, pieceWords(p), weigh(p), p.Span)
	}
}

// pieceWords names a piece within a sentence.
func pieceWords(p *takeoff.Piece) string {
	if p.Name == takeoff.PartName {
		return "the part " + p.Element
	}
	return "the " + p.Name + " of " + p.Element
}

func (c *checker) heavy(order int, who, what string, kg float64, at diag.Span) {
	if kg <= liftWomen {
		return
	}
	show := func(kg float64) string { return unit.FormatWeight(kg, c.set.Units, 0.1) }
	f := finding{code: "LIFT", figure: show(kg), source: lifting}
	f.limit = show(liftMen) + " for men, " + show(liftWomen) + " for women, close to the body at elbow height; less anywhere else"
	over := "more than the filter's " + show(liftWomen) + " for women"
	if kg > liftMen {
		over = "more than the filter's figure for one person"
	}
	c.note(order, who, at, f, fmt.Sprintf("%s weighs %s, %s: plan how it is carried", what, show(kg), over))
}

// OfCutting reports whether a caution is the carpenter's: of boards and of what is lifted, not of what is walked on.
func OfCutting(c caution.Caution) bool {
	return c.Code == "BOARD-THICK" || c.Code == "LIFT" || c.Code == "SAW"
}

// Cutting returns what is to be said of cutting itself: it goes with every cutting list and with full-size boards.
func Cutting(s *set.Set) []caution.Caution {
	return []caution.Caution{{
		Code: "SAW", Element: "cutting", Span: s.Span,
		Message: "boards and bars are cut with machines and make wood dust: guards and riving knife on, dust taken off at the machine, hands, eyes, ears and lungs looked after, " +
			"long boards held up on both sides; only people trained on the machine cut",
		Figure: "every cut", Limit: "local codes and the trained operator decide", Source: sawGuard,
	}}
}
