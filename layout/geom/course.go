package geom

import (
	"errors"
	"math"
	"slices"
)

// smooth is the greatest turn in radians at which one segment still counts as running on into the next; what is more is a
// corner. A line typed to the millimetre turns by less where an arc of some metres follows another.
const smooth = 1e-3

// fineArcs is how far the arcs that stand for other curves may lie from them, millimetres.
const fineArcs = 0.0005

// Course is an open line that something is laid along: y counts along it from its start, x square off it to its right. Beyond
// its ends it goes on straight. At a corner, square off means along the mitre. It consists of lines and circular arcs;
// other curves are taken as arcs within 0.0005 mm.
type Course struct {
	segs []Segment
	ends []float64 // length from the start to the end of each
}

// NewCourse returns the course of a line; of an empty one, straight up from 0,0.
func NewCourse(p *Path) *Course {
	c := &Course{}
	length := 0.0
	for _, s := range p.Arcs(fineArcs).Segments() {
		if l := s.Length(); l > Tolerance {
			length += l
			c.segs, c.ends = append(c.segs, s), append(c.ends, length)
		}
	}
	if len(c.segs) == 0 {
		c.segs, c.ends = []Segment{{To: Point{Y: 1}}}, []float64{1}
	}
	return c
}

// Line returns the course as a path of lines and circular arcs.
func (c *Course) Line() *Path {
	p := NewPath(c.segs[0].From)
	for _, s := range c.segs {
		p.Append(s)
	}
	return p
}

// Length returns how long the course is.
func (c *Course) Length() float64 { return c.ends[len(c.ends)-1] }

// Turns returns how far the course turns to the left and to the right altogether, radians, both not less than 0, and the
// least radius that it turns each way, +Inf where it does not; a corner has none.
func (c *Course) Turns() (left, right, leftRadius, rightRadius float64) {
	leftRadius, rightRadius = math.Inf(1), math.Inf(1)
	turn := func(a float64) {
		if a > 0 {
			left += a
		} else {
			right -= a
		}
	}
	for i, s := range c.segs {
		turn(c.turn(i))
		if s.Kind != Arc {
			continue
		}
		turn(s.Sweep)
		if s.Sweep > 0 {
			leftRadius = min(leftRadius, s.RX)
		} else {
			rightRadius = min(rightRadius, s.RX)
		}
	}
	return left, right, leftRadius, rightRadius
}

// turn is the angle from the end of the segment before i to its start, radians, to the left positive.
func (c *Course) turn(i int) float64 {
	if i <= 0 || i >= len(c.segs) {
		return 0
	}
	a, b := c.segs[i-1].Tangent(1), c.segs[i].Tangent(0)
	return math.Atan2(a.Cross(b), a.Dot(b))
}

func (c *Course) start(i int) float64 {
	if i == 0 {
		return 0
	}
	return c.ends[i-1]
}

// find returns the segment in which y lies, of two that meet there the later one.
func (c *Course) find(y float64) int {
	i, _ := slices.BinarySearchFunc(c.ends, y, func(end, y float64) int {
		if end <= y+Tolerance {
			return -1
		}
		return 1
	})
	return min(i, len(c.segs)-1)
}

// Way returns the place x to the right of the line at y along it, and the direction of the line there, length 1; at a
// corner that is the middle one of both.
func (c *Course) Way(x, y float64) (at, ahead Point) {
	i := c.find(y)
	s, d := c.segs[i], y-c.start(i)
	switch l := s.Length(); {
	case i == 0 && d < 0:
		ahead = s.Tangent(0)
		at = s.From.Add(ahead.Mul(d))
	case i == len(c.segs)-1 && d > l:
		ahead = s.Tangent(1)
		at = s.To.Add(ahead.Mul(d - l))
	case i > 0 && d <= Tolerance:
		a, b := c.segs[i-1].Tangent(1), s.Tangent(0)
		sum := a.Add(b)
		// Both parallels meet on the mitre, x over the cosine of half the turn away.
		return s.From.Add(sum.Left().Mul(-x / (1 + a.Dot(b)))), sum.Unit()
	default:
		t := d / l
		at, ahead = s.Point(t), s.Tangent(t)
	}
	return at.Add(ahead.Left().Mul(-x)), ahead
}

// ErrRadius says that a parallel would lie on or beyond the centre about which its line turns.
var ErrRadius = errors.New("the parallel lies beyond the centre about which the line turns")

// ErrCorner says that a corner leaves no room to a parallel on its inside, or that a curve comes up to it.
var ErrCorner = errors.New("a corner leaves the parallel no room")

// Beside returns the line that runs x to the right of the course from y0 to y1, y0 < y1. Lines stay lines and arcs arcs,
// exactly; they meet in a mitre at a corner, also at one where the parallel ends. The error is ErrRadius or ErrCorner.
func (c *Course) Beside(x, y0, y1 float64) (*Path, error) {
	out := &Path{}
	add := func(s Segment) {
		if out.Len() == 0 && len(out.pts) == 0 {
			*out = *NewPath(s.From)
		}
		if s.Kind == Line {
			out.LineTo(s.To)
		} else {
			out.ArcTo(s.Centre, s.Sweep, s.To)
		}
	}
	last := len(c.segs) - 1
	end := c.ends[last]
	// What is past an end by less than its arcs may be off is not past it.
	if y0 < -fineArcs && (c.segs[0].Kind != Line || y1 <= Tolerance) {
		p, _ := c.Way(x, y0)
		q, _ := c.Way(x, min(0, y1))
		add(Segment{From: p, To: q})
	}
	for i, s := range c.segs {
		from, to := c.start(i), c.ends[i]
		a, b := max(y0, from), min(y1, to)
		if b-a <= Tolerance {
			continue
		}
		var past [2]float64 // what the parallel is longer than its part of the line at both ends; less than 0, shorter
		for k, join := range [2]struct {
			here bool
			at   int
		}{{a-from <= Tolerance, i}, {to-b <= Tolerance, i + 1}} {
			turn := c.turn(join.at)
			if !join.here || turn == 0 || x == 0 {
				continue
			}
			if math.Abs(turn) > smooth && (c.segs[join.at-1].Kind == Arc || c.segs[join.at].Kind == Arc) {
				return nil, ErrCorner
			}
			past[k] = x * math.Tan(turn/2)
		}
		if s.Kind == Line && i == 0 {
			past[0] = max(past[0], -y0)
		}
		if s.Kind == Line && i == last {
			past[1] = max(past[1], y1-end)
		}
		q, err := shifted(s, x, (a-from)/(to-from), (b-from)/(to-from), past)
		if err != nil {
			return nil, err
		}
		add(q)
	}
	if y1 > end+fineArcs && (c.segs[last].Kind != Line || y0 >= end-Tolerance) {
		p, _ := c.Way(x, max(end, y0))
		q, _ := c.Way(x, y1)
		add(Segment{From: p, To: q})
	}
	return out, nil
}

// shifted returns the parallel of the part of a segment between two shares, longer at its ends by past.
func shifted(s Segment, x, t0, t1 float64, past [2]float64) (Segment, error) {
	q := s.Split(t0, t1)
	if x == 0 && past == [2]float64{} {
		return q, nil
	}
	if s.Kind == Line {
		ahead := s.Tangent(0)
		off := ahead.Left().Mul(-x)
		q.From = q.From.Add(off).Sub(ahead.Mul(past[0]))
		q.To = q.To.Add(off).Add(ahead.Mul(past[1]))
		if q.To.Sub(q.From).Dot(ahead) <= Tolerance {
			return q, ErrCorner
		}
		return q, nil
	}
	way := math.Copysign(1, s.Sweep)
	r := s.RX + way*x
	if r <= Tolerance {
		return q, ErrRadius
	}
	q.RX, q.RY = r, r
	q.Theta -= way * past[0] / r
	q.Sweep += way * (past[0] + past[1]) / r
	if q.Sweep*way <= 0 {
		return q, ErrCorner
	}
	q.From, q.To = s.Centre.Add(Polar(r, q.Theta)), s.Centre.Add(Polar(r, q.Theta+q.Sweep))
	return q, nil
}

// Corner is a place where a course does not run on smoothly.
type Corner struct {
	Along  float64 // from the start
	Turn   float64 // radians, to the left positive
	Curved bool    // an arc begins or ends there, so that there is no mitre
}

// Corners returns the corners in their order; a turn of less than 0.001 radians is none.
func (c *Course) Corners() []Corner {
	var out []Corner
	for i := 1; i < len(c.segs); i++ {
		if turn := c.turn(i); math.Abs(turn) > smooth {
			out = append(out, Corner{Along: c.start(i), Turn: turn, Curved: c.segs[i-1].Kind == Arc || c.segs[i].Kind == Arc})
		}
	}
	return out
}
