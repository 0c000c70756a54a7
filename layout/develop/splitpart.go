package develop

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// divided is a piece cut along a seam: its parts, those before the line first, still in the piece's own axes.
type divided struct {
	line   seamLine
	parts  []Piece
	areas  []geom.Region // of the parts, where they lay in the whole
	side   []int         // of each part
	tabs   [][]netTab
	chords []Line

	backings [][]backing // of each chord that has strips behind it
}

// divide cuts a piece along a line.
func divide(p *Piece, l seamLine) (*divided, error) {
	n := netOf(p)
	h, err := cutArea(n.region, l)
	if err != nil {
		return nil, err
	}
	d := &divided{line: l, chords: h.chords}
	for side, regions := range h.parts {
		for _, r := range regions {
			part := *p
			part.Outline = r
			part.Edges, part.Folds, part.Rolls, part.Relief, part.Tabs = nil, nil, nil, nil, nil
			d.parts, d.areas, d.side = append(d.parts, part), append(d.areas, r), append(d.side, side)
		}
	}
	d.tabs = make([][]netTab, len(d.parts))
	for _, e := range p.Edges {
		d.share(e.Line, func(part *Piece, line Line) {
			e := e
			e.Line = line
			part.Edges = append(part.Edges, e)
		})
	}
	for _, f := range p.Folds {
		if isTabFold(p, f) {
			continue
		}
		d.share(f.Line, func(part *Piece, line Line) {
			f := f
			f.Line = line
			part.Folds = append(part.Folds, f)
		})
	}
	for _, r := range p.Relief {
		d.share(r.Line, func(part *Piece, line Line) {
			r := r
			r.Line = line
			part.Relief = append(part.Relief, r)
		})
	}
	for _, t := range n.tabs {
		for side, cut := range t.cut(l) {
			if cut != nil {
				k := d.partAt(side, cut.tab.Base.From.Lerp(cut.tab.Base.To, 0.5))
				d.tabs[k] = append(d.tabs[k], *cut)
			}
		}
	}
	for i := range d.parts {
		d.parts[i].Rolls = rolledPart(p.Rolls, d.parts[i].Outline.Bounds())
	}
	return d, nil
}

func isTabFold(p *Piece, f Fold) bool {
	for _, t := range p.Tabs {
		if t.Base == f.Line {
			return true
		}
	}
	return false
}

// rolledPart returns the rolls that lie in a box.
func rolledPart(rolls []Roll, b geom.Rect) []Roll {
	var out []Roll
	for _, r := range rolls {
		from, to := max(r.From, b.Min.X), min(r.To, b.Max.X)
		if to-from <= geom.Tolerance {
			continue
		}
		r.Sweep *= (to - from) / (r.To - r.From)
		r.From, r.To = from, to
		out = append(out, r)
	}
	return out
}

// share gives each part what it has of a straight line.
func (d *divided) share(l Line, give func(*Piece, Line)) {
	a, b := d.line.off(l.From), d.line.off(l.To)
	if a*b >= -1e-12 {
		give(&d.parts[d.partAt(sideOf(a+b), l.From.Lerp(l.To, 0.5))], l)
		return
	}
	at := l.From.Lerp(l.To, a/(a-b))
	if d.line.upright {
		at.X = d.line.at
	} else {
		at.Y = d.line.at
	}
	for _, part := range [2]Line{{l.From, at}, {at, l.To}} {
		mid := part.From.Lerp(part.To, 0.5)
		give(&d.parts[d.partAt(sideOf(d.line.off(mid)), mid)], part)
	}
}

func sideOf(off float64) int {
	if off > 0 {
		return 1
	}
	return 0
}

// partAt returns the part on a side that a place belongs to: the one that holds it, or the nearest.
func (d *divided) partAt(side int, at geom.Point) int {
	best, least := -1, math.Inf(1)
	for i, r := range d.areas {
		if d.side[i] != side {
			continue
		}
		away := 0.0
		if !r.Contains(at) {
			away = fromEdge(r, at)
		}
		if away < least {
			best, least = i, away
		}
	}
	return best
}

// fromEdge is how far a place lies from the edge of an area.
func fromEdge(r geom.Region, at geom.Point) float64 {
	least := math.Inf(1)
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		for _, s := range p.Segments() {
			if s.Kind == geom.Line {
				least = min(least, fromLine(s.From, s.To, at))
				continue
			}
			from := s.From
			for _, q := range s.Flatten(fineness, nil) {
				least = min(least, fromLine(from, q, at))
				from = q
			}
		}
	}
	return least
}

// fromLine is how far a place lies from the line between two.
func fromLine(a, b, at geom.Point) float64 {
	d := b.Sub(a)
	t := 0.0
	if l := d.Dot(d); l > 0 {
		t = max(0, min(1, at.Sub(a).Dot(d)/l))
	}
	return at.Dist(a.Lerp(b, t))
}

// settled puts a part's box at 0,0, tabs and all, and returns by how much it was moved.
func (p *Piece) settled() geom.Point {
	b := p.Outline.Bounds()
	move := b.Min.Mul(-1)
	p.move(move)
	low := geom.Point{X: p.body.low.X + b.Min.X, Y: p.body.low.Y + b.Min.Y}
	if p.Hidden {
		low.X = p.body.width + p.body.low.X - b.Min.X - b.W()
	}
	p.body.low, p.body.width = low, b.W()
	return move
}

// move shifts everything that is said of the card's places.
func (p *Piece) move(by geom.Point) {
	m := geom.Isometry{A: 1, D: 1, T: by}
	line := func(l *Line) { l.From, l.To = l.From.Add(by), l.To.Add(by) }
	p.Outline = p.Outline.Transform(m)
	for i := range p.Edges {
		line(&p.Edges[i].Line)
	}
	for i := range p.Folds {
		line(&p.Folds[i].Line)
	}
	for i := range p.Relief {
		line(&p.Relief[i].Line)
	}
	for i := range p.Tabs {
		line(&p.Tabs[i].Base)
	}
	p.Rims = slices.Clone(p.Rims)
	for i := range p.Rims {
		p.Rims[i].Centre = p.Rims[i].Centre.Add(by)
	}
	if p.Taper != nil {
		t := *p.Taper
		t.Apex = t.Apex.Add(by)
		p.Taper = &t
	}
	for i := range p.Rolls {
		p.Rolls[i].From += by.X
		p.Rolls[i].To += by.X
	}
}

// flat returns the place of the card, and its depth below the printed side, of a place of the body.
func (p *Piece) flat(at geom.Point, depth float64) (geom.Point, float64) {
	q := at.Sub(p.body.low)
	if p.Hidden {
		return geom.Point{X: p.body.width - q.X, Y: q.Y}, p.Thickness - depth
	}
	return q, depth
}

// worked is the reverse of flat.
func (p *Piece) worked(q geom.Point, depth float64) (geom.Point, float64) {
	if p.Hidden {
		q.X, depth = p.body.width-q.X, p.Thickness-depth
	}
	return q.Add(p.body.low), depth
}

// found returns the places of the card, with their depths, that come to lie at v, of as many panels as reach there: none
// of a piece that is bent otherwise than in panels and rolls.
func (p *Piece) found(v geom.Vec, each func(at geom.Point, depth float64)) {
	b := &p.body
	v = b.frame.Inverse().Apply(v)
	switch {
	case b.bent != nil:
	case len(b.spans) == 0:
		each(p.flat(geom.Point{X: v.X, Y: v.Y}, -v.Z))
	default:
		q := v.Plan()
		for i := range b.spans {
			s := &b.spans[i]
			x := s.flat(q)
			if x < s.x0-geom.Tolerance && i > 0 || x > s.x1()+geom.Tolerance && i < len(b.spans)-1 {
				continue
			}
			depth := s.hand() * (s.seg.RX - q.Dist(s.seg.Centre))
			if s.seg.Kind == geom.Line {
				depth = s.seg.To.Sub(s.seg.From).Unit().Left().Dot(q.Sub(s.seg.From))
			}
			each(p.flat(geom.Point{X: x, Y: v.Z}, depth))
		}
	}
}

// fills reports whether a place of the made model lies in the piece's card.
func (p *Piece) fills(v geom.Vec) bool {
	in := false
	p.found(v, func(at geom.Point, depth float64) {
		in = in || depth > 1e-6 && depth < p.Thickness-1e-6 && p.Outline.Contains(at)
	})
	return in
}
