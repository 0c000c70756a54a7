package develop

import (
	"fmt"

	"markout/layout/geom"
	"markout/layout/set"
)

// edges makes what lies between the two skins but for the ends: first the long strips along top and foot, each between
// the openings that come to it, then the strips round each opening.
func (c *curved) edges(skins [2]skin) error {
	long := c.face.long()
	for _, at := range [2]struct {
		name string
		z    float64
		up   bool
	}{{"foot", 0, false}, {"top edge", c.h, true}} {
		gaps := c.between(at.z)
		for i, g := range gaps {
			name := at.name
			if len(gaps) > 1 {
				name = fmt.Sprintf("%s, part %d", at.name, i+1)
			}
			ends := [2]float64{c.t, c.t}
			if err := c.shelf(skins, name, g[0], g[1], ends, at.z, at.up); err != nil {
				return err
			}
		}
	}
	for i, o := range c.openings {
		what := o.Word
		if o.Name != "" {
			what += " " + o.Name
		}
		if !c.roomRound(i) {
			c.k.note("its %s is left open between face and back: there is no room for strips round it", what)
			continue
		}
		head := o.Sill + o.Height
		if o.Arch > 0 {
			c.k.note("the arch of its %s is left open between face and back: ease a strip in by hand", what)
			head -= o.Arch
		}
		name := func(edge string) string { return fmt.Sprintf("reveal %d, %s", i+1, edge) }
		out := [2]float64{-c.t, -c.t}
		if o.Sill > geom.Tolerance {
			if err := c.shelf(skins, name("sill"), o.At, o.At+o.Width, out, o.Sill, true); err != nil {
				return err
			}
		}
		if o.Arch <= 0 && head < c.h-geom.Tolerance {
			if err := c.shelf(skins, name("head"), o.At, o.At+o.Width, out, head, false); err != nil {
				return err
			}
		}
		if head-o.Sill < least {
			continue
		}
		if err := c.jamb(skins, name("left jamb"), c.face.part(0, o.At), false, o.Sill, head); err != nil {
			return err
		}
		if err := c.jamb(skins, name("right jamb"), c.face.part(o.At+o.Width, long), true, o.Sill, head); err != nil {
			return err
		}
	}
	return nil
}

// between returns the stretches of the face, clear of the openings that come to the height z, that have room for a strip.
func (c *curved) between(z float64) [][2]float64 {
	var out [][2]float64
	from := 0.0
	for {
		// The next opening along the face.
		to, next := c.face.long(), c.face.long()
		for _, o := range c.openings {
			if o.Sill <= z+geom.Tolerance && o.Sill+o.Height >= z-geom.Tolerance && o.At >= from-geom.Tolerance && o.At < to {
				to, next = o.At, o.At+o.Width
			}
		}
		if to-from > 2*c.t+least {
			out = append(out, [2]float64{from, to})
		}
		if next >= c.face.long()-geom.Tolerance {
			return out
		}
		from = next
	}
}

// roomRound reports whether strips fit round an opening: two cards' thickness to the ends, to the top, to the foot and to
// the other openings.
func (c *curved) roomRound(i int) bool {
	o, room := c.openings[i], 2*c.t
	head := o.Sill + o.Height
	if o.At < room || o.At+o.Width > c.face.long()-room || o.Sill > geom.Tolerance && o.Sill < room || head < c.h-geom.Tolerance && head > c.h-room {
		return false
	}
	for k, other := range c.openings {
		wide := set.Opening{At: other.At - room, Sill: other.Sill - room, Width: other.Width + 2*room, Height: other.Height + 2*room}
		if k != i && touches(o, wide) {
			return false
		}
	}
	return true
}

// shelf makes a level strip between the skins along part of the face. Its outer side lies at the height z and looks up or
// down; ends is how far it stops short of the part at both ends, less than 0 where it goes on.
func (c *curved) shelf(skins [2]skin, name string, from, to float64, ends [2]float64, z float64, up bool) error {
	line := c.face.part(from, to)
	l, err := line.band(c.thick)
	if err != nil {
		return err
	}
	n := len(line.segs)
	outline, err := l.parallel(func(i int) float64 {
		switch i {
		case endOf(n):
			return ends[1]
		case startOf(n):
			return ends[0]
		}
		return c.t
	})
	if err != nil {
		return err
	}
	p := *c.prism
	p.h = z
	end := 0
	if up {
		end = 1
	}
	d := p.plate(geom.Region{Outer: outline}, end, name, c.t)
	if !up {
		lift := geom.Identity()
		lift.T.Z = z
		d.body.frame = d.body.frame.Then(lift)
	}
	plate := c.k.pieceOf(d)
	for _, s := range skins {
		if err := c.glue(s, line, plate, end, z); err != nil {
			return err
		}
	}
	return nil
}

// glue joins a level strip to a skin's inner face.
func (c *curved) glue(s skin, line course, plate, end int, z float64) error {
	depth := c.t
	if s.depth > 0 {
		depth = s.depth - c.t
	}
	inner, err := line.beside(depth)
	if err != nil {
		return err
	}
	for _, w := range s.walls {
		var on, off []geom.Point
		for i, g := range inner {
			for _, q := range stations(g) {
				if x, s := w.flatOn(s.line(line.index[i]), q); s != nil {
					on, off = append(on, geom.Point{X: x, Y: z}), append(off, onPlate(end, s.at(x, c.t)))
				}
			}
		}
		if len(on) == 0 {
			continue
		}
		c.late[len(c.k.joints)] = s.depth > 0 && w.round
		c.k.join(c.captive(), side(w.piece, on, c.t), side(plate, off, 0))
		if c.prism.fold {
			c.k.capTabs(plate, off, len(c.k.joints))
		}
	}
	return nil
}

func (c *curved) captive() Treatment {
	if c.prism.fold {
		return Tabbed
	}
	return Captive
}

// jamb makes the upright strip between the skins at one end of a part of the face, between two heights; its outer side
// looks away from the part.
func (c *curved) jamb(skins [2]skin, name string, line course, atStart bool, lo, hi float64) error {
	l, err := line.band(c.thick)
	if err != nil {
		return err
	}
	n := len(line.segs)
	i, beside := endOf(n), n-1 // the end, the part's segment beside it
	if atStart {
		i, beside = startOf(n), 0
	}
	w := &wall{spans: []span{{seg: l.segs[i], t: c.t, index: i}}, first: i, corner: [2]int{l.prev(i), i}, v: [2]float64{lo, hi}}
	p := *c.prism
	p.near, p.far, p.name = noCap, noCap, func(*loop, *wall) string { return name }
	if err := p.finish(l, w, c.t); err != nil {
		return err
	}
	w.piece = c.k.pieceOf(c.k.wallDraft(&p, l, w, c.t))
	// Seen from outside, an end's left edge is at the face where it ends the part, at the back where it starts it.
	if atStart {
		skins[0], skins[1] = skins[1], skins[0]
	}
	var ends [2]float64 // where it is cut, at the face that reaches further
	ends[0], ends[1] = w.box()
	for edge, s := range skins {
		x := w.outer[edge]
		q := w.spans[0].at(x, 0)
		for _, on := range s.walls {
			y, there := on.flatOn(s.line(line.index[beside]), q)
			if there == nil {
				continue
			}
			along := []geom.Point{{X: x, Y: lo}, {X: x, Y: hi}}
			c.late[len(c.k.joints)] = s.depth > 0 && on.round
			c.k.join(c.captive(), side(on.piece, []geom.Point{{X: y, Y: lo}, {X: y, Y: hi}}, c.t), side(w.piece, along, 0))
			if c.prism.fold {
				c.k.capTabs(w.piece, []geom.Point{{X: ends[edge], Y: lo}, {X: ends[edge], Y: hi}}, len(c.k.joints))
			}
		}
	}
	return nil
}
