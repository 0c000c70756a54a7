package paper

import (
	"fmt"
	"strings"

	"markout/layout/unit"
)

// Margins are the edges of a sheet in millimetres that its printer leaves blank, each its own, of the sheet as it is
// kept upright.
type Margins struct{ Left, Right, Bottom, Top float64 }

// Even returns the same margin on every edge.
func Even(mm float64) Margins { return Margins{mm, mm, mm, mm} }

// ParseMargins reads `LEFT,RIGHT,BOTTOM,TOP`, or one figure for all four edges, millimetres unless a unit stands there.
func ParseMargins(text string) (Margins, error) {
	parts := strings.Split(text, ",")
	if len(parts) != 1 && len(parts) != 4 {
		return Margins{}, fmt.Errorf("`%s`: margins are four figures, left, right, bottom, top: `4,4,6,4`; or one for all: `10`", text)
	}
	var edges [4]float64
	for i, p := range parts {
		x, err := unit.ParseLength(p, unit.Millimetre)
		if err != nil {
			return Margins{}, fmt.Errorf("`%s`: `%s` is not a length: %v", text, strings.TrimSpace(p), err)
		}
		if x < 0 || x > Longest {
			return Margins{}, fmt.Errorf("`%s`: a margin is 0 or more, and less than the paper", text)
		}
		edges[i] = x
	}
	if len(parts) == 1 {
		return Even(edges[0]), nil
	}
	return Margins{edges[0], edges[1], edges[2], edges[3]}, nil
}

// Turned returns the margins of the sheet lying on its side. Printers turn a lying page to either hand, so each edge takes
// the greater margin of the two that it may come to lie on: what fits is then printed whichever way it is turned.
func (m Margins) Turned() Margins {
	long, short := max(m.Bottom, m.Top), max(m.Left, m.Right)
	return Margins{Left: long, Right: long, Bottom: short, Top: short}
}

// Live returns the size of what can be printed on w × h. The error says which margins would fit.
func (m Margins) Live(w, h, leastW, leastH float64) (lw, lh float64, err error) {
	lw, lh = w-m.Left-m.Right, h-m.Bottom-m.Top
	if lw < leastW {
		return lw, lh, tooLittle("left and right", m.Left, m.Right, w, leastW)
	}
	if lh < leastH {
		return lw, lh, tooLittle("bottom and top", m.Bottom, m.Top, h, leastH)
	}
	return lw, lh, nil
}

func tooLittle(edges string, a, b, side, least float64) error {
	n := func(x float64) string { return unit.FormatNumber(x, 0.1) }
	if side <= least {
		return fmt.Errorf("paper of %s mm is too small: %s mm would do", n(side), n(least+a+b))
	}
	return fmt.Errorf("margins %s of %s and %s mm leave %s of %s mm of paper, and %s are needed: margins of %s mm or less would fit, or paper of %s mm",
		edges, n(a), n(b), n(max(side-a-b, 0)), n(side), n(least), n((side-least)/2), n(least+a+b))
}
