package trace

import "errors"

// full is the coverage of a pixel that lies wholly in the figure.
const full = 1<<16 - 1

// Field is a picture's coverage: for each pixel, how much of it the figure covers, as samples at the pixels' centres.
// Row 0 is the top one. What lies outside the picture is not covered.
type Field struct {
	w, h int
	low  []uint8 // samples of 8 bits, or
	high []uint16
}

// mostSide is the greatest number of pixels along a side, and mostPixels in all: what is larger is no picture to trace.
const (
	mostSide   = 1 << 16
	mostPixels = 1 << 28
)

// NewField8 returns a field of w × h samples of 8 bits, rows from the top, 255 for wholly covered. The field keeps samples.
func NewField8(w, h int, samples []uint8) (*Field, error) {
	if err := sized(w, h, len(samples)); err != nil {
		return nil, err
	}
	return &Field{w: w, h: h, low: samples}, nil
}

// NewField16 is NewField8 for samples of 16 bits, 65535 for wholly covered.
func NewField16(w, h int, samples []uint16) (*Field, error) {
	if err := sized(w, h, len(samples)); err != nil {
		return nil, err
	}
	return &Field{w: w, h: h, high: samples}, nil
}

func sized(w, h, n int) error {
	switch {
	case w < 0 || h < 0 || w > mostSide || h > mostSide || w*h > mostPixels:
		return errors.New("a picture to trace has at most 65 536 pixels a side and 268 million in all")
	case w*h != n:
		return errors.New("there are not as many samples as pixels")
	}
	return nil
}

// Size returns the field's pixels across and down.
func (f *Field) Size() (w, h int) { return f.w, f.h }

// row writes row y as samples of 16 bits.
func (f *Field) row(y int, dst []uint16) {
	if f.high != nil {
		copy(dst, f.high[y*f.w:(y+1)*f.w])
		return
	}
	for x, v := range f.low[y*f.w : (y+1)*f.w] {
		dst[x] = uint16(v) * 257
	}
}

// Area returns the area that the figure covers in square pixels: the sum of the samples, 1 for a whole pixel.
func (f *Field) Area() float64 {
	sum := uint64(0)
	for _, v := range f.low {
		sum += uint64(v) * 257
	}
	for _, v := range f.high {
		sum += uint64(v)
	}
	return float64(sum) / full
}
