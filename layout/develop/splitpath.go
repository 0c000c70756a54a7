package develop

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"markout/layout/geom"
)

// seamLine is a straight line across a piece: x = at, which runs upwards, or y = at, which runs to the right.
type seamLine struct {
	upright bool
	at      float64
}

// off is how far q lies to the right of an upright line or above a level one, less than 0 on the other side.
func (l seamLine) off(q geom.Point) float64 {
	if l.upright {
		return q.X - l.at
	}
	return q.Y - l.at
}

// along is the place of q along the line.
func (l seamLine) along(q geom.Point) float64 {
	if l.upright {
		return q.Y
	}
	return q.X
}

// point is the place on the line at along.
func (l seamLine) point(along float64) geom.Point {
	if l.upright {
		return geom.Point{X: l.at, Y: along}
	}
	return geom.Point{X: along, Y: l.at}
}

// halves is what a straight line makes of an area: the parts before it (to the left, or below) and those behind it, and
// the chords in which it runs through, in their order along it.
type halves struct {
	parts  [2][]geom.Region
	chords []Line
}

// errSeam says that a line runs along an edge or through a corner in a way that leaves no clean parts.
var errSeam = errors.New("a seam cannot run there")

// chain is a run of an area's boundary on one side of the line, from one crossing to the next.
type chain struct {
	side     int
	segs     []geom.Segment
	from, to int // crossings
	used     bool
}

// crossing is where the boundary crosses the line.
type crossing struct {
	along float64
	at    geom.Point
	rank  int
}

// cutArea cuts an area along a line. Curves stay what they are, and the parts have the line in common exactly.
func cutArea(r geom.Region, l seamLine) (halves, error) {
	var h halves
	var chains []*chain
	var crossings []crossing
	var whole [2][]*geom.Path
	for i, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		if (p.Area() < 0) == (i == 0) {
			p = p.Reverse()
		}
		pieces, sides := dividedAt(p, l)
		first := -1
		for k := range pieces {
			if sides[k] != sides[(k+len(sides)-1)%len(sides)] {
				first = k
				break
			}
		}
		if first < 0 {
			if i == 0 {
				return h, errSeam
			}
			whole[sides[0]] = append(whole[sides[0]], p)
			continue
		}
		base, count := len(crossings), 0
		var c *chain
		for k := range pieces {
			s, side := pieces[(first+k)%len(pieces)], sides[(first+k)%len(pieces)]
			if c == nil || c.side != side {
				crossings = append(crossings, crossing{along: l.along(s.From), at: s.From})
				if c != nil {
					c.to = base + count
				}
				c = &chain{side: side, from: base + count}
				chains = append(chains, c)
				count++
			}
			c.segs = append(c.segs, s)
		}
		c.to = base
	}
	if err := h.join(chains, crossings); err != nil {
		return h, err
	}
	for side, paths := range whole {
		for _, p := range paths {
			k := slices.IndexFunc(h.parts[side], func(r geom.Region) bool { return r.Outer.Contains(p.Start()) })
			if k < 0 {
				return h, errSeam
			}
			h.parts[side][k].Holes = append(h.parts[side][k].Holes, p)
		}
	}
	return h, nil
}

// join closes the chains along the line: its crossings, two by two, bound what lies in the area.
func (h *halves) join(chains []*chain, crossings []crossing) error {
	order := make([]int, len(crossings))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(crossings[a].along, crossings[b].along) })
	if len(order)%2 != 0 {
		return errSeam
	}
	for k, i := range order {
		crossings[i].rank = k
		if k%2 == 1 {
			if a, b := crossings[order[k-1]].at, crossings[i].at; !a.Near(b) {
				h.chords = append(h.chords, Line{a, b})
			}
		}
	}
	partner := func(i int) int { return order[crossings[i].rank^1] }
	for _, first := range chains {
		if first.used {
			continue
		}
		p := &geom.Path{}
		for c := first; ; {
			c.used = true
			for _, s := range c.segs {
				p.Append(s)
			}
			want := partner(c.to)
			k := slices.IndexFunc(chains, func(d *chain) bool { return d.side == c.side && d.from == want && (!d.used || d == first) })
			if k < 0 {
				return errSeam
			}
			if next := chains[k].segs[0].From; !p.End().Near(next) {
				p.LineTo(next)
			}
			if c = chains[k]; c == first {
				break
			}
		}
		p.Close()
		if p.Area() < geom.Tolerance {
			return errSeam
		}
		h.parts[first.side] = append(h.parts[first.side], geom.Region{Outer: p})
	}
	return nil
}

// dividedAt returns the boundary in segments that lie on one side of the line each, and the sides, 0 before it and 1
// behind it.
func dividedAt(p *geom.Path, l seamLine) (segs []geom.Segment, sides []int) {
	for _, s := range p.Segments() {
		from := 0.0
		for _, t := range append(crossingsOf(s, l), 1) {
			part := s
			if from > 0 || t < 1 {
				part = s.Split(from, t)
			}
			if from > 0 {
				part.From = l.point(l.along(part.From))
			}
			if t < 1 {
				part.To = l.point(l.along(part.To))
			}
			from = t
			if part.Length() <= 1e-9 {
				continue
			}
			side := 0
			switch o := l.off(part.Point(0.5)); {
			case math.Abs(o) > 1e-9:
				if o > 0 {
					side = 1
				}
			case l.upright == (l.along(part.To) < l.along(part.From)): // it runs along the line: the area lies on its left
				side = 1
			}
			segs, sides = append(segs, part), append(sides, side)
		}
	}
	return segs, sides
}

// crossingsOf returns the shares of the segment, ascending, at which it crosses the line; its ends are not counted.
func crossingsOf(s geom.Segment, l seamLine) []float64 {
	var ts []float64
	switch s.Kind {
	case geom.Line:
		if a, b := l.off(s.From), l.off(s.To); a*b < 0 {
			ts = append(ts, a/(a-b))
		}
	case geom.Cubic:
		ts = cubicCrossings(l.off(s.From), l.off(s.C1), l.off(s.C2), l.off(s.To))
	default:
		// off = o + a·cos θ + b·sin θ
		sn, cs := math.Sincos(s.Phi)
		u, v := geom.Point{X: cs, Y: sn}.Mul(s.RX), geom.Point{X: -sn, Y: cs}.Mul(s.RY)
		a, b, o := u.Y, v.Y, l.off(s.Centre)
		if l.upright {
			a, b = u.X, v.X
		}
		r := math.Hypot(a, b)
		if math.Abs(o) >= r {
			return nil
		}
		mid, half := math.Atan2(b, a), math.Acos(-o/r)
		for _, angle := range [2]float64{mid - half, mid + half} {
			for k := -3.0; k <= 3; k++ {
				ts = append(ts, (angle+2*math.Pi*k-s.Theta)/s.Sweep)
			}
		}
	}
	length := s.Length()
	ts = slices.DeleteFunc(ts, func(t float64) bool { return t*length <= 1e-7 || (1-t)*length <= 1e-7 })
	slices.Sort(ts)
	return ts
}

// cubicCrossings are the parameters at which a cubic with these control values is 0: it is searched between its extremes.
func cubicCrossings(p0, p1, p2, p3 float64) []float64 {
	value := func(t float64) float64 {
		u := 1 - t
		return u*u*u*p0 + 3*u*u*t*p1 + 3*u*t*t*p2 + t*t*t*p3
	}
	// A third of the derivative is c + 2bt + at².
	c, b, a := p1-p0, p2-2*p1+p0, p3-3*p2+3*p1-p0
	stops := []float64{0, 1}
	if d := b*b - a*c; d > 0 && a != 0 {
		stops = append(stops, (-b-math.Sqrt(d))/a, (-b+math.Sqrt(d))/a)
	} else if a == 0 && b != 0 {
		stops = append(stops, -c/(2*b))
	}
	stops = slices.DeleteFunc(stops, func(t float64) bool { return t < 0 || t > 1 })
	slices.Sort(stops)
	var ts []float64
	for i := 1; i < len(stops); i++ {
		lo, hi := stops[i-1], stops[i]
		if value(lo)*value(hi) >= 0 {
			continue
		}
		for range 80 {
			if mid := (lo + hi) / 2; value(lo)*value(mid) <= 0 {
				hi = mid
			} else {
				lo = mid
			}
		}
		ts = append(ts, (lo+hi)/2)
	}
	return ts
}
