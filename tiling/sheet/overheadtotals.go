package sheet

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/unit"
)

// OverheadLine is one line of what is said of a room overhead: of what, and what.
type OverheadLine struct{ Of, Says string }

// OverheadTotals says what a room's panels and the whole room weigh, and where the centres of gravity are.
func OverheadTotals(s *set.Set, r *overhead.Room) []OverheadLine {
	var out []OverheadLine
	for i := range r.Panels {
		out = append(out, OverheadLine{panelName(&r.Panels[i]), totalWords(s, &r.Panels[i])})
	}
	return append(out, OverheadLine{"in all", totalWords(s, &r.All)})
}

func panelName(t *overhead.Total) string {
	if t.Panel == "" {
		return "on no panel"
	}
	return "panel " + t.Panel
}

// totalWords prints a total: at least 38 kg; 2 not weighed: lamp, rope; centre of gravity 350 L, 2725 U.
func totalWords(s *set.Set, t *overhead.Total) string {
	if t.Weight == 0 && t.AtLeast() {
		return fmt.Sprintf("not known; %d not weighed: %s", len(t.NotKnown), few(t.NotKnown))
	}
	out := weightWords(s, t.Weight)
	if t.AtLeast() {
		out = fmt.Sprintf("at least %s; %d not weighed: %s", out, len(t.NotKnown), few(t.NotKnown))
	}
	if len(t.Estimated) > 0 {
		out += fmt.Sprintf("; %d only estimated", len(t.Estimated))
	}
	if t.Weight > 0 {
		out += "; centre of gravity " + centreWords(s, t.Centre)
	}
	return out
}

// centreWords prints a centre of gravity, to the millimetre.
func centreWords(s *set.Set, p geom.Point) string {
	return place(s, geom.Point{X: unit.Round(p.X, 1), Y: unit.Round(p.Y, 1)})
}

func weightWords(s *set.Set, kg float64) string { return unit.FormatWeight(kg, s.Units, 0.01) }

// few lists at most eight names, then counts.
func few(names []string) string {
	const most = 8
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return strings.Join(slices.Clone(names[:most]), ", ") + fmt.Sprintf(" and %d more", len(names)-most)
}
