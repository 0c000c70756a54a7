package silhouette

import (
	"image"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/pixels"
)

// mostOpacity is how many bytes of the opacity of embedded pictures are held from band to band; of one it is held in any case.
const mostOpacity = 128 << 20

// see takes from what an embedded picture's frame covers what is transparent in it.
func (c *canvas) see(m *cover, n *artwork.Image) {
	toUnit, ok := n.Frame.Then(c.place).Inverse()
	if !ok || !n.Pixels.Alpha {
		return
	}
	opaque, err := c.opacityOf(n.Pixels)
	if err != nil {
		*m = cover{}
		return
	}
	w, h := n.Pixels.Width, n.Pixels.Height
	for y := range m.rows {
		c.row = c.row[:0]
		for _, r := range m.rows[y] {
			for x := r.from; x < r.to; x++ {
				q := toUnit.Apply(geom.Point{X: float64(x) + 0.5, Y: float64(c.y+y) + 0.5})
				px, py := int(min(max(q.X*float64(w), 0), float64(w-1))), int(min(max((1-q.Y)*float64(h), 0), float64(h-1)))
				c.row = add(c.row, x, x+1, within(r.v, uint16(opaque[py*w+px])*257))
			}
		}
		m.rows[y] = append(m.rows[y][:0], c.row...)
	}
}

// opacityOf returns the opacity of a picture's pixels, row by row.
func (c *canvas) opacityOf(p *pixels.Picture) ([]uint8, error) {
	if v, known := c.opaque[p]; known {
		return v, nil
	}
	if err := traceable(p); err != nil {
		return nil, err
	}
	v := make([]uint8, p.Width*p.Height)
	err := p.Strips(0, func(strip image.Image) error {
		b := strip.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y++ {
			row := v[y*p.Width:]
			for x := b.Min.X; x < b.Max.X; x++ {
				if s, ok := strip.(*image.NRGBA); ok {
					row[x] = s.Pix[s.PixOffset(x, y)+3]
					continue
				}
				_, _, _, a := strip.At(x, y).RGBA()
				row[x] = uint8(a >> 8)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if c.opacity+len(v) > mostOpacity {
		clear(c.opaque)
		c.opacity = 0
	}
	c.opaque[p] = v
	c.opacity += len(v)
	return v, nil
}
