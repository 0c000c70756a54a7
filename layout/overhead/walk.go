package overhead

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// highestStep is what whoever walks steps up at once, in millimetres: what is higher stands in the way, or is gone under. Common
// practice, no source.
const highestStep = 600

// Low is the least height over a walk, or under a piece that hangs.
type Low struct {
	Walk   string     // name of the walk; empty under a piece
	Piece  string     // name of the piece; empty along a walk
	Least  float64    // from what is stood on to what is lowest over it; infinite where nothing is, 0 where something stands in the way
	At     geom.Point // on the plan
	Under  string     // what is lowest there; empty where nothing is
	Stands string     // what is stood on there; empty for a floor
	Room   string     // of a walk, whose walking floor that is; empty for the set's floor
	Tall   float64    // of whoever walks; 0 under a piece
}

// Along looks along a walk with a path for the least height over it: for whoever is as wide as the walk says, at every place of the
// way (curves are followed to within solid.Flatness), over whatever the middle of the way stands on. A walk that is in no room goes
// on the walking floor of one as far as it is beneath it. One of Footholds has none.
func Along(s *set.Set, sc *solid.Scene, e *set.Element) []Low {
	w, ok := e.Shape.(*set.Walk)
	if !ok || w.Path == nil {
		return nil
	}
	var out []Low
	rooms := hungRooms(s)
	for _, c := range e.Copies {
		pl := c.Places[0]
		k := walker{scene: sc, r: w.Wide / 2, base: pl.Level(), low: Low{Walk: e.CopyName(c), Least: math.Inf(1), Tall: w.Tall}}
		for i := range rooms {
			if rooms[i].name == pl.In {
				k.base += rooms[i].stand
				k.in = &rooms[i]
			}
		}
		if k.in == nil {
			k.rooms = rooms
		}
		k.now = k.base
		pts := w.Path.Transform(pl.Frame.Plan()).Flatten(solid.Flatness, nil)
		if w.Path.Closed() && len(pts) > 0 {
			pts = append(pts, pts[0])
		}
		if len(pts) == 1 {
			pts = append(pts, pts[0])
		}
		for i := 1; i < len(pts); i++ {
			k.along(way{pts[i-1], pts[i]})
		}
		out = append(out, k.low)
	}
	return out
}

// walker goes along a walk.
type walker struct {
	scene *solid.Scene
	r     float64    // half of the width
	base  float64    // level of the floor
	in    *hungRoom  // that the walk is in; nil for none
	rooms []hungRoom // that a walk in none may come beneath
	now   float64    // level that is stood on
	low   Low
	near  []int32
}

// hungRoom is a room overhead, as whoever walks beneath it finds it.
type hungRoom struct {
	name            string
	rings           [][]geom.Point // its outline on the plan as it hangs
	stand, overhead float64        // levels of the walking floor and of its own
}

// hungRooms returns the set's rooms that hang overhead, in the file's order.
func hungRooms(s *set.Set) []hungRoom {
	var out []hungRoom
	for _, e := range s.Elements {
		if sh, ok := e.Shape.(*set.Room); ok && sh.Turned != set.Upright {
			path := sh.Outline.Path.Transform(sh.Turn().Then(e.Copies[0].Places[0].Frame).Plan())
			out = append(out, hungRoom{e.Name, [][]geom.Point{path.Flatten(solid.Flatness, nil)}, sh.Stand, sh.Overhead})
		}
	}
	return out
}

// ground is what is stood on along a part of a way.
type ground struct {
	stretch
	on    *solid.Solid // nil for the floor
	level [2]float64   // at its ends
	room  *hungRoom    // overhead there; nil for none
}

// along looks along one straight piece of the way.
func (k *walker) along(w way) {
	k.near = k.scene.About(w.box(k.r), "", k.near)
	grounds := k.grounds(w)
	for _, g := range grounds {
		k.overhead(w, g)
	}
	for _, j := range k.near {
		n := &k.scene.Solids[j]
		for _, s := range w.beside(n.Rings, k.r) {
			for _, g := range grounds {
				if from, to := max(s.from, g.from), min(s.to, g.to); from <= to {
					k.meet(w, g, n, from, to)
				}
			}
		}
	}
}

// grounds cuts the way where what is stood on changes: the highest face under the middle of the way that is no more than a step above
// what was stood on before, otherwise the floor.
func (k *walker) grounds(w way) []ground {
	type face struct {
		stretch
		s *solid.Solid
	}
	var faces []face
	cuts := []float64{0, 1}
	for _, j := range k.near {
		s := &k.scene.Solids[j]
		if !s.Stood {
			continue
		}
		for _, in := range w.inside(s.Rings) {
			faces = append(faces, face{in, s})
			cuts = append(cuts, in.from, in.to)
		}
	}
	type cover struct {
		stretch
		room *hungRoom
	}
	var beneath []cover
	for i := range k.rooms {
		r := &k.rooms[i]
		if k.base >= r.overhead {
			continue
		}
		for _, in := range w.inside(r.rings) {
			beneath = append(beneath, cover{in, r})
			cuts = append(cuts, in.from, in.to)
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var out []ground
	for i := 1; i < len(cuts); i++ {
		g := ground{stretch: stretch{cuts[i-1], cuts[i]}, level: [2]float64{k.base, k.base}, room: k.in}
		mid := (g.from + g.to) / 2
		for _, b := range beneath {
			if mid >= b.from && mid <= b.to && (g.room == nil || b.room.overhead < g.room.overhead) {
				g.room = b.room
			}
		}
		if g.room != nil && k.in == nil {
			floor := max(k.base, g.room.stand)
			g.level = [2]float64{floor, floor}
			k.now = max(k.now, floor)
		}
		for _, f := range faces {
			if mid < f.from || mid > f.to {
				continue
			}
			if z := f.s.Top(w.at(g.from)); z <= k.now+highestStep && z > g.level[0] {
				g.on, g.level = f.s, [2]float64{z, f.s.Top(w.at(g.to))}
			}
		}
		k.now = g.level[1]
		out = append(out, g)
	}
	return out
}

// overhead notes the floor of the room overhead.
func (k *walker) overhead(w way, g ground) {
	if g.room == nil {
		return
	}
	for i, t := range [...]float64{g.from, g.to} {
		k.note(g.room.overhead-g.level[i], w.at(t), "the floor of "+g.room.name, g)
	}
}

// meet notes what n leaves where the disc meets it, from share from to share to of the way.
func (k *walker) meet(w way, g ground, n *solid.Solid, from, to float64) {
	p := &k.scene.Pieces[n.Piece]
	if g.on == n || g.on != nil && k.scene.Pieces[g.on.Piece].Element == p.Element {
		return // treads ahead are climbed
	}
	z0, z1 := g.level[0], g.level[1]
	level := func(t float64) float64 {
		if g.to <= g.from {
			return z0
		}
		return z0 + (z1-z0)*(t-g.from)/(g.to-g.from)
	}
	_, high := n.Heights()
	if min(level(from), level(to)) >= high-highestStep {
		return // it is stepped on to
	}
	// The least height is where the ground is highest, as far as n is not stepped on to.
	at := from
	if level(to) > level(from) {
		at = to
	}
	if level(at) > high-highestStep {
		at = g.from + (g.to-g.from)*(high-highestStep-z0)/(z1-z0)
	}
	k.note(max(k.bottom(w, n, from, to)-level(at), 0), w.at(at), p.Name(), g)
}

// bottom returns the least height of n's underside over what the disc covers.
func (k *walker) bottom(w way, n *solid.Solid, from, to float64) float64 {
	if n.E == 0 && n.F == 0 {
		return n.Under
	}
	covered, err := geom.Intersect([]geom.Region{n.Region}, []geom.Region{{Outer: geom.Stadium(w.at(from), w.at(to), k.r)}}, solid.Flatness)
	if err != nil || len(covered) == 0 {
		return n.Under
	}
	low := math.Inf(1)
	for _, c := range covered {
		for _, q := range c.Outer.Flatten(solid.Flatness, nil) {
			low = min(low, n.Bottom(q))
		}
	}
	return low
}

func (k *walker) note(room float64, at geom.Point, under string, g ground) {
	if room >= k.low.Least-geom.Tolerance {
		return
	}
	k.low.Least, k.low.At, k.low.Under, k.low.Stands, k.low.Room = room, at, under, "", ""
	if g.room != nil {
		k.low.Room = g.room.name
	}
	if g.on != nil {
		k.low.Stands = k.scene.Pieces[g.on.Piece].Name()
	}
}
