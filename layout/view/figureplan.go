package view

import (
	"markout/layout/drawing"
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/set"
)

// figureTraces is a cut-out on the plan: the strip that it covers, a short arrow the way its face looks, and dashed the feet of
// its braces behind it.
func (z sizes) figureTraces(f *set.Figure) []trace {
	wide := f.Box()
	if wide.Empty() {
		return nil
	}
	t := []trace{
		stripOf(wide.Min.X, wide.Max.X, 0, f.Thickness),
		{z.arrowUp(geom.Point{X: wide.Mid().X}, geom.Point{X: wide.Mid().X, Y: -2 * z.head}), arrow},
	}
	if b := figures.BraceOf(f, nil, z.feet); b != nil {
		for _, x := range b.Places() {
			t = append(t, trace{box(x-b.Thick/2, f.Thickness, x+b.Thick/2, f.Thickness+b.Foot), covered})
		}
	}
	return t
}

// underside returns the height above the floor of the lowest point of e where it stands at pl: a figure may have air under it.
func underside(e *set.Element, pl set.Place) float64 {
	if f, ok := e.Shape.(*set.Figure); ok {
		return pl.Level() + f.Ground
	}
	return pl.Level()
}

// figureLabels names a cut-out on full-size paper and says on which side its face is.
func (b *builder) figureLabels(s *set.Set, m geom.Isometry, f *set.Figure, title, height string) {
	box := f.Box()
	at := func(share, y float64) geom.Point { return m.Apply(geom.Point{X: box.Min.X + share*box.W(), Y: y}) }
	air := ""
	if f.Ground > geom.Tolerance {
		air = figure(s, f.Ground) + " of air under it"
	}
	b.stack(at(0.1, -inset/2), word("P", drawing.Lettering7))
	b.stack(at(0.9, -inset/2), word("Q", drawing.Lettering7))
	b.stack(at(0.25, -inset/2), word("FACE", drawing.Lettering5))
	b.stack(at(0.25, f.Thickness+inset/2), name(title, drawing.Lettering7), word(height, drawing.Lettering5), word(air, drawing.Lettering5))
}
