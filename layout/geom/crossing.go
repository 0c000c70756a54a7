package geom

// fineness is how closely curves are followed where paths are compared with one another, millimetres: a
// tenth of what a tape shows, and well under the width of a saw.
const fineness = 0.0005

// SelfCrossing looks for a place where the path crosses, touches or runs back along itself and returns the
// first along it: the segments i ≤ j that meet (equal where a curve crosses itself) and where. Segments that follow
// one another may share their common end and nothing else, and so may the last and the first of a path that
// ends where it starts. Curves are followed to within 0.0005 mm. Segments without length are passed over.
func (p *Path) SelfCrossing() (i, j int, at Point, crosses bool) {
	ring := p.Closed() || p.Start().Near(p.End())
	cs := p.chords(fineness, ring, nil)
	if len(cs) < 2 {
		return 0, 0, Point{}, false
	}
	t := newChordTree(cs)
	for k, c := range cs {
		t.after(k, c.box().Grow(Tolerance), func(m int) bool {
			d := cs[m]
			switch {
			case m == k+1:
				at, crosses = foldsBack(c, d)
			case ring && k == 0 && m == len(cs)-1:
				at, crosses = foldsBack(d, c)
			default:
				var dist float64
				dist, at, _ = chordDistance(c, d)
				crosses = dist <= Tolerance
			}
			i, j = int(c.seg), int(d.seg)
			return crosses
		})
		if crosses {
			return i, j, at, true
		}
	}
	return 0, 0, Point{}, false
}

// foldsBack reports whether d, which starts where c ends, runs back along c, and the furthest place that
// both hold.
func foldsBack(c, d chord) (Point, bool) {
	if nearestOnLine(c.a, c.b, d.b).Near(d.b) {
		return d.b, true
	}
	if nearestOnLine(d.a, d.b, c.a).Near(c.a) {
		return c.a, true
	}
	return Point{}, false
}
