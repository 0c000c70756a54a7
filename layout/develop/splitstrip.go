package develop

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// backing is a strip behind a seam: a rectangle in the coordinates in which the whole is worked out, flat on its inner
// face, within one panel.
type backing struct {
	box     geom.Rect
	upright bool // the seam that it backs
	at      float64
	panel   *span // nil of a plate
}

// stripReach is how far a strip reaches to each side of its seam (common practice, no source).
func stripReach(t float64) float64 { return max(5, min(30, 4*t)) }

// backings finds room for strips behind a chord of a seam; there are none where anything stands in the way everywhere.
func (s *splitter) backings(whole *splitPiece, l seamLine, c Line) []backing {
	t := whole.Thickness
	a, _ := whole.worked(c.From, 0)
	b, _ := whole.worked(c.To, 0)
	if l.upright && a.Y > b.Y || !l.upright && a.X > b.X {
		a, b = b, a
	}
	end := func(q geom.Point) float64 { // what a strip keeps from the end of its chord
		for _, e := range whole.Edges {
			f, _ := whole.worked(e.Line.From, 0)
			g, _ := whole.worked(e.Line.To, 0)
			if e.Treatment == Backed && fromLine(f, g, q) <= geom.Tolerance*10 {
				return stripReach(t) + t/4
			}
		}
		return t
	}
	ea, eb := end(a), end(b)
	var out []backing
	for _, p := range panelsOf(&whole.Piece) {
		for _, try := range [...]struct{ reach, more float64 }{{1, 0}, {1, 1}, {1, 3}, {0.6, 0}, {0.6, 1}, {0.6, 3}, {0.35, 1}, {0.35, 3}} {
			r := stripReach(t) * try.reach
			x := backing{upright: l.upright, panel: p.span}
			if l.upright {
				x.at = a.X
				x.box = geom.Rect{Min: geom.Point{X: a.X - r, Y: a.Y + ea + try.more*t}, Max: geom.Point{X: a.X + r, Y: b.Y - eb - try.more*t}}
				if a.X < p.from || a.X > p.to {
					break
				}
			} else {
				x.at = a.Y
				x.box = geom.Rect{Min: geom.Point{X: max(a.X+ea, p.from) + try.more*t, Y: a.Y - r}, Max: geom.Point{X: min(b.X-eb, p.to) - try.more*t, Y: a.Y + r}}
			}
			if min(x.box.W(), x.box.H()) < 2*r-geom.Tolerance || x.box.Min.X < p.from-geom.Tolerance || x.box.Max.X > p.to+geom.Tolerance {
				continue
			}
			if s.free(whole, x.box) {
				out = append(out, x)
				break
			}
		}
	}
	return out
}

// panel is the stretch of a piece's body, in x, that a strip can lie flat against.
type panel struct {
	from, to float64
	span     *span
}

// panelsOf returns the panels of a piece: between folds, a card's thickness off each, and a roll by itself.
func panelsOf(p *Piece) []panel {
	if len(p.body.spans) == 0 {
		return []panel{{math.Inf(-1), math.Inf(1), nil}}
	}
	var out []panel
	for i := range p.body.spans {
		s := &p.body.spans[i]
		from, to := s.x0, s.x1()
		if i > 0 && math.Abs(turnAt(p.body.spans[i-1].seg, s.seg)) > tangent {
			from += p.Thickness * 2
		}
		if i+1 < len(p.body.spans) && math.Abs(turnAt(s.seg, p.body.spans[i+1].seg)) > tangent {
			to -= p.Thickness * 2
		}
		if s.seg.Kind == geom.Arc && s.seg.RX-s.hand()*2*p.Thickness <= least {
			continue
		}
		out = append(out, panel{from, to, s})
	}
	return out
}

// free reports whether card one thickness behind a rectangle of a piece's inner face lies within the piece's outline and
// touches no other piece.
func (s *splitter) free(whole *splitPiece, box geom.Rect) bool {
	t := whole.Thickness
	const in = 1e-3
	steps := func(l float64) int { return max(2, min(400, int(math.Ceil(2*l/t)))) }
	nx, ny := steps(box.W()), steps(box.H())
	around := emptySpace()
	for i := range 33 {
		for _, share := range [...]float64{0, 0.25, 0.5, 0.75, 1} {
			x := box.Min.X + box.W()*float64(i)/32
			y := box.Min.Y + box.H()*share
			around.include(whole.body.made(geom.Point{X: x, Y: y}, t))
			around.include(whole.body.made(geom.Point{X: x, Y: y}, 2*t))
		}
	}
	var others []int
	for _, id := range s.order {
		p := &s.pieces[id]
		if p.Element == whole.Element && (p.of != whole.of || p.strip) && p.space().near(around, t) {
			others = append(others, id)
		}
	}
	region := netOf(&whole.Piece).region
	for i := range nx + 1 {
		for k := range ny + 1 {
			if i > 1 && i < nx-1 && k > 1 && k < ny-1 && i%4 != 0 { // the inside more coarsely than the edge
				continue
			}
			q := geom.Point{
				X: box.Min.X + in + (box.W()-2*in)*float64(i)/float64(nx),
				Y: box.Min.Y + in + (box.H()-2*in)*float64(k)/float64(ny),
			}
			if f, _ := whole.flat(q, 0); !region.Contains(f) {
				return false
			}
			for _, depth := range [3]float64{t + in, 1.5 * t, 2*t - in} {
				v := whole.body.made(q, depth)
				for _, id := range others {
					if s.pieces[id].fills(v) {
						return false
					}
				}
			}
		}
	}
	return true
}

// strips makes the strips of a seam and glues them to the parts, ids, of the whole; joint is where theirs come in the list, k the
// place of the first part in the order.
func (s *splitter) strips(whole *splitPiece, d *divided, ids []int, joint, k int) {
	place := k + len(ids)
	most := max(s.w, s.h)
	for _, chord := range d.backings {
		for _, b := range chord {
			long := b.box.H()
			if !b.upright {
				long = b.box.W()
			}
			n := int(max(1, math.Ceil(long/most-1e-9)))
			for i := range n {
				part := b
				from, to := long*float64(i)/float64(n), long*float64(i+1)/float64(n)
				if b.upright {
					part.box.Min.Y, part.box.Max.Y = b.box.Min.Y+from, b.box.Min.Y+to
				} else {
					part.box.Min.X, part.box.Max.X = b.box.Min.X+from, b.box.Min.X+to
				}
				id := len(s.pieces)
				p := part.piece(&whole.Piece)
				s.pieces = append(s.pieces, splitPiece{Piece: p, of: whole.of, strip: true, refuse: true})
				s.order = slices.Insert(s.order, place, id)
				place++
				for side := range 2 {
					j, ok := s.glue(whole, d, ids, part, id, side)
					if ok {
						j.from = s.newJoint(0)
						s.joints = slices.Insert(s.joints, joint, j)
						joint++
					}
				}
			}
		}
	}
}

// inner returns the span behind a panel's, between two places of its x: what a strip is bent along.
func (b *backing) inner(t float64) span {
	s := b.panel
	from, to := s.at(b.box.Min.X, t), s.at(b.box.Max.X, t)
	seg := geom.Segment{From: from, To: to}
	if s.seg.Kind == geom.Arc {
		seg.Kind, seg.Centre = geom.Arc, s.seg.Centre
		seg.RX = s.seg.RX - s.hand()*t
		seg.RY = seg.RX
		seg.Theta = from.Sub(seg.Centre).Angle()
		seg.Sweep = s.hand() * b.box.W() / s.middle()
	}
	return span{seg: seg, t: t}
}

// piece is the strip as it is cut.
func (b *backing) piece(whole *Piece) Piece {
	t := whole.Thickness
	k := work{card: set.Card{Name: whole.Card, Thickness: t}}
	d := draft{Piece: Piece{Name: "strip behind " + whole.Name}}
	if b.panel == nil {
		d.Outline.Outer = cornered(b.box)
		back := geom.Identity()
		back.T.Z = -t
		d.body.frame = back.Then(whole.body.frame)
	} else {
		in := b.inner(t)
		flat := geom.Rect{Min: geom.Point{Y: b.box.Min.Y}, Max: geom.Point{X: in.length(), Y: b.box.Max.Y}}
		d.Outline.Outer = cornered(flat)
		d.body.frame, d.body.spans = whole.body.frame, []span{in}
		if in.seg.Kind == geom.Arc {
			w := &wall{spans: d.body.spans, outer: [2]float64{0, in.length()}, v: [2]float64{flat.Min.Y, flat.Max.Y}}
			d.roll(w, 0, k.folds())
		}
	}
	p := k.settle(d, !whole.Hidden)
	p.Element, p.Span = whole.Element, whole.Span
	return p
}

// cornered is the outline of a box.
func cornered(b geom.Rect) *geom.Path {
	return geom.Polygon([]geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}})
}

// glue joins a strip to the part on one side of its seam, along the middle of what lies there.
func (s *splitter) glue(whole *splitPiece, d *divided, ids []int, b backing, strip, side int) (splitJoint, bool) {
	t := whole.Thickness
	sign := float64(2*side - 1)
	if whole.Hidden && b.upright { // the card is seen from the other side
		sign = -sign
	}
	from, to := b.box.Min, b.box.Max
	if b.upright {
		from.X = b.at + sign*b.box.W()/4
		to.X = from.X
	} else {
		from.Y = b.at + sign*b.box.H()/4
		to.Y = from.Y
	}
	n := 1
	if b.panel != nil && b.panel.seg.Kind == geom.Arc && !b.upright {
		n = 8
	}
	j := splitJoint{Joint: Joint{Element: whole.Element, Treatment: Laid, B: Side{Piece: strip}}}
	var on []geom.Point
	for i := range n + 1 {
		q := from.Lerp(to, float64(i)/float64(n))
		f, depth := whole.flat(q, t)
		on, j.A.Depth = append(on, f), depth
		x := q
		if b.panel != nil {
			in := b.inner(t)
			x.X = in.flat(b.panel.at(q.X, t))
		}
		f, j.B.Depth = s.pieces[strip].flat(x, 0)
		j.B.Line = append(j.B.Line, f)
	}
	part := d.partAt(side, on[0].Lerp(on[len(on)-1], 0.5))
	if part < 0 {
		return j, false
	}
	// The part's axes are the whole's, moved: the same place of the body, laid out anew.
	j.A.Piece = ids[part]
	for i := range on {
		q, _ := whole.worked(on[i], 0)
		on[i], _ = s.pieces[ids[part]].flat(q, 0)
	}
	j.A.Line = on
	return j, true
}
