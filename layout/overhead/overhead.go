// Package overhead makes the transfer of a room that is dressed the right way up and hung upside down: where each piece
// comes to, what it weighs and what it carries, by panel and in all.
//
// It informs whoever decides, a competent, licensed rigger or engineer under local codes, and says what is not known: a piece
// that nobody weighed makes every total that it belongs to an "at least".
package overhead

import (
	"markout/layout/geom"
	"markout/layout/set"
)

// Piece is one copy of an element in a room overhead.
type Piece struct {
	Element *set.Element
	Copy    set.Copy
	Name    string
	Tag     int // 0 for what has none: only dressing has tags
	Weight  float64
	Is      set.Known // of the weight
	// Upright and Overhead are the piece's own axes as it is dressed, its z above the room's floor, and as it hangs, in the set's axes.
	Upright, Overhead geom.Frame
	Lowest            float64      // level of its lowest point as it hangs
	Headroom          float64      // from the walking floor to there
	Centre            geom.Point   // of its outline as it hangs, on the plan: where its weight is taken to be
	Fixings           []geom.Point // as they hang, on the plan
	Count             int          // of fixings; of Fixings where places are given
	Panel             string       // under its 0,0; empty where the room has none there
	Crosses           []string     // further panels that its outline lies in
	Loose, Soft       bool
	Opposite          bool // it has to be made opposite-handed
	On                int  // index of the piece that it stands on, −1 for none
	Load              float64
	LoadCentre        geom.Point // of gravity of what is known of the load, on the plan; Centre where nothing is
	LoadKnown         bool       // nothing of the load is unknown
	LoadAbout         bool       // something of the load is only estimated
}

// Facing returns the way the front of a piece looks on the plan, degrees from 0 up to 360, anticlockwise from plan-right.
func Facing(f geom.Frame) float64 {
	turned := f.Plan().Vector(geom.Point{Y: -1})
	return direction(turned)
}

// Room is a room overhead with all that hangs in it, in the file's order.
type Room struct {
	Set     *set.Set
	Element *set.Element
	Shape   *set.Room
	Frame   geom.Frame // of the room as it is dressed
	Pieces  []Piece
	Panels  []Total // one a panel, in the file's order
	All     Total
	Walks   []*set.Element // beneath it, in it or over what hangs in it, in the file's order
}

// Rooms returns the set's rooms that hang overhead, in the file's order.
func Rooms(s *set.Set) []*Room {
	var out []*Room
	for _, e := range s.Elements {
		if sh, ok := e.Shape.(*set.Room); ok && sh.Turned != set.Upright {
			out = append(out, transfer(s, e, sh))
		}
	}
	return out
}

// transfer gathers what hangs in one room.
func transfer(s *set.Set, e *set.Element, sh *set.Room) *Room {
	r := &Room{Set: s, Element: e, Shape: sh, Frame: e.Copies[0].Places[0].Frame}
	back := r.Frame.Plan().Inverse()
	for _, p := range s.Elements {
		if !hangs(p.Shape) {
			continue
		}
		d, dressed := p.Shape.(*set.Dressing)
		for _, c := range p.Copies {
			pl := c.Places[0]
			if pl.Over == nil || pl.Over.Room != e.Name {
				continue
			}
			x := Piece{
				Element: p, Copy: c, Name: p.CopyName(c), Upright: pl.Upright(), Overhead: pl.Frame,
				Lowest: pl.Level(), Headroom: pl.Level() - sh.Stand, Opposite: pl.Over.Mirrored, On: -1,
			}
			x.Centre = pl.Frame.Plan().Apply(centre(p.Shape))
			if dressed {
				x.Weight, x.Is, x.Loose, x.Soft = d.Weight, d.WeightIs, d.Loose, d.Soft
				x.Count = d.Count
				for _, f := range d.Fixings {
					x.Fixings = append(x.Fixings, pl.Frame.Plan().Apply(f))
				}
				if len(d.Fixings) > 0 {
					x.Count = len(d.Fixings)
				}
			}
			r.panel(&x, back)
			r.Pieces = append(r.Pieces, x)
		}
	}
	r.tag(s.Tags)
	r.carry()
	r.total()
	r.Walks = r.walks()
	return r
}

// hangs reports whether a shape is a thing that hangs with its room.
func hangs(sh set.Shape) bool {
	switch sh.(type) {
	case *set.Hall, *set.Room, *set.Mark, *set.Reserve, *set.Walk:
		return false
	}
	return true
}

// centre is the middle of a shape's footprint in its own axes: of one outline its centre, of several the centre of their areas.
func centre(sh set.Shape) geom.Point {
	if d, ok := sh.(*set.Dressing); ok {
		return d.Outline.Centre
	}
	var sum geom.Point
	area := 0.0
	for _, f := range set.Footprints(sh) {
		a := f.Area()
		sum, area = sum.Add(f.Outer.Centroid().Mul(a)), area+a
	}
	if area == 0 {
		return geom.Point{}
	}
	return sum.Mul(1 / area)
}

// panel finds the panels that a piece lies in: the one under its own 0,0, and others that its outline reaches into.
func (r *Room) panel(x *Piece, back geom.Isometry) {
	if len(r.Shape.Panels) == 0 {
		return
	}
	own := x.Upright.Plan().Then(back)
	at := own.Apply(geom.Point{})
	foot := set.Footprints(x.Element.Shape)
	for i := range foot {
		foot[i] = foot[i].Transform(own)
	}
	for _, p := range r.Shape.Panels {
		area := geom.Region{Outer: p.Outline.Path}
		if x.Panel == "" && area.Contains(at) {
			x.Panel = p.Name
			continue
		}
		for _, f := range foot {
			if geom.Overlaps(area, f) {
				x.Crosses = append(x.Crosses, p.Name)
				break
			}
		}
	}
}
