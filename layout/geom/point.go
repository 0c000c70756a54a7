// Package geom is the plane and space geometry of sets: points, paths of lines, circular arcs,
// elliptical arcs and cubics, frames, one tolerance, flattening, lengths, areas and offsets.
//
// Axes are the design's: x to the right on the plan, y upstage, z up; millimetres; angles in radians
// inside this package's functions unless a name says Deg, anticlockwise, 0 along +x.
// Boundaries belong to the area they bound.
package geom

import "math"

// Tolerance is the distance in millimetres within which two places are one. It is the only
// tolerance of comparisons: at 10 km, the greatest coordinate allowed, a float64 still tells
// apart places 2e-9 mm from each other.
const Tolerance = 1e-6

// Flatness is the greatest distance in millimetres between a curve and the straight runs drawn for it
// on full-size paper.
const Flatness = 0.004

// Point is a place or a vector in the plane.
type Point struct{ X, Y float64 }

func (p Point) Add(q Point) Point     { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) Sub(q Point) Point     { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) Mul(k float64) Point   { return Point{p.X * k, p.Y * k} }
func (p Point) Dot(q Point) float64   { return p.X*q.X + p.Y*q.Y }
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }
func (p Point) Len() float64          { return math.Hypot(p.X, p.Y) }
func (p Point) Dist(q Point) float64  { return math.Hypot(p.X-q.X, p.Y-q.Y) }
func (p Point) Angle() float64        { return math.Atan2(p.Y, p.X) }
func (p Point) Lerp(q Point, t float64) Point {
	return Point{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t}
}

// Left returns p turned a quarter turn anticlockwise.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// Unit returns p at length 1; the zero vector stays zero.
func (p Point) Unit() Point {
	l := p.Len()
	if l == 0 {
		return Point{}
	}
	return Point{p.X / l, p.Y / l}
}

// Polar returns the point at distance r in direction a (radians).
func Polar(r, a float64) Point {
	s, c := math.Sincos(a)
	return Point{r * c, r * s}
}

// Near reports whether p and q are one place within Tolerance.
func (p Point) Near(q Point) bool { return p.Dist(q) <= Tolerance }

// Rect is an upright box, both edges included. An empty Rect has Min.X > Max.X.
type Rect struct{ Min, Max Point }

// EmptyRect contains nothing and is the start of a union.
func EmptyRect() Rect {
	inf := math.Inf(1)
	return Rect{Point{inf, inf}, Point{-inf, -inf}}
}

func (r Rect) Empty() bool { return r.Min.X > r.Max.X || r.Min.Y > r.Max.Y }
func (r Rect) W() float64  { return r.Max.X - r.Min.X }
func (r Rect) H() float64  { return r.Max.Y - r.Min.Y }
func (r Rect) Mid() Point  { return r.Min.Lerp(r.Max, 0.5) }
func (r Rect) Include(p Point) Rect {
	return Rect{Point{min(r.Min.X, p.X), min(r.Min.Y, p.Y)}, Point{max(r.Max.X, p.X), max(r.Max.Y, p.Y)}}
}
func (r Rect) Union(s Rect) Rect {
	if s.Empty() {
		return r
	}
	return r.Include(s.Min).Include(s.Max)
}

// Common returns what two boxes share; it is empty where they share nothing.
func (r Rect) Common(s Rect) Rect {
	return Rect{
		Point{max(r.Min.X, s.Min.X), max(r.Min.Y, s.Min.Y)},
		Point{min(r.Max.X, s.Max.X), min(r.Max.Y, s.Max.Y)},
	}
}

// Move returns the box shifted by d.
func (r Rect) Move(d Point) Rect { return Rect{r.Min.Add(d), r.Max.Add(d)} }

func (r Rect) Grow(d float64) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}
func (r Rect) Overlaps(s Rect) bool {
	return r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}
