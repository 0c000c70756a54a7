package svg

import (
	"fmt"
	"image"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/pixels"
)

// miniPixels is the longer side of what is kept of a picture made of pixels, to draw thumbnails of its parts.
const miniPixels = 1024

// mini is a picture made of pixels, small, as it is stored: means of its pixels, premultiplied, row by row from the top.
type mini struct {
	w, h int
	v    dots
}

// mini returns a picture's miniature; each picture is decoded once, a strip at a time.
func (t *Thumbnails) mini(img *artwork.Image) (*mini, error) {
	p, err := header(img)
	if err != nil {
		return nil, fmt.Errorf("svg: a picture made of pixels: %w", err)
	}
	if m, ok := t.minis[p]; ok {
		return m, nil
	}
	m, err := shrink(p)
	if err != nil {
		return nil, fmt.Errorf("svg: a picture made of pixels: %w", err)
	}
	if t.minis == nil {
		t.minis = map[*pixels.Picture]*mini{}
	}
	t.minis[p] = m
	return m, nil
}

func shrink(p *pixels.Picture) (*mini, error) {
	step := (max(p.Width, p.Height) + miniPixels - 1) / miniPixels
	m := &mini{w: (p.Width + step - 1) / step, h: (p.Height + step - 1) / step}
	m.v = newDots(m.w, m.h)
	grey := p.PlainGrey()
	sums := make([][4]uint64, m.w)
	rows := 0
	err := p.Rows([]image.Rectangle{p.Bounds()}, func(r pixels.Row) error {
		for x := range p.Width {
			s := &sums[x/step]
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
			s[3] += alpha * 255
		}
		if rows++; (r.Y+1)%step != 0 && r.Y+1 != p.Height {
			return nil
		}
		for x := range sums {
			n := float64(rows*min(step, p.Width-x*step)) * 255 * 255
			for k := range 4 {
				m.v[r.Y/step*m.w+x][k] = float64(sums[x][k]) / n
			}
		}
		clear(sums)
		rows = 0
		return nil
	})
	return m, err
}

// image draws a picture made of pixels from its miniature.
func (r *raster) image(d dots, img *artwork.Image) {
	m, err := r.minis.mini(img)
	if err != nil {
		r.err = err
		return
	}
	back, ok := img.Frame.Then(r.lay).Inverse()
	if !ok {
		return
	}
	for i := range d {
		var sum [4]float64
		for k := range 4 { // the middles of the pixel's quarters
			at := back.Apply(geom.Point{X: float64(i%r.w) + 0.25 + float64(k%2)/2, Y: float64(i/r.w) + 0.25 + float64(k/2)/2})
			if !(at.X >= 0 && at.X < 1 && at.Y > 0 && at.Y <= 1) {
				continue
			}
			x, y := min(int(at.X*float64(m.w)), m.w-1), min(int((1-at.Y)*float64(m.h)), m.h-1)
			for n, v := range m.v[y*m.w+x] {
				sum[n] += v / 4 * img.Opacity
			}
		}
		for n := range sum {
			d[i][n] = sum[n] + d[i][n]*(1-sum[3])
		}
	}
}
