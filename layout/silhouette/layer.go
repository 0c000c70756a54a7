package silhouette

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// layer is the opacity of the pixels of a box, row by row from the top, 0 to 1.
type layer struct {
	x, y, w, h int
	v          []float32
}

// row returns the pixels of row y from x0 to x1, all places of the canvas.
func (l *layer) row(y, x0, x1 int) []float32 {
	at := (y-l.y)*l.w - l.x
	return l.v[at+x0 : at+x1]
}

// common returns the box that two layers share.
func (l *layer) common(m *layer) (x0, y0, x1, y1 int) {
	return max(l.x, m.x), max(l.y, m.y), min(l.x+l.w, m.x+m.w), min(l.y+l.h, m.y+m.h)
}

// over puts l over what is painted on another layer.
func (l *layer) over(on *layer) {
	x0, y0, x1, y1 := l.common(on)
	if x0 >= x1 {
		return
	}
	for y := y0; y < y1; y++ {
		to := on.row(y, x0, x1)
		for i, v := range l.row(y, x0, x1) {
			to[i] = 1 - (1-to[i])*(1-min(v, 1))
		}
	}
}

// within cuts l down to what another layer holds.
func (l *layer) within(m *layer) {
	x0, y0, x1, y1 := l.common(m)
	for y := l.y; y < l.y+l.h; y++ {
		all := l.row(y, l.x, l.x+l.w)
		if x0 >= x1 || y < y0 || y >= y1 {
			clear(all)
			continue
		}
		clear(all[:x0-l.x])
		clear(all[x1-l.x:])
		to := l.row(y, x0, x1)
		for i, v := range m.row(y, x0, x1) {
			to[i] *= min(v, 1)
		}
	}
}

// cover returns the pixels of the layer that a box of pixels touches.
func (l *layer) cover(box geom.Rect) (x0, y0, x1, y1 int) {
	within := func(v float64, from, n int) int { return int(min(max(v, float64(from)), float64(from+n))) }
	return within(math.Floor(box.Min.X), l.x, l.w), within(math.Floor(box.Min.Y), l.y, l.h),
		within(math.Ceil(box.Max.X), l.x, l.w), within(math.Ceil(box.Max.Y), l.y, l.h)
}

type crossing struct {
	x   float64
	dir int8
}

// spans adds what lies inside along one line as steps, whose running sum along the row is the coverage.
func (m *layer) spans(row []crossing, evenOdd bool, steps []float64) {
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
