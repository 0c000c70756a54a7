package develop

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// place returns the flat x, on a wall of the skin, of the place so far along segment i of the face. Past the wall's ends it
// goes on as it does before them.
func (c *curved) place(s skin, w *wall, i int, along float64) float64 {
	seg := c.face.segs[i]
	share := (along - c.face.start[i]) / (c.face.start[i+1] - c.face.start[i])
	x, _ := w.flatOn(s.line(i), seg.Point(share).Add(seg.Tangent(share).Left().Mul(s.depth)))
	return x
}

// pierce cuts the openings out of a skin, square to the face.
func (c *curved) pierce(s skin) error {
	for _, w := range s.walls {
		d := &c.k.drafts[w.piece]
		cut := false
		for _, o := range c.openings {
			edge := c.onSkin(s, w, o)
			if edge == nil {
				continue
			}
			cut = true
			if err := d.cutOut(w, edge, o, c.h); err != nil {
				return err
			}
		}
		if cut {
			d.clipLines()
		}
	}
	return nil
}

// onSkin is the edge of an opening on a wall of a skin, closed and anticlockwise from a lower corner; nil where it does not
// lie on it.
func (c *curved) onSkin(s skin, w *wall, o set.Opening) *geom.Path {
	part := c.face.part(o.At, o.At+o.Width)
	var on []int
	for _, i := range part.index {
		if _, there := w.flatOn(s.line(i), geom.Point{}); there != nil {
			on = append(on, i)
		}
	}
	if len(on) == 0 {
		return nil
	}
	at := func(along float64) float64 {
		i := on[0]
		for _, j := range on[1:] {
			if along >= c.face.start[j] {
				i = j
			}
		}
		return c.place(s, w, i, along)
	}
	path := o.Path()
	if len(on) == 1 {
		a, b := at(o.At), at(o.At+o.Width)
		return stretched(path, o.At, a, (b-a)/o.Width)
	}
	var pts []geom.Point
	flat := path.Flatten(geom.Flatness/4, nil)
	for k, p := range flat {
		q := flat[(k+1)%len(flat)]
		pts = append(pts, geom.Point{X: at(p.X), Y: p.Y})
		var stops []float64
		for _, i := range on[1:] {
			if p.Y == q.Y {
				break // stays level
			}
			if b := c.face.start[i]; b > min(p.X, q.X)+geom.Tolerance && b < max(p.X, q.X)-geom.Tolerance {
				stops = append(stops, b)
			}
		}
		slices.Sort(stops)
		if q.X < p.X {
			slices.Reverse(stops)
		}
		for _, b := range stops {
			pts = append(pts, geom.Point{X: at(b), Y: p.Y + (q.Y-p.Y)*(b-p.X)/(q.X-p.X)})
		}
	}
	pts = slices.CompactFunc(pts, geom.Point.Near)
	return anticlockwise(geom.Polygon(pts))
}

func anticlockwise(p *geom.Path) *geom.Path {
	if p.Area() < 0 {
		return p.Reverse()
	}
	return p
}

// stretched returns a path of lines, circular arcs and upright ellipses with x taken to at + (x − from)·k, anticlockwise.
func stretched(p *geom.Path, from, at, k float64) *geom.Path {
	to := func(q geom.Point) geom.Point { return geom.Point{X: at + (q.X-from)*k, Y: q.Y} }
	out := geom.NewPath(to(p.Start()))
	for _, s := range p.Segments() {
		theta, sweep := s.Theta, s.Sweep
		if k < 0 {
			theta, sweep = math.Pi-theta, -sweep
		}
		switch {
		case s.Kind == geom.Line:
			out.LineTo(to(s.To))
		case s.Kind == geom.Arc && math.Abs(math.Abs(k)-1) < 1e-12:
			out.ArcTo(to(s.Centre), sweep, to(s.To))
		default:
			out.EllipseTo(to(s.Centre), s.RX*math.Abs(k), s.RY, 0, theta, sweep, to(s.To))
		}
	}
	out.Close()
	return anticlockwise(out)
}

// cutOut takes the opening with an edge on the wall out of it: a hole, a notch from the foot, or what the overlay leaves
// where it comes to another edge.
func (d *draft) cutOut(w *wall, edge *geom.Path, o set.Opening, high float64) error {
	b := edge.Bounds()
	x0, x1 := w.box()
	inside := b.Min.X > x0+geom.Tolerance && b.Max.X < x1-geom.Tolerance && o.Sill+o.Height < high-geom.Tolerance
	switch {
	case inside && o.Sill > geom.Tolerance && !d.near(edge):
		d.Outline.Holes = append(d.Outline.Holes, edge)
		return nil
	case inside && o.Sill <= geom.Tolerance:
		if p := notched(d.Outline.Outer, edge); p != nil {
			d.Outline.Outer = p
			return nil
		}
	}
	left, err := geom.Difference([]geom.Region{d.Outline}, []geom.Region{{Outer: edge}}, geom.Flatness/4)
	switch {
	case err != nil:
		return err
	case len(left) == 0:
		return errNoCard
	case len(left) > 1:
		return errParts
	}
	d.Outline = upright(left[0])
	return nil
}

// near reports whether an edge touches a hole that is there already, or lies beyond what is left.
func (d *draft) near(edge *geom.Path) bool {
	for _, h := range d.Outline.Holes {
		if gap, _, _ := geom.Distance(geom.Region{Outer: h}, geom.Region{Outer: edge}); gap <= geom.Tolerance {
			return true
		}
	}
	return false
}

// notched returns the outline, anticlockwise, with a notch from its lower edge along an opening's edge, which starts with
// the opening's foot; nil where that does not lie on one straight edge.
func notched(p, edge *geom.Path) *geom.Path {
	first := edge.Segment(0)
	if first.Kind != geom.Line || first.From.Y != first.To.Y {
		return nil
	}
	jambs := edge.Reverse() // from the foot's start up, over the head and down
	q := geom.NewPath(p.Start())
	done := false
	for _, s := range p.Segments() {
		if !done && s.Kind == geom.Line && s.From.Y == first.From.Y && s.To.Y == first.From.Y &&
			s.From.X < first.From.X-geom.Tolerance && s.To.X > first.To.X+geom.Tolerance {
			done = true
			for i, j := range jambs.Segments() {
				if i < jambs.Len()-1 {
					q.Append(j)
				}
			}
		}
		q.Append(geom.Segment{Kind: s.Kind, From: q.End(), To: s.To, Centre: s.Centre, RX: s.RX, RY: s.RY, Phi: s.Phi, Theta: s.Theta, Sweep: s.Sweep, C1: s.C1, C2: s.C2})
	}
	if !done {
		return nil
	}
	q.Close()
	return q
}

// clipLines shortens folds and relief cuts to what is left of the piece.
func (d *draft) clipLines() {
	paths := append([]*geom.Path{d.Outline.Outer}, d.Outline.Holes...)
	within := func(l Line) (out []Line) {
		if l.From.X != l.To.X {
			return []Line{l}
		}
		x := l.From.X
		ys := []float64{l.From.Y, l.To.Y}
		for _, p := range paths {
			pts := p.Flatten(geom.Flatness, nil)
			for i, a := range pts {
				b := pts[(i+1)%len(pts)]
				if (a.X > x) != (b.X > x) {
					ys = append(ys, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
				}
			}
		}
		slices.Sort(ys)
		lo, hi := min(l.From.Y, l.To.Y), max(l.From.Y, l.To.Y)
		for i := 1; i < len(ys); i++ {
			a, b := max(lo, ys[i-1]), min(hi, ys[i])
			if b-a > geom.Tolerance && d.Outline.Contains(geom.Point{X: x, Y: (a + b) / 2}) {
				if n := len(out); n > 0 && out[n-1].To.Y >= a-geom.Tolerance {
					out[n-1].To.Y = b
					continue
				}
				out = append(out, Line{geom.Point{X: x, Y: a}, geom.Point{X: x, Y: b}})
			}
		}
		return out
	}
	var folds []Fold
	for _, f := range d.Folds {
		for _, l := range within(f.Line) {
			f.Line = l
			folds = append(folds, f)
		}
	}
	var relief []Relief
	for _, r := range d.Relief {
		for _, l := range within(r.Line) {
			r.Line = l
			relief = append(relief, r)
		}
	}
	d.Folds, d.Relief = folds, relief
}
