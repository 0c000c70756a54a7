package geom

import (
	"errors"
	"math"
	"strconv"
)

// greatestRadius is the radius in millimetres beyond which an arc is a straight line: 10 000 km. At more
// than that a float64 no longer places its points within Tolerance.
const greatestRadius = 1e10

// radiusSlack is how much longer than the diameter a chord may be: so much is put down to rounding, and
// the radius raised to half the chord.
const radiusSlack = 0.01

// LeastRadiusError says that no arc of the radius given spans its ends.
type LeastRadiusError struct {
	Least float64 // the least radius that does, millimetres
}

func (e *LeastRadiusError) Error() string {
	return "the radius is too small to reach; the least is " + strconv.FormatFloat(math.Ceil(e.Least*1000)/1000, 'f', -1, 64) + " mm"
}

// ArcRadius returns the centre and the sweep (radians, anticlockwise positive) of the arc of radius r from
// one place to another: turning to the left as one walks it, or to the right; the short way, or the long
// one. A chord longer than 2r by no more than 0.01 mm raises the radius to half the chord; by more, the
// error is a *LeastRadiusError.
func ArcRadius(from, to Point, r float64, left, long bool) (centre Point, sweep float64, err error) {
	if !from.Finite() || !to.Finite() || !usable(r) {
		return Point{}, 0, errors.New("an arc's radius is more than 0")
	}
	if r > greatestRadius {
		return Point{}, 0, errors.New("an arc's radius is at most 10 000 km")
	}
	half := from.Dist(to) / 2
	if 2*half <= Tolerance {
		return Point{}, 0, errors.New("an arc ends at another place than it starts")
	}
	if half > r {
		if 2*(half-r) > radiusSlack {
			return Point{}, 0, &LeastRadiusError{Least: half}
		}
		r = half
	}
	// The centre stands h off the middle of the chord: on the left of the short arc that turns left.
	h := math.Sqrt((r - half) * (r + half))
	sweep = 2 * math.Atan2(half, h)
	if long {
		sweep, h = 2*math.Pi-sweep, -h
	}
	if !left {
		sweep, h = -sweep, -h
	}
	return from.Lerp(to, 0.5).Add(to.Sub(from).Unit().Left().Mul(h)), sweep, nil
}

// ArcThrough returns the centre and the sweep (radians, anticlockwise positive) of the arc from one place
// through another to a third. It is an error where two of them are one place or the three stand in line.
func ArcThrough(from, through, to Point) (centre Point, sweep float64, err error) {
	if !from.Finite() || !through.Finite() || !to.Finite() {
		return Point{}, 0, errors.New("an arc's places are numbers")
	}
	a, b := through.Sub(from), to.Sub(from)
	if a.Len() <= Tolerance || b.Len() <= Tolerance || through.Near(to) {
		return Point{}, 0, errors.New("an arc goes through three different places")
	}
	inLine := errors.New("the three places of the arc stand in one line")
	// Twice the triangle's area; over its longest side, the height, which decides what is in line.
	area2 := a.Cross(b)
	longest := max(a.Len(), b.Len(), through.Dist(to))
	if math.Abs(area2) <= longest*Tolerance {
		return Point{}, 0, inLine
	}
	// The centre of the circle through 0, a and b.
	aa, bb := a.Dot(a), b.Dot(b)
	c := Point{(b.Y*aa - a.Y*bb) / (2 * area2), (a.X*bb - b.X*aa) / (2 * area2)}
	if c.Len() > greatestRadius {
		return Point{}, 0, inLine
	}
	// The angle at the centre over the arc that does not hold through is twice the angle at through; the
	// arc wanted is the rest of the turn.
	u, v := from.Sub(through), to.Sub(through)
	return from.Add(c), math.Copysign(2*math.Atan2(math.Abs(u.Cross(v)), -u.Dot(v)), area2), nil
}
