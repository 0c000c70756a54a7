package develop

import (
	"math"

	"markout/layout/geom"
)

// course is an open line of lines and circular arcs with the card to its left: the face of a curved flat from its end on
// the left hand of who looks at it. Segment k of a part of a line keeps its number in the whole.
type course struct {
	segs  []geom.Segment
	index []int     // of each segment in the whole line
	start []float64 // length along the whole line at which each segment starts, and where the last one ends
}

// newCourse returns the course along a line, which is walked the other way where its card is on the right.
func newCourse(line *geom.Path, right bool) course {
	if right {
		line = line.Reverse()
	}
	c := course{start: []float64{0}}
	for _, s := range line.Arcs(fineness).Segments() {
		if l := s.Length(); l > geom.Tolerance {
			c.index = append(c.index, len(c.segs))
			c.segs, c.start = append(c.segs, s), append(c.start, c.long()+l)
		}
	}
	return c
}

func (c course) long() float64 { return c.start[len(c.start)-1] }

// cornersOnCurve reports whether a curve ends in a corner. What lies behind the face goes on there as the curve does, not
// straight on, so that the two backs meet elsewhere than straight ones would.
func (c course) cornersOnCurve() bool {
	for i, b := range c.segs[1:] {
		a := c.segs[i]
		curved := a.Kind != geom.Line || b.Kind != geom.Line
		if curved && a.Tangent(1).Unit().Dot(b.Tangent(0).Unit()) < math.Cos(math.Pi/180) {
			return true
		}
	}
	return false
}

// part is the course between two lengths along the whole line.
func (c course) part(from, to float64) course {
	out := course{}
	for i, s := range c.segs {
		a, b := max(from, c.start[i]), min(to, c.start[i+1])
		if b-a <= geom.Tolerance {
			continue
		}
		l := c.start[i+1] - c.start[i]
		out.segs = append(out.segs, s.Split((a-c.start[i])/l, (b-c.start[i])/l))
		out.index, out.start = append(out.index, c.index[i]), append(out.start, a)
	}
	out.start = append(out.start, min(to, c.long()))
	return out
}

// beside returns the course's parallels to the left at a depth, one for each segment; corners stay corners and its ends are
// square. The error says that there is no room for it.
func (c course) beside(depth float64) ([]geom.Segment, error) {
	n := len(c.segs)
	if n == 0 {
		return nil, errShort
	}
	first, last := c.segs[0], c.segs[n-1]
	pts := make([]geom.Point, n+1)
	pts[0] = first.From.Add(first.Tangent(0).Left().Mul(depth))
	pts[n] = last.To.Add(last.Tangent(1).Left().Mul(depth))
	for i := 1; i < n; i++ {
		p, ok := meet(c.segs[i-1], depth, c.segs[i], depth, c.segs[i].From)
		if !ok {
			return nil, errNarrow
		}
		pts[i] = p
	}
	out := make([]geom.Segment, n)
	for i, s := range c.segs {
		q := geom.Segment{From: pts[i], To: pts[i+1]}
		if s.Kind == geom.Line {
			if q.To.Sub(q.From).Dot(s.To.Sub(s.From)) <= 0 {
				return nil, errNarrow
			}
			out[i] = q
			continue
		}
		r := reach(s, depth)
		sp := span{seg: s}
		sweep := (sp.flat(q.To) - sp.flat(q.From)) / sp.middle() * sp.hand()
		if r <= geom.Tolerance || sweep*s.Sweep <= 0 {
			return nil, errNarrow
		}
		q.Kind, q.Centre, q.RX, q.RY, q.Sweep = geom.Arc, s.Centre, r, r, sweep
		q.Theta = q.From.Sub(s.Centre).Angle()
		out[i] = q
	}
	return out, nil
}

// band is the loop round what lies between a course and its parallel at a depth: the course's n segments, the end at its
// end, the parallel's n segments back, the end at its start.
func (c course) band(depth float64) (*loop, error) {
	back, err := c.beside(depth)
	if err != nil {
		return nil, err
	}
	n := len(c.segs)
	l := &loop{hole: -1, segs: append([]geom.Segment{}, c.segs...)}
	l.segs = append(l.segs, geom.Segment{From: c.segs[n-1].To, To: back[n-1].To})
	for i := n - 1; i >= 0; i-- {
		l.segs = append(l.segs, back[i].Reverse())
	}
	l.segs = append(l.segs, geom.Segment{From: back[0].From, To: c.segs[0].From})
	l.open = make([]bool, len(l.segs))
	for i := range l.segs {
		l.edge = append(l.edge, i)
	}
	return l, nil
}

// On a band of n segments: where its ends and the parallel of segment i are.
func endOf(n int) int     { return n }
func startOf(n int) int   { return 2*n + 1 }
func backOf(n, i int) int { return 2*n - i }
func bandOf(l *loop) int  { return (len(l.segs) - 2) / 2 }
func isEnd(l *loop, i int) bool {
	n := bandOf(l)
	return i == endOf(n) || i == startOf(n)
}

// skinsRun is how a band's walls meet: its long sides run through past the ends, their own corners are mitred.
func skinsRun(l *loop, i int) joinKind {
	switch {
	case isEnd(l, l.next(i)):
		return aRuns
	case isEnd(l, i):
		return bRuns
	}
	return mitred
}

// flatOn returns the flat place of q on the wall's span that stands on the segment of that number. A span's inner face may
// reach further than its outer one at the wall's ends; between two spans x stays within its own.
func (w *wall) flatOn(index int, q geom.Point) (x float64, on *span) {
	for i := range w.spans {
		s := &w.spans[i]
		if s.index != index {
			continue
		}
		x = s.flat(q)
		if i > 0 {
			x = max(x, s.x0)
		}
		if i < len(w.spans)-1 {
			x = min(x, s.x1())
		}
		return x, s
	}
	return 0, nil
}

// stations returns lengths along a segment's parallel for a glue line: enough to draw the arc.
func stations(s geom.Segment) []geom.Point {
	n := 1
	if s.Kind == geom.Arc {
		n = max(1, int(math.Ceil(math.Abs(s.Sweep)/(5*math.Pi/180))))
	}
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = s.Point(float64(i) / float64(n))
	}
	return out
}
