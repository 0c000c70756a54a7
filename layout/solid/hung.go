package solid

import (
	"math"

	"markout/layout/set"
)

// standing returns the place at which a piece that hangs upside down would stand, its own 0,0 on the floor, over the plan that it covers as it
// hangs.
func standing(pl set.Place) set.Place {
	pl.Over, pl.Below = nil, 0
	pl.Frame.R[2] = [3]float64{0, 0, 1}
	pl.Frame.T.Z = 0
	return pl
}

// hang turns the solids of a piece, which stand on the floor, over to where it hangs: what was its underside is its upper face, and
// the other way round. Nobody is taken to stand on it, and it guards no edge.
func (sc *Scene) hang(p *Piece) {
	z := p.Place.Frame.T.Z
	for i := p.Solids[0]; i < p.Solids[1]; i++ {
		s := &sc.Solids[i]
		under := s.Under
		low := math.Inf(1)
		for _, q := range s.Rings[0] {
			low = min(low, z-s.Top(q))
		}
		s.Under, s.D, s.E, s.F = low, z-s.A-low, -s.B, -s.C
		s.A, s.B, s.C = z-under, 0, 0
		s.Hung, s.Stood, s.Walked, s.Wall, s.Number = true, false, false, false, 0
	}
}
