package rules

import (
	"math"

	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
	"markout/layout/unit"
)

// rigger is who decides about what hangs; the regulation is named from memory.
const rigger = "no figure is given: a competent, licensed rigger or engineer decides, under local codes (in Great Britain the Lifting Operations and Lifting Equipment Regulations 1998, from memory)"

// rooms looks at what hangs in rooms overhead.
func (c *checker) rooms() {
	rooms := overhead.Rooms(c.set)
	for _, r := range rooms {
		c.room(r)
	}
	for _, e := range c.set.Elements {
		if w, ok := e.Shape.(*set.Walk); ok {
			c.walk(e, w)
		}
	}
}

func (c *checker) room(r *overhead.Room) {
	total := unit.FormatWeight(r.All.Weight, c.set.Units, 0.1)
	if r.All.AtLeast() {
		total = "at least " + total
	}
	more := ""
	if n := len(r.All.NotKnown); n > 0 {
		more = "; " + plain(n) + " not weighed: " + names(r.All.NotKnown)
	}
	c.add(r.Element, finding{code: "OVER-HUNG", figure: total, limit: "whoever hangs it decides", source: rigger, at: []string{"overhead"}},
		"it hangs upside down over people: %s, %s in all%s", plainCount("piece")(float64(len(r.Pieces))), total, more)
	if r.Shape.Turned == set.Mirrored && len(r.Pieces) > 0 {
		c.add(r.Element, finding{code: "OVER-MIRROR", figure: plainCount("piece")(float64(len(r.Pieces))), limit: "none, where it is turned", source: practice, at: []string{"overhead"}},
			"it is mirrored, so that every piece has to be made opposite-handed; `turned lengthways` or `turned crossways` hangs the pieces as they are")
	}
	c.low(r)
	c.list(r, "OVER-LOOSE", "loose or soft", "fixed before it is turned over", func(p *overhead.Piece) bool { return p.Loose || p.Soft })
	c.list(r, "OVER-SEAM", "over a seam between panels", "on one panel", func(p *overhead.Piece) bool { return p.Panel != "" && len(p.Crosses) > 0 })
	c.list(r, "OVER-OUT", "outside the outline", "inside it", outside(r))
	c.through(r)
}

// low looks for pieces that hang lower than the room's headroom.
func (c *checker) low(r *overhead.Room) {
	want := r.Shape.Headroom
	if want <= 0 {
		return
	}
	worst, count := -1, 0
	least := r.Beneath(c.scene())
	for i := range least {
		if least[i].Least < want-c.visible() {
			if count++; worst < 0 || least[i].Least < least[worst].Least {
				worst = i
			}
		}
	}
	if worst < 0 {
		return
	}
	l := least[worst]
	over, more := "the walking floor", ""
	if l.Stands != "" {
		over = l.Stands
	}
	if count > 1 {
		more = "; " + plain(count) + " pieces hang too low"
	}
	if l.Least < 0 {
		c.add(r.Pieces[worst].Element, finding{code: "OVER-LOW", who: l.Piece, figure: c.length(-l.Least) + " under the floor", limit: c.length(want), source: caution.OwnFigure},
			"it comes %s under %s, where %s wants %s above it%s", c.length(-l.Least), over, r.Element.Name, c.length(want), more)
		return
	}
	c.add(r.Pieces[worst].Element, finding{code: "OVER-LOW", who: l.Piece, figure: c.length(l.Least), limit: c.length(want), source: caution.OwnFigure},
		"it leaves %s above %s, %s short of the %s that %s wants%s", c.length(l.Least), over, c.length(want-l.Least), c.length(want), r.Element.Name, more)
}

// list notes the pieces of a room that something is to be said of, by the first.
func (c *checker) list(r *overhead.Room, code, what, limit string, is func(*overhead.Piece) bool) {
	var found []string
	var first *overhead.Piece
	for i := range r.Pieces {
		if is(&r.Pieces[i]) {
			if found = append(found, r.Pieces[i].Name); first == nil {
				first = &r.Pieces[i]
			}
		}
	}
	if first == nil {
		return
	}
	c.add(first.Element, finding{code: code, who: first.Name, figure: plainCount("piece")(float64(len(found))), limit: limit, source: practice, at: []string{"loose", "soft", "at"}},
		"%s of %s: %s", what, r.Element.Name, names(found))
}

// outside reports a piece that reaches out of its room, by more than its drawing shows.
func outside(r *overhead.Room) func(*overhead.Piece) bool {
	back := r.Frame.Plan().Inverse()
	room := r.Shape.Outline.Path
	return func(p *overhead.Piece) bool {
		m := p.Upright.Plan().Then(back)
		for _, f := range set.Footprints(p.Element.Shape) {
			for _, q := range f.Transform(m).Outer.Flatten(solid.Flatness, nil) {
				if !room.Contains(q) && away(room, q) > 1 {
					return true
				}
			}
		}
		return false
	}
}

// away is how far a place lies from a closed path.
func away(p *geom.Path, q geom.Point) float64 {
	d := math.Inf(1)
	pts := p.Flatten(solid.Flatness, nil)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		t := 0.0
		if l := b.Sub(a); l.Len() > 0 {
			t = min(max(q.Sub(a).Dot(l)/l.Dot(l), 0), 1)
		}
		d = min(d, q.Dist(a.Lerp(b, t)))
	}
	return d
}

// walk looks along a way for heads that meet something, and at its footholds.
func (c *checker) walk(e *set.Element, w *set.Walk) {
	if len(w.Over) > 0 {
		c.footholds(e)
		return
	}
	var worst *overhead.Low
	lows := overhead.Along(c.set, c.scene(), e)
	for i := range lows {
		if lows[i].Least < w.Tall-c.visible() && (worst == nil || lows[i].Least < worst.Least) {
			worst = &lows[i]
		}
	}
	if worst == nil {
		return
	}
	fd := finding{code: "WALK-HEAD", who: worst.Walk, figure: c.length(worst.Least), limit: c.length(w.Tall), source: "the walker's own height: British men, 95th percentile 1855, with 25 of shoes, unless the file says another", at: []string{"path"}}
	if worst.Least <= 0 {
		c.add(e, fd, "%s stands in the way at %s", worst.Under, c.spot(worst.At))
		return
	}
	c.add(e, fd, "%s leaves %s at %s, and whoever walks is %s tall", worst.Under, c.length(worst.Least), c.spot(worst.At), c.length(w.Tall))
}

// spot says where a place on the plan is, with letters and no sign: 1500 R, 3350 U.
func (c *checker) spot(q geom.Point) string {
	sides := c.set.SideNames()
	side := func(mm float64, plus, minus string) string {
		switch {
		case mm > 0.5:
			return c.long(mm) + " " + plus
		case mm < -0.5:
			return c.long(-mm) + " " + minus
		}
		return "0"
	}
	return side(q.X, sides.Plus, sides.Minus) + ", " + side(q.Y, "U", "D")
}

// footholds looks at what a walk goes over.
func (c *checker) footholds(e *set.Element) {
	hold := overhead.Footholds(c.set, c.scene(), e)
	deepest := 0.0
	for _, f := range hold {
		if !f.Blocked {
			deepest = max(deepest, f.Drop)
		} else {
			c.add(e, finding{code: "FOOTHOLD-NONE", who: f.Name, figure: "no height over it", limit: "room to stand", source: practice, at: []string{"over"}},
				"%s lies against %s, and nobody stands on it", f.Name, f.Under)
		}
	}
	if len(hold) == 0 || deepest == 0 {
		return
	}
	c.add(e, finding{code: "FOOTHOLD", figure: c.length(deepest) + " to fall", limit: limits(c.book.drop, c.length), source: sources(c.book.drop), at: []string{"over"}},
		"%s, the highest edge %s above the floor: what each bears, and how people are held, is for an engineer and a stunt coordinator",
		plainCount("foothold")(float64(len(hold))), c.length(deepest))
}
