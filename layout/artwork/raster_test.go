package artwork

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// subrows is how many lines a row of pixels is looked at along.
const subrows = 5

// mask is how much of each pixel is covered, row by row from the top.
type mask struct {
	w, h int
	v    []float32
}

func newMask(w, h int) *mask { return &mask{w, h, make([]float32, w*h)} }

type crossing struct {
	x   float32
	dir int8
}

// coverage fills polygons, given in pixels with y down, by either rule. Along a line it is exact.
func coverage(w, h int, polygons [][]geom.Point, evenOdd bool) *mask {
	m := newMask(w, h)
	rows := make([][]crossing, h*subrows)
	for _, poly := range polygons {
		for i, a := range poly {
			b := poly[(i+1)%len(poly)]
			dir := int8(1)
			if a.Y > b.Y {
				a, b, dir = b, a, -1
			}
			first := max(0, math.Ceil(a.Y*subrows-0.5))
			last := min(float64(h*subrows), math.Ceil(b.Y*subrows-0.5))
			for k := first; k < last; k++ {
				t := ((k+0.5)/subrows - a.Y) / (b.Y - a.Y)
				rows[int(k)] = append(rows[int(k)], crossing{float32(a.X + t*(b.X-a.X)), dir})
			}
		}
	}
	for k, row := range rows {
		slices.SortFunc(row, func(a, b crossing) int {
			switch {
			case a.x < b.x:
				return -1
			case a.x > b.x:
				return 1
			}
			return 0
		})
		wind := 0
		for i, c := range row {
			wind += int(c.dir)
			if evenOdd {
				wind = (i + 1) % 2
			}
			if wind != 0 && i+1 < len(row) {
				m.span(k/subrows, c.x, row[i+1].x)
			}
		}
	}
	for i := range m.v {
		m.v[i] = min(m.v[i], 1)
	}
	return m
}

// span covers a row from x0 to x1 by the height of one line.
func (m *mask) span(y int, x0, x1 float32) {
	x0, x1 = max(x0, 0), min(x1, float32(m.w))
	for x := int(x0); float32(x) < x1; x++ {
		m.v[y*m.w+x] += (min(x1, float32(x+1)) - max(x0, float32(x))) / subrows
	}
}

// layer holds red, green, blue and opacity of each pixel, from 0 to 1, the colours multiplied by the opacity.
type layer struct {
	w, h int
	v    [][4]float32
}

func newLayer(w, h int) *layer { return &layer{w, h, make([][4]float32, w*h)} }

// over puts a colour with so much opacity over pixel i.
func (l *layer) over(i int, c [3]float32, opacity float32) {
	p := &l.v[i]
	for k := range 3 {
		p[k] = c[k]*opacity + p[k]*(1-opacity)
	}
	p[3] = opacity + p[3]*(1-opacity)
}

// merge puts another layer over this one, through a mask (nil for none) and an opacity.
func (l *layer) merge(top *layer, m *mask, opacity float32) {
	for i, s := range top.v {
		k := opacity
		if m != nil {
			k *= m.v[i]
		}
		p := &l.v[i]
		for j := range 4 {
			p[j] = s[j]*k + p[j]*(1-s[3]*k)
		}
	}
}
