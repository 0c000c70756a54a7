package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/tiling"
)

// mostNotes is how many notes stand on the cover.
const mostNotes = 14

// cover says what this is, what it takes, in what order to work, how its lines are read, and what to look out for.
func (c *CardModel) cover(b *binder) *tiling.Cover {
	s := c.set
	blocks := []tiling.Block{
		{Heading: "What this is", Lines: slices.Concat([]string{c.whatItIs()}, c.withIt(b), c.dividedLine())},
		{Heading: "What it takes", Lines: c.whatItTakes()},
		{Heading: "Caution", Lines: c.cautions()},
		{Heading: "In this order", Numbered: true, Lines: c.inOrder()},
		{Heading: "How to read it", Lines: c.howToRead()},
	}
	if n := len(c.opt.LeftOut); n > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Not in this model", Lines: shortened(c.opt.LeftOut)})
	}
	if len(c.Model.Notes) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Where the model differs", Lines: c.notes()})
	}
	if s.Trial && len(s.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: s.With})
	}
	return newCover(s, s.Name+": card model, "+c.opt.ScaleWords, blocks)
}

func (c *CardModel) whatItIs() string {
	count, _ := c.copies()
	what := "a card model"
	if c.Model.Scale == 1 {
		what = "a mock-up at full size"
	}
	words := fmt.Sprintf("The pieces of %s at %s: %s of %s on %s.", what, c.opt.ScaleWords,
		counted(len(c.Model.Pieces), "piece"), counted(len(count), "element"), counted(len(c.Sheets), "sheet"))
	if c.Stopped {
		words += " The search for a denser placement was ended early."
	}
	return words
}

// dividedLine says in a line what is divided, if anything is.
func (c *CardModel) dividedLine() []string {
	if d := c.dividedWords(); d != "" {
		return []string{d + "."}
	}
	return nil
}

// withIt says in a line what follows the sheets of card.
func (c *CardModel) withIt(b *binder) []string {
	var order []string
	count := map[string]int{}
	for i := len(c.Sheets); i < len(b.pages); i++ {
		t := b.pages[i].entry.Title
		if count[t]++; count[t] == 1 {
			order = append(order, t)
		}
	}
	if len(order) == 0 {
		return nil
	}
	for i, t := range order {
		order[i] = strings.ToLower(t[:1]) + t[1:] + ", " + counted(count[t], "page")
	}
	return []string{"With it: " + strings.Join(order, "; ") + "."}
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// stockWords lists how many sheets of which card are used.
func (c *CardModel) stockWords() []string {
	var out []string
	for _, k := range cardsOf(c.Model) {
		n, length, on := 0, 0.0, ""
		for i := range c.Sheets {
			if s := &c.Sheets[i]; math.Abs(s.Thickness-k.thickness) <= geom.Tolerance {
				n, length, on = n+1, length+s.Size.W, c.paperOf(s)
			}
		}
		card := cardWords(k.name, k.thickness, c.set.Units)
		if c.opt.Board.Roll {
			out = append(out, fmt.Sprintf("Card %s: %s of %s, %s long in all.", card, counted(n, "length"), c.opt.Board.Name, unit.FormatMeasure(length, c.set.Units, 1)))
		} else {
			out = append(out, fmt.Sprintf("Card %s: %s of %s.", card, counted(n, "sheet"), on))
		}
	}
	return out
}

func (c *CardModel) whatItTakes() []string {
	out := c.stockWords()
	type rod struct {
		section string
		d       float64
	}
	var order []rod
	sum, count := map[rod]float64{}, map[rod]int{}
	for _, r := range c.Model.Rods {
		k := rod{r.Section, r.Diameter}
		if count[k]++; count[k] == 1 {
			order = append(order, k)
		}
		sum[k] += r.Length
	}
	for _, k := range order {
		size := unit.FormatNumber(k.d, 0.1) + " mm"
		if c.set.Units.Imperial() {
			size = inches(k.d)
		}
		kind := "Round rod Ø"
		if k.section != "round" {
			kind = "Shaped rod, lesser side "
		}
		out = append(out, fmt.Sprintf("%s%s: %s, %s in all, and what goes into the holes.", kind, size, counted(count[k], "piece"), unit.FormatMeasure(sum[k], millimetres(c.set), 1)))
	}
	if len(c.people) > 0 {
		out = append(out, fmt.Sprintf("A scrap of card %s for the scale figures (ANSUR II 2012, CDC 2000).", cardWords(c.opt.People.Name, c.opt.People.Thickness, c.set.Units)))
	}
	if c.opt.Board.H > 0 && c.Model.Scale < leastBase {
		return append(out, "A knife or a saw for this board, a straight edge, glue or tape for this board, a steel rule.")
	}
	return append(out, "A knife, a steel rule, a mat, glue for card; glue or tape for the paper.")
}

func millimetres(s *set.Set) unit.System {
	if s.Units.Imperial() {
		return unit.Inch
	}
	return unit.Millimetre
}

func (c *CardModel) has(f func(p *develop.Piece) bool) bool {
	for i := range c.Model.Pieces {
		if f(&c.Model.Pieces[i]) {
			return true
		}
	}
	return false
}

func (c *CardModel) inOrder() []string {
	out := []string{"Print at 100 %, one-sided. Lay a steel rule along both check bars of every sheet: if one is not true, stop."}
	if c.opt.Board.H == 0 {
		out = append(out, "Measure the card. If it is not as thick as its sheet says, change it in the file and print again, or corners do not close. Fix each sheet on its card.")
	} else {
		out = append(out, "Measure the board: if it is not as thick as the sheet says, change it and print again, or corners do not close.")
	}
	if c.has(func(p *develop.Piece) bool { return p.Grain == develop.Along }) {
		out = append(out, fmt.Sprintf("Let the card's grain run %s: what is rolled rolls evenly round it, as the arrows say.", c.Sheets[0].grain()))
	}
	half := c.has(func(p *develop.Piece) bool { return len(p.Folds)+len(p.Relief) > 0 })
	if half {
		out = append(out, "Half-cut first, then cut openings, then outlines. Cut tabs whole.")
	} else {
		out = append(out, "Cut openings first, then outlines.")
	}
	if c.has(func(p *develop.Piece) bool {
		for _, e := range p.Edges {
			if e.Bevel >= leastBevel {
				return true
			}
		}
		return false
	}) {
		out = append(out, "Bevel the edges that say an angle; a thin line shows where the bevel begins.")
	}
	if c.outOfOrder() {
		out = append(out, "Glue each element in the order of the list of joints, which names pieces and edges; joints and pieces keep the numbers of the earlier issue.")
	} else {
		out = append(out, "Glue each element in the order J1, J2 …; the list of joints names pieces and edges.")
	}
	if c.hasBase() {
		base := "Glue what is made onto the base sheet."
		if len(c.Model.Rods) > 0 {
			base = "Glue what is made onto the base sheet; rods stand in holes or on marks."
		}
		out = append(out, base)
	} else if len(c.Model.Base) > 0 {
		out = append(out, "There is no base sheet at this scale: mark the floor out with `markout floor`.")
	}
	return out
}

func (c *CardModel) howToRead() []string {
	hidden := len(c.Model.Pieces) == 0 || c.Model.Pieces[0].Hidden
	var out []string
	if hidden {
		out = append(out, "The lines are on the hidden face, drawn opposite-handed: none is seen on the model, and what is at the left here is at its right.")
	} else {
		out = append(out, "The lines are on the face that is seen.")
	}
	out = append(out, "deck-3/5 is piece 3 of the 5 of deck; J3 to 2: mitre 22.5° is its joint 3, to piece 2, bevelled 22.5° off square. In little room letters stand for words, as the foot of the sheet says.")
	if c.has(narrow) {
		out = append(out, "Strips under 2 mm are drawn with thin lines.")
	}
	if c.has(func(p *develop.Piece) bool { return len(p.Folds)+len(p.Relief) > 0 }) {
		out = append(out, "A half-cut goes half through the card. Half-cut front (dashed) is cut on the printed face, half-cut back (dashes and dots) on the other: prick its ends through. It opens as the card folds away from it.")
	}
	return append(out, "A glue line is where the inner face of another piece comes.")
}

func (c *CardModel) notes() []string {
	var out []string
	for _, n := range c.Model.Notes {
		l := n.Element + ": " + n.Words + "."
		if len(out) == 0 || out[len(out)-1] != l {
			out = append(out, l)
		}
	}
	return shortened(out)
}

// shortened cuts a long list of lines and says how many it had.
func shortened(lines []string) []string {
	if len(lines) <= mostNotes {
		return lines
	}
	return append(slices.Clone(lines[:mostNotes]), fmt.Sprintf("… and %d more.", len(lines)-mostNotes))
}

// CostWords says what the paper costs, and what would take less.
func (c *CardModel) CostWords(pages int) string {
	words := fmt.Sprintf("%s at %s makes %s: %s of card and the lists and base sheet that go with them.", c.set.Name, c.opt.ScaleWords, counted(pages, "page"), counted(len(c.Sheets), "sheet"))
	if c.opt.Board.H == 0 {
		words += " Fewer on larger sheets: --paper A3, or a board: --sheet 2440x1220; or at a smaller scale."
	}
	return words
}

// Summary says what was made, in one line.
func (c *CardModel) Summary() string {
	words := fmt.Sprintf("%s on %s at %s", counted(len(c.Model.Pieces), "piece"), counted(len(c.Sheets), "sheet"), c.opt.ScaleWords)
	if c.opt.Board.Roll {
		length := 0.0
		for i := range c.Sheets {
			length += c.Sheets[i].Size.W
		}
		words += ", " + unit.FormatMeasure(length, millimetres(c.set), 1) + " of the roll"
	}
	switch {
	case c.anew:
		words += ", all nested anew (the earlier issue has another scale, sheet, margins or gap)"
	case c.Kept > 0:
		words += fmt.Sprintf(", %d of them where they were", c.Kept)
	}
	if n := len(c.Model.Rods); n > 0 {
		words += ", " + counted(n, "rod")
	}
	if d := c.dividedWords(); d != "" {
		words += ", " + d
	}
	if n := len(c.Model.Small); n > 0 {
		words += ", " + counted(n, "feature") + " too small to cut"
	}
	if c.Stopped {
		words += "; the search was ended early, so another run may lay them otherwise"
	}
	return words
}
