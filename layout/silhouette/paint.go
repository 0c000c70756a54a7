package silhouette

import (
	"cmp"
	"errors"
	"math"
	"slices"

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

// canvas is the opacity of what is painted, row by row from the top, 0 to 1.
type canvas struct {
	w, h  int
	v     []float32
	place artwork.Matrix // from the picture to pixels, y down
	back  artwork.Matrix // from pixels, y up, to the picture
	clips map[*artwork.Clip][]float32
}

var errTooThin = errors.New("the picture is more than 1000 times as long as it is wide, or has no size")

// paint paints all that a picture draws, each thing as if nothing could be seen through it.
func paint(p *artwork.Picture) (*canvas, error) {
	box := geom.EmptyRect()
	for _, n := range p.Nodes {
		box = box.Union(artwork.Bounds(n))
	}
	frame := geom.Rect{Max: geom.Point{X: p.W, Y: p.H}}
	box = geom.Rect{
		Min: geom.Point{X: max(box.Min.X, frame.Min.X), Y: max(box.Min.Y, frame.Min.Y)},
		Max: geom.Point{X: min(box.Max.X, frame.Max.X), Y: min(box.Max.Y, frame.Max.Y)},
	}
	if box.Empty() {
		return nil, ErrNothing
	}
	long := max(box.W(), box.H())
	if !(min(box.W(), box.H()) > long/1000) {
		return nil, errTooThin
	}
	k := drawnPixels / long
	c := &canvas{
		w: int(math.Ceil(box.W()*k)) + 2*edge, h: int(math.Ceil(box.H()*k)) + 2*edge,
		clips: map[*artwork.Clip][]float32{},
	}
	c.v = make([]float32, c.w*c.h)
	c.back = artwork.Matrix{A: 1 / k, D: 1 / k, E: box.Min.X - edge/k, F: box.Min.Y - edge/k}
	up, _ := c.back.Inverse()
	c.place = up.Then(artwork.Matrix{A: 1, D: -1, F: float64(c.h)})
	c.nodes(c.v, p.Nodes)
	within := make([]float32, len(c.v))
	c.fill([][]geom.Point{c.placed([]geom.Point{{}, {X: p.W}, {X: p.W, Y: p.H}, {Y: p.H}})}, false).over(within, c.w)
	times(c.v, within)
	return c, nil
}

// samples returns the canvas as coverage of 16 bits.
func (c *canvas) samples() []uint16 {
	out := make([]uint16, len(c.v))
	for i, v := range c.v {
		out[i] = uint16(min(v, 1)*65535 + 0.5)
	}
	return out
}

func (c *canvas) nodes(on []float32, nodes []artwork.Node) {
	for _, n := range nodes {
		switch n := n.(type) {
		case *artwork.Group:
			c.group(on, n)
		case *artwork.Shape:
			if n.Fill != nil {
				c.area(n.Paths, n.Fill.EvenOdd).over(on, c.w)
			}
			if n.Stroke != nil {
				c.stroke(n).over(on, c.w)
			}
		case *artwork.Image:
			c.image(on, n)
		}
	}
}

// group paints nodes that are cut down to a clip or a mask.
func (c *canvas) group(on []float32, g *artwork.Group) {
	if g.Clip == nil && g.Mask == nil {
		c.nodes(on, g.Nodes)
		return
	}
	top := make([]float32, len(on))
	c.nodes(top, g.Nodes)
	if g.Clip != nil {
		times(top, c.clip(g.Clip))
	}
	if g.Mask != nil {
		seen := make([]float32, len(on))
		c.nodes(seen, g.Mask.Nodes)
		times(top, seen)
	}
	for i, v := range top {
		on[i] = 1 - (1-on[i])*(1-v)
	}
}

func times(a, b []float32) {
	for i := range a {
		a[i] *= b[i]
	}
}

// clip returns what a clip lets through, made once.
func (c *canvas) clip(clip *artwork.Clip) []float32 {
	if v, ok := c.clips[clip]; ok {
		return v
	}
	out := make([]float32, len(c.v))
	for _, o := range clip.Outlines {
		area := make([]float32, len(c.v))
		c.area(o.Paths, o.EvenOdd).over(area, c.w)
		if o.Clip != nil {
			times(area, c.clip(o.Clip))
		}
		for i, v := range area {
			out[i] = 1 - (1-out[i])*(1-v)
		}
	}
	if clip.Clip != nil {
		times(out, c.clip(clip.Clip))
	}
	c.clips[clip] = out
	return out
}

// tolerance is a twentieth of a pixel in the picture's own measure.
func (c *canvas) tolerance() float64 { return 0.05 * c.back.A }

func (c *canvas) area(paths []*geom.Path, evenOdd bool) *cover {
	var polygons [][]geom.Point
	for _, p := range paths {
		polygons = append(polygons, c.placed(p.Flatten(c.tolerance(), nil)))
	}
	return c.fill(polygons, evenOdd)
}

func (c *canvas) stroke(s *artwork.Shape) *cover {
	polygons := s.Stroke.Polygons(s.Paths, c.tolerance())
	for i, p := range polygons {
		polygons[i] = c.placed(p)
	}
	return c.fill(polygons, false)
}

func (c *canvas) placed(points []geom.Point) []geom.Point {
	for i, p := range points {
		points[i] = c.place.Apply(p)
	}
	return points
}

// cover is how much of each pixel of a part of the canvas is covered.
type cover struct {
	x, y, w, h int
	v          []float32
}

// over puts the cover over what is painted.
func (m *cover) over(on []float32, width int) {
	for y := range m.h {
		row := on[(m.y+y)*width+m.x:][:m.w]
		for x, v := range m.v[y*m.w:][:m.w] {
			row[x] = 1 - (1-row[x])*(1-min(v, 1))
		}
	}
}

type crossing struct {
	x   float64
	dir int8
}

// fill fills polygons, given in pixels with y down, by either rule. Along a line it is exact.
func (c *canvas) fill(polygons [][]geom.Point, evenOdd bool) *cover {
	box := geom.EmptyRect()
	for _, poly := range polygons {
		for _, p := range poly {
			box = box.Include(p)
		}
	}
	x0, y0 := max(0, int(math.Floor(max(box.Min.X, 0)))), max(0, int(math.Floor(max(box.Min.Y, 0))))
	x1, y1 := int(math.Ceil(min(box.Max.X, float64(c.w)))), int(math.Ceil(min(box.Max.Y, float64(c.h))))
	m := &cover{x: x0, y: y0, w: x1 - x0, h: y1 - y0}
	if m.w <= 0 || m.h <= 0 {
		return &cover{}
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
	m.v = make([]float32, m.w*m.h)
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

// spans adds what lies inside along one line as steps, whose running sum along the row is the coverage.
func (m *cover) spans(row []crossing, evenOdd bool, steps []float64) {
	slices.SortFunc(row, func(a, b crossing) int { return cmp.Compare(a.x, b.x) })
	wind := 0
	step := func(x, by float64) {
		x = min(max(x-float64(m.x), 0), float64(m.w))
		i := int(x)
		part := x - float64(i) // of pixel i that lies before x
		steps[i] += by * (1 - part)
		steps[i+1] += by * part
	}
	for i := 0; i+1 < len(row); i++ {
		wind += int(row[i].dir)
		if evenOdd && i%2 == 0 || !evenOdd && wind != 0 {
			step(row[i].x, 1.0/subrows)
			step(row[i+1].x, -1.0/subrows)
		}
	}
}

// image paints the part of an embedded picture that is not transparent.
func (c *canvas) image(on []float32, n *artwork.Image) {
	toUnit, ok := n.Frame.Then(c.place).Inverse()
	if !ok || n.Pixels == nil {
		return
	}
	corners := make([]geom.Point, 0, 4)
	for _, q := range [4]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}} {
		corners = append(corners, n.Frame.Apply(q))
	}
	frame := c.fill([][]geom.Point{c.placed(corners)}, false)
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
	frame.over(on, c.w)
}
