package develop

import (
	"errors"
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

var (
	errNoCard = errors.New("its openings leave no card")
	errParts  = errors.New("its openings cut it into separate pieces")
)

// cutFace is the face of a flat as it is cut, x along from P, y up from the foot: notched where an opening comes down
// to the foot, holed by the others.
func cutFace(f *set.Flat) (geom.Region, error) {
	for i, o := range f.Openings {
		if o.At <= geom.Tolerance || o.At+o.Width >= f.Length-geom.Tolerance || o.Sill+o.Height >= f.Height-geom.Tolerance {
			return cutAway(f)
		}
		for _, other := range f.Openings[:i] {
			if touches(o, other) {
				return cutAway(f)
			}
		}
	}
	outer, holes := f.CutFace()
	return geom.Region{Outer: outer, Holes: holes}, nil
}

// touches reports whether two openings have an edge in common.
func touches(a, b set.Opening) bool {
	return a.At <= b.At+b.Width+geom.Tolerance && b.At <= a.At+a.Width+geom.Tolerance &&
		a.Sill <= b.Sill+b.Height+geom.Tolerance && b.Sill <= a.Sill+a.Height+geom.Tolerance
}

// cutAway is cutFace where openings reach an edge or one another: curves come as straight runs.
func cutAway(f *set.Flat) (geom.Region, error) {
	face := geom.Polygon([]geom.Point{{}, {X: f.Length}, {X: f.Length, Y: f.Height}, {Y: f.Height}})
	var holes []geom.Region
	for _, o := range f.Openings {
		holes = append(holes, geom.Region{Outer: o.Path()})
	}
	left, err := geom.Difference([]geom.Region{{Outer: face}}, holes, geom.Flatness)
	switch {
	case err != nil:
		return geom.Region{}, err
	case len(left) == 0:
		return geom.Region{}, errNoCard
	case len(left) > 1:
		return geom.Region{}, errParts
	}
	return left[0], nil
}

// scaledFlat returns the flat at the model's scale, without the openings too small to cut.
func (k *work) scaledFlat(f *set.Flat, by float64) *set.Flat {
	out := &set.Flat{Length: f.Length * by, Height: f.Height * by, Thickness: f.Thickness * by, FaceLeft: f.FaceLeft}
	if f.Line != nil {
		out.Line = scaled(f.Line, by)
	}
	for _, o := range f.Openings {
		o.At, o.Sill, o.Width, o.Height, o.Arch = o.At*by, o.Sill*by, o.Width*by, o.Height*by, o.Arch*by
		what := o.Word
		if o.Name != "" {
			what += " " + o.Name
		}
		if k.tooSmall(what, min(o.Width, o.Height)) {
			continue
		}
		if o.Arch > 0 && k.tooSmall("the arch of its "+what, o.Arch) {
			o.Arch = 0
		}
		out.Openings = append(out.Openings, o)
	}
	return out
}

// flat makes a wall piece: one layer where it is about as thick as the card, otherwise two skins that run through and
// strips between them.
func (k *work) flat(f *set.Flat) error {
	if f.Line != nil {
		return k.curvedFlat(f)
	}
	region, err := cutFace(f)
	if err != nil {
		return err
	}
	// p and q are seen from the face, w comes out of it. The face is on the line from P to Q.
	frame := geom.Frame{R: [3][3]float64{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}}, T: geom.Vec{Y: f.Thickness}}
	if f.FaceLeft {
		frame = geom.Frame{R: [3][3]float64{{-1, 0, 0}, {0, 0, 1}, {0, 1, 0}}, T: geom.Vec{X: f.Length, Y: -f.Thickness}}
		region = region.Transform(geom.Isometry{A: -1, D: 1, T: geom.Point{X: f.Length}})
	}
	return k.slab(region, f.Thickness, frame, [2]string{"back", "face"}, lies)
}

// slab makes a board of a given thickness: of one or two layers of card, or of two skins with strips on its edges
// between them; open picks the edges without a strip. The side at w = h is the true one.
func (k *work) slab(region geom.Region, thick float64, frame geom.Frame, names [2]string, open func(geom.Segment) bool) error {
	t := k.card.Thickness
	if thick >= 2*t+least {
		return k.build(&prism{
			region: region, h: thick, frame: frame, near: through, far: through, nearCap: names[0], farCap: names[1],
			fold: k.folds(), open: open, rank: topsFirst, name: edgeName,
		})
	}
	layers := layersOf(thick, t)
	if made := float64(layers) * t; thick > 0 && math.Abs(made-thick) > 0.05 {
		k.note("its thickness is %s of card, %.1f; true would be %.1f", plural(layers, "layer"), made, thick)
	}
	for i := range layers {
		name := names[1]
		if i > 0 {
			name = names[0]
		}
		f := geom.Identity()
		f.T.Z = thick - float64(i)*t
		k.pieceOf(draft{Piece{Name: name, Outline: upright(region), body: body{frame: f.Then(frame)}}})
		if i > 0 {
			line := append(region.Outer.Flatten(0.01, nil), region.Outer.Start())
			k.join(Laid, side(i-1, line, t), side(i, line, 0))
		}
	}
	return nil
}

// layersOf is how many layers of card come nearest to a board too thin for two skins and a strip.
func layersOf(thick, t float64) int {
	if thick >= 1.5*t {
		return 2
	}
	return 1
}
