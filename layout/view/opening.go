package view

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// openingPath is the edge of an opening in the face, x along from P, y up from the foot, closed and anticlockwise from
// its lower corner nearer P. Its height includes the rise of an arched head. A head that rises no more than half the
// width is a circular arc (radius (w²/4 + a²) / 2a); one that rises further is half an ellipse, which stays within the
// width.
func openingPath(o set.Opening) *geom.Path {
	x0, x1 := o.At, o.At+o.Width
	y0, y1 := o.Sill, o.Sill+o.Height
	a := min(o.Arch, o.Height)
	if a <= geom.Tolerance {
		return box(x0, y0, x1, y1)
	}
	spring, half := y1-a, o.Width/2
	p := polyline(geom.Point{X: x0, Y: y0}, geom.Point{X: x1, Y: y0})
	if spring-y0 > geom.Tolerance {
		p.LineTo(geom.Point{X: x1, Y: spring})
	}
	head(p, x0+half, spring, half, a)
	p.Close()
	return p
}

// head carries p, which stands at the spring nearer Q, over the arch to the spring nearer P.
func head(p *geom.Path, mid, spring, half, rise float64) {
	end := geom.Point{X: mid - half, Y: spring}
	if rise > half+geom.Tolerance {
		p.EllipseTo(geom.Point{X: mid, Y: spring}, half, rise, 0, 0, math.Pi, end)
		return
	}
	r := (half*half + rise*rise) / (2 * rise)
	p.ArcTo(geom.Point{X: mid, Y: spring + rise - r}, 2*math.Atan2(half, r-rise), end)
}

// cutFace returns the closed edges of a flat as it is cut: the outer one, notched where an opening comes down to the
// foot, and a closed edge for each other opening. x runs along from P, y up from the foot.
func cutFace(f *set.Flat) (outer *geom.Path, holes []*geom.Path) {
	var down []set.Opening
	for _, o := range f.Openings {
		if o.Sill <= geom.Tolerance {
			down = append(down, o)
			continue
		}
		holes = append(holes, openingPath(o))
	}
	slices.SortStableFunc(down, byAt)
	outer = &geom.Path{}
	if len(down) == 0 || down[0].At > geom.Tolerance {
		outer = geom.NewPath(geom.Point{}) // otherwise the first notch is where it starts
	}
	atQ := false
	for _, o := range down {
		for _, s := range notch(o, f.Length) {
			outer.Append(s)
		}
		atQ = o.At+o.Width >= f.Length-geom.Tolerance
	}
	if !atQ {
		outer.LineTo(geom.Point{X: f.Length})
	}
	outer.LineTo(geom.Point{X: f.Length, Y: f.Height})
	outer.LineTo(geom.Point{Y: f.Height})
	outer.Close()
	return outer, holes
}

// notch is the edge of an opening that comes down to the foot, from its foot nearer P over the head to the other. A jamb
// that lies on an end of the face is no edge and is left out.
func notch(o set.Opening, length float64) []geom.Segment {
	var segs []geom.Segment
	r := openingPath(o).Reverse()
	for i, s := range r.Segments() {
		if i == r.Len()-1 {
			break // the foot
		}
		upright := s.Kind == geom.Line && near(s.From.X, s.To.X)
		if upright && (s.From.X <= geom.Tolerance || s.From.X >= length-geom.Tolerance) {
			continue
		}
		segs = append(segs, s)
	}
	return segs
}

func byAt(a, b set.Opening) int { return cmp.Compare(a.At, b.At) }
