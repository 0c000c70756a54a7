package view

import (
	"math"
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// mostBends is the greatest number of pieces of an edge that are told apart on its developed side: a line drawn with arcs has
// few, a freely drawn curve turns everywhere.
const mostBends = 12

// turningSides draws the two sides of a flight whose line turns, each laid flat in its true length.
func turningSides(s *set.Set, e *set.Element, sh *set.Steps) []*drawing.Drawing {
	left, right := sh.Bends()
	words := [2]string{"left", "right"}
	if left != right { // the inner side is the one that the line turns to
		words = [2]string{"inner", "outer"}
		if right {
			words = [2]string{"outer", "inner"}
		}
	}
	first := 0
	if right && !left {
		first = 1
	}
	var out []*drawing.Drawing
	for _, k := range [2]int{first, 1 - first} {
		side := words[k] + " side"
		where := side
		if left != right {
			where += ", on the " + [2]string{"left", "right"}[k] + " as one climbs"
		}
		d := &drawing.Drawing{
			View: side, Name: e.Name, Title: e.Name + ", " + side,
			Hold:  "laid flat, seen from the right as one climbs, foot at the left",
			Datum: drawing.Datum{Says: "along the " + words[k] + " edge from the foot, up from the foot"},
		}
		b := newBuilder(d)
		b.own(e)
		b.flightSide(s, sh, k == 1)
		if len(d.Strokes) > 0 {
			b.bends(s, sh, k == 1)
			box := d.Bounds()
			b.stack(geom.Point{X: box.Mid().X, Y: min(inset, box.H()/4)}, name(e.Name, drawing.Lettering7), word(where, drawing.Lettering7))
		}
		out = append(out, d)
	}
	return out
}

// bends says over the foot of a developed side where it is straight and to which radius it is bent, with a thin line wherever
// that changes. An edge that jogs from tread to tread is said tread by tread in the plan, and not here.
func (b *builder) bends(s *set.Set, sh *set.Steps, right bool) {
	at := func(k int) float64 {
		l, r := sh.Sides(k)
		if right {
			return r
		}
		return l
	}
	x := at(0)
	for k := range sh.Goings {
		if !near(at(k), x) {
			return
		}
	}
	edge := sh.Edge(x, 0, sh.Run())
	if edge.Len() > mostBends {
		return
	}
	along, low := 0.0, (sh.Rises[0]-sh.Tread)/4
	for i, seg := range edge.Segments() {
		length := seg.Length()
		if i > 0 {
			b.stroke(polyline(geom.Point{X: along}, geom.Point{X: along, Y: b.reach(sh, right, along)}), thinDashed)
		}
		what := "straight"
		if seg.Kind == geom.Arc {
			what = "bent to a radius of " + figure(s, seg.RX)
		}
		b.stack(geom.Point{X: along + length/2, Y: low}, word(what+", "+figure(s, length)+" long", drawing.Lettering5))
		along += length
	}
}

// reach is how high a side reaches at a place along it.
func (*builder) reach(sh *set.Steps, right bool, along float64) float64 {
	top := 0.0
	for k, n := range sh.Notches(right)[:len(sh.Goings)] {
		if n.Back <= along+geom.Tolerance || k == 0 {
			top = sh.Treads()[k].Top - sh.Tread
		}
	}
	return top
}

// bentFlight is a flight along a line on the plan: its outline with a jog wherever the width changes, every riser line between,
// nosings dashed where they overhang, and an arrow up along its middle.
func (z sizes) bentFlight(s *set.Steps) []trace {
	t := []trace{{bentOutline(s), edge}}
	for k := range s.Treads() {
		left, right := s.RiserLine(k)
		if k > 0 {
			t = append(t, trace{polyline(left, right), riser})
		}
		if s.Nosing > geom.Tolerance {
			front := s.TreadBoard(k).Outer.Segment(0)
			t = append(t, trace{polyline(front.From, front.To), covered})
		}
	}
	return append(t, trace{z.bentWayUp(s), arrow})
}

// bentOutline runs anticlockwise from the left end of the first riser, left as one climbs. Treads of one width have one edge.
func bentOutline(s *set.Steps) *geom.Path {
	type run struct{ left, right, y0, y1 float64 }
	var runs []run
	for k, t := range s.Treads() {
		l, r := s.Sides(k)
		if n := len(runs); n > 0 && near(runs[n-1].left, l) && near(runs[n-1].right, r) {
			runs[n-1].y1 = t.Y1
			continue
		}
		runs = append(runs, run{l, r, t.Y0, t.Y1})
	}
	p := geom.NewPath(s.Way(runs[0].left, 0))
	add := func(edge *geom.Path) {
		for _, seg := range edge.Segments() {
			p.Append(seg)
		}
	}
	for _, r := range runs {
		add(s.Edge(r.right, r.y0, r.y1))
	}
	for i := len(runs) - 1; i >= 0; i-- {
		add(s.Edge(runs[i].left, runs[i].y0, runs[i].y1).Reverse())
	}
	p.Close()
	return p
}

// bentWayUp runs from the middle of the first riser to the middle of the last along the middles of the treads, with an open
// head.
func (z sizes) bentWayUp(s *set.Steps) *geom.Path {
	p := &geom.Path{}
	for k, t := range s.Treads() {
		for _, seg := range s.Edge(s.Mid(k), t.Y0, t.Y1).Segments() {
			p.Append(seg)
		}
	}
	last := len(s.Goings) - 1
	end, ahead := p.End(), s.Ahead(s.Run())
	head := min(z.head, s.Goings[last])
	u := ahead.Mul(head)
	wing := u.Left().Mul(math.Tan(math.Pi / 9)) // half an angle of 40°
	p.LineTo(end.Sub(u).Add(wing))
	p.LineTo(end)
	p.LineTo(end.Sub(u).Sub(wing))
	return p
}

// stepLabels says on full-size paper what each tread of a flight is, how high it lies and which riser stands at its front.
func (b *builder) stepLabels(s *set.Set, sh *set.Steps, m geom.Isometry, pl set.Place, title string) {
	place := func(x, y float64) geom.Point { return m.Apply(sh.Way(x, y)) }
	treads := sh.Treads()
	if len(treads) == 0 {
		b.stack(place(sh.Mid(0), -inset/2), name(title, drawing.Lettering7), word("riser 1", drawing.Lettering5))
		return
	}
	const side = 45
	for k, t := range treads {
		n := strconv.Itoa(k + 1)
		left, right := sh.Sides(k)
		mid := place(t.Mid+t.Width/4, (t.Y0+t.Y1)/2)
		height := word(level(s, pl.Level()+t.Top), drawing.Lettering10)
		what := ""
		if isLanding(sh, k+1) {
			what = "LANDING"
		}
		if sh.Blocks {
			b.stack(mid, name(title, drawing.Lettering5), word("block "+n, drawing.Lettering5), height)
			continue
		}
		b.stack(mid, word(what, drawing.Lettering7), height)
		up := min(side/3, (t.Y1-t.Y0)/4)
		for _, x := range [2]float64{left + side, right - side} {
			b.stack(place(x, t.Y0+up), word("riser "+n, drawing.Lettering5))
		}
	}
	t := treads[0]
	b.stack(place(t.Mid-t.Width/4, (t.Y0+t.Y1)/2), name(title, drawing.Lettering10), word(risers(sh), drawing.Lettering10))
}
