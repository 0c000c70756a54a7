package silhouette

import (
	"errors"
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// What is drawn in lines is painted on pixels so fine, then traced: of a figure 1780 mm tall a pixel is under half a millimetre, and the
// outline keeps within a quarter of one of what is drawn.
const (
	drawnPixels    = 4096 // along the longer side of what is painted
	drawnTolerance = 0.5  // of the tracing, pixels
	edge           = 2    // pixels left free about it
	subrows        = 16   // lines that a row of pixels is looked at along
)

// mostBytes is what all layers that are held at one time may take. Where clips and masks stand in one another so deep that they would take
// more, the pixels are coarser.
const mostBytes = 256 << 20

// canvas paints opacity, as if nothing could be seen through anything.
type canvas struct {
	place artwork.Matrix // from the picture to pixels, y down
	back  artwork.Matrix // from pixels, y up, to the picture
	whole *layer

	clip  *artwork.Clip // the last one painted,
	holds *layer        // and what it lets through
	free  [][]float32   // of layers that are done with
}

// layer returns an empty layer, of memory that is done with where there is enough of it.
func (c *canvas) layer(x, y, w, h int) *layer {
	w, h = max(w, 0), max(h, 0)
	for i, v := range c.free {
		if cap(v) >= w*h && cap(v) <= 4*w*h+1024 {
			c.free[i] = c.free[len(c.free)-1]
			c.free = c.free[:len(c.free)-1]
			v = v[:w*h]
			clear(v)
			return &layer{x, y, w, h, v}
		}
	}
	size := w * h
	if c.whole != nil && size > len(c.whole.v)/4 {
		size = max(size, len(c.whole.v)) // so that it serves the next one too, which is about as large
	}
	return &layer{x, y, w, h, make([]float32, w*h, size)}
}

// mostFree is how many layers' memory is kept for the next.
const mostFree = 4

// release gives back a layer that nothing asks for any more.
func (c *canvas) release(l *layer) {
	if len(c.free) < mostFree && cap(l.v) > 0 {
		c.free = append(c.free, l.v)
	}
}

// put puts a layer over another and gives it back.
func (c *canvas) put(l, on *layer) {
	l.over(on)
	c.release(l)
}

var errTooThin = errors.New("the picture is more than 1000 times as long as it is wide, or has no size")

// paint paints all that a picture draws.
func paint(p *artwork.Picture) (*canvas, error) {
	box := geom.EmptyRect()
	for _, n := range p.Nodes {
		box = box.Union(artwork.Bounds(n))
	}
	box = box.Common(geom.Rect{Max: geom.Point{X: p.W, Y: p.H}})
	if box.Empty() {
		return nil, ErrNothing
	}
	long := max(box.W(), box.H())
	if !(min(box.W(), box.H()) > long/1000) {
		return nil, errTooThin
	}
	// The layers that stand in one another, the whole and what is filled at the moment, four bytes a pixel.
	share := box.W() * box.H() / (long * long)
	layers := float64(deepest(p.Nodes) + 3)
	k := math.Min(drawnPixels, math.Sqrt(mostBytes/(4*layers*share))) / long
	c := &canvas{}
	c.whole = c.layer(0, 0, int(math.Ceil(box.W()*k))+2*edge, int(math.Ceil(box.H()*k))+2*edge)
	c.back = artwork.Matrix{A: 1 / k, D: 1 / k, E: box.Min.X - edge/k, F: box.Min.Y - edge/k}
	up, _ := c.back.Inverse()
	c.place = up.Then(artwork.Matrix{A: 1, D: -1, F: float64(c.whole.h)})
	c.nodes(c.whole, p.Nodes)
	frame := []geom.Point{{}, {X: p.W}, {X: p.W, Y: p.H}, {Y: p.H}}
	c.whole.within(c.fill(c.whole, [][]geom.Point{c.placed(frame)}, false))
	return c, nil
}

// deepest is how many layers clips and masks in one another take at one time at most.
func deepest(nodes []artwork.Node) int {
	most := 0
	for _, n := range nodes {
		g, ok := n.(*artwork.Group)
		if !ok {
			continue
		}
		own := deepest(g.Nodes)
		if g.Clip != nil {
			own = max(own, clipDepth(g.Clip))
		}
		if g.Mask != nil {
			own = max(own, 1+deepest(g.Mask.Nodes))
		}
		if g.Clip != nil || g.Mask != nil {
			own++
		}
		most = max(most, own)
	}
	return most
}

func clipDepth(c *artwork.Clip) int {
	if c == nil {
		return 0
	}
	inner := clipDepth(c.Clip)
	for _, o := range c.Outlines {
		inner = max(inner, 1+clipDepth(o.Clip))
	}
	return 1 + inner
}

// samples returns the canvas as coverage of 16 bits.
func (c *canvas) samples() []uint16 {
	out := make([]uint16, len(c.whole.v))
	for i, v := range c.whole.v {
		out[i] = uint16(min(v, 1)*65535 + 0.5)
	}
	return out
}

func (c *canvas) nodes(on *layer, nodes []artwork.Node) {
	for _, n := range nodes {
		switch n := n.(type) {
		case *artwork.Group:
			c.group(on, n)
		case *artwork.Shape:
			if n.Fill != nil {
				c.put(c.area(on, n.Paths, n.Fill.EvenOdd), on)
			}
			if n.Stroke != nil {
				c.put(c.stroke(on, n), on)
			}
		case *artwork.Image:
			c.image(on, n)
		}
	}
}

// group paints nodes that are cut down to a clip or a mask on a layer of their own, no larger than they are.
func (c *canvas) group(on *layer, g *artwork.Group) {
	if g.Clip == nil && g.Mask == nil {
		c.nodes(on, g.Nodes)
		return
	}
	top := c.layerFor(on, artwork.Bounds(g))
	if top.w == 0 || top.h == 0 {
		return
	}
	c.nodes(top, g.Nodes)
	if g.Clip != nil {
		top.within(c.letsThrough(top, g.Clip))
	}
	if g.Mask != nil {
		seen := c.layer(top.x, top.y, top.w, top.h)
		c.nodes(seen, g.Mask.Nodes)
		top.within(seen)
		c.release(seen)
	}
	c.put(top, on)
}

// layerFor returns an empty layer that holds a box of the picture, as far as it lies on another layer.
func (c *canvas) layerFor(on *layer, box geom.Rect) *layer {
	px := geom.EmptyRect()
	for _, q := range [4]geom.Point{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}} {
		px = px.Include(c.place.Apply(q))
	}
	if box.Empty() {
		return c.layer(on.x, on.y, 0, 0)
	}
	x0, y0, x1, y1 := on.cover(px)
	return c.layer(x0, y0, x1-x0, y1-y0)
}

// letsThrough returns what a clip lets through on a layer's box. The last one is kept: nodes clipped in the same way follow one another.
func (c *canvas) letsThrough(on *layer, clip *artwork.Clip) *layer {
	if c.clip == clip && c.holds.x <= on.x && c.holds.y <= on.y && c.holds.x+c.holds.w >= on.x+on.w && c.holds.y+c.holds.h >= on.y+on.h {
		return c.holds
	}
	out := c.layer(on.x, on.y, on.w, on.h)
	for i := range clip.Outlines {
		o := &clip.Outlines[i]
		area := c.area(out, o.Paths, o.EvenOdd)
		if o.Clip != nil {
			area.within(c.letsThrough(area, o.Clip))
		}
		c.put(area, out)
	}
	if clip.Clip != nil {
		out.within(c.letsThrough(out, clip.Clip))
	}
	if c.holds != nil {
		c.release(c.holds)
	}
	c.clip, c.holds = clip, out
	return out
}

// tolerance is a twentieth of a pixel in the picture's own measure.
func (c *canvas) tolerance() float64 { return 0.05 * c.back.A }

func (c *canvas) area(on *layer, paths []*geom.Path, evenOdd bool) *layer {
	var polygons [][]geom.Point
	for _, p := range paths {
		polygons = append(polygons, c.placed(p.Flatten(c.tolerance(), nil)))
	}
	return c.fill(on, polygons, evenOdd)
}

func (c *canvas) stroke(on *layer, s *artwork.Shape) *layer {
	polygons := s.Stroke.Polygons(s.Paths, c.tolerance())
	for i, p := range polygons {
		polygons[i] = c.placed(p)
	}
	return c.fill(on, polygons, false)
}

func (c *canvas) placed(points []geom.Point) []geom.Point {
	for i, p := range points {
		points[i] = c.place.Apply(p)
	}
	return points
}

// fill fills polygons, given in pixels with y down, by either rule, on a layer no larger than they are and than on. Along a line it is exact.
func (c *canvas) fill(on *layer, polygons [][]geom.Point, evenOdd bool) *layer {
	box := geom.EmptyRect()
	for _, poly := range polygons {
		for _, p := range poly {
			box = box.Include(p)
		}
	}
	if box.Empty() {
		return c.layer(on.x, on.y, 0, 0)
	}
	x0, y0, x1, y1 := on.cover(box)
	m := c.layer(x0, y0, x1-x0, y1-y0)
	if m.w == 0 || m.h == 0 {
		return m
	}
	rows := make([][]crossing, m.h*subrows)
	for _, poly := range polygons {
		for i, a := range poly {
			b := poly[(i+1)%len(poly)]
			dir := int8(1)
			if a.Y > b.Y {
				a, b, dir = b, a, -1
			}
			top := float64(m.y)
			first := max(0, math.Ceil((a.Y-top)*subrows-0.5))
			last := min(float64(len(rows)), math.Ceil((b.Y-top)*subrows-0.5))
			for k := first; k < last; k++ {
				t := (top + (k+0.5)/subrows - a.Y) / (b.Y - a.Y)
				rows[int(k)] = append(rows[int(k)], crossing{a.X + t*(b.X-a.X), dir})
			}
		}
	}
	steps := make([]float64, m.w+2)
	for y := range m.h {
		for k := range subrows {
			m.spans(rows[y*subrows+k], evenOdd, steps)
		}
		sum := 0.0
		for x := range m.w {
			sum += steps[x]
			m.v[y*m.w+x] = float32(sum)
		}
		clear(steps)
	}
	return m
}

// image paints the part of an embedded picture that is not transparent.
func (c *canvas) image(on *layer, n *artwork.Image) {
	toUnit, ok := n.Frame.Then(c.place).Inverse()
	if !ok || n.Pixels == nil {
		return
	}
	corners := make([]geom.Point, 0, 4)
	for _, q := range [4]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}} {
		corners = append(corners, n.Frame.Apply(q))
	}
	frame := c.fill(on, [][]geom.Point{c.placed(corners)}, false)
	if n.Pixels.Alpha {
		img, err := whole(n.Pixels)
		if err != nil {
			return
		}
		for y := range frame.h {
			for x := range frame.w {
				q := toUnit.Apply(geom.Point{X: float64(frame.x+x) + 0.5, Y: float64(frame.y+y) + 0.5})
				px, py := int(q.X*float64(n.Width)), int((1-q.Y)*float64(n.Height))
				px, py = min(max(px, 0), n.Width-1), min(max(py, 0), n.Height-1)
				frame.v[y*frame.w+x] *= float32(img.Pix[img.PixOffset(px, py)+3]) / 255
			}
		}
	}
	c.put(frame, on)
}
