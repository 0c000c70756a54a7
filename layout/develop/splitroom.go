package develop

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// Turns returns the turns, degrees anticlockwise, at which a piece may lie on a sheet whose grain runs along its x, or up it: what
// is rolled by its own grain, then what the set says, otherwise quarters, since a knife follows the rule square to the sheet.
func (p *Piece) Turns(grainUp bool) []float64 {
	along, across := []float64{0, 180}, []float64{90, 270}
	if grainUp {
		along, across = across, along
	}
	switch {
	case p.Grain == Along: // its own y
		return across
	case p.Lie.Turns != nil:
		return p.Lie.Turns
	case p.Lie.Grain == set.GrainAlong:
		return along
	case p.Lie.Grain == set.GrainAcross:
		return across
	}
	return []float64{0, 90, 180, 270}
}

const fits = 1e-6 // millimetres by which a piece may be larger than its room

// tooLarge reports whether a piece fits the sheet at none of its turns.
func (s *splitter) tooLarge(i int) bool {
	p := &s.pieces[i]
	if p.refuse {
		return false
	}
	for _, turn := range p.Turns(s.up) {
		b := p.Outline.Bounds()
		if math.Mod(turn, 90) != 0 {
			b = p.Outline.Transform(geom.Move(geom.Point{}, turn)).Bounds()
		} else if quarter(turn) {
			b.Max.X, b.Max.Y = b.Max.Y, b.Max.X
		}
		if b.W() <= s.w+fits && b.H() <= s.h+fits {
			return false
		}
	}
	return true
}

// quarter reports whether a turn in whole quarters lays x along y.
func quarter(turn float64) bool { return math.Mod(math.Abs(turn), 180) == 90 }

// room is how wide and high parts may be, and in how many the piece comes apart.
type room struct {
	w, h  float64
	count float64
}

// roomFor chooses the turn at which a piece comes apart into the fewest parts.
func (s *splitter) roomFor(p *Piece, lap float64) room {
	best := room{count: math.Inf(1)}
	b := p.Outline.Bounds()
	for _, turn := range p.Turns(s.up) {
		r := room{w: s.w, h: s.h}
		switch {
		case math.Mod(turn, 90) != 0:
			sn, cs := math.Sincos(turn * math.Pi / 180)
			side := min(s.w, s.h) / (math.Abs(sn) + math.Abs(cs))
			r.w, r.h = side, side
		case quarter(turn):
			r.w, r.h = s.h, s.w
		}
		least := partLeastOf(p.Thickness)
		if r.w-lap < least || r.h-lap < least {
			continue
		}
		r.count = max(1, math.Ceil((b.W()-lap)/(r.w-lap)-1e-9)) * max(1, math.Ceil((b.H()-lap)/(r.h-lap)-1e-9))
		if r.count < best.count {
			best = r
		}
	}
	return best
}

func partLeastOf(t float64) float64 { return max(partLeast, 6*t) }
