package trace

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

const (
	// flat is how closely fitted curves are followed where they are compared, and berth how near two runs of them may come:
	// more than twice that, so that what is found clear does not cross; less than the edge line comes near itself.
	flat  = 0.0015
	berth = 0.004
	// cell is the side of the squares by which near chords are found.
	cell = 2.0
)

// chord is one straight run that stands for a part of a fitted outline.
type chord struct {
	a, b        geom.Point
	ring, piece int32
	order       int32   // along the ring
	along       float64 // length along the ring at a
}

// outline is a fitted ring.
type outline struct {
	ring   *ring
	pieces []piece
	strict bool    // its own area must be right, not only that of all together
	miss   float64 // the area that it has too much
	length float64
	chords int32
}

func (o *outline) flatten(ring int, dst []chord) []chord {
	o.length, o.chords = 0, 0
	at := o.pieces[0].cubic[0]
	add := func(q geom.Point, piece int, end bool) {
		d := at.Dist(q)
		if d < 1e-4 && !end || d == 0 {
			return
		}
		dst = append(dst, chord{at, q, int32(ring), int32(piece), o.chords, o.length})
		o.length += d
		o.chords++
		at = q
	}
	for i, p := range o.pieces {
		n := 1
		if !p.line {
			n = int(math.Ceil(math.Sqrt(p.bend()/8/flat))) + 1
		}
		for k := 1; k < n; k++ {
			add(p.point(float64(k)/float64(n)), i, false)
		}
		add(p.cubic[3], i, true)
	}
	return dst
}

// clash is a place where two outlines, or two parts of one, come too near each other.
type clash struct {
	a, b chord
	at   geom.Point
}

// clashes returns where the chords of outlines cross or nearly do. Chords are sorted into square cells and compared
// within each.
func clashes(chords []chord, os []outline) []clash {
	type entry struct {
		x, y  int32
		chord int32
	}
	var all []entry
	for i, c := range chords {
		// A long chord is entered by parts, so that it is in few cells.
		parts := max(1, math.Ceil(c.a.Dist(c.b)/cell))
		for k := range int(parts) {
			p, q := c.a.Lerp(c.b, float64(k)/parts), c.a.Lerp(c.b, float64(k+1)/parts)
			for x := math.Floor((min(p.X, q.X) - berth) / cell); x <= math.Floor((max(p.X, q.X)+berth)/cell); x++ {
				for y := math.Floor((min(p.Y, q.Y) - berth) / cell); y <= math.Floor((max(p.Y, q.Y)+berth)/cell); y++ {
					all = append(all, entry{int32(x), int32(y), int32(i)})
				}
			}
		}
	}
	slices.SortFunc(all, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.y, b.y), cmp.Compare(a.x, b.x), cmp.Compare(a.chord, b.chord))
	})
	all = slices.Compact(all)
	var out []clash
	for i := 0; i < len(all); {
		j := i + 1
		for j < len(all) && all[j].x == all[i].x && all[j].y == all[i].y {
			j++
		}
		for ; i < j; i++ {
			c := &chords[all[i].chord]
			for k := i + 1; k < j; k++ {
				d := &chords[all[k].chord]
				if at, near := meeting(c, d, os); near {
					out = append(out, clash{*c, *d, at})
				}
			}
		}
	}
	return out
}

// meeting reports whether two chords come too near each other, and where.
func meeting(c, d *chord, os []outline) (geom.Point, bool) {
	if max(c.a.X, c.b.X)+berth < min(d.a.X, d.b.X) || max(d.a.X, d.b.X)+berth < min(c.a.X, c.b.X) ||
		max(c.a.Y, c.b.Y)+berth < min(d.a.Y, d.b.Y) || max(d.a.Y, d.b.Y)+berth < min(c.a.Y, c.b.Y) {
		return geom.Point{}, false
	}
	limit := berth
	if c.ring == d.ring {
		o := &os[c.ring]
		if c.order > d.order {
			c, d = d, c
		}
		next, last := d.order-c.order == 1, d.order-c.order == o.chords-1
		if last && !next {
			c, d = d, c
		}
		if next || last {
			u, v := c.b.Sub(c.a), d.b.Sub(d.a)
			back := u.Dot(v) < 0 && math.Abs(u.Cross(v)) < berth*max(u.Len(), v.Len())
			return d.a, back
		}
		// Of chords a hair apart along the outline only a true crossing counts.
		gap := d.along - c.along - c.a.Dist(c.b)
		if min(gap, o.length-(d.along-c.along)-d.a.Dist(d.b)) < 10*berth {
			limit = 0
		}
	}
	dist, at := chordDistance(c, d)
	return at, dist <= limit
}

// chordDistance returns the least distance between two chords and where on the first it is.
func chordDistance(c, d *chord) (float64, geom.Point) {
	u, v, w := c.b.Sub(c.a), d.b.Sub(d.a), d.a.Sub(c.a)
	if k := u.Cross(v); k != 0 {
		if t, s := w.Cross(v)/k, w.Cross(u)/k; t >= 0 && t <= 1 && s >= 0 && s <= 1 {
			return 0, c.a.Lerp(c.b, t)
		}
	}
	best, at := math.Inf(1), c.a
	for _, e := range [4]struct{ p, a, b geom.Point }{{c.a, d.a, d.b}, {c.b, d.a, d.b}, {d.a, c.a, c.b}, {d.b, c.a, c.b}} {
		if x := e.p.Dist(nearest(e.a, e.b, e.p)); x < best {
			best, at = x, e.p
		}
	}
	return best, at
}

// nearest returns the place of the line from a to b nearest to q.
func nearest(a, b, q geom.Point) geom.Point {
	d := b.Sub(a)
	l := d.Dot(d)
	if l == 0 {
		return a
	}
	return a.Lerp(b, min(max(q.Sub(a).Dot(d)/l, 0), 1))
}
