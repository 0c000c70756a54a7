package view

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// wallTraces is the strip that a flat stands on: broken where an opening comes down to the floor, whose head is dashed
// across; the jambs of an opening further up are dashed through the thickness. A flat without a thickness is its face's
// line.
func wallTraces(s *set.Flat) []trace {
	w := wallPlan{flat: s, line: geom.NewRuler(s.FaceLine()), thick: s.Thickness > geom.Tolerance}
	openings := slices.Clone(s.Openings)
	slices.SortStableFunc(openings, func(a, b set.Opening) int { return cmp.Compare(a.At, b.At) })
	from := 0.0
	for _, o := range openings {
		near, far := o.At, o.At+o.Width
		if o.Sill > geom.Tolerance {
			w.jamb(near)
			w.jamb(far)
			continue
		}
		w.stands(from, near)
		w.opens(max(near, from), far)
		from = max(from, far)
	}
	w.stands(from, s.Length)
	return w.traces
}

// wallPlan gathers what a flat draws on the plan, in its own axes.
type wallPlan struct {
	flat   *set.Flat
	line   *geom.Ruler
	thick  bool
	traces []trace
}

// stands adds the strip between two places along the face.
func (w *wallPlan) stands(from, to float64) {
	if to-from <= geom.Tolerance {
		return
	}
	if !w.thick {
		w.traces = append(w.traces, trace{w.line.Part(from, to), strip})
		return
	}
	if p, err := w.flat.Strip(from, to); err == nil {
		w.traces = append(w.traces, trace{p, strip})
	}
}

// opens adds the head of an opening that comes down to the floor.
func (w *wallPlan) opens(near, far float64) {
	if far-near <= geom.Tolerance {
		return
	}
	face := w.line.Part(near, far)
	w.traces = append(w.traces, trace{face, covered})
	if !w.thick {
		return
	}
	if back, err := geom.Parallel(face, w.flat.Behind()); err == nil {
		w.traces = append(w.traces, trace{back, covered})
	}
}

// jamb adds the side of an opening further up.
func (w *wallPlan) jamb(at float64) {
	if w.thick {
		p, ahead := w.line.At(at)
		w.traces = append(w.traces, trace{polyline(p, p.Add(ahead.Left().Mul(w.flat.Behind()))), covered})
	}
}

// curvedLabels names the ends of a curved flat's foot and says on which side its face is.
func (b *builder) curvedLabels(m geom.Isometry, f *set.Flat, title, height string) {
	line := geom.NewRuler(f.Line)
	beside := func(along, off float64) geom.Point {
		p, ahead := line.At(along)
		if f.FaceLeft {
			off = -off
		}
		return m.Apply(p.Add(ahead.Left().Mul(off))) // off goes behind the face
	}
	mid, end := f.Length/2, min(inset/2, f.Length/4)
	b.stack(beside(mid, -inset/2), word("FACE", drawing.Lettering5))
	b.stack(beside(mid, f.Thickness+inset/2), name(title, drawing.Lettering7), word(height, drawing.Lettering5))
	b.stack(beside(end, -inset/2), word("P", drawing.Lettering7))
	b.stack(beside(f.Length-end, -inset/2), word("Q", drawing.Lettering7))
}

// developed adds to a curved flat's face, laid flat, where the pieces of its line meet, and at the head how each of them
// turns: towards who looks at the face, or away. x is turned over by turn where the face is left.
func (b *builder) developed(s *set.Set, f *set.Flat, turn geom.Isometry) {
	for _, x := range f.Joints() {
		for _, z := range uncut(f, x) {
			b.stroke(polyline(turn.Apply(geom.Point{X: x, Y: z[0]}), turn.Apply(geom.Point{X: x, Y: z[1]})), boarding)
		}
	}
	b.corners(f, turn)
	from := 0.0
	for _, g := range f.Line.Segments() {
		to := from + g.Length()
		b.stack(turn.Apply(geom.Point{X: (from + to) / 2, Y: f.Height - min(inset/2, f.Height/4)}), word(bend(s, f, g), drawing.Lettering3_5))
		from = to
	}
}

// corners writes beside the lines of a developed face by how much the face turns there, where it does.
func (b *builder) corners(f *set.Flat, turn geom.Isometry) {
	var before geom.Segment
	from := 0.0
	for i, g := range f.Line.Segments() {
		if i > 0 {
			in, out := before.Tangent(1), g.Tangent(0)
			by := math.Atan2(in.Cross(out), in.Dot(out)) * 180 / math.Pi
			way := "away from you"
			if by < 0 != f.FaceLeft { // the face lies on the inside of the turn
				way = "towards you"
			}
			if by, whole := math.Abs(by), uncut(f, from); by >= leastTurn && len(whole) > 0 {
				t := word("corner, turns "+unit.FormatNumber(by, 0.1)+"° "+way, drawing.Lettering3_5)
				t.At, t.Turn, t.Align, t.Offset = turn.Apply(geom.Point{X: from, Y: whole[0][0] + 10}), 90, drawing.AlignLeft, geom.Point{Y: -6}
				b.text(t)
			}
		}
		before, from = g, from+g.Length()
	}
}

// leastTurn is the turn in degrees from which a place where two pieces meet is called a corner.
const leastTurn = 0.1

// bend says how a piece of a face's line runs, as one sees it who looks at the face.
func bend(s *set.Set, f *set.Flat, g geom.Segment) string {
	hollow := g.Sweep < 0 != f.FaceLeft // the face is on the inside of the turn
	way := "bulging"
	if hollow {
		way = "hollow"
	}
	switch g.Kind {
	case geom.Line:
		return "straight"
	case geom.Arc:
		return way + ", face radius " + figure(s, g.RX)
	case geom.EllipticalArc:
		return way + ", elliptical"
	}
	return "curve"
}

// uncut returns the stretches of height at x along a flat's face that no opening takes, from the foot up.
func uncut(f *set.Flat, x float64) [][2]float64 {
	var through []set.Opening
	for _, o := range f.Openings {
		if x > o.At+geom.Tolerance && x < o.At+o.Width-geom.Tolerance {
			through = append(through, o)
		}
	}
	slices.SortFunc(through, func(a, b set.Opening) int { return cmp.Compare(a.Sill, b.Sill) })
	var out [][2]float64
	z := 0.0
	for _, o := range through {
		if o.Sill > z+geom.Tolerance {
			out = append(out, [2]float64{z, o.Sill})
		}
		z = max(z, headAt(o, x))
	}
	if f.Height > z+geom.Tolerance {
		out = append(out, [2]float64{z, f.Height})
	}
	return out
}

// headAt returns the height of an opening's head at x along the face.
func headAt(o set.Opening, x float64) float64 {
	top := o.Sill + o.Height
	if o.Arch <= geom.Tolerance {
		return top
	}
	// Halving between the springing, which is inside, and the crown's height finds the head.
	lo, hi := top-o.Arch, top
	edge := o.Path()
	for range 50 {
		mid := (lo + hi) / 2
		if edge.Contains(geom.Point{X: x, Y: mid}) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
