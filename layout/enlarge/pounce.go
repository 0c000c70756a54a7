package enlarge

import (
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/silhouette"
)

// bend is the turn in radians from which on a line has a corner there, which gets a dot of its own.
const bend = 20 * math.Pi / 180

// Outlines returns the lines of a cloth's artwork on its face: the outlines of everything painted, cut down to nothing.
func Outlines(c *set.Cloth) ([]*geom.Path, error) {
	p, err := silhouette.Lines(c.Art.Picture, 1)
	if err != nil {
		return nil, err
	}
	var out []*geom.Path
	var walk func(nodes []artwork.Node)
	walk = func(nodes []artwork.Node) {
		for _, n := range nodes {
			switch n := n.(type) {
			case *artwork.Group:
				walk(n.Nodes)
			case *artwork.Shape:
				for _, q := range n.Paths {
					out = append(out, c.Frame.Path(q))
				}
			}
		}
	}
	walk(p.Nodes)
	return out, nil
}

// Pounce returns the dots of a cloth's pounce pattern on its face: along the lines of its artwork, no further apart than spacing,
// where the artwork shows.
func Pounce(c *set.Cloth, spacing float64) ([]geom.Point, error) {
	p, err := silhouette.Lines(c.Art.Picture, 1)
	if err != nil {
		return nil, err
	}
	d := newDots(spacing)
	d.nodes(p.Nodes, c.Frame, func(q geom.Point) bool { return c.Shown.Contains(q) })
	return d.place(), nil
}

// Dots returns dots along lines: one at each corner and end, the others evenly between, no further from one another than
// spacing. Where lines meet or run beside each other one dot does for several, as long as no line is left with a wider gap.
func Dots(paths []*geom.Path, spacing float64) []geom.Point {
	d := newDots(spacing)
	for _, p := range paths {
		d.line(p, func(geom.Point) bool { return true })
	}
	return d.place()
}

// nodes takes in lines that frame takes to the face, where shows and the clips about them let them through.
func (d *dots) nodes(nodes []artwork.Node, frame artwork.Matrix, shows func(geom.Point) bool) {
	for _, n := range nodes {
		switch n := n.(type) {
		case *artwork.Group:
			in := shows
			if n.Clip != nil {
				clip := through(n.Clip, frame)
				in = func(q geom.Point) bool { return shows(q) && clip(q) }
			}
			d.nodes(n.Nodes, frame, in)
		case *artwork.Shape:
			for _, p := range n.Paths {
				d.line(frame.Path(p), shows)
			}
		}
	}
}

// through returns what a clip lets through, as a question about a place on the face.
func through(c *artwork.Clip, frame artwork.Matrix) func(geom.Point) bool {
	back, ok := frame.Inverse()
	if !ok {
		return func(geom.Point) bool { return false }
	}
	return func(q geom.Point) bool { return c.Holds(back.Apply(q)) }
}
