package develop

import (
	"fmt"
	"math"
	"slices"

	"markout/layout/geom"
)

// bases are the lengths of a chord that laps can stand on: between the folds that it crosses, along the outline of the
// part before the seam.
func (d *divided) bases(whole *Piece, c Line) []Line {
	stops := []geom.Point{c.From}
	for _, f := range whole.Folds {
		a, b := d.line.off(f.Line.From), d.line.off(f.Line.To)
		if isTabFold(whole, f) || a*b >= 0 {
			continue
		}
		at := f.Line.From.Lerp(f.Line.To, a/(a-b))
		if x := d.line.along(at); x > d.line.along(c.From)+geom.Tolerance && x < d.line.along(c.To)-geom.Tolerance {
			stops = append(stops, d.line.point(x))
		}
	}
	stops = append(stops, c.To)
	slices.SortFunc(stops, func(a, b geom.Point) int {
		if d.line.along(a) < d.line.along(b) {
			return -1
		}
		return 1
	})
	var out []Line
	for i := 1; i < len(stops); i++ {
		l := Line{stops[i-1], stops[i]}
		if !d.line.upright { // the outline of the lower part runs to the left along its upper edge
			l = Line{l.To, l.From}
		}
		out = append(out, l)
	}
	return out
}

// lapOn is the tab on a base, which runs as the outline does; it is not folded.
func lapOn(base Line, joint int, hidden bool) (netTab, bool) {
	deep := min(lapDeep, base.From.Dist(base.To)/2)
	pts, ok := trapezoid(base.From, base.To, deep, deep/4+foldable, deep/4+foldable)
	if !ok {
		return netTab{}, false
	}
	if hidden {
		return netTab{tab: Tab{Base: Line{base.To, base.From}, Joint: joint}, pts: [2]geom.Point{pts[1], pts[0]}}, true
	}
	return netTab{tab: Tab{Base: base, Joint: joint}, pts: [2]geom.Point{pts[0], pts[1]}}, true
}

// seamsBeside returns the places, in the piece's own axes, of seams in what lies close before or behind it: layers, and
// skins with no room for a strip between them, are not cut at one place.
func (s *splitter) seamsBeside(id int, upright bool) []float64 {
	p := &s.pieces[id]
	var out []float64
	for _, j := range s.joints {
		q := &s.pieces[j.A.Piece]
		if j.Treatment != Edged && j.Treatment != Backed && j.Treatment != Lapped || q.Element != p.Element || q.of == p.of {
			continue
		}
		var ends []geom.Point
		for _, at := range [2]geom.Point{j.A.Line[0], j.A.Line[len(j.A.Line)-1]} {
			p.found(q.Made(at, j.A.Depth), func(f geom.Point, depth float64) {
				if math.Abs(depth-p.Thickness/2) < 4*p.Thickness {
					ends = append(ends, f)
				}
			})
		}
		if len(ends) < 2 {
			continue
		}
		a, b := ends[0], ends[len(ends)-1]
		switch {
		case upright && math.Abs(a.X-b.X) < geom.Tolerance:
			out = append(out, a.X)
		case !upright && math.Abs(a.Y-b.Y) < geom.Tolerance:
			out = append(out, a.Y)
		}
	}
	return out
}

// give writes the model anew: numbers, labels, joints in their order.
func (s *splitter) give() *Model {
	m := *s.model
	m.Pieces, m.Joints, m.Rods = nil, nil, slices.Clone(m.Rods)
	place := make([]int, len(s.pieces))
	count := map[string]int{}
	parts := make([]int, len(s.model.Pieces))
	for _, id := range s.order {
		p := &s.pieces[id]
		count[p.Element]++
		if !p.strip {
			parts[p.of]++
		}
	}
	number, part := map[string]int{}, make([]int, len(s.model.Pieces))
	for _, id := range s.order {
		p := s.pieces[id].Piece
		of := s.pieces[id].of
		number[p.Element]++
		p.Number, p.Of = number[p.Element], count[p.Element]
		if !s.pieces[id].strip && parts[of] > 1 {
			part[of]++
			p.Name = fmt.Sprintf("%s, part %d", p.Name, part[of])
		}
		place[id] = len(m.Pieces)
		m.Pieces = append(m.Pieces, p)
	}
	number = map[string]int{}
	for i := range s.joints {
		j := &s.joints[i]
		number[j.Element]++
		j.Number = number[j.Element]
		n := j.Joint
		n.A.Piece, n.B.Piece = place[n.A.Piece], place[n.B.Piece]
		m.Joints = append(m.Joints, n)
	}
	for _, id := range s.order {
		p := &m.Pieces[place[id]]
		for t := range p.Tabs {
			p.Tabs[t].Joint = s.jointOf(id, &p.Tabs[t])
		}
	}
	for i := range m.Rods {
		if m.Rods[i].Piece != "" {
			m.Rods[i].Piece = s.carrier(&m, place, &m.Rods[i])
		}
	}
	return &m
}

// jointOf returns the number of the joint that a tab serves: of what became of its own, the one that runs nearest.
func (s *splitter) jointOf(id int, t *Tab) int {
	best, least := 0, math.Inf(1)
	mid := t.Base.From.Lerp(t.Base.To, 0.5)
	for _, j := range s.joints {
		if j.from != t.Joint {
			continue
		}
		for _, side := range [2]Side{j.A, j.B} {
			if side.Piece != id {
				continue
			}
			if d := near(side, mid); d < least {
				best, least = j.Number, d
			}
		}
	}
	return best
}

// carrier returns the label of the part in whose hole a rod stands.
func (s *splitter) carrier(m *Model, place []int, r *Rod) string {
	foot := &m.Base[r.stands]
	for _, id := range s.order {
		p := &s.pieces[id]
		if whole := &s.model.Pieces[p.of]; p.strip || whole.Label() != r.Piece {
			continue
		}
		in := false
		for _, a := range foot.Areas {
			at := a.Outer.Start()
			p.found(geom.Vec{X: at.X, Y: at.Y, Z: foot.Level}, func(q geom.Point, _ float64) { in = in || p.Outline.Outer.Contains(q) })
		}
		if in {
			return m.Pieces[place[id]].Label()
		}
	}
	return r.Piece
}
