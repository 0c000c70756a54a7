package set

import (
	"slices"

	"markout/layout/geom"
)

// eyeFlatness is how near, in millimetres, straight runs come to the outline where the eye line crosses it.
const eyeFlatness = 0.5

// Eyes returns where on the face the eyes are taken to be: on the eye line, half way over the widest part of the drawn
// figure there, so that an arm held out or a hat beside the head moves them little. A line that crosses nothing of it has
// them over the middle. ok is false where no eye line is given.
func (f *Figure) Eyes() (at geom.Point, ok bool) {
	z, ok := f.EyeLine()
	if !ok {
		return geom.Point{}, false
	}
	from, to, _ := f.Across(z)
	return geom.Point{X: (from + to) / 2, Y: z}, true
}

// Across returns from where to where along the face the drawn figure's widest part at the height z reaches; ok is false, and
// both are 0, where it has nothing at that height.
func (f *Figure) Across(z float64) (from, to float64, ok bool) {
	for _, r := range f.Drawn {
		var xs []float64
		for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
			ring := p.Flatten(eyeFlatness, nil)
			for i := range ring {
				a, b := ring[i], ring[(i+1)%len(ring)]
				if a.Y > z != (b.Y > z) {
					xs = append(xs, a.X+(b.X-a.X)*(z-a.Y)/(b.Y-a.Y))
				}
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if xs[i+1]-xs[i] > to-from {
				from, to, ok = xs[i], xs[i+1], true
			}
		}
	}
	return from, to, ok
}

// Box returns the box of the figure as it is cut, on its face.
func (f *Figure) Box() geom.Rect {
	box := geom.EmptyRect()
	for _, r := range f.Bodies {
		box = box.Union(r.Bounds())
	}
	return box
}
