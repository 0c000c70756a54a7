package cli

import (
	"io"
	"strings"

	"markout/layout/changes"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
	"markout/render/issue"
)

// text prints what has changed, for people: what was done to the set, then what it costs each trade, then the sheets.
func (d *difference) text(w io.Writer) error {
	p := &printer{w: w}
	s := d.new.set
	p.printf("%s: %s against %s\n", s.Name, d.new.words(), d.old.words())
	for _, l := range d.unsure() {
		p.printf("%s\n", l)
	}
	if d.still() && len(d.pages.Reprint) == 0 {
		p.printf("Nothing has changed; all %s stand as they were.\n", plural(len(d.pages.Keep), "sheet"))
		return p.err
	}
	list := func(title string, lines []string) {
		if len(lines) == 0 {
			return
		}
		p.printf("\n%s\n", title)
		for _, l := range lines {
			p.printf("    %s\n", l)
		}
	}
	list("What changed", elementLines(d.elements))
	list("Floor: "+d.floorCount(), d.floorText())
	list("Blocks", blockLines(d.blocks))
	list("To move", moveLines(d.moves))
	list("Card model", pieceLines(d.pieces))
	list("Boards, lengths and stock to cut", boardLines(d.boards))
	list("Overhead, for a competent, licensed rigger, who decides", hungLines(d.hung, d.totals))
	p.printf("\nSheets: %d to print, %d stand as they were, %d to withdraw\n", len(d.pages.Reprint), len(d.pages.Keep), len(d.pages.Withdraw))
	for _, l := range pageLines("print", d.pages.Reprint) {
		p.printf("    %s\n", l)
	}
	for _, l := range pageLines("withdraw", d.pages.Withdraw) {
		p.printf("    %s\n", l)
	}
	return p.err
}

// elementLines is what changed of each element in words, and what was held.
func elementLines(list []changes.Element) []string {
	var out []string
	for _, e := range list {
		out = append(out, e.String())
	}
	return out
}

// unsure says of pictures that are no longer at hand what that means for what is said.
func (d *difference) unsure() []string {
	var out []string
	for _, v := range []*version{d.old, d.new} {
		for _, name := range v.lacks {
			out = append(out, name+" of "+v.words()+" is not at hand as it was: of what shows it, size, places and pieces in that issue are told by the picture's edges; measure before lifting")
		}
	}
	return out
}

func blockLines(list []changes.Block) []string {
	var out []string
	for _, b := range list {
		out = append(out, b.Element+": "+b.Words)
	}
	return out
}

func moveLines(list []changes.Move) []string {
	var out []string
	for _, m := range list {
		out = append(out, m.Element+" "+m.Words)
	}
	return out
}

// floorCount says how many marks and how much tape a change costs.
func (d *difference) floorCount() string {
	var parts []string
	for _, k := range []struct {
		does  string
		marks int
		lines []changes.Line
	}{{"lift", len(d.lift), d.off}, {"lay", len(d.lay), d.on}} {
		if k.marks+len(k.lines) == 0 {
			continue
		}
		part := k.does + " " + plural(k.marks, "mark")
		if m := tapeWords(k.lines, d.new.set.Units); m != "" {
			part += " and " + m
		}
		parts = append(parts, part)
	}
	words := strings.Join(parts, ", ")
	if d.standsElsewhere() {
		words += "; the set stands elsewhere: lift by the old centre line and setting line, lay by the new ones"
	}
	return words
}

// standsElsewhere reports whether the set is shifted in its hall or laid in another: then a mark may be lifted and laid again at one
// and the same distance from centre line and setting line.
func (d *difference) standsElsewhere() bool {
	for _, m := range d.lift {
		for _, n := range d.lay {
			if m.Tape == n.Tape && m.At.Near(n.At) {
				return true
			}
		}
	}
	return false
}

// tapeWords says how much of each tape lines take: 2.4 m of white 25 mm tape, 3 m of tape.
func tapeWords(lines []changes.Line, u unit.System) string {
	var parts []string
	for _, m := range changes.Metres(lines) {
		length := unit.FormatMeasure(m.Metres*1000, unit.Metre, 10)
		if u.Imperial() {
			length = unit.FormatMeasure(m.Metres*1000, unit.Foot, 25.4)
		}
		if m.Tape == "" {
			parts = append(parts, length+" of tape")
			continue
		}
		parts = append(parts, length+" of "+m.Tape+" tape")
	}
	return strings.Join(parts, " and ")
}

// floorText is each mark and each line of tape to lift, then each to lay.
func (d *difference) floorText() []string {
	return append(floorLines("lift  ", d.old.set, d.lift, d.off), floorLines("lay  ", d.new.set, d.lay, d.on)...)
}

func markWords(does string, s *set.Set, m changes.Mark) string {
	return does + m.Element + " " + m.Point + "  " + placeWords(s, m.At) + tapeAfter(m.Tape)
}

func lineWords(does string, s *set.Set, l changes.Line) string {
	return does + "tape of " + l.Element + " from " + l.Point + ": " + unit.FormatLength(l.Length, s.Units, 0.5) + tapeAfter(l.Tape)
}

func tapeAfter(tape string) string {
	if tape == "" {
		return ""
	}
	return ", " + tape
}

// placeWords prints a place with letters and no sign: 1087 L  457 D.
func placeWords(s *set.Set, at geom.Point) string {
	t := &table.Table{Feet: s.Units.Imperial(), Sides: s.SideNames()}
	x := t.ForPeople(table.Column{Kind: table.X, Decimals: 1, Step: 0.5}, table.N(at.X))
	y := t.ForPeople(table.Column{Kind: table.Y, Decimals: 1, Step: 0.5}, table.N(at.Y))
	return x + "  " + y
}

// pageLines lists sheets file by file: print floor.pdf: plan, tape 1.
func pageLines(does string, refs []issue.PageRef) []string {
	var out []string
	for i := 0; i < len(refs); {
		n := i
		var labels []string
		for ; n < len(refs) && refs[n].File == refs[i].File; n++ {
			labels = append(labels, refs[n].Sheet)
		}
		out = append(out, strings.TrimLeft(does+"  ", " ")+refs[i].File+": "+strings.Join(labels, ", "))
		i = n
	}
	return out
}
