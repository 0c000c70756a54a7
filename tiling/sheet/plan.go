package sheet

import (
	"fmt"

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
	page   *tiling.Page      // all of it but the frame and the title block
	unsaid []caution.Caution // what found no room
	digest [32]byte
	at     projection
}

// lettersTried are the heights of the notes beside a plan, the better first.
var lettersTried = [...]float64{drawing.Lettering3_5, drawing.Lettering2_5}

// layPlan lays the plan at the largest scale that fits one sheet, lying or upright; of equals the one that says most beside
// it in the larger lettering.
func layPlan(s *set.Set, plan *drawing.Drawing, cautions []caution.Caution, frames []frame) (*planSheet, error) {
	figures := measureIn(s.Units)
	for _, sc := range scalesFor(s.Units) {
		need := projection{scale: sc.n}.extent(plan, figures)
		var fit []arrangement
		for i := range frames {
			for _, a := range arrangements(&frames[i]) {
				if need.W() <= a.room().W() && need.H() <= a.room().H() {
					fit = append(fit, a)
				}
			}
		}
		if len(fit) == 0 {
			continue
		}
		p := &planSheet{scale: sc}
		p.choose(s, plan, cautions, fit)
		p.at = projection{scale: sc.n, world: geom.Point{}, at: p.room().Mid().Sub(need.Mid())}
		p.draw(s, plan, cautions, figures)
		p.digest = digestOf(s, plan, sc, figures)
		return p, nil
	}
	last := scalesFor(s.Units)
	return nil, fmt.Errorf("%s does not fit %s at %s, the smallest scale", s.Name, frames[0].paper, last[len(last)-1].text)
}

// room is what the plan may take: the plan's box without the check bars along its left and its lower edge.
func (a *arrangement) room() geom.Rect {
	r := a.plan
	r.Min = r.Min.Add(geom.Point{X: barRoom, Y: barRoom})
	r.Max = r.Max.Sub(geom.Point{X: gap, Y: gap})
	return r
}

// beside returns the blocks beside the plan; more says that not all cautions are among them.
func (p *planSheet) beside(s *set.Set, plan *drawing.Drawing, cautions []caution.Caution, height float64, more bool, unsaid int) []block {
	out := []block{
		barBlock(p.scale, s.Units),
		legendBlock(view.Legend(plan), height),
		notesBlock(notes(s, unsaid), height),
	}
	if len(cautions) > 0 {
		out = append(out, deferBlock(more, height))
		for _, c := range cautions {
			out = append(out, cautionBlock(c, height))
		}
	}
	return out
}

// choose takes the arrangement in which everything stands beside the plan, in the larger lettering if it may be; otherwise
// the one that has most of it.
func (p *planSheet) choose(s *set.Set, plan *drawing.Drawing, cautions []caution.Caution, fit []arrangement) {
	most := -1
	for _, h := range lettersTried {
		for _, a := range fit {
			all := p.beside(s, plan, cautions, h, true, 1)
			if n := flow(all, a.columns, nil); n > most {
				most, p.arrangement = n, a
			}
			if most == len(all) {
				return
			}
		}
	}
}

func (p *planSheet) draw(s *set.Set, plan *drawing.Drawing, cautions []caution.Caution, figures measure) {
	pg := &tiling.Page{}
	pg.Reset()
	p.page = pg
	p.at.lines(pg, plan)
	notes := &pg.Layers[drawing.Notes]
	for i := range plan.Texts {
		if t := &plan.Texts[i]; !movable(t) {
			notes.Texts = append(notes.Texts, tiling.PlaceText(t, p.at.to(t.At)))
		}
	}
	unsaid := 0
	for i := range plan.Dimensions {
		c := p.at.dimension(&plan.Dimensions[i], figures)
		for _, l := range c.lines {
			notes.Polyline(pg, tiling.Thin, false, l[0], l[1])
		}
		notes.Texts = append(notes.Texts, c.texts...)
		unsaid += c.unsaid
	}
	p.bars(s)
	p.trial(s)
	f := newField(p.plan)
	f.page(pg)
	for _, g := range p.at.groups(plan) {
		if !g.put(pg, f) {
			unsaid++
		}
	}
	p.sideNotes(s, plan, cautions, unsaid)
}

// sideNotes draws what stands beside the plan and keeps the cautions that found no room.
func (p *planSheet) sideNotes(s *set.Set, plan *drawing.Drawing, cautions []caution.Caution, unsaid int) {
	for i, h := range lettersTried {
		for _, more := range [2]bool{false, true} {
			blocks := p.beside(s, plan, cautions, h, more, unsaid)
			n := flow(blocks, p.columns, nil)
			last := i == len(lettersTried)-1 && more
			if n < len(blocks) && !last {
				continue
			}
			flow(blocks[:n], p.columns, p.page)
			if left := len(blocks) - n; left > 0 {
				p.unsaid = cautions[max(0, len(cautions)-left):]
			}
			return
		}
	}
}

// bars proves the scale in both directions: 100 mm, or 4 inches for a set in feet; half of it on a small sheet.
func (p *planSheet) bars(s *set.Set) {
	length, words := 100.0, "100 mm"
	if s.Units.Imperial() {
		length, words = 4*25.4, `4"`
	}
	if min(p.plan.W(), p.plan.H()) < length+barRoom+gap {
		length /= 2
		words = "50 mm"
		if s.Units.Imperial() {
			words = `2"`
		}
	}
	for _, upright := range [2]bool{false, true} {
		f := &tiling.Form{}
		tiling.CheckBar(&f.Content, length, upright, words+" on this paper")
		at := p.plan.Min.Add(geom.Point{X: barRoom, Y: 3.5})
		if upright {
			at = p.plan.Min.Add(geom.Point{X: tiling.BarBreadth - 1, Y: barRoom})
		}
		c := &p.page.Layers[drawing.Registration]
		for _, k := range f.Strokes {
			for _, r := range k.Runs {
				for i := range r.Points {
					r.Points[i] = r.Points[i].Add(at)
				}
				c.Stroke(k.Pen).Runs = append(c.Stroke(k.Pen).Runs, r)
			}
		}
		for _, t := range f.Texts {
			t.At = t.At.Add(at)
			c.Texts = append(c.Texts, t)
		}
	}
}

// trial says at the plan's head that this is no issue, and which values were changed for it.
func (p *planSheet) trial(s *set.Set) {
	if issueOf(s) != "TRIAL" {
		return
	}
	c := &p.page.Layers[drawing.Furniture]
	at := geom.Point{X: p.plan.Min.X + gap, Y: p.plan.Max.Y - gap - drawing.Lettering10}
	c.Write(at, drawing.Lettering10, true, "TRIAL")
	for i, w := range s.With {
		c.Write(geom.Point{X: at.X, Y: at.Y - float64(i+1)*drawing.Lettering3_5*1.6}, drawing.Lettering3_5, false, w)
	}
}

// digestOf is of the plan's lines and words in the set's millimetres; names, and where labels found room, are not in it.
func digestOf(s *set.Set, plan *drawing.Drawing, sc scale, figures measure) [32]byte {
	var d tiling.Digester
	d.Reset(plan.View, sc.text, s.Sides, plan.Bounds())
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
		c := j.dimension(&plan.Dimensions[i], figures)
		for k := range c.texts {
			d.Word(plan.Dimensions[i].Mark, &c.texts[k])
		}
	}
	return d.Sum()
}
