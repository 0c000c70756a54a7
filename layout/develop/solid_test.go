package develop_test

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/develop"
	"markout/layout/geom"
)

// facet is the greatest turn in degrees of a flat part that stands for rolled card.
const facet = 0.5

// cell is a part of a solid between two faces: loops of corners on each, the outer one and holes, that correspond one to
// one. Loops may run back along themselves: what counts is how often a place is gone round, odd or even.
type cell struct{ front, back [][]geom.Vec }

// solid is one piece as it stands in the made model.
type solid struct {
	name  string
	cells []cell
}

// loops are all loops of the cell's corners.
func (c cell) loops() [][]geom.Vec { return append(slices.Clone(c.front), c.back...) }

// builders make solids of pieces that are neither flat nor a strip of panels side by side, each looked at first. A kind
// with pieces of its own adds one in its test.
var builders []func(*develop.Piece) (solid, bool)

// solidOf rebuilds a piece from what is printed on it: the cut outline, the edges cut back, the folds and the rolls.
func solidOf(p *develop.Piece) solid {
	for _, build := range builders {
		if s, ok := build(p); ok {
			return s
		}
	}
	s := solid{name: p.Label() + " " + p.Name}
	pts := untabbed(p)
	front, back := [][]geom.Point{cutBack(p, pts, false)}, [][]geom.Point{cutBack(p, pts, true)}
	var holes [][]geom.Point
	for _, h := range p.Outline.Holes {
		holes = append(holes, h.Flatten(fine(p), nil))
	}
	folds := slices.DeleteFunc(slices.Clone(p.Folds), func(f develop.Fold) bool {
		return math.Abs(f.Line.From.X-f.Line.To.X) > 1e-9 || isTab(p, f.Line)
	})
	if len(folds) == 0 && len(p.Rolls) == 0 {
		c := cell{front: made(p, append(front, holes...), 0), back: made(p, append(back, holes...), p.Thickness)}
		s.cells = append(s.cells, c)
		return s
	}
	s.cells = strip(p, append([][]geom.Point{pts}, holes...), folds, box(front[0]), box(back[0]))
	return s
}

// made are loops of a flat piece where they come to lie.
func made(p *develop.Piece, loops [][]geom.Point, depth float64) [][]geom.Vec {
	out := make([][]geom.Vec, len(loops))
	for i, l := range loops {
		for _, q := range l {
			out[i] = append(out[i], p.Made(q, depth))
		}
	}
	return out
}

// fine is how far curves of an outline are followed: in chords of some half a degree, on what is rolled coarser, as each
// corner there is a level of its own.
func fine(p *develop.Piece) float64 {
	b := p.Outline.Bounds()
	if len(p.Rolls) > 0 {
		return 4e-5 * (b.W() + b.H())
	}
	return 2.4e-6 * (b.W() + b.H())
}

// untabbed returns the outline's corners without its tabs.
func untabbed(p *develop.Piece) []geom.Point {
	pts := p.Outline.Outer.Flatten(fine(p), nil)
	n := len(pts)
	tab := make([]bool, n)
	for _, t := range p.Tabs {
		from, to := t.Base.From, t.Base.To
		if p.Hidden {
			from, to = to, from // it runs as the outline does seen from outside
		}
		for i := range pts {
			if pts[i].Near(from) && pts[(i+3)%n].Near(to) {
				tab[(i+1)%n], tab[(i+2)%n] = true, true
				break
			}
		}
	}
	var kept []geom.Point
	for i, q := range pts {
		if !tab[i] {
			kept = append(kept, q)
		}
	}
	return kept
}

func isTab(p *develop.Piece, l develop.Line) bool {
	return slices.ContainsFunc(p.Tabs, func(t develop.Tab) bool { return t.Base == l })
}

func box(pts []geom.Point) geom.Rect {
	b := geom.EmptyRect()
	for _, q := range pts {
		b = b.Include(q)
	}
	return b
}

// cutBack moves the edges of the cut outline to where the printed face, or the other one, ends.
func cutBack(p *develop.Piece, pts []geom.Point, back bool) []geom.Point {
	n := len(pts)
	by := make([]float64, n)
	for _, e := range p.Edges {
		in := e.Front
		if back {
			in = e.Back
		}
		if in == 0 {
			continue
		}
		for i, a := range pts {
			if b := pts[(i+1)%n]; a.Near(e.Line.From) && b.Near(e.Line.To) || a.Near(e.Line.To) && b.Near(e.Line.From) {
				by[i] = in
			}
		}
	}
	out := slices.Clone(pts)
	for i, q := range pts {
		h := (i + n - 1) % n
		if by[h] == 0 && by[i] == 0 {
			continue
		}
		u, v := q.Sub(pts[h]).Unit(), pts[(i+1)%n].Sub(q).Unit()
		if k := u.Cross(v); math.Abs(k) > 1e-9 { // where the two edges meet, each moved in
			from := q.Add(u.Left().Mul(by[h]))
			out[i] = from.Add(u.Mul(q.Add(v.Left().Mul(by[i])).Sub(from).Cross(v) / k))
		} else {
			out[i] = q.Add(v.Left().Mul(max(by[h], by[i])))
		}
	}
	return out
}

// stop is the upright line where a panel of a strip ends: its x on the outer face, and on the inner face of the panels
// before and after it.
type stop struct{ outer, before, after float64 }

// strip builds the cells of panels side by side between folds and the ends of rolls, which are taken in facets. On the
// outer face panels meet at the folds; on the inner face they are mitred. bf and bb are the boxes of the two faces.
func strip(p *develop.Piece, loops [][]geom.Point, folds []develop.Fold, bf, bb geom.Rect) []cell {
	outerDepth, innerDepth, bo, bi := 0.0, p.Thickness, bf, bb
	if p.Hidden {
		outerDepth, innerDepth, bo, bi = p.Thickness, 0, bb, bf
	}
	stops := []stop{{bo.Min.X, bi.Min.X, bi.Min.X}, {bo.Max.X, bi.Max.X, bi.Max.X}}
	for _, f := range folds {
		x, e := f.Line.From.X, p.Thickness*math.Tan(f.Angle/2*math.Pi/180)
		if f.Away == p.Hidden { // folds towards the outer face
			e = -e
		}
		stops = append(stops, stop{x, x - e, x + e})
	}
	for _, r := range p.Rolls {
		for _, x := range [2]float64{r.From, r.To} {
			if !slices.ContainsFunc(stops, func(s stop) bool { return math.Abs(s.outer-x) < 1e-6 }) {
				stops = append(stops, stop{x, x, x})
			}
		}
	}
	slices.SortFunc(stops, func(a, b stop) int { return cmp.Compare(a.outer, b.outer) })
	var out []cell
	for i := 1; i < len(stops); i++ {
		a, b := stops[i-1], stops[i]
		if b.outer-a.outer < 1e-6 {
			continue
		}
		n := 1
		for _, r := range p.Rolls {
			if mid := (a.outer + b.outer) / 2; mid > r.From && mid < r.To {
				n = int(math.Ceil(r.Sweep * (b.outer - a.outer) / (r.To - r.From) / facet))
			}
		}
		// The inner face's x for the outer's: edges in the middle of a panel are cut square through.
		xs, inner := []float64{a.outer}, []float64{a.after}
		if lo, hi, ok := within(loops, a.outer+1e-6, b.outer-1e-6); ok {
			xs, inner = append(xs, lo, hi), append(inner, lo, hi)
		}
		xs, inner = append(xs, b.outer), append(inner, b.before)
		outerAt, innerAt := curve(p, outerDepth, a.outer, b.outer), curve(p, innerDepth, a.outer, b.outer)
		cuts := slices.Clone(xs)
		for k := 1; k < n; k++ {
			cuts = append(cuts, a.outer+(b.outer-a.outer)*float64(k)/float64(n))
		}
		slices.Sort(cuts)
		for k := 1; k < len(cuts); k++ {
			if cuts[k]-cuts[k-1] < 1e-9 {
				continue
			}
			var c cell
			for _, l := range loops {
				var f, g []geom.Vec
				for _, q := range between(l, cuts[k-1], cuts[k]) {
					y := bi.Min.Y + (q.Y-bo.Min.Y)*bi.H()/bo.H()
					f, g = append(f, outerAt(q.X, q.Y)), append(g, innerAt(along(xs, inner, q.X), y))
				}
				if len(f) > 2 {
					c.front, c.back = append(c.front, f), append(c.back, g)
				}
			}
			out = append(out, c)
		}
	}
	return out
}

// within returns the least and the greatest x of corners between two.
func within(loops [][]geom.Point, from, to float64) (lo, hi float64, ok bool) {
	lo, hi = to, from
	for _, l := range loops {
		for _, q := range l {
			if q.X > from && q.X < to {
				lo, hi, ok = min(lo, q.X), max(hi, q.X), true
			}
		}
	}
	return lo, hi, ok
}

// along is the broken line through xs and ys at x.
func along(xs, ys []float64, x float64) float64 {
	i := 1
	for i+1 < len(xs) && x > xs[i] {
		i++
	}
	if xs[i] == xs[i-1] {
		return ys[i]
	}
	return ys[i-1] + (ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
}

// between is the part of a loop from one x to another.
func between(l []geom.Point, from, to float64) []geom.Point {
	for _, side := range [2]struct{ x, hand float64 }{{from, 1}, {to, -1}} {
		var out []geom.Point
		for i, a := range l {
			b := l[(i+1)%len(l)]
			da, db := (a.X-side.x)*side.hand, (b.X-side.x)*side.hand
			if da >= 0 {
				out = append(out, a)
			}
			if da > 0 && db < 0 || da < 0 && db > 0 {
				out = append(out, geom.Point{X: side.x, Y: a.Y + (b.Y-a.Y)*da/(da-db)})
			}
		}
		l = out
	}
	return l
}

// curve returns Made for the panel from x0 to x1 at a depth, gone on with past its ends: along the straight line or the
// circle through three of its places.
func curve(p *develop.Piece, depth, x0, x1 float64) func(x, y float64) geom.Vec {
	in := min(1e-4, (x1-x0)/8)
	lo, step := x0+in, (x1-x0-2*in)/2
	return func(x, y float64) geom.Vec {
		a, b, c := p.Made(geom.Point{X: lo, Y: y}, depth), p.Made(geom.Point{X: lo + step, Y: y}, depth), p.Made(geom.Point{X: lo + 2*step, Y: y}, depth)
		d, e, k := minus(b, a), minus(c, b), (x-lo)/step
		u := times(d, 1/length(d))
		off := minus(e, times(u, dot(e, u)))
		turn := math.Atan2(length(off), dot(e, u))
		if turn < 1e-7 {
			return plus(a, times(d, k))
		}
		v := times(off, 1/length(off))
		sn, cs := math.Sincos(turn / 2)
		tangent, inward := plus(times(u, cs), times(v, -sn)), plus(times(u, sn), times(v, cs))
		r := length(d) / 2 / sn
		ks, kc := math.Sincos(k * turn)
		return plus(a, plus(times(tangent, r*ks), times(inward, r*(1-kc))))
	}
}

func plus(a, b geom.Vec) geom.Vec            { return geom.Vec{X: a.X + b.X, Y: a.Y + b.Y, Z: a.Z + b.Z} }
func minus(a, b geom.Vec) geom.Vec           { return plus(a, times(b, -1)) }
func times(a geom.Vec, k float64) geom.Vec   { return geom.Vec{X: a.X * k, Y: a.Y * k, Z: a.Z * k} }
func dot(a, b geom.Vec) float64              { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func length(a geom.Vec) float64              { return math.Sqrt(dot(a, a)) }
func lerp(a, b geom.Vec, k float64) geom.Vec { return plus(a, times(minus(b, a), k)) }
