package trace

import (
	"errors"
	"image"
	"image/color"
	"math"
	"slices"
)

// Ground is what a figure stands on in a picture without transparency.
type Ground uint8

const (
	Light Ground = iota // the figure is darker
	Dark                // the figure is lighter
)

// FromAlpha returns the coverage of a picture whose background is transparent: its opacity.
func FromAlpha(img image.Image) (*Field, error) {
	b := img.Bounds()
	switch p := img.(type) {
	case *image.Alpha:
		return from8(b, func(x, y int) uint8 { return p.Pix[p.PixOffset(x, y)] })
	case *image.NRGBA:
		return from8(b, func(x, y int) uint8 { return p.Pix[p.PixOffset(x, y)+3] })
	case *image.RGBA:
		return from8(b, func(x, y int) uint8 { return p.Pix[p.PixOffset(x, y)+3] })
	}
	at := reader(img)
	if err := sized(b.Dx(), b.Dy(), b.Dx()*b.Dy()); err != nil {
		return nil, err
	}
	samples := make([]uint16, 0, b.Dx()*b.Dy())
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			samples = append(samples, at(x, y).A)
		}
	}
	return NewField16(b.Dx(), b.Dy(), samples)
}

// FromBrightness returns the coverage of a picture by its brightness against a light or a dark ground. The edge stands at
// threshold, 0 to 1; where that is 0 it is found by Otsu's method, and the coverage runs evenly from the mean brightness of
// the ground to that of the figure, whose middle is where that method parts them. Transparent places count as ground.
func FromBrightness(img image.Image, g Ground, threshold float64) (*Field, error) {
	b := img.Bounds()
	at := reader(img)
	grey, err := from8(b, func(x, y int) uint8 {
		c := at(x, y)
		l := (19595*uint32(c.R) + 38470*uint32(c.G) + 7471*uint32(c.B) + 1<<15) >> 16 // as color.GrayModel has it
		if g == Light {
			l = uint32(c.A) - min(l, uint32(c.A)) // how much darker than white
		}
		return uint8(l >> 8)
	})
	if err != nil {
		return nil, err
	}
	low, high := 0.0, 0.0
	switch {
	case threshold != 0 && !(threshold > 0 && threshold < 1):
		return nil, errors.New("a threshold of brightness lies between 0 and 1")
	case threshold == 0:
		var ok bool
		if _, low, high, ok = otsu(grey.histogram()); !ok {
			return nil, ErrNothing
		}
	default:
		if g == Light {
			threshold = 1 - threshold
		}
		// The nearer end of the scale is as far from the threshold on both sides.
		reach := min(threshold, 1-threshold)
		low, high = 255*(threshold-reach), 255*(threshold+reach)
	}
	grey.stretch(low, high)
	return grey, nil
}

// FromBackground returns the coverage of a picture whose background has one colour, which is the median of the pixels
// along its border: by how far each pixel's colour is from it, the greatest difference of red, green and blue. The edge
// stands at the difference threshold, 0 to 1. Where that is 0 it is half of what all but a tenth of the figure has, so that
// a figure of one colour has its edge where it covers half a pixel, and at least above what the border itself has.
func FromBackground(img image.Image, threshold float64) (*Field, error) {
	if threshold != 0 && !(threshold > 0 && threshold < 1) {
		return nil, errors.New("a threshold of colour lies between 0 and 1")
	}
	b := img.Bounds()
	if b.Empty() {
		return nil, ErrNothing
	}
	at := reader(img)
	ground := borderColour(b, at)
	far, err := from8(b, func(x, y int) uint8 {
		c := at(x, y)
		return uint8(max(apartBy(c.R, ground.R), apartBy(c.G, ground.G), apartBy(c.B, ground.B), apartBy(c.A, ground.A)) >> 8)
	})
	if err != nil {
		return nil, err
	}
	edge := 255 * threshold
	if threshold == 0 {
		edge = far.edge()
	}
	reach := min(edge, 255-edge)
	far.stretch(edge-reach, edge+reach)
	return far, nil
}

// edge returns the difference from the background at which the edge of the figure stands.
func (f *Field) edge() float64 {
	var border []uint8
	f.border(func(x, y int) { border = append(border, f.low[y*f.w+x]) })
	slices.Sort(border)
	// A tenth of the border may belong to the figure. Fewer than 8 levels of 255 are no difference.
	noise := max(8, 1.5*float64(border[len(border)*9/10]))
	hist := f.histogram()
	n, seen := 0, 0
	for i, c := range hist {
		if float64(i) > noise {
			n += c
		}
	}
	for i, c := range hist {
		if float64(i) > noise {
			if seen += c; 10*seen >= n {
				return min(max(noise, float64(i)/2), 254)
			}
		}
	}
	return min(noise, 254)
}

// border visits the pixels along the field's border, each once.
func (f *Field) border(visit func(x, y int)) {
	for x := range f.w {
		visit(x, 0)
		if f.h > 1 {
			visit(x, f.h-1)
		}
	}
	for y := 1; y < f.h-1; y++ {
		visit(0, y)
		if f.w > 1 {
			visit(f.w-1, y)
		}
	}
}

func borderColour(b image.Rectangle, at func(x, y int) color.RGBA64) color.RGBA64 {
	var parts [4][]uint16
	box := Field{w: b.Dx(), h: b.Dy()}
	box.border(func(x, y int) {
		c := at(b.Min.X+x, b.Min.Y+y)
		for i, v := range [4]uint16{c.R, c.G, c.B, c.A} {
			parts[i] = append(parts[i], v)
		}
	})
	var m [4]uint16
	for i, p := range parts {
		slices.Sort(p)
		m[i] = p[len(p)/2]
	}
	return color.RGBA64{R: m[0], G: m[1], B: m[2], A: m[3]}
}

func apartBy(a, b uint16) uint16 { return max(a, b) - min(a, b) }

// stretch makes low to nothing covered and high to all; between them it runs evenly.
func (f *Field) stretch(low, high float64) {
	f.high = make([]uint16, len(f.low))
	var to [256]uint16
	for i := range to {
		to[i] = uint16(math.Round(full * min(max((float64(i)-low)/(high-low), 0), 1)))
	}
	for i, v := range f.low {
		f.high[i] = to[v]
	}
	f.low = nil
}

func (f *Field) histogram() *[256]int {
	var h [256]int
	for _, v := range f.low {
		h[v]++
	}
	return &h
}

func from8(b image.Rectangle, at func(x, y int) uint8) (*Field, error) {
	w, h := b.Dx(), b.Dy()
	if err := sized(w, h, w*h); err != nil {
		return nil, err
	}
	samples := make([]uint8, 0, w*h)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			samples = append(samples, at(x, y))
		}
	}
	return NewField8(w, h, samples)
}

// reader returns the picture's colours, multiplied by their opacity.
func reader(img image.Image) func(x, y int) color.RGBA64 {
	if p, ok := img.(image.RGBA64Image); ok {
		return p.RGBA64At
	}
	return func(x, y int) color.RGBA64 {
		r, g, b, a := img.At(x, y).RGBA()
		return color.RGBA64{R: uint16(r), G: uint16(g), B: uint16(b), A: uint16(a)}
	}
}
