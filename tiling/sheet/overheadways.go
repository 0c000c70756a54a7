package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
	"markout/layout/table"
	"markout/layout/view"
)

// Whoever walks beneath a room where the file names nobody: the 95th percentile of British men with shoes, and the reach of the
// middle man (derived from ANSUR II).
const (
	gaugeTall = 1880
	reachMan  = 2263
)

// reachOf is how far up the tallest reach is of whoever walks beneath a room.
func reachOf(r *overhead.Room) float64 {
	reach := 0.0
	for _, e := range r.Walks {
		reach = max(reach, e.Shape.(*set.Walk).Reach)
	}
	if reach == 0 {
		return reachMan
	}
	return reach
}

// talls are the heights of whoever walks beneath a room, the least first.
func talls(r *overhead.Room) []float64 {
	var out []float64
	for _, e := range r.Walks {
		out = append(out, e.Shape.(*set.Walk).Tall)
	}
	if len(out) == 0 {
		out = append(out, gaugeTall)
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) <= geom.Tolerance })
}

// OverheadWays are the tables of the heights beneath a room and of the footholds of ways over what hangs in it, those that have rows.
func OverheadWays(s *set.Set, r *overhead.Room, sc *solid.Scene) []*table.Table {
	var out []*table.Table
	for _, t := range []*table.Table{headroomTable(s, r, sc), footholdTable(s, r, sc)} {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// headroomTable is the least height along each walk beneath a room and under each piece or stack of pieces, and where it is.
func headroomTable(s *set.Set, r *overhead.Room, sc *solid.Scene) *table.Table {
	t := overheadTable(s, r, "headroom", "headroom",
		textColumn("of", "Of"), mmColumn("least", "Least height", table.Level), mmColumn("x", "There, from centre line", table.X),
		mmColumn("y", "There, from setting line", table.Y), textColumn("under", "Lowest there"), textColumn("on", "Not over the walking floor but"),
		textColumn("says", "Against"), mmColumn("short", "Short by", table.Length))
	add := func(of string, l *overhead.Low, floor, says string, wanted float64) {
		on := l.Stands
		if on == "" {
			on = floor
		}
		least, short := table.N(l.Least), table.Blank
		if math.IsInf(l.Least, 0) {
			least = table.Blank
		}
		if l.Least < wanted-0.05 {
			short = table.N(wanted - l.Least)
		}
		t.Rows = append(t.Rows, []table.Value{table.T(of), least, table.N(l.At.X), table.N(l.At.Y), table.T(l.Under), table.T(on), table.T(says), short})
	}
	for _, e := range r.Walks {
		for _, l := range overhead.Along(s, sc, e) {
			add("walk "+l.Walk, &l, walkedOn(r, &l), length(s, l.Tall)+" tall", l.Tall)
		}
	}
	wanted, says := r.Shape.Headroom, " wanted"
	if wanted <= 0 {
		wanted, says = reachOf(r), " reach"
	}
	lows := r.Beneath(sc)
	for _, g := range view.Stacks(r) {
		low := lows[g[0]]
		for _, i := range g {
			if lows[i].Least < low.Least {
				low = lows[i]
			}
		}
		low.Under = r.Pieces[g[len(g)-1]].Name
		if low.Piece != "" {
			low.Under = low.Piece
		}
		of := view.StackName(r, g)
		if tags := view.StackTags(r, g); tags != "" {
			of = tags + " " + of
		}
		add("under "+of, &low, "", length(s, wanted)+says, wanted)
	}
	t.Notes = headroomNotes(s, r)
	return t
}

// walkedOn is what a walk goes on where it has least height and stands on nothing; empty for the room's own walking floor.
func walkedOn(r *overhead.Room, l *overhead.Low) string {
	switch l.Room {
	case r.Element.Name:
		return ""
	case "":
		return "the set's floor"
	}
	return "the walking floor of " + l.Room
}

// headroomNotes say how wide is looked, how far up hands reach, and where the heads come in the room as it is dressed.
func headroomNotes(s *set.Set, r *overhead.Room) []string {
	var wide []string
	for _, e := range r.Walks {
		if w := e.Shape.(*set.Walk); w.Path != nil {
			wide = append(wide, fmt.Sprintf("%s %s wide", e.Name, length(s, w.Wide)))
		}
	}
	out := GaugeWords(s, r)
	out = append(out, "Reach, above what is walked on: "+length(s, reachOf(r))+". What hangs no higher is within it.")
	if len(wide) > 0 {
		out = append(out, "A walk is looked along at every place of it: "+few(wide)+".")
	}
	return out
}

// GaugeWords say where the head of whoever walks beneath a room comes in the room as it is dressed, for each height.
func GaugeWords(s *set.Set, r *overhead.Room) []string {
	var out []string
	for _, tall := range talls(r) {
		if h := r.Head(tall); h > 0 {
			out = append(out, "Gauge: the head of an outline "+length(s, tall)+" tall that stands upside down comes "+length(s, h)+" above the floor of the room as it is dressed.")
			continue
		}
		out = append(out, "Gauge: an outline "+length(s, tall)+" tall does not fit between the walking floor and the room's.")
	}
	return out
}

// footholdTable is what is walked over, a row a foothold.
func footholdTable(s *set.Set, r *overhead.Room, sc *solid.Scene) *table.Table {
	t := overheadTable(s, r, "footholds", "footholds",
		textColumn("walk", "Walk"), table.Column{Name: "n", Heading: "Foothold", Kind: table.Count}, textColumn("piece", "Piece"),
		mmColumn("level", "Upper face, level", table.Level), textColumn("step", "From the one before"), mmColumn("gap", "Gap on the plan", table.Length),
		textColumn("size", "Landing"), mmColumn("head", "Height over it", table.Length), textColumn("under", "To"),
		mmColumn("drop", "Edge drops", table.Length), textColumn("says", "Who decides"))
	var tall []string
	for _, e := range r.Walks {
		w := e.Shape.(*set.Walk)
		holds := overhead.Footholds(s, sc, e)
		for i := range holds {
			t.Rows = append(t.Rows, footholdRow(s, e.Name, w.Tall, i, &holds[i]))
		}
		if len(holds) > 0 {
			tall = append(tall, e.Name+" "+length(s, w.Tall))
		}
	}
	t.Notes = []string{
		"Nothing is known here of what a foothold bears, nor of how people are held: that is for the engineer and the stunt coordinator.",
		"Landing: the sides of the least rectangle that holds the face. Gap: between the faces, on the plan. Edge drops: from the face to the walking floor, outside the room to the set's.",
		"Tall, of whoever walks: " + few(tall) + ".",
	}
	return t
}

// footholdRow is the row of foothold i, from 0, of a walk.
func footholdRow(s *set.Set, walk string, tall float64, i int, f *overhead.Foothold) []table.Value {
	step, gap, head := "", table.Blank, table.N(f.Headroom)
	if i > 0 {
		gap = table.N(f.Gap)
		switch {
		case f.Step > 0.5:
			step = "up " + length(s, f.Step)
		case f.Step < -0.5:
			step = "down " + length(s, -f.Step)
		default:
			step = "level"
		}
	}
	if math.IsInf(f.Headroom, 0) {
		head = table.Blank
	}
	var says []string
	switch {
	case f.Blocked:
		says = append(says, "nobody can stand there")
	case f.Headroom < tall-0.05:
		says = append(says, length(s, tall-f.Headroom)+" short of "+length(s, tall)+" tall")
	}
	return []table.Value{
		table.T(walk), table.N(float64(i + 1)), table.T(f.Name), table.N(f.Level), table.T(step), gap,
		table.T(length(s, f.Narrow) + " x " + length(s, f.Long)), head, table.T(f.Under), table.N(f.Drop),
		table.T(strings.Join(append(says, "for the engineer"), "; ")),
	}
}
