package silhouette

import (
	"errors"
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/pixels"
	"markout/layout/trace"
)

// What is drawn in lines is painted on pixels so fine, then traced: of a figure 1780 mm tall a pixel is under half a millimetre, and the
// outline keeps within a quarter of one of what is drawn.
const (
	drawnPixels    = 4096 // along the longer side of what is painted
	drawnTolerance = 0.5  // of the tracing, pixels
	edge           = 2    // pixels left free about it
)

// band is how many rows are painted at one time. What is held of the pixels is the runs of a band's rows that are covered alike, for each
// of the groups, clips and masks that stand in one another; so it grows neither with the canvas nor with the number of them side by side.
const band = 32

// canvas paints opacity, as if nothing could be seen through anything.
type canvas struct {
	place artwork.Matrix // from the picture to pixels, y down
	back  artwork.Matrix // from pixels, y up, to the picture
	w, h  int
	y     int // the first row of the band

	lines [][]crossing // of the band's lines
	steps []float64    // of one row's coverage
	marks []uint64     // which of them there are
	row   []span       // between two uses
	free  []*cover     // that are done with
	held  int          // corners

	clips  map[*artwork.Clip]*clip
	lately []*clip // that hold what they let through, the last used last

	opaque  map[*pixels.Picture][]uint8
	opacity int // bytes
}

var errTooThin = errors.New("the picture is more than 1000 times as long as it is wide, or has no size")

// newCanvas returns a canvas for all that a picture draws.
func newCanvas(p *artwork.Picture) (*canvas, error) {
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
	k := drawnPixels / long
	c := &canvas{
		w: int(math.Ceil(box.W()*k)) + 2*edge, h: int(math.Ceil(box.H()*k)) + 2*edge,
		back:  artwork.Matrix{A: 1 / k, D: 1 / k, E: box.Min.X - edge/k, F: box.Min.Y - edge/k},
		lines: make([][]crossing, band*subrows),
		clips: map[*artwork.Clip]*clip{}, opaque: map[*pixels.Picture][]uint8{},
	}
	c.steps, c.marks = make([]float64, c.w+2), make([]uint64, (c.w+2)/64+1)
	up, _ := c.back.Inverse()
	c.place = up.Then(artwork.Matrix{A: 1, D: -1, F: float64(c.h)})
	return c, nil
}

// scan paints a picture within its frame, band by band, for the tracing.
func (c *canvas) scan(p *artwork.Picture) (*trace.Scanner, error) {
	s, err := trace.NewScanner(c.w, c.h)
	if err != nil {
		return nil, err
	}
	parts := c.parts(p.Nodes, false)
	frame := &area{paths: []*geom.Path{geom.Polygon([]geom.Point{{}, {X: p.W}, {X: p.W, Y: p.H}, {Y: p.H}})}}
	samples := make([]uint16, c.w)
	for ; c.y < c.h; c.y += band {
		all := c.empty()
		c.paint(all, parts)
		seen := c.fill(frame)
		c.cut(all, seen, within)
		for y := range min(band, c.h-c.y) {
			clear(samples)
			for _, r := range all.rows[y] {
				for x := r.from; x < r.to; x++ {
					samples[x] = r.v
				}
			}
			if err := s.Row(samples); err != nil {
				return nil, err
			}
		}
		c.release(all)
		c.release(seen)
		c.forget(0)
	}
	return s, nil
}

// paint paints parts over what a cover holds.
func (c *canvas) paint(on *cover, parts []part) {
	for i := range parts {
		p := &parts[i]
		switch {
		case p.top >= c.y+band || p.bottom <= c.y:
		case p.image != nil:
			m := c.fill(p.areas[0])
			c.see(m, p.image)
			c.put(on, m)
			c.release(m)
		case p.clip == nil && !p.masked:
			c.paint(on, p.parts)
			for _, a := range p.areas {
				m := c.fill(a)
				if a.dark {
					c.cut(on, m, without)
				} else {
					c.put(on, m)
				}
				c.release(m)
			}
		default:
			c.group(on, p)
		}
	}
}

// group paints parts that are cut down to a clip or a mask.
func (c *canvas) group(on *cover, g *part) {
	m := c.empty()
	c.paint(m, g.parts)
	if g.clip != nil {
		c.cut(m, c.letsThrough(g.clip), within)
	}
	if g.masked {
		seen := c.empty()
		c.paint(seen, g.mask)
		c.cut(m, seen, within)
		c.release(seen)
	}
	c.put(on, m)
	c.release(m)
}

// mostLately is how many clips hold what they let through of a band: what is clipped in the same way mostly stands together.
const mostLately = 64

// letsThrough returns what a clip lets through; it is to be used before another is asked for.
func (c *canvas) letsThrough(k *clip) *cover {
	if k.cover == nil {
		m := c.empty()
		for _, o := range k.outlines {
			a := c.fill(o.area)
			if o.clip != nil {
				c.cut(a, c.letsThrough(o.clip), within)
			}
			c.put(m, a)
			c.release(a)
		}
		if k.clip != nil {
			c.cut(m, c.letsThrough(k.clip), within)
		}
		k.cover = m
		c.forget(mostLately - 1)
		c.lately = append(c.lately, k)
	}
	return k.cover
}

// forget lets go what clips let through, but for the last n.
func (c *canvas) forget(n int) {
	if len(c.lately) <= n {
		return
	}
	old := len(c.lately) - n
	for _, k := range c.lately[:old] {
		c.release(k.cover)
		k.cover = nil
	}
	c.lately = append(c.lately[:0], c.lately[old:]...)
}
