package changes

import (
	"math"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
)

// ends says how a piece gets from one place to another by what of it people set out: the ends of a wall, the foot of a flight.
func (c *comparison) ends(a, b *set.Place, way passage) string {
	f, g := a.Upright(), b.Upright()
	p, ok := lineEnds(c.old.Shape)
	q, both := lineEnds(c.new.Shape)
	if !ok || !both || math.Abs(way.turn) <= leastTurn && p.From.Near(q.From) && p.To.Near(q.To) {
		if c.foot {
			return way.words(c.wording, "foot")
		}
		return way.words(c.wording, "")
	}
	var says []string
	for _, end := range [2]struct {
		name     string
		was, now geom.Point
	}{{"P", p.From, q.From}, {"Q", p.To, q.To}} {
		by := difference(f, g, geom.Vec{X: end.was.X, Y: end.was.Y}, geom.Vec{X: end.now.X, Y: end.now.Y})
		by.Z = 0
		if words := (passage{by: by}).words(c.wording, end.name); words != "" {
			says = append(says, words)
		}
	}
	rest := passage{by: geom.Vec{Z: way.by.Z}, turn: way.turn, tilt: way.tilt}
	if words := rest.words(c.wording, ""); words != "" {
		says = append(says, words)
	}
	return strings.Join(says, ", ")
}

// lineEnds returns P and Q of what stands along a line, in its own axes.
func lineEnds(sh set.Shape) (ends geom.Segment, ok bool) {
	switch s := sh.(type) {
	case *set.Flat:
		return geom.Segment{From: s.FaceLine().Start(), To: s.FaceLine().End()}, true
	case *set.Panel:
		return geom.Segment{To: geom.Point{X: s.Run}}, s.Stands
	}
	return geom.Segment{}, false
}

// symmetry is at how many turns of a full circle both shapes look the same, 0 for any.
func symmetry(a, b set.Shape) int {
	n, m := looksSame(a), looksSame(b)
	return common(n, m)
}

func looksSame(sh set.Shape) int {
	switch s := sh.(type) {
	case *set.Platform:
		return likeTurns(s.Outline)
	case *set.Post:
		return likeTurns(s.Outline)
	case *set.Reserve:
		return likeTurns(s.Outline)
	case *set.Cone:
		return s.Sides
	case *set.Ring:
		if s.Inner != nil {
			return common(likeTurns(s.Outer), likeTurns(*s.Inner))
		}
		return likeTurns(s.Outer)
	case *set.Panel:
		if !s.Stands && len(s.Holes) == 0 {
			return likeTurns(s.Outline)
		}
	case *set.Mark:
		if len(s.Paths) == 0 && len(s.Points) == 1 {
			return 0
		}
	}
	return 1
}

// setOut returns the points of both shapes, in their own axes, whose way is that of the piece: of points that were all typed so much
// farther on the same one of them, of a room the middle of its floor, otherwise the own 0,0.
func (c *comparison) setOut() (was, is geom.Vec) {
	if p, ok := floorMiddle(c.old.Shape); ok {
		if q, both := floorMiddle(c.new.Shape); both {
			return p, q
		}
	}
	by, _ := slid(c.old.Shape, c.new.Shape)
	return geom.Vec{}, geom.Vec{X: by.X, Y: by.Y}
}

// floorMiddle is the middle of a hall's or room's floor, which `at` places, where its outline stands about one.
func floorMiddle(sh set.Shape) (geom.Vec, bool) {
	var o *set.Outline
	switch s := sh.(type) {
	case *set.Hall:
		o = &s.Outline
	case *set.Room:
		o = &s.Outline
	default:
		return geom.Vec{}, false
	}
	return geom.Vec{X: o.Centre.X, Y: o.Centre.Y}, drawnBy(o).form != ""
}

// slid returns by how much b is a in another place of its own axes; ok is false where it is not.
func slid(a, b set.Shape) (by geom.Point, ok bool) {
	p, q := loose(a), loose(b)
	if p == nil || q == nil || len(p.points) != len(q.points) || len(p.lines) != len(q.lines) {
		return geom.Point{}, false
	}
	by = q.middle().Sub(p.middle())
	for i := range p.points {
		if !p.points[i].Add(by).Near(q.points[i]) {
			return geom.Point{}, false
		}
	}
	for i := range p.lines {
		if !slidLine(p.lines[i], q.lines[i], by) {
			return geom.Point{}, false
		}
	}
	return by, true
}

// drawnFreely is all that a shape has in its own axes, where that lies anywhere in them.
type drawnFreely struct {
	points []geom.Point
	lines  []*geom.Path
}

func (d *drawnFreely) middle() geom.Point {
	box := geom.EmptyRect()
	for _, p := range d.points {
		box = box.Include(p)
	}
	for _, l := range d.lines {
		box = box.Union(l.Bounds())
	}
	if box.Empty() {
		return geom.Point{}
	}
	return box.Mid()
}

// loose returns what a shape has in its own axes, nil of one whose 0,0 is where people set it out.
func loose(sh set.Shape) *drawnFreely {
	switch s := sh.(type) {
	case *set.Mark:
		return &drawnFreely{s.Points, s.Paths}
	case *set.Walk:
		if s.Path != nil {
			return &drawnFreely{nil, []*geom.Path{s.Path}}
		}
	case *set.Platform:
		return &drawnFreely{nil, []*geom.Path{s.Outline.Path}}
	case *set.Post:
		return &drawnFreely{nil, []*geom.Path{s.Outline.Path}}
	case *set.Reserve:
		return &drawnFreely{nil, []*geom.Path{s.Outline.Path}}
	case *set.Panel:
		if s.Stands {
			return nil
		}
		d := &drawnFreely{nil, []*geom.Path{s.Outline.Path}}
		for _, h := range s.Holes {
			d.lines = append(d.lines, h.Path)
		}
		return d
	}
	return nil
}
