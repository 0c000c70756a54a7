package element

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// stand notes what the foot of every flight stands on: the floor, the top of a piece, or nothing.
func (sc *scene) stand(s *set.Set) {
	var tops *topGrid
	for _, e := range s.Elements {
		st, ok := e.Shape.(*set.Steps)
		if !ok {
			continue
		}
		if e.Copies[0].Places[0].Over != nil {
			st.FootOn = "floor" // of its room; nobody climbs it upside down
			continue
		}
		f := e.Copies[0].Places[0].Frame
		own := st.Way(st.Mid(0), 0)
		foot := f.Apply(geom.Vec{X: own.X, Y: own.Y})
		if math.Abs(foot.Z) <= geom.Tolerance {
			st.FootOn = "floor"
			continue
		}
		if tops == nil {
			tops = newTopGrid(s.Elements)
		}
		owner, level := tops.under(foot, e.Name)
		st.FootGap = foot.Z - level
		if math.Abs(st.FootGap) <= geom.Tolerance {
			st.FootOn, st.FootGap = owner, 0
		}
	}
}

// topCell is the size in millimetres of the cells over which the tops are spread, so that each foot looks at few.
const topCell = 2000

// wideTop is the greatest number of cells over which one top is spread; wider ones are looked at for every foot.
const wideTop = 256

// topGrid finds the surfaces over a place.
type topGrid struct {
	cells map[[2]int][]set.Surface
	wide  []set.Surface
}

func newTopGrid(elements []*set.Element) *topGrid {
	g := &topGrid{cells: map[[2]int][]set.Surface{}}
	for _, e := range elements {
		for _, c := range e.Copies {
			for _, s := range set.Surfaces(e, c.Places[0]) {
				g.add(s)
			}
		}
	}
	return g
}

func topCellOf(p geom.Point) [2]int {
	return [2]int{int(math.Floor(p.X / topCell)), int(math.Floor(p.Y / topCell))}
}

func (g *topGrid) add(s set.Surface) {
	b := s.Region.Outer.Bounds().Grow(geom.Tolerance)
	lo, hi := topCellOf(b.Min), topCellOf(b.Max)
	if (hi[0]-lo[0]+1)*(hi[1]-lo[1]+1) > wideTop {
		g.wide = append(g.wide, s)
		return
	}
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			c := [2]int{x, y}
			g.cells[c] = append(g.cells[c], s)
		}
	}
}

// under returns the highest top of another piece under a foot, or the floor.
func (g *topGrid) under(foot geom.Vec, own string) (owner string, level float64) {
	owner = "floor"
	p := foot.Plan()
	for _, list := range [...][]set.Surface{g.wide, g.cells[topCellOf(p)]} {
		for _, s := range list {
			if s.Owner == own {
				continue
			}
			if z := s.Z(p); z > level && z <= foot.Z+geom.Tolerance && s.Region.Contains(p) {
				owner, level = s.Owner, z
			}
		}
	}
	return owner, level
}
