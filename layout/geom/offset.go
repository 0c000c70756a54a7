package geom

import (
	"errors"
	"math"
	"slices"
)

// Offset returns the outlines parallel to the closed outline p, of either orientation, at the distance d:
// outside it, rounded about its outward corners, where d is more than 0; inside it where d is less. Outer
// outlines run anticlockwise and the holes between them, which a growing outline may close, clockwise.
// Lines stay lines and circular arcs arcs, exactly; elliptical arcs and cubics are taken as straight runs
// within Flatness. Nothing is left of an outline that is nowhere wide enough.
//
// The error says that p crosses itself, that a number is not finite, or that boundaries of the result lie
// too near each other to be told apart.
func Offset(p *Path, d float64) ([]*Path, error) {
	if math.IsNaN(d) || math.IsInf(d, 0) || !inReach(Point{d, 0}) {
		return nil, errors.New("an offset is a length of at most 10 km")
	}
	if p.Empty() {
		return nil, nil
	}
	o := newOffset(p, d)
	if len(o.sides) < 2 {
		return nil, nil
	}
	if _, _, _, crosses := o.outline.SelfCrossing(); crosses {
		return nil, errors.New("an outline that crosses itself has no parallel")
	}
	if math.Abs(d) <= Tolerance {
		return []*Path{o.outline}, nil
	}
	return o.loops()
}

// offset is the state of one Offset. Every boundary place of the area wanted lies at the distance |d|
// straight out from a side of the outline, or from a corner. So these parallels are drawn whole, cut wherever
// they meet, and of the parts those kept that have nothing of the outline nearer than |d|; these join into
// the loops wanted.
type offset struct {
	d       float64
	outline *Path     // closed and anticlockwise, lines and circular arcs only
	sides   []Segment // its segments
	tree    boxTree   // over them
}

func newOffset(p *Path, d float64) *offset {
	q := NewPath(p.Start())
	var buf []Point
	for _, s := range p.Segments() {
		switch {
		case s.Length() <= Tolerance:
		case s.Kind == Line || s.Kind == Arc:
			q.Append(s)
		default:
			buf = s.Flatten(Flatness, buf[:0])
			for _, v := range buf {
				q.LineTo(v)
			}
		}
	}
	q.Close()
	if q.Area() < 0 {
		q = q.Reverse()
	}
	o := &offset{d: d, outline: q}
	for _, s := range q.Segments() {
		o.sides = append(o.sides, s)
	}
	o.tree = newBoxTree(len(o.sides), func(i int) Rect { return o.sides[i].Bounds() })
	return o
}

// distance returns the distance of q from the outline.
func (o *offset) distance(q Point) float64 {
	return o.tree.least(q, func(i int) float64 {
		_, d := o.sides[i].share(q)
		return d
	})
}

// parallels returns the parallel of each side and the round of each corner on the side of d, all with the
// area wanted on their left.
func (o *offset) parallels() []Segment {
	n := len(o.sides)
	turns := make([]float64, n) // from each side to the next, anticlockwise positive
	trims := make([]float64, n) // what an inward corner takes off the parallels of both its sides
	for i, s := range o.sides {
		next := o.sides[(i+1)%n]
		in, away := s.Tangent(1), next.Tangent(0)
		turns[i] = math.Atan2(in.Cross(away), in.Dot(away))
		if math.Abs(turns[i]) > math.Pi-0.01 {
			// Of a point this sharp it may be rounding which way it turns. A round too many is found out
			// later, one too few is not.
			turns[i] = math.Copysign(turns[i], o.d)
		}
		if turns[i]*o.d < 0 && s.Kind == Line && next.Kind == Line {
			off := math.Abs(o.d * math.Tan(turns[i]/2))
			if off <= min(s.Length(), next.Length())/2 {
				trims[i] = off
			}
		}
	}
	var out []Segment
	for i, s := range o.sides {
		if q, ok := o.parallel(s); ok {
			// Two lines are ended where their parallels meet, unless that is past their middle: of a curve
			// taken as straight runs what they would cut off each other is too short to be told from them.
			along := s.Tangent(0)
			q.From = q.From.Add(along.Mul(trims[(i+n-1)%n]))
			q.To = q.To.Sub(along.Mul(trims[i]))
			out = append(out, q)
		}
		if turns[i]*o.d <= 0 || math.Abs(turns[i]*o.d) <= Tolerance {
			continue // the parallels meet or cross there
		}
		v := s.To
		from := v.Add(s.Tangent(1).Left().Mul(-o.d))
		to := v.Add(o.sides[(i+1)%n].Tangent(0).Left().Mul(-o.d))
		out = append(out, Segment{
			Kind: Arc, From: from, To: to, Centre: v, RX: math.Abs(o.d), RY: math.Abs(o.d),
			Theta: from.Sub(v).Angle(), Sweep: turns[i],
		})
	}
	return out
}

// parallel returns the side moved to its right by d. An arc that would shrink to its centre or beyond has
// none: whatever stood there would be nearer to the arc's other places.
func (o *offset) parallel(s Segment) (Segment, bool) {
	q := s
	if s.Kind == Line {
		n := s.Tangent(0).Left().Mul(-o.d)
		q.From, q.To = s.From.Add(n), s.To.Add(n)
		return q, true
	}
	r := s.RX + o.d*math.Copysign(1, s.Sweep)
	if r <= Tolerance {
		return q, false
	}
	out := func(p Point) Point { return s.Centre.Add(p.Sub(s.Centre).Unit().Mul(r)) }
	q.From, q.To, q.RX, q.RY = out(s.From), out(s.To), r, r
	return q, true
}

// clearance is how far beyond the parallel its surroundings are looked at, to tell a boundary of the area
// from a place where two of its edges coincide.
const clearance = 10 * Tolerance

// bounds reports whether the piece, a part of a parallel, bounds the area wanted: whether nothing of the
// outline is nearer to it than |d|, nor just beyond it, seen from its side, and it lies outside the
// outline, or inside.
func (o *offset) bounds(piece Segment) bool {
	mid := piece.Point(0.5)
	if o.distance(mid) < math.Abs(o.d)-Tolerance/10 {
		return false
	}
	out := piece.Tangent(0.5).Left().Mul(-math.Copysign(1, o.d))
	q := mid.Add(out.Mul(clearance))
	if o.distance(q) < math.Abs(o.d)+clearance/2 {
		return false
	}
	return o.outline.Contains(q) == (o.d < 0)
}

// loops returns the outlines of the area wanted.
func (o *offset) loops() ([]*Path, error) {
	var pieces []Segment
	for _, piece := range cutAll(o.parallels()) {
		if o.bounds(piece) {
			pieces = append(pieces, piece)
		}
	}
	loops, ok := stitch(pieces)
	if !ok {
		return nil, errOffset
	}
	loops = slices.DeleteFunc(loops, func(l *Path) bool { return (Region{Outer: l}).sliver(Tolerance) })
	for _, l := range loops {
		for _, s := range l.Segments() {
			if math.Abs(o.distance(s.Point(0.5))-math.Abs(o.d)) > 10*clearance {
				return nil, errOffset
			}
		}
	}
	return loops, nil
}

var errOffset = errors.New("parts of the parallel outline lie too near each other to be told apart")

// shortest is the least length of a piece; half of joint, so that what is left out parts nothing.
const shortest = joint / 2

// cutAll cuts the segments wherever they meet one another.
func cutAll(segs []Segment) []Segment {
	cuts := make([][]float64, len(segs))
	t := newBoxTree(len(segs), func(i int) Rect { return segs[i].Bounds() })
	var at []Point
	for i, s := range segs {
		t.after(i, t.boxes[t.leaves+i].Grow(Tolerance), func(j int) bool {
			at = meets(s, segs[j], at[:0])
			for _, q := range at {
				a, _ := s.share(q)
				b, _ := segs[j].share(q)
				cuts[i] = append(cuts[i], a)
				cuts[j] = append(cuts[j], b)
			}
			return false
		})
	}
	var out []Segment
	for i, s := range segs {
		slices.Sort(cuts[i])
		l, from := s.Length(), 0.0
		for _, t := range append(cuts[i], 1) {
			if (t-from)*l <= shortest || t < 1 && (1-t)*l <= shortest {
				continue
			}
			out = append(out, s.Split(from, t))
			from = t
		}
	}
	return out
}
