package geom

import "math"

// chord is one straight run that stands for a segment or a part of one.
type chord struct {
	a, b Point
	seg  int32 // index of the segment in its path
}

func (c chord) box() Rect { return EmptyRect().Include(c.a).Include(c.b) }

// chords appends to dst the straight runs of the path, curves to within tol, closed by a straight line
// where closed is true. Runs no longer than Tolerance are joined to the next, so that none lacks a direction.
func (p *Path) chords(tol float64, closed bool, dst []chord) []chord {
	first := len(dst)
	at := p.Start()
	add := func(q Point, seg int32) {
		if !at.Near(q) {
			dst = append(dst, chord{at, q, seg})
			at = q
		}
	}
	var buf []Point
	for i, s := range p.Segments() {
		if s.Kind == Line {
			add(s.To, int32(i))
			continue
		}
		buf = s.Flatten(tol, buf[:0])
		for _, q := range buf {
			add(q, int32(i))
		}
	}
	if !closed || len(dst) == first {
		return dst
	}
	if start := p.Start(); at.Near(start) {
		dst[len(dst)-1].b = start
	} else {
		dst = append(dst, chord{at, start, int32(max(0, p.Len()-1))})
	}
	return dst
}

// chordDistance returns the least distance between two chords and where on each it is.
func chordDistance(c, d chord) (dist float64, onC, onD Point) {
	u, v, w := c.b.Sub(c.a), d.b.Sub(d.a), d.a.Sub(c.a)
	if k := u.Cross(v); k != 0 {
		t, s := w.Cross(v)/k, w.Cross(u)/k
		if t >= 0 && t <= 1 && s >= 0 && s <= 1 {
			at := c.a.Lerp(c.b, t)
			return 0, at, at
		}
	}
	// Chords that do not cross are nearest at an end of one of them.
	dist = math.Inf(1)
	for _, e := range [4]struct {
		end     Point
		of      chord
		endIsOn bool // of c
	}{{c.a, d, true}, {c.b, d, true}, {d.a, c, false}, {d.b, c, false}} {
		q := nearestOnLine(e.of.a, e.of.b, e.end)
		if x := q.Dist(e.end); x < dist {
			dist, onC, onD = x, e.end, q
			if !e.endIsOn {
				onC, onD = q, e.end
			}
		}
	}
	return dist, onC, onD
}

// chordTree is a boxTree over chords.
type chordTree struct {
	boxTree
	chords []chord
}

func newChordTree(cs []chord) *chordTree {
	return &chordTree{newBoxTree(len(cs), func(i int) Rect { return cs[i].box() }), cs}
}

// nearest finds the least distance between chords of two trees; best carries the least so far.
func nearest(s, t *chordTree, i, j int, best *nearestPair) {
	if best.dist == 0 || boxDistance(s.boxes[i], t.boxes[j]) >= best.dist {
		return
	}
	if i >= s.leaves && j >= t.leaves {
		if d, p, q := chordDistance(s.chords[i-s.leaves], t.chords[j-t.leaves]); d < best.dist {
			*best = nearestPair{d, p, q}
		}
		return
	}
	// The larger box is opened, and of its halves the nearer first.
	if j >= t.leaves || i < s.leaves && s.boxes[i].W()+s.boxes[i].H() >= t.boxes[j].W()+t.boxes[j].H() {
		a, b := 2*i, 2*i+1
		if boxDistance(s.boxes[b], t.boxes[j]) < boxDistance(s.boxes[a], t.boxes[j]) {
			a, b = b, a
		}
		nearest(s, t, a, j, best)
		nearest(s, t, b, j, best)
		return
	}
	a, b := 2*j, 2*j+1
	if boxDistance(s.boxes[i], t.boxes[b]) < boxDistance(s.boxes[i], t.boxes[a]) {
		a, b = b, a
	}
	nearest(s, t, i, a, best)
	nearest(s, t, i, b, best)
}

type nearestPair struct {
	dist float64
	p, q Point
}
