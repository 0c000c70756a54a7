package geom

import "math"

// Vec is a place or a vector in space, millimetres, z up.
type Vec struct{ X, Y, Z float64 }

// Plan drops z.
func (v Vec) Plan() Point { return Point{v.X, v.Y} }

// Frame is an isometry of space: a piece's own axes laid into the set's. The columns of R are the images of
// the own axes, T the image of the own origin. It is improper (det R = −1) only for a room hung mirrored.
type Frame struct {
	R [3][3]float64
	T Vec
}

// Identity is the frame of a piece that stands in the set's own axes.
func Identity() Frame { return Frame{R: [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}} }

// Upright returns the frame of a piece turned by turn degrees about its own origin, which stands at p, its underside at z.
func Upright(p Point, z, turn float64) Frame {
	s, c := SincosDeg(turn)
	return Frame{R: [3][3]float64{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}, T: Vec{p.X, p.Y, z}}
}

// SincosDeg is exact at multiples of 90°.
func SincosDeg(deg float64) (sin, cos float64) {
	d := math.Mod(deg, 360)
	switch d {
	case 0:
		return 0, 1
	case 90, -270:
		return 1, 0
	case 180, -180:
		return 0, -1
	case 270, -90:
		return -1, 0
	}
	return math.Sincos(d * math.Pi / 180)
}

// Apply returns the image of v.
func (f Frame) Apply(v Vec) Vec {
	return Vec{
		f.R[0][0]*v.X + f.R[0][1]*v.Y + f.R[0][2]*v.Z + f.T.X,
		f.R[1][0]*v.X + f.R[1][1]*v.Y + f.R[1][2]*v.Z + f.T.Y,
		f.R[2][0]*v.X + f.R[2][1]*v.Y + f.R[2][2]*v.Z + f.T.Z,
	}
}

// Then returns the frame that first applies f and then g.
func (f Frame) Then(g Frame) Frame {
	var h Frame
	for i := range 3 {
		for j := range 3 {
			h.R[i][j] = g.R[i][0]*f.R[0][j] + g.R[i][1]*f.R[1][j] + g.R[i][2]*f.R[2][j]
		}
	}
	h.T = g.Apply(f.T)
	return h
}

// Plan returns what the frame does to plan places of upright and of overhead pieces: the x, y part.
func (f Frame) Plan() Isometry {
	return Isometry{A: f.R[0][0], B: f.R[0][1], C: f.R[1][0], D: f.R[1][1], T: f.T.Plan()}
}

// TurnDeg returns the direction of the own x axis on the plan, degrees from 0 up to 360.
func (f Frame) TurnDeg() float64 {
	d := math.Atan2(f.R[1][0], f.R[0][0]) * 180 / math.Pi
	if d < 0 {
		d += 360
	}
	if d >= 360-1e-12 {
		d = 0
	}
	return d
}

// Isometry is a turn (or a reflection, where AD − BC = −1) of the plane followed by a shift:
// (x, y) → (Ax + By, Cx + Dy) + T.
type Isometry struct {
	A, B, C, D float64
	T          Point
}

// Move returns the isometry that turns by deg degrees about the origin, then shifts by t.
func Move(t Point, deg float64) Isometry { return Upright(t, 0, deg).Plan() }

// Apply returns the image of p.
func (m Isometry) Apply(p Point) Point {
	return Point{m.A*p.X + m.B*p.Y + m.T.X, m.C*p.X + m.D*p.Y + m.T.Y}
}

// Vector returns the image of a direction: the turn without the shift.
func (m Isometry) Vector(p Point) Point { return Point{m.A*p.X + m.B*p.Y, m.C*p.X + m.D*p.Y} }

// Hand returns 1 for a turn, −1 for a reflection.
func (m Isometry) Hand() float64 {
	if m.A*m.D-m.B*m.C < 0 {
		return -1
	}
	return 1
}

// Then returns the isometry that first applies m and then n.
func (m Isometry) Then(n Isometry) Isometry {
	return Isometry{
		A: n.A*m.A + n.B*m.C, B: n.A*m.B + n.B*m.D,
		C: n.C*m.A + n.D*m.C, D: n.C*m.B + n.D*m.D,
		T: n.Apply(m.T),
	}
}

// Inverse returns the isometry that undoes m.
func (m Isometry) Inverse() Isometry {
	// The inverse of an orthogonal matrix is its transpose.
	n := Isometry{A: m.A, B: m.C, C: m.B, D: m.D}
	n.T = n.Vector(m.T).Mul(-1)
	return n
}

// Inverse returns the frame that undoes f.
func (f Frame) Inverse() Frame {
	var g Frame
	for i := range 3 {
		for j := range 3 {
			g.R[i][j] = f.R[j][i]
		}
	}
	t := g.Apply(f.T)
	g.T = Vec{-t.X, -t.Y, -t.Z}
	return g
}
