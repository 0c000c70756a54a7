package develop

import (
	"math"

	"markout/layout/geom"
)

// drill cuts a hole for each rod that stands on a piece, such as a deck's top, as large as the rod's footprint. A rod that
// finds no one flat piece under it, or stands over an edge, is glued on, and a note says so.
func (m *Model) drill() {
	for i := range m.Rods {
		r := &m.Rods[i]
		if r.Hole || r.Section == tapered || r.stands >= len(m.Base) {
			continue
		}
		foot := &m.Base[r.stands]
		if p, hole := m.under(foot); p != nil {
			p.Outline.Holes = append(p.Outline.Holes, hole)
			r.Piece = p.Label()
		} else if foot.Level > geom.Tolerance {
			m.Notes = append(m.Notes, Note{r.Element, "its rod stands in no hole: it is glued on where it stands, or hangs"})
		}
	}
}

// under returns the piece on whose upper face the footprint lies, well inside what is cut, and the footprint's edge on
// the piece.
func (m *Model) under(foot *Footprint) (*Piece, *geom.Path) {
	for i := range m.Pieces {
		p := &m.Pieces[i]
		if len(p.Folds) > len(p.Tabs) || len(p.Rolls) > 0 || p.body.bent != nil {
			continue
		}
		seen, other := 0.0, p.Thickness
		if p.Hidden {
			seen, other = other, seen
		}
		o, below := p.Made(geom.Point{}, seen), p.Made(geom.Point{}, other)
		if math.Abs(o.Z-foot.Level) > 1e-4 || math.Abs(o.Z-below.Z-p.Thickness) > 1e-6 {
			continue // not there, or not level
		}
		x := p.Made(geom.Point{X: 1}, seen).Plan().Sub(o.Plan())
		y := p.Made(geom.Point{Y: 1}, seen).Plan().Sub(o.Plan())
		back := geom.Isometry{A: x.X, B: y.X, C: x.Y, D: y.Y, T: o.Plan()}.Inverse()
		for _, a := range foot.Areas {
			if hole := a.Outer.Transform(back); p.holds(hole) {
				return p, hole
			}
		}
	}
	return nil, nil
}

// holds reports whether a hole lies inside what is cut, a card's thickness or more from every edge, so that it misses the
// walls that stand under the piece's edges.
func (p *Piece) holds(hole *geom.Path) bool {
	if !p.Outline.Contains(hole.Start()) {
		return false
	}
	inside := geom.Region{Outer: hole}
	others := []geom.Region{outside(p.Outline.Outer.Bounds().Union(hole.Bounds()), p.Outline.Outer)}
	for _, h := range p.Outline.Holes {
		others = append(others, geom.Region{Outer: h})
	}
	for _, o := range others {
		if d, _, _ := geom.Distance(inside, o); d < p.Thickness {
			return false
		}
	}
	return true
}
