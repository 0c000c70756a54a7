package setout

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// body is what a copy of an element takes up where it stands: its footprint on the plan and its reach in height.
type body struct {
	element  *set.Element
	copy     int
	position string
	name     string
	regions  []geom.Region // in the set's axes
	box      geom.Rect
	low      float64
	high     float64
	round    bool // one full circle, of which geometry in closed form is at hand
	centre   geom.Point
	radius   float64
}

// bodies returns those of every element in every place; a mark has none.
func bodies(s *set.Set) []body {
	var out []body
	for _, e := range s.Elements {
		own := set.Footprints(e.Shape)
		if len(own) == 0 || own[0].Outer.Empty() {
			continue
		}
		height := set.Height(e.Shape)
		for k, c := range e.Copies {
			for i, pl := range c.Places {
				b := body{element: e, copy: k, name: e.PlaceName(c, pl), box: geom.EmptyRect()}
				if i > 0 {
					b.position = pl.Position
				}
				m := pl.Frame.Plan()
				for _, r := range own {
					b.regions = append(b.regions, r.Transform(m))
					b.box = b.box.Union(b.regions[len(b.regions)-1].Bounds())
				}
				up := height * pl.Frame.R[2][2] // downwards for a piece that hangs upside down
				b.low, b.high = min(pl.Level(), pl.Level()+up), max(pl.Level(), pl.Level()+up)
				b.rounded(e.Shape, m)
				out = append(out, b)
			}
		}
	}
	return out
}

func (b *body) rounded(sh set.Shape, m geom.Isometry) {
	var o set.Outline
	switch s := sh.(type) {
	case *set.Post:
		o = s.Outline
	case *set.Platform:
		o = s.Outline
	case *set.Cone:
		o = s.Widest()
	case *set.Ring:
		if s.Inner == nil {
			o = s.Outer
		}
	}
	if o.Form == "circle" {
		b.round, b.centre, b.radius = true, m.Apply(o.Centre), b.box.W()/2
	}
}

// stands reports whether the body is a piece that stands in the set: no room worked in and no volume kept clear.
func (b *body) stands() bool {
	switch b.element.Shape.(type) {
	case *set.Hall, *set.Reserve:
		return false
	}
	return true
}

// besides reports whether two bodies share some height; where one has none, whether the other reaches over its level.
func (b *body) besides(c *body) bool {
	if b.high-b.low <= geom.Tolerance || c.high-c.low <= geom.Tolerance {
		return b.low <= c.high && c.low <= b.high
	}
	return min(b.high, c.high)-max(b.low, c.low) > geom.Tolerance
}

// clear returns the distance on the plan between two bodies and the places where it is. What lies further apart than
// within may be given as further than it is. A full circle is measured from its centre, which is exact and quick.
func clear(a, b *body, within float64) (d float64, pa, pb geom.Point) {
	if b.round && !a.round {
		d, pb, pa = clear(b, a, within)
		return d, pa, pb
	}
	if !a.round {
		return least(a.regions, b.regions, within)
	}
	far := b.centre
	if b.round {
		d = a.centre.Dist(far)
	} else {
		d, _, far = least([]geom.Region{spot(a.centre)}, b.regions, within+a.radius)
	}
	u := far.Sub(a.centre).Unit()
	return max(d-a.radius-b.radius, 0), a.centre.Add(u.Mul(a.radius)), far.Sub(u.Mul(b.radius))
}

// spot is the area of a place, without size.
func spot(p geom.Point) geom.Region {
	path := geom.NewPath(p)
	path.LineTo(p)
	return geom.Region{Outer: path}
}

func least(as, bs []geom.Region, within float64) (d float64, pa, pb geom.Point) {
	d = math.Inf(1)
	for _, r := range as {
		box := r.Bounds()
		for _, q := range bs {
			if gap(box, q.Bounds()) > min(d, within) {
				continue
			}
			if x, p, o := geom.Distance(r, q); x < d {
				d, pa, pb = x, p, o
			}
		}
	}
	return d, pa, pb
}

// gap is the distance between two boxes, 0 where they meet.
func gap(a, b geom.Rect) float64 {
	return math.Hypot(max(a.Min.X-b.Max.X, b.Min.X-a.Max.X, 0), max(a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y, 0))
}

// scene holds bodies so that those near a place are found quickly, and knows which stand there at the same time.
type scene struct {
	bodies []body
	moved  map[mover]bool
	tree   []branch
	order  []int32 // bodies as the tree's leaves hold them
}

// mover is a copy that has a place of its own in a position.
type mover struct {
	element  *set.Element
	copy     int
	position string
}

// branch is a box of the tree: bodies from to to of the order, and two branches below it unless it is a leaf.
type branch struct {
	box      geom.Rect
	from, to int32
	below    int32
}

const leafBodies = 4

func newScene(list []body) *scene {
	sc := &scene{bodies: list, moved: map[mover]bool{}, order: make([]int32, len(list))}
	for i := range list {
		sc.order[i] = int32(i)
		if b := &list[i]; b.position != "" {
			sc.moved[mover{b.element, b.copy, b.position}] = true
		}
	}
	if len(list) > 0 {
		sc.tree = []branch{{to: int32(len(list))}}
		sc.grow(0)
	}
	return sc
}

// together reports whether two bodies stand where they do at the same time: in one position, or one of them in its first
// place because it has none of the other's position.
func (sc *scene) together(a, b *body) bool {
	switch {
	case a.position == b.position:
		return true
	case a.position == "":
		return !sc.moved[mover{a.element, a.copy, b.position}]
	case b.position == "":
		return !sc.moved[mover{b.element, b.copy, a.position}]
	}
	return false
}
