package view

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// Pens of what is cut on full-size paper.
var (
	cut      = pen{drawing.Cut, drawing.Continuous, drawing.WideLine, drawing.Black}
	boarding = pen{drawing.Notes, drawing.Continuous, drawing.NarrowLine, drawing.Black}
)

// dressedFace is Face, before it is said how the pattern is laid.
func dressedFace(s *set.Set, e *set.Element) *drawing.Drawing {
	d := &drawing.Drawing{View: "face", Name: e.Name, Title: e.Name + ", face"}
	b := newBuilder(d)
	b.own(e)
	switch sh := e.Shape.(type) {
	case *set.Figure:
		return figureFace(s, e, sh, false)
	case *set.Cloth:
		return Cloth(s, e, nil)
	case *set.Flat:
		d.Datum.Says = "along from P, up from the foot"
		b.flatFace(s, sh)
	case *set.Panel:
		b.panelFace(sh)
		if sh.Stands {
			d.Hold = "seen from the front, P at the left, foot at the bottom"
			d.Datum.Says = "along from P, up from the foot"
			b.ends(0, sh.Run)
		} else {
			d.Hold = "seen from above, front edge at the bottom"
			d.Datum.Says = "from the piece's own 0,0"
			d.Datum.XPlus, d.Datum.XMinus = "right", "left"
			d.Datum.YPlus, d.Datum.YMinus = "up", "down"
		}
	default:
		return nil
	}
	b.title(d.Bounds(), e.Name)
	return d
}

func (b *builder) flatFace(s *set.Set, f *set.Flat) {
	outer, holes := f.CutFace()
	turn := geom.Isometry{A: 1, D: 1}
	hold, p := "seen from the front", "left"
	if f.Line != nil {
		hold = "laid flat, seen from the front"
	}
	if f.FaceLeft {
		turn.A, p = -1, "right"
	}
	b.d.Hold = hold + ", P at the " + p + ", foot at the bottom"
	b.stroke(outer.Transform(turn), cut)
	for _, h := range holes {
		b.stroke(h.Transform(turn), cut)
	}
	if f.Line != nil {
		b.developed(s, f, turn)
	}
	for _, o := range f.Openings {
		at := turn.Apply(geom.Point{X: o.At + o.Width/2, Y: o.Sill + o.Height/2})
		title := o.Word
		if o.Name != "" {
			title += " " + o.Name
		}
		sill, opens := "", ""
		if o.Sill > geom.Tolerance {
			sill = "sill " + level(s, o.Sill)
		}
		if o.Hinge != "" {
			opens = "hinge " + o.Hinge
		}
		if o.Opens != "" {
			opens = joined(opens, "opens "+o.Opens)
		}
		b.stack(at, word(title, drawing.Lettering7), word(sill, drawing.Lettering5), word(opens, drawing.Lettering5))
	}
	b.ends(0, turn.A*f.Length)
}

func (b *builder) panelFace(p *set.Panel) {
	b.stroke(p.Outline.Path, cut)
	for _, h := range p.Holes {
		b.stroke(h.Path, cut)
	}
}

// ends writes P and Q inside the lower corners of a face.
func (b *builder) ends(p, q float64) {
	in := inset / 2
	if q < p {
		in = -in
	}
	b.stack(geom.Point{X: p + in, Y: inset / 2}, word("P", drawing.Lettering7))
	b.stack(geom.Point{X: q - in, Y: inset / 2}, word("Q", drawing.Lettering7))
}

// title names a piece near its foot.
func (b *builder) title(box geom.Rect, s string) {
	b.stack(geom.Point{X: box.Mid().X, Y: box.Min.Y + min(inset, box.H()/4)}, name(s, drawing.Lettering7))
}

// joined puts a comma between two texts where there are two.
func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}
