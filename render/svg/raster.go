package svg

import (
	"math"
	"slices"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// raster draws artwork as few pixels, for thumbnails; lay takes the artwork to pixels, y down.
type raster struct {
	w, h  int
	lay   artwork.Matrix
	minis *Thumbnails
	err   error
}

// dots are red, green, blue and opacity of each pixel, 0 to 1, the colours multiplied by the opacity, row by row from the top.
type dots [][4]float64

func newDots(w, h int) dots { return make(dots, w*h) }

// over puts a colour, by its opacity, over a pixel.
func (d dots) over(i int, c [3]float64, opacity float64) {
	p := &d[i]
	for k := range 3 {
		p[k] = c[k]*opacity + p[k]*(1-opacity)
	}
	p[3] = opacity + p[3]*(1-opacity)
}

func (r *raster) nodes(d dots, nodes []artwork.Node) {
	for _, n := range nodes {
		b := boxThrough(artwork.Bounds(n), r.lay)
		if !b.Overlaps(geom.Rect{Max: geom.Point{X: float64(r.w), Y: float64(r.h)}}) || r.err != nil {
			continue
		}
		switch n := n.(type) {
		case *artwork.Group:
			r.group(d, n)
		case *artwork.Shape:
			r.shape(d, n)
		case *artwork.Image:
			r.image(d, n)
		}
	}
}

func (r *raster) group(d dots, g *artwork.Group) {
	top := newDots(r.w, r.h)
	r.nodes(top, g.Nodes)
	share := make([]float64, len(d))
	for i := range share {
		share[i] = g.Opacity
	}
	if g.Clip != nil {
		times(share, r.clip(g.Clip))
	}
	if g.Mask != nil {
		mask := newDots(r.w, r.h)
		r.nodes(mask, g.Mask.Nodes)
		for i, p := range mask {
			if g.Mask.Alpha {
				share[i] *= p[3]
			} else {
				share[i] *= 0.2126*p[0] + 0.7152*p[1] + 0.0722*p[2] // luminance (SVG 1.1, 14.4)
			}
		}
	}
	for i, s := range top {
		p := &d[i]
		for k := range p {
			p[k] = s[k]*share[i] + p[k]*(1-s[3]*share[i])
		}
	}
}

func times(a, b []float64) {
	for i := range a {
		a[i] *= b[i]
	}
}

// clip is how much of each pixel a clip lets through.
func (r *raster) clip(c *artwork.Clip) []float64 {
	out := make([]float64, r.w*r.h)
	for _, o := range c.Outlines {
		one := r.covered(o.Paths, o.EvenOdd)
		if o.Clip != nil {
			times(one, r.clip(o.Clip))
		}
		for i, v := range one {
			out[i] = max(out[i], v)
		}
	}
	if c.Clip != nil {
		times(out, r.clip(c.Clip))
	}
	return out
}

func (r *raster) shape(d dots, s *artwork.Shape) {
	fill := func() {
		if s.Fill != nil {
			r.paint(d, s.Fill.Paint, r.covered(s.Paths, s.Fill.EvenOdd))
		}
	}
	if !s.StrokeFirst {
		fill()
	}
	if s.Stroke != nil {
		r.paint(d, s.Stroke.Paint, r.drawn(s))
	}
	if s.StrokeFirst {
		fill()
	}
}

// drawn is how much of each pixel a shape's line covers. Dashes that run together at this size are drawn as a line.
func (r *raster) drawn(s *artwork.Shape) []float64 {
	line, scale := *s.Stroke, math.Sqrt(math.Abs(r.lay.Det()))
	period := 0.0
	for _, v := range line.Dashes {
		period += v
	}
	if period*scale < 1 {
		line.Dashes = nil
	}
	polygons := line.Polygons(s.Paths, 0.3/scale)
	for _, p := range polygons {
		for i := range p {
			p[i] = r.lay.Apply(p[i])
		}
	}
	return r.coverage(polygons, false)
}

// covered is how much of each pixel lies inside paths.
func (r *raster) covered(paths []*geom.Path, evenOdd bool) []float64 {
	polygons := make([][]geom.Point, 0, len(paths))
	for _, p := range paths {
		if !p.Empty() {
			polygons = append(polygons, r.lay.Path(p).Flatten(0.2, nil))
		}
	}
	return r.coverage(polygons, evenOdd)
}

// rowLines is how many lines a row of pixels is looked at along; along a line coverage is exact.
const rowLines = 4

type crossing struct {
	x  float64
	up bool
}

func (r *raster) coverage(polygons [][]geom.Point, evenOdd bool) []float64 {
	lines := make([][]crossing, r.h*rowLines)
	for _, p := range polygons {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			up := a.Y > b.Y
			if up {
				a, b = b, a
			}
			first, last := max(0, math.Ceil(a.Y*rowLines-0.5)), min(float64(len(lines)), math.Ceil(b.Y*rowLines-0.5))
			for k := first; k < last; k++ {
				t := ((k+0.5)/rowLines - a.Y) / (b.Y - a.Y)
				lines[int(k)] = append(lines[int(k)], crossing{a.X + t*(b.X-a.X), up})
			}
		}
	}
	out := make([]float64, r.w*r.h)
	for k, line := range lines {
		slices.SortFunc(line, func(a, b crossing) int {
			switch {
			case a.x < b.x:
				return -1
			case a.x > b.x:
				return 1
			}
			return 0
		})
		wind := 0
		for i := 0; i+1 < len(line); i++ {
			if evenOdd {
				wind ^= 1
			} else if line[i].up {
				wind++
			} else {
				wind--
			}
			if wind != 0 {
				r.span(out[k/rowLines*r.w:][:r.w], line[i].x, line[i+1].x)
			}
		}
	}
	return out
}

// span covers a row from x0 to x1 by the height of one line.
func (r *raster) span(row []float64, x0, x1 float64) {
	x0, x1 = max(x0, 0), min(x1, float64(len(row)))
	for x := int(x0); float64(x) < x1; x++ {
		row[x] = min(row[x]+(min(x1, float64(x+1))-max(x0, float64(x)))/rowLines, 1)
	}
}

// paint covers pixels with a colour or a gradient.
func (r *raster) paint(d dots, p artwork.Paint, covered []float64) {
	if p.Gradient == nil {
		c := colours(p.Colour)
		for i, v := range covered {
			if v > 0 {
				d.over(i, c, v*p.Opacity)
			}
		}
		return
	}
	back, ok := p.Gradient.Frame.Then(r.lay).Inverse()
	if !ok {
		return
	}
	for i, v := range covered {
		if v > 0 {
			at := back.Apply(geom.Point{X: float64(i%r.w) + 0.5, Y: float64(i/r.w) + 0.5})
			if c, opacity, ok := gradientAt(p.Gradient, at); ok {
				d.over(i, c, v*opacity*p.Opacity)
			}
		}
	}
}

func colours(c artwork.Colour) [3]float64 {
	return [3]float64{float64(c.R) / 255, float64(c.G) / 255, float64(c.B) / 255}
}

// gradientAt is a gradient's colour at a place of its own frame. Of a radial one that is the colour of the outermost of the circles
// through the place, from the inner to the outer one and beyond.
func gradientAt(g *artwork.Gradient, at geom.Point) (c [3]float64, opacity float64, ok bool) {
	way, from := g.To.Sub(g.From), at.Sub(g.From)
	var t float64
	if !g.Radial {
		t = from.Dot(way) / way.Dot(way)
	} else {
		grow := g.R1 - g.R0
		a, b, k := way.Dot(way)-grow*grow, from.Dot(way)+g.R0*grow, from.Dot(from)-g.R0*g.R0
		root := math.Sqrt(max(b*b-a*k, 0)) // a < 0: the inner circle lies in the outer
		t = (b - root) / a
	}
	if math.IsNaN(t) || math.IsInf(t, 0) || len(g.Stops) == 0 {
		return c, 0, false
	}
	switch g.Spread {
	case artwork.Repeat:
		t -= math.Floor(t)
	case artwork.Reflect:
		t = math.Abs(t - 2*math.Round(t/2))
	}
	i := 0
	for i < len(g.Stops) && g.Stops[i].At <= t {
		i++
	}
	if i == 0 || i == len(g.Stops) {
		s := g.Stops[max(i-1, 0)]
		return colours(s.Colour), s.Opacity, true
	}
	a, b := g.Stops[i-1], g.Stops[i]
	k := (t - a.At) / (b.At - a.At)
	ca, cb := colours(a.Colour), colours(b.Colour)
	for n := range c {
		c[n] = ca[n] + (cb[n]-ca[n])*k
	}
	return c, a.Opacity + (b.Opacity-a.Opacity)*k, true
}
