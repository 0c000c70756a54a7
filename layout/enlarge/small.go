package enlarge

import (
	"bytes"
	"image"
	"image/png"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/pixels"
)

// arm is the distance in millimetres from which a sheet in the hand is read.
const arm = 400

// Small returns a picture as it is shown on a sheet in the hand, which frame takes it to in millimetres: pictures made of pixels that
// have more of them than an eye parts there have their means in their place, without their colour profiles, so that a sheet of a
// hundred megapixels opens at once. Their pixels are decoded strip by strip. It is p itself where none has so many. The error is a
// *pixels.Error.
func Small(p *artwork.Picture, frame artwork.Matrix) (*artwork.Picture, error) {
	s := shrinker{frame: frame, done: map[*pixels.Picture]*artwork.Image{}}
	nodes, err := s.nodes(p.Nodes)
	if err != nil || len(s.done) == 0 {
		return p, err
	}
	return &artwork.Picture{W: p.W, H: p.H, Nodes: nodes}, nil
}

type shrinker struct {
	frame artwork.Matrix
	done  map[*pixels.Picture]*artwork.Image
}

func (s *shrinker) nodes(nodes []artwork.Node) ([]artwork.Node, error) {
	out := make([]artwork.Node, len(nodes))
	for i, n := range nodes {
		out[i] = n
		switch n := n.(type) {
		case *artwork.Group:
			g := *n
			var err error
			if g.Nodes, err = s.nodes(n.Nodes); err != nil {
				return nil, err
			}
			out[i] = &g
		case *artwork.Image:
			if n.Pixels == nil {
				continue
			}
			m, err := s.image(n)
			if err != nil {
				return nil, err
			}
			out[i] = m
		}
	}
	return out, nil
}

// image returns a picture with so many pixels as are seen, itself where it has fewer than twice as many each way.
func (s *shrinker) image(n *artwork.Image) (*artwork.Image, error) {
	m := n.Frame.Then(s.frame)
	each := arm / minutes
	w := int(m.Vector(geom.Point{X: 1}).Len()/each) + 1
	h := int(m.Vector(geom.Point{Y: 1}).Len()/each) + 1
	if 2*w > n.Width || 2*h > n.Height {
		return n, nil
	}
	small, known := s.done[n.Pixels]
	if !known || small.Width < w && small.Width*blockSide < n.Width {
		m, err := seen(n.Pixels, w, h)
		if err != nil {
			return nil, err
		}
		if small, err = packed(m); err != nil {
			return nil, err
		}
		s.done[n.Pixels] = small
	}
	out := *small
	out.Frame, out.Opacity, out.Span = n.Frame, n.Opacity, n.Span
	return &out, nil
}

// blockSide is how many pixels of a JPEG lie side by side in a block.
const blockSide = 8

// seen returns a picture with about w × h pixels: no fewer than half as many each way.
func seen(p *pixels.Picture, w, h int) (image.Image, error) {
	if 2*p.Width >= blockSide*w && 2*p.Height >= blockSide*h {
		if m, ok, err := p.Eighth(); ok || err != nil {
			return m, err
		}
	}
	return means(p, w, h)
}

// packed returns pixels as artwork.
func packed(m image.Image) (*artwork.Image, error) {
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := e.Encode(&b, m); err != nil {
		return nil, err
	}
	p, err := pixels.Open(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		return nil, err
	}
	return &artwork.Image{Data: b.Bytes(), Format: artwork.PNG, Width: p.Width, Height: p.Height, Pixels: p}, nil
}

// means returns a picture of w × h pixels, each the mean of those of p that fall into it, weighed by how opaque they are. It has no more
// pixels than p either way.
func means(p *pixels.Picture, w, h int) (image.Image, error) {
	grey := p.PlainGrey()
	var out image.Image
	var put func(x, y int, sum *[4]uint64, n uint64)
	box := image.Rect(0, 0, w, h)
	if grey && !p.Alpha {
		g := image.NewGray(box)
		out = g
		put = func(x, y int, sum *[4]uint64, n uint64) { g.Pix[g.PixOffset(x, y)] = uint8((sum[0]/255 + n/2) / n) }
	} else {
		c := image.NewNRGBA(box)
		out = c
		put = func(x, y int, sum *[4]uint64, n uint64) {
			q := c.Pix[c.PixOffset(x, y):]
			if a := sum[3]; a > 0 {
				q[0], q[1], q[2], q[3] = uint8((sum[0]+a/2)/a), uint8((sum[1]+a/2)/a), uint8((sum[2]+a/2)/a), uint8((a+n/2)/n)
			}
		}
	}
	sums, counts := make([][4]uint64, w), make([]uint64, w)
	of := make([]int, p.Width) // column that a pixel falls into
	for x := range of {
		of[x] = x * w / p.Width
	}
	err := p.Rows([]image.Rectangle{p.Bounds()}, func(r pixels.Row) error {
		for x, at := range of {
			s := &sums[at]
			counts[at]++
			alpha := uint64(255)
			if r.Alpha != nil {
				alpha = uint64(r.Alpha[x])
			}
			if grey {
				v := uint64(r.Colour[x]) * alpha
				s[0], s[1], s[2] = s[0]+v, s[1]+v, s[2]+v
			} else {
				c := r.Colour[3*x : 3*x+3]
				s[0], s[1], s[2] = s[0]+uint64(c[0])*alpha, s[1]+uint64(c[1])*alpha, s[2]+uint64(c[2])*alpha
			}
			s[3] += alpha
		}
		y := r.Y * h / p.Height
		if r.Y+1 < p.Height && (r.Y+1)*h/p.Height == y {
			return nil
		}
		for x := range w {
			put(x, y, &sums[x], counts[x])
		}
		clear(sums)
		clear(counts)
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}
