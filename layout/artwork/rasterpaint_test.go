package artwork

import (
	"bytes"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"math"

	"markout/layout/geom"
)

// canvas draws a picture as pixels, for comparison with another reader's.
type canvas struct {
	w, h  int
	place Matrix // from the picture to pixels, y down
	back  Matrix
	masks map[*Clip]*mask
}

// rasterise draws a picture on white, stretched to w × h pixels.
func rasterise(p *Picture, w, h int) *layer {
	c := &canvas{w: w, h: h, masks: map[*Clip]*mask{}}
	c.place = Matrix{A: float64(w) / p.W, D: -float64(h) / p.H, F: float64(h)}
	c.back, _ = c.place.Inverse()
	l := newLayer(w, h)
	for i := range l.v {
		l.v[i] = [4]float32{1, 1, 1, 1}
	}
	c.nodes(l, p.Nodes)
	return l
}

func (c *canvas) nodes(l *layer, nodes []Node) {
	for _, n := range nodes {
		switch n := n.(type) {
		case *Group:
			top := newLayer(c.w, c.h)
			c.nodes(top, n.Nodes)
			var m *mask
			if n.Clip != nil {
				m = c.clip(n.Clip)
			}
			if n.Mask != nil {
				seen := c.mask(n.Mask)
				if m != nil {
					seen.times(m)
				}
				m = seen
			}
			l.merge(top, m, float32(n.Opacity))
		case *Shape:
			if n.StrokeFirst {
				c.stroke(l, n)
			}
			if n.Fill != nil {
				c.cover(l, c.area(n.Paths, n.Fill.EvenOdd), n.Fill.Paint)
			}
			if !n.StrokeFirst {
				c.stroke(l, n)
			}
		case *Image:
			c.image(l, n)
		}
	}
}

// tolerance is a tenth of a pixel in the picture's millimetres.
func (c *canvas) tolerance() float64 { return 0.1 * math.Sqrt(math.Abs(c.back.Det())) }

func (c *canvas) polygon(points []geom.Point) []geom.Point {
	out := make([]geom.Point, len(points))
	for i, p := range points {
		out[i] = c.place.Apply(p)
	}
	return out
}

func (c *canvas) area(paths []*geom.Path, evenOdd bool) *mask {
	var polygons [][]geom.Point
	for _, p := range paths {
		polygons = append(polygons, c.polygon(p.Flatten(c.tolerance(), nil)))
	}
	return coverage(c.w, c.h, polygons, evenOdd)
}

func (c *canvas) stroke(l *layer, s *Shape) {
	if s.Stroke == nil {
		return
	}
	var polygons [][]geom.Point
	for _, p := range s.Stroke.Polygons(s.Paths, c.tolerance()) {
		polygons = append(polygons, c.polygon(p))
	}
	c.cover(l, coverage(c.w, c.h, polygons, false), s.Stroke.Paint)
}

func (c *canvas) clip(clip *Clip) *mask {
	if m := c.masks[clip]; m != nil {
		return m
	}
	m := newMask(c.w, c.h)
	for _, o := range clip.Outlines {
		area := c.area(o.Paths, o.EvenOdd)
		if o.Clip != nil {
			area.times(c.clip(o.Clip))
		}
		for i, v := range area.v {
			m.v[i] = 1 - (1-m.v[i])*(1-v)
		}
	}
	if clip.Clip != nil {
		m.times(c.clip(clip.Clip))
	}
	c.masks[clip] = m
	return m
}

// mask weighs red, green and blue by SVG 1.1, section 14.4.
func (c *canvas) mask(of *Mask) *mask {
	l, m := newLayer(c.w, c.h), newMask(c.w, c.h)
	c.nodes(l, of.Nodes)
	for i, p := range l.v {
		m.v[i] = 0.2125*p[0] + 0.7154*p[1] + 0.0721*p[2]
		if of.Alpha {
			m.v[i] = p[3]
		}
	}
	return m
}

func (m *mask) times(n *mask) {
	for i := range m.v {
		m.v[i] *= n.v[i]
	}
}

func rgb(c Colour) [3]float32 {
	return [3]float32{float32(c.R) / 255, float32(c.G) / 255, float32(c.B) / 255}
}

func (c *canvas) cover(l *layer, m *mask, p Paint) {
	colour, opacity := rgb(p.Colour), float32(1)
	var back Matrix
	if p.Gradient != nil {
		back, _ = p.Gradient.Frame.Inverse()
	}
	for i, v := range m.v {
		if v == 0 {
			continue
		}
		if p.Gradient != nil {
			q := c.back.Apply(geom.Point{X: float64(i%c.w) + 0.5, Y: float64(i/c.w) + 0.5})
			colour, opacity = p.Gradient.at(back.Apply(q))
		}
		l.over(i, colour, v*opacity*float32(p.Opacity))
	}
}

// at is the colour of a gradient at a place in its own frame.
func (g *Gradient) at(q geom.Point) ([3]float32, float32) {
	var t float64
	axis := g.To.Sub(g.From)
	if g.Radial {
		// |q − From − t·axis| = R0 + t(R1 − R0), the greater root
		d, dr := q.Sub(g.From), g.R1-g.R0
		a, b, k := axis.Dot(axis)-dr*dr, d.Dot(axis)+g.R0*dr, d.Dot(d)-g.R0*g.R0
		if math.Abs(a) < 1e-9*dr*dr {
			t = k / (2 * b)
		} else {
			root := math.Sqrt(max(0, b*b-a*k))
			t = max((b+root)/a, (b-root)/a)
		}
	} else {
		t = q.Sub(g.From).Dot(axis) / axis.Dot(axis)
	}
	switch g.Spread {
	case Repeat:
		t -= math.Floor(t)
	case Reflect:
		t = math.Abs(t - 2*math.Round(t/2))
	}
	return g.colourAt(t)
}

func (g *Gradient) colourAt(t float64) ([3]float32, float32) {
	first, last := g.Stops[0], g.Stops[len(g.Stops)-1]
	if t <= first.At || math.IsNaN(t) {
		return rgb(first.Colour), float32(first.Opacity)
	}
	for i := 1; i < len(g.Stops); i++ {
		a, b := g.Stops[i-1], g.Stops[i]
		if t < b.At {
			k := float32((t - a.At) / (b.At - a.At))
			ca, cb := rgb(a.Colour), rgb(b.Colour)
			for j := range ca {
				ca[j] += (cb[j] - ca[j]) * k
			}
			return ca, float32(a.Opacity) + float32(b.Opacity-a.Opacity)*k
		}
	}
	return rgb(last.Colour), float32(last.Opacity)
}

// image looks at four pixels around each place, weighted by how near they are.
func (c *canvas) image(l *layer, n *Image) {
	src, _, err := image.Decode(bytes.NewReader(n.Data))
	if err != nil {
		return
	}
	inv, _ := n.Frame.Then(c.place).Inverse()
	for i := range l.v {
		q := inv.Apply(geom.Point{X: float64(i%c.w) + 0.5, Y: float64(i/c.w) + 0.5})
		if q.X < 0 || q.X >= 1 || q.Y < 0 || q.Y >= 1 {
			continue
		}
		x, y := q.X*float64(n.Width)-0.5, (1-q.Y)*float64(n.Height)-0.5
		x0, y0 := math.Floor(x), math.Floor(y)
		var sum [4]float32
		for k := range 4 {
			u, v := x0+float64(k%2), y0+float64(k/2)
			weight := float32((1 - math.Abs(x-u)) * (1 - math.Abs(y-v)))
			r, g, b, a := src.At(min(max(int(u), 0), n.Width-1), min(max(int(v), 0), n.Height-1)).RGBA()
			for j, s := range [4]uint32{r, g, b, a} {
				sum[j] += float32(s) / 65535 * weight
			}
		}
		p := &l.v[i]
		k := float32(n.Opacity)
		for j := range 4 {
			p[j] = sum[j]*k + p[j]*(1-sum[3]*k)
		}
	}
}
