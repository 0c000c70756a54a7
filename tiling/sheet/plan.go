package sheet

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/view"
	"markout/tiling"
)

// planSheet is the plan laid out on one sheet.
type planSheet struct {
	arrangement
	scale  scale
	at     projection
	page   *tiling.Page // all of it but the frame and the title block
	field  *field       // what is taken of the plan's box
	letter float64      // height of what stands beside the plan
	digest [32]byte
}

// planner lays the plan of one set, or another drawing of it to scale.
type planner struct {
	set      *set.Set
	plan     *drawing.Drawing
	what     string // "the plan of Kiosk"
	cautions []caution.Caution
	figures  measure
	legend   []view.LegendLine
	notes    func(unsaid bool) []string // what stands beside it
	alone    bool                       // it is of one piece
	breaks   bool                       // labels break the lines that they stand on
}

// lettersTried are the heights of what stands beside a plan, the better first.
var lettersTried = [...]float64{drawing.Lettering3_5, drawing.Lettering2_5}

// layPlan lays the plan at the largest scale at which it and its notes fit one sheet, lying or upright; of equals the one
// that has room for all cautions in the larger lettering.
func layPlan(s *set.Set, plan *drawing.Drawing, cautions []caution.Caution, frames []frame) (*planSheet, error) {
	l := &planner{
		set: s, plan: plan, what: "the plan of " + s.Name, cautions: cautions, figures: measureIn(s.Units), legend: view.Legend(plan),
		notes: func(unsaid bool) []string { return notes(s, unsaid) },
	}
	return l.lay(frames)
}

// lay lays the drawing at the largest scale at which it and its notes fit one sheet.
func (l *planner) lay(frames []frame) (*planSheet, error) {
	plan, scales := l.plan, scalesFor(l.set.Units)
	for _, sc := range scales {
		need := projection{scale: sc.n}.extent(plan, l.figures)
		for _, p := range l.candidates(sc, need, frames) {
			if l.draw(p, need) {
				return p, nil
			}
		}
	}
	return nil, fmt.Errorf("%s does not fit %s at %s, the smallest scale", l.what, frames[0].paper, scales[len(scales)-1].text)
}

// candidates returns the arrangements that have room for the plan and for what must stand beside it, the best first.
func (l *planner) candidates(sc scale, need geom.Rect, frames []frame) []*planSheet {
	var ranks [2 * len(lettersTried)][]*planSheet
	for i := range frames {
		for _, a := range arrangements(&frames[i]) {
			if need.W() > a.plan.W()-2*gap || need.H() > a.plan.H()-2*gap {
				continue
			}
			for k, h := range lettersTried {
				p := &planSheet{arrangement: a, scale: sc, letter: h}
				must, all := l.beside(p, true)
				rank := len(lettersTried) + k
				switch n := flow(all, a.columns, nil); {
				case n == len(all):
					rank = k
				case n < must:
					continue
				}
				ranks[rank] = append(ranks[rank], p)
				break
			}
		}
	}
	return slices.Concat(ranks[:]...)
}

// beside returns the blocks beside the plan, of which the first so many must be there. unsaid says that not all labels
// found room.
func (l *planner) beside(p *planSheet, unsaid bool) (must int, blocks []block) {
	if issueOf(l.set) == "TRIAL" {
		blocks = append(blocks, trialBlock(l.set))
	}
	blocks = append(blocks,
		barBlock(p.scale, l.set.Units),
		legendBlock(l.legend, p.letter),
		notesBlock(l.notes(unsaid), p.letter))
	if len(l.cautions) > 0 {
		blocks = append(blocks, deferBlock(p.letter))
	}
	must = len(blocks)
	for _, c := range l.cautions {
		blocks = append(blocks, cautionBlock(c, p.letter))
	}
	return must, blocks
}

// draw draws the plan in the middle of its room, or further up and to the right where the check bars need that; false where
// they find no free place.
func (l *planner) draw(p *planSheet, need geom.Rect) bool {
	spare := geom.Point{X: (p.plan.W()-need.W())/2 - gap, Y: (p.plan.H()-need.H())/2 - gap}
	for _, shift := range [...]geom.Point{{}, {X: spare.X}, {Y: spare.Y}, spare} {
		p.at = projection{scale: p.scale.n, at: p.plan.Mid().Sub(need.Mid()).Add(shift)}
		unsaid := l.lines(p)
		if !l.bars(p) {
			continue
		}
		plots := p.at.plotsOf(l.plan, l.hallName())
		var labels []geom.Rect
		for _, g := range p.at.groups(l.plan, plots) {
			box, ok := g.put(p.page, p.field, plots)
			switch {
			case !ok:
				unsaid++
			case l.breaks:
				labels = append(labels, lettered(box))
			}
		}
		breakLines(p.page, labels)
		_, blocks := l.beside(p, unsaid > 0)
		drawn := &p.page.Layers[drawing.Notes]
		before := len(drawn.Texts)
		flow(blocks, p.columns, p.page)
		var says []string // as they are read: where lines break does not count
		for i := range drawn.Texts[before:] {
			says = append(says, drawn.Texts[before+i].Text)
		}
		p.digest = l.digest(p.scale, strings.Join(says, " "))
		return true
	}
	return false
}

// bars puts the check bars beside the drawing where it is of one piece, which they must not be taken for a part of; within it only where
// there is no other place.
func (l *planner) bars(p *planSheet) bool {
	if l.alone {
		b := l.plan.Bounds()
		body := geom.EmptyRect().Include(p.at.to(b.Min)).Include(p.at.to(b.Max))
		keep := p.field.copy(body)
		p.field.fill(body, lightLine)
		ok := p.bars(l.set)
		p.field.paste(body, keep)
		if ok {
			return true
		}
	}
	return p.bars(l.set)
}

func (l *planner) hallName() string {
	if l.set.Hall == nil {
		return ""
	}
	return l.set.Hall.Name
}

// lines draws the plan's lines, dimensions and what lettering stays where it is, and returns how many figures found no room.
func (l *planner) lines(p *planSheet) (unsaid int) {
	pg := &tiling.Page{}
	pg.Reset()
	p.page = pg
	p.at.lines(pg, l.plan)
	notes := &pg.Layers[drawing.Notes]
	for i := range l.plan.Texts {
		if t := &l.plan.Texts[i]; !movable(t) {
			notes.Texts = append(notes.Texts, tiling.PlaceText(t, p.at.to(t.At)))
		}
	}
	for i := range l.plan.Dimensions {
		c := p.at.dimension(&l.plan.Dimensions[i], l.figures)
		for _, q := range c.witness {
			notes.Polyline(pg, witnessPen, false, q[0], q[1])
		}
		for _, q := range c.lines {
			notes.Polyline(pg, tiling.Thin, false, q[0], q[1])
		}
		notes.Texts = append(notes.Texts, c.texts...)
		unsaid += c.unsaid
	}
	p.field = newField(p.plan.Grow(-1))
	p.field.page(pg)
	if l.breaks {
		l.shield(p)
	}
	return unsaid
}

// shield makes labels keep off small marks, such as fixings and arrows, which would be lost under them.
func (l *planner) shield(p *planSheet) {
	const small, heavy = 12.0, 60 // millimetres on paper; the weight of a square
	for i := range l.plan.Strokes {
		k := &l.plan.Strokes[i]
		b := k.Path.Bounds()
		if k.Layer != drawing.Cut && !k.Path.Closed() && max(b.W(), b.H()) <= small*p.scale.n {
			p.field.fill(geom.Rect{Min: p.at.to(b.Min), Max: p.at.to(b.Max)}.Grow(0.5), heavy)
		}
	}
}

// bars proves the scale in both directions where nothing else stands: 100 mm, or 4 inches for a set in feet; half of it
// on a small sheet.
func (p *planSheet) bars(s *set.Set) bool {
	type bar struct {
		length float64
		words  string
	}
	tried := []bar{{100, "100 mm on this paper"}, {50, "50 mm on this paper"}}
	if s.Units.Imperial() {
		tried = []bar{{4 * 25.4, `4" on this paper`}, {2 * 25.4, `2" on this paper`}}
	}
	for _, b := range tried {
		flat, ok := p.field.free(b.length+4, tiling.BarBreadth+2, false)
		if !ok {
			continue
		}
		box := boxAt(flat, b.length+4, tiling.BarBreadth+2)
		keep := p.field.copy(box)
		p.field.fill(box, taken)
		up, ok := p.field.free(tiling.BarBreadth+2, b.length+4, true)
		if !ok {
			p.field.paste(box, keep)
			continue
		}
		p.field.fill(boxAt(up, tiling.BarBreadth+2, b.length+4), taken)
		checkBar(p.page, b.length, b.words, false, flat.Add(geom.Point{X: 2, Y: 1}))
		checkBar(p.page, b.length, b.words, true, up.Add(geom.Point{X: 1, Y: 2}))
		return true
	}
	return false
}

func boxAt(low geom.Point, w, h float64) geom.Rect {
	return geom.Rect{Min: low, Max: low.Add(geom.Point{X: w, Y: h})}
}

// checkBar draws a check bar on a page, its lower left corner at a place.
func checkBar(p *tiling.Page, length float64, words string, upright bool, at geom.Point) {
	var own tiling.Content
	tiling.CheckBar(&own, length, upright, words)
	c := &p.Layers[drawing.Registration]
	for _, k := range own.Strokes {
		for _, r := range k.Runs {
			for i := range r.Points {
				r.Points[i] = r.Points[i].Add(at)
			}
			c.Polyline(p, k.Pen, r.Closed, r.Points...)
		}
	}
	for _, t := range own.Texts {
		t.At = t.At.Add(at)
		c.Texts = append(c.Texts, t)
	}
}

// digest is of the plan's lines and words in the set's millimetres and of what is said beside it; names, and where labels found room, are
// not in it.
func (l *planner) digest(sc scale, says string) [32]byte {
	plan := l.plan
	d := digester(l.set)
	d.Reset(plan.View, sc.text, l.set.Sides, plan.Bounds())
	var ps []geom.Point
	for i := range plan.Strokes {
		k := &plan.Strokes[i]
		ps = k.Path.Flatten(flatness*sc.n, ps[:0])
		d.Line(k.Mark, k.Type, k.Width, k.Tone, 0, k.Path.Closed(), ps)
	}
	for i := range plan.Fills {
		f := &plan.Fills[i]
		rings := [][]geom.Point{f.Region.Outer.Flatten(flatness*sc.n, nil)}
		for _, h := range f.Region.Holes {
			rings = append(rings, h.Flatten(flatness*sc.n, nil))
		}
		d.Area(f.Mark, f.Tone, rings)
	}
	for i := range plan.Texts {
		t := &plan.Texts[i]
		if t.Role == drawing.Word {
			d.Word(t.Mark, &tiling.Text{At: t.At, Turn: t.Turn, Height: t.Height, Bold: t.Bold, Text: t.Text})
		}
	}
	j := projection{scale: sc.n}
	for i := range plan.Dimensions {
		c := j.dimension(&plan.Dimensions[i], l.figures)
		for k := range c.texts {
			d.Word(plan.Dimensions[i].Mark, &c.texts[k])
		}
	}
	d.Word(drawing.Mark{Layer: drawing.Notes, Role: drawing.Word}, &tiling.Text{At: plan.Bounds().Min, Text: says})
	return d.Sum()
}
