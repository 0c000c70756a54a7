package sheet

import (
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// projection lays a drawing's world millimetres on paper at a scale: world falls on at.
type projection struct {
	scale     float64 // denominator
	world, at geom.Point
}

func (j projection) to(p geom.Point) geom.Point {
	return j.at.Add(p.Sub(j.world).Mul(1 / j.scale))
}

// flatness is the greatest distance in paper millimetres between a curve and the lines drawn for it.
const flatness = 0.005

// lines draws the strokes and fills.
func (j projection) lines(p *tiling.Page, d *drawing.Drawing) {
	for i := range d.Fills {
		f := &d.Fills[i]
		rings := [][]geom.Point{j.points(p, f.Region.Outer)}
		for _, h := range f.Region.Holes {
			rings = append(rings, j.points(p, h))
		}
		c := &p.Layers[f.Layer]
		c.Fills = append(c.Fills, tiling.Fill{Tone: f.Tone, Rings: rings})
	}
	for i := range d.Strokes {
		s := &d.Strokes[i]
		k := p.Layers[s.Layer].Stroke(tiling.PenOf(s.Type, s.Width, s.Tone))
		k.Runs = append(k.Runs, tiling.Run{Points: j.points(p, s.Path), Closed: s.Path.Closed()})
	}
}

func (j projection) points(p *tiling.Page, path *geom.Path) []geom.Point {
	ps := path.Flatten(flatness*j.scale, nil)
	out := p.Arena(len(ps))
	for i, q := range ps {
		out[i] = j.to(q)
	}
	return out
}

// movable reports whether a text is a label that may be moved clear of what is about it.
func movable(t *drawing.Text) bool { return t.Align == drawing.AlignMiddle && t.Turn == 0 }

// extent is the box on paper that the drawing needs at this scale, its movable labels left aside.
func (j projection) extent(d *drawing.Drawing, figures measure) geom.Rect {
	box := geom.EmptyRect()
	if b := d.Bounds(); !b.Empty() {
		box = box.Include(j.to(b.Min)).Include(j.to(b.Max)).Grow(drawing.WideLine / 2)
	}
	for i := range d.Texts {
		if t := &d.Texts[i]; !movable(t) {
			placed := tiling.PlaceText(t, j.to(t.At))
			box = include(box, placed.Corners())
		}
	}
	for i := range d.Dimensions {
		chain := j.dimension(&d.Dimensions[i], figures)
		for _, l := range slices.Concat(chain.lines, chain.witness) {
			box = box.Include(l[0]).Include(l[1])
		}
		for k := range chain.texts {
			box = include(box, chain.texts[k].Corners())
		}
	}
	return box
}

func include(box geom.Rect, corners [4]geom.Point) geom.Rect {
	for _, c := range corners {
		box = box.Include(c)
	}
	return box
}
