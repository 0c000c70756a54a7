package sheet

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/view"
	"markout/tiling"
)

// Elevations makes the document of a set's elevations: a cover, then each view on a sheet of its own at the largest scale at which it
// and its words fit, then the cautions of the pieces shown in full. The error says what does not fit the paper.
func Elevations(s *set.Set, views []view.Elevation, cautions []caution.Caution, opt Options) (*Book, error) {
	frames, err := framesOf(opt)
	if err != nil {
		return nil, err
	}
	b := &binder{set: s, frames: frames, stamps: opt.Stamps}
	var shown []caution.Caution
	rooms := overhead.Rooms(s)
	for i := range views {
		v := &views[i]
		own, legend := cautionsOf(v.Element, cautions), view.ElevationLegend(v.Drawing)
		k := slices.IndexFunc(rooms, func(r *overhead.Room) bool { return r.Element.Name == v.Element })
		if k >= 0 {
			own, legend = overheadCautions(rooms[k], cautions), view.SectionLegend(v.Drawing)
		}
		if i == 0 || views[i-1].Element != v.Element {
			shown = append(shown, own...)
		}
		l := &planner{
			alone: k < 0, breaks: k >= 0, set: s, plan: v.Drawing, what: v.Title, cautions: own, figures: measureIn(s.Units), legend: legend,
			notes: func(unsaid bool) []string { return elevationNotes(s, v, unsaid) },
		}
		laid, err := l.lay(frames)
		if err != nil {
			return nil, err
		}
		b.elevation(v, laid)
	}
	if len(shown) > 0 {
		t, err := layTable(cautionTable(shown), true, frames)
		if err != nil {
			return nil, err
		}
		b.table("cautions", "Cautions", t)
	}
	b.elevationCover(shown)
	return b.bind(s.Name + ", elevations"), nil
}

// cautionsOf returns the cautions that concern an element or one of its copies.
func cautionsOf(name string, all []caution.Caution) []caution.Caution {
	var out []caution.Caution
	for _, c := range all {
		of, _, _ := strings.Cut(c.Element, " ")
		of, _, _ = strings.Cut(of, ".")
		if of == name {
			out = append(out, c)
		}
	}
	return out
}

// elevationNotes are what is said of the piece, and how the figures are to be read.
func elevationNotes(s *set.Set, v *view.Elevation, unsaid bool) []string {
	out := slices.Clone(v.Says)
	step := "to 1 mm"
	if s.Units.Imperial() {
		step = `to 1/16"`
	}
	out = append(out, fmt.Sprintf("Lengths in %s, in chains %s: parts add up to their overall. Do not measure from the paper.", unitsOf(s), step))
	if v.Hold != "" {
		out = append(out, strings.ToUpper(v.Hold[:1])+v.Hold[1:]+".")
	}
	if unsaid {
		out = append(out, "Some figures found no room here; the piece's own lines in these notes have them.")
	}
	return out
}

// elevation binds one laid view.
func (b *binder) elevation(v *view.Elevation, s *planSheet) {
	e := tiling.Entry{
		Label: v.Element + " " + strings.TrimPrefix(v.Seen, "from the "), View: "elevation", Title: v.Title, Element: v.Element,
		Scale: s.scale.text, Paper: s.frame.paper, Mark: tiling.ContentMark(s.digest), Digest: s.digest,
	}
	o := s.at.world.Add(s.plan.Min.Sub(s.at.at).Mul(s.scale.n))
	e.Origin, e.Size = [2]float64{o.X, o.Y}, [2]float64{s.plan.W(), s.plan.H()}
	b.pages = append(b.pages, page{entry: e, size: s.frame.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		copyPage(p, s.page)
		s.frame.drawFrame(p)
		titleBlock(p, s.title, b.set, b.titles(e, "Elevation", s.frame, n, of))
	}})
}

// elevationCover says what this is, in what order to work and how to hold it.
func (b *binder) elevationCover(cautions []caution.Caution) {
	s := b.set
	what := tiling.Block{Heading: "What this is", Lines: append([]string{
		"Dimensioned elevations: each piece from the front, from the back or from its side, to scale, with what the shop measures by.",
	}, b.sheets()...)}
	blocks := []tiling.Block{what,
		{Heading: "What it takes", Lines: []string{"A measuring tape, a square, and the boards as they were measured."}},
		{Heading: "In this order", Numbered: true, Lines: []string{
			"Print without scaling. Lay a rule along both check bars: if either is wrong, print again.",
			"Check that the issue letter is the one in force.",
			"Build by the figures. Each chain adds up to its overall; check the overall before the saw.",
		}},
		{Heading: "How to hold it", Lines: []string{
			"The foot of the piece is at the foot of the drawing. FRONT or BACK over it says which side is seen; from the back it is mirrored. P and Q are the ends that the file names.",
			"Heights count from the line that the piece stands on; what that line is stands at its left.",
			"Curved flats, and sides of flights that turn, are laid flat where the sheet says so.",
		}},
	}
	if len(cautions) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Cautions", Lines: []string{
			caution.Defer, cautionCount(len(cautions)) + ", in full on the sheet `cautions`.",
		}})
	}
	if s.Trial && len(s.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: s.With})
	}
	c := newCover(s, s.Name+": elevations", blocks)
	b.covers(c, b.coverFrame())
}
