package develop

import (
	"errors"
	"math"

	"markout/layout/geom"
)

// Frustum is the development of the side of a round cone or of a part of one: a sector between two circles about its
// apex (a cone's side is a sector of a circle whose radius is its slant height and whose arc is its rim).
type Frustum struct {
	Slant        float64 // height along the side
	Inner, Outer float64 // radii of the development; Inner is 0 for a whole cone
	Sector       float64 // degrees
	Area         float64
}

// NewFrustum develops the side of a cone between two diameters at a height from one another. One diameter may be 0.
// A cylinder has no apex and is an error, as are sizes of which nothing can be made.
func NewFrustum(lower, upper, height float64) (Frustum, error) {
	if !(lower >= 0 && upper >= 0 && height > 0) || math.IsInf(lower+upper+height, 0) || lower+upper == 0 {
		return Frustum{}, errors.New("a cone has a height of more than 0 and a diameter of more than 0")
	}
	a, b := max(lower, upper)/2, min(lower, upper)/2
	if a-b <= geom.Tolerance {
		return Frustum{}, errors.New("its diameters are alike: it is a cylinder, a straight strip")
	}
	f := Frustum{Slant: math.Hypot(a-b, height)}
	f.Outer = f.Slant * a / (a - b)
	f.Inner = f.Slant * b / (a - b)
	f.Sector = 360 * (a - b) / f.Slant
	f.Area = math.Pi * (a + b) * f.Slant
	return f, nil
}

// Path returns the outline of the development, its apex at 0,0, symmetrical about the x axis, anticlockwise.
func (f Frustum) Path() *geom.Path {
	half := f.Sector / 2 * math.Pi / 180
	p := geom.NewPath(geom.Polar(f.Outer, -half))
	p.ArcTo(geom.Point{}, 2*half, geom.Polar(f.Outer, half))
	p.LineTo(geom.Polar(f.Inner, half))
	if f.Inner > geom.Tolerance {
		p.ArcTo(geom.Point{}, -2*half, geom.Polar(f.Inner, -half))
	}
	p.Close()
	return p
}

// Pyramid is the development of the side of a regular tapered piece with flat faces.
type Pyramid struct {
	Sides  int
	Face   float64 // height of a face along its middle
	Edge   float64 // length of the edge between two faces
	Apex   float64 // from the apex along such an edge to the larger end
	Corner float64 // degrees, of one face at the apex
	Area   float64 // of all faces
}

// NewPyramid develops the faces of a tapered piece of n sides between two sizes across flats, as 200 of a square, at a
// height from one another. For odd n the size is twice the distance of a side from the middle.
func NewPyramid(n int, lower, upper, height float64) (Pyramid, error) {
	if n < 3 || n > geom.MostCorners {
		return Pyramid{}, errors.New("a tapered piece has 3 to 10 000 sides")
	}
	if !(lower >= 0 && upper >= 0 && height > 0) || math.IsInf(lower+upper+height, 0) {
		return Pyramid{}, errors.New("a tapered piece has a height of more than 0 and a size of more than 0")
	}
	a, b := max(lower, upper)/2, min(lower, upper)/2
	if a-b <= geom.Tolerance {
		return Pyramid{}, errors.New("its ends are alike: it is a box")
	}
	half := math.Pi / float64(n)
	p := Pyramid{Sides: n, Face: math.Hypot(a-b, height), Edge: math.Hypot((a-b)/math.Cos(half), height)}
	p.Apex = p.Edge * a / (a - b)
	p.Corner = 2 * math.Asin(a*math.Tan(half)/p.Apex) * 180 / math.Pi
	p.Area = float64(n) * (a + b) * math.Tan(half) * p.Face
	return p, nil
}
