package sheet

import (
	"math"

	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/table"
)

// reachOf is how far up the tallest reach is of whoever walks beneath a room; of nobody who is named, that of the middle man
// (2263, derived from ANSUR II).
func reachOf(s *set.Set, r *overhead.Room) float64 {
	reach := 0.0
	for _, e := range walksIn(s, r) {
		reach = max(reach, e.Shape.(*set.Walk).Reach)
	}
	if reach == 0 {
		return 2263
	}
	return reach
}

// headroomTable is the least height along each walk beneath a room and under each piece that leaves less than is wanted, or than is
// reached.
func (o *overheadBook) headroomTable(s *set.Set, r *overhead.Room) *table.Table {
	t := overheadTable(s, r, "headroom", "headroom",
		textColumn("of", "Of"), mmColumn("least", "Least height", table.Length), mmColumn("x", "There, from centre line", table.X),
		mmColumn("y", "There, from setting line", table.Y), textColumn("over", "Lowest there"), textColumn("on", "Over"), textColumn("says", "Against"))
	add := func(of string, l *overhead.Low, says string) {
		on := l.Stands
		if on == "" {
			on = "the walking floor"
		}
		least := table.N(l.Least)
		if math.IsInf(l.Least, 0) {
			least = table.Blank
		}
		t.Rows = append(t.Rows, []table.Value{table.T(of), least, table.N(l.At.X), table.N(l.At.Y), table.T(l.Under), table.T(on), table.T(says)})
	}
	for _, e := range walksIn(s, r) {
		for _, l := range overhead.Along(s, o.scene, e) {
			add("walk "+l.Walk, &l, length(s, l.Tall)+" tall")
		}
	}
	wanted := max(r.Shape.Headroom, reachOf(s, r))
	for _, l := range r.Beneath(o.scene) {
		if l.Least < wanted || l.Stands != "" {
			says := "reach " + length(s, reachOf(s, r))
			if r.Shape.Headroom > 0 {
				says = "headroom wanted " + length(s, r.Shape.Headroom)
			}
			add("under "+l.Piece, &l, says)
		}
	}
	t.Notes = []string{
		"The head of an outline as tall as " + length(s, gaugeTall) + " that stands upside down comes " + length(s, r.Head(gaugeTall)) + " above the floor of the room as it is dressed.",
	}
	return t
}

// gaugeTall is the outline that is tried upside down in the room as it is dressed: the 95th percentile of British men with shoes.
const gaugeTall = 1880

// footholdTable is what is walked over, a row a foothold.
func (o *overheadBook) footholdTable(s *set.Set, r *overhead.Room) *table.Table {
	t := overheadTable(s, r, "footholds", "footholds",
		textColumn("walk", "Walk"), table.Column{Name: "n", Heading: "Foothold", Kind: table.Count}, textColumn("piece", "Piece"), mmColumn("level", "Upper face, level", table.Level),
		textColumn("step", "From the one before"), mmColumn("gap", "Gap on the plan", table.Length), textColumn("size", "Landing"),
		mmColumn("head", "Height over it", table.Length), textColumn("under", "To"), mmColumn("drop", "Edge drops", table.Length), textColumn("says", "Who decides"))
	for _, e := range walksIn(s, r) {
		for i, f := range overhead.Footholds(s, o.scene, e) {
			step, head := "", table.N(f.Headroom)
			switch {
			case i == 0:
			case f.Step > 0.5:
				step = "up " + length(s, f.Step)
			case f.Step < -0.5:
				step = "down " + length(s, -f.Step)
			default:
				step = "level"
			}
			if math.IsInf(f.Headroom, 0) {
				head = table.Blank
			}
			says := "for the engineer"
			if f.Blocked {
				says = "nobody can stand there; for the engineer"
			}
			t.Rows = append(t.Rows, []table.Value{
				table.T(e.Name), table.N(float64(i + 1)), table.T(f.Name), table.N(f.Level), table.T(step), table.N(f.Gap),
				table.T(length(s, f.Size.X) + " x " + length(s, f.Size.Y)), head, table.T(f.Under), table.N(f.Drop), table.T(says),
			})
		}
	}
	return t
}
