package rules

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// low is the least height over one piece, and what makes it.
type low struct {
	room  float64
	tread int
	under *piece
	name  string
	count int
}

// headroom looks for undersides over treads, landings and ramps that are lower than the book allows, wherever the two lie
// over one another on the plan. What rests on the face, or passes through it, is no head.
func (c *checker) headroom() {
	if !c.has(climbed) {
		return
	}
	sc := c.scene()
	bands := c.book.headroom
	lows := map[*set.Element]*low{}
	var order []*set.Element
	var near []int32
	for i := range sc.pieces {
		p := &sc.pieces[i]
		if !climbed(p.element.Shape) {
			continue
		}
		least := low{room: math.Inf(1)}
		for k := p.solids[0]; k < p.solids[1]; k++ {
			s := &sc.solids[k]
			near = sc.index.find(s.box, near[:0])
			for _, j := range near {
				n := &sc.solids[j]
				q := &sc.pieces[n.piece]
				if n.piece == s.piece || !sc.together(p, q) {
					continue
				}
				if room := over(s, n, bands[0].Least); room < least.room-geom.Tolerance {
					least = low{room: room, tread: s.number, under: q, name: p.name()}
				}
			}
		}
		if bands[0].miss(least.room, c.visible()) == 0 {
			continue
		}
		w := lows[p.element]
		if w == nil {
			w = &low{room: math.Inf(1)}
			lows[p.element] = w
			order = append(order, p.element)
		}
		least.count = w.count + 1
		if least.room >= w.room-geom.Tolerance {
			w.count++
			continue
		}
		*w = least
	}
	for _, e := range order {
		w := lows[e]
		where := "over the ramp"
		if w.tread > 0 {
			where = "over tread " + plain(w.tread)
		}
		more := ""
		if w.count > 1 {
			more = "; " + plainCount("place")(float64(w.count)) + " of " + e.Name + " are too low"
		}
		c.add(e, finding{code: "HEADROOM", who: w.name, figure: c.length(w.room), limit: limits(bands, c.length), source: sources(bands)},
			"%s the underside of %s leaves %s of headroom: %s%s", where, w.under.name(), c.length(w.room),
			verdict(bands, w.room, c.visible(), c.length), more)
	}
}

// over returns the least height from the face of s to the underside of n where they lie over one another on the plan;
// infinite where it is limit or more, where they do not, and where n rests on the face or passes through it.
func over(s, n *solid, limit float64) float64 {
	const rests = 1
	none := math.Inf(1)
	lowest, highest := s.heights()
	if n.under-highest >= limit || n.under-lowest <= rests || !geom.Overlaps(s.region, n.region) {
		return none
	}
	room := n.under - highest
	if s.b != 0 || s.c != 0 {
		common, err := geom.Intersect([]geom.Region{s.region}, []geom.Region{n.region}, flatness)
		if err != nil {
			return none
		}
		room = none
		for _, r := range common {
			for _, p := range r.Outer.Flatten(flatness, nil) {
				room = min(room, n.under-s.top(p))
			}
		}
	}
	if room <= rests || room >= limit {
		return none
	}
	return room
}

// heights returns the least and the greatest height of the solid's upper face.
func (s *solid) heights() (low, high float64) {
	if s.b == 0 && s.c == 0 {
		return s.a, s.a
	}
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range s.rings[0] {
		z := s.top(p)
		low, high = min(low, z), max(high, z)
	}
	return low, high
}
