package setout

import (
	"math"
	"strconv"
	"strings"

	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
)

// The steps in millimetres of the figures that people measure by. Places rebuilt from them are right to 1 mm at the
// flattest crossing allowed, 30°, where half a step on each of two tapes makes 1.93 steps: 0.97 mm from half
// millimetres, 0.77 mm from 1/64"; 1/32" would make 1.53 mm.
const (
	onPaper       = 0.5
	onPaperInFeet = 25.4 / 64
)

// Table returns the tape table: the columns of floor.csv, a remark a row for people, and notes below.
func (l *Layout) Table() *table.Table {
	step := onPaper
	if l.Set.Units.Imperial() {
		step = onPaperInFeet
	}
	place := func(name, heading string, kind table.Kind) table.Column {
		return table.Column{Name: name, Heading: heading, Kind: kind, Decimals: 1, Step: step}
	}
	t := &table.Table{
		Name: "floor", Title: l.Set.Name + ": tape table",
		Sides: l.Set.SideNames(), Feet: l.Set.Units.Imperial(),
		Columns: []table.Column{
			{Name: "element", Heading: "Element"},
			{Name: "point", Heading: "Point"},
			place("x_mm", "From centre line", table.X),
			place("y_mm", "From setting line", table.Y),
			place("level_mm", "Level", table.Level),
			{Name: "tape", Heading: "Tape"},
			{Name: "from_1", Heading: "First from", Break: true},
			place("distance_1_mm", "First distance", table.Length),
			{Name: "from_2", Heading: "Second from"},
			place("distance_2_mm", "Second distance", table.Length),
			{Name: "side", Heading: "Side"},
			{Name: "crossing_deg", Heading: "Crossing", Kind: table.Angle, Decimals: 1, Step: 1},
			{Name: "error_mm", Heading: "Error up to", Kind: table.Length, Decimals: 2, Step: 0.1},
			{Name: "from_3", Heading: "Check from", Break: true},
			place("distance_3_mm", "Check distance", table.Length),
			{Name: "note", Heading: "Note", PeopleOnly: true},
		},
		Rows:  make([][]table.Value, len(l.Rows)),
		Notes: l.notes(),
	}
	cells := make([]table.Value, len(l.Rows)*len(t.Columns))
	for i := range l.Rows {
		row := cells[i*len(t.Columns) : (i+1)*len(t.Columns) : (i+1)*len(t.Columns)]
		l.fill(row, &l.Rows[i])
		t.Rows[i] = row
	}
	return t
}

// fill writes one row's cells in the order of Table's columns.
func (l *Layout) fill(row []table.Value, r *Row) {
	row[0], row[1] = table.T(r.Element), table.T(r.Point)
	row[2], row[3], row[4] = table.N(r.At.X), table.N(r.At.Y), table.N(r.Level)
	row[5] = table.T(l.TapeName(r.Tape))
	for i, at := range [3]int{6, 8, 13} {
		if i < len(r.Starts) {
			row[at], row[at+1] = table.T(r.Starts[i].From), table.N(r.Starts[i].Distance)
		}
	}
	if len(r.Starts) > 0 {
		row[10], row[11], row[12] = table.T(r.Side), table.N(r.Crossing), table.N(r.Error)
	}
	row[15] = table.T(l.note(r))
}

// TapeName names the tape an element is laid with: white 25 mm. It is empty where the element names none.
func (l *Layout) TapeName(t *set.Tape) string {
	switch {
	case t == nil:
		return ""
	case t.Width <= 0:
		return t.Colour
	}
	return strings.TrimSpace(t.Colour + " " + unit.FormatMeasure(t.Width, l.Set.Units, 0.1))
}

// note says in words what the figures of a row do not.
func (l *Layout) note(r *Row) string {
	if !l.Measured() {
		return ""
	}
	if len(r.Starts) == 0 {
		return l.lack(r.Best)
	}
	var says []string
	if r.Same >= 0 {
		says = append(says, "same mark as "+l.Rows[r.Same].Name())
	}
	switch {
	case r.How == OnLevel:
		says = append(says, "taped on its level")
	case r.How == Plumbed && r.Level < 0:
		says = append(says, "plumbed up")
	case r.How == Plumbed:
		says = append(says, "plumbed down")
	}
	return strings.Join(says, ", ")
}

// lack says what keeps a point from being found.
func (l *Layout) lack(best Reach) string {
	if best.Tape == 0 {
		return "nothing to tape from"
	}
	var says []string
	if l.Longest > 0 && best.Tape > l.Longest {
		says = append(says, "needs a tape of "+l.tapeLength(math.Ceil(best.Tape/100)*100))
	}
	if best.Crossing < LeastCrossing || best.Crossing > MostCrossing {
		says = append(says, "tapes would cross at "+unit.FormatAngle(best.Crossing, 1))
	}
	return strings.Join(says, ", and ")
}

// tapeLength prints the length of a tape: 8 m, 26'-3".
func (l *Layout) tapeLength(mm float64) string {
	if l.Set.Units.Imperial() {
		return unit.FormatMeasure(mm, unit.Foot, 25.4)
	}
	return unit.FormatMeasure(mm, unit.Metre, 10)
}

var classNames = [...]string{1: "I", 2: "II", 3: "III"}

// notes stand below the table.
func (l *Layout) notes() []string {
	notes := []string{"The outside edge of the tape lies on the line, the tape inside the piece; a line with no inside is centred (common practice, no source)."}
	if round := l.round(); round != "" {
		notes = append(notes, "Round pieces are laid from their centre: "+round+".")
	}
	if !l.Measured() {
		return append(notes, "There are no distances: they need a hall with two stations, the fixed points that tapes start from (`station A -4000, 400`).")
	}
	tapes := "No length of tape is given (`tapes 8m`), so any distance counts as reached; accuracy class "
	if l.Longest > 0 {
		tapes = "Tapes up to " + l.tapeLength(l.Longest) + ", accuracy class "
	}
	notes = append(notes,
		tapes+classNames[l.Class]+". The error is the most that the class allows new tapes crossing like that (MI-008, at 20 °C and 50 N), the laid starts' own errors added; sag, reading and the hook are not counted.",
		"Two tapes cross between 30° and 150° (common practice, no source). Lay the rows in their order; then read the check distance.")
	if l.offFloor() {
		notes = append(notes, "Hold every tape level. Plumbed down: the mark is made on the floor straight below and plumbed up to the level. Taped on its level: from both starts' places at that level.")
	}
	if len(l.Unlaid) > 0 {
		notes = append(notes, l.unlaid())
	}
	return notes
}

// listed is how many names a note lists before it only counts.
const listed = 8

func (l *Layout) unlaid() string {
	var names []string
	for _, i := range l.Unlaid[:min(len(l.Unlaid), listed)] {
		names = append(names, l.Rows[i].Name())
	}
	more := ""
	if n := len(l.Unlaid) - len(names); n > 0 {
		more = " and " + strconv.Itoa(n) + " more"
	}
	return "Nothing serves " + strings.Join(names, ", ") + more + ": give a longer tape, another station, or a mark of one point nearer by."
}

func (l *Layout) offFloor() bool {
	for i := range l.Rows {
		if l.Rows[i].How != OnFloor {
			return true
		}
	}
	return false
}

// round lists the round pieces that are laid, with their sizes.
func (l *Layout) round() string {
	var names []string
	var last *set.Element
	seen := map[*set.Element]bool{}
	for i := range l.Rows {
		e := l.Rows[i].Of
		if e == last || seen[e] {
			continue
		}
		last, seen[e] = e, true
		if size := l.diameters(e.Shape); size != "" {
			names = append(names, e.Name+" "+size)
		}
	}
	if n := len(names) - listed; n > 0 {
		names = append(names[:listed], strconv.Itoa(n)+" more")
	}
	return strings.Join(names, ", ")
}

// diameters returns Ø60 of a round piece, Ø900 and Ø600 inside of a round ring, nothing of any other.
func (l *Layout) diameters(sh set.Shape) string {
	across := func(o set.Outline) string {
		if o.Form != "circle" {
			return ""
		}
		return "Ø" + unit.FormatLength(o.Path.Bounds().W(), l.Set.Units, 0.1)
	}
	switch s := sh.(type) {
	case *set.Platform:
		return across(s.Outline)
	case *set.Post:
		return across(s.Outline)
	case *set.Cone:
		return across(s.Foot())
	case *set.Panel:
		if !s.Stands {
			return across(s.Outline)
		}
	case *set.Ring:
		outer := across(s.Outer)
		if outer == "" || s.Inner == nil || across(*s.Inner) == "" {
			return outer
		}
		return outer + " and " + across(*s.Inner) + " inside"
	}
	return ""
}
