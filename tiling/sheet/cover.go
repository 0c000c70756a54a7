package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
	"markout/tiling"
)

// cover says what this is, which issue, what it takes, in what order to work and how to hold it.
func (b *binder) cover(plan *drawing.Drawing, tape *table.Table, cautions []caution.Caution) {
	s := b.set
	rows := 0
	if tape != nil {
		rows = len(tape.Rows)
	}
	sides := s.SideNames()
	what := tiling.Block{Heading: "What this is", Lines: []string{
		"The floor mark-out: a plan to scale, and the table by which its points are taped.",
	}}
	what.Lines = append(what.Lines, b.sheets()...)
	takes := tiling.Block{Heading: "What it takes", Lines: b.takes(rows)}
	order := tiling.Block{Heading: "In this order", Numbered: true, Lines: b.order(rows)}
	hold := tiling.Block{Heading: "How to hold it", Lines: []string{
		"The plan is " + plan.Hold + "; " + sides.Below + " is at its foot.",
		fmt.Sprintf("%s after a figure is the side of the centre line that is %s, %s is %s. U is upstage of the setting line, D downstage.",
			sides.Plus, sides.PlusWord, sides.Minus, sides.MinusWord),
	}}
	blocks := []tiling.Block{what, takes, order, hold}
	if len(cautions) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Cautions", Lines: []string{
			caution.Defer,
			cautionCount(len(cautions)) + ", in full on the sheet `cautions`.",
		}})
	}
	if s.Trial && len(s.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: s.With})
	}
	c := newCover(s, s.Name+": floor", blocks)
	b.covers(c, b.coverFrame())
}

// newCover is a set's cover with its title and blocks; the issue's line is added as it is laid.
func newCover(s *set.Set, title string, blocks []tiling.Block) *tiling.Cover {
	c := &tiling.Cover{Title: title, Trial: s.Trial, Blocks: blocks}
	if s.Production != "" {
		c.Under = append(c.Under, s.Production)
	}
	return c
}

func cautionCount(n int) string {
	if n == 1 {
		return "One caution"
	}
	return strconv.Itoa(n) + " cautions"
}

// coverFrame is the frame of the plan, so that the cover lies as the plan does.
func (b *binder) coverFrame() *frame {
	for i := range b.frames {
		if len(b.pages) > 0 && b.frames[i].paper == b.pages[0].entry.Paper {
			return &b.frames[i]
		}
	}
	return &b.frames[0]
}

func issueLine(s *set.Set) string {
	if s.Trial || s.Letter == "" {
		return s.Date
	}
	if s.Date == "" {
		return "Issue " + s.Letter
	}
	return "Issue " + s.Letter + ", " + s.Date
}

// takes lists what to have at hand.
func (b *binder) takes(rows int) []string {
	s := b.set
	var out []string
	if rows > 0 {
		out = append(out, fmt.Sprintf("%d points to mark.", rows))
	}
	tapes := "Three measuring tapes: two to mark with, one to check."
	if h := hallOf(s); h != nil && h.TapeLong > 0 {
		tapes = fmt.Sprintf("Three measuring tapes of %s, class %s: two to mark with, one to check.", unit.FormatMeasure(h.TapeLong, metres(s), 1), roman(h.Class))
	}
	out = append(out, tapes, "A chalk line, chalk, and a plumb line for points that lie on a level.")
	return append(out, floorTapes(s)...)
}

func metres(s *set.Set) unit.System {
	if s.Units.Imperial() {
		return s.Units
	}
	return unit.Metre
}

func roman(class int) string { return [...]string{"I", "II", "III"}[min(max(class, 1), 3)-1] }

// floorTapes lists the tapes to lay with, and which pieces take them.
func floorTapes(s *set.Set) []string {
	var kinds, out []string
	pieces := map[string][]string{}
	for _, e := range s.Elements {
		if e.Tape == nil {
			continue
		}
		k := "Floor tape"
		if e.Tape.Colour != "" {
			k += ", " + e.Tape.Colour
		}
		if e.Tape.Width > 0 {
			k += ", " + unit.FormatMeasure(e.Tape.Width, s.Units, 0.1)
		}
		if !slices.Contains(kinds, k) {
			kinds = append(kinds, k)
		}
		pieces[k] = append(pieces[k], e.Name)
	}
	for _, k := range kinds {
		out = append(out, k+": "+strings.Join(pieces[k], ", ")+".")
	}
	if len(out) == 0 {
		out = append(out, "Floor tape.")
	}
	return out
}

// order is the order of work.
func (b *binder) order(rows int) []string {
	s := b.set
	out := []string{
		"Print without scaling. Lay a rule along both check bars on the plan: if either is wrong, print again.",
		"Snap the centre line and the setting line, square to each other.",
	}
	if st := stationsOf(s); len(st) >= 2 {
		line := "Mark the stations: "
		for i, p := range st {
			if i > 0 {
				line += ", "
			}
			line += p.name + " at " + place(s, p.at)
		}
		d := unit.FormatMeasure(st[0].at.Dist(st[1].at), s.Units, 0.5)
		out = append(out, fmt.Sprintf("%s. Check from %s to %s: %s.", line, st[0].name, st[1].name, d))
	}
	if rows > 0 {
		out = append(out,
			"Mark the points in the order of the tape table, row by row, each from its two starts and on the side that the row names. Tick it.",
			"Check each with the third distance before the tape goes down. Where a row starts from laid points, their errors are counted in its own.",
			"Lay the floor tape from point to point, its outside edge on the line.")
	}
	return out
}

// station is a fixed point in the set's axes.
type station struct {
	name string
	at   geom.Point
}

func hallOf(s *set.Set) *set.Hall {
	if s.Hall == nil {
		return nil
	}
	h, _ := s.Hall.Shape.(*set.Hall)
	return h
}

func stationsOf(s *set.Set) []station {
	h := hallOf(s)
	if h == nil || len(s.Hall.Copies) == 0 || len(s.Hall.Copies[0].Places) == 0 {
		return nil
	}
	m := s.Hall.Copies[0].Places[0].Frame.Plan()
	var out []station
	for _, st := range h.Stations {
		out = append(out, station{st.Name, m.Apply(st.At)})
	}
	return out
}

// place prints a place with letters and no sign: 4000 R 400 U.
func place(s *set.Set, p geom.Point) string {
	sides := s.SideNames()
	return along(s, p.X, sides.Plus, sides.Minus) + ", " + along(s, p.Y, "U", "D")
}

func along(s *set.Set, x float64, plus, minus string) string {
	t := unit.FormatLength(max(x, -x), s.Units, 0.5)
	switch {
	case x > geom.Tolerance:
		return t + " " + plus
	case x < -geom.Tolerance:
		return t + " " + minus
	}
	return t
}
