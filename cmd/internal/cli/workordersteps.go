package cli

import (
	"math"
	"slices"

	"markout/layout/changes"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/tiling/sheet"
)

// What each trade does, step by step; papers and cautions are added in workorders.go.

type addStep func(does, thing string, lines []string)

// floorOrder is what is lifted, moved and laid, in this order: nothing is laid over what still stands.
func (d *difference) floorOrder(k *sheet.WorkOrder, step addStep) {
	for _, part := range []struct {
		does  string
		marks int
		lines []changes.Line
	}{{"lift", len(d.lift), d.off}, {"lay", len(d.lay), d.on}} {
		if part.marks > 0 {
			k.Takes = append(k.Takes, plural(part.marks, "mark")+" to "+part.does)
		}
		if m := tapeWords(part.lines, d.new.set.Units); m != "" {
			k.Takes = append(k.Takes, m+" to "+part.does)
		}
	}
	step("Move or clear these first", "piece", append(blockLines(d.blocks), moveLines(d.moves)...))
	lift := "Lift these marks and tapes"
	if d.standsElsewhere() {
		lift += ", by the old centre line and setting line: the set stands elsewhere"
	}
	step(lift, "mark", floorLines("", d.old.set, d.lift, d.off))
	step("The room has changed: set out anew what tapes start from, before anything is laid", "line", d.hallLines())
	if len(d.lay) > 0 {
		k.Steps = append(k.Steps, sheet.WorkStep{Does: "Lay these marks, in this order", Thing: "mark", Table: d.layTable()})
	}
	step("Lay these tapes", "tape", floorLines("", d.new.set, nil, d.on))
}

// hallLines is what changed of the hall worked in: its stations above all.
func (d *difference) hallLines() []string {
	var out []string
	for _, e := range d.elements {
		if h := d.new.set.Hall; h != nil && e.Name == h.Name {
			out = append(out, e.String())
		}
	}
	return out
}

// tapedBy are the columns of the tape table by which a mark is laid; what they allow for stands in the table itself.
var tapedBy = map[string]bool{
	"element": true, "point": true, "level_mm": true, "from_1": true, "distance_1_mm": true, "from_2": true, "distance_2_mm": true,
	"side": true, "from_3": true, "distance_3_mm": true,
}

// layTable is the tape table's rows of the marks to lay.
func (d *difference) layTable() *table.Table {
	all := d.is.in.Tape
	t := *all
	t.Columns, t.Rows, t.Notes = nil, nil, nil
	level := slices.ContainsFunc(d.lay, func(m changes.Mark) bool { return math.Abs(m.Level) > geom.Tolerance })
	var at []int
	for i, c := range all.Columns {
		if tapedBy[c.Name] && (level || c.Name != "level_mm") {
			c.Break = false
			t.Columns, at = append(t.Columns, c), append(at, i)
		}
	}
	for _, m := range d.lay {
		row := make([]table.Value, len(at))
		for k, i := range at {
			row[k] = all.Rows[m.Row][i]
		}
		t.Rows = append(t.Rows, row)
	}
	return &t
}

func (d *difference) carpenterOrder(k *sheet.WorkOrder, step addStep) {
	var cut, recut, scrap []changes.Cut
	pieces := 0
	for _, c := range d.boards {
		switch c.Change {
		case changes.Recut:
			recut, pieces = append(recut, c), pieces+c.Count
		case changes.Scrap:
			scrap = append(scrap, c)
		default:
			cut, pieces = append(cut, c), pieces+c.Count
		}
	}
	var build []changes.Block
	for _, b := range d.blocks {
		if b.Change != changes.Moved && b.Change != changes.Turned {
			build = append(build, b)
		}
	}
	if pieces > 0 {
		k.Takes = append(k.Takes, plural(pieces, "piece")+" to cut")
	}
	if n := len(build); n > 0 {
		k.Takes = append(k.Takes, plural(n, "block")+" to build or to cut down")
	}
	step("Cut these anew", "piece", boardLines(cut))
	step("Recut these", "piece", boardLines(recut))
	step("Build or cut down these blocks", "block", blockLines(build))
	step("Put these by", "piece", boardLines(scrap))
}

func (d *difference) modelOrder(k *sheet.WorkOrder, step addStep) {
	by := map[changes.Change][]changes.Piece{}
	for _, p := range d.pieces {
		by[p.Change] = append(by[p.Change], p)
	}
	if n := len(by[changes.Make]) + len(by[changes.Remake]); n > 0 {
		k.Takes = append(k.Takes, plural(n, "piece")+" of card to cut")
	}
	step("Part these", "piece", pieceLines(by[changes.Part]))
	step("Take these off, and make them again", "piece", pieceLines(by[changes.Remake]))
	step("Make these", "piece", pieceLines(by[changes.Make]))
	step("Set these where the new base sheet shows them; lengths are full size", "piece", d.modelMoves())
	step("Put these by", "piece", pieceLines(by[changes.Scrap]))
}

// modelMoves is what is moved of the things that the card model shows.
func (d *difference) modelMoves() []string {
	shown := map[string]bool{}
	for _, f := range modelOf(d.is.model).Base {
		shown[f.Element] = true
	}
	var out []string
	for _, b := range d.blocks {
		if shown[b.Element] && (b.Change == changes.Moved || b.Change == changes.Turned) {
			out = append(out, blockLines([]changes.Block{b})...)
		}
	}
	for _, m := range d.moves {
		if shown[m.Element] {
			out = append(out, moveLines([]changes.Move{m})...)
		}
	}
	return out
}

// floorLines is marks and lines of tape of a set, each with its place.
func floorLines(does string, s *set.Set, marks []changes.Mark, lines []changes.Line) []string {
	var out []string
	for _, m := range marks {
		out = append(out, markWords(does, s, m))
	}
	for _, l := range lines {
		out = append(out, lineWords(does, s, l))
	}
	return out
}
