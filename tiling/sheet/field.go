package sheet

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// cell is the side in millimetres of the squares by which it is known what is taken on a sheet.
const cell = 0.5

// taken is what a square holds when nothing else may stand there: lettering. Less is lines, which lettering may cross
// where it must.
const taken = math.MaxUint8

// What a square under a line weighs: a leading line that lettering may cross, a thin one, an outline.
const (
	lightLine = 1
	thinLine  = 3
	wideLine  = 8
)

// field knows which squares of a box on the sheet are taken, and by how heavy a line.
type field struct {
	box  geom.Rect
	w, h int
	cost []uint8
}

func newField(box geom.Rect) *field {
	f := &field{box: box, w: max(1, int(math.Ceil(box.W()/cell))), h: max(1, int(math.Ceil(box.H()/cell)))}
	f.cost = make([]uint8, f.w*f.h)
	return f
}

func (f *field) at(p geom.Point) (i, k int) {
	return int(math.Floor((p.X - f.box.Min.X) / cell)), int(math.Floor((p.Y - f.box.Min.Y) / cell))
}

func (f *field) set(i, k int, weight uint8) {
	if i < 0 || k < 0 || i >= f.w || k >= f.h {
		return
	}
	if c := &f.cost[k*f.w+i]; *c < weight {
		*c = weight
	}
}

// line takes the squares along a segment.
func (f *field) line(a, b geom.Point, weight uint8) {
	t0, t1, ok := tiling.ClipSegment(a, b, f.box)
	if !ok {
		return
	}
	a, b = a.Lerp(b, t0), a.Lerp(b, t1)
	n := int(math.Ceil(a.Dist(b)/(cell/2))) + 1
	for s := 0; s <= n; s++ {
		i, k := f.at(a.Lerp(b, float64(s)/float64(n)))
		f.set(i, k, weight)
	}
}

// run takes the squares along a polyline.
func (f *field) run(r *tiling.Run, weight uint8) {
	for i := 1; i < len(r.Points); i++ {
		f.line(r.Points[i-1], r.Points[i], weight)
	}
	if n := len(r.Points); r.Closed && n > 1 {
		f.line(r.Points[n-1], r.Points[0], weight)
	}
}

// fill takes a whole box.
func (f *field) fill(r geom.Rect, weight uint8) {
	f.each(r, func(c *uint8) { *c = max(*c, weight) })
}

// weigh adds up what a box would cover. ok is false where it leaves the field or covers lettering.
func (f *field) weigh(r geom.Rect) (sum int, ok bool) {
	i0, k0 := f.at(r.Min)
	i1, k1 := f.at(r.Max)
	if i0 < 0 || k0 < 0 || i1 >= f.w || k1 >= f.h {
		return 0, false
	}
	for k := k0; k <= k1; k++ {
		for _, c := range f.cost[k*f.w+i0 : k*f.w+i1+1] {
			if c == taken {
				return 0, false
			}
			sum += int(c)
		}
	}
	return sum, true
}

// free finds the lower left corner of a box of w × h that covers nothing at all: the lowest, of those the furthest to the
// left; columns first where upright.
func (f *field) free(w, h float64, upright bool) (geom.Point, bool) {
	const step = 4 // squares
	nx, ny := f.w/step, f.h/step
	if upright {
		nx, ny = ny, nx
	}
	for b := range ny {
		for a := range nx {
			i, k := a, b
			if upright {
				i, k = b, a
			}
			low := f.box.Min.Add(geom.Point{X: float64(i*step) * cell, Y: float64(k*step) * cell})
			if sum, ok := f.weigh(boxAt(low, w, h)); ok && sum == 0 {
				return low, true
			}
		}
	}
	return geom.Point{}, false
}

// copy keeps the squares of a box, paste puts them back.
func (f *field) copy(r geom.Rect) (kept []uint8) {
	f.each(r, func(c *uint8) { kept = append(kept, *c) })
	return kept
}

func (f *field) paste(r geom.Rect, kept []uint8) {
	n := 0
	f.each(r, func(c *uint8) { *c = kept[n]; n++ })
}

// each visits the squares of a box.
func (f *field) each(r geom.Rect, visit func(c *uint8)) {
	i0, k0 := f.at(r.Min)
	i1, k1 := f.at(r.Max)
	for k := max(k0, 0); k <= min(k1, f.h-1); k++ {
		for i := max(i0, 0); i <= min(i1, f.w-1); i++ {
			visit(&f.cost[k*f.w+i])
		}
	}
}

// along adds up the lines that a segment crosses, and reports whether it runs over lettering.
func (f *field) along(a, b geom.Point) (sum int, covers bool) {
	n := int(math.Ceil(a.Dist(b)/cell)) + 1
	for s := 1; s <= n; s++ {
		i, k := f.at(a.Lerp(b, float64(s)/float64(n)))
		if i < 0 || k < 0 || i >= f.w || k >= f.h {
			continue
		}
		c := f.cost[k*f.w+i]
		if c == taken {
			return 0, true
		}
		sum += int(c)
	}
	return sum, false
}

// page takes what a page's layers hold so far: lines by their width, lettering whole.
func (f *field) page(p *tiling.Page) {
	for l := range p.Layers {
		c := &p.Layers[l]
		for i := range c.Strokes {
			s := &c.Strokes[i]
			weight := uint8(lightLine)
			switch {
			case s.Pen.Width > drawing.NarrowLine:
				weight = wideLine
			case s.Pen.Tone == drawing.Black:
				weight = thinLine
			}
			for k := range s.Runs {
				f.run(&s.Runs[k], weight)
			}
		}
		for i := range c.Texts {
			f.text(&c.Texts[i])
		}
	}
}

// text takes the box of a text.
func (f *field) text(t *tiling.Text) {
	f.fill(include(geom.EmptyRect(), t.Corners()), taken)
}
