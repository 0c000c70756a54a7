package rules

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// low is the least height over one piece, and what makes it.
type low struct {
	room  float64
	tread int
	under *solid.Piece
	name  string
	count int
}

// headroom looks for undersides over treads, landings and ramps that are lower than the book allows, wherever the two lie
// over one another on the plan. What rests on the face, or passes through it, is no head.
func (c *checker) headroom() {
	if !c.has(solid.Climbed) {
		return
	}
	sc := c.scene()
	bands := c.book.headroom
	lows := map[*set.Element]*low{}
	var order []*set.Element
	var near []int32
	for i := range sc.Pieces {
		p := &sc.Pieces[i]
		if !solid.Climbed(p.Element.Shape) || aloft(p.Element) {
			continue
		}
		least := low{room: math.Inf(1)}
		for k := p.Solids[0]; k < p.Solids[1]; k++ {
			s := &sc.Solids[k]
			near = sc.Index.Find(s.Box, near[:0])
			for _, j := range near {
				n := &sc.Solids[j]
				q := &sc.Pieces[n.Piece]
				if n.Piece == s.Piece || !sc.Together(p, q) {
					continue
				}
				if room := over(s, n, bands[0].Least); room < least.room-geom.Tolerance {
					least = low{room: room, tread: s.Number, under: q, name: p.Name()}
				}
			}
		}
		if bands[0].miss(least.room, c.visible()) == 0 {
			continue
		}
		w := lows[p.Element]
		if w == nil {
			w = &low{room: math.Inf(1)}
			lows[p.Element] = w
			order = append(order, p.Element)
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
			"%s the underside of %s leaves %s of headroom: %s%s", where, w.under.Name(), c.length(w.room),
			verdict(bands, w.room, c.visible(), c.length), more)
	}
}

// over returns the least height from the face of s to the underside of n where they lie over one another on the plan;
// infinite where it is limit or more, where they do not, and where n rests on the face or passes through it.
func over(s, n *solid.Solid, limit float64) float64 {
	const rests = 1
	none := math.Inf(1)
	lowest, highest := s.Heights()
	if n.Under-highest >= limit || n.Under-lowest <= rests || !geom.Overlaps(s.Region, n.Region) {
		return none
	}
	room := n.Under - highest
	if s.Sloped() || n.Sloped() {
		common, err := geom.Intersect([]geom.Region{s.Region}, []geom.Region{n.Region}, solid.Flatness)
		if err != nil {
			return none
		}
		room = none
		for _, r := range common {
			for _, p := range r.Outer.Flatten(solid.Flatness, nil) {
				room = min(room, n.Bottom(p)-s.Top(p))
			}
		}
	}
	if room <= rests || room >= limit {
		return none
	}
	return room
}
