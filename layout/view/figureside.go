package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// figureSides returns the side of a braced cut-out as the brace is cut: x runs from the figure's back away from it, y up from the
// floor; it is seen from the right of one who looks at the face. nil of a figure without a brace.
func figureSides(s *set.Set, e *set.Element, f *set.Figure) []*drawing.Drawing {
	br := figures.BraceOf(f, s.Lengths, s.Units.Imperial())
	if br == nil {
		return nil
	}
	d := &drawing.Drawing{
		View: "side", Name: e.Name, Title: e.Name + ", brace",
		Hold:  "seen from the right as one looks at the face, the figure at the left",
		Datum: drawing.Datum{Says: "from the figure's back, up from the floor"},
	}
	b := newBuilder(d)
	b.own(e)
	b.brace(s, f, br)
	b.braceWords(s, e, f, br)
	return []*drawing.Drawing{d}
}

// brace draws the timbers as they are cut, and by thin lines the figure's board and where the weight goes.
func (b *builder) brace(s *set.Set, f *set.Figure, br *figures.Brace) {
	b.stroke(box(0, br.Deep, br.Deep, br.Upright), cut)
	b.stroke(box(0, 0, br.Foot, br.Deep), cut)
	b.stroke(geom.Polygon(br.Strut[:]), cut)
	thick := max(f.Thickness, 1)
	low := f.Box().Min.Y
	top := min(br.Upright+boardOver, f.Box().Max.Y)
	b.stroke(polyline(geom.Point{X: -thick, Y: top}, geom.Point{X: -thick, Y: low}, geom.Point{Y: low}, geom.Point{Y: top}), boarding)
	w := br.WeightAt()
	b.stroke(box(w.Min.X, w.Min.Y, w.Max.X, w.Max.Y), thinDashed)
	b.stack(w.Mid(), word("WEIGHT", drawing.Lettering5), word("on the foot", drawing.Lettering3_5))
}

// boardOver is how far over the upright the figure's board is drawn, millimetres.
const boardOver = 60

// braceWords says the sizes of the timbers, how they are cut, and what is not decided here.
func (b *builder) braceWords(s *set.Set, e *set.Element, f *set.Figure, br *figures.Brace) {
	timber := figure(s, br.Thick) + " x " + figure(s, br.Deep)
	if br.Length >= 0 {
		timber = s.Lengths[br.Length].Name + ", " + timber
	}
	along := func(from, to geom.Point, says string) {
		t := word(says, drawing.Lettering3_5)
		t.At, t.Align, t.Turn = from.Lerp(to, 0.5), drawing.AlignMiddle, degrees(to.Sub(from))
		b.text(t)
	}
	timbers := br.Timbers()
	along(geom.Point{X: br.Deep / 2, Y: br.Deep}, geom.Point{X: br.Deep / 2, Y: br.Upright}, "upright "+figure(s, timbers[0].Length))
	along(geom.Point{Y: br.Deep / 2}, geom.Point{X: br.Foot, Y: br.Deep / 2}, "foot "+figure(s, timbers[1].Length))
	up, out := br.Strut[0].Lerp(br.Strut[3], 0.5), br.Strut[1].Lerp(br.Strut[2], 0.5)
	along(up, out, "strut "+figure(s, timbers[2].Length)+" on its longer edge")
	b.braceAngles(br)

	// Between the upright, the foot and the strut, where the paper is needed anyway.
	inner := geom.Point{X: br.Deep + (br.Strut[1].X-br.Deep)*0.36, Y: br.Deep + (br.Strut[0].Y-br.Deep)*0.22}
	b.stack(inner, name(e.Name, drawing.Lettering10), word("BRACE of "+timber, drawing.Lettering7), word(places(s, br), drawing.Lettering3_5),
		word("sizes: "+figures.Practice, drawing.Lettering3_5),
		word("a tall shallow piece tips: weight the foot or fix it to the floor", drawing.Lettering3_5),
		word("check with local codes and a competent, licensed person, who decides", drawing.Lettering3_5))
	if f.Box().Max.Y > br.Upright+boardOver {
		t := word("board goes on to "+level(s, f.Box().Max.Y), drawing.Lettering3_5)
		t.At, t.Align = geom.Point{X: 8, Y: br.Upright + boardOver/2}, drawing.AlignLeft
		b.text(t)
	}
}

// braceAngles writes at the strut's ends by how much they are off square.
func (b *builder) braceAngles(br *figures.Brace) {
	at := func(p geom.Point, deg float64) {
		t := word(unit.FormatAngle(deg, 0.1)+" off square", drawing.Lettering3_5)
		t.At, t.Align = p.Add(geom.Point{X: 6, Y: 6}), drawing.AlignLeft
		b.text(t)
	}
	at(br.Strut[3], br.Slope)
	at(br.Strut[2], 90-br.Slope)
}

// places says how many braces there are and where along the face.
func places(s *set.Set, br *figures.Brace) string {
	says := "at "
	if br.Count > 1 {
		says = strconv.Itoa(br.Count) + " of them, at "
	}
	for i, x := range br.Places() {
		if i > 0 {
			says += ", "
		}
		switch {
		case x > figureStep/2:
			says += figure(s, x) + " right"
		case x < -figureStep/2:
			says += figure(s, -x) + " left"
		default:
			says += "0"
		}
	}
	return says + " from the figure's middle, seen from the front"
}
