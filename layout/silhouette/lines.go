package silhouette

import (
	"markout/layout/artwork"
	"markout/layout/geom"
)

// Lines returns the picture as lines without areas, to save ink and to be pounced: the outlines of everything painted, in black,
// width wide in the picture's own units. A picture made of pixels gives the traced edge between its light and its dark.
func Lines(p *artwork.Picture, width float64) (*artwork.Picture, error) {
	out := &artwork.Picture{W: p.W, H: p.H}
	if img := pixelsOf(p); img != nil {
		sil, m, err := outlined(p, Options{Background: Light, All: true})
		if err != nil {
			return nil, err
		}
		for _, r := range sil.Regions {
			r = m.Region(r)
			out.Nodes = append(out.Nodes, line(append([]*geom.Path{r.Outer}, r.Holes...), width))
		}
		return out, nil
	}
	out.Nodes = lines(p.Nodes, width)
	return out, nil
}

// lines turns nodes into lines, keeping what they are cut down to.
func lines(nodes []artwork.Node, width float64) []artwork.Node {
	var out []artwork.Node
	for _, n := range nodes {
		switch n := n.(type) {
		case *artwork.Group:
			inner := lines(n.Nodes, width)
			if n.Clip == nil {
				out = append(out, inner...)
			} else if len(inner) > 0 {
				out = append(out, &artwork.Group{Opacity: 1, Clip: n.Clip, Nodes: inner})
			}
		case *artwork.Shape:
			out = append(out, line(n.Paths, width))
		}
	}
	return out
}

func line(paths []*geom.Path, width float64) *artwork.Shape {
	return &artwork.Shape{Paths: paths, Stroke: &artwork.Stroke{
		Paint: artwork.Paint{Opacity: 1}, Width: width, Cap: artwork.RoundCap, Join: artwork.RoundJoin, MiterLimit: 4, Pen: artwork.Identity(),
	}}
}
