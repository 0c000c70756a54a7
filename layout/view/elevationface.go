package view

import (
	"math"
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// flat draws the face with its openings; a curved one laid flat.
func (v *elevator) flat(f *set.Flat) Elevation {
	if f.FaceLeft { // P is then at the right of who looks at the face
		v.turn.A = -v.turn.A
	}
	// An opening that comes down to the foot is a closed outline too, so that its words find their room in it.
	cuts := []*geom.Path{box(0, 0, f.Length, f.Height).Transform(v.turn)}
	for _, o := range f.Openings {
		cuts = append(cuts, o.Path().Transform(v.turn))
	}
	for _, c := range cuts {
		v.stroke(c, seenEdge)
	}
	v.width(0, 0)
	v.width(f.Length, 0)
	right := f.Length // what lies at the right of the paper
	if v.turn.A < 0 {
		right = 0
	}
	v.height(right, 0)
	v.height(right, f.Height)
	v.end("P", 0, v.turn.A < 0)
	v.end("Q", f.Length, v.turn.A > 0)
	for _, o := range f.Openings {
		v.opening(o)
	}
	v.arcs(cuts...)
	v.face(f.Length, f.Height)
	if f.Line != nil {
		v.laidFlat(f)
	}
	v.thick("The flat is", f.Thickness)
	return v.done()
}

// face writes which side of the piece is seen, above it.
func (v *elevator) face(width, high float64) {
	side := "FRONT"
	if v.behind {
		side = "BACK"
	}
	t := word(side, drawing.Lettering3_5)
	t.At, t.Align, t.Offset = v.at(width/2, high), drawing.AlignCentre, geom.Point{Y: 2}
	v.text(t)
	title := name(v.e.Name, drawing.Lettering5)
	title.At, title.Align, title.Offset = t.At, drawing.AlignCentre, geom.Point{Y: 8}
	v.text(title)
}

// opening dimensions one opening and says what it is.
func (v *elevator) opening(o set.Opening) {
	top := o.Sill + o.Height
	right := o.At + o.Width
	if v.turn.A < 0 {
		right = o.At
	}
	v.width(o.At, o.Sill)
	v.width(o.At+o.Width, o.Sill)
	if o.Sill > geom.Tolerance {
		v.height(right, o.Sill)
	}
	v.height(right, top-min(o.Arch, o.Height))
	if o.Arch > geom.Tolerance {
		v.height(o.At+o.Width/2, top)
	}
	title := o.Word
	if o.Name != "" {
		title += " " + o.Name
	}
	sill := "sill at the foot"
	if o.Sill > geom.Tolerance {
		sill = "sill " + level(v.s, o.Sill)
	}
	arch := ""
	if o.Arch > geom.Tolerance {
		arch = "springs at " + level(v.s, top-o.Arch)
	}
	hinge, opens := v.swing(o)
	v.stack(v.at(o.At+o.Width/2, o.Sill+o.Height/2),
		word(title, drawing.Lettering3_5), word(figure(v.s, o.Width)+" x "+figure(v.s, o.Height), drawing.Lettering2_5),
		word("head "+level(v.s, top), drawing.Lettering2_5), word(arch, drawing.Lettering2_5), word(sill, drawing.Lettering2_5),
		word(hinge, drawing.Lettering2_5), word(opens, drawing.Lettering2_5))
	if o.Arch > o.Width/2+geom.Tolerance {
		v.say("The head of the " + title + " is half an ellipse, " + figure(v.s, o.Width) + " wide, rise " + figure(v.s, o.Arch) + ".")
	}
}

// swing says on which side an opening is hung, as the view shows it, and how it opens on the plan: two short lines, as doors are narrow.
func (v *elevator) swing(o set.Opening) (hinge, opens string) {
	if o.Hinge != "" {
		hinge = "hinge " + o.Hinge
		if v.behind {
			hinge = "hinge " + map[string]string{"left": "right", "right": "left"}[o.Hinge]
		}
	}
	if o.Opens != "" {
		opens = "opens " + o.Opens + " on plan"
	}
	return hinge, opens
}

// laidFlat says of a curved flat that it is drawn in its true length, where its pieces meet and how each runs on the plan.
func (v *elevator) laidFlat(f *set.Flat) {
	v.say("LAID FLAT: a curved flat in its true length along the face; lengths are measured along the face.")
	for _, x := range f.Joints() {
		for _, z := range uncut(f, x) {
			v.stroke(polyline(v.at(x, z[0]), v.at(x, z[1])), seenThin)
		}
		v.width(x, f.Height)
	}
	from := 0.0
	for _, g := range f.Line.Segments() {
		to := from + g.Length()
		says := "From " + figure(v.s, from) + " to " + figure(v.s, to) + " from P: " + bend(v.s, f, g)
		if g.Kind == geom.Arc {
			chord, rise := chordRise(g)
			says += ", chord " + figure(v.s, chord) + ", rise " + figure(v.s, rise) +
				", centre square off the middle of the chord, " + figure(v.s, math.Abs(g.RX-rise)) + " from it"
		}
		v.say(says + ".")
		from = to
	}
	v.corners(f, v.turn)
}

// figure draws a cut-out's outline, the line alone.
func (v *elevator) figure(f *set.Figure) Elevation {
	for _, r := range f.Bodies {
		r = r.Transform(v.turn)
		v.stroke(r.Outer, seenEdge)
		for _, h := range r.Holes {
			v.stroke(h, seenEdge)
		}
	}
	b := f.Box()
	right := b.Max.X
	if v.turn.A < 0 {
		right = b.Min.X
	}
	v.width(b.Min.X, b.Min.Y)
	v.width(b.Max.X, b.Min.Y)
	v.height(right, 0)
	v.height(right, b.Min.Y)
	v.height(right, b.Max.Y)
	if z, ok := f.EyeLine(); ok && z > b.Min.Y && z < b.Max.Y {
		from, to, across := f.Across(z)
		if !across {
			from, to = b.Min.X, b.Max.X
		}
		over := b.W() * 0.05
		v.stroke(polyline(v.at(from-over, z), v.at(to+over, z)), eyeLine)
		v.height(right, z)
		v.say("Eye line " + level(v.s, z) + ".")
	}
	v.face(0, b.Max.Y)
	if f.Margin > geom.Tolerance {
		v.say("The cut goes " + figure(v.s, f.Margin) + " outside the drawn figure.")
	}
	if f.Hung {
		v.say("HUNG upside down, drawn as it hangs: turned, not mirrored.")
	}
	if l := looks(f, v.behind); l != "" {
		v.say("As drawn here: " + l + ".")
	}
	if f.Brace {
		v.say("It has a brace behind: its side is on the full-size paper and in the cutting list where those are asked for.")
	}
	v.thick("The board is", f.Thickness)
	return v.done()
}

// panel draws a standing shape: a ground row, a set piece.
func (v *elevator) panel(p *set.Panel) Elevation {
	outer := p.Outline.Path.Transform(v.turn)
	cuts := []*geom.Path{outer}
	for _, h := range p.Holes {
		cuts = append(cuts, h.Path.Transform(v.turn))
	}
	for _, c := range cuts {
		v.stroke(c, seenEdge)
	}
	b := p.Outline.Path.Bounds()
	v.extremes(outer)
	for i, h := range p.Holes {
		c := h.Path.Bounds()
		v.width(c.Min.X, c.Min.Y)
		v.width(c.Max.X, c.Min.Y)
		v.height(c.Max.X, c.Min.Y)
		v.height(c.Max.X, c.Max.Y)
		v.stack(v.at(c.Mid().X, c.Mid().Y), word("hole "+strconv.Itoa(i+1), drawing.Lettering2_5))
	}
	if straight(p.Outline.Path) {
		for _, q := range p.Outline.Path.Vertices() {
			v.width(q.X, q.Y)
			v.height(q.X, q.Y)
		}
	}
	v.end("P", b.Min.X, v.turn.A < 0)
	v.end("Q", b.Max.X, v.turn.A > 0)
	v.arcs(cuts...)
	v.face(b.Min.X+b.Max.X, b.Max.Y)
	if p.Brace {
		v.say("It has a brace behind.")
	}
	v.thick("The board is", p.Thickness)
	return v.done()
}

// mostCorners is the number of corners of a standing shape up to which each is dimensioned.
const mostCorners = 12

func straight(p *geom.Path) bool { return p.Straight() && p.Len() <= mostCorners }

// extremes dimensions how far a path on the paper reaches each way, from where it does.
func (v *elevator) extremes(p *geom.Path) {
	for _, d := range [2]geom.Point{{X: -1}, {X: 1}} {
		q := geom.RimAt(p, d)
		v.xs = insert(v.xs, place{q.X, q})
	}
	for _, d := range [2]geom.Point{{Y: -1}, {Y: 1}} {
		q := geom.RimAt(p, d)
		v.ys = insert(v.ys, place{q.Y, q})
	}
	foot := geom.Point{X: p.Bounds().Max.X}
	v.ys = insert(v.ys, place{0, foot})
}
