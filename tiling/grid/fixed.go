package grid

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// settle lists the windows that a grid wants whose size and base are known. Grids laid anew and grids that stay where they were come
// by their windows here alone, and places are told from the base only: a part of a drawing that has not changed wants the same
// windows whatever else is drawn.
func (g *grid) settle(s *sieve, opt Options) error {
	s.resetAt(g.base, g.live, opt.Lap, g.half(), g.ink.bounds)
	s.walk(&g.ink)
	places, err := s.wanted()
	if err != nil {
		return tooMany(opt)
	}
	g.cells = make([]cell, len(places))
	for i, c := range places {
		g.cells[i] = cell{c: c[0], r: c[1]}
	}
	return nil
}

// resetAt begins a sieve for the one grid that has a window at base. An axis then has two intervals a step: what window k shares
// with the one before it, and what it has alone.
func (s *sieve) resetAt(base, live geom.Point, lap, half float64, bounds geom.Rect) {
	s.begin(base, live, lap, half, 1)
	x, y := &s.axis[0], &s.axis[1]
	place := func(a *sieveAxis, v float64) int { return a.index(a.scale(v)) >> fineBits }
	s.tiles = newPlane(place(x, bounds.Min.X-half)-1, place(y, bounds.Min.Y-half)-1, place(x, bounds.Max.X+half)+1, place(y, bounds.Max.Y+half)+1)
}

// wanted returns the windows wanted of a sieve of one grid, row by row from the lowest.
func (s *sieve) wanted() ([][2]int, error) {
	most := 4 * MostPages // something that four windows show is wanted of one
	if s.butt {
		most = MostPages
	}
	if s.full {
		return nil, errTooMany
	}
	var places [][2]int
	s.tiles.each(func(c, r int, tile int32) {
		for y := 0; y < fine; y += 2 {
			both := s.bits[tile][y] | s.bits[tile][y+1]
			for x := 0; x < fine; x += 2 {
				if both>>x&3 != 0 && len(places) <= most {
					places = append(places, [2]int{(c*fine + x) / 2, (r*fine + y) / 2})
				}
			}
		}
	})
	if len(places) > most {
		return nil, errTooMany
	}
	if s.butt { // the windows before those that touch an edge are wanted too
		for _, p := range places[:len(places):len(places)] {
			places = append(places, [2]int{p[0] - 1, p[1]}, [2]int{p[0], p[1] - 1}, [2]int{p[0] - 1, p[1] - 1})
		}
	}
	sortPlaces(places)
	places = slices.Compact(places)
	lo, hi := [2]int{math.MaxInt, math.MaxInt}, [2]int{math.MinInt, math.MinInt}
	for _, p := range places {
		for k, v := range p {
			lo[k], hi[k] = min(lo[k], v), max(hi[k], v)
		}
	}
	at := newPlane(lo[0], lo[1], hi[0], hi[1])
	s.spots = slices.Grow(s.spots[:0], len(places))
	for i, p := range places {
		at.set(p[0], p[1], int32(i))
		spot := spot{c: int32(p[0]), r: int32(p[1])}
		spot.zones[0] = zone{
			own: s.bit(2*p[0]+1, 2*p[1]+1), left: s.bit(2*p[0], 2*p[1]+1), bottom: s.bit(2*p[0]+1, 2*p[1]), corner: s.bit(2*p[0], 2*p[1]),
		}
		s.spots = append(s.spots, spot)
	}
	s.choose(s.spots, at)
	kept := places[:0]
	for i := range s.spots {
		if s.spots[i].want[0] != 0 {
			kept = append(kept, places[i])
		}
	}
	if len(kept) > MostPages {
		return nil, errTooMany
	}
	return kept, nil
}

// bit returns 1 where something lies in an interval of both axes.
func (s *sieve) bit(x, y int) uint16 {
	t := s.tiles.get(x>>fineBits, y>>fineBits)
	if t < 0 {
		return 0
	}
	return uint16(s.bits[t][y&(fine-1)] >> (x & (fine - 1)) & 1)
}
