package develop

import (
	"math"

	"markout/layout/geom"
)

const (
	tabDeep               = 5.0       // millimetres that a tab reaches (common practice, no source)
	tabLeast              = 1.5       // a shallower or narrower one holds nothing and is left out
	toothLeast, toothMost = 3.0, 15.0 // millimetres of a curved edge to a tab
	// How far the straight fold of a tab may lie off a curve that is cut, and off one that is rolled and bends with it.
	offCut, offRolled = 0.02, 0.05
	toothGap          = 0.15 // what is left open between tabs on a curved edge
)

// teeth returns how many tabs stand on a curved edge of that length and radius, each no further off it than off (a chord l
// long is l²/8r off), and how far the ends of each slant in: enough not to lie on one another where they come closer
// together than their feet, which d deep they do by d/r.
func teeth(long, r, off, d float64, closer bool) (n int, slant float64) {
	l := min(toothMost, max(toothLeast, math.Sqrt(8*r*off)))
	n = max(1, int(math.Ceil(long/l-1e-6)))
	slant = toothGap / 2
	if closer {
		slant += long / float64(n) * d / (2 * r)
	}
	return n, slant
}

// trapezoid is a tab on the base from a to b, on the right of the way from a to b, d deep, its ends slanting in by
// ea and eb. ok is false where there is no room for one.
func trapezoid(a, b geom.Point, d, ea, eb float64) (pts []geom.Point, ok bool) {
	l := a.Dist(b)
	if room := l - tabLeast; ea+eb > room {
		if room <= 0 {
			return nil, false
		}
		k := room / (ea + eb)
		d, ea, eb = d*k, ea*k, eb*k
	}
	if d < tabLeast {
		return nil, false
	}
	u := b.Sub(a).Unit()
	out := u.Left().Mul(-d)
	return []geom.Point{a.Add(u.Mul(ea)).Add(out), b.Sub(u.Mul(eb)).Add(out)}, true
}

// slant is how far the end of a tab d deep stands in, so that tabs which meet in a corner of the given angle, radians,
// do not lie on one another.
func slant(d, angle float64) float64 {
	return d / math.Tan(min(math.Pi/4, 0.475*max(angle, 0.05)))
}

// wallTabs puts tabs on a wall's edge at an end, to be glued under the cap that runs through there.
func (k *work) wallTabs(w *wall, end, joint int, t float64) {
	d := &k.drafts[w.piece]
	y, deep := w.v[end], k.tabDepth
	var bases, slants [][2]float64
	for i := range w.spans {
		from, to := w.outerOf(i)
		if s := &w.spans[i]; s.seg.Kind == geom.Arc {
			n, in := teeth(to-from, s.seg.RX, offRolled, deep, s.hand() > 0)
			for c := range n {
				a, b := from+(to-from)*float64(c)/float64(n), from+(to-from)*float64(c+1)/float64(n)
				bases, slants = append(bases, [2]float64{a, b}), append(slants, [2]float64{in, in})
			}
			continue
		}
		bases = append(bases, [2]float64{from, to})
		slants = append(slants, [2]float64{slant(deep, w.angle(i, 0)), slant(deep, w.angle(i, 1))})
	}
	at := func(x float64) geom.Point { return geom.Point{X: x, Y: y} }
	var cuts []tabCut
	for i, b := range bases {
		from, to, ends := at(b[0]), at(b[1]), slants[i]
		if end == 1 {
			from, to, ends = to, from, [2]float64{ends[1], ends[0]}
		}
		pts, ok := trapezoid(from, to, deep, ends[0], ends[1])
		if !ok {
			continue
		}
		cuts = append(cuts, tabCut{from, to, pts})
		d.Tabs = append(d.Tabs, Tab{Base: Line{from, to}, Angle: 90, Joint: joint})
		d.Folds = append(d.Folds, Fold{Line: Line{from, to}, Angle: 90, Away: true, Front: true})
	}
	d.Outline.Outer = withTabs(d.Outline.Outer, cuts)
}

// angle is the angle of the material, radians, at the end of span i of a wall.
func (w *wall) angle(i, end int) float64 {
	for _, f := range w.folds {
		if math.Abs(f.x-w.spans[i].x0) <= geom.Tolerance && end == 0 || math.Abs(f.x-w.spans[i].x1()) <= geom.Tolerance && end == 1 {
			return math.Pi - f.turn
		}
	}
	return math.Pi / 2
}

// capTabs puts tabs on the edges of a cap that stands between walls, along a glue line: shallower ones where they would run
// into one another, and where even the shallowest do, none. Curved edges become straight from tab to tab.
func (k *work) capTabs(plate int, along []geom.Point, joint int) {
	d := &k.drafts[plate]
	if d.Outline.Outer.Area() < 0 {
		return
	}
	for deep := k.tabDepth; deep >= tabLeast; deep *= 0.7 {
		p, cuts := tabbed(d.Outline.Outer, along, deep)
		if len(cuts) == 0 {
			break
		}
		outline := withTabs(p, cuts)
		if _, _, _, crosses := outline.SelfCrossing(); crosses {
			continue
		}
		d.Outline.Outer = outline
		for _, c := range cuts {
			base := Line{c.from, c.to}
			d.Tabs = append(d.Tabs, Tab{Base: base, Angle: 90, Joint: joint})
			d.Folds = append(d.Folds, Fold{Line: base, Angle: 90, Away: true, Front: true})
		}
		return
	}
	k.joints[joint-1].how = Captive // edge to edge
}

// tabbed returns the outline with its curves along a glue line made straight from tab to tab, and the tabs.
func tabbed(outline *geom.Path, along []geom.Point, deep float64) (*geom.Path, []tabCut) {
	p := geom.NewPath(outline.Start())
	curved := map[int]float64{} // slant of the tabs on straight runs that stand for curves
	for _, s := range outline.Segments() {
		if s.Kind != geom.Arc || !follows(along, s) {
			p.Append(s)
			continue
		}
		n, in := teeth(s.Length(), s.RX, offCut, deep, s.Sweep < 0)
		for i := range n {
			curved[p.Len()] = in
			p.LineTo(s.Point(float64(i+1) / float64(n)))
		}
	}
	p.Close()
	var cuts []tabCut
	pts := p.Vertices()
	n := len(pts)
	// room is what is outside the outline at the corner q.
	room := func(p, q, r geom.Point) float64 {
		in, out := q.Sub(p), r.Sub(q)
		return math.Pi + math.Atan2(in.Cross(out), in.Dot(out))
	}
	for i, a := range pts {
		b := pts[(i+1)%n]
		in, round := curved[i]
		if !round && (p.Segment(i).Kind != geom.Line || !joined(along, a, b)) {
			continue
		}
		at, to := room(pts[(i+n-1)%n], a, b), room(a, b, pts[(i+2)%n])
		ea, eb := slant(deep, at), slant(deep, to)
		if round && at > 0.8*math.Pi {
			ea = in
		}
		if round && to > 0.8*math.Pi {
			eb = in
		}
		if tab, ok := trapezoid(a, b, deep, ea, eb); ok {
			cuts = append(cuts, tabCut{a, b, tab})
		}
	}
	return p, cuts
}

// follows reports whether an arc of an outline runs along a glue line, which is drawn in steps of at most 5°.
func follows(line []geom.Point, s geom.Segment) bool {
	mid := s.Point(0.5)
	for _, q := range line {
		if q.Dist(mid) <= s.RX*2.6*math.Pi/180 && math.Abs(q.Dist(s.Centre)-s.RX) <= 1e-4 {
			return true
		}
	}
	return false
}

// joined reports whether the middle of the edge from a to b lies on a glue line.
func joined(line []geom.Point, a, b geom.Point) bool {
	m := a.Lerp(b, 0.5)
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		t := m.Sub(line[i-1]).Dot(d)
		if t > 0 && t < d.Dot(d) && math.Abs(d.Unit().Cross(m.Sub(line[i-1]))) <= geom.Tolerance {
			return true
		}
	}
	return false
}

// seamTab puts a tab on the last end of a wall that goes all the way round, to be glued behind its first.
func (k *work) seamTab(w *wall, joint int, turn float64) {
	d := &k.drafts[w.piece]
	_, x := w.box()
	a, b := geom.Point{X: x, Y: w.v[0]}, geom.Point{X: x, Y: w.v[1]}
	from, to := w.outerOf(0)
	deep := min(tabDeep, (to-from)*0.8)
	edge := deep / 4
	pts, ok := trapezoid(a, b, deep, edge, edge)
	if !ok {
		return
	}
	d.Outline.Outer = withTabs(d.Outline.Outer, []tabCut{{a, b, pts}})
	angle := math.Max(turn, 0) * 180 / math.Pi
	d.Tabs = append(d.Tabs, Tab{Base: Line{a, b}, Angle: angle, Joint: joint})
	d.Folds = append(d.Folds, Fold{Line: Line{a, b}, Angle: angle, Away: true, Front: true})
}

// tabCut is a tab's two outer corners on the edge, or part of an edge, from one place to another.
type tabCut struct {
	from, to geom.Point
	pts      []geom.Point
}

// withTabs returns the outline, anticlockwise, with tabs cut out around its edges.
func withTabs(p *geom.Path, cuts []tabCut) *geom.Path {
	if len(cuts) == 0 {
		return p
	}
	q := geom.NewPath(p.Start())
	for _, s := range p.Segments() {
		if s.Kind == geom.Line {
			dir := s.To.Sub(s.From).Unit()
			last := 0.0
			for {
				// The next tab along this edge.
				var next *tabCut
				best := math.Inf(1)
				for i := range cuts {
					c := &cuts[i]
					x := c.from.Sub(s.From).Dot(dir)
					if math.Abs(dir.Cross(c.from.Sub(s.From))) > geom.Tolerance || math.Abs(dir.Cross(c.to.Sub(s.From))) > geom.Tolerance ||
						c.to.Sub(c.from).Dot(dir) <= 0 || x < last-geom.Tolerance || x >= best ||
						c.to.Sub(s.From).Dot(dir) > s.Length()+geom.Tolerance {
						continue
					}
					next, best = c, x
				}
				if next == nil {
					break
				}
				if !q.End().Near(next.from) {
					q.LineTo(next.from)
				}
				for _, v := range next.pts {
					q.LineTo(v)
				}
				q.LineTo(next.to)
				last = next.to.Sub(s.From).Dot(dir)
			}
			if !q.End().Near(s.To) {
				q.LineTo(s.To)
			}
			continue
		}
		q.Append(s)
	}
	q.Close()
	return q
}
