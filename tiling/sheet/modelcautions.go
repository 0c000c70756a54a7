package sheet

import (
	"fmt"
	"math"

	"markout/layout/caution"
	"markout/layout/develop"
	"markout/layout/unit"
)

// Weights in kilograms from which a published filter for lifting with both hands, at elbow height and close to the body,
// looks closer at one person's load; they are no legal maximum (HSE INDG143, figures as a training page quotes them).
const (
	liftMen   = 25.0
	liftWomen = 16.0
)

// fullBoard is from what thickness and area in square metres a sheet is a board that is sawn and carried.
const (
	boardThick = 3.0
	boardArea  = 0.5
)

func (c *CardModel) cautions() []string {
	out := []string{"Blades cut hands: who cuts has been shown how, and keeps the other hand clear."}
	boards := false
	for i := range c.Sheets {
		s := &c.Sheets[i]
		boards = boards || s.Thickness >= boardThick && s.Size.W*s.Size.H >= boardArea*1e6
	}
	if boards {
		out = append(out,
			"Saws are for trained operators, with guard and dust taken off (HSE L114, 2nd edition 2014, from memory).",
			c.liftWords())
	}
	return append(out, caution.Defer)
}

// liftWords says of boards whether they are too heavy for one person, where the file gives their density.
func (c *CardModel) liftWords() string {
	limit := fmt.Sprintf("a published filter for one person's lift looks closer from %g kg (men) and %g kg (women), close to the body; it is no legal maximum", liftMen, liftWomen)
	heaviest, unknown := 0.0, false
	for i := range c.Model.Pieces {
		p := &c.Model.Pieces[i]
		d := c.densityOf(p)
		if d == 0 {
			unknown = true
			continue
		}
		heaviest = math.Max(heaviest, p.Outline.Area()*p.Thickness*1e-9*d)
	}
	switch {
	case heaviest > 0 && unknown:
		return fmt.Sprintf("The heaviest piece that can be weighed is %s kg, others are not weighed because the file gives no density: %s.", unit.FormatNumber(heaviest, 0.1), limit)
	case heaviest > 0:
		return fmt.Sprintf("The heaviest piece is %s kg: %s.", unit.FormatNumber(heaviest, 0.1), limit)
	}
	return "Boards and pieces are not weighed, because the file gives no density: weigh one; " + limit + "."
}

// densityOf is the density of what a piece's element is made of, kilograms a cubic metre; 0 where it is not known.
func (c *CardModel) densityOf(p *develop.Piece) float64 {
	e := c.elementNamed(p.Element)
	if e == nil || e.Material == "" {
		return 0
	}
	for _, b := range c.set.Boards {
		if b.Name == e.Material && math.Abs(b.Thick-p.Thickness) < 0.5 {
			return b.Density
		}
	}
	return 0
}
