package pdf

import (
	"bytes"
	"fmt"
	"image"
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/pixels"
)

// smallImage is the number of pixels up to which a picture is not taken apart.
const smallImage = 1 << 16

// source is a picture made of pixels with the parts that are wanted of it. Their numbers stand before their bytes do.
type source struct {
	pixels *pixels.Picture
	data   []byte // of a JPEG
	space  string // its profile's colour space, empty without one
	parts  map[image.Rectangle]int
	list   []part
}

// part is the pixels of a rectangle, as an object of the file, and what shows through them as another, 0 for nothing.
type part struct {
	rect         image.Rectangle
	object, mask ref
}

// sources are the pictures made of pixels in the order in which they are met.
type sources struct {
	list    []*source
	byImage map[*artwork.Image]*source
	byBytes map[*byte]*source
}

// source returns what stands for an image; all images of the same bytes share it.
func (g *gallery) source(img *artwork.Image) (*source, error) {
	s := &g.sources
	if s.byImage == nil {
		s.byImage, s.byBytes = map[*artwork.Image]*source{}, map[*byte]*source{}
	}
	if one := s.byImage[img]; one != nil {
		return one, nil
	}
	var key *byte
	if len(img.Data) > 0 {
		key = &img.Data[0]
	}
	one := s.byBytes[key]
	if one == nil || key == nil {
		p := img.Pixels
		if p == nil {
			var err error
			if p, err = pixels.Open(bytes.NewReader(img.Data), int64(len(img.Data))); err != nil {
				return nil, fmt.Errorf("pdf: a picture made of pixels: %w", err)
			}
		}
		one = &source{pixels: p, data: img.Data, parts: map[image.Rectangle]int{}}
		s.list = append(s.list, one)
		if key != nil {
			s.byBytes[key] = one
		}
		if err := g.profile(one); err != nil {
			return nil, err
		}
	}
	s.byImage[img] = one
	return one, nil
}

// image appends the part of a picture made of pixels that the window shows.
func (c *canvas) image(img *artwork.Image) {
	s, err := c.source(img)
	if err != nil {
		c.gallery.err = err
		return
	}
	back, ok := img.Frame.Inverse()
	if !ok {
		return
	}
	rect := s.pixels.Bounds()
	w, h := float64(rect.Dx()), float64(rect.Dy())
	if rect.Dx()*rect.Dy() > smallImage {
		box := geom.EmptyRect()
		for _, q := range c.corners {
			u := back.Apply(q)
			box = box.Include(geom.Point{X: u.X * w, Y: (1 - u.Y) * h})
		}
		if rect = around(box, s.pixels); rect.Empty() {
			return
		}
	}
	p := c.part(s, rect)
	c.push()
	c.setFillAlpha(img.Opacity)
	x0, x1 := float64(rect.Min.X)/w, float64(rect.Max.X)/w
	y0, y1 := 1-float64(rect.Max.Y)/h, 1-float64(rect.Min.Y)/h
	c.matrix(artwork.Matrix{A: x1 - x0, D: y1 - y0, E: x0, F: y0}.Then(img.Frame), 1)
	c.do(p.object)
	c.pop()
	c.coloured = c.coloured || !s.pixels.PlainGrey()
}

// around is the pixels in a box, grown by what readers look at beyond an edge when they smooth colours that were thinned out
// (two samples of them) or pixels that are enlarged, out to the borders of the blocks that a JPEG is cut at.
func around(box geom.Rect, p *pixels.Picture) image.Rectangle {
	all := p.Bounds()
	margin := max(4, p.Block.X/4, p.Block.Y/4)
	clamp := func(v float64, most int) int { return int(min(max(v, -1e6), float64(most)+1e6)) }
	r := image.Rect(
		clamp(math.Floor(box.Min.X), all.Max.X)-margin, clamp(math.Floor(box.Min.Y), all.Max.Y)-margin,
		clamp(math.Ceil(box.Max.X), all.Max.X)+margin, clamp(math.Ceil(box.Max.Y), all.Max.Y)+margin,
	).Intersect(all)
	if b := p.Block; b.X > 0 && b.Y > 0 && !r.Empty() {
		r = image.Rect(r.Min.X/b.X*b.X, r.Min.Y/b.Y*b.Y, (r.Max.X+b.X-1)/b.X*b.X, (r.Max.Y+b.Y-1)/b.Y*b.Y).Intersect(all)
	}
	return r
}

// part gives a part of a picture its numbers.
func (c *canvas) part(s *source, rect image.Rectangle) part {
	i, known := s.parts[rect]
	if !known {
		p := part{rect: rect, object: c.file.alloc(1)}
		if s.pixels.Alpha {
			p.mask = c.file.alloc(1)
		}
		i = len(s.list)
		s.parts[rect], s.list = i, append(s.list, p)
	}
	return s.list[i]
}
