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
	d := dots{spacing: spacing, near: map[[2]int][]geom.Point{}}
	d.nodes(p.Nodes, c.Frame, func(q geom.Point) bool { return c.Shown.Contains(q) })
	return d.out, nil
}

// Dots returns dots along lines, no further apart than spacing: one at each corner and end, the others evenly between. Dots that
// come closer to one another than a quarter of the spacing, where lines meet, are one.
func Dots(paths []*geom.Path, spacing float64) []geom.Point {
	d := dots{spacing: spacing, near: map[[2]int][]geom.Point{}}
	for _, p := range paths {
		d.path(p, func(geom.Point) bool { return true })
	}
	return d.out
}

type dots struct {
	spacing float64
	out     []geom.Point
	near    map[[2]int][]geom.Point // by squares a quarter of the spacing wide
}

// nodes dots lines that frame takes to the face, where shows and the clips about them let them through.
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
				d.path(frame.Path(p), shows)
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

// path dots one line.
func (d *dots) path(p *geom.Path, shows func(geom.Point) bool) {
	if p.Empty() {
		return
	}
	r := geom.NewRuler(p)
	corners := []float64{0}
	var before geom.Point
	for i, s := range p.Segments() {
		if i > 0 {
			if t := s.Tangent(0); math.Abs(math.Atan2(before.Cross(t), before.Dot(t))) > bend {
				corners = append(corners, r.Ends()[i-1])
			}
		}
		before = s.Tangent(1)
	}
	corners = append(corners, r.Length())
	for k := 1; k < len(corners); k++ {
		from, to := corners[k-1], corners[k]
		n := int(math.Ceil((to - from) / d.spacing))
		for i := range n + 1 {
			if at, _ := r.At(from + (to-from)*float64(i)/float64(max(n, 1))); shows(at) {
				d.put(at)
			}
		}
	}
}

// put adds a dot where none is near.
func (d *dots) put(p geom.Point) {
	each := d.spacing / 4
	x, y := int(math.Floor(p.X/each)), int(math.Floor(p.Y/each))
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			for _, q := range d.near[[2]int{x + i, y + j}] {
				if p.Dist(q) < each {
					return
				}
			}
		}
	}
	d.near[[2]int{x, y}] = append(d.near[[2]int{x, y}], p)
	d.out = append(d.out, p)
}
