package set

import (
	"math"

	"markout/layout/geom"
)

// course is the line of a flight: its own, or straight up from its 0,0.
func (s *Steps) course() *geom.Course {
	if s.Line == nil {
		p := geom.NewPath(geom.Point{})
		p.LineTo(geom.Point{Y: max(s.Run(), 1)})
		return geom.NewCourse(p)
	}
	return geom.NewCourse(s.Line)
}

// Way returns the place at y along the flight's line and x to the right of it, as one climbs, in the flight's own axes: of a
// straight flight (x, y) itself. Beyond its ends the line goes on straight; at a corner of the line the place lies on the
// mitre.
func (s *Steps) Way(x, y float64) geom.Point {
	if s.Line == nil {
		return geom.Point{X: x, Y: y}
	}
	at, _ := s.course().Way(x, y)
	return at
}

// Ahead returns the direction in which one climbs at y along the line, length 1, in the flight's own axes: square to the
// riser that stands there.
func (s *Steps) Ahead(y float64) geom.Point {
	if s.Line == nil {
		return geom.Point{Y: 1}
	}
	_, ahead := s.course().Way(0, y)
	return ahead
}

// Edge returns the line that runs x to the right of the flight's line from y0 to y1, y0 < y1, in the flight's own axes: what
// the edges of treads and the strings follow. Lines and arcs of the flight's line stay lines and arcs.
func (s *Steps) Edge(x, y0, y1 float64) *geom.Path {
	return edge(s.course(), x, y0, y1)
}

// edge goes straight where the line has no parallel, which no resolved flight meets.
func edge(c *geom.Course, x, y0, y1 float64) *geom.Path {
	p, err := c.Beside(x, y0, y1)
	if err == nil && !p.Empty() {
		return p
	}
	a, _ := c.Way(x, y0)
	b, _ := c.Way(x, y1)
	p = geom.NewPath(a)
	p.LineTo(b)
	return p
}

// Sides returns where the left and the right edge of tread k lie, counted from 0, from the line to the right.
func (s *Steps) Sides(k int) (left, right float64) {
	w, m := s.Width(k), s.Mid(k)
	return m - w/2, m + w/2
}

// RiserLine returns the ends of riser k, counted from 0, left and right as one climbs, in the flight's own axes. It is as
// wide as the tread on it; the last riser as the last tread.
func (s *Steps) RiserLine(k int) (left, right geom.Point) {
	y := sum(s.Goings[:min(k, len(s.Goings))])
	l, r := s.Sides(min(k, max(len(s.Goings)-1, 0)))
	return s.Way(l, y), s.Way(r, y)
}

// TreadOutline returns what tread k, counted from 0, covers from its riser to the next, in the flight's own axes,
// anticlockwise from the left end of its riser. Where the line is curved its edges are exact parallels of it, and its ends
// straight lines square to it; a nosing is not counted in.
func (s *Steps) TreadOutline(k int) geom.Region { return s.tread(k, 0, 0) }

// TreadBoard is TreadOutline with the nosing, whose front stands before the riser and in line with it.
func (s *Steps) TreadBoard(k int) geom.Region { return s.tread(k, s.Nosing, 0) }

// TreadCut is TreadBoard as a carpenter cuts it: it reaches back under the riser board that stands on it, in line with that
// riser. The last tread ends at the last riser, unless the flight goes on under the deck's board.
func (s *Steps) TreadCut(k int) geom.Region {
	behind := s.RiserBoard
	if k == len(s.Goings)-1 && !s.UnderBoard() {
		behind = 0
	}
	return s.tread(k, s.Nosing, behind)
}

// tread is tread k from front before its riser to behind the next one.
func (s *Steps) tread(k int, front, behind float64) geom.Region {
	y0 := sum(s.Goings[:k])
	y1 := y0 + s.Goings[k]
	l, r := s.Sides(k)
	if s.Line == nil {
		return geom.Region{Outer: box(l, y0-front, r, y1+behind)}
	}
	c := s.course()
	side := func(x float64) *geom.Path {
		before, _ := overhang(c, x, y0, front)
		after, _ := overhang(c, x, y1, -behind)
		return run(before, edge(c, x, y0, y1), after)
	}
	right, left := side(r), side(l).Reverse()
	p := geom.NewPath(left.End())
	for _, side := range [2]*geom.Path{right, left} {
		p.LineTo(side.Start())
		for _, seg := range side.Segments() {
			p.Append(seg)
		}
	}
	p.Close()
	return geom.Region{Outer: p}
}

// Overhang returns how far along the edge x to the right of the line a line reaches that stands by before the riser at y and
// runs in line with it, less than 0 for behind it: by itself where the line is straight. It is false where the edge turns
// away before it is reached.
func (s *Steps) Overhang(x, y, by float64) (along float64, ok bool) {
	if s.Line == nil {
		return by, true
	}
	p, ok := overhang(s.course(), x, y, by)
	return math.Copysign(p.Length(), by), ok
}

// overhang returns the part of the edge x to the right of the line that lies between the riser at y and a line by before it,
// square off the riser, or behind it where by is less than 0. The part runs as one climbs. It is false where the edge turns
// away, or ends at a corner, before that line is reached.
func overhang(c *geom.Course, x, y, by float64) (*geom.Path, bool) {
	far := math.Abs(by)
	if far <= geom.Tolerance {
		return nil, true
	}
	_, ahead := c.Way(x, y)
	if by > 0 {
		ahead = ahead.Mul(-1)
	}
	for reach := 1.5 * far; reach <= 2*(c.Length()+4*far); reach *= 2 {
		from, to := y, y+reach
		if by > 0 {
			from, to = y-reach, y
		}
		p, err := c.Beside(x, from, to)
		if err != nil {
			continue // a corner wants a longer piece
		}
		if by > 0 {
			p = p.Reverse()
		}
		out, gone, turned := upTo(p, ahead, far)
		if by > 0 {
			out = out.Reverse()
		}
		if gone || turned {
			return out, gone
		}
	}
	return nil, false
}

// upTo returns the part of a path that goes far in the direction ahead, from its start; whether it goes as far, and whether
// it turns away before.
func upTo(p *geom.Path, ahead geom.Point, far float64) (part *geom.Path, gone, turned bool) {
	part = geom.NewPath(p.Start())
	on := func(q geom.Point) float64 { return q.Sub(p.Start()).Dot(ahead) }
	for _, seg := range p.Segments() {
		if seg.Tangent(0).Dot(ahead) <= 0 {
			return part, false, true
		}
		lo, hi := 0.0, 1.0
		if seg.Kind == geom.Arc { // no further than where it runs square to the riser
			if quarter := math.Acos(min(max(seg.Tangent(0).Dot(ahead), -1), 1)); turnsFrom(seg, ahead) {
				hi = min(1, (math.Pi/2-quarter)/math.Abs(seg.Sweep))
			} else {
				hi = min(1, (math.Pi/2+quarter)/math.Abs(seg.Sweep))
			}
		}
		if on(seg.Point(hi)) < far {
			if part.Append(seg.Split(0, hi)); hi < 1 {
				return part, false, true
			}
			continue
		}
		for range 200 {
			mid := (lo + hi) / 2
			if mid <= lo || mid >= hi {
				break
			}
			if on(seg.Point(mid)) < far {
				lo = mid
			} else {
				hi = mid
			}
		}
		part.Append(seg.Split(0, hi))
		return part, true, false
	}
	return part, false, false
}

// turnsFrom reports whether an arc, from its start on, turns further away from a direction.
func turnsFrom(seg geom.Segment, ahead geom.Point) bool {
	return ahead.Cross(seg.Tangent(0))*seg.Sweep >= 0
}

// run joins paths that follow one another into one; lines and arcs that go on over a joint are one segment.
func run(parts ...*geom.Path) *geom.Path {
	var segs []geom.Segment
	for _, p := range parts {
		first := true
		for _, s := range p.Segments() {
			if n := len(segs); n > 0 && first && goesOn(segs[n-1], s) {
				segs[n-1].To = s.To
				segs[n-1].Sweep += s.Sweep
			} else {
				segs = append(segs, s)
			}
			first = false
		}
	}
	out := geom.NewPath(segs[0].From)
	for _, s := range segs {
		out.Append(s)
	}
	return out
}

// goesOn reports whether b, which starts where a ends, is the same line or circle.
func goesOn(a, b geom.Segment) bool {
	if a.Kind != b.Kind {
		return false
	}
	if a.Kind == geom.Arc {
		return a.Centre.Near(b.Centre) && math.Abs(a.RX-b.RX) <= geom.Tolerance && a.Sweep*b.Sweep > 0
	}
	u, v := a.Tangent(1), b.Tangent(0)
	return math.Abs(u.Cross(v)) <= 1e-9 && u.Dot(v) > 0
}

// steps lists the ends of the riser lines, or the corners of loose blocks.
func (l *lister) steps(s *Steps) {
	if s.Blocks {
		for k := range s.Treads() {
			l.block("block "+itoa(k+1)+" ", s.TreadOutline(k).Outer)
		}
		return
	}
	up := 0.0
	for k, rise := range s.Rises {
		name := "riser " + itoa(k+1)
		left, right := s.RiserLine(k)
		l.line(name+" left", straight(left, right), up)
		l.add(name+" right", right, up)
		up += rise
	}
}

// block lists the corners of a block; where one line or arc runs on smoothly into the next is none.
func (l *lister) block(prefix string, p *geom.Path) {
	var segs []geom.Segment
	for _, s := range p.Segments() {
		segs = append(segs, s)
	}
	n, count := len(segs), 0
	for i, s := range segs {
		before := segs[(i+n-1)%n].Tangent(1)
		if after := s.Tangent(0); math.Abs(math.Atan2(before.Cross(after), before.Dot(after))) <= 1e-2 {
			continue
		}
		count++
		l.line(prefix+"corner "+itoa(count), s, 0)
	}
}
