package geom

import (
	"errors"
	"math"
	"strconv"
)

// TwoDistances returns the two places that are da from a and db from b: left and right of the way from a
// to b. Where the distances only just meet, both are the one place on the line. It is not ok where they
// do not meet by more than Tolerance, or a and b are one place.
func TwoDistances(a Point, da float64, b Point, db float64) (left, right Point, ok bool) {
	c := a.Dist(b)
	if !a.Finite() || !b.Finite() || !(da >= 0) || !(db >= 0) || !(c > Tolerance) ||
		c > da+db+Tolerance || c < math.Abs(da-db)-Tolerance {
		return Point{}, Point{}, false
	}
	// Along the line and off it; written so that flat triangles keep their figures.
	x := (c + (da-db)/c*(da+db)) / 2
	h := 0.0
	if q := (da - x) * (da + x); q > 0 {
		h = math.Sqrt(q)
	}
	along := b.Sub(a).Unit()
	foot, off := a.Add(along.Mul(x)), along.Left().Mul(h)
	return foot.Add(off), foot.Sub(off), true
}

// TriangleError says that three measured lengths close no triangle.
type TriangleError struct {
	First    bool    // of a measured hall: the triangle of the front wall and the second side; else that of the third and fourth
	A, B     float64 // its two sides, millimetres
	Diagonal float64
}

// Least and Greatest are the bounds between which the diagonal would close the triangle, both left out.
func (e *TriangleError) Least() float64    { return math.Abs(e.A - e.B) }
func (e *TriangleError) Greatest() float64 { return e.A + e.B }

func (e *TriangleError) Error() string {
	mm := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	which := "third and fourth sides"
	if e.First {
		which = "front wall and second side"
	}
	return "the " + which + " (" + mm(e.A) + " and " + mm(e.B) + ") and the diagonal " + mm(e.Diagonal) +
		" close no triangle: that diagonal is between " + mm(e.Least()) + " and " + mm(e.Greatest())
}

var errHall = errors.New("a measured hall has four sides and a diagonal, all more than 0")

// MeasuredHall returns the four corners of a hall of which the sides and one diagonal were measured, in
// the hall's own axes: the first side, the front wall, lies on y 0 with its middle at x 0; sides and corners
// follow anticlockwise from that wall's plan-left end, where the diagonal starts. The error is a
// *TriangleError where the lengths do not close, sides being four finite lengths of more than 0.
func MeasuredHall(sides []float64, diagonal float64) ([]Point, error) {
	if len(sides) != 4 || !usable(sides...) || !usable(diagonal) {
		return nil, errHall
	}
	a, b := Point{-sides[0] / 2, 0}, Point{sides[0] / 2, 0}
	closes := func(s, t float64) bool {
		return diagonal < s+t-Tolerance && diagonal > math.Abs(s-t)+Tolerance
	}
	if !closes(sides[0], sides[1]) {
		return nil, &TriangleError{First: true, A: sides[0], B: sides[1], Diagonal: diagonal}
	}
	if !closes(sides[2], sides[3]) {
		return nil, &TriangleError{A: sides[2], B: sides[3], Diagonal: diagonal}
	}
	c, _, _ := TwoDistances(a, diagonal, b, sides[1])
	d, _, _ := TwoDistances(a, sides[3], c, sides[2])
	return []Point{a, b, c, d}, nil
}
