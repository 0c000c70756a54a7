package sheet

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/tiling"
)

// ground knows, square by square, which piece a place on a card sheet lies in, and what is taken there by lines and lettering.
// Lettering is put only where it keeps to one piece, or to the open card, and covers nothing.
type ground struct {
	box  geom.Rect
	cell float64
	w, h int
	who  []int32
}

const (
	openCard  = 0  // no piece
	takenCard = -1 // a line
	thinCard  = -2 // a thin line within a piece, that a tick may cross
	wordCard  = -3 // lettering
)

// groundCells bounds the squares of a ground.
const groundCells = 3e6

// leastCell is the side of the smallest squares in millimetres; lineClear is how far lettering keeps from lines.
const (
	leastCell = 0.35
	lineClear = 0.3
)

func newGround(box geom.Rect) *ground {
	g := &ground{box: box, cell: max(leastCell, math.Sqrt(box.W()*box.H()/groundCells))}
	g.w, g.h = max(1, int(math.Ceil(box.W()/g.cell))), max(1, int(math.Ceil(box.H()/g.cell)))
	g.who = make([]int32, g.w*g.h)
	return g
}

// mid is the middle of a square.
func (g *ground) mid(i, k int) geom.Point {
	return geom.Point{X: g.box.Min.X + (float64(i)+0.5)*g.cell, Y: g.box.Min.Y + (float64(k)+0.5)*g.cell}
}

// span returns the squares from lo to hi in one direction.
func (g *ground) span(lo, hi, from float64, n int) (int, int) {
	return max(0, int(math.Floor((lo-from)/g.cell))), min(n-1, int(math.Floor((hi-from)/g.cell)))
}

// fill gives the squares inside rings, by the even-odd rule, to a piece.
func (g *ground) fill(who int32, rings [][]geom.Point) {
	box := geom.EmptyRect()
	for _, r := range rings {
		for _, p := range r {
			box = box.Include(p)
		}
	}
	k0, k1 := g.span(box.Min.Y, box.Max.Y, g.box.Min.Y, g.h)
	var xs []float64
	for k := k0; k <= k1; k++ {
		y := g.mid(0, k).Y
		xs = xs[:0]
		for _, r := range rings {
			for i, a := range r {
				b := r[(i+1)%len(r)]
				if (a.Y > y) != (b.Y > y) {
					xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
				}
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			i0 := max(0, int(math.Ceil((xs[i]-g.box.Min.X)/g.cell-0.5)))
			i1 := min(g.w-1, int(math.Floor((xs[i+1]-g.box.Min.X)/g.cell-0.5)))
			for c := i0; c <= i1; c++ {
				g.who[k*g.w+c] = who
			}
		}
	}
}

// line takes the squares within lineClear of a polyline.
func (g *ground) line(points []geom.Point, closed bool) { g.mark(points, closed, takenCard) }

// thin takes the squares about a thin line within a piece, but for what is taken already.
func (g *ground) thin(points []geom.Point) { g.mark(points, false, thinCard) }

func (g *ground) mark(points []geom.Point, closed bool, as int32) {
	n := len(points)
	if closed {
		n++
	}
	for i := 1; i < n; i++ {
		g.segment(points[i-1], points[i%len(points)], as)
	}
}

func (g *ground) segment(a, b geom.Point, as int32) {
	t0, t1, ok := tiling.ClipSegment(a, b, g.box.Grow(1))
	if !ok {
		return
	}
	a, b = a.Lerp(b, t0), a.Lerp(b, t1)
	reach := lineClear + g.cell*0.5
	n := int(math.Ceil(a.Dist(b)/(g.cell*0.5))) + 1
	for s := 0; s <= n; s++ {
		p := a.Lerp(b, float64(s)/float64(n))
		i0, i1 := g.span(p.X-reach, p.X+reach, g.box.Min.X, g.w)
		k0, k1 := g.span(p.Y-reach, p.Y+reach, g.box.Min.Y, g.h)
		for k := k0; k <= k1; k++ {
			for i := i0; i <= i1; i++ {
				if c := &g.who[k*g.w+i]; as == takenCard || *c != takenCard {
					*c = as
				}
			}
		}
	}
}

// tilted is a box turned about its middle.
type tilted struct {
	mid  geom.Point
	w, h float64
	turn float64 // degrees
}

// corners returns the box's corners, anticlockwise from its own lower left.
func (t tilted) corners() [4]geom.Point {
	s, c := geom.SincosDeg(t.turn)
	at := func(x, y float64) geom.Point { return geom.Point{X: t.mid.X + x*c - y*s, Y: t.mid.Y + x*s + y*c} }
	return [4]geom.Point{at(-t.w/2, -t.h/2), at(t.w/2, -t.h/2), at(t.w/2, t.h/2), at(-t.w/2, t.h/2)}
}

// each visits the squares whose middle lies in the box; false from visit ends it.
func (g *ground) each(t tilted, visit func(c *int32) bool) (inside bool) {
	b := include(geom.EmptyRect(), t.corners())
	if b.Min.X < g.box.Min.X-1e-9 || b.Min.Y < g.box.Min.Y-1e-9 || b.Max.X > g.box.Max.X+1e-9 || b.Max.Y > g.box.Max.Y+1e-9 {
		return false
	}
	s, c := geom.SincosDeg(t.turn)
	i0, i1 := g.span(b.Min.X, b.Max.X, g.box.Min.X, g.w)
	k0, k1 := g.span(b.Min.Y, b.Max.Y, g.box.Min.Y, g.h)
	hw, hh := t.w/2+g.cell*0.25, t.h/2+g.cell*0.25
	for k := k0; k <= k1; k++ {
		for i := i0; i <= i1; i++ {
			d := g.mid(i, k).Sub(t.mid)
			if x := d.X*c + d.Y*s; x > hw || x < -hw {
				continue
			}
			if y := d.Y*c - d.X*s; y > hh || y < -hh {
				continue
			}
			if !visit(&g.who[k*g.w+i]) {
				return false
			}
		}
	}
	return true
}

// keep remembers what is taken in a box, and returns what puts it back.
func (g *ground) keep(b geom.Rect) (back func()) {
	i0, i1 := g.span(b.Min.X, b.Max.X, g.box.Min.X, g.w)
	k0, k1 := g.span(b.Min.Y, b.Max.Y, g.box.Min.Y, g.h)
	var kept []int32
	for k := k0; k <= k1; k++ {
		kept = append(kept, g.who[k*g.w+i0:k*g.w+i1+1]...)
	}
	return func() {
		for k, n := k0, 0; k <= k1; k++ {
			n += copy(g.who[k*g.w+i0:k*g.w+i1+1], kept[n:])
		}
	}
}

// free reports whether the box lies wholly in one piece, or in the open card, and covers nothing.
func (g *ground) free(t tilted, who int32) bool {
	return g.each(t, func(c *int32) bool { return *c == who })
}

// take keeps everything else out of the box.
func (g *ground) take(t tilted) {
	g.each(t, func(c *int32) bool { *c = wordCard; return true })
}

// besides returns the parts of a straight line that run beside lettering.
func (g *ground) besides(a, b geom.Point) [][2]geom.Point {
	n := max(1, int(math.Ceil(a.Dist(b)/(g.cell*0.5))))
	var out [][2]geom.Point
	from := -1
	for s := 0; s <= n+1; s++ {
		free := false
		if s <= n {
			p := a.Lerp(b, float64(s)/float64(n))
			i, k := int(math.Floor((p.X-g.box.Min.X)/g.cell)), int(math.Floor((p.Y-g.box.Min.Y)/g.cell))
			free = i < 0 || k < 0 || i >= g.w || k >= g.h || g.who[k*g.w+i] != wordCard
		}
		switch {
		case free && from < 0:
			from = s
		case !free && from >= 0:
			if s-1 > from {
				out = append(out, [2]geom.Point{a.Lerp(b, float64(from)/float64(n)), a.Lerp(b, float64(s-1)/float64(n))})
			}
			from = -1
		}
	}
	return out
}

// clear reports whether a line from a to b crosses nothing of the piece's; its last so many millimetres may.
func (g *ground) clear(a, b geom.Point, who int32, but float64) bool {
	l := a.Dist(b)
	n := int(math.Ceil(l / (g.cell * 0.5)))
	for s := 0; s <= n; s++ {
		p := a.Lerp(b, float64(s)/float64(max(n, 1)))
		if p.Dist(b) < but {
			return true
		}
		i, k := int(math.Floor((p.X-g.box.Min.X)/g.cell)), int(math.Floor((p.Y-g.box.Min.Y)/g.cell))
		if i < 0 || k < 0 || i >= g.w || k >= g.h || g.who[k*g.w+i] != who && g.who[k*g.w+i] != thinCard {
			return false
		}
	}
	return true
}

// room finds the middle of a free box of w × h on the open card or within a piece, its lower edge as low as can be, and of
// those as far left.
func (g *ground) room(w, h float64, who int32) (geom.Point, bool) {
	// Runs of free squares to the right of each, row by row, and how many rows stand on one another.
	nx, ny := int(math.Ceil(w/g.cell)), int(math.Ceil(h/g.cell))
	wide, high := int(g.box.W()/g.cell), int(g.box.H()/g.cell) // whole squares
	if nx > wide || ny > high {
		return geom.Point{}, false
	}
	tall := make([]int, wide) // rows free below and at this one
	for k := range high {
		run := 0
		for i := range wide {
			if g.who[k*g.w+i] == who {
				tall[i]++
			} else {
				tall[i] = 0
			}
			if tall[i] >= ny {
				run++
			} else {
				run = 0
			}
			if run >= nx {
				lo := geom.Point{X: g.box.Min.X + float64(i-nx+1)*g.cell, Y: g.box.Min.Y + float64(k-ny+1)*g.cell}
				return lo.Add(geom.Point{X: float64(nx) * g.cell / 2, Y: float64(ny) * g.cell / 2}), true
			}
		}
	}
	return geom.Point{}, false
}
