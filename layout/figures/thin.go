package figures

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// Thin is a part of an outline that is thinner than some width.
type Thin struct {
	At   geom.Point // the middle of its box
	Long float64    // the greater side of its box
	Wide float64    // its area over that: about how thick it is
}

// How finely thin parts are looked for: squares to a width, at most so many in all, and so few that nothing is looked for.
const (
	squaresAcross = 16
	mostSquares   = 2_000_000
	fewestAcross  = 4
)

// ThinParts returns the parts of an area that are thinner than width, the longest first: what is lost when its outline is moved
// inwards by half of that and outwards again (an opening with a disc), where that is longer than width itself. Corners are
// rounded by it and not thin. It is reckoned over squares of a sixteenth of width, so that a part is taken for thin or not within a
// tenth of width or so, and of an area of more than 8000 widths squared over larger ones. Any outline serves, one that crosses
// itself too. nil of an area or a width of nothing, and of an area of more than 125 000 widths squared, in which nothing is looked for.
func ThinParts(r geom.Region, width float64) []Thin {
	if r.Outer.Empty() || !(width > geom.Tolerance) {
		return nil
	}
	f := newField(r, width/squaresAcross)
	if f == nil {
		return nil
	}
	half := width / 2 / f.each
	out := f.distances(func(i int) bool { return !f.in[i] })
	// A square's middle is half a square further from the middle of the nearest one outside than from the outline, and lies up to half a
	// square beside the middle of the part.
	core := f.distances(func(i int) bool { return out[i] >= half*half })
	reach := (half + 1) * (half + 1)
	lost := make([]bool, len(f.in))
	for i := range lost {
		lost[i] = f.in[i] && core[i] > reach
	}
	var thin []Thin
	for _, p := range f.parts(lost) {
		b := f.box(p)
		if long := max(b.W(), b.H()); long > width {
			thin = append(thin, Thin{b.Mid(), long, float64(len(p)) * f.each * f.each / long})
		}
	}
	slices.SortStableFunc(thin, func(a, b Thin) int { return cmp.Compare(b.Long, a.Long) })
	return thin
}

// field is an area over squares, with a border of squares that are not in it.
type field struct {
	min  geom.Point // lower left corner of the first square
	each float64
	w, h int
	in   []bool // by rows from below
}

// newField lays squares over an area; nil where that would take too many.
func newField(r geom.Region, each float64) *field {
	b := r.Bounds()
	if !(b.W() < geom.MostCoordinate && b.H() < geom.MostCoordinate) {
		return nil
	}
	most := each * squaresAcross / fewestAcross
	each = max(each, math.Sqrt(b.W()*b.H()/mostSquares), max(b.W(), b.H())/mostSquares)
	if each > most {
		return nil
	}
	f := &field{each: each, min: b.Min.Sub(geom.Point{X: 1.5 * each, Y: 1.5 * each})}
	f.w, f.h = int(b.W()/each)+4, int(b.H()/each)+4
	f.in = make([]bool, f.w*f.h)
	var rings [][]geom.Point
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		rings = append(rings, p.Flatten(each/8, nil))
	}
	crossed := make([][]float64, f.h)
	for _, ring := range rings {
		for k := range ring {
			f.cross(ring[k], ring[(k+1)%len(ring)], crossed)
		}
	}
	for j, xs := range crossed {
		slices.Sort(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			for i := max(int(math.Ceil(xs[k]-0.5)), 1); i <= min(int(math.Floor(xs[k+1]-0.5)), f.w-2); i++ {
				f.in[j*f.w+i] = true
			}
		}
	}
	return f
}

// cross notes where a line crosses the middles of rows, in squares from the left.
func (f *field) cross(a, b geom.Point, crossed [][]float64) {
	if a.Y > b.Y {
		a, b = b, a
	}
	from, to := (a.Y-f.min.Y)/f.each-0.5, (b.Y-f.min.Y)/f.each-0.5
	for j := max(int(math.Ceil(from)), 0); float64(j) < to && j < f.h; j++ {
		share := (float64(j) - from) / (to - from)
		crossed[j] = append(crossed[j], (a.X+(b.X-a.X)*share-f.min.X)/f.each)
	}
}

// distances returns for each square the squared distance, in squares, to the nearest one that is wanted, +Inf where there is
// none: along the columns, then along the rows, each by the lower envelope of parabolas (Felzenszwalb and Huttenlocher,
// Distance transforms of sampled functions, 2012).
func (f *field) distances(wanted func(i int) bool) []float64 {
	d := make([]float64, len(f.in))
	for i := range d {
		if !wanted(i) {
			d[i] = math.Inf(1)
		}
	}
	n := max(f.w, f.h)
	e := envelope{make([]float64, n), make([]int, n), make([]float64, n+1)}
	for i := range f.w {
		e.along(d, i, f.w, f.h)
	}
	for j := range f.h {
		e.along(d, j*f.w, 1, f.w)
	}
	return d
}

// envelope is scratch for one line.
type envelope struct {
	value []float64
	at    []int     // where the parabolas stand
	from  []float64 // from where on each is the lowest
}

// along replaces n values, step apart from first on, by the least of value + squared distance.
func (e *envelope) along(d []float64, first, step, n int) {
	k := -1
	for q := range n {
		v := d[first+q*step]
		e.value[q] = v
		if math.IsInf(v, 1) {
			continue
		}
		s := math.Inf(-1)
		for k >= 0 {
			p := e.at[k]
			s = (v + float64(q*q) - e.value[p] - float64(p*p)) / float64(2*(q-p))
			if s > e.from[k] {
				break
			}
			k--
		}
		if k < 0 {
			s = math.Inf(-1)
		}
		k++
		e.at[k], e.from[k] = q, s
	}
	if k < 0 {
		return
	}
	e.from[k+1] = math.Inf(1)
	p := 0
	for q := range n {
		for e.from[p+1] < float64(q) {
			p++
		}
		off := float64(q - e.at[p])
		d[first+q*step] = e.value[e.at[p]] + off*off
	}
}

// parts returns the squares that hang together, by sides or corners, part by part. It clears what it is given.
func (f *field) parts(set []bool) [][]int {
	var out [][]int
	for i := range set {
		if !set[i] {
			continue
		}
		set[i] = false
		part := []int{i}
		for k := 0; k < len(part); k++ {
			for _, dy := range [...]int{-f.w, 0, f.w} {
				for dx := -1; dx <= 1; dx++ {
					if at := part[k] + dy + dx; at >= 0 && at < len(set) && set[at] {
						set[at] = false
						part = append(part, at)
					}
				}
			}
		}
		out = append(out, part)
	}
	return out
}

// box returns the box of squares in the area's own millimetres.
func (f *field) box(squares []int) geom.Rect {
	b := geom.EmptyRect()
	for _, i := range squares {
		at := f.min.Add(geom.Point{X: float64(i%f.w) * f.each, Y: float64(i/f.w) * f.each})
		b = b.Include(at).Include(at.Add(geom.Point{X: f.each, Y: f.each}))
	}
	return b
}
