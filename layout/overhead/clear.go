package overhead

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// Beneath returns, for every piece that hangs in a room, the least height from what is stood on beneath it to its underside: the
// walking floor, or a face over that which the piece hangs above. Pieces are in the room's order.
func (r *Room) Beneath(sc *solid.Scene) []Low {
	at := make(map[string]int, len(r.Pieces))
	out := make([]Low, len(r.Pieces))
	for i := range r.Pieces {
		p := &r.Pieces[i]
		at[p.Name] = i
		out[i] = Low{Piece: p.Name, Least: p.Headroom, At: p.Centre}
	}
	var near []int32
	for i := range sc.Solids {
		n := &sc.Solids[i]
		q := &sc.Pieces[n.Piece]
		k, ok := at[q.Element.CopyName(q.Element.Copies[q.Copy])]
		if !n.Hung || !ok || q.Position != "" || q.Place.Over.Room != r.Element.Name {
			continue
		}
		near = sc.About(n.Box, "", near)
		for _, j := range near {
			s := &sc.Solids[j]
			low, high := s.Heights()
			if !s.Stood || high <= r.Shape.Stand || low >= n.Under || !geom.Overlaps(s.Region, n.Region) {
				continue
			}
			if room, where := between(s, n); room < out[k].Least-geom.Tolerance {
				out[k].Least, out[k].At, out[k].Stands = max(room, 0), where, sc.Pieces[s.Piece].Name()
			}
		}
	}
	return out
}

// Headroom returns the least height along every walk and beneath every piece that hangs, in the order of the file: walks first.
func Headroom(s *set.Set) []Low {
	rooms := Rooms(s)
	var out []Low
	var sc *solid.Scene
	for _, e := range s.Elements {
		if _, ok := e.Shape.(*set.Walk); ok {
			if sc == nil {
				sc = solid.NewScene(s)
			}
			out = append(out, Along(s, sc, e)...)
		}
	}
	for _, r := range rooms {
		if sc == nil {
			sc = solid.NewScene(s)
		}
		out = append(out, r.Beneath(sc)...)
	}
	return out
}

// between returns the least height from the upper face of s to the underside of n where they lie over one another on the plan, and where.
func between(s, n *solid.Solid) (room float64, at geom.Point) {
	common, err := geom.Intersect([]geom.Region{s.Region}, []geom.Region{n.Region}, solid.Flatness)
	if err != nil || len(common) == 0 {
		_, high := s.Heights()
		return n.Under - high, n.Box.Mid()
	}
	room = math.Inf(1)
	for _, c := range common {
		for _, p := range c.Outer.Flatten(solid.Flatness, nil) {
			if h := n.Bottom(p) - s.Top(p); h < room {
				room, at = h, p
			}
		}
	}
	return room, at
}

// Head returns where the head of an outline as tall as tall comes that stands upside down in the room as it is dressed: above
// the upright floor, of whoever stands on the walking floor when the room hangs.
func (r *Room) Head(tall float64) float64 { return r.Shape.Overhead - r.Shape.Stand - tall }

// Within returns the pieces that come within reach above the walking floor.
func (r *Room) Within(reach float64) []*Piece {
	var out []*Piece
	for i := range r.Pieces {
		if r.Pieces[i].Headroom <= reach+geom.Tolerance {
			out = append(out, &r.Pieces[i])
		}
	}
	return out
}

// Foothold is one piece of a walk that goes from foothold to foothold. What it bears is for the engineer to say.
type Foothold struct {
	Name     string
	Level    float64 // of the upper face
	Step     float64 // up from the foothold before it, down below 0; 0 of the first
	Gap      float64 // on the plan between its face and the one before; 0 of the first
	Narrow   float64 // sides of the least rectangle, turned as it may be, that holds the face
	Long     float64
	Headroom float64 // from the face to what is lowest over it; infinite where nothing is
	Under    string  // that
	Drop     float64 // from its edge to the walking floor
	Blocked  bool    // it lies against what it hangs from: nobody can stand on it
}

// Footholds looks at the upper faces that a walk goes over. Of a piece that stands the right way up it is the highest that can be stood on,
// of one that hangs upside down what was its underside.
func Footholds(s *set.Set, sc *solid.Scene, e *set.Element) []Foothold {
	w, ok := e.Shape.(*set.Walk)
	if !ok || len(w.Over) == 0 {
		return nil
	}
	var out []Foothold
	var before geom.Region
	for _, h := range w.Over {
		i := face(sc, h)
		if i < 0 {
			continue
		}
		f := &sc.Solids[i]
		floor, ceiling, room := levels(s, e, &sc.Pieces[f.Piece])
		_, level := f.Heights()
		x := Foothold{
			Name: sc.Pieces[f.Piece].Name(), Level: level, Headroom: math.Inf(1), Drop: level - floor,
		}
		x.Narrow, x.Long = geom.LeastBox(f.Region.Outer.Flatten(solid.Flatness, nil))
		if !math.IsInf(ceiling, 1) {
			x.Headroom, x.Under = ceiling-level, "the floor of "+room
		}
		for _, j := range sc.About(f.Box, "", nil) {
			n := &sc.Solids[j]
			if room := n.Under - level; n.Piece != f.Piece && n.A > level && room < x.Headroom && geom.Overlaps(f.Region, n.Region) {
				x.Headroom, x.Under = max(room, 0), sc.Pieces[n.Piece].Name()
			}
		}
		x.Blocked = x.Headroom <= geom.Tolerance
		if len(out) > 0 {
			x.Step = level - out[len(out)-1].Level
			x.Gap, _, _ = geom.Distance(before, f.Region)
		}
		before = f.Region
		out = append(out, x)
	}
	return out
}

// levels returns the level of the floor under a foothold and that of a room's floor over it, infinite where there is none: those of the
// room overhead that the piece hangs in, otherwise of the one that the walk is in.
func levels(s *set.Set, walk *set.Element, p *solid.Piece) (floor, ceiling float64, room string) {
	own := walk.Copies[0].Places[0]
	floor, ceiling, room = own.Level(), math.Inf(1), own.In
	if p.Place.Over != nil {
		floor, room = 0, p.Place.Over.Room
	}
	if e := s.Find(room); e != nil {
		if sh, ok := e.Shape.(*set.Room); ok && sh.Turned != set.Upright {
			floor, ceiling = floor+sh.Stand, sh.Overhead
		}
	}
	return floor, ceiling, room
}

// face returns the solid whose upper face is stood on, −1 where the piece has none.
func face(sc *solid.Scene, h set.Foothold) int {
	best := -1
	for i := range sc.Pieces {
		p := &sc.Pieces[i]
		if p.Element.Name != h.Element || p.Element.Copies[p.Copy].Number != h.Copy || p.Position != "" {
			continue
		}
		for j := p.Solids[0]; j < p.Solids[1]; j++ {
			if best < 0 || sc.Solids[j].A > sc.Solids[best].A {
				best = int(j)
			}
		}
	}
	return best
}
