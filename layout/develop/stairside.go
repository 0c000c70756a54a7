package develop

import (
	"math"

	"markout/layout/geom"
)

// stringSide is a side of a flight along a line: card rolled along the edge of the treads, the flight to the left of the
// way that its flat x runs: uphill on the right, downhill on the left.
type stringSide struct {
	spans []span
	up    float64   // 1 where x runs uphill, −1 where downhill
	front []float64 // x of the front of each riser on the outer face, then of the flight's end
	outer []float64 // x at which the side's outer face ends behind each riser, then at the flight's end
	inner []float64 // its inner face
	cuts  []float64 // where the face that reaches further ends, which is what is cut
	piece int
}

func newStringSide(edge *geom.Path, t, up float64) *stringSide {
	s := &stringSide{up: up}
	x := 0.0
	for _, seg := range edge.Arcs(fineness).Segments() {
		if seg.Length() <= geom.Tolerance {
			continue
		}
		sp := span{seg: seg, t: t, x0: x, index: len(s.spans)}
		x = sp.x1()
		s.spans = append(s.spans, sp)
	}
	return s
}

// place is the place on the plan of a flat x, depth inwards from the outer face. Beyond its ends it goes on as it ends.
func (s *stringSide) place(x, depth float64) geom.Point {
	b := body{spans: s.spans}
	return b.span(x).at(x, depth)
}

// along is the flat x of a length along the outer face.
func (s *stringSide) along(length float64) float64 {
	for i := range s.spans {
		sp := &s.spans[i]
		l := sp.seg.Length()
		if length <= l || i == len(s.spans)-1 {
			return sp.x0 + length/l*sp.length()
		}
		length -= l
	}
	return length
}

// meets is the flat x near a place at which the side's face at a depth goes through a plane.
func (s *stringSide) meets(p plane, near, depth, reach float64) (float64, bool) {
	off := func(x float64) float64 { return s.place(x, depth).Sub(p.o).Dot(p.n) * s.up }
	lo, hi := near, near
	step := max(reach, 0.01) / 4
	for range 40 { // walk to the first place on either side of the plane
		if off(lo) > 0 {
			lo -= step
		}
		if off(hi) < 0 {
			hi += step
		}
	}
	if off(lo) > 0 || off(hi) < 0 {
		return 0, false
	}
	for range 100 {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if off(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, true
}

// fit works out where the side ends behind the risers; off is how far it lies to the right of the flight's line.
func (s *stringSide) fit(w *winding, off float64) error {
	n := len(w.treads)
	if len(s.spans) == 0 {
		return errNarrow
	}
	total := w.Edge(off, 0, w.riserY(n)).Length()
	for i := range s.spans {
		if sp := &s.spans[i]; sp.seg.Kind == geom.Arc && sp.middle()-w.t/2 <= geom.Tolerance {
			return errNarrow
		}
	}
	for i := range n + 1 {
		y := w.riserY(i)
		length := 0.0
		if y > geom.Tolerance {
			length = w.Edge(off, 0, y).Length()
		}
		if s.up < 0 {
			length = total - length
		}
		front := s.along(length)
		by := w.t
		switch {
		case i == n && w.lands:
			by = 0
		case i == n:
			by = -w.t
		}
		p := w.planeAt(y, by)
		outer, ok1 := s.meets(p, front, 0, w.t)
		inner, ok2 := s.meets(p, front, w.t, w.t)
		if !ok1 || !ok2 {
			return errNarrow
		}
		s.front, s.outer, s.inner = append(s.front, front), append(s.outer, outer), append(s.inner, inner)
		if i > 0 && (min((outer-s.outer[i-1])*s.up, (inner-s.inner[i-1])*s.up) < least || (front-s.front[i-1])*s.up < 2*w.t) {
			return errShort
		}
	}
	return nil
}

// face is the line of the outer face on the plan from one flat x to another.
func (s *stringSide) face(from, to float64) []geom.Segment {
	var out []geom.Segment
	lo, hi := min(from, to), max(from, to)
	for i := range s.spans {
		sp := &s.spans[i]
		a, b := max(lo, sp.x0), min(hi, sp.x1())
		if i == 0 {
			a = lo
		}
		if i == len(s.spans)-1 {
			b = hi
		}
		if b-a <= geom.Tolerance/10 {
			continue
		}
		seg := geom.Segment{From: sp.at(a, 0), To: sp.at(b, 0)}
		if sp.seg.Kind == geom.Arc {
			seg.Kind, seg.Centre, seg.RX, seg.RY = geom.Arc, sp.seg.Centre, sp.seg.RX, sp.seg.RX
			seg.Theta, seg.Sweep = seg.From.Sub(seg.Centre).Angle(), sp.hand()*(b-a)/sp.middle()
		}
		out = append(out, seg)
	}
	if from > to {
		back := make([]geom.Segment, len(out))
		for i, seg := range out {
			back[len(out)-1-i] = seg.Reverse()
		}
		return back
	}
	return out
}

// make cuts the side: steps up under the treads, from the floor.
func (s *stringSide) make(w *winding, name string) {
	k, n := w.k, len(w.treads)
	d := draft{Piece: Piece{Name: name}}
	d.body = body{frame: plan, spans: s.spans}
	cuts := make([]float64, n+1)
	for i := range cuts {
		cuts[i] = s.up * min(s.up*s.outer[i], s.up*s.inner[i])
		if i == n {
			cuts[i] = s.up * max(s.up*s.outer[i], s.up*s.inner[i])
		}
	}
	s.cuts = cuts
	top := func(i int) float64 { return w.treads[i].Top - w.t }
	pts := []geom.Point{{X: cuts[0]}, {X: cuts[n]}}
	for i := n - 1; i >= 0; i-- {
		pts = append(pts, geom.Point{X: cuts[i+1], Y: top(i)}, geom.Point{X: cuts[i], Y: top(i)})
	}
	d.Outline.Outer = geom.Polygon(pts)
	how := Stands
	if k.folds() {
		how = Tabbed
	}
	for i := range n + 1 {
		lo, hi := 0.0, top(min(i, n-1))
		if i > 0 && i < n {
			lo = top(i - 1)
		}
		e := Edge{
			Line: Line{geom.Point{X: cuts[i], Y: lo}, geom.Point{X: cuts[i], Y: hi}}, Treatment: Captive,
			Front: math.Abs(s.outer[i] - cuts[i]), Back: math.Abs(s.inner[i] - cuts[i]),
		}
		if i == n && w.lands {
			e.Treatment = Open
		}
		e.Bevel = k.bevelled(e.Front - e.Back)
		d.Edges = append(d.Edges, e)
		if i < n {
			d.Edges = append(d.Edges, Edge{Line: Line{geom.Point{X: cuts[i], Y: hi}, geom.Point{X: cuts[i+1], Y: hi}}, Treatment: how})
		}
	}
	s.roll(w, &d)
	if s.up < 0 {
		d.Outline.Outer = d.Outline.Outer.Reverse()
	}
	s.piece = k.pieceOf(d)
}

// roll notes how the side is rolled, its relief cuts no higher than it is.
func (s *stringSide) roll(w *winding, d *draft) {
	cuts := s.cuts
	lo, hi := min(cuts[0], cuts[len(cuts)-1]), max(cuts[0], cuts[len(cuts)-1])
	wl := &wall{v: [2]float64{0, w.treads[len(w.treads)-1].Top}}
	for i := range s.spans {
		if s.spans[i].x1() > lo+geom.Tolerance && s.spans[i].x0 < hi-geom.Tolerance {
			wl.spans = append(wl.spans, s.spans[i])
		}
	}
	wl.outer = [2]float64{lo, hi}
	for i := range wl.spans {
		if wl.spans[i].seg.Kind == geom.Arc {
			d.roll(wl, i, w.k.folds())
		}
	}
	for i := range d.Relief {
		x := d.Relief[i].Line.To.X
		for j := range w.treads {
			if (x-cuts[j])*s.up >= 0 {
				d.Relief[i].Line.To.Y = w.treads[j].Top - w.t
			}
		}
	}
}

// joinTread joins the side's upper edge to tread i.
func (s *stringSide) joinTread(w *winding, i, tread int) {
	from, to := s.outer[i], s.outer[i+1]
	y := w.treads[i].Top - w.t
	var on, off []geom.Point
	const steps = 24
	for c := range steps + 1 {
		x := from + (to-from)*float64(c)/steps
		on = append(on, geom.Point{X: x, Y: y})
		off = append(off, s.place(x, 0))
	}
	how := Stands
	if w.k.folds() {
		how = Tabbed
	}
	w.k.join(how, Side{tread, off, w.t}, Side{s.piece, on, 0})
	if how == Tabbed {
		s.tabs(w, i, y)
	}
}

// tabs puts tabs on the upper edge under tread i, in from its ends, where risers have theirs.
func (s *stringSide) tabs(w *winding, i int, y float64) {
	d := &w.k.drafts[s.piece]
	deep := min(tabDeep/2, 0.3*w.least())
	lo, hi := min(s.cuts[i], s.cuts[i+1]), max(s.cuts[i], s.cuts[i+1])
	var cuts []tabCut
	for j := range s.spans {
		sp := &s.spans[j]
		a, b := max(lo, sp.x0), min(hi, sp.x1())
		if b-a <= tabLeast {
			continue
		}
		n, in := 1, deep+w.t
		if sp.seg.Kind == geom.Arc {
			n, in = teeth(b-a, sp.seg.RX, offRolled, deep, sp.hand() > 0)
		}
		for c := range n {
			x0, x1 := a+(b-a)*float64(c)/float64(n), a+(b-a)*float64(c+1)/float64(n)
			from, to := geom.Point{X: x1, Y: y}, geom.Point{X: x0, Y: y}
			ea, eb := in, in
			if c == 0 {
				eb = max(in, w.t*2)
			}
			if c == n-1 {
				ea = max(in, w.t*2)
			}
			pts, ok := trapezoid(from, to, deep, ea, eb)
			if !ok {
				continue
			}
			cuts = append(cuts, tabCut{from, to, pts})
			d.Tabs = append(d.Tabs, Tab{Base: Line{from, to}, Angle: 90, Joint: len(w.k.joints)})
			d.Folds = append(d.Folds, Fold{Line: Line{from, to}, Angle: 90, Away: true, Front: true})
		}
	}
	d.Outline.Outer = withTabs(d.Outline.Outer, cuts)
}
