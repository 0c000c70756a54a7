package grid

import (
	"math/bits"
	"slices"

	"markout/layout/geom"
)

// found is the best origin of one orientation.
type found struct {
	origin geom.Point // where window 0, 0 begins
	cells  [][2]int   // the windows wanted, column and row, row by row from the lowest
	slack  float64
}

// zone says, a bit for each of the sixteen origins along x, what lies in the parts of a window.
type zone struct {
	own    uint16 // on no window beside it
	left   uint16 // on its left lap, which the window to the left shows too
	bottom uint16 // on its lower lap
	corner uint16 // on its lower left corner, which four windows show
}

// spot is a block of windows, one for each origin, and which of them are wanted.
type spot struct {
	c, r  int32
	rows  [fine]uint32 // of each row of intervals: what each origin's window has of its own there, and above bit 16 on its left lap
	zones [origins]zone
	want  [origins]uint16
}

// solve returns the origin that needs the fewest windows, of equals the one in whose middle the bounds lie best.
//
// A window is wanted where something lies on it and on no other. What then lies only on laps between windows that are
// not wanted asks for one of them. So every line is shown whole on some page, and no page repeats what its
// neighbours show already.
func (s *sieve) solve(bounds geom.Rect) (found, error) {
	if s.full {
		return found{}, errTooMany
	}
	at := s.place()
	spots := s.spots
	for i := range spots {
		s.gather(&spots[i])
	}
	for i := range spots {
		s.stack(&spots[i], spots, at)
	}
	s.choose(spots, at)

	var count [origins][origins]int
	for i := range spots {
		for j, w := range spots[i].want {
			for ; w != 0; w &= w - 1 {
				count[j][bits.TrailingZeros16(w)]++
			}
		}
	}
	best, bi, bj, bslack := -1, 0, 0, 0.0
	for j := range origins {
		for i := range origins {
			if best >= 0 && count[j][i] > best {
				continue
			}
			o := s.originAt(i, j)
			slack := lopsided(bounds.Min.X-o.X, bounds.Max.X-o.X, s.axis[0].f*origins) + lopsided(bounds.Min.Y-o.Y, bounds.Max.Y-o.Y, s.axis[1].f*origins)
			if count[j][i] < best || best < 0 || slack < bslack-geom.Tolerance {
				best, bi, bj, bslack = count[j][i], i, j, slack
			}
		}
	}
	if best > MostPages {
		return found{}, errTooMany
	}
	f := found{origin: s.originAt(bi, bj), slack: bslack, cells: make([][2]int, 0, best)}
	for i := range spots {
		if p := &spots[i]; p.want[bj]>>bi&1 != 0 {
			f.cells = append(f.cells, [2]int{int(p.c), int(p.r)})
		}
	}
	return f, nil
}

// originAt returns where window 0, 0 of an origin begins.
func (s *sieve) originAt(i, j int) geom.Point {
	return geom.Point{X: s.base.X + float64(i)*s.axis[0].f, Y: s.base.Y + float64(j)*s.axis[1].f}
}

// lopsided tells how far from the middle the stretch from a to b lies on the windows of a step that hold it.
func lopsided(a, b, step float64) float64 {
	before := a - float64(int(a/step))*step
	after := float64(int(b/step)+1)*step - b
	if before > after {
		return before - after
	}
	return after - before
}

// place makes a spot for each block and for the two before it each way, whose windows reach into it, row by row, and returns
// where they are.
func (s *sieve) place() *plane {
	w, h := s.tiles.w, s.tiles.h
	near := newPlane(-2, -2, w, h)
	var places [][2]int
	s.tiles.each(func(c, r int, _ int32) {
		for dr := range 3 {
			for dc := range 3 {
				if near.get(c-dc, r-dr) < 0 {
					near.set(c-dc, r-dr, 0)
					if near.table == nil {
						places = append(places, [2]int{c - dc, r - dr})
					}
				}
			}
		}
	})
	if near.table == nil {
		sortPlaces(places)
	}
	for i, n := range near.table {
		if n > 0 {
			places = append(places, [2]int{i%near.w + near.c0, i/near.w + near.r0})
		}
	}
	s.spots = slices.Grow(s.spots[:0], len(places))
	for i, p := range places {
		s.spots = append(s.spots, spot{c: int32(p[0]), r: int32(p[1])})
		near.set(p[0], p[1], int32(i))
	}
	return near
}

// gather works out, row by row of intervals, on which origins' windows of this column of blocks something lies.
func (s *sieve) gather(p *spot) {
	here, next := s.tiles.get(int(p.c), int(p.r)), s.tiles.get(int(p.c)+1, int(p.r))
	if here < 0 && next < 0 {
		return
	}
	m := s.axis[0].m
	for y := range fine {
		var w uint64
		if here >= 0 {
			w = uint64(s.bits[here][y])
		}
		if next >= 0 {
			w |= uint64(s.bits[next][y]) << fine
		}
		if w != 0 {
			own := evens(runs(w, fine-1-2*m) >> (2*m + 1))
			p.rows[y] = uint32(own) | uint32(evens(runs(w, 2*m+1)))<<origins
		}
	}
}

// runs sets bit i where any of n bits from i upwards is set.
func runs(w uint64, n int) uint64 {
	have := 1
	for 2*have <= n {
		w |= w >> have
		have *= 2
	}
	return w | w>>(n-have)
}

// evens packs bits 0, 2, 4 … 30 together.
func evens(w uint64) uint16 {
	x := uint32(w) & 0x55555555
	x = (x | x>>1) & 0x33333333
	x = (x | x>>2) & 0x0f0f0f0f
	x = (x | x>>4) & 0x00ff00ff
	return uint16(x | x>>8)
}

// stack joins the rows of intervals into windows for each origin along y.
func (s *sieve) stack(p *spot, spots []spot, at *plane) {
	var above *spot
	if i := at.get(int(p.c), int(p.r)+1); i >= 0 {
		above = &spots[i]
	}
	row := func(e int) uint32 {
		if e < fine {
			return p.rows[e]
		}
		if above == nil {
			return 0
		}
		return above.rows[e-fine]
	}
	// upTo[e] holds the rows of this block from e upwards; the rows of the block above are added as windows reach into it.
	var upTo [fine + 1]uint32
	for e := fine - 1; e >= 0; e-- {
		upTo[e] = upTo[e+1] | p.rows[e]
	}
	m := s.axis[1].m
	reached := uint32(0)
	for j := range origins {
		lo, hi := 2*j+2*m+1, 2*j+fine-1
		if j > 0 && above != nil {
			reached |= above.rows[hi-1-fine] | above.rows[hi-fine]
		}
		var own uint32
		if lo <= fine {
			own = upTo[lo] | reached
		} else {
			for e := lo; e <= hi; e++ {
				own |= row(e)
			}
		}
		var lap uint32
		for e := 2 * j; e < lo; e++ {
			lap |= row(e)
		}
		p.zones[j] = zone{own: uint16(own), left: uint16(own >> origins), bottom: uint16(lap), corner: uint16(lap >> origins)}
	}
}

// choose decides which windows are wanted.
func (s *sieve) choose(spots []spot, at *plane) {
	find := func(c, r int32) *spot {
		if i := at.get(int(c), int(r)); i >= 0 {
			return &spots[i]
		}
		return nil
	}
	if s.butt {
		for i := range spots {
			p := &spots[i]
			left, below, across := find(p.c-1, p.r), find(p.c, p.r-1), find(p.c-1, p.r-1)
			for j, z := range p.zones {
				p.want[j] |= z.own | z.left | z.bottom | z.corner
				if left != nil {
					left.want[j] |= z.left | z.corner
				}
				if below != nil {
					below.want[j] |= z.bottom | z.corner
				}
				if across != nil {
					across.want[j] |= z.corner
				}
			}
		}
		return
	}
	var none [origins]uint16
	want := func(p *spot) *[origins]uint16 {
		if p == nil {
			return &none
		}
		return &p.want
	}
	for i := range spots {
		for j, z := range spots[i].zones {
			spots[i].want[j] = z.own
		}
	}
	for i := range spots {
		p := &spots[i]
		left := want(find(p.c-1, p.r))
		for j, z := range p.zones {
			p.want[j] |= z.left &^ left[j]
		}
	}
	for i := range spots {
		p := &spots[i]
		below := want(find(p.c, p.r-1))
		for j, z := range p.zones {
			p.want[j] |= z.bottom &^ below[j]
		}
	}
	for i := range spots {
		p := &spots[i]
		left, below, across := want(find(p.c-1, p.r)), want(find(p.c, p.r-1)), want(find(p.c-1, p.r-1))
		for j, z := range p.zones {
			p.want[j] |= z.corner &^ (left[j] | below[j] | across[j])
		}
	}
	for i := range spots {
		p := &spots[i]
		var added [origins]uint16
		any := uint16(0)
		for j, z := range p.zones {
			added[j] = p.want[j] &^ z.own
			any |= added[j]
		}
		if any != 0 {
			p.drop(added, find)
		}
	}
}

// drop takes back a window that was wanted for its laps alone where the windows beside it, wanted later, show them all.
func (p *spot) drop(added [origins]uint16, find func(c, r int32) *spot) {
	var beside [3][3]*spot
	for dr := range 3 {
		for dc := range 3 {
			beside[dr][dc] = find(p.c+int32(dc)-1, p.r+int32(dr)-1)
		}
	}
	for j, a := range added {
		if a == 0 {
			continue
		}
		want := func(dc, dr int) uint16 {
			if q := beside[dr+1][dc+1]; q != nil {
				return q.want[j]
			}
			return 0
		}
		zoneAt := func(dc, dr int) zone {
			if q := beside[dr+1][dc+1]; q != nil {
				return q.zones[j]
			}
			return zone{}
		}
		needed := p.zones[j].left&^want(-1, 0) | zoneAt(1, 0).left&^want(1, 0) |
			p.zones[j].bottom&^want(0, -1) | zoneAt(0, 1).bottom&^want(0, 1)
		// Each corner is the lower left one of some window, and the other three around it may show it.
		for _, c := range [4][2]int{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
			others := uint16(0)
			for _, d := range [4][2]int{{0, 0}, {-1, 0}, {0, -1}, {-1, -1}} {
				if x, y := c[0]+d[0], c[1]+d[1]; x != 0 || y != 0 {
					others |= want(x, y)
				}
			}
			needed |= zoneAt(c[0], c[1]).corner &^ others
		}
		p.want[j] &^= a &^ needed
	}
}
