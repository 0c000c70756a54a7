package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
	"markout/layout/table"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/tiling"
)

// Overhead makes the document of rooms that hang upside down: a cover, then for each room its transfer table, its reflected plan, its
// two sections, the marks to plumb up, templates of what has fixings, the list to fix by, tags, totals and lists, the headroom beneath
// it; then its cautions in full. The error says what does not fit the paper.
func Overhead(s *set.Set, rooms []*overhead.Room, cautions []caution.Caution, opt Options) (*Book, error) {
	frames, err := framesOf(opt)
	if err != nil {
		return nil, err
	}
	o := &overheadBook{binder: binder{set: s, frames: frames, stamps: opt.Stamps}, scene: solid.NewScene(s)}
	var shown []caution.Caution
	for _, r := range rooms {
		own := overheadCautions(r, cautions)
		shown = append(shown, own...)
		if err := o.room(r, own); err != nil {
			return nil, err
		}
	}
	if len(shown) > 0 {
		t := cautionTable(shown)
		t.Head = []string{overhead.Note}
		if err := o.lay(t, "cautions", "Cautions"); err != nil {
			return nil, err
		}
	}
	o.cover(rooms, shown)
	return o.bind(s.Name + ", overhead"), nil
}

// overheadBook gathers the sheets of rooms overhead.
type overheadBook struct {
	binder
	scene *solid.Scene
}

// room adds the sheets of one room.
func (o *overheadBook) room(r *overhead.Room, cautions []caution.Caution) error {
	name := r.Element.Name
	if err := o.transfer(r); err != nil {
		return err
	}
	if err := o.reflected(r, cautions); err != nil {
		return err
	}
	for _, alongside := range []bool{false, true} {
		if err := o.section(r, alongside, cautions); err != nil {
			return err
		}
	}
	if err := o.lay(marksTable(o.set, r), name+" marks", "Marks to plumb up"); err != nil {
		return err
	}
	o.templates(r)
	if err := o.lay(fixingTable(o.set, r), name+" fixing", "Fixing list"); err != nil {
		return err
	}
	o.tags(r)
	for _, t := range append([]*table.Table{totalsTable(o.set, r), listsTable(o.set, r)}, OverheadWays(o.set, r, o.scene)...) {
		if len(t.Rows) == 0 {
			continue
		}
		if err := o.lay(t, name+" "+t.Name, overheadKinds[t.Name]); err != nil {
			return err
		}
	}
	return nil
}

// transfer adds the transfer table; on paper too narrow for it two tables, upright and overhead.
func (o *overheadBook) transfer(r *overhead.Room) error {
	const kind = "Transfer table"
	whole := transferTable(o.set, r)
	label := r.Element.Name + " transfer"
	if o.lay(whole, label, kind) == nil {
		return nil
	}
	for _, half := range []struct {
		of    string
		names []string
	}{
		{"upright", []string{"tag", "piece", "weight", "xu", "yu", "zu", "fu", "says"}},
		{"overhead", []string{"tag", "piece", "xo", "yo", "zo", "fo", "low", "head", "panel", "on"}},
	} {
		if err := o.lay(only(whole, half.of, half.names...), label+" "+half.of, kind); err != nil {
			return err
		}
	}
	return nil
}

// overheadKinds says in the title block what tables are.
var overheadKinds = map[string]string{"totals": "Weights", "lists": "Lists", "headroom": "Headroom", "footholds": "Footholds"}

// overheadCautions are the cautions that concern a room, what hangs in it and the ways beneath it.
func overheadCautions(r *overhead.Room, all []caution.Caution) []caution.Caution {
	concerned := map[string]bool{r.Element.Name: true}
	for i := range r.Pieces {
		concerned[r.Pieces[i].Element.Name] = true
	}
	for _, e := range r.Walks {
		concerned[e.Name] = true
		for _, h := range e.Shape.(*set.Walk).Over {
			concerned[h.Element] = true
		}
	}
	var out []caution.Caution
	for _, c := range all {
		of, _, _ := strings.Cut(c.Element, " ")
		of, _, _ = strings.Cut(of, ".")
		if concerned[of] {
			out = append(out, c)
		}
	}
	return out
}

// reflected adds the reflected plan.
func (o *overheadBook) reflected(r *overhead.Room, cautions []caution.Caution) error {
	d := view.Reflected(o.set, r)
	l := &planner{
		set: o.set, plan: d, what: "the reflected plan of " + r.Element.Name, cautions: cautions, figures: measureIn(o.set.Units),
		legend: view.ReflectedLegend(d), notes: func(unsaid bool) []string { return reflectedNotes(o.set, r, unsaid) }, breaks: true,
	}
	laid, err := l.lay(o.frames)
	if err != nil { // small paper: the cautions and the turn in full are on sheets of their own
		l.cautions, l.notes = nil, func(bool) []string { return reflectedNotes(o.set, r, false)[:2] }
		if laid, err = l.lay(o.frames); err != nil {
			return err
		}
	}
	o.drawn(tiling.Entry{Label: r.Element.Name + " reflected", View: "reflected plan", Title: d.Title, Element: r.Element.Name}, "Reflected plan", laid)
	return nil
}

// reflectedNotes say how the plan is held and about what the room turned over.
func reflectedNotes(s *set.Set, r *overhead.Room, unsaid bool) []string {
	out := []string{
		overhead.Note,
		"As seen from above, upstage at the top: left and right are those of the ground plan. Pieces are drawn as they hang, what hangs beneath another as well.",
		turnWords(s, r),
		fmt.Sprintf("Lengths in %s. A label gives a piece's tag, its name and the level of its lowest point over the set's 0; the walking floor is at %s, the room's floor overhead at %s.",
			unitsOf(s), length(s, r.Shape.Stand), length(s, r.Shape.Overhead)),
	}
	if unsaid {
		out = append(out, "Some names or figures found no room here; the transfer table has them.")
	}
	return out
}

// turnWords says about what a room turned over, and how far that line is from the centre line and from the setting line.
func turnWords(s *set.Set, r *overhead.Room) string {
	a, b, ok := view.TurnLine(r)
	if !ok {
		return "Mirrored: turned about no line. Every piece has to be made opposite-handed."
	}
	middle, change := "from its front to its back", "left and right"
	if r.Shape.Turned == set.Crossways {
		middle, change = "from side to side", "front and back"
	}
	sides := s.SideNames()
	where := fmt.Sprintf("from %s to %s, places from the centre line and from the setting line", place(s, a), place(s, b))
	switch d := b.Sub(a); {
	case math.Abs(d.X) <= geom.Tolerance:
		where = offLine(along(s, a.X, sides.Plus, sides.Minus), "the centre line") + ", from " + strings.TrimPrefix(offLine(along(s, a.Y, "U", "D"), "the setting line"), "on ") +
			" to " + offLine(along(s, b.Y, "U", "D"), "it")
	case math.Abs(d.Y) <= geom.Tolerance:
		where = offLine(along(s, a.Y, "U", "D"), "the setting line") + ", from " + strings.TrimPrefix(offLine(along(s, a.X, sides.Plus, sides.Minus), "the centre line"), "on ") +
			" to " + offLine(along(s, b.X, sides.Plus, sides.Minus), "it")
	}
	return fmt.Sprintf("The room is %s, about its own middle line %s: its %s change places. The turn's line lies %s.", r.Shape.Turned, middle, change, where)
}

// offLine says how far a line or a place is from a line: on the centre line, 350 L of the centre line.
func offLine(figure, line string) string {
	if strings.Trim(figure, `0"`) == "" {
		return "on " + line
	}
	return figure + " of " + line
}

// length prints a length to the millimetre.
func length(s *set.Set, mm float64) string { return unit.FormatLength(mm, s.Units, 1) }

// section adds one section.
func (o *overheadBook) section(r *overhead.Room, alongside bool, cautions []caution.Caution) error {
	v := view.Section(o.set, r, o.scene, alongside)
	l := &planner{
		set: o.set, plan: v.Drawing, what: v.Title, figures: measureIn(o.set.Units), legend: view.SectionLegend(v.Drawing),
		breaks: true, cautions: cautions,
		notes: func(unsaid bool) []string {
			out := slices.Clone(v.Says)
			if unsaid {
				out = append(out, "Some names or figures found no room here; the transfer table has them.")
			}
			return out
		},
	}
	laid, err := l.lay(o.frames)
	if err != nil { // small paper: the cautions in full are on a sheet of their own
		l.cautions = nil
		if laid, err = l.lay(o.frames); err != nil {
			return err
		}
	}
	o.drawn(tiling.Entry{Label: r.Element.Name + " section " + v.Seen, View: "section", Title: v.Title, Element: r.Element.Name}, "Section", laid)
	return nil
}

// drawn binds a laid drawing under an entry that says what it is.
func (b *binder) drawn(e tiling.Entry, kind string, s *planSheet) {
	e.Scale, e.Paper, e.Mark, e.Digest = s.scale.text, s.frame.paper, tiling.ContentMark(s.digest), s.digest
	at := s.at.world.Add(s.plan.Min.Sub(s.at.at).Mul(s.scale.n))
	e.Origin, e.Size = [2]float64{at.X, at.Y}, [2]float64{s.plan.W(), s.plan.H()}
	b.pages = append(b.pages, page{entry: e, size: s.frame.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		copyPage(p, s.page)
		s.frame.drawFrame(p)
		titleBlock(p, s.title, b.set, b.titles(e, kind, s.frame, n, of))
	}})
}

// cover says what this is, in what order to work, how to hold it, and what hangs in all.
func (o *overheadBook) cover(rooms []*overhead.Room, cautions []caution.Caution) {
	s := o.set
	what := tiling.Block{Heading: "What this is", Lines: append([]string{
		"A room that was dressed the right way up, and where each piece comes to when it hangs upside down overhead.",
	}, o.sheets()...)}
	decides := tiling.Block{Heading: "Who decides", Lines: []string{overhead.Note, caution.Defer, "Nothing here says that anything may hang, or that anyone may stand beneath it."}}
	var totals []string
	for _, r := range rooms {
		totals = append(totals, turnWords(s, r))
		for _, t := range OverheadTotals(s, r) {
			totals = append(totals, r.Element.Name+", "+t.Of+": "+t.Says)
		}
	}
	totals = append(totals, overhead.LeftOut, overhead.Note)
	sides := s.SideNames()
	blocks := []tiling.Block{what, decides,
		{Heading: "What hangs", Lines: totals},
		{Heading: "In this order", Numbered: true, Lines: []string{
			"Print without scaling. Lay a rule along both check bars of a sheet: if either is wrong, print again.",
			"Give the weights, the places and the sections to whoever decides how it hangs. Weigh what is not weighed.",
			"Cut the tags and tie each to its piece while the room is still the right way up.",
			"Mark the walking floor from the stations by the table of marks, and check each with its third distance. Plumb each mark up to its level.",
			"Check marks near the turn's line against the reflected plan before anything is lifted: left and right are easily taken for one another.",
			"Fix what hangs from the room's floor first, then what is fixed to other pieces. Fill in the fixing list: fixed by, second line, checked, date.",
			"Measure the headroom under each piece before anyone goes beneath it.",
		}},
		{Heading: "How to hold it", Lines: []string{
			"The reflected plan is as seen from above, upstage at its top, " + sides.Below + " at its foot: hold it as the ground plan.",
			"Templates come twice. As seen from below: over your head, print towards you, the arrow upstage. As seen from above: lying, print up, the arrow upstage.",
			fmt.Sprintf("%s after a figure is the side of the centre line that is %s, %s is %s. U is upstage of the setting line, D downstage.",
				sides.Plus, sides.PlusWord, sides.Minus, sides.MinusWord),
			overhead.Note,
		}},
	}
	if len(cautions) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Cautions", Lines: []string{cautionCount(len(cautions)) + ", in full on the sheet `cautions`."}})
	}
	if s.Trial && len(s.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: s.With})
	}
	c := newCover(s, s.Name+": overhead", blocks)
	o.covers(c, o.coverFrame())
}
