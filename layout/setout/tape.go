package setout

import (
	"math"

	"markout/layout/geom"
)

// Crossings in degrees between which two tapes fix a point well, both included. Common practice, no source: at 30° and
// at 150° the place is as uncertain as 1/sin 30° = 2 times the tapes, and beyond them it soon gets much worse.
const (
	LeastCrossing = 30.0
	MostCrossing  = 150.0
)

// classes holds a (mm) and b (mm a metre) of the accuracy classes I, II and III.
var classes = [3][2]float64{{0.1, 0.1}, {0.3, 0.2}, {0.6, 0.4}}

// Allowed returns the greatest error in millimetres that accuracy class 1, 2 or 3 allows a new tape between two of its
// marks the given millimetres apart: a + bL, L up to the next whole metre. Any other class is read as 2.
// It holds at 20 °C and, from 5 m, a pull of 50 N; sag, reading and a hook's face are not counted.
// Source: Directive 2014/32/EU, Annex X (MI-008), chapter I.
func Allowed(class int, length float64) float64 {
	if class < 1 || class > 3 {
		class = 2
	}
	c := classes[class-1]
	return c[0] + c[1]*math.Ceil(max(length-geom.Tolerance, 0)/1000)
}

// CrossingError returns how far a point may lie from its place when it is fixed by two tapes that may be wrong by e1
// and e2 and that cross there at the given degrees: √(e1² + e2² + 2·e1·e2·|cos γ|) / sin γ, the long diagonal of the
// parallelogram between the two pairs of parallel lines. It is +Inf where the tapes lie in one line.
func CrossingError(e1, e2, crossing float64) float64 {
	s, c := geom.SincosDeg(crossing)
	if math.Abs(s) < 1e-12 {
		return math.Inf(1)
	}
	return math.Sqrt(e1*e1+e2*e2+2*e1*e2*math.Abs(c)) / math.Abs(s)
}

// Crossing returns the angle in degrees, 0 to 180, at p between the directions to a and to b; 0 where one of them is p.
func Crossing(p, a, b geom.Point) float64 {
	u, v := a.Sub(p), b.Sub(p)
	return math.Atan2(math.Abs(u.Cross(v)), u.Dot(v)) * 180 / math.Pi
}

// Side returns in words on which side of the line through a and b the point p lies: upstage or downstage, or, where
// that line runs more up and down stage than across, plan-left or plan-right. It is empty for a point on the line.
func Side(p, a, b geom.Point) string {
	d := b.Sub(a)
	off := d.Left().Unit().Mul(d.Unit().Cross(p.Sub(a))) // from the line square out to p
	switch {
	case off.Len() <= geom.Tolerance:
		return ""
	case math.Abs(d.X) >= math.Abs(d.Y):
		if off.Y > 0 {
			return "upstage"
		}
		return "downstage"
	case off.X > 0:
		return "plan-right"
	}
	return "plan-left"
}
