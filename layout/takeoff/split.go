package takeoff

import (
	"math"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
)

// Splitting (common practice, no source): whole boards first, the rest at the end; where the rest would be a strip narrower than
// sliver, parts of one size. A seam through an outline keeps away from places that are thin there and beside.
const (
	sliver    = 300.0
	beside    = 100.0
	mostCells = 1000
	sawn      = 0.1 // how near straight runs come to the curves of what is split
)

// nth names one of several parts of a piece.
func nth(name string, i, n int) string {
	return name + " " + strconv.Itoa(i) + " of " + strconv.Itoa(n)
}

func span(parts []float64) float64 {
	t := 0.0
	for _, p := range parts {
		t += p
	}
	return t
}

// runs splits a length into as few parts as are no longer than most.
func runs(total, most float64) []float64 {
	n := int(math.Ceil(total/most - geom.Tolerance/most))
	if n <= 1 {
		return []float64{total}
	}
	out := make([]float64, n)
	rest := total - float64(n-1)*most
	for i := range out {
		switch {
		case rest < sliver:
			out[i] = total / float64(n)
		case i < n-1:
			out[i] = most
		default:
			out[i] = rest
		}
	}
	return out
}

// ways returns the box of board along and across a piece's own x, for each way in which it may lie.
func (w *work) ways(b *set.Board) [][2]float64 {
	var out [][2]float64
	asIs, turned := lies(b.Grain, w.e.Lie)
	if asIs {
		out = append(out, [2]float64{b.Length, b.Width})
	}
	if turned {
		out = append(out, [2]float64{b.Width, b.Length})
	}
	if out == nil { // turned by what is neither: as if it lay square
		out = append(out, [2]float64{b.Length, b.Width})
	}
	return out
}

// cells splits a rectangle into what comes out of boards: the fewest parts, of such those with the shortest seams. It is
// false where there would be too many.
func (w *work) cells(length, width float64, b *set.Board) (xs, ys []float64, ok bool) {
	best, seams := math.MaxInt, 0.0
	for _, way := range w.ways(b) {
		nx, ny := math.Ceil(length/way[0]), math.Ceil(width/way[1])
		if nx*ny > mostCells {
			continue
		}
		x, y := runs(length, way[0]), runs(width, way[1])
		n := len(x) * len(y)
		s := float64(len(x)-1)*width + float64(len(y)-1)*length
		if n < best || n == best && s < seams-geom.Tolerance {
			best, seams, xs, ys = n, s, x, y
		}
	}
	return xs, ys, best < math.MaxInt
}

// cutOut takes off an outline, which may be anywhere in its plane.
func (w *work) cutOut(r geom.Region, p spec) {
	box := r.Outer.Bounds()
	if box.Empty() || box.W() <= geom.Tolerance || box.H() <= geom.Tolerance {
		return
	}
	if rectangle(r) {
		w.sheet(box.W(), box.H(), p)
		return
	}
	board, why := w.use(p.word, p.thick)
	if board < 0 {
		w.loose(box.W(), box.H(), p, joined("cut to an outline", why))
		return
	}
	p.board, p.note = board, joined(p.note, why)
	b := &w.set.Boards[board]
	if w.fits(box, b) {
		w.outline(r, p)
		return
	}
	xs, ys, ok := w.seams(r, b)
	if !ok {
		w.missing(p.name, "it would take more than a thousand boards")
		return
	}
	w.parts(r, xs, ys, p)
}

// fits reports whether a box comes out of a board.
func (w *work) fits(box geom.Rect, b *set.Board) bool {
	for _, way := range w.ways(b) {
		if box.W() <= way[0]+geom.Tolerance && box.H() <= way[1]+geom.Tolerance {
			return true
		}
	}
	return false
}

// outline adds an outline that comes out of one board, moved so that its box begins at 0,0.
func (w *work) outline(r geom.Region, p spec) {
	box := r.Outer.Bounds()
	r = r.Transform(geom.Move(geom.Point{X: -box.Min.X, Y: -box.Min.Y}, 0))
	piece := Piece{Name: p.name, Length: box.W(), Width: box.H(), Note: p.note}
	if !rectangle(r) {
		piece.Outline = &r
	}
	w.add(piece, p)
}

// rectangle reports whether an area is an upright rectangle.
func rectangle(r geom.Region) bool {
	if len(r.Holes) > 0 || !r.Outer.Straight() {
		return false
	}
	b := r.Outer.Bounds()
	return math.Abs(r.Outer.Area()-b.W()*b.H()) <= geom.Tolerance*(b.W()+b.H())
}

// parts cuts an outline at seams and adds what is in each cell.
func (w *work) parts(r geom.Region, xs, ys []float64, p spec) {
	box := r.Outer.Bounds()
	type part struct {
		r  geom.Region
		at geom.Rect
	}
	var out []part
	y := box.Min.Y
	for _, h := range ys {
		x := box.Min.X
		for _, l := range xs {
			cell := geom.Polygon([]geom.Point{{X: x, Y: y}, {X: x + l, Y: y}, {X: x + l, Y: y + h}, {X: x, Y: y + h}})
			got, err := geom.Intersect([]geom.Region{r}, []geom.Region{{Outer: cell}}, sawn)
			if err != nil {
				w.missing(p.name, "it cannot be split over boards: "+err.Error())
				return
			}
			for _, g := range got {
				out = append(out, part{g, g.Outer.Bounds()})
			}
			x += l
		}
		y += h
	}
	for i, g := range out {
		one := p
		one.name = nth(p.name, i+1, len(out))
		at := "lies " + w.size(g.at.Min.X-box.Min.X) + " to " + w.size(g.at.Max.X-box.Min.X) + " along, " +
			w.size(g.at.Min.Y-box.Min.Y) + " to " + w.size(g.at.Max.Y-box.Min.Y) + " across; " + butt
		one.note = joined(p.note, at)
		w.outline(g.r, one)
	}
}

// seams chooses where to cut an outline that is larger than a board, as parts along x and y.
func (w *work) seams(r geom.Region, b *set.Board) (xs, ys []float64, ok bool) {
	box := r.Outer.Bounds()
	best := math.MaxInt
	for _, way := range w.ways(b) {
		nx, ny := math.Ceil(box.W()/way[0]-geom.Tolerance/way[0]), math.Ceil(box.H()/way[1]-geom.Tolerance/way[1])
		if nx*ny > mostCells || int(nx*ny) >= best {
			continue
		}
		best = int(nx * ny)
		xs = placed(crossings(r, false), box.Min.X, box.W(), way[0], int(nx))
		ys = placed(crossings(r, true), box.Min.Y, box.H(), way[1], int(ny))
	}
	return xs, ys, best < math.MaxInt
}

// seamSteps is between how many places a seam is chosen for each board; over more boards than mostChosen parts are of one size.
const (
	seamSteps  = 48
	mostChosen = 24
)

// placed chooses n − 1 seams over a length, no two further apart than most, so that they run where the outline is thickest and
// otherwise near to where parts are of one size. It returns the parts' lengths.
func placed(thin func(at float64) float64, from, total, most float64, n int) []float64 {
	if n <= 1 || n > mostChosen {
		return slices.Repeat([]float64{total / float64(max(n, 1))}, max(n, 1))
	}
	steps := seamSteps * n
	step := total / float64(steps)
	reach := int(most/step + 1e-9)
	equal := total / float64(n)
	thinnest := make([]float64, steps)
	for i := range thinnest {
		x := float64(i) * step
		least := min(thin(from+x), thin(from+max(x-beside, 0)), thin(from+min(x+beside, total)))
		thinnest[i] = max(0, sliver-least) / sliver
	}
	cost := func(i, seam int) float64 {
		return thinnest[i] + 0.2*math.Abs(float64(i)*step-float64(seam)*equal)/equal
	}
	// best[k][i] is the least cost of k seams of which the last is at i.
	worst := math.Inf(1)
	best := make([][]float64, n)
	came := make([][]int, n)
	for k := range best {
		best[k], came[k] = make([]float64, steps+1), make([]int, steps+1)
		for i := range best[k] {
			best[k][i] = worst
		}
	}
	best[0][0] = 0 // came says where the seam before lies
	for k := 1; k < n; k++ {
		for i := 1; i < steps; i++ {
			c := cost(i, k)
			for j := max(0, i-reach); j < i; j++ {
				if got := best[k-1][j] + c; got < best[k][i]-1e-12 {
					best[k][i], came[k][i] = got, j
				}
			}
		}
	}
	last := -1
	for i := max(0, steps-reach); i < steps; i++ {
		if !math.IsInf(best[n-1][i], 1) && (last < 0 || best[n-1][i] < best[n-1][last]-1e-12) {
			last = i
		}
	}
	if last < 0 {
		return runs(total, most)
	}
	var at []int
	for k, i := n-1, last; k >= 1; k, i = k-1, came[k][i] {
		at = append(at, i)
	}
	slices.Reverse(at)
	out := make([]float64, 0, n)
	before := 0
	for _, i := range append(at, steps) {
		out = append(out, float64(i-before)*step)
		before = i
	}
	return out
}

// crossings returns how long the shortest stretch is on which a line across the outline lies in it: upright lines, or level ones.
// It is 0 where a line does not meet it.
func crossings(r geom.Region, level bool) func(at float64) float64 {
	var rings [][]geom.Point
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		ring := p.Flatten(0.5, nil)
		if level {
			for i := range ring {
				ring[i].X, ring[i].Y = ring[i].Y, ring[i].X
			}
		}
		rings = append(rings, ring)
	}
	return func(at float64) float64 {
		var ys []float64
		for _, ring := range rings {
			for i := range ring {
				a, b := ring[i], ring[(i+1)%len(ring)]
				if a.X > at == (b.X > at) {
					continue
				}
				ys = append(ys, a.Y+(b.Y-a.Y)*(at-a.X)/(b.X-a.X))
			}
		}
		slices.Sort(ys)
		least := math.Inf(1)
		for i := 0; i+1 < len(ys); i += 2 {
			least = min(least, ys[i+1]-ys[i])
		}
		if len(ys) < 2 {
			return 0
		}
		return least
	}
}
