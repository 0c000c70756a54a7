package set

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// StringerSeat is how far a stringer that stops under the deck's board goes in beneath it, millimetres
// (common practice, no source).
const StringerSeat = 100.0

// Stringer returns the profile of a flight's stringer, closed, solid down to the foot: what is left of the flight when
// the treads and the riser boards are taken off. The first notch is short by the tread, the others rise as the flight
// does. x runs from the foot the way one climbs, y up from it. Where the deck's board is known the stringer goes on under
// it, its last notch rising by the last riser plus the tread less that board, and bears along StringerSeat; otherwise it
// ends against the deck below the last tread.
func (s *Steps) Stringer() *geom.Path { return s.StringerUnder(true) }

// StringerUnder is Stringer under the flight's right edge as one climbs, or under its left one: its goings are the lengths of
// that edge, a curved one laid flat.
func (s *Steps) StringerUnder(right bool) *geom.Path { return s.profile(s.Notches(right)) }

// profile is the stringer's profile with its notches, one a riser, wherever they lie.
func (s *Steps) profile(notches []Notch) *geom.Path {
	last := notches[len(notches)-1]
	p := geom.NewPath(geom.Point{X: notches[0].Back})
	// The foot's line comes first, so that the profile runs anticlockwise and starts at the toe.
	if s.UnderBoard() {
		end := last.Riser + max(StringerSeat, last.Back-last.Riser)
		p.LineTo(geom.Point{X: end})
		p.LineTo(geom.Point{X: end, Y: s.Total() - s.DeckBoard})
		p.LineTo(geom.Point{X: last.Back, Y: s.Total() - s.DeckBoard})
	} else {
		p.LineTo(geom.Point{X: last.Riser})
	}
	treads := s.Treads()
	for k := len(treads) - 1; k >= 0; k-- {
		back := notches[k+1].Back
		if k == len(treads)-1 && !s.UnderBoard() {
			back = last.Riser
		}
		p.LineTo(geom.Point{X: back, Y: treads[k].Top - s.Tread})
		p.LineTo(geom.Point{X: notches[k].Back, Y: treads[k].Top - s.Tread})
	}
	p.Close()
	return p
}

// UnderBoard reports whether the stringer stops under the board of the deck that the flight meets.
func (s *Steps) UnderBoard() bool {
	return s.Meets != "" && s.DeckBoard > geom.Tolerance && s.Total()-s.DeckBoard > s.Total()-s.Rises[len(s.Rises)-1]-s.Tread+geom.Tolerance
}

// Path is the edge of the opening in the face, x along from P, y up from the foot, closed and anticlockwise from
// its lower corner nearer P. Its height includes the rise of an arched head. A head that rises no more than half the
// width is a circular arc (radius (w²/4 + a²) / 2a); one that rises further is half an ellipse, which stays within the
// width.
func (o Opening) Path() *geom.Path {
	x0, x1 := o.At, o.At+o.Width
	y0, y1 := o.Sill, o.Sill+o.Height
	a := min(o.Arch, o.Height)
	if a <= geom.Tolerance {
		return box(x0, y0, x1, y1)
	}
	spring, half := y1-a, o.Width/2
	p := geom.NewPath(geom.Point{X: x0, Y: y0})
	p.LineTo(geom.Point{X: x1, Y: y0})
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

// CutFace returns the closed edges of the flat as it is cut: the outer one, notched where an opening comes down to the
// foot, and a closed edge for each other opening. x runs along from P, y up from the foot.
func (f *Flat) CutFace() (outer *geom.Path, holes []*geom.Path) {
	var down []Opening
	for _, o := range f.Openings {
		if o.Sill <= geom.Tolerance {
			down = append(down, o)
			continue
		}
		holes = append(holes, o.Path())
	}
	slices.SortStableFunc(down, func(a, b Opening) int { return cmp.Compare(a.At, b.At) })
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
func notch(o Opening, length float64) []geom.Segment {
	var segs []geom.Segment
	r := o.Path().Reverse()
	for i, s := range r.Segments() {
		if i == r.Len()-1 {
			break // the foot
		}
		upright := s.Kind == geom.Line && math.Abs(s.From.X-s.To.X) <= geom.Tolerance
		if upright && (s.From.X <= geom.Tolerance || s.From.X >= length-geom.Tolerance) {
			continue
		}
		segs = append(segs, s)
	}
	return segs
}
