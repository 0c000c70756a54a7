package view

import (
	"cmp"
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// How the dimension lines of the plan stand, paper millimetres.
const (
	chainFirst = 8.0 // from the plan's edge to the first line
	chainStep  = 8.0 // from line to line
)

// mostMain and mostRows limit what is dimensioned on the plan's edges; the tape table has every point.
const (
	mostMain = 6
	mostRows = 3
)

// span is the extent of a piece along one axis, with the places at which it is reached.
type span struct {
	lo, hi     float64
	loAt, hiAt geom.Point
}

// chains adds the dimension chains below the plan (across the set) and at its right (its depth): rows with the sizes of
// the main pieces, then one chain through all their ends and through the centre or setting line with the overall size
// of the set. It returns how far out the lines reach, paper millimetres.
func (p *planner) chains() (below, right float64) {
	xs, ys, whole := p.mainSpans()
	below = p.side(xs, whole[0], geom.Point{X: p.box.Mid().X, Y: p.box.Min.Y}, 0)
	right = p.side(ys, whole[1], geom.Point{X: p.box.Max.X, Y: p.box.Mid().Y}, 90)
	return below, right
}

// side adds the chains of one axis. Its lines run in direction and stand to the right of it, outside base.
func (p *planner) side(spans []span, whole span, base geom.Point, direction float64) float64 {
	if whole.hi-whole.lo <= geom.Tolerance {
		return 0
	}
	all := ends(append(slices.Clone(spans), whole))
	all = insert(all, place{at: 0, point: zero(whole, base, direction)})
	line := 0
	out := func() float64 { line++; return -(chainFirst + chainStep*float64(line-1)) }
	for _, row := range pack(spans) {
		if said(row, whole, all) {
			continue
		}
		p.chain(ends(row), direction, base, out(), false)
	}
	p.chain(all, direction, base, out(), len(all) > 2)
	if len(all) > 2 {
		line++
	}
	return chainFirst + chainStep*float64(line-1)
}

// said reports whether the chain of all ends shows each span of a row as one of its parts, or as its overall.
func said(row []span, whole span, all []place) bool {
	for _, s := range row {
		if same(s, whole) {
			continue
		}
		i := slices.IndexFunc(all, func(p place) bool { return near(p.at, s.lo) })
		if i < 0 || i+1 >= len(all) || !near(all[i+1].at, s.hi) {
			return false
		}
	}
	return true
}

// zero is the place on the datum line from which its extension line starts: the edge of the plan.
func zero(whole span, base geom.Point, direction float64) geom.Point {
	if direction == 0 {
		return geom.Point{Y: base.Y}
	}
	return geom.Point{X: base.X}
}

func (p *planner) chain(places []place, direction float64, base geom.Point, offset float64, overall bool) {
	if len(places) < 2 {
		return
	}
	ps := make([]geom.Point, len(places))
	for i, q := range places {
		ps[i] = q.point
	}
	p.d.Dimensions = append(p.d.Dimensions, drawing.Dimension{
		Mark:   drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: -1},
		Points: ps, Direction: direction, Offset: offset, Base: &base, Overall: overall,
	})
}

// askedOffset is how far beside its two places the line of a `dim` stands, so that it does not run along what is measured,
// paper millimetres.
const askedOffset = 4.0

// asked adds a dimension for each `dim` between two places.
func (p *planner) asked() {
	for _, d := range p.s.Dims {
		v := d.B.At.Sub(d.A.At)
		if d.A.Whole || d.B.Whole || v.Len() <= geom.Tolerance || p.measured(d.A.At, d.B.At) {
			continue
		}
		p.d.Dimensions = append(p.d.Dimensions, drawing.Dimension{
			Mark:   drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: -1},
			Points: []geom.Point{d.A.At, d.B.At}, Direction: degrees(v), Offset: askedOffset,
		})
	}
}

// measured reports whether a chain at the plan's edge measures from a to b already, as one part or as its overall.
func (p *planner) measured(a, b geom.Point) bool {
	for _, d := range p.d.Dimensions {
		if d.Base == nil {
			continue
		}
		sin, cos := geom.SincosDeg(d.Direction)
		u := geom.Point{X: cos, Y: sin}
		if !near(b.Sub(a).Cross(u), 0) {
			continue
		}
		lo, hi := min(a.Dot(u), b.Dot(u)), max(a.Dot(u), b.Dot(u))
		last := len(d.Points) - 1
		if d.Overall && near(d.Points[0].Dot(u), lo) && near(d.Points[last].Dot(u), hi) {
			return true
		}
		for i := range last {
			if near(d.Points[i].Dot(u), lo) && near(d.Points[i+1].Dot(u), hi) {
				return true
			}
		}
	}
	return false
}

// mainSpans returns the extents of the main pieces along x and along y, and of the whole set without its hall. Main are
// the largest of what is built on the floor, platforms, flights, ramps and walls; where a set has none of them the largest of
// what else stands there.
func (p *planner) mainSpans() (xs, ys []span, whole [2]span) {
	var built, other []piece
	first := true
	for _, e := range p.s.Elements {
		switch e.Shape.(type) {
		case *set.Hall, *set.Reserve:
			continue
		}
		for _, c := range e.Copies {
			if len(c.Places) == 0 {
				continue
			}
			x, y, ok := extents(e, c.Places[0])
			if !ok {
				continue
			}
			if first {
				whole, first = [2]span{x, y}, false
			} else {
				whole[0], whole[1] = widest(whole[0], x), widest(whole[1], y)
			}
			if len(e.Copies) > 1 || c.Places[0].Level() > geom.Tolerance {
				continue
			}
			q := piece{x, y, (x.hi - x.lo) * (y.hi - y.lo)}
			switch e.Shape.(type) {
			case *set.Platform, *set.Steps, *set.Ramp, *set.Flat:
				built = append(built, q)
			case *set.Ring, *set.Panel, *set.Post, *set.Cone:
				other = append(other, q)
			}
		}
	}
	if len(built) == 0 {
		built = other
	}
	slices.SortStableFunc(built, func(a, b piece) int { return cmp.Compare(b.area, a.area) })
	for _, m := range built[:min(len(built), mostMain)] {
		xs, ys = append(xs, m.x), append(ys, m.y)
	}
	return xs, ys, whole
}

// piece is how far a piece reaches along both axes, and the area of that box.
type piece struct {
	x, y span
	area float64
}

// extents returns how far e reaches at pl along x and y, and where.
func extents(e *set.Element, pl set.Place) (x, y span, ok bool) {
	m := pl.Frame.Plan()
	add := func(q *geom.Path) {
		if q.Empty() {
			return
		}
		q = q.Transform(m)
		l, r := geom.RimAt(q, geom.Point{X: -1}), geom.RimAt(q, geom.Point{X: 1})
		d, u := geom.RimAt(q, geom.Point{Y: -1}), geom.RimAt(q, geom.Point{Y: 1})
		nx, ny := span{l.X, r.X, l, r}, span{d.Y, u.Y, d, u}
		if !ok {
			x, y, ok = nx, ny, true
			return
		}
		x, y = widest(x, nx), widest(y, ny)
	}
	for _, r := range set.Footprints(e.Shape) {
		add(r.Outer)
	}
	if mark, isMark := e.Shape.(*set.Mark); isMark {
		for _, q := range mark.Paths {
			add(q)
		}
	}
	return x, y, ok
}

func widest(a, b span) span {
	if b.lo < a.lo {
		a.lo, a.loAt = b.lo, b.loAt
	}
	if b.hi > a.hi {
		a.hi, a.hiAt = b.hi, b.hiAt
	}
	return a
}

func same(a, b span) bool { return near(a.lo, b.lo) && near(a.hi, b.hi) }

func near(a, b float64) bool { return a-b <= geom.Tolerance && b-a <= geom.Tolerance }

// pack lays the spans into rows in which none overlaps another, the shortest in the first row; at most mostRows rows,
// what does not fit is left to the chain of all ends. Equal spans are one.
func pack(spans []span) [][]span {
	sorted := slices.Clone(spans)
	slices.SortStableFunc(sorted, func(a, b span) int {
		return cmp.Or(cmp.Compare(a.hi-a.lo, b.hi-b.lo), cmp.Compare(a.lo, b.lo))
	})
	sorted = slices.CompactFunc(sorted, same)
	var rows [][]span
next:
	for _, s := range sorted {
		if s.hi-s.lo <= geom.Tolerance {
			continue
		}
	row:
		for i, row := range rows {
			for _, t := range row {
				if s.lo < t.hi-geom.Tolerance && t.lo < s.hi-geom.Tolerance {
					continue row
				}
			}
			rows[i] = append(row, s)
			continue next
		}
		if len(rows) < mostRows {
			rows = append(rows, []span{s})
		}
	}
	return rows
}

// place is one end in a chain: how far along it lies and the point it is measured at.
type place struct {
	at    float64
	point geom.Point
}

// ends returns the ends of the spans in order along the chain, each once.
func ends(spans []span) []place {
	var out []place
	for _, s := range spans {
		out = insert(insert(out, place{s.lo, s.loAt}), place{s.hi, s.hiAt})
	}
	return out
}

// insert keeps the places sorted; of two at one place the earlier stays.
func insert(list []place, p place) []place {
	i, _ := slices.BinarySearchFunc(list, p, func(a, b place) int { return cmp.Compare(a.at, b.at) })
	if i < len(list) && near(list[i].at, p.at) || i > 0 && near(list[i-1].at, p.at) {
		return list
	}
	return slices.Insert(list, i, p)
}
