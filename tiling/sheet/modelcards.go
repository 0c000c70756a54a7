package sheet

import (
	"math"
	"slices"
	"strings"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/unit"
)

// stockKind is one thickness of card and the pieces made of it.
type stockKind struct {
	name      string
	thickness float64
	pieces    []int
}

// cardsOf gathers the pieces by their card's thickness, in the order in which thicknesses occur.
func cardsOf(m *develop.Model) []stockKind {
	var out []stockKind
	var names [][]string
	for i := range m.Pieces {
		p := &m.Pieces[i]
		k := slices.IndexFunc(out, func(k stockKind) bool { return math.Abs(k.thickness-p.Thickness) <= geom.Tolerance })
		if k < 0 {
			k = len(out)
			out, names = append(out, stockKind{thickness: p.Thickness}), append(names, nil)
		}
		out[k].pieces = append(out[k].pieces, i)
		if p.Card != "" && !slices.Contains(names[k], p.Card) {
			names[k] = append(names[k], p.Card)
		}
	}
	for i := range out {
		out[i].name = strings.Join(names[i], ", ")
	}
	return out
}

// cardName is a piece's card in the contract: its name and its thickness in millimetres.
func cardName(p *develop.Piece) string {
	return strings.TrimSpace(p.Card + " " + unit.FormatNumber(p.Thickness, 0.001))
}

// cardWords says what a sheet is cut from, as people call it: "wall 1.5 mm", `wall 1/16"`.
func cardWords(name string, thickness float64, u unit.System) string {
	words := unit.FormatNumber(thickness, 0.01) + " mm"
	if u.Imperial() {
		words = inches(thickness)
	}
	return strings.TrimSpace(name + " " + words)
}

// inches is a thickness in inches: a fraction down to 1/64 where it is one, otherwise decimals.
func inches(mm float64) string {
	const part = 25.4 / 64
	if n := math.Round(mm / part); n >= 1 && math.Abs(mm-n*part) <= 0.002 {
		return unit.FormatLength(mm, unit.Inch, part)
	}
	return unit.FormatNumber(mm/25.4, 0.0001) + `"`
}
