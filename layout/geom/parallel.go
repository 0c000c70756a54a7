package geom

import (
	"errors"
	"math"
)

// sharpest is the turn in a corner, radians, beyond which a line has no parallel here: a mitre would reach out nearly
// four times the distance.
const sharpest = 150 * math.Pi / 180

// slight is the turn in a corner, radians, up to which a parallel's curve may end a hair beside the corner's mitre: at a
// distance d and a radius R it is less than d²/(8R) · slight² off.
const slight = 0.01

// ParallelError says which segment of a line has no parallel at the distance asked for.
type ParallelError struct {
	Segment int // counted from 0
	// Radius is that of the segment's tightest place on the side of the parallel, where that is too small; else 0.
	Radius float64
	// Length is what the parallel of the segment has before its corners, Taken what they take of it, where that is too much.
	Length, Taken float64
	// Turn is the turn in degrees of the corner at the segment's end, where that is too sharp; else 0.
	Turn float64
}

func (e *ParallelError) Error() string {
	switch {
	case e.Turn > 0:
		return "the line turns back in a corner too sharply for a parallel"
	case e.Radius > 0:
		return "the line turns too tightly for a parallel"
	}
	return "a piece of the line is too short for a parallel between its corners"
}

// Parallel returns the line beside the open path p at the distance d: on its left as one walks it where d is more than
// 0, on its right where it is less. Lines stay lines and circular arcs arcs, exactly; elliptical arcs and cubics become
// circular arcs within 0.0005 mm (see Arcs). In a corner the parallels end where they meet,
// and where they part they go on straight until they meet: a mitre. Its ends stand square off the ends of p.
//
// The error is a *ParallelError, or says that p is closed. Whether the parallel runs into itself, or into p, is not
// looked at.
func Parallel(p *Path, d float64) (*Path, error) {
	if p.Closed() {
		return nil, errors.New("a closed line is no line with a beginning and an end")
	}
	var runs []run
	for i, s := range p.Segments() {
		if s.Length() <= Tolerance {
			continue
		}
		if r := s.tightest(d > 0); r <= math.Abs(d)+Tolerance {
			return nil, &ParallelError{Segment: i, Radius: r}
		}
		runs = append(runs, run{index: i, segs: s.beside(d), ahead: s.Tangent(0), arrives: s.Tangent(1), foot: s.To})
	}
	for k := range runs {
		runs[k].end = place{len(runs[k].segs) - 1, 1}
	}
	for k := 0; k+1 < len(runs); k++ {
		if err := corner(runs, k, d); err != nil {
			return nil, err
		}
	}
	out := &Path{}
	for k := range runs {
		r := &runs[k]
		if r.at(r.start) > r.at(r.end)+Tolerance {
			return nil, short(runs, k, d)
		}
		for i := r.start.seg; i <= r.end.seg; i++ {
			from, to := 0.0, 1.0
			if i == r.start.seg {
				from = r.start.share
			}
			if i == r.end.seg {
				to = r.end.share
			}
			if to > from {
				out.Append(r.segs[i].Split(from, to))
			}
		}
		for _, q := range r.mitre {
			if !out.End().Near(q) {
				out.LineTo(q)
			}
		}
	}
	return out, nil
}

// run is the parallel of one segment: lines and circular arcs.
type run struct {
	index          int
	segs           []Segment
	start, end     place   // what the corners leave of it
	ahead, arrives Point   // the directions in which the segment leaves and arrives
	foot           Point   // the segment's end
	mitre          []Point // after it, on to the next
}

// place is a share of one of a run's segments.
type place struct {
	seg   int
	share float64
}

func (r *run) length() float64 {
	sum := 0.0
	for _, s := range r.segs {
		sum += s.Length()
	}
	return sum
}

// at returns the length along the run at a place of it.
func (r *run) at(p place) float64 {
	sum := r.segs[p.seg].Length() * p.share
	for _, s := range r.segs[:p.seg] {
		sum += s.Length()
	}
	return sum
}

// turn is the turn from run k to the next, radians, to the left more than 0.
func turn(runs []run, k int) float64 {
	in, away := runs[k].arrives, runs[k+1].ahead
	return math.Atan2(in.Cross(away), in.Dot(away))
}

// short is the error of run k, of which its corners take more than there is: what they have taken, or would take of
// straight lines.
func short(runs []run, k int, d float64) error {
	r, takes := &runs[k], 0.0
	for _, c := range [...]int{k - 1, k} {
		if c >= 0 && c+1 < len(runs) {
			takes += max(d*math.Tan(turn(runs, c)/2), 0)
		}
	}
	l := r.length()
	return &ParallelError{Segment: r.index, Length: l, Taken: max(takes, r.at(r.start)+l-r.at(r.end))}
}

// corner joins run k to the next.
func corner(runs []run, k int, d float64) error {
	r, next, turn := &runs[k], &runs[k+1], turn(runs, k)
	if math.Abs(turn) > sharpest {
		return &ParallelError{Segment: r.index, Turn: math.Abs(turn) * 180 / math.Pi}
	}
	from, to := r.segs[len(r.segs)-1].To, next.segs[0].From
	if from.Near(to) {
		return nil
	}
	half := r.arrives.Add(next.ahead).Unit().Left()
	meet := r.foot.Add(half.Mul(d / math.Cos(turn/2)))
	if turn*d < 0 { // they part
		if last := &r.segs[len(r.segs)-1]; last.Kind == Line {
			last.To = meet
		} else {
			r.mitre = append(r.mitre, meet)
		}
		if first := &next.segs[0]; first.Kind == Line {
			first.From = meet
		} else {
			r.mitre = append(r.mitre, to)
		}
		return nil
	}
	best := math.Inf(1)
	var at []Point
	for i := range r.segs {
		s := r.segs[len(r.segs)-1-i]
		box := s.Bounds().Grow(Tolerance)
		for j, u := range next.segs {
			if !box.Overlaps(u.Bounds()) {
				continue
			}
			at = meets(s, u, at[:0])
			for _, q := range at {
				if off := q.Dist(meet); off < best {
					best = off
					a, _ := s.share(q)
					b, _ := u.share(q)
					r.end, next.start = place{len(r.segs) - 1 - i, a}, place{j, b}
				}
			}
		}
	}
	switch {
	case !math.IsInf(best, 1):
		return nil
	case math.Abs(turn) <= slight:
		a, _ := r.segs[len(r.segs)-1].share(meet)
		b, _ := next.segs[0].share(meet)
		r.end, next.start = place{len(r.segs) - 1, a}, place{0, b}
		return nil
	}
	if r.length() < next.length() {
		return short(runs, k, d)
	}
	return short(runs, k+1, d)
}

// beside returns the parallel of a segment at the distance d to its left, as lines and circular arcs.
func (s Segment) beside(d float64) []Segment {
	line := NewPath(s.From)
	line.Append(s)
	var out []Segment
	for _, g := range line.Arcs(fineArcs).Segments() {
		if g.Kind == Line {
			off := g.Tangent(0).Left().Mul(d)
			out = append(out, Segment{Kind: Line, From: g.From.Add(off), To: g.To.Add(off)})
			continue
		}
		r := g.RX - d*math.Copysign(1, g.Sweep)
		if r <= Tolerance {
			continue // of the arcs that stand for the tightest place of a curve one may turn a hair too tightly
		}
		from := func(p Point) Point { return g.Centre.Add(p.Sub(g.Centre).Unit().Mul(r)) }
		g.From, g.To, g.RX, g.RY = from(g.From), from(g.To), r, r
		out = append(out, g)
	}
	return out
}

// tightest returns the least radius with which the segment turns to its left, or to its right; infinite where it never
// turns that way. Of an ellipse with semi-axes a and b the radius at parameter θ is (a² sin²θ + b² cos²θ)^(3/2)/ab, of a
// cubic |B′|³/|B′ × B″|.
func (s Segment) tightest(left bool) float64 {
	never := math.Inf(1)
	switch s.Kind {
	case Arc, EllipticalArc:
		if s.Sweep > 0 != left {
			return never
		}
		if s.Kind == Arc {
			return s.RX
		}
		axis := s.tilt(Point{1, 0})
		least := never
		for _, t := range s.extrema(axis.Left(), s.extrema(axis, []float64{0, 1})) {
			sn, cs := math.Sincos(s.Theta + t*s.Sweep)
			least = min(least, math.Pow(s.RX*s.RX*sn*sn+s.RY*s.RY*cs*cs, 1.5)/(s.RX*s.RY))
		}
		return least
	case Cubic:
		return s.tightestCubic(left)
	}
	return never
}

func (s Segment) tightestCubic(left bool) float64 {
	a := s.From.Sub(s.C1).Add(s.C2.Sub(s.C1))
	b := s.C1.Sub(s.C2).Add(s.To.Sub(s.C2))
	size := s.From.Dist(s.C1) + s.C1.Dist(s.C2) + s.C2.Dist(s.To)
	// bend is the curvature to the side asked for.
	bend := func(t float64) float64 {
		v := s.derivative(t)
		l := v.Len()
		if l <= 1e-9*size {
			return 0 // it stands still there; what lies beside it tells how it turns
		}
		k := v.Cross(a.Lerp(b, t).Mul(6)) / (l * l * l)
		if !left {
			k = -k
		}
		return k
	}
	const n = 128
	most := 0.0
	for i := range n + 1 {
		lo, hi := max(float64(i-1)/n, 0), min(float64(i+1)/n, 1)
		at := bend(float64(i) / n)
		if at < bend(lo) || at < bend(hi) {
			continue
		}
		// The greatest near here, by thirds.
		for range 60 {
			x, y := lo+(hi-lo)/3, hi-(hi-lo)/3
			if bend(x) < bend(y) {
				lo = x
			} else {
				hi = y
			}
		}
		most = max(most, at, bend((lo+hi)/2))
	}
	if most <= 0 {
		return math.Inf(1)
	}
	return 1 / most
}
