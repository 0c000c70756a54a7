package set

import "markout/layout/geom"

// thinnest is the width in millimetres at which a standing piece without a thickness is drawn on the plan.
const thinnest = 1

// Tread is the upper face of one tread or block: its depth runs from Y0 to Y1 along the flight's line, the face lies Top
// above the foot, Width across about Mid. Of a straight flight these are its own axes; Way turns them into these.
type Tread struct {
	Y0, Y1, Top, Width, Mid float64
}

// Treads returns the treads from the foot up, one fewer than the risers. A nosing is not counted in.
func (s *Steps) Treads() []Tread {
	n := min(len(s.Rises)-1, len(s.Goings))
	if n < 1 {
		return nil
	}
	out := make([]Tread, n)
	y, z := 0.0, 0.0
	for k := range out {
		z += s.Rises[k]
		out[k] = Tread{Y0: y, Y1: y + s.Goings[k], Top: z, Width: s.Width(k), Mid: s.Mid(k)}
		y += s.Goings[k]
	}
	return out
}

// Width returns how wide tread k is, counted from 0. A list that is too short serves with its last value, so that
// the last riser is as wide as the tread before it.
func (s *Steps) Width(k int) float64 { return at(s.Widths, k) }

// Mid returns how far the middle of tread k, counted from 0, lies to the right of the flight's own y axis.
func (s *Steps) Mid(k int) float64 { return at(s.Shifts, k) }

func at(list []float64, k int) float64 {
	if len(list) == 0 {
		return 0
	}
	return list[min(k, len(list)-1)]
}

// Total returns the height from the foot to where the flight lands.
func (s *Steps) Total() float64 { return sum(s.Rises) }

// Run returns the length on plan from the first riser to the last.
func (s *Steps) Run() float64 { return sum(s.Goings) }

func sum(list []float64) float64 {
	t := 0.0
	for _, x := range list {
		t += x
	}
	return t
}

// Face returns the side of y on which the flat's thickness lies: from 0 to T, or from −T to 0 with `face left`.
func (f *Flat) Face() (y0, y1 float64) {
	if f.FaceLeft {
		return -f.Thickness, 0
	}
	return 0, f.Thickness
}

// Footprints returns the areas that a shape covers on the plan, in its own axes: an outline with its holes, one
// area a tread or block from the foot up (a nosing lies over the tread below and is left aside), the strip of a
// flat or of a standing panel (at least 1 mm, so that it shows), the larger outline of a cone. A mark covers nothing, nor
// does a flight of one riser.
func Footprints(sh Shape) []geom.Region {
	switch s := sh.(type) {
	case *Hall:
		return outlined(s.Outline)
	case *Room:
		return outlined(s.Outline)
	case *Dressing:
		return outlined(s.Outline)
	case *Platform:
		return outlined(s.Outline)
	case *Post:
		return outlined(s.Outline)
	case *Reserve:
		return outlined(s.Outline)
	case *Ring:
		r := geom.Region{Outer: s.Outer.Path}
		if s.Inner != nil {
			r.Holes = []*geom.Path{s.Inner.Path}
		}
		return []geom.Region{r}
	case *Panel:
		if s.Stands {
			b := s.Outline.Path.Bounds()
			return []geom.Region{{Outer: box(b.Min.X, 0, b.Max.X, max(s.Thickness, thinnest))}}
		}
		r := geom.Region{Outer: s.Outline.Path}
		for _, h := range s.Holes {
			r.Holes = append(r.Holes, h.Path)
		}
		return []geom.Region{r}
	case *Steps:
		out := make([]geom.Region, len(s.Treads()))
		for k := range out {
			out[k] = s.TreadOutline(k)
		}
		return out
	case *Ramp:
		return []geom.Region{{Outer: box(-s.Width/2, 0, s.Width/2, s.Length)}}
	case *Cone:
		return outlined(s.Widest())
	case *Figure:
		b := s.Box()
		return []geom.Region{{Outer: box(b.Min.X, 0, b.Max.X, max(s.Thickness, thinnest))}}
	case *Cloth:
		b := s.Whole()
		return []geom.Region{{Outer: box(b.Min.X, 0, b.Max.X, thinnest)}}
	case *Flat:
		p, err := s.Strip(0, s.Length)
		if err != nil {
			return nil
		}
		return []geom.Region{{Outer: p}}
	}
	return nil
}

func outlined(o Outline) []geom.Region { return []geom.Region{{Outer: o.Path}} }

// box returns the upright rectangle, closed and anticlockwise from its lower left.
func box(x0, y0, x1, y1 float64) *geom.Path {
	p := geom.NewPath(geom.Point{X: x0, Y: y0})
	p.LineTo(geom.Point{X: x1, Y: y0})
	p.LineTo(geom.Point{X: x1, Y: y1})
	p.LineTo(geom.Point{X: x0, Y: y1})
	p.Close()
	return p
}

// Height returns how far a shape reaches above its own underside: of steps and ramps up to where they land, of a hall
// its ceiling (0 where that is not given), of a mark 0.
func Height(sh Shape) float64 {
	switch s := sh.(type) {
	case *Hall:
		return s.Ceiling
	case *Platform:
		return s.Height
	case *Steps:
		return s.Total()
	case *Ramp:
		return s.Rise
	case *Post:
		return s.Height
	case *Ring:
		return s.Height
	case *Panel:
		if s.Stands {
			return s.Outline.Path.Bounds().Max.Y
		}
		return s.Thickness
	case *Cone:
		return s.Height
	case *Flat:
		return s.Height
	case *Reserve:
		return s.Height
	case *Figure:
		return s.Ground + s.Height
	case *Cloth:
		return s.Height
	case *Dressing:
		return s.Height
	}
	return 0
}

// Top returns the height above the floor that e reaches where it stands at pl.
func Top(e *Element, pl Place) float64 { return pl.Level() + Height(e.Shape) }

// Surfaces returns the upper faces of e at pl that someone can stand on, in the set's axes: a platform's top, treads
// (with their nosing) and block tops from the foot up, a ramp's plane, the top of a post, of a ring, of a lying panel, of a
// cone that has an upper face.
// Where two lie over one another the higher is stood on. A hall's floor is not among them.
func Surfaces(e *Element, pl Place) []Surface {
	m := pl.Frame.Plan()
	if pl.Over != nil {
		return undersides(e, pl)
	}
	flat := func(r geom.Region, height float64) Surface {
		return Surface{Region: r.Transform(m), A: pl.Level() + height, Owner: e.Name}
	}
	switch s := e.Shape.(type) {
	case *Platform, *Post, *Ring, *Dressing:
		return []Surface{flat(Footprints(s)[0], Height(s))}
	case *Panel:
		if s.Stands {
			return nil
		}
		return []Surface{flat(Footprints(s)[0], s.Thickness)}
	case *Steps:
		treads := s.Treads()
		out := make([]Surface, len(treads))
		for k, t := range treads {
			out[k] = flat(s.TreadBoard(k), t.Top)
		}
		return out
	case *Cone:
		if top := s.Rim(s.Upper); !top.Path.Empty() {
			return []Surface{flat(geom.Region{Outer: top.Path}, s.Height)}
		}
	case *Ramp:
		out := flat(Footprints(s)[0], 0)
		if s.Length > 0 {
			up := m.Vector(geom.Point{Y: s.Rise / s.Length})
			out.A -= up.Dot(m.T)
			out.B, out.C = up.X, up.Y
		}
		return []Surface{out}
	}
	return nil
}

// undersides are the upper faces of what hangs upside down: what was its underside, which lies at its own 0.
func undersides(e *Element, pl Place) []Surface {
	switch e.Shape.(type) {
	case *Hall, *Room, *Mark, *Reserve, *Walk:
		return nil
	}
	m := pl.Frame.Plan()
	var out []Surface
	for _, r := range Footprints(e.Shape) {
		out = append(out, Surface{Region: r.Transform(m), A: pl.Frame.T.Z, Owner: e.Name})
	}
	return out
}
