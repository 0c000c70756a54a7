package reread

import (
	"image"
	"math"
)

// Extent is the box of what a page has on a layer, of its lines' and areas' own outlines, without the width of the pen, clips not
// applied: exact for curves too. keep chooses among the paths; nil keeps all.
func (p Page) Extent(layer string, keep func(Path) bool) Box {
	b := noBox()
	for _, path := range p.Paths {
		if path.Layer == layer && (keep == nil || keep(path)) {
			b = b.with(bounds(path.Subs))
		}
	}
	return b
}

// W and H are a box's sides; less than nothing for the box of nothing.
func (b Box) W() float64 { return b.Max.X - b.Min.X }
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

func noBox() Box {
	inf := math.Inf(1)
	return Box{Point{inf, inf}, Point{-inf, -inf}}
}

func (b Box) with(c Box) Box {
	return Box{
		Point{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)},
		Point{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)},
	}
}

func boxOf(points ...Point) Box {
	b := noBox()
	for _, p := range points {
		b = b.with(Box{p, p})
	}
	return b
}

// bounds is the exact box of paths: of a cubic the places where it turns back are in it, its handles are not.
func bounds(subs []Sub) Box {
	b := noBox()
	for _, s := range subs {
		for i, p := range s.Points {
			b = b.with(Box{p, p})
			if i == 0 || !s.Curved {
				continue
			}
			from, h := s.Points[i-1], s.Handles[i]
			for _, t := range append(turns(from.X, h[0].X, h[1].X, p.X), turns(from.Y, h[0].Y, h[1].Y, p.Y)...) {
				q := Point{cubicAt(from.X, h[0].X, h[1].X, p.X, t), cubicAt(from.Y, h[0].Y, h[1].Y, p.Y, t)}
				b = b.with(Box{q, q})
			}
		}
	}
	return b
}

// turns returns where between its ends one coordinate of a Bézier cubic turns back: the roots of its derivative, a quadratic.
func turns(p0, p1, p2, p3 float64) []float64 {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	var all []float64
	add := func(t float64) {
		if t > 0 && t < 1 {
			all = append(all, t)
		}
	}
	root := b*b - 4*a*c
	if root < 0 {
		return nil
	}
	q := -(b + math.Copysign(math.Sqrt(root), b)) / 2
	if a != 0 {
		add(q / a)
	}
	if q != 0 {
		add(c / q)
	}
	return all
}

func cubicAt(p0, p1, p2, p3, t float64) float64 {
	u := 1 - t
	return u*u*u*p0 + 3*u*u*t*p1 + 3*u*t*t*p2 + t*t*t*p3
}

// Painted is the box, in millimetres from the lower left corner, of the pixels of a drawn page that are darker than a grey
// (255 is white): within one pixel, 25.4/dpi mm, of what is painted. within, where it has any size, is the part looked at.
func Painted(img *image.Gray, dpi float64, darker uint8, within Box) Box {
	b := noBox()
	mm := 25.4 / dpi
	h := img.Bounds().Dy()
	whole := !(within.W() > 0 && within.H() > 0)
	for y := range h {
		for x := range img.Bounds().Dx() {
			if img.Pix[y*img.Stride+x] >= darker {
				continue
			}
			pixel := Box{Point{float64(x) * mm, float64(h-y-1) * mm}, Point{float64(x+1) * mm, float64(h-y) * mm}}
			if whole || pixel.Min.X >= within.Min.X && pixel.Max.X <= within.Max.X && pixel.Min.Y >= within.Min.Y && pixel.Max.Y <= within.Max.Y {
				b = b.with(pixel)
			}
		}
	}
	return b
}
