package geom

import (
	"errors"
	"math"
)

// usable reports whether all sizes are finite and more than nothing.
func usable(sizes ...float64) bool {
	for _, s := range sizes {
		if !(s > 0) || math.IsInf(s, 1) {
			return false
		}
	}
	return true
}

// Finite reports whether both coordinates are numbers.
func (p Point) Finite() bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y) // ∞ − ∞ is no number either
}

// Rectangle returns the rectangle w along x, h along y about 0,0, closed and anticlockwise from its front
// edge's plan-left end. It is empty unless both are finite and more than 0.
func Rectangle(w, h float64) *Path {
	if !usable(w, h) {
		return &Path{}
	}
	return Polygon([]Point{{-w / 2, -h / 2}, {w / 2, -h / 2}, {w / 2, h / 2}, {-w / 2, h / 2}})
}

// Circle returns the circle about 0,0, closed and anticlockwise, as two half circles of which the first
// is the front one, from the plan-left end of the rim. It is empty unless the diameter is finite and more
// than 0.
func Circle(diameter float64) *Path {
	if !usable(diameter) {
		return &Path{}
	}
	r := diameter / 2
	p := NewPath(Point{-r, 0})
	p.ArcTo(Point{}, math.Pi, Point{r, 0})
	p.ArcTo(Point{}, math.Pi, Point{-r, 0})
	p.Close()
	return p
}

// Stadium returns everything within r of the straight way from a to b, closed and anticlockwise: the circle about a where they are one
// place. It is empty unless r is finite and more than 0.
func Stadium(a, b Point, r float64) *Path {
	if !usable(r) {
		return &Path{}
	}
	along := b.Sub(a)
	if along.Len() <= Tolerance {
		return Circle(2 * r).Transform(Isometry{A: 1, D: 1, T: a})
	}
	off := Point{-along.Y, along.X}.Unit().Mul(r)
	p := NewPath(a.Sub(off))
	p.LineTo(b.Sub(off))
	p.ArcTo(b, math.Pi, b.Add(off))
	p.LineTo(a.Add(off))
	p.ArcTo(a, math.Pi, a.Sub(off))
	p.Close()
	return p
}

// EllipsePath returns the ellipse w along x, h along y about 0,0, made like Circle.
func EllipsePath(w, h float64) *Path {
	if !usable(w, h) {
		return &Path{}
	}
	if w == h {
		return Circle(w)
	}
	p := NewPath(Point{-w / 2, 0})
	p.EllipseTo(Point{}, w/2, h/2, 0, math.Pi, math.Pi, Point{w / 2, 0})
	p.EllipseTo(Point{}, w/2, h/2, 0, 0, math.Pi, Point{-w / 2, 0})
	p.Close()
	return p
}

// MostCorners is the greatest number of corners of a regular polygon.
const MostCorners = 10_000

// RegularPolygon returns the regular polygon of n corners about 0,0, closed and anticlockwise. Edge 1, its
// first segment, is level and faces front; the path starts at that edge's plan-left end. across is
// measured from flat to flat, which only an even number of corners allows, or where corners is true it is
// the diameter of the circle through the corners. Errors are in words for the user.
func RegularPolygon(n int, across float64, corners bool) (*Path, error) {
	switch {
	case n < 3:
		return nil, errors.New("a polygon has at least 3 corners")
	case n > MostCorners:
		return nil, errors.New("a polygon has at most 10 000 corners")
	case !usable(across):
		return nil, errors.New("a polygon's size is more than 0")
	case !corners && n%2 == 1:
		return nil, errors.New("only a polygon with an even number of corners can be measured across flats; give the circle through its corners")
	}
	half := math.Pi / float64(n)
	r, flat := across/2, across/2
	if corners {
		flat = r * math.Cos(half)
	} else {
		r = flat / math.Cos(half)
	}
	// Corner k stands (2k − 1) half steps anticlockwise from the front. Those on the right are computed and
	// mirrored to the left, and with an even count the front ones to the back, so that the outline is
	// symmetrical to the last figure.
	ps := make([]Point, n)
	right := (n + 1) / 2
	for k := 1; k <= right; k++ {
		s, c := math.Sincos(float64(2*k-1) * half)
		q := Point{r * s, -r * c}
		switch {
		case k == 1:
			q.Y = -flat
		case 2*k-1 == n:
			q = Point{0, r} // the corner at the back of an odd count
		case n%2 == 0 && 4*k-2 == n:
			q = Point{r, 0} // the corner at plan-right
		case n%2 == 0 && 2*k > right+1:
			front := ps[right+1-k]
			q = Point{front.X, -front.Y}
		}
		ps[k%n] = q
		ps[(n+1-k)%n] = Point{-q.X, q.Y}
	}
	if n%2 == 1 {
		ps[right] = Point{0, r}
	}
	return Polygon(ps), nil
}

// Polygon returns the closed path of straight lines through the points, in their order. It is empty where
// a coordinate is not a number or there is no second point.
func Polygon(points []Point) *Path {
	for _, q := range points {
		if !q.Finite() {
			return &Path{}
		}
	}
	if len(points) < 2 {
		return &Path{}
	}
	p := &Path{
		verbs: make([]SegmentKind, len(points)-1, len(points)),
		pts:   append(make([]Point, 0, len(points)+1), points...),
	}
	p.Close()
	return p
}
