package setout

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// Measure is what an element measures on the plan, each copy by itself, and how high it reaches.
type Measure struct {
	Element   string
	Area      float64 // of the footprint, its holes left out, square millimetres
	Perimeter float64 // of all its edges, those of holes too, millimetres
	Top       float64 // above the floor, the highest of all copies and positions
}

// flat is how far in millimetres a curve may lie from the straight runs that stand for it where footprints are put together.
const flat = 0.01

// Measures returns those of every element that covers something on the plan, in the file's order. A flight of several
// treads is measured as the one area that they make together.
func Measures(s *set.Set) []Measure {
	var out []Measure
	for _, e := range s.Elements {
		regions := measured(e.Shape)
		if len(regions) == 0 || regions[0].Outer.Empty() {
			continue
		}
		if len(regions) > 1 {
			if one, err := geom.Union(regions, flat); err == nil {
				regions = one
			}
		}
		m := Measure{Element: e.Name, Top: math.Inf(-1)}
		for _, r := range regions {
			m.Area += r.Area()
			m.Perimeter += r.Outer.Length()
			for _, h := range r.Holes {
				m.Perimeter += h.Length()
			}
		}
		for _, c := range e.Copies {
			for _, pl := range c.Places {
				m.Top = max(m.Top, set.Top(e, pl))
			}
		}
		if !math.IsInf(m.Top, -1) {
			out = append(out, m)
		}
	}
	return out
}

// measured is the area that people ask for: what a piece covers on the plan, of a cut-out and a cloth their face, which stands.
func measured(sh set.Shape) []geom.Region {
	switch s := sh.(type) {
	case *set.Figure:
		return s.Bodies
	case *set.Cloth:
		f := s.Finished()
		return []geom.Region{{Outer: geom.Polygon([]geom.Point{f.Min, {X: f.Max.X, Y: f.Min.Y}, f.Max, {X: f.Min.X, Y: f.Max.Y}})}}
	}
	return set.Footprints(sh)
}
