package silhouette

import (
	"math"
	"slices"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// part is a node made ready for painting.
type part struct {
	top, bottom int     // the rows that it may cover
	areas       []*area // of a shape; of an image its frame
	image       *artwork.Image
	parts       []part // of a group
	clip        *clip
	mask        []part
	masked      bool
}

// clip is a clip made ready for painting.
type clip struct {
	outlines []outline
	clip     *clip
	cover    *cover // what it lets through of the band, while that is held
}

type outline struct {
	area *area
	clip *clip
}

// parts makes nodes ready. Of a mask by light, what is black lets nothing through.
func (c *canvas) parts(nodes []artwork.Node, byLight bool) []part {
	var out []part
	for _, n := range nodes {
		box := artwork.Bounds(n)
		if box.Empty() {
			continue
		}
		p := part{}
		p.top, p.bottom = c.rows(box)
		switch n := n.(type) {
		case *artwork.Group:
			p.parts, p.clip = c.parts(n.Nodes, byLight), c.clip(n.Clip)
			if n.Mask != nil {
				p.masked, p.mask = true, c.parts(n.Mask.Nodes, !n.Mask.Alpha)
			}
		case *artwork.Shape:
			p.areas = areas(n, byLight)
		case *artwork.Image:
			if n.Pixels == nil {
				continue
			}
			var corners []geom.Point
			for _, q := range [4]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}} {
				corners = append(corners, n.Frame.Apply(q))
			}
			p.image, p.areas = n, []*area{{paths: []*geom.Path{geom.Polygon(corners)}}}
		}
		out = append(out, p)
	}
	return out
}

// areas returns the areas of a shape in the order in which they are painted.
func areas(s *artwork.Shape, byLight bool) []*area {
	var out []*area
	put := func(a *area, with artwork.Paint) {
		if a.dark = byLight && with.Gradient == nil && with.Colour == (artwork.Colour{}); a.dark && with.Opacity < 1 {
			return // it neither lets through nor keeps what is under it from that
		}
		out = append(out, a)
	}
	if s.Fill != nil {
		put(&area{paths: s.Paths, evenOdd: s.Fill.EvenOdd}, s.Fill.Paint)
	}
	if s.Stroke != nil {
		put(&area{paths: s.Paths, stroke: s.Stroke}, s.Stroke.Paint)
	}
	if s.StrokeFirst {
		slices.Reverse(out)
	}
	return out
}

// rows returns the rows that a box of the picture touches, as far as the canvas has them.
func (c *canvas) rows(box geom.Rect) (top, bottom int) {
	within := func(y float64) int { return int(min(max(y, 0), float64(c.h))) }
	return within(math.Floor(c.place.Apply(box.Max).Y)), within(math.Ceil(c.place.Apply(box.Min).Y))
}

func (c *canvas) clip(of *artwork.Clip) *clip {
	if of == nil {
		return nil
	}
	if k, known := c.clips[of]; known {
		return k
	}
	k := &clip{clip: c.clip(of.Clip)}
	for i := range of.Outlines {
		o := &of.Outlines[i]
		k.outlines = append(k.outlines, outline{&area{paths: o.Paths, evenOdd: o.EvenOdd}, c.clip(o.Clip)})
	}
	c.clips[of] = k
	return k
}
