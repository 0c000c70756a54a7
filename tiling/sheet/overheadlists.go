package sheet

import (
	"slices"
	"strings"

	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/view"
)

// lookout is one piece, or stack of pieces, in a list of what to look out for.
type lookout struct{ list, tags, name, says string }

// lookouts returns what is loose, soft, within reach, below the headroom wanted, opposite-handed, not weighed or over a seam, list by
// list in the file's order.
func lookouts(s *set.Set, r *overhead.Room) []lookout {
	reach := reachOf(r)
	over := func(p *overhead.Piece) string { return overFloor(s, p.Headroom) }
	none := func(*overhead.Piece) string { return "" }
	stacks := view.Stacks(r)
	var out []lookout
	for _, l := range []struct {
		name string
		is   func(p *overhead.Piece) bool
		says func(p *overhead.Piece) string
	}{
		{"loose", func(p *overhead.Piece) bool { return p.Loose }, none},
		{"soft", func(p *overhead.Piece) bool { return p.Soft }, none},
		{"within reach, " + length(s, reach), func(p *overhead.Piece) bool { return p.Headroom <= reach }, over},
		{"below the headroom wanted, " + length(s, r.Shape.Headroom), func(p *overhead.Piece) bool { return tooLow(r, p) },
			func(p *overhead.Piece) string {
				return over(p) + ", " + length(s, r.Shape.Headroom-p.Headroom) + " short"
			}},
		{"opposite-handed", func(p *overhead.Piece) bool { return p.Opposite }, none},
		{"not weighed", func(p *overhead.Piece) bool { return p.Is == set.Unknown }, none},
		{"over a seam between panels", func(p *overhead.Piece) bool { return p.Panel != "" && len(p.Crosses) > 0 },
			func(p *overhead.Piece) string { return p.Panel + ", " + strings.Join(p.Crosses, ", ") }},
	} {
		for _, g := range stacks {
			g = slices.DeleteFunc(slices.Clone(g), func(i int) bool { return !l.is(&r.Pieces[i]) })
			if len(g) > 0 {
				out = append(out, lookout{l.name, view.StackTags(r, g), view.StackName(r, g), l.says(&r.Pieces[g[len(g)-1]])})
			}
		}
	}
	return out
}

// overFloor says how far a place is from the walking floor, over or under it.
func overFloor(s *set.Set, mm float64) string {
	if mm < 0 {
		return length(s, -mm) + " under the walking floor"
	}
	return length(s, mm) + " over the walking floor"
}

// OverheadLists says of a room, list by list, what is to be looked out for.
func OverheadLists(s *set.Set, r *overhead.Room) []OverheadLine {
	var out []OverheadLine
	for _, l := range lookouts(s, r) {
		says := l.name
		if l.says != "" {
			says += " (" + l.says + ")"
		}
		if n := len(out); n > 0 && out[n-1].Of == l.list {
			out[n-1].Says += ", " + says
			continue
		}
		out = append(out, OverheadLine{l.list, says})
	}
	return out
}

// listsTable is the lists of what is to be looked out for.
func listsTable(s *set.Set, r *overhead.Room) *table.Table {
	t := overheadTable(s, r, "lists", "what to look out for",
		textColumn("list", "List"), textColumn("tag", "Tag"), textColumn("piece", "Piece"), textColumn("says", "Figure"))
	for _, l := range lookouts(s, r) {
		t.Rows = append(t.Rows, []table.Value{table.T(l.list), table.T(l.tags), table.T(l.name), table.T(l.says)})
	}
	return t
}
