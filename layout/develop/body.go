package develop

import (
	"math"

	"markout/layout/geom"
)

// body is how a flat piece becomes part of the made model, in the coordinates in which it is worked out: seen from
// outside, depth counted inwards from the outer face.
type body struct {
	frame geom.Frame // a plate's own axes x, y and outward, or a wall's p, q, w, in the made model
	spans []span     // of a wall, along its x; none for a plate
	bent  bent       // of what is bent otherwise; nil for plates and walls
	low   geom.Point // lower left of the box of what is cut
	width float64    // of that box
}

// bent says where a place of a flat piece comes to lie in its frame, depth inwards from the outer face.
type bent interface {
	at(q geom.Point, depth float64) geom.Vec
}

func (b *body) made(at geom.Point, depth float64) geom.Vec {
	if b.bent != nil {
		return b.frame.Apply(b.bent.at(at, depth))
	}
	if len(b.spans) == 0 {
		return b.frame.Apply(geom.Vec{X: at.X, Y: at.Y, Z: -depth})
	}
	p := b.span(at.X).at(at.X, depth)
	return b.frame.Apply(geom.Vec{X: p.X, Y: p.Y, Z: at.Y})
}

// span returns the span that holds x; the first and the last reach beyond their ends.
func (b *body) span(x float64) *span {
	k := 0
	for k+1 < len(b.spans) && x >= b.spans[k+1].x0-geom.Tolerance {
		k++
	}
	return &b.spans[k]
}

// span is a part of a wall along one segment, a line or a circular arc, of the outline that it stands on. The material
// lies to the segment's left.
type span struct {
	seg   geom.Segment
	t     float64
	x0    float64 // flat place of the segment's start
	index int     // of the segment in its loop
}

// hand is 1 where the segment bends towards the material, −1 where it bends away, 0 for a line.
func (s *span) hand() float64 {
	if s.seg.Kind != geom.Arc {
		return 0
	}
	return math.Copysign(1, s.seg.Sweep)
}

// middle is the radius of the middle of the card of a rolled span.
func (s *span) middle() float64 { return s.seg.RX - s.hand()*s.t/2 }

// length is the flat length of the whole segment.
func (s *span) length() float64 {
	if s.seg.Kind == geom.Arc {
		return s.middle() * math.Abs(s.seg.Sweep)
	}
	return s.seg.Length()
}

func (s *span) x1() float64 { return s.x0 + s.length() }

// at returns the place in the profile of the flat place x, depth inwards from the outer face.
func (s *span) at(x, depth float64) geom.Point {
	if s.seg.Kind == geom.Arc {
		a := s.seg.Theta + s.hand()*(x-s.x0)/s.middle()
		return s.seg.Centre.Add(geom.Polar(s.seg.RX-s.hand()*depth, a))
	}
	dir := s.seg.To.Sub(s.seg.From).Unit()
	return s.seg.From.Add(dir.Mul(x - s.x0)).Add(dir.Left().Mul(depth))
}

// flat returns the x of a place of the profile: the inverse of at.
func (s *span) flat(p geom.Point) float64 {
	if s.seg.Kind == geom.Arc {
		turn := (p.Sub(s.seg.Centre).Angle() - s.seg.Theta) * s.hand()
		// The whole turn that brings it nearest to the middle of the sweep.
		half := math.Abs(s.seg.Sweep) / 2
		turn -= 2 * math.Pi * math.Round((turn-half)/(2*math.Pi))
		return s.x0 + turn*s.middle()
	}
	return s.x0 + p.Sub(s.seg.From).Dot(s.seg.To.Sub(s.seg.From).Unit())
}
