package develop

import (
	"fmt"
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// Person is a figure to stand on a model and judge it by. Lengths are millimetres in life but for those of its outline.
//
// Sources: ANSUR II, the anthropometric survey of 2012, public data, 50th percentiles of 4082 men and 1986 women, without
// shoes (standing eye height is stature − sitting height + eye height sitting); CDC growth charts 2000, stature for age,
// boys of 96.5 months, median. What no source gives (the eye height and the shoulders of a child, and everything that is
// only drawn) is common practice, no source.
type Person struct {
	Name            string  // "man 1755": what stands there and how tall it is
	Height          float64 // of the drawn figure over the floor
	Stature         float64 // standing
	EyeHeight       float64 // over the floor; 0 where no source gives it
	ShoulderHeight  float64 // acromial, over the floor; 0 where no source gives it
	ShoulderBreadth float64 // 0 where no source gives it, or seen from the side
	Source          string

	// At the scale, x to the right, y up from the soles at 0: what is cut without its foot.
	Outline *geom.Path
	Soles   []Line // that stand on the floor
	Eyes    geom.Point
}

// build is what a standing figure is drawn by.
type build struct {
	stature, eyes, shoulders, breadth float64
	heads                             float64 // how many heads it is tall
	waist, hips                       float64 // of half the breadth
}

var (
	man   = build{stature: 1755, eyes: 1640, shoulders: 1439, breadth: 509, heads: 7.5, waist: 0.6, hips: 0.68}
	woman = build{stature: 1626, eyes: 1517, shoulders: 1332, breadth: 450, heads: 7.4, waist: 0.55, hips: 0.74}
	child = build{stature: 1281, eyes: 1165, shoulders: 1020, breadth: 310, heads: 6.2, waist: 0.66, hips: 0.72}
)

// What a figure that sits is drawn by, ANSUR II, men, 50th percentiles; it sits on a seat as high as the hollow of its knee.
const (
	seatHeight    = 430
	sittingHeight = 918
	eyesSitting   = 804
	kneeHeight    = 553
	footLength    = 271
)

const (
	ansur = "ANSUR II 2012, 50th percentile"
	cdc   = "CDC growth charts 2000, boys of 8 years, median"
)

// People returns the figures at a scale's denominator: a man, a woman and a child of eight that stand, seen from the
// front, and a man who sits, seen from his left. There are none where the scale is not more than 0.
func People(scale float64) []Person {
	if !(scale > 0) || math.IsInf(scale, 0) {
		return nil
	}
	var out []Person
	for _, p := range []struct {
		name   string
		build  build
		source string
	}{{"man", man, ansur}, {"woman", woman, ansur}, {"child", child, cdc}} {
		b := p.build
		out = append(out, Person{
			Name: fmt.Sprintf("%s %.0f", p.name, b.stature), Height: b.stature, Stature: b.stature, EyeHeight: b.eyes,
			ShoulderHeight: b.shoulders, ShoulderBreadth: b.breadth, Source: p.source,
			Outline: scaled(b.outline(armsApart/scale >= 2*least), 1/scale), Soles: scaledLines(b.soles(), 1/scale), Eyes: geom.Point{Y: b.eyes / scale},
		})
	}
	out[2].EyeHeight, out[2].ShoulderHeight, out[2].ShoulderBreadth = 0, 0, 0
	const sits = seatHeight + sittingHeight
	return append(out, Person{
		Name: fmt.Sprintf("seated man %d", sits), Height: sits, Stature: man.stature, EyeHeight: seatHeight + eyesSitting, Source: ansur,
		Outline: scaled(seated(), 1/scale), Soles: []Line{{geom.Point{X: heel / scale}, geom.Point{X: (heel + footLength) / scale}}},
		Eyes: geom.Point{X: 265 / scale, Y: (seatHeight + eyesSitting) / scale},
	})
}

func scaledLines(lines []Line, k float64) []Line {
	out := make([]Line, len(lines))
	for i, l := range lines {
		out[i] = Line{l.From.Mul(k), l.To.Mul(k)}
	}
	return out
}

// PeoplePieces returns the figures as pieces of the element "people", each with a foot below its soles that is half-cut on
// the printed side, folded back and glued to the model. Figures less than 5 mm tall are left out.
func PeoplePieces(scale float64, card set.Card, outside bool) []Piece {
	var out []Piece
	for _, p := range People(scale) {
		if p.Height/scale < 10*least {
			continue
		}
		k := work{card: card}
		d := draft{Piece: Piece{Name: p.Name}}
		d.Outline = p.withFoot()
		for _, l := range p.Soles {
			d.Folds = append(d.Folds, Fold{Line: l, Angle: 90, Away: true, Front: true})
		}
		d.body.frame = geom.Frame{R: [3][3]float64{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}}}
		piece := k.settle(d, outside)
		piece.Element = "people"
		out = append(out, piece)
	}
	for i := range out {
		out[i].Number, out[i].Of = i+1, len(out)
	}
	return out
}

// footDeep is how deep the foot of a figure is, of the figure's height (common practice, no source).
const footDeep = 0.12

// withFoot is what is cut: the figure, its soles joined by a foot below them, and what is then closed between its legs.
func (p *Person) withFoot() geom.Region {
	first, last := p.Soles[0], p.Soles[len(p.Soles)-1]
	var r geom.Region
	r.Outer = p.between(last.To, first.From)
	deep := footDeep * p.Outline.Bounds().H()
	in := min(deep/4, (last.To.X-first.From.X)/8)
	r.Outer.LineTo(geom.Point{X: first.From.X + in, Y: -deep})
	r.Outer.LineTo(geom.Point{X: last.To.X - in, Y: -deep})
	r.Outer.Close()
	if len(p.Soles) > 1 {
		legs := p.between(first.To, last.From)
		legs.Close()
		r.Holes = []*geom.Path{legs}
	}
	return r
}

// between is the part of the outline from one of its corners on to another.
func (p *Person) between(from, to geom.Point) *geom.Path {
	out := &geom.Path{}
	n, on := p.Outline.Len(), false
	for i := range 2 * n {
		s := p.Outline.Segment(i % n)
		on = on || s.From.Near(from)
		if on {
			out.Append(s)
			if s.To.Near(to) {
				break
			}
		}
	}
	return out
}
