package setout

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// fitPiece is an area of the floor that a piece takes up, in the set's axes: a full circle, or an outline with its holes.
type fitPiece struct {
	name    string
	element *set.Element
	centre  geom.Point
	radius  float64        // of the circle about the centre that holds it
	rings   [][]geom.Point // nil for a full circle
}

// fitPieces returns what of a set has to fit: what stands on the plan in any position, a reserve and the nosing of a flight's
// first tread among it. Left out are halls, marks, ways, and rooms overhead with what is in them.
func fitPieces(s *set.Set) []fitPiece {
	var out []fitPiece
	for _, b := range bodies(s) {
		pl := b.place()
		if pl.Over != nil {
			continue
		}
		regions := b.regions
		switch sh := b.element.Shape.(type) {
		case *set.Hall:
			continue
		case *set.Room:
			if sh.Turned != set.Upright {
				continue
			}
		case *set.Steps:
			if sh.Nosing > 0 {
				regions = append(slices.Clip(regions), sh.TreadBoard(0).Transform(pl.Frame.Plan()))
			}
		}
		if b.round {
			out = append(out, fitPiece{name: b.name, element: b.element, centre: b.centre, radius: b.radius})
			continue
		}
		for _, r := range regions {
			p := fitPiece{name: b.name, element: b.element, rings: [][]geom.Point{ringOf(r.Outer)}}
			box := geom.EmptyRect()
			for _, q := range p.rings[0] {
				box = box.Include(q)
			}
			p.centre = box.Mid()
			for _, q := range p.rings[0] {
				p.radius = max(p.radius, p.centre.Dist(q))
			}
			for _, h := range r.Holes {
				p.rings = append(p.rings, ringOf(h))
			}
			if !math.IsInf(p.radius, 0) && len(p.rings[0]) > 0 {
				out = append(out, p)
			}
		}
	}
	return out
}

// place is where the body stands.
func (b *body) place() set.Place {
	places := b.element.Copies[b.copy].Places
	for _, pl := range places[1:] {
		if b.position != "" && pl.Position == b.position {
			return pl
		}
	}
	return places[0]
}

// fitSpot is a circle, or a corner where its radius is 0.
type fitSpot struct {
	centre geom.Point
	radius float64
}

// spotsOf returns the circles and corners that alone decide where the convex hull of pieces lies.
func spotsOf(pieces []fitPiece) []fitSpot {
	byRadius := map[float64][]geom.Point{}
	for _, p := range pieces {
		if p.rings == nil {
			byRadius[p.radius] = append(byRadius[p.radius], p.centre)
			continue
		}
		byRadius[0] = append(byRadius[0], p.rings[0]...)
	}
	var all []fitSpot
	var rough []geom.Point // corners within the hull, near to it
	for radius, pts := range byRadius {
		for _, c := range geom.Hull(pts) {
			all = append(all, fitSpot{c, radius})
			for k := range 16 {
				rough = append(rough, c.Add(geom.Polar(radius, float64(k)*math.Pi/8)))
			}
		}
	}
	rough = geom.Hull(rough)
	all = slices.DeleteFunc(all, func(s fitSpot) bool { return len(rough) > 2 && deep(rough, s.centre) > s.radius+1 })
	slices.SortFunc(all, func(a, b fitSpot) int {
		return cmp.Or(cmp.Compare(a.centre.X, b.centre.X), cmp.Compare(a.centre.Y, b.centre.Y), cmp.Compare(a.radius, b.radius))
	})
	return all
}

// deep returns how far p lies within a convex polygon.
func deep(hull []geom.Point, p geom.Point) float64 {
	d := math.Inf(1)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		d = min(d, b.Sub(a).Cross(p.Sub(a))/a.Dist(b))
	}
	return d
}

// reach returns how far spots reach in direction u.
func reach(spots []fitSpot, u geom.Point) float64 {
	d := math.Inf(-1)
	for _, s := range spots {
		d = max(d, s.centre.Dot(u)+s.radius)
	}
	return d
}

// leastWidth returns the least distance of two parallel lines between which spots lie: it is found square to a side of
// their hull (Freeman and Shapira, 1975).
func leastWidth(spots []fitSpot) float64 {
	var pts []geom.Point
	for _, s := range spots {
		pts = append(pts, s.centre)
		if s.radius > 0 {
			pts = geom.Circle(2*s.radius).Transform(geom.Move(s.centre, 0)).Flatten(geom.Flatness, pts)
		}
	}
	hull := geom.Hull(pts)
	least := math.Inf(1)
	for i, p := range hull {
		u := hull[(i+1)%len(hull)].Sub(p).Unit().Left()
		least = min(least, reach(spots, u)+reach(spots, u.Mul(-1)))
	}
	return least
}
