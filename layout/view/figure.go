package view

import (
	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
)

// FigureFaces returns the full-size paper of a cut-out's face: face and, of one with both sides, back where its face is wanted
// full size; the head alone, and its back, where that is asked for. It returns nil of any other piece.
func FigureFaces(s *set.Set, e *set.Element) []*drawing.Drawing {
	f, ok := e.Shape.(*set.Figure)
	if !ok {
		return nil
	}
	var out []*drawing.Drawing
	for _, behind := range []bool{false, true}[:sidesOf(f)] {
		if wants(e, "face") {
			out = append(out, figureFace(s, e, f, behind))
		}
	}
	for _, behind := range []bool{false, true}[:sidesOf(f)] {
		if d := figureHead(s, e, f, behind); d != nil {
			out = append(out, d)
		}
	}
	return out
}

func sidesOf(f *set.Figure) int {
	if f.BothSides {
		return 2
	}
	return 1
}

// figurePaper draws the face of one cut-out, or what is seen of it from behind: x is then turned over.
type figurePaper struct {
	*builder
	s      *set.Set
	f      *set.Figure
	behind bool
	// offFloor says that the figure's own z 0 is not the floor.
	offFloor bool
	turn     geom.Isometry // the figure's face to the paper
	words    *clearing     // where words cover nothing of the figure
}

func newFigurePaper(s *set.Set, e *set.Element, f *set.Figure, view string, behind bool) *figurePaper {
	d := &drawing.Drawing{View: view, Name: e.Name, Title: e.Name + ", " + view}
	d.Hold = "seen from the front"
	d.Datum = drawing.Datum{XPlus: "right", XMinus: "left", Says: "from the figure's middle, up from the floor"}
	p := &figurePaper{builder: newBuilder(d), s: s, f: f, behind: behind, turn: geom.Isometry{A: 1, D: 1}}
	if behind {
		d.View, d.Hold, p.turn.A = "back", "seen from behind, mirrored to lie on the front's cut-out", -1
		d.Title = e.Name + ", back"
		if view == "head" {
			d.View, d.Title = "head back", e.Name+", back of the head"
		}
	}
	if f.Hung {
		d.Hold += ", drawn as it hangs, upside down: turned, not mirrored"
		switch above := figures.Above(s, e); {
		case f.Ground <= geom.Tolerance:
			d.Datum.Says = "from the figure's middle, up from its lowest point"
		case above > geom.Tolerance:
			d.Datum.Says = "from the figure's middle, up from " + figure(s, above) + " above the floor"
			p.offFloor = true
		}
	} else {
		d.Hold += ", floor at the bottom"
	}
	p.own(e)
	return p
}

// figureFace draws the figure as it is cut: its artwork, the cut over it, the eye line, the floor, and in words what it is and
// how it is held.
func figureFace(s *set.Set, e *set.Element, f *set.Figure, behind bool) *drawing.Drawing {
	p := newFigurePaper(s, e, f, "face", behind)
	box := f.Box()
	if box.Empty() {
		return p.d
	}
	p.outlines(f.Bodies)
	p.shown(box)
	p.eyeLine(box, false)
	p.floorLine()
	p.label(e)
	return p.d
}

// figureHead draws the head alone, with the middle of its pole; nil where none is asked for.
func figureHead(s *set.Set, e *set.Element, f *set.Figure, behind bool) *drawing.Drawing {
	h, err := figures.HeadOf(f, figures.Above(s, e))
	if h == nil && err == nil {
		return nil
	}
	p := newFigurePaper(s, e, f, "head", behind)
	if err != nil { // boundaries that lie too near each other to be told apart: the saw parts them
		p.outlines(f.Bodies)
		p.label(e, word("the head could not be parted from the figure: cut it off "+figure(s, f.Head)+" below the crown", drawing.Lettering7))
		return p.d
	}
	box := h.Region.Bounds()
	p.outlines([]geom.Region{h.Region})
	p.shown(box)
	p.eyeLine(box, true)
	p.headWords(e, h, p.pole(h))
	return p.d
}

// artLayer is the layer that artwork belongs to; a page paints artwork beneath all its layers.
const artLayer = drawing.Notes

// shown lays the artwork under the box of what is cut.
func (p *figurePaper) shown(box geom.Rect) {
	if p.f.Art == nil || p.f.Art.Picture == nil {
		return
	}
	frame := p.f.Frame
	if p.behind {
		frame = frame.Then(artwork.Matrix{A: -1, D: 1})
	}
	p.d.Pictures = append(p.d.Pictures, drawing.Picture{
		Mark:    drawing.Mark{Layer: artLayer, Role: drawing.Shape, Owner: p.owner},
		Picture: p.f.Art.Picture, Frame: frame, Shown: p.turned(box), Over: p.words.boxes(),
	})
}

// outlines draws what the saw follows.
func (p *figurePaper) outlines(bodies []geom.Region) {
	var lines []geom.Region
	for _, r := range bodies {
		r = r.Transform(p.turn)
		lines = append(lines, r)
		p.stroke(r.Outer, cut)
		for _, h := range r.Holes {
			p.stroke(h, cut)
		}
	}
	p.words = newClearing(lines)
}

// turned returns a box of the face as it lies on the paper.
func (p *figurePaper) turned(b geom.Rect) geom.Rect {
	return geom.EmptyRect().Include(p.turn.Apply(b.Min)).Include(p.turn.Apply(b.Max))
}

// Lengths of thin lines on the paper of a figure, millimetres.
const (
	eyeBeyond  = 60  // of the eye line beyond the figure
	headBeyond = 12  // and beyond a head alone
	floorNear  = 300 // air under a figure up to which its floor line is drawn; more is said in words
)

// eyeLine draws the eye line over the figure's width there and a little beyond, to the right as far as its words. Beside a head
// alone it is short, so that a head needs no more paper than it must, and its words stand with the others.
func (p *figurePaper) eyeLine(box geom.Rect, alone bool) {
	z, ok := p.f.EyeLine()
	if !ok || z < box.Min.Y || z > box.Max.Y {
		return
	}
	from, to, ok := p.f.Across(z)
	if !ok {
		from, to = box.Min.X, box.Max.X
	}
	over := p.turned(geom.Rect{Min: geom.Point{X: from, Y: z}, Max: geom.Point{X: to, Y: z}})
	if alone {
		p.stroke(polyline(over.Min.Sub(geom.Point{X: headBeyond}), over.Max.Add(geom.Point{X: headBeyond})), thin)
		return
	}
	t := word(p.eyeWords(), drawing.Lettering5)
	a := over.Min.Sub(geom.Point{X: eyeBeyond})
	b := over.Max.Add(geom.Point{X: max(eyeBeyond, p.f.Margin+lettering.Width(t.Text, t.Height, t.Bold)+3*keepOff)})
	p.stroke(polyline(a, b), thin)
	t.At, t.Align, t.Offset = b, drawing.AlignRight, geom.Point{Y: 2}
	p.text(t)
}

// floorLine draws the floor that the figure stands on, as wide as what of it is near.
func (p *figurePaper) floorLine() {
	f := p.f
	if f.Ground > floorNear || p.offFloor || f.Hung && f.Ground <= geom.Tolerance {
		return
	}
	near := geom.EmptyRect()
	for _, r := range f.Bodies {
		for _, q := range r.Outer.Flatten(1, nil) {
			if q.Y <= f.Ground+floorNear {
				near = near.Include(p.turn.Apply(q))
			}
		}
	}
	if near.Empty() {
		return
	}
	p.stroke(polyline(geom.Point{X: near.Min.X}, geom.Point{X: near.Max.X}), thin)
	if f.Ground <= geom.Tolerance {
		return // the figure stands on the line, and a word would lie on its feet
	}
	t := word("floor, "+figure(p.s, f.Ground)+" under it", drawing.Lettering5)
	t.At, t.Align, t.Offset = geom.Point{X: near.Min.X}, drawing.AlignLeft, geom.Point{Y: 2}
	p.text(t)
}

// poleOut is how far the middle of a pole is drawn below its head, for the words beside it.
const poleOut = 90.0

// pole draws the middle of the pole behind a head and a little below, and returns the lower end of what is drawn.
func (p *figurePaper) pole(h *figures.Head) geom.Point {
	low := p.turn.Apply(geom.Point{X: h.Pole.X, Y: h.Pole.Top - h.Pole.Behind - poleOut})
	p.stroke(polyline(low, p.turn.Apply(geom.Point{X: h.Pole.X, Y: h.Pole.Top})), poleMiddle)
	return low
}

var poleMiddle = pen{drawing.Notes, drawing.LongDashDot, drawing.NarrowLine, drawing.Black}
