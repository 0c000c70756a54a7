package develop

import (
	"math"

	"markout/layout/geom"
)

// space is a box in the made model.
type space struct{ lo, hi geom.Vec }

func emptySpace() space {
	inf := math.Inf(1)
	return space{geom.Vec{X: inf, Y: inf, Z: inf}, geom.Vec{X: -inf, Y: -inf, Z: -inf}}
}

func (s *space) include(v geom.Vec) {
	s.lo = geom.Vec{X: min(s.lo.X, v.X), Y: min(s.lo.Y, v.Y), Z: min(s.lo.Z, v.Z)}
	s.hi = geom.Vec{X: max(s.hi.X, v.X), Y: max(s.hi.Y, v.Y), Z: max(s.hi.Z, v.Z)}
}

// near reports whether two boxes come within a distance of one another.
func (s space) near(o space, by float64) bool {
	return s.lo.X <= o.hi.X+by && o.lo.X <= s.hi.X+by && s.lo.Y <= o.hi.Y+by && o.lo.Y <= s.hi.Y+by &&
		s.lo.Z <= o.hi.Z+by && o.lo.Z <= s.hi.Z+by
}

// space is the box that a piece stands in, rolled card followed in steps that miss less than its thickness is allowed for.
func (p *splitPiece) space() space {
	if p.box != nil {
		return *p.box
	}
	out := emptySpace()
	b := p.Outline.Bounds()
	n := 1
	for _, r := range p.Rolls {
		n += int(math.Ceil(r.Sweep))
	}
	for i := range n + 1 {
		x := b.Min.X + b.W()*float64(i)/float64(n)
		for _, q := range [2]geom.Point{{X: x, Y: b.Min.Y}, {X: x, Y: b.Max.Y}} {
			out.include(p.Made(q, 0))
			out.include(p.Made(q, p.Thickness))
		}
	}
	for i := range p.body.spans {
		for _, x := range [2]float64{p.body.spans[i].x0, p.body.spans[i].x1()} {
			f, _ := p.flat(geom.Point{X: x}, 0)
			for _, y := range [2]float64{b.Min.Y, b.Max.Y} {
				out.include(p.Made(geom.Point{X: f.X, Y: y}, 0))
				out.include(p.Made(geom.Point{X: f.X, Y: y}, p.Thickness))
			}
		}
	}
	p.box = &out
	return out
}
